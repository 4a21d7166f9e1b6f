// The first screen: what was worked on, the note that a pupil plays with ease, the built-in routines, a file.

/** @typedef {(text: string, file: string | null, saved: string | null) => void} Opens */

class First {
  #engine;
  #workshop;
  #store;
  #open;
  /** @type {(work: Work) => void} */
  #goOn;
  /** @type {(file: File) => void} */
  #took;
  #instrument = "trumpet in B-flat";
  #staff = make("div", { className: "drawing staff" });
  #chosen = make("div", { className: "chosen", role: "status" });
  #shelf = make("div", { className: "shelf" });
  element = make("div", { className: "first" });

  /**
   * @param {Engine} engine
   * @param {Engine} workshop
   * @param {Store} store
   * @param {Opens} open
   * @param {(work: Work) => void} goOn
   * @param {(file: File) => void} took
   */
  constructor(engine, workshop, store, open, goOn, took) {
    this.#engine = engine;
    this.#workshop = workshop;
    this.#store = store;
    this.#open = open;
    this.#goOn = goOn;
    this.#took = took;
  }

  async show() {
    const head = make(
      "header",
      {},
      make("h1", { textContent: t("title") }),
      make("p", { className: "soft", textContent: t("what it is") }),
    );
    const works = await this.#works();
    const files = await this.#files();
    const note = make("section", { className: "ask" }, make("h2", { textContent: t("highest note") }));
    note.append(await this.#instruments(), this.#staff, this.#chosen);
    const shelf = make("section", {}, make("h2", { textContent: t("shelf") }), this.#shelf);
    this.element.replaceChildren(head, ...works, ...files, note, this.#own(), shelf);
    await this.#load();
  }

  async #works() {
    const works = (await this.#store.works()).slice(0, 8);
    if (!this.#store.keeps) return [make("p", { className: "care", textContent: t("keeps nothing") })];
    if (works.length === 0) return [];
    const list = make("ul", { className: "tiles works" });
    for (const work of works) {
      const when = new Date(work.changed).toLocaleString();
      const open = button(work.title || t("untitled"), () => this.#goOn(work), "tile");
      open.append(make("span", { className: "soft", textContent: when }));
      const drop = button("×", () => this.#drop(work, row), "quiet small drop");
      drop.setAttribute("aria-label", t("throw away", { title: work.title }));
      const row = make("li", {}, open, drop);
      list.append(row);
    }
    return [make("section", {}, make("h2", { textContent: t("your work") }), list)];
  }

  /** @param {Work} work @param {HTMLElement} row */
  async #drop(work, row) {
    if (!confirm(t("throw away really", { title: work.title }))) return;
    await this.#store.drop(work.id);
    row.remove();
  }

  async #files() {
    const files = await folder.list();
    if (!folder.there) return [];
    const list = make("ul", { className: "tiles" });
    for (const { name } of files.filter((file) => !file.name.endsWith(".pencil.toml"))) {
      list.append(
        make(
          "li",
          {},
          button(name, () => this.#openFile(name), "tile"),
        ),
      );
    }
    const none = files.length === 0 ? [make("p", { className: "soft", textContent: t("empty folder") })] : [];
    return [make("section", {}, make("h2", { textContent: t("folder", { name: desk.folder ?? "" }) }), list, ...none)];
  }

  /** @param {string} name */
  async #openFile(name) {
    const text = await folder.read(name);
    if (text !== null) this.#open(text, name, text);
  }

  #own() {
    const input = make("input", { type: "file", accept: ".toml,.musicxml,.mxl,.xml,.mid,.midi,.abc,text/plain", hidden: true });
    input.onchange = () => {
      const file = input.files?.[0];
      input.value = "";
      if (file) this.#took(file);
    };
    const own = make("section", {}, make("h2", { textContent: t("own") }));
    const empty = button(t("from empty"), () => this.#open(emptyRoutine(this.#instrument), null, null));
    own.append(
      make(
        "div",
        { className: "row" },
        empty,
        button(t("open file"), () => input.click()),
        input,
      ),
    );
    own.append(make("p", { className: "soft", textContent: t("drop file") }));
    return own;
  }

  async #instruments() {
    const shelf = await this.#workshop.ask("shelf", {});
    const names = shelf.ok ? shelf.instruments : [];
    const choices = names.map((value) => ({ value, words: value }));
    return choice(t("instrument"), choices, this.#instrument, (value) => {
      this.#instrument = value;
      this.#chosen.replaceChildren();
      this.#load();
    });
  }

  /** The staff and the shelf of the instrument. */
  async #load() {
    const shelf = await this.#workshop.ask("shelf", { instrument: this.#instrument });
    if (!shelf.ok) return;
    this.#showShelf(shelf.routines);
    await this.#drawStaff(shelf.scale);
  }

  /** @param {Protocol.ShelfRow[]} rows */
  #showShelf(rows) {
    const levels = [...new Set(rows.map(({ level }) => level))].sort();
    const parts = levels.map((level) => {
      const of = rows.filter((row) => row.level === level);
      const list = make("ul", { className: "tiles" });
      for (const row of of) {
        const open = button(row.title, () => this.#take(row.name), "tile");
        const facts = [clockOf(row.seconds), t("lines", { count: row.lines }), row.purpose ?? ""].filter(Boolean).join(" · ");
        open.append(make("span", { className: "soft", textContent: facts }));
        list.append(make("li", {}, open));
      }
      return make("section", {}, make("h3", { textContent: level === 0 ? t("before level 1") : t("level", { level }) }), list);
    });
    this.#shelf.replaceChildren(...parts);
  }

  /** @param {string} name */
  async #take(name) {
    const taken = await this.#workshop.ask("takeDown", { name, instrument: this.#instrument });
    if (taken.ok) this.#open(taken.text, null, null);
  }

  /** The notes to choose from, each a button over the drawing. @param {string[]} scale */
  async #drawStaff(scale) {
    const notes = scale.map((note) => `${note}:quarter`).join(" ");
    const routine = `format = 1\ntitle = "-"\ninstrument = ${quotedText(this.#instrument)}\ncomfortable_top = "C4"\ntempo = 60\nmeter = "4/4"\n`;
    const line = `[[line]]\nname = "-"\nmeter = "4/4"\nnotes = "${notes}"\n`;
    const top = await this.#top(routine, line, scale);
    const opened = await this.#engine.open({ routine: routine.replace('"C4"', quotedText(top)) + line });
    if (!opened.ok) return;
    const strips = await this.#engine.strips({ width: 480 });
    if (!strips.ok) return;
    addGlyphs(strips.glyphs);
    const [strip] = strips.strips;
    this.#staff.innerHTML = strip.svg;
    const { box } = strip.places.systems[0];
    for (const { name, x, system } of strip.notes) {
      if (!name) continue;
      const [from, to] = strip.places.systems[system]?.box ?? box;
      const over = button("", () => this.#choose(name, over), "over-note");
      over.setAttribute("aria-label", name);
      over.title = name;
      const height = Number(/viewBox="0 0 [\d.]+ ([\d.]+)"/.exec(strip.svg)?.[1] ?? 100);
      Object.assign(over.style, {
        left: `${((x - 10) / strip.width) * 100}%`,
        width: `${(20 / strip.width) * 100}%`,
        top: `${(from / height) * 100}%`,
        height: `${((to - from) / height) * 100}%`,
      });
      this.#staff.append(over);
    }
  }

  /**
   * A comfortable top that the instrument has: the first of its scale that the engine takes.
   * @param {string} routine
   * @param {string} line
   * @param {string[]} scale
   */
  async #top(routine, line, scale) {
    for (const note of scale) {
      const opened = await this.#engine.open({ routine: routine.replace('"C4"', quotedText(note)) + line });
      if (opened.ok) return note;
    }
    return scale[0];
  }

  /** @param {string} note @param {HTMLElement} over */
  async #choose(note, over) {
    for (const other of this.#staff.querySelectorAll(".over-note")) other.setAttribute("aria-pressed", String(other === over));
    const chosen = await this.#workshop.ask("choose", { instrument: this.#instrument, highest: note });
    if (!chosen.ok) return;
    const { note: words, routine, title, why, next, easier, ask, steps } = chosen;
    /** @type {HTMLElement[]} */
    const parts = [make("h3", { textContent: t("start with", { note: words, title }) }), make("p", { textContent: why })];
    if (steps.length > 0) parts.push(make("ol", {}, ...steps.map((step) => make("li", { textContent: step }))));
    if (ask) parts.push(make("p", { className: "care", textContent: ask }));
    const deeds = make(
      "div",
      { className: "row" },
      button(t("open routine", { title }), () => this.#take(routine), "deed"),
    );
    if (easier) {
      deeds.append(button(t("easier", { routine: easier.routine, when: easier.when }), () => this.#take(easier.routine)));
    }
    if (next) deeds.append(button(t("next", { routine: next.routine, when: next.when }), () => this.#take(next.routine)));
    this.#chosen.replaceChildren(...parts, deeds);
  }
}

/** A routine to begin with. @param {string} instrument */
function emptyRoutine(instrument) {
  const head = `format = 1\ntitle = ${quotedText(t("untitled"))}\ninstrument = ${quotedText(instrument)}\ncomfortable_top = "G4"\ntempo = 72\n`;
  return `${head}meter = "4/4"\n\n${newLine()}`;
}
