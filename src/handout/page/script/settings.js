// How the routine is played: tempo, key, guide, and how loud each voice is.

const LEAST_PART = 40;
const MOST_PART = 160;
const STEP = 5;

/** Words for a number of half steps. */
function moved(halfSteps) {
  const size = Math.abs(halfSteps);
  if (size === 0) return "as written";
  return `${size} half step${size === 1 ? "" : "s"} ${halfSteps < 0 ? "down" : "up"}`;
}

class Settings {
  #rendered;
  #said;

  /** `first` is the take that is played until another is asked for. */
  constructor(rendered, first) {
    this.#rendered = rendered;
    const place = make("fieldset", { id: "settings" }, make("legend", { textContent: "How to play it" }));
    this.#said = make("p", { className: "tempo", role: "status" });
    const row = make("div", { className: "row" }, button("Slower", () => this.slower()), this.#said, button("Faster", () => this.faster()));
    const keys = Array.from({ length: 13 }, (_, i) => [String(6 - i), moved(6 - i)]);
    const guides = [
      ["together", "plays along"],
      ["echo", "plays first, then leaves you the time"],
      ["off", "silent"],
    ];
    place.append(
      row,
      choice("Key", keys, String(first.key), (key) => this.change({ key: Number(key) })),
      choice("Guide", guides, first.guide, (guide) => this.change({ guide })),
      volumes(rendered),
    );
    by("takes").before(place);
    rendered.addEventListener("opened", () => this.#show());
    this.#show();
  }

  slower() {
    return this.#by(-STEP);
  }

  faster() {
    return this.#by(STEP);
  }

  async change(wanted) {
    const opened = await this.#rendered.open({ ...this.#rendered.take, ...wanted }, this.#rendered.pencil);
    if (!opened.ok) this.#said.textContent = opened.faults[0].message;
    return opened.ok;
  }

  #by(step) {
    const now = this.#partOf();
    const next = Math.min(MOST_PART, Math.max(LEAST_PART, Math.round((now + step) / STEP) * STEP));
    return next === now ? false : this.change({ tempo: `${next}%` });
  }

  /** The tempo as a part of what is written, in percent. */
  #partOf() {
    const said = /^([\d.]+)%$/.exec(this.#rendered.take.tempo);
    if (said) return Number(said[1]);
    return (100 * this.#rendered.opened.take.clicks) / data.tempo;
  }

  #show() {
    const part = Math.round(this.#partOf());
    this.#said.textContent = `${Number(this.#rendered.opened.take.clicks.toFixed(1))} clicks a minute (${part}\u00a0%)`;
  }
}

/** A slider for everything that can be made softer. */
function volumes(player) {
  const all = Object.entries(player.volumes);
  const place = make("details", { className: "volumes" }, make("summary", { textContent: all.length > 1 ? "Volumes" : "Volume" }));
  for (const [name, [words, get, set]] of all) {
    const kept = memory.get(`volume ${name}`);
    if (kept !== null && Number.isFinite(Number(kept))) set(Number(kept));
    const slider = make("input", { type: "range", min: 0, max: 1, step: 0.05, value: get() });
    slider.addEventListener("input", () => {
      set(Number(slider.value));
      memory.set(`volume ${name}`, slider.value);
    });
    place.append(make("label", { className: "choice" }, make("span", { textContent: words }), slider));
  }
  if (all.length === 0) place.append(make("p", { textContent: "This phone’s own buttons set the volume." }));
  return place;
}
