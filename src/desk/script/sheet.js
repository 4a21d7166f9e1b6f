// The sheet: the head of the routine and all its lines as cards, one below another.

/** @type {Field[]} */
const HEAD_FIELDS = [
  { key: "title", kind: "text" },
  { key: "purpose", kind: "text" },
  { key: "instrument", kind: "text" },
  { key: "comfortable_top", kind: "text" },
  { key: "tempo", kind: "number" },
  { key: "meter", kind: "text", hint: "4/4" },
  { key: "key", kind: "text" },
  { key: "age", kind: "choice", choices: ["8-10", "11-13", "14-16", "adult"] },
];

class Sheet {
  #book;
  #pen;
  #heard;
  #head = make("section", { className: "head", "aria-label": t("head") });
  #list = make("ol", { className: "cards" });
  #add;
  /** @type {Card[]} */
  #cards = [];
  /** @type {(() => void)[]} */
  #shows = [];
  #tools;
  #marks;
  element;

  /**
   * @param {Book} book
   * @param {Pen} pen
   * @param {Heard} heard
   */
  constructor(book, pen, heard) {
    this.#book = book;
    this.#pen = pen;
    this.#heard = heard;
    this.#tools = toolsOf(pen);
    for (const field of HEAD_FIELDS) {
      const { element, show } = control(book, () => null, field);
      element.classList.add(field.key);
      this.#head.append(element);
      this.#shows.push(show);
    }
    this.#add = button(t("new line at end"), () => this.#addLine(), "quiet add");
    this.#marks = new PencilMarks(book);
    this.element = make("div", { className: "sheet" }, this.#marks.element, this.#head, this.#list, this.#add);
    book.addEventListener("text", () => this.show());
    book.addEventListener("drawn", (event) => this.#drawn(/** @type {CustomEvent} */ (event).detail));
    for (const event of ["looked", "judged", "mended"]) book.addEventListener(event, () => this.#judged());
    book.addEventListener("looked", () => this.#marked());
    pen.addEventListener("selected", () => this.#selected());
    heard.addEventListener("state", () => this.#played());
    heard.addEventListener("line", () => this.#played());
    this.show();
    this.#watchWidth();
  }

  #addLine() {
    const of = this.#book.parts.lines.length;
    this.#book.change(withLine(this.#book.text, of, newLine()), "new line");
    this.#cards[of]?.element.scrollIntoView({ block: "center" });
    this.#cards[of]?.element.querySelector("input")?.select();
  }

  /** As many cards as lines, each showing what its line says. */
  show() {
    for (const show of this.#shows) show();
    const count = this.#book.parts.lines.length;
    while (this.#cards.length > count) this.#cards.pop()?.element.remove();
    while (this.#cards.length < count) {
      const card = new Card(this.#book, this.#pen, this.#heard, this.#cards.length, (from, to) => {
        this.#book.change(withMoved(this.#book.text, from, to), "moved");
      });
      this.#cards.push(card);
      this.#list.append(card.element);
    }
    for (const card of this.#cards) card.show();
  }

  /** @param {number[]} lines */
  #drawn(lines) {
    this.#heard.redrawn();
    for (const of of lines) this.#cards[of]?.draw();
  }

  #selected() {
    for (const [of, card] of this.#cards.entries()) {
      card.selected();
      card.tools(of === this.#pen.of ? this.#tools : null);
    }
    this.#cards[this.#pen.of]?.tools(this.#tools);
  }

  #played() {
    for (const [of, card] of this.#cards.entries()) card.playing(of === this.#heard.line);
  }

  #marked() {
    for (const [of, card] of this.#cards.entries()) card.marks(this.#marks.list(of));
  }

  #judged() {
    const all = problemsOf(this.#book);
    for (const [of, card] of this.#cards.entries()) card.problems(all.filter((problem) => problem.of === of));
  }

  /** Drawings are as wide as the cards. */
  #watchWidth() {
    new ResizeObserver(([entry]) => {
      const width = entry.contentRect.width;
      if (width > 0) this.#book.drawAt(Math.min(Math.max(Math.round((width - 24) / 1.75), 150), 480));
    }).observe(this.#list);
  }
}

/**
 * All that is to be said of the routine: why it cannot be played, or else what the checker finds.
 * @param {Book} book
 * @returns {Protocol.Problem[]}
 */
function problemsOf(book) {
  const problems = book.refused.length > 0 ? book.refused : (book.judged?.findings ?? []);
  return problems.map((problem) => ({ ...problem, of: problem.of ?? lineOf(book, problem) }));
}

/**
 * Buttons that mend a problem.
 * @param {Book} book
 * @param {Protocol.Problem} problem
 */
function mendsOf(book, problem) {
  const same = (/** @type {Protocol.Problem} */ one) => one.message === problem.message && one.row === problem.row;
  const mends = book.mended.find((one) => same(one.problem))?.mends ?? [];
  return mends.map(({ says, text }) => button(says, () => book.change(text, "mended"), "quiet small mend"));
}

/**
 * The line in which a problem's row lies.
 * @param {Book} book
 * @param {Protocol.Problem} problem
 */
function lineOf(book, { row }) {
  if (row === null) return null;
  const at = placeOfRow(book.text, row);
  const of = book.parts.lines.findLastIndex((line) => line.from <= at);
  return of < 0 ? null : of;
}

/** @param {string} text @param {number} row from 1 */
function placeOfRow(text, row) {
  let at = 0;
  for (let n = 1; n < row; n++) at = endOfRow(text, at);
  return at;
}
