// What is to be read before the first note: a card that opens by itself once, and again when it is asked for.

function firstUse() {
  const section = by("before");
  const card = make("dialog", { className: "card", tabIndex: -1, "aria-labelledby": "before-title" });
  section.replaceWith(card);
  card.append(...section.childNodes);
  const read = () => {
    memory.set("card", "read");
    card.close();
  };
  card.append(button(phrase("have-read"), read, "deed"));
  find("header").append(button(phrase("before-playing"), () => openSheet(card)));
  if (memory.get("card") === "read") return;
  openSheet(card);
  // From the beginning, not from the first thing that can be touched.
  card.focus();
}
