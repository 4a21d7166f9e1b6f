// The text of the routine beside the sheet, to be read and typed into, with what is wrong underlined at its place.

class TextPane {
  #book;
  #area = make("textarea", { className: "text", spellcheck: false, wrap: "off", "aria-label": t("text of routine") });
  #under = make("pre", { className: "under", "aria-hidden": "true" });
  element;

  /** @param {Book} book */
  constructor(book) {
    this.#book = book;
    this.element = make("div", { className: "text-pane" }, this.#under, this.#area);
    this.#area.oninput = () => book.change(this.#area.value, "typed text");
    this.#area.onscroll = () => {
      this.#under.scrollTop = this.#area.scrollTop;
      this.#under.scrollLeft = this.#area.scrollLeft;
    };
    for (const event of ["text", "looked", "judged"]) book.addEventListener(event, () => this.show());
  }

  show() {
    if (!this.element.isConnected) return;
    const { text } = this.#book;
    if (this.#area.value !== text) {
      const { selectionStart, selectionEnd } = this.#area;
      this.#area.value = text;
      this.#area.setSelectionRange(selectionStart, selectionEnd);
    }
    this.#under.replaceChildren(...this.#underlined(text));
  }

  /** @param {string} text */
  #underlined(text) {
    const problems = problemsOf(this.#book).filter(({ row }) => row !== null);
    const places = problems.map((problem) => {
      const from = placeOfRow(text, problem.row ?? 1) + (problem.column ?? 1) - 1;
      const word = /^(?:"[^"\n]*"|[^\s"]+)/.exec(text.slice(from));
      return { from, to: from + Math.max(1, word?.[0].length ?? 1), problem };
    });
    places.sort((a, b) => a.from - b.from);
    /** @type {(Node | string)[]} */
    const pieces = [];
    let at = 0;
    for (const { from, to, problem } of places) {
      if (from < at) continue;
      pieces.push(text.slice(at, from), make("mark", { className: problem.severity, textContent: text.slice(from, to) }));
      at = to;
    }
    return [...pieces, text.slice(at), "\n"];
  }

  /** @param {Protocol.Problem} problem */
  goTo({ row, column }) {
    const at = placeOfRow(this.#book.text, row ?? 1) + (column ?? 1) - 1;
    this.#area.focus();
    this.#area.setSelectionRange(at, at + 1);
  }
}
