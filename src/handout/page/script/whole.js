// The passes that are not printed: of a long walk the sheet shows the first and the last one. While the line is played all are drawn.

class Whole {
  /** Milliseconds before the engine is asked to draw: the sound comes first. */
  static AFTER = 400;

  #rendered;
  #atDesk = matchMedia("(min-width: 64rem) and (hover: hover) and (pointer: fine)");
  /** @type {{ name: string, music: HTMLElement, drawn: { drawing: SVGSVGElement, places: Protocol.Places } } | null} */
  #shown = null;
  /** What is being drawn. */
  #asked = "";

  /** @param {Rendered} rendered */
  constructor(rendered) {
    this.#rendered = rendered;
  }

  /**
   * The drawing of a line with passes that are not printed; null where all are, or none is drawn yet.
   * @param {Protocol.TimetableLine} line
   * @param {() => void} ready when it is drawn, if it is not yet
   */
  of({ of, passes }, ready) {
    const { broken, key, pencil } = this.#rendered;
    const name = JSON.stringify([of, key, pencil, this.#atDesk.matches]);
    if (this.#shown?.name === name) return this.#shown.drawn;
    this.#clear();
    const printed = placesOf(key, of)?.[0]?.places ?? [];
    this.#asked = passes.every(({ place }) => printed.includes(place)) || broken ? "" : name;
    if (this.#asked) setTimeout(() => this.#draw(of, name, ready), Whole.AFTER);
    return null;
  }

  #clear() {
    this.#shown?.music.closest("li")?.classList.remove("drawn-whole");
    this.#shown?.music.remove();
    this.#shown = null;
  }

  /**
   * @param {number} of
   * @param {string} name
   * @param {() => void} ready
   */
  async #draw(of, name, ready) {
    if (this.#asked !== name || this.#shown?.name === name) return;
    const { key } = this.#rendered;
    const { narrow, wide } = data.widths;
    const answer = await this.#rendered.strips(this.#atDesk.matches ? wide : narrow, [of], "all");
    // The player may have gone on to another line meanwhile.
    if (this.#asked !== name || !answer.ok || !answer.strips[0]) return;
    const [{ svg, places }] = answer.strips;
    addGlyphs(answer.glyphs);
    const music = make("div", { className: "music whole", "data-key": key });
    music.innerHTML = svg;
    musicOf(of, key).after(music);
    itemOf(of).classList.add("drawn-whole");
    const drawing = /** @type {SVGSVGElement} */ (music.querySelector("svg"));
    this.#shown = { name, music, drawn: { drawing, places } };
    ready();
  }
}
