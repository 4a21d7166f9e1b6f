// Without this script each take has a player of its own, and each line's link opens its track there. With it, the page is a music
// stand: at once on the finished tracks, and a moment later, where that can be, on the engine.

const takes = [...document.querySelectorAll("#takes > .take")];
const tracks = new Tracks(takes.map((take) => take.querySelector("audio")), data.takes);
const stand = new Stand(tracks);
let player = tracks;

/** Shows what belongs to what is played. */
function showTake() {
  for (const place of document.querySelectorAll(".play")) place.hidden = Number(place.dataset.take) !== tracks.take;
  showKey(player.key);
  if (player === tracks) return;
  // The engine plays a take of its own: what is said of the finished ones no longer holds.
  for (const line of player.lines) {
    const place = document.querySelector(`#lines > li[data-line="${line.of}"] .play:not([hidden])`);
    if (!place) continue;
    place.querySelector(".soft").textContent = facts(line);
    place.querySelector(".jump").lastElementChild.textContent = clock(line.start);
  }
}

/** Seconds as on a player. */
function clock(seconds) {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}

/** How long a line takes, and the rest after it, as the page says it of the finished takes. */
function facts(line) {
  const on = { mouthpiece: "On the mouthpiece. ", air: "Breathing, without the horn. ", horn: "" }[line.on];
  const times = line.passes.length;
  const length = times > 1 ? `${times} times through, ${clock(line.end)}.` : `Lasts ${clock(line.end)}.`;
  const rest = line.until === null ? "Then you have done it." : `Then rest for ${clock(line.rest)}.`;
  return `${on}${length} ${rest}`;
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

/** With the engine: any tempo and key, and a pencil. False where there is none. */
async function withEngine() {
  const rendered = await Rendered.start();
  if (!rendered) return false;
  const { tempo, key, guide } = data.takes[tracks.take];
  const { text, other } = Pencil.remembered();
  let opened = await rendered.open({ tempo, key, guide }, text);
  // A pencil that is none any more must not keep the routine from being played.
  if (!opened.ok) opened = await rendered.open({ tempo, key, guide }, null);
  if (!opened.ok) throw new Error(said(opened.faults));
  const pencil = new Pencil(rendered);
  pencil.read(opened);
  await stand.closed();
  player = rendered;
  stand.use(rendered);
  tracks.stop();
  rendered.addEventListener("broken", ({ detail }) => {
    console.warn(detail);
    player = tracks;
    stand.use(tracks);
    showTake();
  });
  const settings = new Settings(rendered, { key, guide });
  stand.offer(settings);
  withPencil(rendered, pencil, other);
  rendered.addEventListener("opened", async () => {
    if (data.places[rendered.key]) return showTake();
    await redraw(rendered);
    showTake();
    stand.redrawn();
  });
  if (pencil.text !== data.pencil) await redraw(rendered);
  for (const take of takes) {
    take.querySelector("input")?.remove();
    take.classList.add("finished");
  }
  by("takes").append(make("details", {}, make("summary", { textContent: "Finished tracks to save" }), ...takes));
  showTake();
  return true;
}

/** The pencil beside each line, and what can be done with all marks. */
function withPencil(rendered, pencil, other) {
  const marks = new Marks(rendered, pencil);
  const show = () => {
    for (const item of document.querySelectorAll("#lines > li")) {
      const of = Number(item.dataset.line);
      item.querySelector(".pencilled").textContent = pencil.at(of).map((mark) => mark.words).join(" · ");
      const played = rendered.lines.some((line) => line.of === of);
      item.classList.toggle("left-out", !played);
      for (const jump of item.querySelectorAll(".jump")) jump.disabled = !played;
    }
    send.disabled = pencil.marks.length === 0;
    undo.disabled = !pencil.canUndo;
    const unfit = said(pencil.faults);
    state.textContent = [pencil.kept ? "" : "This browser keeps no marks: send them before you close the page.", unfit].filter(Boolean).join(" ");
  };
  for (const item of document.querySelectorAll("#lines > li")) {
    const of = Number(item.dataset.line);
    const title = item.querySelector("h3").textContent;
    const mark = button("Pencil", () => marks.open(of, title), "quiet mark");
    mark.setAttribute("aria-label", `Pencil: ${title}`);
    item.append(mark);
  }
  const send = button("Send my marks to my teacher", () => pencil.send());
  const undo = button("Undo", async () => (state.textContent = (await pencil.undo()) ?? ""));
  const state = make("p", { role: "status" });
  const file = make("input", { type: "file", id: "open-pencil", accept: ".toml,.txt,text/plain" });
  file.addEventListener("change", async () => {
    const [chosen] = file.files;
    file.value = "";
    if (!chosen) return;
    const wrong = chosen.size > 1 << 20 ? "This file is too large to be a pencil." : await pencil.set(await chosen.text());
    if (wrong) state.textContent = wrong;
  });
  const place = make(
    "section",
    { id: "pencil", "aria-labelledby": "pencil-title" },
    make("h2", { id: "pencil-title", textContent: "Pencil" }),
    make("p", { className: "soft", textContent: "Slower here, a breath there: your marks stay on this phone until you send them." }),
    make("div", { className: "row" }, button("Mark every line", () => marks.open(null, "")), undo, send),
    make("label", { className: "choice" }, make("span", { textContent: "Open marks from a file" }), file),
    state,
  );
  if (other !== null) {
    const take = button("Use the marks of the new handout instead of mine", async () => {
      state.textContent = (await pencil.set(other)) ?? "";
      take.remove();
    });
    place.append(take);
  }
  by("music").after(place);
  pencil.addEventListener("marked", async () => {
    await redraw(rendered);
    show();
    showTake();
    stand.redrawn();
  });
  by("mark").addEventListener("click", () => {
    const { of } = rendered.lines[stand.line];
    if (rendered.playing) rendered.pause();
    marks.open(of, stand.nameOf(stand.line));
  });
  show();
}

const remembered = data.takes.findIndex((take) => take.file === memory.get(`take ${document.title}`));
if (remembered > 0) tracks.choose(remembered);
document.body.classList.add("with-script");
chooseTake();
playButtons();
showTake();
firstUse();
withEngine()
  .catch((error) => {
    // The finished tracks play all the same.
    console.warn(error);
    return false;
  })
  .then((engine) => {
    if (!engine) by("takes").append(volumes(tracks));
    document.body.dataset.plays = engine ? "engine" : "tracks";
    return keepOnPhone(!engine);
  });
