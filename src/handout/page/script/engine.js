// Plays what the engine renders, as tracks.js plays what is finished; and draws lines, and writes into a pencil.
// `Engine`, `Player` and `ENGINE_WORKER` come from handout/engine.

class Rendered extends EventTarget {
  #engine;
  #player;
  #opened;
  /** What is played: { tempo, key, guide }. */
  take;
  /** The text of the pencil that is laid over, or null. */
  pencil;

  constructor(engine) {
    super();
    this.#engine = engine;
    this.#player = new Player(engine, { session: false });
    for (const name of ["state", "fault"]) {
      this.#player.addEventListener(name, () => this.dispatchEvent(new Event("change")));
    }
    this.#player.addEventListener("fault", ({ detail }) => {
      this.failed = true;
      this.dispatchEvent(new CustomEvent("broken", { detail: detail.error }));
    });
    const voice = (name) => [() => this.#player.volumes[name], (value) => this.#player.volume(name, value)];
    this.volumes = {
      guide: ["Guide", ...voice("guide")],
      click: ["Click", ...voice("click")],
      drone: ["Held note", ...voice("drone")],
    };
  }

  /** Opens the routine at a take with a pencil; what is wrong with them is given back, and then nothing has changed. */
  async open(take, pencil) {
    const { sampleRate } = this.#player;
    const opened = await this.#engine.open({ routine: data.routine, pencil, take, sampleRate });
    if (!opened.ok) return opened;
    this.take = take;
    this.pencil = pencil;
    this.key = opened.take.key;
    this.#opened = opened;
    this.lines = courseOf(JSON.parse(opened.course));
    await this.#player.load(opened);
    this.dispatchEvent(new Event("opened"));
    return opened;
  }

  get opened() {
    return this.#opened;
  }

  get playing() {
    return this.#player.state === "playing";
  }

  position() {
    const { state, where, index, frame, leftToCount } = this.#player.position();
    const line = this.lines[index];
    if (state === "ended") return { index: this.lines.length - 1, t: Infinity };
    if (where !== "rest") return { index, t: frame / this.#player.sampleRate };
    // While it waits nothing is left, and no time passes.
    return { index, t: leftToCount === null ? line.end : Math.max(line.end, line.until - leftToCount) };
  }

  play(index) {
    return this.#player.play(index);
  }

  pause() {
    this.#player.pause();
  }

  resume() {
    return this.#player.state === "ended" || this.#player.state === "stopped" ? this.#player.play() : this.#player.resume();
  }

  wait() {
    this.#player.wait();
  }

  ready(index) {
    return this.#player.state === "waiting" ? this.#player.ready() : this.play(index);
  }

  stop() {
    this.#player.stop();
  }

  /** Drawings of lines, broken to `width`. */
  strips(width, lines) {
    return this.#engine.strips({ width, lines, passes: "ends" });
  }

  /** A pencil with a mark more or less. */
  mark(request) {
    return this.#engine.mark(request);
  }

  marks(pencil) {
    return this.#engine.marks({ pencil });
  }

  static async start() {
    if (!Engine.possible()) return null;
    const wasm = by("leadpipe-engine")?.textContent;
    if (!wasm) return null;
    return new Rendered(await Engine.start({ worker: ENGINE_WORKER, wasm }));
  }
}
