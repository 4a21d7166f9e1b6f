// The drawing of a line as something to touch: which note is there, and which pitch a place on the staff means.

/** @typedef {{ after: number, note: number | null, pitch: string, x: number, system: number }} Spot */

/** How near a touch must be to a note to mean it, in points. */
const NEAR = 9;

/**
 * Where a pointer is in a drawing, in its points.
 * @param {SVGSVGElement} drawing
 * @param {PointerEvent | MouseEvent} event
 */
function pointIn(drawing, event) {
  const box = drawing.getBoundingClientRect();
  const scale = drawing.viewBox.baseVal.width / box.width;
  return { x: (event.clientX - box.left) * scale, y: (event.clientY - box.top) * scale };
}

/**
 * What a point means: a note there, or else the note after which one would be written, and its pitch.
 * @param {SVGSVGElement} drawing
 * @param {Protocol.Strip} strip
 * @param {{ x: number, y: number }} point
 * @returns {Spot}
 */
function spotAt(drawing, strip, { x, y }) {
  const { systems } = strip.places;
  const far = (/** @type {number} */ index) => {
    const [top, bottom] = systems[index].box;
    return Math.max(0, top - y, y - bottom);
  };
  const system = systems.map((_, index) => index).reduce((best, one) => (far(one) < far(best) ? one : best), 0);
  const notes = strip.notes.filter((note) => note.system === system);
  const near = notes.reduce((/** @type {Protocol.StripNote | null} */ best, note) => {
    return Math.abs(note.x - x) < Math.abs((best?.x ?? Infinity) - x) ? note : best;
  }, null);
  const before = notes.filter((note) => note.x < x).at(-1) ?? strip.notes.filter((note) => note.system < system).at(-1);
  return {
    note: near && Math.abs(near.x - x) <= NEAR ? near.note : null,
    after: before?.note ?? 0,
    pitch: pitchAt(drawing, systems[system]?.staff ?? [0, 20], y),
    x,
    system,
  };
}

/**
 * The natural pitch of a height on a staff.
 * @param {SVGSVGElement} drawing
 * @param {[number, number]} staff
 * @param {number} y
 */
function pitchAt(drawing, [top, bottom], y) {
  const isBass = drawing.querySelector('[href="#fClef"]') !== null;
  const half = (bottom - top) / 8;
  return stepped(isBass ? "A3" : "F5", Math.round((top - y) / half));
}

/**
 * Draws which notes are selected, and where the next one would come.
 * @param {SVGSVGElement} drawing
 * @param {Protocol.Strip} strip
 * @param {number[]} numbers
 */
function showSelected(drawing, strip, numbers) {
  for (const old of drawing.querySelectorAll(".selected")) old.remove();
  for (const note of strip.notes) {
    if (!numbers.includes(note.note)) continue;
    const { staff } = strip.places.systems[note.system];
    const mark = document.createElementNS("http://www.w3.org/2000/svg", "rect");
    const [top, bottom] = staff[1] - staff[0] < 5 ? [staff[0] - 10, staff[1] + 10] : staff;
    const set = { class: "selected", x: note.x - 6, y: top - 8, width: 12, height: bottom - top + 16, rx: 3 };
    for (const [name, value] of Object.entries(set)) mark.setAttribute(name, String(value));
    drawing.prepend(mark);
  }
}

/**
 * A note in words.
 * @param {Token | undefined} token
 */
function wordsOfNote(token) {
  if (!token) return "";
  const pitch = token.pitch.replace("#", "♯").replace(/^([A-G])b/, "$1♭");
  const [length, dot] = [token.length.replace(".", ""), token.length.endsWith(".")];
  const key = LENGTHS.includes(length) ? lengthWord(length) : "";
  return [pitch, dot ? t("dotted", { length: key }) : key, token.rest].filter(Boolean).join(" ");
}

/** @param {string} length */
function lengthWord(length) {
  return [t("whole"), t("half"), t("quarter"), t("eighth"), t("sixteenth")][LENGTHS.indexOf(length)] ?? length;
}
