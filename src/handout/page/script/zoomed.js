// A line drawn large, each note of its first pass through a button: for breaths and bends.

/**
 * @param {Rendered} rendered
 * @param {number} of
 * @param {(note: number) => string} what words for what touching a note does
 * @param {(note: Protocol.StripNote) => boolean} bears true for a note that bears the mark already
 * @param {(note: Protocol.StripNote) => void} touched
 */
async function zoomed(rendered, of, what, bears, touched) {
  const answer = await rendered.strips(data.widths.touch, [of]);
  const strip = answer.ok ? answer.strips[0] : null;
  if (!answer.ok || !strip || strip.notes.length === 0) {
    return make("p", { textContent: phrase("no-notes-to-mark") });
  }
  addGlyphs(answer.glyphs);
  const place = make("div", { className: "zoomed" });
  place.innerHTML = strip.svg;
  const drawing = find("svg", place);
  drawing.setAttribute("aria-hidden", "true");
  const { systems } = strip.places;
  const first = systems.filter((_, system) => strip.notes.some((note) => note.system === system));
  // Only the first pass: marks at notes are for every pass.
  const height = Math.max(...first.map(({ box }) => box[1])) + 4;
  drawing.setAttribute("viewBox", `0 0 ${strip.width} ${height}`);
  for (const [system, { box, staff }] of systems.entries()) {
    const notes = strip.notes.filter((note) => note.system === system);
    const top = Math.min(box[0], staff[0] - 10);
    const bottom = Math.max(box[1], staff[1] + 10);
    for (const [index, one] of notes.entries()) {
      const { note, name, x } = one;
      const left = index === 0 ? x - 8 : (notes[index - 1].x + x) / 2;
      const right = index + 1 === notes.length ? x + 8 : (x + notes[index + 1].x) / 2;
      const marked = bears(one);
      const touch = button("", () => touched(one), marked ? "note marked" : "note");
      touch.setAttribute("aria-label", `${what(note)}${name ? `, ${name}` : ""}`);
      touch.setAttribute("aria-pressed", String(marked));
      put(touch, [left / strip.width, right / strip.width], [top / height, bottom / height]);
      place.append(touch);
    }
  }
  return place;
}

/**
 * Puts an element at parts of its place's width and height.
 * @param {HTMLElement} element
 * @param {[number, number]} across
 * @param {[number, number]} down
 */
function put(element, [left, right], [top, bottom]) {
  const percent = (/** @type {number} */ part) => `${100 * part}%`;
  // The policy of the page allows no style in its text; the object model may set one.
  Object.assign(element.style, {
    left: percent(left),
    width: percent(right - left),
    top: percent(top),
    height: percent(bottom - top),
  });
}
