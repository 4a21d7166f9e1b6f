// The routine on the desk: its text, the steps it went through, and what the engine makes of it. Whatever changes the text goes
// through `change`, so that every state is kept and can be gone back to.
//
// It says "text" when the text is another, "looked" when the engine has read it, "judged" when it is checked, "mended" when something can mend it, "drawn" when lines are drawn anew, "kept" when the
// browser has it.

class Book extends EventTarget {
  /** @type {Work} */
  work;
  /** @type {Steps} */
  history;
  #store;
  #engine;
  #workshop;
  /** @type {Protocol.Judged | null} What the checker says of it. */
  judged = null;
  /** @type {Protocol.Opened | null} The routine that is played; the last one that could be. */
  opened = null;
  /** @type {Protocol.Mended["mended"]} What would mend its problems. */
  mended = [];
  /** The lines that cannot be drawn as they stand. @type {Set<number>} */
  broken = new Set();
  /** @type {Protocol.Problem[]} Why it cannot be played. */
  refused = [];
  /** @type {Map<number, Protocol.Strip>} The drawings, by the index of their line. */
  strips = new Map();
  /** @type {Protocol.Take} At which it is heard. */
  take = { tempo: "100%", key: 0, guide: "together" };
  /** Changes with every text: what was asked for before is out of date. */
  #version = 0;
  /** @type {Promise<void> | null} */
  #reading = null;
  /** The routine in its parts. */
  get parts() {
    return blocksIn(this.text);
  }

  /** @type {string[]} What each line's drawing was made from. */
  #drawnFrom = [];
  /** @type {Promise<unknown>} */
  #keeping = Promise.resolve();
  /** Width of the drawings, in points. */
  width = 460;
  #others = channelOf("leadpipe-desk");

  /**
   * @param {Engine} engine
   * @param {Engine} workshop
   * @param {Store} store
   * @param {Work} work
   * @param {Step[]} steps
   */
  constructor(engine, workshop, store, work, steps) {
    super();
    this.#engine = engine;
    this.#workshop = workshop;
    this.#store = store;
    this.work = work;
    this.history = new Steps(steps, work.at);
    this.#others?.addEventListener("message", ({ data: told }) => this.#told(told));
  }

  get text() {
    return this.work.text;
  }

  /** A pupil's marks that are laid over it. */
  get pencil() {
    return this.work.pencil ?? null;
  }

  /** Lays a pupil's pencil over the routine, or puts it away. @param {string | null} pencil */
  lay(pencil) {
    this.work = { ...this.work, pencil };
    this.#keep(null);
    return this.read();
  }

  get engine() {
    return this.#engine;
  }

  get workshop() {
    return this.#workshop;
  }

  /** True where the file, or the file that was made last, holds another text. */
  get unsaved() {
    return this.work.saved !== this.work.text;
  }

  /**
   * The text becomes another.
   * @param {string} text
   * @param {string} what was changed: typing on in one place is one step
   */
  change(text, what) {
    if (text === this.text) return;
    const step = this.history.note(this.text, text, what);
    this.#now(text, step);
  }

  undo() {
    const text = this.history.undo(this.text);
    if (text !== null) this.#now(text, null);
  }

  redo() {
    const text = this.history.redo(this.text);
    if (text !== null) this.#now(text, null);
  }

  /**
   * The text is in a file now.
   * @param {string | null} file
   * @param {string} text
   */
  saved(file, text) {
    this.work = { ...this.work, file: file ?? this.work.file, saved: text };
    this.#keep(null);
    this.dispatchEvent(new Event("text"));
  }

  /**
   * @param {string} text
   * @param {Step | null} step
   */
  #now(text, step) {
    const { at, length } = this.history;
    this.work = { ...this.work, text, at, steps: length, changed: Date.now() };
    this.#keep(step);
    this.dispatchEvent(new Event("text"));
    this.read();
  }

  /** @param {Step | null} step */
  #keep(step) {
    const { work } = this;
    this.#keeping = this.#keeping
      .then(() => this.#store.keep(work, step))
      .then(() => {
        this.#others?.postMessage({ id: work.id, text: work.text });
        this.dispatchEvent(new Event("kept"));
      })
      .catch((error) => {
        console.warn(error);
        this.dispatchEvent(new Event("lost"));
      });
  }

  /**
   * Another page has written into the same routine: what it has is taken over.
   * @param {{ id: string, text: string }} told
   */
  async #told({ id, text }) {
    if (id !== this.work.id) return;
    this.dispatchEvent(new Event("others"));
    if (text === this.text) return;
    const work = await this.#store.work(id);
    if (!work) return;
    this.history = new Steps(await this.#store.steps(id), work.at);
    this.work = work;
    this.dispatchEvent(new Event("text"));
    this.read();
  }

  /** Has the engine read the text, again if it changed meanwhile. Settles when it has. */
  read() {
    this.#version++;
    // Said for whoever waits for it from outside, as tests and readers of screens do.
    document.body.setAttribute("aria-busy", "true");
    this.#reading ??= this.#readAll().finally(() => {
      this.#reading = null;
      document.body.removeAttribute("aria-busy");
    });
    return this.#reading;
  }

  async #readAll() {
    for (let version = -1; version !== this.#version;) {
      version = this.#version;
      const routine = this.text;
      const { pencil, take } = this;
      const opened = await this.#engine.open({ routine, pencil, take, sampleRate: this.#engine.sampleRate });
      if (version !== this.#version) continue;
      this.refused = opened.ok ? [] : opened.problems;
      if (opened.ok) this.opened = opened;
      this.broken = new Set();
      if (opened.ok) await this.#draw(version);
      else await this.#drawOthers(version, opened.problems);
      this.mended = [];
      this.dispatchEvent(new Event("looked"));
      if (version !== this.#version) continue;
      if (!opened.ok) {
        this.#mend(version);
        continue;
      }
      const judged = await this.#workshop.ask("judge", { routine, takes: [this.take] });
      if (version !== this.#version) continue;
      this.judged = judged.ok ? judged : null;
      this.dispatchEvent(new Event("judged"));
      this.#mend(version);
    }
  }

  /** Finds out what would mend it: nobody waits for that. @param {number} version */
  async #mend(version) {
    const found = await this.#workshop.ask("mend", { routine: this.text, takes: [this.take] });
    if (version !== this.#version || !found.ok || found.mended.length === 0) return;
    this.mended = found.mended;
    this.dispatchEvent(new Event("mended"));
  }

  /**
   * While lines are wrong all others are drawn, with a single note in the place of what is wrong. A line without a note shows that
   * one, pale; any other one its last drawing, pale.
   * @param {number} version
   * @param {Protocol.Problem[]} problems
   */
  async #drawOthers(version, problems) {
    const lines = problems.map((problem) => problem.of ?? lineOf(this, problem));
    if (lines.includes(null)) return;
    const broken = new Set(lines.map(Number));
    const top = saidOf(this.parts.head, "comfortable_top") || "G4";
    let routine = this.text;
    for (const of of broken) {
      for (const key of ["open", "tubes", "half_steps"]) routine = withEntry(routine, of, key, null);
      routine = withEntry(routine, of, "notes", quotedText(`${top}:whole`));
    }
    const opened = await this.#engine.open({ routine, take: this.take, sampleRate: this.#engine.sampleRate });
    if (!opened.ok || version !== this.#version) return;
    this.broken = broken;
    await this.#draw(version);
  }

  /**
   * Draws the lines whose text is another; all of them if the head is.
   * @param {number} version
   */
  async #draw(version) {
    const from = this.#sources();
    const all = from.map((_, of) => of);
    for (const of of this.broken) from[of] += " broken";
    const lines = all.filter((of) => from[of] !== this.#drawnFrom[of]);
    if (lines.length === 0 && from.length === this.#drawnFrom.length) return;
    const answer = await this.#engine.strips({ width: this.width, lines, passes: "ends" });
    if (!answer.ok || version !== this.#version) return;
    addGlyphs(answer.glyphs);
    const keeps = (/** @type {number} */ of) => this.broken.has(of) && this.strips.has(of) && this.#hasNotes(of);
    for (const of of lines) if (!keeps(of)) this.strips.delete(of);
    for (const strip of answer.strips) {
      if (keeps(strip.of)) continue;
      this.strips.set(strip.of, this.broken.has(strip.of) ? { ...strip, notes: [] } : strip);
    }
    for (const of of this.strips.keys()) if (of >= from.length) this.strips.delete(of);
    this.#drawnFrom = from;
    this.dispatchEvent(new CustomEvent("drawn", { detail: lines }));
  }

  /** @param {number} of */
  #hasNotes(of) {
    const line = this.parts.lines[of];
    return new Notes(saidOf(line, "notes") || saidOf(line, "open")).count > 0;
  }

  /** What each line is drawn from: its own text and the head's. */
  #sources() {
    const { head, lines } = blocksIn(this.text);
    const of = `${this.width} ${this.take.key} ${this.pencil} ${this.text.slice(0, head.to)}`;
    return lines.map(({ from, to }) => of + this.text.slice(from, to));
  }

  /**
   * Other drawings, as for a window of another width.
   * @param {number} width
   */
  drawAt(width) {
    if (Math.abs(width - this.width) < 8) return;
    this.width = width;
    this.read();
  }

  /**
   * How it is heard from now on.
   * @param {Protocol.Take} take
   */
  async hearAt(take) {
    this.take = { ...this.take, ...take };
    await this.read();
  }
}

/**
 * A channel to the other pages of this desk, where the browser has them.
 * @param {string} name
 */
function channelOf(name) {
  try {
    return new BroadcastChannel(name);
  } catch {
    return null;
  }
}

/**
 * Adds the glyphs that the page does not have yet.
 * @param {string} definitions
 */
function addGlyphs(definitions) {
  const box = make("div");
  box.innerHTML = definitions;
  const there = document.querySelector("#glyphs defs");
  if (!there) {
    const first = box.querySelector("svg");
    if (first) document.body.prepend(Object.assign(first, { id: "glyphs" }));
    return;
  }
  for (const glyph of box.querySelectorAll("defs > path")) {
    if (!document.getElementById(glyph.id)) there.append(glyph);
  }
}
