// The desk: the first screen, or the sheet of a routine with its bar of tools.

class Desk {
  #engine;
  #workshop;
  #store;
  #main = by("desk");
  /** @type {Book | null} */
  #book = null;
  /** @type {Heard | null} */
  #heard = null;
  /** @type {Bar | null} */
  #bar = null;
  /** Lets go of the routine, so that another page may have it alone. */
  #letGo = () => {};

  /**
   * @param {Engine} engine
   * @param {Engine} workshop
   * @param {Store} store
   */
  constructor(engine, workshop, store) {
    this.#engine = engine;
    this.#workshop = workshop;
    this.#store = store;
    addEventListener("keydown", (event) => this.#keyed(event));
    addEventListener("beforeunload", (event) => {
      if (this.#book?.unsaved && folder.there) event.preventDefault();
    });
    addEventListener("dragover", (event) => event.dataTransfer?.types.includes("Files") && event.preventDefault());
    addEventListener("drop", (event) => this.#dropped(event));
    addEventListener("popstate", () => this.#fromAddress());
  }

  /** What the address names: a routine that was worked on, or the first screen. */
  async #fromAddress() {
    const id = location.hash.slice(1);
    const work = id ? await this.#store.work(id) : undefined;
    if (work) await this.#show(work);
    else await this.first();
  }

  start() {
    return this.#fromAddress();
  }

  async first() {
    this.#heard?.stop();
    this.#letGo();
    this.#book = null;
    const first = new First(
      this.#engine,
      this.#workshop,
      this.#store,
      (text, file, saved) => this.#open(text, file, saved),
      (work) => this.#goTo(work),
      (file) => this.#took(file),
    );
    this.#main.replaceChildren(first.element);
    document.title = t("title");
    await first.show();
    document.body.dataset.shows = "first";
  }

  /** @param {DragEvent} event */
  async #dropped(event) {
    const file = event.dataTransfer?.files[0];
    if (!file) return;
    event.preventDefault();
    await this.#took(file);
  }

  /** A file from a disk: a routine is opened, one of another program adopted. @param {File} file */
  async #took(file) {
    const text = await file.text();
    if (/^[ \t]*\[\[[ \t]*mark[ \t]*\]\]/m.test(text)) {
      await this.#lay(file.name, text);
      return;
    }
    if (/^[ \t]*(\[\[[ \t]*line[ \t]*\]\]|format[ \t]*=)/m.test(text)) {
      this.#open(text, null, null);
      return;
    }
    const shelf = await this.#workshop.ask("shelf", {});
    const instruments = shelf.ok ? shelf.instruments : [];
    await new Adopting(this.#workshop, file, instruments, (adopted) => this.#open(adopted, null, null)).show();
  }

  /** A pupil's pencil over the routine that is open. @param {string} name @param {string} pencil */
  async #lay(name, pencil) {
    const book = this.#book;
    if (!book) {
      this.#main.prepend(make("p", { className: "care told", role: "status", textContent: t("open routine first", { name }) }));
      return;
    }
    const opened = await book.engine.open({ routine: book.text, pencil });
    if (!opened.ok) this.#bar?.tell(t("no pencil", { name, why: opened.problems.map(problemWords).join(" ") }));
    await book.lay(opened.ok ? pencil : book.pencil);
  }

  /** @param {string} text @param {string | null} file @param {string | null} saved */
  async #open(text, file, saved) {
    const there = file === null ? undefined : (await this.#store.works()).find((work) => work.file === file);
    if (there && (there.text === text || there.text !== there.saved)) {
      // What was written into it and not saved is not lost: it is compared when it is saved.
      await this.#goTo(there);
      return;
    }
    const id = crypto.randomUUID?.() ?? String(Date.now());
    const title = saidOf(blocksIn(text).head, "title");
    const work = { id, text, title, file, saved, steps: 0, at: 0, changed: Date.now() };
    await this.#store.keep(work, null).catch((error) => console.warn(error));
    await this.#goTo(work);
  }

  /** @param {Work} work */
  async #goTo(work) {
    history.pushState(null, "", `#${work.id}`);
    await this.#show(work);
  }

  /** @param {Work} work */
  async #show(work) {
    this.#heard?.stop();
    this.#letGo();
    const book = new Book(this.#engine, this.#workshop, this.#store, work, await this.#store.steps(work.id));
    const heard = new Heard(book);
    const pen = new Pen(book, heard);
    const sheet = new Sheet(book, pen, heard);
    const side = new Side(book);
    const bar = new Bar(
      book,
      heard,
      side,
      () => this.#leave(),
      (file) => this.#took(file),
    );
    this.#book = book;
    this.#bar = bar;
    this.#heard = heard;
    this.#main.replaceChildren(bar.element, make("div", { className: "both" }, sheet.element, side.element));
    this.#hold(work.id, bar);
    book.addEventListener("others", () => bar.tell(t("other page")));
    book.addEventListener("lost", () => bar.tell(t("not kept")));
    await book.read();
    document.body.dataset.shows = "sheet";
  }

  #leave() {
    history.pushState(null, "", location.pathname + location.search);
    this.first();
  }

  /**
   * Two pages with one routine know of each other.
   * @param {string} id
   * @param {Bar} bar
   */
  #hold(id, bar) {
    try {
      navigator.locks.request(`leadpipe-desk ${id}`, { ifAvailable: true }, (lock) => {
        if (!lock) bar.tell(t("other page"));
        return lock ? new Promise((resolve) => (this.#letGo = () => resolve(undefined))) : undefined;
      });
    } catch (error) {
      // A page from a disk has none in some browsers.
      console.warn(error);
    }
  }

  /** @param {KeyboardEvent} event */
  #keyed(event) {
    const book = this.#book;
    if (!book || !(event.ctrlKey || event.metaKey)) return;
    const key = event.key.toLowerCase();
    if (key === "z" && !event.shiftKey) book.undo();
    else if (key === "y" || (key === "z" && event.shiftKey)) book.redo();
    else if (key === "s") save(book);
    else return;
    event.preventDefault();
  }
}

/** A module of the page in a worker of its own. @param {string} id */
const moduleOf = (id) => Engine.start({ worker: ENGINE_WORKER, wasm: by(id).textContent ?? "" });

Promise.all([moduleOf("leadpipe-engine"), moduleOf("leadpipe-workshop"), Store.open()])
  .then(([engine, workshop, store]) => new Desk(engine, workshop, store).start())
  .catch((error) => {
    console.warn(error);
    by("desk").append(make("p", { className: "care", textContent: t("no engine") }));
  });
