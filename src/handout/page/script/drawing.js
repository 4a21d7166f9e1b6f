// Draws lines anew where the key or the pencil is another than the page was made with.

/**
 * @param {Rendered} rendered
 */
async function redraw(rendered) {
  const { narrow, wide } = data.widths;
  const [small, large] = [await rendered.strips(narrow), await rendered.strips(wide)];
  if (!small.ok || !large.ok) return;
  addGlyphs(small.glyphs);
  addGlyphs(large.glyphs);
  const { key } = rendered;
  const places = (data.places[key] ??= []);
  for (const [index, strip] of small.strips.entries()) {
    const other = large.strips[index];
    const music = musicOf(strip.of, key);
    music.innerHTML = strip.svg.replace("strip", "strip narrow") + other.svg.replace("strip", "strip wide");
    places[strip.of] = [strip.places, other.places];
  }
}

/**
 * Where the music of a line stands in one key, made if it is new.
 * @param {number} of
 * @param {number} key
 */
function musicOf(of, key) {
  const item = itemOf(of);
  const there = item.querySelector(`.music[data-key="${key}"]`);
  if (there) return there;
  const music = make("div", { className: "music", "data-key": key });
  find(".pencilled", item).after(music);
  return music;
}

/**
 * Adds the glyphs that the page does not have yet.
 * @param {string} definitions
 */
function addGlyphs(definitions) {
  const box = make("div");
  box.innerHTML = definitions;
  const there = find("svg > defs");
  for (const glyph of box.querySelectorAll("defs > path")) {
    if (!document.getElementById(glyph.id)) there.append(glyph);
  }
}

/**
 * Shows the music in one key.
 * @param {number} key
 */
function showKey(key) {
  for (const music of findAll(".music")) {
    music.hidden = Number(music.dataset.key) !== key;
    music.querySelector(".key")?.remove();
  }
}
