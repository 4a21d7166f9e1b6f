// The page while a routine is played: one line of music, the count-in, the rest, and what there is to touch.

class Stand {
  /** @type {PlayerOfPage & EventTarget} */
  #player;
  #stand = by("stand");
  #rest = by("rest");
  #items = items();
  #more;
  /** Index of the line that is shown, in the lines of the player; -1 for none. */
  #line = -1;
  /** @type {{ count?: string, pass?: string, phase?: string, rest?: string }} What the screen shows now. */
  #shown = {};
  /** @type {Place | undefined} */
  #place;
  #frame = 0;
  #awake = new Awake();
  /** @type {Whole | null} Draws what is not printed. */
  #whole = null;
  /** @type {Element | null} What had the keyboard before the stand was opened. */
  #from = null;

  /** @param {PlayerOfPage & EventTarget} player */
  constructor(player) {
    this.#player = player;
    this.use(player);
    this.#more = new More(this);
    by("again").addEventListener("click", () => this.again());
    by("main").addEventListener("click", () => (sounding(this.#player) ? this.pause() : this.goOn()));
    this.#rest.addEventListener("click", () => this.#holdOrGoOn());
    addEventListener("popstate", () => this.#close());
    addEventListener("resize", () => this.#place?.moved());
    addEventListener("keydown", (event) => this.#key(event));
    sessionControls(this);
  }

  /**
   * What plays from now on. Where another player is in the middle of a line, this one stands at the same line.
   * @param {PlayerOfPage & EventTarget} player
   */
  use(player) {
    const at = this.#line < 0 ? undefined : this.lines[this.#line];
    this.#player = player;
    player.addEventListener("state", () => player === this.#player && this.#changed());
    player.addEventListener("opened", () => player === this.#player && this.#reopened());
    if (at === undefined) return;
    this.#line = -1;
    /** @param {Protocol.TimetableLine} line */
    const upTo = (line) => line.of < at.of || (line.of === at.of && (line.rung ?? 0) <= (at.rung ?? 0));
    this.#turnTo(Math.max(0, ...player.lines.flatMap((line, index) => (upTo(line) ? [index] : []))));
    this.#changed();
  }

  /** The music on the page was drawn anew. */
  redrawn() {
    if (!this.open || this.#line < 0) return;
    this.#followMusic(this.lines[this.#line].of);
  }

  /** What is heard: null where no line is. */
  get now() {
    const heard = this.#player.position();
    return this.lines[heard.index] ? { index: heard.index, ...whereabouts(this.#player, heard) } : null;
  }

  /** Settles when nothing is played. */
  async closed() {
    while (this.open) await new Promise((done) => this.#stand.addEventListener("left", done, { once: true }));
  }

  /**
   * Tempo and pencil at hand while playing, and the passes that are not printed.
   * @param {Settings} settings
   * @param {Rendered} rendered
   */
  offer(settings, rendered) {
    this.#more.offer(settings);
    this.#whole = new Whole(rendered);
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
  begin(line) {
    this.#open();
    this.#turnTo(line);
    this.#player.play(line);
    this.#changed();
  }

  /**
   * Begins another line.
   * @param {number} by how many lines further
   */
  turn(by) {
    this.begin(Math.min(Math.max(this.#line + by, 0), this.lines.length - 1));
  }

  /** As the second large button does. */
  again() {
    this.begin(this.#line);
  }

  pause() {
    this.#player.pause();
  }

  /** As the large button and that of a headset do. */
  goOn() {
    // The tracks stand nowhere yet when the engine has broken down.
    if (this.#player.state === "stopped") this.begin(this.#line);
    else this.#player.go();
  }

  /**
   * Says something that the screen must show.
   * @param {string} words
   */
  tell(words) {
    by("told").textContent = words;
  }

  /** @param {string} words for a screen reader */
  say(words) {
    by("said").textContent = words;
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
    by("main").focus();
    this.#watch();
  }

  #close() {
    if (!this.open) return;
    for (const sheet of document.querySelectorAll("dialog[open]")) /** @type {HTMLDialogElement} */ (sheet).close();
    this.#player.stop();
    this.#awake.release();
    cancelAnimationFrame(this.#frame);
    this.#stand.hidden = true;
    document.body.classList.remove("playing", "resting");
    this.#place?.clear();
    const item = this.#items[this.lines[this.#line]?.of];
    for (const one of this.#items) {
      one.removeAttribute("aria-current");
      one.removeAttribute("tabindex");
    }
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
    for (const [index, item] of this.#items.entries()) {
      if (index === of) {
        item.setAttribute("aria-current", "true");
        // A line that is higher than the screen can be scrolled with the keyboard.
        item.tabIndex = 0;
      } else {
        item.removeAttribute("aria-current");
        item.removeAttribute("tabindex");
      }
    }
    this.#items[of].scrollTop = 0;
    this.#followMusic(of);
    this.#more.show(this.nameOf(line), decimal(tempo), line === 0, line === this.lines.length - 1);
    this.say(phrase("line-and-tempo", { name: this.nameOf(line), tempo: decimal(tempo) }));
    sessionLine(this.nameOf(line));
  }

  /** @param {number} of */
  #followMusic(of) {
    this.#place?.clear();
    const { key } = this.#player;
    unfold(this.#items[of]);
    const whole = this.#whole?.of(this.lines[this.#line], () => this.#followMusic(of)) ?? null;
    this.#place = new Place(this.#items[of], key, placesOf(key, of), whole);
  }

  #changed() {
    if (!this.open) return;
    const { state } = this.#player;
    this.#stand.dataset.state = state;
    by("main").textContent = SHOWN[state].main;
    this.tell(toldOf(this.#player));
    this.#shown.rest = undefined;
    if (sounding(this.#player) || state === "waiting") this.#awake.keep();
    else this.#awake.release();
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
    const heard = this.#player.position();
    const { index } = heard;
    if (this.#line < 0 || !this.lines[index]) return;
    if (index !== this.#line && (sounding(this.#player) || this.#player.state === "waiting")) this.#turnTo(index);
    if (index !== this.#line) return;
    const now = whereabouts(this.#player, heard);
    if ("pass" in now) this.#place?.show(this.lines[index].passes[now.pass].place, "moment" in now ? now.moment : 0);
    const words = wordsFor(this.lines[index], now);
    // Only what is new is written: a screen that is drawn sixty times a second is read once a beat.
    if (this.#shown.count !== words.count) by("count").textContent = words.count;
    if (this.#shown.pass !== words.pass) by("pass").textContent = words.pass;
    by("count").classList.toggle("word", words.count.length > 2);
    if (now.phase !== this.#shown.phase) {
      this.#stand.dataset.phase = now.phase;
      this.#turnToRest(now.phase === "rest", index);
      if (now.phase === "done") this.say(phrase("last-line-done"));
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
    document.body.classList.toggle("resting", resting);
    this.#shown.rest = undefined;
    if (resting) {
      const next = this.nameOf(this.#line + 1);
      const length = (nextCountIn(this.lines, index) ?? 0) - this.lines[index].barLine;
      find(".then", this.#rest).textContent = phrase("next-is", { name: next });
      const seconds = Math.round(length / this.#player.sampleRate);
      this.say(phrase("rest-then", { seconds, name: next }));
      if (!document.querySelector("dialog[open]")) this.#rest.focus();
    } else if (had) by("main").focus();
  }

  /** @param {number} left seconds */
  #showRest(left) {
    const waiting = this.#player.state === "waiting";
    const text = waiting ? phrase("take-your-time") : clock(Math.ceil(left));
    if (this.#shown.rest === text) return;
    this.#shown.rest = text;
    find(".do", this.#rest).textContent = waiting ? phrase("im-ready") : phrase("hold-the-rest");
    find(".left", this.#rest).textContent = text;
    this.#rest.classList.toggle("waiting", waiting);
  }

  /** In a rest: waits as long as it takes, then counts in. */
  #holdOrGoOn() {
    if (this.#player.state === "waiting") this.#player.go();
    else if (this.#player.hold()) this.say(phrase("rest-held"));
  }
}
