// A line drawn large, each note of its first time through a button: for breaths and bends.

const ZOOMED = 120;

/** `touched` gets the number of a note, from 1. `signs` are those that bear the mark already. */
async function zoomed(rendered, of, what, signs, touched) {
  const answer = await rendered.strips(ZOOMED, [of]);
  const strip = answer.ok ? answer.strips[0] : null;
  if (!strip) return make("p", { textContent: "This line has no notes to mark." });
  addGlyphs(answer.glyphs);
  const place = make("div", { className: "zoomed" });
  place.innerHTML = strip.svg;
  place.firstElementChild.setAttribute("aria-hidden", "true");
  const { width, systems } = JSON.parse(strip.places);
  const first = systems.filter(({ notes }) => notes.some((pass, i) => i % 4 === 0 && pass === 0));
  if (first.length === 0) return make("p", { textContent: "This line has no notes to mark." });
  // Only the first time through: marks at notes are for every time.
  const height = Math.max(...first.map(({ box }) => box[1])) + 4;
  place.firstElementChild.setAttribute("viewBox", `0 0 ${width} ${height}`);
  const names = rendered.opened.lines.find((line) => line.of === of)?.passes[0].notes ?? [];
  const part = (length, whole) => `${(100 * length) / whole}%`;
  for (const { box, staff, notes } of first) {
    const own = [];
    for (let i = 0; i < notes.length; i += 4) if (notes[i] === 0) own.push({ note: notes[i + 1], x: notes[i + 2] });
    for (const [index, { note, x }] of own.entries()) {
      const left = index === 0 ? x - 8 : (own[index - 1].x + x) / 2;
      const right = index + 1 === own.length ? x + 8 : (x + own[index + 1].x) / 2;
      const marked = signs.includes(note + 1);
      const name = names[note]?.written ?? "";
      const one = button("", () => touched(note + 1, marked), marked ? "note marked" : "note");
      one.setAttribute("aria-label", `${what} note ${note + 1}${name ? `, ${name}` : ""}`);
      one.setAttribute("aria-pressed", String(marked));
      // The policy of the page allows no style in its text; the object model may set one.
      Object.assign(one.style, {
        left: part(left, width),
        width: part(right - left, width),
        top: part(Math.min(box[0], staff[0] - 10), height),
        height: part(Math.max(box[1], staff[1] + 10) - Math.min(box[0], staff[0] - 10), height),
      });
      place.append(one);
    }
  }
  return place;
}
