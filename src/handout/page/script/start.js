// Without this script each take has a player of its own, and each line's link opens its track there. With it, the page is a music
// stand.

const takes = [...document.querySelectorAll("#takes > .take")];
const player = new Tracks(takes.map((take) => take.querySelector("audio")), data.takes);
const stand = new Stand(player);

/** Shows what belongs to the chosen take. */
function showTake() {
  for (const place of document.querySelectorAll(".play")) {
    place.hidden = Number(place.dataset.take) !== player.take;
  }
  for (const music of document.querySelectorAll(".music")) {
    music.hidden = Number(music.dataset.key) !== player.key;
  }
}

function chooseTake() {
  for (const [index, take] of takes.entries()) {
    take.querySelector(".player").hidden = true;
    if (takes.length === 1) continue;
    const title = take.querySelector("h2");
    const choice = document.createElement("input");
    choice.type = "radio";
    choice.name = "take";
    choice.id = `choice${index}`;
    choice.checked = index === player.take;
    choice.setAttribute("aria-labelledby", title.id);
    choice.addEventListener("change", () => {
      player.choose(index);
      memory.set(`take ${document.title}`, data.takes[index].file);
      showTake();
    });
    const label = document.createElement("label");
    label.htmlFor = choice.id;
    label.append(...title.childNodes);
    title.append(choice, label);
  }
}

function playButtons() {
  for (const link of document.querySelectorAll("a.jump")) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "jump";
    button.append(...link.childNodes);
    const of = Number(link.closest("li").dataset.line);
    button.addEventListener("click", () => stand.begin(player.lines.findIndex((line) => line.of === of)));
    link.replaceWith(button);
  }
  const start = document.createElement("button");
  start.type = "button";
  start.id = "start";
  start.className = "deed";
  start.textContent = "Start from line 1";
  start.addEventListener("click", () => stand.begin(0));
  by("takes").append(start);
}

const remembered = data.takes.findIndex((take) => take.file === memory.get(`take ${document.title}`));
if (remembered > 0) player.choose(remembered);
document.body.classList.add("with-script");
chooseTake();
playButtons();
showTake();
firstUse();
keepOnPhone(true);
