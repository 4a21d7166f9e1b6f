// The bar over the sheet, and what stands beside the sheet.

class Side {
  #book;
  #text;
  findings;
  #shown = "findings";
  element = make("aside", { className: "side" });

  /** @param {Book} book */
  constructor(book) {
    this.#book = book;
    this.#text = new TextPane(book);
    this.findings = new Findings(book);
    this.#show();
  }

  /** @param {"text" | "findings"} what */
  toggle(what) {
    this.#shown = this.#shown === what ? "" : what;
    this.#show();
    if (what === "text" && this.#shown === what) this.#text.show();
  }

  get shown() {
    return this.#shown;
  }

  #show() {
    this.element.hidden = this.#shown === "";
    const title = make("h2", { textContent: this.#shown === "text" ? t("text") : t("findings") });
    this.element.replaceChildren(title, this.#shown === "text" ? this.#text.element : this.findings.element);
    this.#book.dispatchEvent(new Event("side"));
  }
}

class Bar {
  #book;
  #heard;
  #side;
  #title = make("h1", { className: "title" });
  #kept = make("span", { className: "soft kept", role: "status" });
  #told = make("p", { className: "told", role: "status", hidden: true });
  #undo;
  #redo;
  #hear;
  #findings;
  #text;
  element;

  /**
   * @param {Book} book
   * @param {Heard} heard
   * @param {Side} side
   * @param {() => void} leave
   * @param {(file: File) => void} took
   */
  constructor(book, heard, side, leave, took) {
    this.#book = book;
    this.#heard = heard;
    this.#side = side;
    const making = new Making(book);
    const act = (/** @type {string} */ words, /** @type {() => unknown} */ does) => button(words, does);
    this.#undo = act(t("undo"), () => book.undo());
    this.#redo = act(t("redo"), () => book.redo());
    this.#hear = button(t("hear all"), () => (heard.sounding ? heard.stop() : heard.from()), "deed");
    this.#findings = act(t("findings"), () => side.toggle("findings"));
    this.#text = act(t("text"), () => side.toggle("text"));
    const saving = act(t("save"), () => save(book, (words) => this.tell(words)));
    const buttons = [
      act(t("desk"), leave),
      this.#undo,
      this.#redo,
      this.#hear,
      ...this.#takes(),
      this.#findings,
      this.#text,
      saving,
    ];
    const row = make(
      "nav",
      { "aria-label": t("bar") },
      ...buttons,
      ...this.#marks(took),
      act(t("make"), () => making.open()),
    );
    this.element = make(
      "header",
      { className: "bar" },
      make("div", { className: "names" }, this.#title, this.#kept),
      row,
      this.#told,
    );
    for (const event of ["text", "kept", "looked", "judged", "side"]) book.addEventListener(event, () => this.show());
    heard.addEventListener("state", () => this.show());
    heard.addEventListener("fault", () => this.tell(t("no engine")));
    this.show();
  }

  /** Tempo, key and guide of what is heard. */
  #takes() {
    const tempos = ["100%", "90%", "80%", "70%", "60%", "50%", "120%"].map((value) => ({
      value,
      words: value.replace("%", " %"),
    }));
    const keys = Array.from({ length: 13 }, (_, index) => ({
      value: String(6 - index),
      words: index === 6 ? t("as written") : signed(6 - index),
    }));
    const guides = [
      { value: "together", words: t("guide together") },
      { value: "echo", words: t("guide echo") },
      { value: "off", words: t("guide off") },
    ];
    return [
      choice(t("tempo"), tempos, "100%", (tempo) => this.#book.hearAt({ tempo })),
      choice(t("key"), keys, "0", (key) => this.#book.hearAt({ key })),
      choice(t("guide"), guides, "together", (guide) => this.#book.hearAt({ guide })),
    ];
  }

  /** A file with a pupil's marks. @param {(file: File) => void} took */
  #marks(took) {
    const input = make("input", { type: "file", accept: ".toml,.txt,text/plain", hidden: true });
    input.onchange = () => {
      const file = input.files?.[0];
      if (file) took(file);
      input.value = "";
    };
    return [button(t("open marks"), () => input.click()), input];
  }

  /** @param {string} words */
  tell(words) {
    write(this.#told, words);
    this.#told.hidden = words === "";
  }

  show() {
    const { history: steps, work, unsaved } = this.#book;
    const title = saidOf(this.#book.parts.head, "title");
    work.title = title;
    write(this.#title, title || t("untitled"));
    document.title = `${title || t("untitled")} – ${t("title")}`;
    const file = work.file ?? "";
    write(
      this.#kept,
      unsaved ? t(file ? "kept not saved" : "kept here", { file }) : t("saved in", { file: file || t("a file") }),
    );
    this.#undo.disabled = steps.at === 0;
    this.#redo.disabled = steps.at === steps.length;
    write(this.#hear, this.#heard.sounding ? t("stop") : t("hear all"));
    const { all, errors } = this.#side.findings.count;
    write(this.#findings, t(errors > 0 ? "errors count" : "findings count", { count: errors > 0 ? errors : all }));
    this.#findings.classList.toggle("wrong", errors > 0);
    this.#findings.setAttribute("aria-pressed", String(this.#side.shown === "findings"));
    this.#text.setAttribute("aria-pressed", String(this.#side.shown === "text"));
    if (this.#heard.silent) this.tell(t("silent"));
  }
}

/** @param {number} halfSteps */
function signed(halfSteps) {
  return halfSteps > 0 ? `+${halfSteps}` : String(halfSteps).replace("-", "−");
}
