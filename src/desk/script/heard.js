// What is heard: the whole, a line, or a note, and the mark on the drawing that goes with it.

class Heard extends EventTarget {
  #book;
  #player;
  /** @type {Place | null} */
  #place = null;
  #placeOf = -1;
  /** The line after whose end it stops; -1 where it plays on. */
  #only = -1;
  /** @type {AudioContext | null} */
  #context = null;
  /** @type {AudioBufferSourceNode | null} */
  #note = null;
  /** @type {Protocol.Opened | null} */
  #loaded = null;

  /** @param {Book} book */
  constructor(book) {
    super();
    this.#book = book;
    this.#player = new Player(book.engine);
    this.#player.addEventListener("state", () => {
      this.dispatchEvent(new Event("state"));
      if (this.sounding) this.#follow();
      else this.#clear();
    });
    this.#player.addEventListener("fault", () => this.dispatchEvent(new Event("fault")));
    book.addEventListener("looked", () => this.#changed());
  }

  get sounding() {
    return ["starting", "playing"].includes(this.#player.state);
  }

  /** True where nothing comes out of the loudspeaker. */
  get silent() {
    return ["silent", "interrupted"].includes(this.#player.state);
  }

  /** The line that is heard, or -1. */
  get line() {
    const { lines, index, where } = this.#player.position();
    return this.sounding && where !== null ? (lines[index]?.of ?? -1) : -1;
  }

  /** From a line on, to the end. @param {number} of */
  from(of = 0) {
    this.#play(of, -1);
  }

  /** A line alone. @param {number} of */
  only(of) {
    this.#play(of, of);
  }

  stop() {
    this.#player.stop();
    this.#note?.stop();
    this.#note = null;
  }

  /**
   * @param {Voice} voice
   * @param {number} gain
   */
  volume(voice, gain) {
    this.#player.volume(voice, gain);
  }

  /**
   * @param {number} of
   * @param {number} only
   */
  #play(of, only) {
    const { opened } = this.#book;
    if (!opened) return;
    this.#load();
    const index = opened.lines.findIndex((line) => line.of >= of);
    if (index < 0) return;
    this.#only = only;
    this.#player.play(index);
  }

  #load() {
    const { opened } = this.#book;
    if (!opened || opened === this.#loaded) return;
    this.#loaded = opened;
    this.#player.load(opened);
  }

  /** While it is written into, what sounds is played on as it is now. */
  #changed() {
    if (this.sounding) this.#load();
  }

  /** Moves the mark with the music. */
  #follow() {
    if (!this.sounding) return;
    const { lines, index, frame, where } = this.#player.position();
    const line = lines[index];
    if (line && where === "line") {
      const now = whereIs(lines, index, frame, this.#player.sampleRate);
      if ("moment" in now) this.#show(line, line.passes[now.pass].place, now.moment);
    }
    if (line && this.#only >= 0 && (line.of > this.#only || (line.of === this.#only && where === "rest"))) {
      // What was asked for is over: the rest after it is not waited out.
      this.#player.stop();
      return;
    }
    requestAnimationFrame(() => this.#follow());
  }

  /**
   * @param {Protocol.TimetableLine} line
   * @param {string} place
   * @param {number} moment
   */
  #show({ of }, place, moment) {
    const strip = this.#book.strips.get(of);
    const item = document.querySelector(`[data-line="${of}"]`);
    const drawing = /** @type {SVGSVGElement | null | undefined} */ (item?.querySelector("svg.strip"));
    if (!strip || !drawing || !(item instanceof HTMLElement)) return;
    if (this.#placeOf !== of || !this.#place) {
      this.#clear();
      this.#place = new Place(item, 0, null, { drawing, places: strip.places });
      this.#placeOf = of;
      this.dispatchEvent(new CustomEvent("line", { detail: of }));
    }
    this.#place.show(strip.places.places.includes(place) ? place : (strip.places.places[0] ?? ""), moment);
  }

  /** The drawing is another: the mark goes on in the new one. */
  redrawn() {
    this.#clear();
  }

  #clear() {
    this.#place?.clear();
    this.#place = null;
    this.#placeOf = -1;
  }

  /**
   * A note by itself, as it sounds in its line. Nothing is heard of it while the line is played.
   * @param {number} of
   * @param {number} moment where it begins in the first pass, in whole notes
   * @param {number} length in whole notes
   */
  async note(of, moment, length) {
    const { opened, engine } = this.#book;
    if (!opened || this.sounding) return;
    const index = opened.lines.findIndex((line) => line.of === of);
    const line = opened.lines[index];
    if (!line || line.on === "air") return;
    this.#context ??= new AudioContext({ sampleRate: engine.sampleRate, latencyHint: "interactive" });
    const context = this.#context;
    if (context.state !== "running") await context.resume();
    const from = line.passes[0].start + Math.round(moment * line.wholeNote);
    const begun = await engine.begin({ opened: opened.id, unit: 2 * index + 1, from, volume: ["click=off", "drone=off"] });
    if (!begun.ok) return;
    const most = Math.round(Math.min(length * line.wholeNote, 1.2 * engine.sampleRate)) + (from - begun.from);
    const { guide } = await engine.fill({ performance: begun.performance, frames: most });
    await engine.end({ performance: begun.performance });
    const heard = guide.subarray(Math.min(from - begun.from, guide.length));
    if (heard.length === 0) return;
    this.#sound(context, heard);
  }

  /**
   * @param {AudioContext} context
   * @param {Float32Array<ArrayBuffer>} samples
   */
  #sound(context, samples) {
    this.#note?.stop();
    const buffer = context.createBuffer(1, samples.length, this.#book.engine.sampleRate);
    buffer.copyToChannel(samples, 0);
    const source = new AudioBufferSourceNode(context, { buffer });
    const gain = new GainNode(context);
    const end = context.currentTime + samples.length / context.sampleRate;
    gain.gain.setValueAtTime(1, Math.max(context.currentTime, end - 0.03));
    gain.gain.linearRampToValueAtTime(0, end);
    source.connect(gain).connect(context.destination);
    source.start();
    this.#note = source;
  }
}
