// Draws lines anew where the key or the pencil is another than the page was made with: those in view at once, each other one as it
// comes into view.

/** Lines that are asked for together: few enough that a slow phone answers in between. */
const AT_ONCE = 4;

const wideScreen = matchMedia("(min-width: 48rem)");

/** The lines in view, or nearly; it says "moved" when they are others. What the page holds folded is unfolded there. */
class Near extends EventTarget {
  /** @type {Set<number>} */
  lines = new Set();

  watch() {
    addEventListener("beforeprint", () => items().forEach(unfold));
    if (!globalThis.IntersectionObserver) {
      for (const [of, item] of items().entries()) {
        this.lines.add(of);
        unfold(item);
      }
      return;
    }
    const observer = new IntersectionObserver((entries) => this.#moved(entries), { rootMargin: "50%" });
    for (const item of items()) observer.observe(item);
  }

  /** @param {IntersectionObserverEntry[]} entries */
  #moved(entries) {
    for (const { target, isIntersecting } of entries) {
      const item = /** @type {HTMLElement} */ (target);
      const of = Number(item.dataset.line);
      if (!isIntersecting) this.lines.delete(of);
      else {
        this.lines.add(of);
        unfold(item);
      }
    }
    this.dispatchEvent(new Event("moved"));
  }
}

const near = new Near();

class Drawings extends EventTarget {
  #rendered;
  /** @type {Map<number, Set<number>>} By key: the lines whose drawing is as it should be. */
  #fresh = new Map();
  /** @type {Promise<void> | null} */
  #going = null;
  /** Rises with every change: what was asked for before is out of date. */
  #version = 0;

  /**
   * @param {Rendered} rendered
   * @param {boolean} printed true if the page's own drawings hold
   */
  constructor(rendered, printed) {
    super();
    this.#rendered = rendered;
    const all = items().map((_, of) => of);
    if (printed) for (const key of Object.keys(data.places)) this.#fresh.set(Number(key), new Set(all));
    wideScreen.addEventListener("change", () => this.changed(all));
    near.addEventListener("moved", () => this.show());
  }

  /**
   * These lines look otherwise than they are drawn. Settles when those in view are drawn.
   * @param {number[]} lines
   */
  async changed(lines) {
    this.#version++;
    for (const fresh of this.#fresh.values()) for (const of of lines) fresh.delete(of);
    await this.show();
  }

  /** Draws what is in view and out of date, in the key that is played. */
  async show() {
    this.#going ??= this.#go().finally(() => (this.#going = null));
    await this.#going;
  }

  async #go() {
    for (;;) {
      const { key } = this.#rendered;
      const fresh = this.#fresh.get(key) ?? new Set();
      this.#fresh.set(key, fresh);
      const lines = [...near.lines].filter((of) => !fresh.has(of)).slice(0, AT_ONCE);
      if (lines.length === 0) return;
      const version = this.#version;
      const { narrow, wide } = data.widths;
      const small = await this.#rendered.strips(narrow, lines);
      // A screen that is too small for it is not worth the time.
      const large = wideScreen.matches ? await this.#rendered.strips(wide, lines) : null;
      if (!small.ok || large?.ok === false) return;
      if (version !== this.#version || key !== this.#rendered.key) continue;
      for (const of of lines) fresh.add(of);
      this.#put(key, small, large);
    }
  }

  /**
   * @param {number} key
   * @param {Protocol.Strips} small
   * @param {Protocol.Strips | null} large
   */
  #put(key, small, large) {
    addGlyphs(small.glyphs);
    if (large) addGlyphs(large.glyphs);
    const places = (data.places[key] ??= []);
    for (const [index, strip] of small.strips.entries()) {
      const other = large?.strips[index];
      const music = musicOf(strip.of, key);
      const drawn = strip.svg.replace("strip", "strip narrow");
      music.innerHTML = other ? drawn + other.svg.replace("strip", "strip wide") : drawn;
      places[strip.of] = other ? [strip.places, other.places] : [strip.places];
    }
    this.dispatchEvent(new Event("drawn"));
  }
}

/**
 * Draws what the page holds as text until it comes into view.
 * @param {HTMLElement} item
 */
function unfold(item) {
  for (const folded of findAll(".music > noscript", item)) folded.outerHTML = folded.textContent ?? "";
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
