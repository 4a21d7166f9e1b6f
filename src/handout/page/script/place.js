// The mark on the staff that shows where the music is.

const stillness = matchMedia("(prefers-reduced-motion: reduce)");

/** @typedef {Protocol.Places["systems"][number]} System */

class Place {
  /** @type {{ drawing: SVGSVGElement, places: Protocol.Places }[]} The narrow and the wide drawing. */
  #drawings = [];
  #mark = document.createElementNS("http://www.w3.org/2000/svg", "rect");
  /** @type {System | undefined} */
  #system;

  /**
   * @param {HTMLElement} item the line on the page
   * @param {number} key
   * @param {Protocol.Places[] | null} places where its music is, for the narrow and for the wide drawing
   * @param {{ drawing: SVGSVGElement, places: Protocol.Places } | null} whole the drawing of all its passes, where there is one
   */
  constructor(item, key, places, whole) {
    if (whole) this.#drawings.push(whole);
    const music = item.querySelector(`.music[data-key="${key}"]`);
    for (const [index, name] of ["narrow", "wide"].entries()) {
      const drawing = /** @type {SVGSVGElement | null | undefined} */ (music?.querySelector(`.${name}`));
      if (drawing && places?.[index]) this.#drawings.push({ drawing, places: places[index] });
    }
    this.#mark.setAttribute("class", "place");
  }

  /** The screen is another size: what is played is brought into view again. */
  moved() {
    this.#system = undefined;
  }

  clear() {
    this.#mark.remove();
    this.#system = undefined;
  }

  /**
   * Shows a moment of a pass. No mark stands on notes that do not sound: there is none where the pass is not drawn.
   * @param {string} place the half step or tube of the pass
   * @param {number} moment in whole notes
   */
  show(place, moment) {
    // One of the two is shown: the page's style says which.
    const shown = this.#drawings.find(({ drawing }) => drawing.getClientRects().length > 0);
    if (!shown) return;
    const { drawing } = shown;
    const { places, systems } = shown.places;
    const pass = places.indexOf(place);
    const found = pass < 0 ? null : momentIn(systems, pass, moment);
    if (!found) {
      this.clear();
      return;
    }
    this.#draw(drawing, found.x, found.system.staff);
    if (this.#system !== found.system) {
      this.#system = found.system;
      this.#bringIntoView(drawing, found.system);
    }
  }

  /**
   * @param {SVGSVGElement} drawing
   * @param {number} x
   * @param {[number, number]} staff
   */
  #draw(drawing, x, [top, bottom]) {
    // A breathing line has one line for a staff.
    const over = bottom - top < 5 ? 12 : 8;
    if (this.#mark.parentNode !== drawing) drawing.prepend(this.#mark);
    const set = { x: (x - 4).toFixed(2), y: top - over, width: 8, height: bottom - top + 2 * over, rx: 2.5 };
    for (const [name, value] of Object.entries(set)) this.#mark.setAttribute(name, String(value));
  }

  /**
   * A line that is higher than its part of the screen moves with the music.
   * @param {SVGSVGElement} drawing
   * @param {System} system
   */
  #bringIntoView(drawing, system) {
    const box = drawing.closest("li");
    if (!box || box.scrollHeight <= box.clientHeight) return;
    const scale = drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width;
    const top = drawing.getBoundingClientRect().top - box.getBoundingClientRect().top + box.scrollTop;
    box.scrollTo({ top: top + system.box[0] * scale - 16, behavior: stillness.matches ? "auto" : "smooth" });
  }
}

/**
 * Where a moment of a pass is; null where the pass is not drawn.
 * @param {System[]} systems
 * @param {number} pass
 * @param {number} moment
 */
function momentIn(systems, pass, moment) {
  let found = null;
  for (const system of systems) {
    for (const [index, [of, at, x]] of system.moments.entries()) {
      // The end of a system and the start of the next are one moment: the later one counts.
      if (of === pass && at <= moment + 1e-6) found = { system, index, at, x };
    }
  }
  if (!found) return null;
  const next = found.system.moments[found.index + 1];
  if (!next || next[0] !== pass || stillness.matches) return found;
  const [, at, x] = next;
  return { ...found, x: found.x + ((x - found.x) * (moment - found.at)) / (at - found.at) };
}
