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
  failed = false;
  /** @type {Record<string, Volume>} */
  volumes;

  /** @param {Engine} engine */
  constructor(engine) {
    super();
    this.#engine = engine;
    this.#player = new Player(engine);
    this.#player.addEventListener("state", () => this.dispatchEvent(new Event("change")));
    this.#player.addEventListener("fault", (event) => {
      this.dispatchEvent(new Event("change"));
      this.failed = true;
      const { error } = /** @type {CustomEvent} */ (event).detail;
      this.dispatchEvent(new CustomEvent("broken", { detail: error }));
    });
    this.volumes = {
      guide: this.#volume("guide", "Guide"),
      click: this.#volume("click", "Click"),
      drone: this.#volume("drone", "Held note"),
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
   */
  async open(take, pencil) {
    const { sampleRate } = this.#player;
    const opened = await this.#engine.open({ routine: data.routine, pencil, take, sampleRate });
    if (!opened.ok) return opened;
    this.take = take;
    this.pencil = pencil;
    this.#opened = opened;
    await this.#player.load(opened);
    this.dispatchEvent(new Event("opened"));
    return opened;
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

  get playing() {
    return this.#player.state === "playing";
  }

  position() {
    const { where, index, frame, leftToCount } = this.#player.position();
    const { lines } = this;
    if (this.#player.state === "ended") return { index: lines.length - 1, frame: Infinity };
    if (where !== "rest") return { index, frame };
    // While it waits nothing is left, and no time passes.
    const { barLine } = lines[index];
    const next = nextCountIn(lines, index);
    if (leftToCount === null || next === null) return { index, frame: barLine };
    return { index, frame: Math.max(barLine, next - leftToCount * this.sampleRate) };
  }

  /** @param {number} index */
  play(index) {
    return this.#player.play(index);
  }

  pause() {
    this.#player.pause();
  }

  resume() {
    const { state } = this.#player;
    return state === "ended" || state === "stopped" ? this.#player.play() : this.#player.resume();
  }

  wait() {
    this.#player.wait();
  }

  /** @param {number} index */
  ready(index) {
    return this.#player.state === "waiting" ? this.#player.ready() : this.play(index);
  }

  stop() {
    this.#player.stop();
  }

  /**
   * Drawings of lines, broken to a width.
   * @param {number} width
   * @param {number[]} [lines]
   */
  strips(width, lines) {
    return this.#engine.strips({ width, lines, passes: "ends" });
  }

  /**
   * The text of a pencil with a mark more or less.
   * @param {Protocol.MarkRequest} request
   */
  mark(request) {
    return this.#engine.mark(request);
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
