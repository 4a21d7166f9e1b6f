// Without this script each take has a player of its own, and each line's link opens its track there. With it, the page is a music
// stand: at once on the finished tracks, and a moment later, where that can be, on the engine.

const takes = findAll("#takes > .take");
/** True for a page of one file: it has no finished tracks, and plays as soon as the engine is there. */
const alone = takes.length === 0;
const audios = takes.map((take) => /** @type {HTMLAudioElement} */ (find("audio", take)));
const tracks = new Tracks(alone ? [make("audio")] : audios);
const stand = new Stand(tracks);
/** @type {Tracks | Rendered} What plays now. */
let player = tracks;

/** Shows what belongs to what is played. */
function showTake() {
  for (const place of findAll(".play")) place.hidden = Number(place.dataset.take) !== tracks.take;
  showKey(player.key);
  if (!(player instanceof Rendered)) return;
  // The engine plays a take of its own: what is said of the finished ones no longer holds.
  for (const line of player.lines) {
    const place = itemOf(line.of).querySelector(".play:not([hidden])");
    if (!place) continue;
    write(find(".soft", place), line.facts);
    write(find(".jump > :last-child", place), clock(line.start / player.sampleRate));
  }
}

function chooseTake() {
  for (const [index, take] of takes.entries()) {
    find(".player", take).hidden = true;
    if (takes.length === 1) continue;
    const title = find("h2", take);
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

/** @type {(() => void)[]} How the page becomes again what it is without its script. */
const back = [];

function playButtons() {
  for (const link of findAll("a.jump")) {
    const jump = make("button", { type: "button", className: "jump" }, ...link.childNodes);
    const of = Number(/** @type {HTMLElement} */ (link.closest("li")).dataset.line);
    jump.addEventListener("click", () => stand.begin(player.lines.findIndex((line) => line.of === of)));
    link.replaceWith(jump);
    back.push(() => {
      link.append(...jump.childNodes);
      jump.replaceWith(link);
    });
  }
  const start = button(phrase("start-from-one"), () => stand.begin(0), "deed");
  start.id = "start";
  by("takes").append(start);
  back.push(() => start.remove());
}

/** The page as a stand; as it is without its script, where that fails. */
function begin() {
  try {
    const remembered = data.takes.findIndex((take) => take.file === memory.get(`take ${document.title}`));
    if (remembered > 0) tracks.choose(remembered);
    document.body.classList.add("with-script");
    chooseTake();
    if (!alone) playButtons();
    showTake();
    firstUse();
    near.watch();
    return true;
  } catch (error) {
    console.warn(error);
    for (const undone of back) undone();
    document.body.classList.remove("with-script");
    for (const one of findAll(".player, .play, .music")) one.hidden = false;
    for (const sheet of findAll("dialog.card:not([open])")) sheet.setAttribute("open", "");
    return false;
  }
}

/** With the engine: any tempo and key, and a pencil. False where there is none. */
async function withEngine() {
  const rendered = await Rendered.start();
  if (!rendered) return false;
  const { tempo, key, guide } = data.takes[tracks.take];
  const { pencil, other } = await Pencil.remembered(rendered, { tempo, key, guide });
  await stand.closed();
  playWith(rendered);
  if (alone) playButtons();
  const settings = new Settings(rendered, { key, guide });
  stand.offer(settings, rendered);
  new Looped(stand, rendered, settings);
  const drawings = new Drawings(rendered, pencil.text === data.pencil);
  drawings.addEventListener("drawn", () => {
    showKey(rendered.key);
    stand.redrawn();
  });
  withPencil(rendered, pencil, stand, drawings, other);
  rendered.addEventListener("opened", () => {
    showTake();
    drawings.show();
  });
  if (!alone) layAside();
  showTake();
  return true;
}

/** The finished tracks are there to be saved. */
function layAside() {
  for (const take of takes) {
    take.querySelector("input")?.remove();
    take.classList.add("finished");
  }
  const summary = make("summary", { textContent: phrase("finished-tracks") });
  by("takes").append(make("details", {}, summary, ...takes));
}

/**
 * Plays what the engine renders from now on, and the tracks again if it breaks down.
 * @param {Rendered} rendered
 */
function playWith(rendered) {
  player = rendered;
  stand.use(rendered);
  tracks.stop();
  rendered.addEventListener("broken", (event) => {
    console.warn(/** @type {CustomEvent} */ (event).detail);
    if (alone) {
      stand.tell(phrase("broke-alone"));
      return;
    }
    player = tracks;
    stand.use(tracks);
    stand.tell(phrase("finished-tracks-play"));
    showTake();
  });
}

if (begin()) {
  withEngine()
    .catch((error) => {
      // The finished tracks play all the same.
      console.warn(error);
      return false;
    })
    .then((engine) => {
      if (!engine && alone) by("takes").append(make("p", { className: "wrong", textContent: phrase("no-engine-alone") }));
      else if (!engine) {
        tracks.fetch();
        by("takes").append(volumes(tracks));
      }
      document.body.dataset.plays = engine ? "engine" : "tracks";
      if (alone) return;
      return keepOnPhone(!engine);
    });
}
