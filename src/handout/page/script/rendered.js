// Plays what the engine renders, as tracks.js plays finished tracks; draws lines, and writes into a pencil.

class Rendered extends EventTarget {
  #engine;
  #player;
  /** @type {Protocol.Opened | undefined} */
  #opened;
  /** @type {Protocol.Take} What is played. */
  take = {};
  /** @type {string | null} The text of the pencil that is laid over the routine. */
  pencil = null;
  /** True if the engine broke down. */
  broken = false;
  /** @type {Record<string, Volume>} */
  volumes;

  /** @param {Engine} engine */
  constructor(engine) {
    super();
    this.#engine = engine;
    this.#player = new Player(engine);
    this.#player.addEventListener("state", () => this.dispatchEvent(new Event("state")));
    this.#player.addEventListener("loop", () => this.dispatchEvent(new Event("loop")));
    this.#player.addEventListener("fault", (event) => {
      this.#broken(/** @type {CustomEvent} */ (event).detail.error);
    });
    this.volumes = {
      guide: this.#volume("guide", phrase("guide")),
      click: this.#volume("click", phrase("click")),
      drone: this.#volume("drone", phrase("held-note")),
    };
  }

  /** An engine that plays; null where there is none. */
  static async start() {
    const wasm = document.getElementById("leadpipe-engine")?.textContent;
    if (!wasm || !Engine.possible()) return null;
    return new Rendered(await Engine.start({ worker: ENGINE_WORKER, wasm }));
  }

  /**
   * Opens the routine at a take with a pencil. Where that is refused nothing has changed.
   * @param {Protocol.Take} take
   * @param {string | null} pencil
   * @param {boolean} [later] in a loop: when what is played has been played to its end
   */
  async open(take, pencil, later = false) {
    const { sampleRate } = this.#player;
    const { routine, language } = data;
    const opened = await this.#answered(this.#engine.open({ routine, pencil, language, take, sampleRate }));
    if (!opened.ok) return opened;
    this.take = take;
    this.pencil = pencil;
    this.#opened = opened;
    this.#player.load(opened, later);
    this.dispatchEvent(new Event("opened"));
    return opened;
  }

  /**
   * What a text is as a pencil, and as a routine. What is open stays open.
   * @param {string} text
   */
  async look(text) {
    const { sampleRate } = this.#player;
    const { language } = data;
    const asked = { routine: data.routine, pencil: text, language, take: this.take, sampleRate };
    const pencil = await this.#answered(this.#engine.open(asked));
    const routine = await this.#answered(this.#engine.open({ routine: text, language, sampleRate }));
    // What the engine draws and marks is what it has opened last.
    await this.open(this.take, this.pencil);
    return { pencil, isRoutine: routine.ok };
  }

  get opened() {
    if (!this.#opened) throw new Error("no routine is open");
    return this.#opened;
  }

  get lines() {
    return this.opened.lines;
  }

  get key() {
    return this.opened.take.key;
  }

  get sampleRate() {
    return this.#player.sampleRate;
  }

  get state() {
    return this.#player.state;
  }

  get cause() {
    return this.#player.cause;
  }

  /** @returns {Heard} */
  position() {
    const { where, index, frame, pass, leftToCount, toMusic, lines: of } = this.#player.position();
    const { lines } = this;
    if (this.state === "ended") return { index: lines.length - 1, frame: Infinity };
    if (where === null) return { index, frame: 0, pass };
    if (where !== "rest" && this.repeated) {
      const there = of === lines ? frame : frameAtTempo(of[index], lines[index], pass, frame);
      const { from } = this.repeated;
      return { index, frame: there, ...(toMusic === null ? {} : { counted: { left: toMusic, pass, moment: from } }) };
    }
    if (where !== "rest") return frame < lines[index].countIn ? { index, frame, pass } : { index, frame };
    // While it waits nothing is left, and no time passes.
    const { barLine } = lines[index];
    const next = nextCountIn(lines, index);
    if (leftToCount === null || next === null) return { index, frame: barLine };
    return { index, frame: Math.max(barLine, next - leftToCount * this.sampleRate) };
  }

  /** @param {number} index */
  play(index) {
    this.#player.play(index);
  }

  /** What is repeated; null where nothing is. */
  get repeated() {
    return this.#player.repeated;
  }

  /** @param {Loop} loop */
  loop(loop) {
    return this.#player.loop(loop);
  }

  /** Leaves a loop at its end. */
  onward() {
    this.#player.onward();
  }

  go() {
    this.#player.go();
  }

  pause() {
    this.#player.pause();
  }

  hold() {
    return this.#player.hold();
  }

  stop() {
    this.#player.stop();
  }

  /**
   * Drawings of lines, broken to a width.
   * @param {number} width
   * @param {number[]} [lines]
   * @param {"ends" | "all"} [passes] of a walk
   */
  strips(width, lines, passes = "ends") {
    return this.#answered(this.#engine.strips({ width, lines, passes }));
  }

  /**
   * The text of a pencil with a mark more or less.
   * @param {Protocol.MarkRequest} request
   */
  mark(request) {
    return this.#answered(this.#engine.mark(request));
  }

  /**
   * The engine's answer; a refusal in words where it has broken down.
   * @template Answer
   * @param {Promise<Answer>} asked
   * @returns {Promise<Answer | Protocol.Refusal>}
   */
  async #answered(asked) {
    try {
      return await asked;
    } catch (error) {
      this.#broken(error);
      const message = phrase("player-broke");
      const place = { of: null, row: null, column: null };
      const hint = phrase("load-again");
      return { ok: false, problems: [{ severity: "error", in: "request", ...place, message, hint }] };
    }
  }

  /** @param {unknown} error */
  #broken(error) {
    if (this.broken) return;
    this.broken = true;
    this.dispatchEvent(new CustomEvent("broken", { detail: error }));
  }

  /**
   * @param {Voice} voice
   * @param {string} words
   * @returns {Volume}
   */
  #volume(voice, words) {
    return { words, get: () => this.#player.volumes[voice], set: (value) => this.#player.volume(voice, value) };
  }
}
