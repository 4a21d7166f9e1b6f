// What is made on the desk: tracks, the routine's file, paper.

/**
 * Hands a file to the browser.
 * @param {string} name
 * @param {Blob} blob
 */
function download(name, blob) {
  const link = make("a", { href: URL.createObjectURL(blob), download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/**
 * A place for a file: chosen by the person where the browser has that, else in memory until it is handed over.
 * @param {string} name
 * @returns {Promise<{ put: (bytes: Uint8Array<ArrayBuffer>) => unknown, end: () => unknown, drop: () => unknown } | null>}
 */
async function sinkFor(name) {
  const ask = /** @type {any} */ (globalThis).showSaveFilePicker;
  if (ask && isSecureContext && !navigator.webdriver) {
    try {
      const file = await ask({ suggestedName: name });
      const stream = await file.createWritable();
      return { put: (bytes) => stream.write(bytes), end: () => stream.close(), drop: () => stream.abort() };
    } catch (error) {
      // The person went away from it.
      if (error instanceof DOMException && error.name === "AbortError") return null;
    }
  }
  /** @type {Uint8Array<ArrayBuffer>[]} */
  const pieces = [];
  const end = () => download(name, new Blob(pieces, { type: "audio/wav" }));
  return { put: (bytes) => pieces.push(bytes), end, drop: () => (pieces.length = 0) };
}

class Making {
  #book;
  #tempos = make("input", { type: "text", value: "100%, 85%, 70%" });
  #key = make("input", { type: "text", value: "0" });
  #guide = make("select");
  #bar = make("progress", { max: 1, value: 0, hidden: true, "aria-label": t("progress") });
  #said = make("p", { role: "status" });
  #stop;
  #stopped = false;
  dialog = make("dialog", { className: "making", "aria-labelledby": "making-title" });

  /** @param {Book} book */
  constructor(book) {
    this.#book = book;
    const guides = { together: t("guide together"), echo: t("guide echo"), off: t("guide off") };
    for (const [value, textContent] of Object.entries(guides)) this.#guide.append(make("option", { value, textContent }));
    this.#stop = button(t("stop"), () => (this.#stopped = true));
    this.#stop.hidden = true;
    const tracks = make("section", {}, make("h3", { textContent: t("tracks") }), labelled(t("tempos"), this.#tempos));
    tracks.append(labelled(t("key moved"), this.#key), labelled(t("guide"), this.#guide));
    tracks.append(
      make(
        "div",
        { className: "row" },
        button(t("make tracks"), () => this.#tracks(), "deed"),
        this.#stop,
      ),
    );
    tracks.append(this.#bar, this.#said);
    const paper = make(
      "section",
      {},
      make("h3", { textContent: t("paper") }),
      make("p", { className: "soft", textContent: t("print how") }),
    );
    paper.append(button(t("print"), () => this.print()));
    const file = make(
      "section",
      {},
      make("h3", { textContent: t("file") }),
      make("p", { className: "soft", textContent: t("file how") }),
    );
    file.append(button(t("take file"), () => this.file()));
    const handing = new HandingOut(book);
    const close = button(t("done"), () => this.dialog.close(), "deed");
    const title = make("h2", { id: "making-title", textContent: t("make") });
    this.dialog.append(title, tracks, handing.page, paper, file, handing.others, close);
  }

  open() {
    if (!this.dialog.isConnected) document.body.append(this.dialog);
    openSheet(this.dialog);
  }

  get #title() {
    return fileName(saidOf(this.#book.parts.head, "title"));
  }

  file() {
    const { text } = this.#book;
    download(`${this.#title}.toml`, new Blob([text], { type: "application/toml" }));
    if (this.#book.work.file === null) this.#book.saved(null, text);
  }

  print() {
    this.dialog.close();
    print();
  }

  async #tracks() {
    this.#stopped = false;
    this.#stop.hidden = this.#bar.hidden = false;
    try {
      for (const tempo of this.#tempos.value.split(/[\s,;]+/).filter(Boolean)) {
        const take = { tempo, key: this.#key.value.trim() || "0", guide: this.#guide.value };
        const name = `${this.#title} ${tempo.replace("%", " percent")}.wav`;
        if (!(await this.#track(name, take))) {
          this.#said.textContent = t("stopped");
          return;
        }
        this.#said.textContent = t("made", { name });
      }
    } catch (error) {
      this.#said.textContent = error instanceof Error ? error.message : String(error);
    } finally {
      this.#stop.hidden = this.#bar.hidden = true;
      // What the engine draws is what it has opened last.
      this.#book.read();
    }
  }

  /** @param {string} name @param {Protocol.Take} take */
  async #track(name, take) {
    const sink = await sinkFor(name);
    if (!sink) return false;
    const goesOn = (/** @type {number} */ part) => {
      this.#bar.value = part;
      return !this.#stopped;
    };
    try {
      const whole = await renderTake(this.#book.engine, this.#book.text, take, sink.put, goesOn);
      await (whole ? sink.end() : sink.drop());
      return whole;
    } catch (error) {
      await sink.drop();
      throw error;
    }
  }
}
