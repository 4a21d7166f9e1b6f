// The page while a routine is played: one line of music, the count-in, the rest, and what there is to touch.

class Stand {
  /** @type {PlayerOfPage & EventTarget} */
  #player;
  #stand = by("stand");
  #rest = by("rest");
  #items = items();
  /** Index of the line that is shown, in the lines of the player; -1 for none. */
  #line = -1;
  /** @type {{ count?: string, pass?: string, phase?: string, rest?: string }} What the screen shows now. */
  #shown = {};
  /** True while a rest is held. */
  #waiting = false;
  /** @type {Place | undefined} */
  #place;
  #frame = 0;
  #awake = new Awake();
  /** @type {Element | null} What had the keyboard before the stand was opened. */
  #from = null;

  /** @param {PlayerOfPage & EventTarget} player */
  constructor(player) {
    this.#player = player;
    this.use(player);
    by("previous").addEventListener("click", () => this.begin(Math.max(0, this.#line - 1)));
    by("next").addEventListener("click", () => this.begin(Math.min(this.lines.length - 1, this.#line + 1)));
    by("again").addEventListener("click", () => this.begin(this.#line));
    by("pause").addEventListener("click", () => this.pauseOrGoOn());
    by("leave").addEventListener("click", () => history.back());
    this.#rest.addEventListener("click", () => this.#waitOrReady());
    addEventListener("popstate", () => this.#close());
    addEventListener("keydown", (event) => this.#key(event));
    sessionControls(this);
  }

  /**
   * What plays from now on.
   * @param {PlayerOfPage & EventTarget} player
   */
  use(player) {
    this.#player = player;
    player.addEventListener("change", () => player === this.#player && this.#changed());
    player.addEventListener("opened", () => player === this.#player && this.#reopened());
  }

  /** The music on the page was drawn anew. */
  redrawn() {
    if (!this.open || this.#line < 0) return;
    this.#followMusic(this.lines[this.#line].of);
  }

  /** Settles when nothing is played. */
  async closed() {
    while (this.open) await new Promise((done) => this.#stand.addEventListener("left", done, { once: true }));
  }

  /**
   * Tempo and pencil at hand while playing.
   * @param {Settings} settings
   */
  offer(settings) {
    by("more").hidden = false;
    by("slower").addEventListener("click", () => settings.slower());
    by("faster").addEventListener("click", () => settings.faster());
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

  /** @param {number} line */
  nameOf(line) {
    return find("h3", this.#items[this.lines[line].of]).textContent ?? "";
  }

  /**
   * Counts in a line and plays from there on.
   * @param {number} line
   */
  async begin(line) {
    this.#open();
    this.#waiting = false;
    this.#turnTo(line);
    await this.#attempt(this.#player.play(line));
  }

  pauseOrGoOn() {
    if (this.#player.playing) this.#player.pause();
    else if (this.#shown.phase === "done") this.begin(this.#line);
    else {
      this.#waiting = false;
      this.#attempt(this.#player.resume());
    }
  }

  /** @param {Promise<void>} played */
  async #attempt(played) {
    try {
      await played;
    } catch (error) {
      const { name, message } = /** @type {Error} */ (error);
      // A later touch has taken its place, which is as it should be.
      if (name !== "AbortError") this.#tell(`The sound could not be played: ${message}`);
    }
  }

  /** The same routine at another tempo, or with other marks. */
  #reopened() {
    if (!this.open) return;
    const { index } = this.#player.position();
    this.#line = -1;
    this.#turnTo(Math.min(index, this.lines.length - 1));
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
    this.#awake.release();
    cancelAnimationFrame(this.#frame);
    this.#stand.hidden = true;
    document.body.classList.remove("playing");
    this.#place?.clear();
    const item = this.#items[this.lines[this.#line]?.of];
    this.#items.forEach((one) => one.removeAttribute("aria-current"));
    this.#line = -1;
    item?.scrollIntoView({ block: "center" });
    /** @type {HTMLElement | null} */ (this.#from)?.focus({ preventScroll: true });
    this.#stand.dispatchEvent(new Event("left"));
  }

  /** @param {KeyboardEvent} event */
  #key(event) {
    if (!this.open || event.altKey || event.ctrlKey || event.metaKey || document.querySelector("dialog[open]")) return;
    /** @type {Record<string, string>} */
    const keys = { ArrowLeft: "previous", ArrowRight: "next", Escape: "leave" };
    const target = /** @type {Element} */ (event.target);
    if (target.matches?.("input, select, textarea") || !keys[event.key]) return;
    event.preventDefault();
    by(keys[event.key]).click();
  }

  /** @param {number} line */
  #turnTo(line) {
    if (this.#line === line) return;
    this.#line = line;
    this.#shown = {};
    const { of, tempo } = this.lines[line];
    this.#items.forEach((item, index) => {
      if (index === of) item.setAttribute("aria-current", "true");
      else item.removeAttribute("aria-current");
    });
    this.#items[of].scrollTop = 0;
    this.#followMusic(of);
    buttonBy("previous").disabled = line === 0;
    buttonBy("next").disabled = line === this.lines.length - 1;
    this.#say(`Line ${this.nameOf(line)}. ${tempo} clicks a minute.`);
    by("clicks").textContent = tempo;
    sessionLine(this.nameOf(line));
  }

  /** @param {number} of */
  #followMusic(of) {
    this.#place?.clear();
    const { key } = this.#player;
    this.#place = new Place(this.#items[of], key, placesOf(key, of));
  }

  #changed() {
    if (!this.open) return;
    const { playing } = this.#player;
    by("pause").textContent = playing ? "Pause" : "Go on";
    if (playing) this.#awake.keep();
    else this.#awake.release();
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
    const { index, frame } = this.#player.position();
    if (this.#line < 0 || !this.lines[index]) return;
    if (index !== this.#line && this.#player.playing) this.#turnTo(index);
    if (index !== this.#line) return;
    const now = whereIs(this.lines, index, frame, this.#player.sampleRate);
    if ("pass" in now) this.#place?.show(this.lines[index].passes[now.pass].place, "moment" in now ? now.moment : 0);
    const words = wordsFor(this.lines[index], now);
    // Only what is new is written: a screen that is drawn sixty times a second is read once a beat.
    if (this.#shown.count !== words.count) by("count").textContent = words.count;
    if (this.#shown.pass !== words.pass) by("pass").textContent = words.pass;
    by("count").classList.toggle("word", words.count.length > 2);
    if (now.phase !== this.#shown.phase) {
      this.#stand.dataset.phase = now.phase;
      this.#turnToRest(now.phase === "rest", index);
      if (now.phase === "done") this.#say("That was the last line. You have done it.");
    }
    if (now.phase === "rest") this.#showRest(now.left);
    this.#shown = { rest: this.#shown.rest, ...words, phase: now.phase };
  }

  /**
   * @param {boolean} resting
   * @param {number} index of the line before the rest
   */
  #turnToRest(resting, index) {
    const had = document.activeElement === this.#rest;
    this.#rest.hidden = !resting;
    this.#shown.rest = undefined;
    if (resting) {
      const next = this.nameOf(this.#line + 1);
      const length = (nextCountIn(this.lines, index) ?? 0) - this.lines[index].barLine;
      find(".then", this.#rest).textContent = `Next: ${next}`;
      this.#say(`Rest ${Math.round(length / this.#player.sampleRate)} seconds. Next: ${next}.`);
      this.#rest.focus();
    } else if (had) by("pause").focus();
  }

  /** @param {number} left seconds */
  #showRest(left) {
    const text = clock(Math.ceil(left));
    const does = this.#waiting ? "Ready" : "Wait";
    if (this.#shown.rest === text + does) return;
    this.#shown.rest = text + does;
    find(".do", this.#rest).textContent = does;
    find(".left", this.#rest).textContent = this.#waiting ? "take your time" : text;
    this.#rest.classList.toggle("waiting", this.#waiting);
  }

  /** In a rest: waits as long as it takes, then counts in. */
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

  /** @param {string} words for a screen reader */
  #say(words) {
    by("said").textContent = words;
  }

  /** @param {string} words */
  #tell(words) {
    by("pass").textContent = words;
    this.#say(words);
  }
}

/**
 * What the screen says of a moment: which pass it is, and the large word or number.
 * @param {Protocol.TimetableLine} line
 * @param {Whereabouts} now
 */
function wordsFor(line, now) {
  const times = line.passes.length;
  const which = "pass" in now && times > 1 ? [`${now.pass + 1} of ${times}`, line.passes[now.pass].name] : [];
  return { pass: which.filter(Boolean).join(" · "), count: largeWord(line, now) };
}

/**
 * @param {Protocol.TimetableLine} line
 * @param {Whereabouts} now
 */
function largeWord(line, now) {
  switch (now.phase) {
    case "count":
      if (now.left > 1) return String(now.beat);
      return line.on === "air" ? "ready" : "breathe";
    case "between":
      return `rest ${Math.ceil(now.left)}`;
    case "listen":
      return "listen";
    case "turn":
      return "your turn";
    case "done":
      return "done";
    default:
      return "";
  }
}
