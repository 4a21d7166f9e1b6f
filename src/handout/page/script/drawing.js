// Draws the lines anew, where the key or the pencil is another than the page was made with.

const WIDTHS = { narrow: 190, wide: 380 };

/** Draws `lines` (all, if left out) as they are open in the engine. */
async function redraw(rendered, lines) {
  const drawn = {};
  for (const [name, width] of Object.entries(WIDTHS)) {
    const answer = await rendered.strips(width, lines);
    if (!answer.ok) return;
    addGlyphs(answer.glyphs);
    for (const strip of answer.strips) (drawn[strip.of] ??= {})[name] = strip;
  }
  const { key } = rendered;
  data.places[key] ??= [];
  for (const [of, { narrow, wide }] of Object.entries(drawn)) {
    const item = document.querySelector(`#lines > li[data-line="${of}"]`);
    let music = item.querySelector(`.music[data-key="${key}"]`);
    if (!music) {
      music = make("div", { className: "music", "data-key": key });
      item.querySelector(".pencilled").after(music);
    }
    music.innerHTML = narrow.svg.replace("strip", "strip narrow") + wide.svg.replace("strip", "strip wide");
    data.places[key][of] = [JSON.parse(narrow.places), JSON.parse(wide.places)];
  }
}

/** Glyphs that the page has not yet. */
function addGlyphs(definitions) {
  const box = make("div");
  box.innerHTML = definitions;
  const there = document.querySelector("svg > defs");
  for (const glyph of box.querySelectorAll("defs > path")) if (!by(glyph.id)) there.append(glyph);
}

/** Shows the music in one key. */
function showKey(key) {
  for (const music of document.querySelectorAll(".music")) {
    music.hidden = Number(music.dataset.key) !== key;
    music.querySelector(".key")?.remove();
  }
}
