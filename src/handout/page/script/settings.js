// How the routine is played: tempo, key, guide, and how loud each voice is.

/** The tempo in percent of what is written. */
const SLOWEST = 40;
const FASTEST = 160;
const STEP = 5;

class Settings {
  #rendered;
  #said = make("p", { className: "tempo", role: "status" });
  #printed = make("p", { className: "soft", id: "printed-tempo" });

  /**
   * @param {Rendered} rendered
   * @param {{ key: number, guide: string }} first the take that is played until another is asked for
   */
  constructor(rendered, first) {
    this.#rendered = rendered;
    const slower = button(phrase("slower"), () => this.slower());
    const faster = button(phrase("faster"), () => this.faster());
    const place = make(
      "fieldset",
      { id: "settings" },
      make("legend", { textContent: phrase("how-to-play") }),
      make("div", { className: "row" }, slower, this.#said, faster),
      this.#printed,
      choice(phrase("key"), data.keys, String(first.key), (key) => this.change({ key: Number(key) })),
      choice(phrase("guide"), data.guides, first.guide, (guide) => this.change({ guide })),
      volumes(rendered),
    );
    by("takes").before(place);
    rendered.addEventListener("opened", () => this.#show());
    this.#show();
  }

  slower() {
    return this.#changeTempo(-STEP);
  }

  faster() {
    return this.#changeTempo(STEP);
  }

  /** In a loop: faster the next time. */
  fasterNext() {
    return this.#changeTempo(STEP, true);
  }

  /**
   * @param {Protocol.Take} wanted
   * @param {boolean} [later] in a loop: when what is played has been played to its end
   */
  async change(wanted, later = false) {
    const late = setTimeout(() => (this.#said.textContent = phrase("busy")), 2000);
    const opened = await this.#rendered.open({ ...this.#rendered.take, ...wanted }, this.#rendered.pencil, later);
    clearTimeout(late);
    if (!opened.ok) this.#said.textContent = opened.problems[0].message;
    return opened.ok;
  }

  /**
   * The tempo a step faster or slower, in percent; null where there is none.
   * @param {number} step
   */
  next(step) {
    const now = this.#percent();
    const next = Math.min(FASTEST, Math.max(SLOWEST, Math.round((now + step) / STEP) * STEP));
    return next === now ? null : next;
  }

  /**
   * @param {number} step
   * @param {boolean} [later]
   */
  #changeTempo(step, later) {
    const next = this.next(step);
    return next === null ? false : this.change({ tempo: `${next}%` }, later);
  }

  /** The tempo in percent of what is written. */
  #percent() {
    const asked = /^([\d.]+)%$/.exec(String(this.#rendered.take.tempo));
    if (asked) return Number(asked[1]);
    return (100 * this.#rendered.opened.take.clicks) / data.tempo;
  }

  #show() {
    const { clicks } = this.#rendered.opened.take;
    const percent = Math.round(this.#percent());
    this.#said.textContent = phrase("tempo-now", { tempo: decimal(Number(clicks.toFixed(1))), percent });
    this.#printed.textContent = phrase("tempo-printed", { percent });
    this.#printed.hidden = percent === 100;
  }
}

/**
 * A slider for everything that can be made softer.
 * @param {PlayerOfPage} player
 */
function volumes(player) {
  const all = Object.entries(player.volumes);
  const summary = make("summary", { textContent: all.length > 1 ? phrase("volumes") : phrase("volume") });
  const place = make("details", { className: "volumes" }, summary);
  for (const [name, { words, get, set }] of all) {
    const kept = memory.get(`volume ${name}`);
    if (kept !== null && Number.isFinite(Number(kept))) set(Number(kept));
    const slider = make("input", { type: "range", min: 0, max: 1, step: 0.05, value: get() });
    slider.addEventListener("input", () => {
      set(Number(slider.value));
      memory.set(`volume ${name}`, slider.value);
    });
    place.append(labelled(words, slider));
  }
  if (all.length === 0) place.append(make("p", { textContent: phrase("own-volume") }));
  return place;
}
