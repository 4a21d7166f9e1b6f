// The page while a routine is played: one line of music, the count-in, the rest, and what there is to touch.


class Stand {
  #player;
  #stand = by("stand");
  #rest = by("rest");
  #items = [...document.querySelectorAll("#lines > li")];
  #line = -1;
  #shown = {};
  #waiting = false;
  #place;
  #frame;
  #awake = new Awake();
  #from;

  constructor(player) {
    this.use(player);
    by("previous").addEventListener("click", () => this.begin(Math.max(0, this.#line - 1)));
    by("next").addEventListener("click", () => this.begin(Math.min(this.#player.lines.length - 1, this.#line + 1)));
    by("again").addEventListener("click", () => this.begin(this.#line));
    by("pause").addEventListener("click", () => this.pauseOrGoOn());
    by("leave").addEventListener("click", () => history.back());
    this.#rest.addEventListener("click", () => this.#waitOrReady());
    addEventListener("popstate", () => this.#close());
    addEventListener("keydown", (event) => this.#key(event));
    sessionControls(this);
  }

  /** What plays from now on. */
  use(player) {
    this.#player = player;
    player.addEventListener("change", () => player === this.#player && this.#changed());
    player.addEventListener("opened", () => player === this.#player && this.#reopened());
  }

  /** The music on the page was drawn anew. */
  redrawn() {
    if (!this.open || this.#line < 0) return;
    const { of } = this.lines[this.#line];
    this.#place?.clear();
    this.#place = new Place(this.#items[of], this.#player.key, places(this.#player.key, of));
  }

  /** Settles when nothing is played. */
  async closed() {
    while (this.open) await new Promise((done) => this.#stand.addEventListener("left", done, { once: true }));
  }

  /** Tempo and pencil at hand while playing. */
  offer(settings) {
    by("more").hidden = false;
    by("slower").addEventListener("click", () => settings.slower());
    by("faster").addEventListener("click", () => settings.faster());
  }

  /** The same routine otherwise: at another tempo, with other marks. */
  #reopened() {
    if (!this.open) return;
    const { index } = this.#player.position();
    this.#line = -1;
    this.#turnTo(Math.min(index, this.lines.length - 1));
  }

  get open() {
    return !this.#stand.hidden;
  }

  get line() {
    return this.#line;
  }

  get lines() {
    return this.#player.lines;
  }

  nameOf(line) {
    return this.#items[this.#player.lines[line].of].querySelector("h3").textContent;
  }

  /** Counts in a line and plays from there on. */
  async begin(line) {
    this.#open();
    this.#waiting = false;
    this.#turnTo(line);
    await this.#attempt(this.#player.play(line));
  }

  async #attempt(played) {
    try {
      await played;
    } catch (error) {
      // A later touch has taken its place, which is as it should be.
      if (error.name !== "AbortError") this.#tell(`The sound could not be played: ${error.message}`);
    }
  }

  pauseOrGoOn() {
    if (this.#player.playing) this.#player.pause();
    else if (this.#shown.phase === "done") this.begin(this.#line);
    else {
      this.#waiting = false;
      this.#attempt(this.#player.resume());
    }
  }

  #open() {
    if (this.open) return;
    this.#from = document.activeElement;
    history.pushState({ stand: true }, "");
    document.body.classList.add("playing");
    this.#stand.hidden = false;
    by("pause").focus();
    this.#watch();
  }

  #close() {
    if (!this.open) return;
    this.#player.stop();
    this.#awake.let();
    cancelAnimationFrame(this.#frame);
    this.#stand.hidden = true;
    document.body.classList.remove("playing");
    this.#place?.clear();
    const item = this.#items[this.#player.lines[this.#line]?.of];
    this.#items.forEach((one) => one.removeAttribute("aria-current"));
    this.#line = -1;
    item?.scrollIntoView({ block: "center" });
    this.#from?.focus({ preventScroll: true });
    this.#stand.dispatchEvent(new Event("left"));
  }

  #key(event) {
    if (!this.open || event.altKey || event.ctrlKey || event.metaKey || document.querySelector("dialog[open]")) return;
    const keys = { ArrowLeft: "previous", ArrowRight: "next", Escape: "leave" };
    if (event.target.matches?.("input, select, textarea") || !keys[event.key]) return;
    event.preventDefault();
    by(keys[event.key]).click();
  }

  #turnTo(line) {
    if (this.#line === line) return;
    this.#line = line;
    this.#shown = {};
    this.#place?.clear();
    const { of } = this.#player.lines[line];
    this.#items.forEach((item, index) => {
      if (index === of) item.setAttribute("aria-current", "true");
      else item.removeAttribute("aria-current");
    });
    const item = this.#items[of];
    item.scrollTop = 0;
    this.#place = new Place(item, this.#player.key, places(this.#player.key, of));
    by("previous").disabled = line === 0;
    by("next").disabled = line === this.#player.lines.length - 1;
    const { tempo } = this.lines[line];
    this.#say(`Line ${this.nameOf(line)}. ${tempo} clicks a minute.`);
    by("clicks").textContent = tempo;
    sessionLine(this.nameOf(line));
  }

  #changed() {
    if (!this.open) return;
    const { playing } = this.#player;
    by("pause").textContent = playing ? "Pause" : "Go on";
    if (playing) this.#awake.keep();
    else this.#awake.let();
    if (this.#player.failed) this.#tell("The sound could not be loaded. Is the page still connected?");
  }

  /** Looks where the player is, as often as the screen is drawn. */
  #watch() {
    const look = () => {
      this.#show();
      this.#frame = requestAnimationFrame(look);
    };
    look();
  }

  #show() {
    const { index, t } = this.#player.position();
    if (this.#line < 0 || !this.#player.lines[index]) return;
    if (index !== this.#line && this.#player.playing) this.#turnTo(index);
    if (index !== this.#line) return;
    const line = this.#player.lines[index];
    const now = whereIs(line, t);
    const pass = line.passes[now.pass];
    if (now.moment !== undefined) this.#place.show(pass.place, now.moment);
    else if (now.phase === "count" || now.phase === "between") this.#place.show(pass.place, 0);
    const said = this.#words(line, now);
    // Only what is new is written: a screen that is drawn sixty times a second is read once a beat.
    for (const [id, text] of [["count", said.count], ["pass", said.pass]]) {
      if (this.#shown[id] !== text) by(id).textContent = text;
    }
    by("count").classList.toggle("word", said.count.length > 2);
    if (now.phase !== this.#shown.phase) {
      this.#stand.dataset.phase = now.phase;
      this.#toRest(now.phase === "rest", line);
      if (now.phase === "done") this.#say("That was the last line. You have done it.");
    }
    if (now.phase === "rest") this.#showRest(now.left);
    this.#shown = { rest: this.#shown.rest, ...said, phase: now.phase };
  }

  #words(line, now) {
    const pass = line.passes[now.pass];
    const times = line.passes.length;
    const which = pass && times > 1 ? [`${now.pass + 1} of ${times}`, nameOfPlace(pass.place), pass.how] : [];
    const words = { pass: which.filter(Boolean).join(" · "), count: "" };
    if (now.phase === "count") words.count = now.left > 1 ? String(now.beat) : line.on === "air" ? "ready" : "breathe";
    else if (now.phase === "between") words.count = `rest ${Math.ceil(now.left)}`;
    else if (now.phase === "listen") words.count = "listen";
    else if (now.phase === "turn") words.count = "your turn";
    else if (now.phase === "done") words.count = "done";
    return words;
  }

  #toRest(resting, line) {
    const had = document.activeElement === this.#rest;
    this.#rest.hidden = !resting;
    this.#shown.rest = undefined;
    if (resting) {
      const next = this.nameOf(this.#line + 1);
      this.#rest.querySelector(".then").textContent = `Next: ${next}`;
      this.#say(`Rest ${Math.round(line.until - line.end)} seconds. Next: ${next}.`);
      this.#rest.focus();
    } else if (had) by("pause").focus();
  }

  #showRest(left) {
    const seconds = Math.ceil(left);
    const text = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
    const does = this.#waiting ? "Ready" : "Wait";
    if (this.#shown.rest === text + does) return;
    this.#shown.rest = text + does;
    this.#rest.querySelector(".do").textContent = does;
    this.#rest.querySelector(".left").textContent = this.#waiting ? "take your time" : text;
    this.#rest.classList.toggle("waiting", this.#waiting);
  }

  /** In a rest: wait as long as it takes, then be counted in. */
  #waitOrReady() {
    if (this.#waiting) {
      const next = this.#line + 1;
      this.#waiting = false;
      this.#turnTo(next);
      this.#attempt(this.#player.ready(next));
    } else {
      this.#waiting = true;
      this.#player.wait();
      this.#say("Waiting. Touch again when you are ready.");
    }
  }

  #say(words) {
    by("said").textContent = words;
  }

  #tell(words) {
    by("pass").textContent = words;
    this.#say(words);
  }
}

/** A half step or tube as one says it while playing. */
function nameOfPlace(place) {
  if (place === "as written") return "";
  return place === "on 0" ? "open horn" : place;
}

function places(key, of) {
  return data.places[key]?.[of];
}
