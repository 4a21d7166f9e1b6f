// A bar, a pass or the notes between two again and again, and faster each time: what there is to touch.

class Looped {
  #stand;
  #rendered;
  #settings;
  /** Where the music was when More was touched: it plays on while a person reads. */
  #at = { index: 0, pass: 0, bar: 0 };
  #sheet = /** @type {HTMLDialogElement} */ (make("dialog", { id: "from-to", "aria-labelledby": "from-to-title" }));
  /** Counts the drawings that were asked for: only the last one is shown. */
  #asked = 0;

  /**
   * @param {Stand} stand
   * @param {Rendered} rendered
   * @param {Settings} settings
   */
  constructor(stand, rendered, settings) {
    this.#stand = stand;
    this.#rendered = rendered;
    this.#settings = settings;
    document.body.append(this.#sheet);
    by("more").addEventListener("opens", () => this.#look());
    by("loop-bar").addEventListener("click", () => this.#begin(loopOfBar(this.#line, this.#at.pass, this.#at.bar)));
    by("loop-pass").addEventListener("click", () => this.#begin(loopOfPass(this.#line, this.#at.pass)));
    by("loop-notes").addEventListener("click", () => this.#askNotes());
    by("onward").addEventListener("click", () => {
      this.#close();
      rendered.onward();
      stand.say(phrase("once-more"));
    });
    by("worse").addEventListener("click", () => settings.slower());
    stand.again = () => {
      if (rendered.repeated && !rendered.broken) settings.fasterNext();
      else stand.begin(stand.line);
    };
    for (const what of ["loop", "opened", "broken"]) rendered.addEventListener(what, () => this.#show());
    this.#show();
  }

  get #line() {
    return this.#rendered.lines[this.#at.index];
  }

  #show() {
    const { broken, repeated } = this.#rendered;
    const on = repeated !== null && !broken;
    const [slower, faster] = [this.#settings.next(-STEP), this.#settings.next(STEP)];
    document.body.classList.toggle("looping", on);
    by("loops").hidden = broken;
    by("onward").hidden = !on;
    by("worse").hidden = !on;
    by("worse").textContent = phrase("slower-percent", { percent: slower ?? SLOWEST });
    buttonBy("worse").disabled = slower === null;
    by("again").textContent = on ? phrase("good-percent", { percent: faster ?? FASTEST }) : phrase("again");
    buttonBy("again").disabled = on && faster === null;
  }

  /** What “this bar” is, when More is touched. In a rest it is the last one. */
  #look() {
    const now = this.#stand.now;
    if (!now || this.#rendered.broken) return;
    const { index } = now;
    const line = this.#rendered.lines[index];
    const pass = "pass" in now ? now.pass : line.passes.length - 1;
    const moment = "moment" in now ? now.moment : "pass" in now ? 0 : Infinity;
    this.#at = { index, pass, bar: barAt(line, pass, moment) };
    by("loop-bar").textContent = phrase("loop-bar", { n: this.#at.bar + 1 });
    by("loop-pass").textContent = line.passes.length > 1 ? phrase("loop-time", { n: pass + 1 }) : phrase("loop-line");
  }

  #close() {
    this.#sheet.close();
    /** @type {HTMLDialogElement} */ (by("more")).close();
  }

  /** @param {Loop} loop */
  #begin(loop) {
    this.#close();
    this.#rendered.loop(loop);
    this.#stand.say(phrase("looping"));
  }

  /** The first note and the last one are touched. */
  async #askNotes() {
    const { of } = this.#line;
    const asked = ++this.#asked;
    const title = make("h2", { id: "from-to-title", textContent: phrase("touch-first") });
    const back = button(phrase("back"), () => this.#sheet.close(), "deed");
    const place = make("div", { className: "from-to" });
    this.#sheet.replaceChildren(title, place, make("div", { className: "row last" }, back));
    this.#close();
    this.#stand.pause();
    openSheet(this.#sheet);
    const answer = await this.#rendered.strips(data.widths.touch, [of]);
    const moments = answer.ok && answer.strips[0] ? momentsOfNotes(answer.strips[0]) : new Map();
    /** @type {number | null} */
    let first = null;
    const draw = async () => {
      const what = (/** @type {number} */ note) => phrase(first === null ? "from-note" : "to-note", { note });
      const drawing = await zoomed(
        this.#rendered,
        of,
        what,
        ({ note }) => note === first,
        ({ note }) => {
          if (first === null) {
            first = note;
            title.textContent = phrase("touch-last");
            draw();
          } else this.#begin(this.#between(moments, Math.min(first, note), Math.max(first, note)));
        },
      );
      if (asked === this.#asked) place.replaceChildren(drawing);
    };
    await draw();
  }

  /**
   * From the beginning of a note to the next one after another.
   * @param {Map<number, number>} moments
   * @param {number} first
   * @param {number} last
   * @returns {Loop}
   */
  #between(moments, first, last) {
    const { pass } = this.#at;
    const whole = loopOfPass(this.#line, pass);
    return { ...whole, from: moments.get(first) ?? whole.from, to: moments.get(last + 1) ?? whole.to };
  }
}

/**
 * When each note of the first pass of a drawing begins, in whole notes since the start of the pass.
 * @param {Protocol.Strip} strip
 */
function momentsOfNotes({ notes, places }) {
  /** @type {Map<number, number>} */
  const found = new Map();
  for (const { note, system, x } of notes) {
    const moments = places.systems[system].moments.filter(([pass]) => pass === 0);
    const nearest = moments.reduce((best, one) => (Math.abs(one[2] - x) < Math.abs(best[2] - x) ? one : best));
    found.set(note, nearest[1]);
  }
  return found;
}
