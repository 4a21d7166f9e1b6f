// What is to be read before the first note: a card that comes by itself once, and again when it is asked for.

function firstUse() {
  const section = by("before");
  const card = document.createElement("dialog");
  card.setAttribute("aria-labelledby", "before-title");
  card.className = "card";
  card.tabIndex = -1;
  section.replaceWith(card);
  card.append(...section.childNodes);
  const done = document.createElement("button");
  done.type = "button";
  done.className = "deed";
  done.textContent = "I have read this";
  done.addEventListener("click", () => {
    memory.set("card", "read");
    card.close();
  });
  card.append(done);
  const again = document.createElement("button");
  again.type = "button";
  again.className = "quiet";
  again.textContent = "Before you play";
  again.addEventListener("click", () => card.showModal());
  document.querySelector("header").append(again);
  if (memory.get("card") !== "read") {
    card.showModal();
    // From the beginning, not from the first thing that can be touched.
    card.focus();
    card.scrollTop = 0;
  }
}
