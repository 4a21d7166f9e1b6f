// A pupil's pencil on the desk: its marks stand over the print, are heard, and each is taken into the routine or left out.

class PencilMarks {
  #book;
  element = make("div", { className: "pencil", hidden: true });

  /** @param {Book} book */
  constructor(book) {
    this.#book = book;
    book.addEventListener("looked", () => this.show());
  }

  /** The marks of a line; null means those of the whole routine, and those that fit nowhere. @param {number | null} of */
  of(of) {
    const marks = this.#book.opened?.pencil?.marks ?? [];
    if (this.#book.pencil === null) return [];
    return marks.filter((mark) => mark.of === of || (of === null && mark.of === "nowhere"));
  }

  show() {
    const pencil = this.#book.pencil === null ? null : this.#book.opened?.pencil;
    this.element.hidden = !pencil;
    if (!pencil) return;
    const { player, marks, problems } = pencil;
    const count = marks.length;
    const title = player ? t("marks of", { player, count }) : t("marks of nobody", { count });
    const away = button(t("put away"), () => this.#book.lay(null));
    const unfit = problems.map((problem) => make("li", { className: problem.severity, textContent: problemWords(problem) }));
    this.element.replaceChildren(make("h2", { textContent: title }), this.list(null), make("ul", {}, ...unfit), away);
  }

  /** @param {number | null} of */
  list(of) {
    return make("ul", { className: "marks" }, ...this.of(of).map((mark) => this.#row(mark)));
  }

  /** @param {Protocol.Mark} mark */
  #row(mark) {
    const said = make("span", { className: "wrong", role: "status" });
    const words = mark.of === "nowhere" ? t("mark nowhere", { words: mark.words }) : mark.words;
    const take = button(t("take in"), () => this.#take(mark, said), "quiet small");
    const leave = button(t("leave mark"), () => this.#leave(mark), "quiet small");
    const buttons = mark.of === "nowhere" ? [leave] : [take, leave];
    return make("li", {}, make("span", { textContent: words }), ...buttons, said);
  }

  /** @param {Protocol.Mark} mark @param {HTMLElement} said */
  async #take(mark, said) {
    const { text: routine, pencil, workshop } = this.#book;
    const taken = await workshop.ask("takeMark", { routine, pencil: pencil ?? "", index: mark.index });
    if (!taken.ok) {
      said.textContent = taken.problems.map(problemWords).join(" ");
      return;
    }
    // A mark that is in the routine is none any more.
    await this.#leave(mark);
    this.#book.change(taken.text, "mark taken in");
  }

  /** @param {Protocol.Mark} mark */
  async #leave(mark) {
    const erased = await this.#book.engine.mark({ pencil: this.#book.pencil, index: mark.index, erase: true });
    if (erased.ok) this.#book.lay(/\[\[[ \t]*mark/.test(erased.pencil) ? erased.pencil : null);
  }
}
