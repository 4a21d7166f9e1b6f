// Without this script each take has a player of its own, and each line's link opens its track there. With it, the page is a music
// stand: at once on the finished tracks, and a moment later, where that can be, on the engine.

const takes = [...document.querySelectorAll("#takes > .take")];
const tracks = new Tracks(takes.map((take) => take.querySelector("audio")), data.takes);
const stand = new Stand(tracks);
let player = tracks;

/** Shows what belongs to what is played. */
function showTake() {
  for (const place of document.querySelectorAll(".play")) {
    place.hidden = player === tracks && Number(place.dataset.take) !== tracks.take;
  }
  showKey(player.key);
}

function chooseTake() {
  for (const [index, take] of takes.entries()) {
    take.querySelector(".player").hidden = true;
    if (takes.length === 1) continue;
    const title = take.querySelector("h2");
    const radio = make("input", { type: "radio", name: "take", id: `choice${index}`, checked: index === tracks.take });
    radio.setAttribute("aria-labelledby", title.id);
    radio.addEventListener("change", () => {
      tracks.choose(index);
      memory.set(`take ${document.title}`, data.takes[index].file);
      showTake();
    });
    const label = make("label", { htmlFor: radio.id });
    label.append(...title.childNodes);
    title.append(radio, label);
  }
}

function playButtons() {
  for (const link of document.querySelectorAll("a.jump")) {
    const jump = make("button", { type: "button", className: "jump" }, ...link.childNodes);
    const of = Number(link.closest("li").dataset.line);
    jump.addEventListener("click", () => stand.begin(player.lines.findIndex((line) => line.of === of)));
    link.replaceWith(jump);
  }
  const start = button("Start from line 1", () => stand.begin(0), "deed");
  start.id = "start";
  by("takes").append(start);
}

/** With the engine: any tempo and key, and a pencil. */
async function withEngine() {
  const rendered = await Rendered.start();
  if (!rendered) return false;
  const { tempo, key, guide } = data.takes[tracks.take];
  const { text, other } = Pencil.remembered();
  let opened = await rendered.open({ tempo, key, guide }, text);
  // A pencil that is none any more must not keep the routine from being played.
  if (!opened.ok) opened = await rendered.open({ tempo, key, guide }, null);
  if (!opened.ok) throw new Error(said(opened.faults));
  const plain = await rendered.written();
  if (!plain) return false;
  await whenStill();
  const pencil = new Pencil(rendered);
  pencil.read(opened);
  pencil.other = other;
  player = rendered;
  stand.use(rendered);
  rendered.addEventListener("broken", ({ detail }) => {
    player = tracks;
    stand.use(tracks);
    showTake();
    console.warn(detail);
  });
  for (const take of takes) take.querySelector("h2").hidden = true;
  return true;
}

const remembered = data.takes.findIndex((take) => take.file === memory.get(`take ${document.title}`));
if (remembered > 0) tracks.choose(remembered);
document.body.classList.add("with-script");
chooseTake();
playButtons();
showTake();
firstUse();
keepOnPhone(true);
