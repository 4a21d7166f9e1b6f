// The mark on the staff that shows where the music is.

const stillness = matchMedia("(prefers-reduced-motion: reduce)");

class Place {
  #drawings;
  #mark;
  #system;

  /** `item` is the line on the page; `places` says where its notes are, for the narrow and for the wide drawing. */
  constructor(item, key, places) {
    const music = item.querySelector(`.music[data-key="${key}"]`);
    this.#drawings = ["narrow", "wide"].map((name, index) => ({
      drawing: music?.querySelector(`.${name}`),
      ...places?.[index],
    }));
    this.#mark = document.createElementNS("http://www.w3.org/2000/svg", "rect");
    this.#mark.setAttribute("class", "place");
  }

  clear() {
    this.#mark.remove();
    this.#system = undefined;
  }

  /** Shows a moment of the pass that is called `place`: the same pass if it is printed, else the first. */
  show(place, moment) {
    // One of the two is shown: the page's style says which.
    const { drawing, systems, places } = this.#drawings.find((one) => one.systems && one.drawing?.getClientRects().length > 0) ?? {};
    if (!drawing) return;
    const pass = Math.max(0, places.indexOf(place));
    let found;
    for (const system of systems) {
      const { moments } = system;
      for (let i = 0; i < moments.length; i += 3) {
        if (moments[i] !== pass || moments[i + 1] > moment + 1e-6) continue;
        // The end of a system and the start of the next are one moment: the later one counts.
        const next = moments[i + 3] === pass ? i + 3 : -1;
        found = { system, at: moments[i + 1], x: moments[i + 2], next: next < 0 ? null : [moments[next + 1], moments[next + 2]] };
      }
    }
    if (!found) return;
    let { x } = found;
    if (found.next && !stillness.matches) {
      const [at, to] = found.next;
      x += ((to - x) * (moment - found.at)) / (at - found.at);
    }
    const [top, bottom] = found.system.staff;
    // A breathing line has one line for a staff.
    const over = bottom - top < 5 ? 12 : 8;
    if (this.#mark.parentNode !== drawing) drawing.prepend(this.#mark);
    const set = { x: (x - 4).toFixed(2), y: top - over, width: 8, height: bottom - top + 2 * over, rx: 2.5 };
    for (const [name, value] of Object.entries(set)) this.#mark.setAttribute(name, value);
    if (this.#system !== found.system) {
      this.#system = found.system;
      this.#bringIntoView(drawing, found.system);
    }
  }

  /** A line that is higher than its part of the screen moves with the music. */
  #bringIntoView(drawing, system) {
    const box = drawing.closest("li");
    if (box.scrollHeight <= box.clientHeight) return;
    const scale = drawing.getBoundingClientRect().width / drawing.viewBox.baseVal.width;
    const top = drawing.getBoundingClientRect().top - box.getBoundingClientRect().top + box.scrollTop;
    box.scrollTo({ top: top + system.box[0] * scale - 16, behavior: stillness.matches ? "auto" : "smooth" });
  }
}
