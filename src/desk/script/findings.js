// What there is to say of the routine, in one list; each leads to its place.

class Findings {
  #book;
  element = make("div", { className: "findings" });

  /** @param {Book} book */
  constructor(book) {
    this.#book = book;
    for (const event of ["looked", "judged", "mended"]) book.addEventListener(event, () => this.show());
  }

  /** How many there are, and whether one of them is an error. */
  get count() {
    const all = problemsOf(this.#book);
    return { all: all.length, errors: all.filter(({ severity }) => severity === "error").length };
  }

  show() {
    const all = problemsOf(this.#book);
    const { judged } = this.#book;
    const sum = make("p", { className: "soft" });
    if (judged) {
      const { seconds, playing, lowest, highest } = judged;
      sum.textContent = t("sum", {
        length: clockOf(seconds),
        playing: clockOf(playing),
        lowest: lowest ?? "–",
        highest: highest ?? "–",
      });
    }
    const rows = all.map((problem) => {
      const place = problem.of === null ? t("whole routine") : t("line number", { number: problem.of + 1 });
      const go = button(place, () => goToLine(problem.of), "quiet small");
      const said = make("span", { textContent: problemWords(problem) });
      return make("li", { className: problem.severity }, go, said, ...mendsOf(this.#book, problem));
    });
    const list = rows.length > 0 ? make("ul", {}, ...rows) : make("p", { textContent: t("nothing found") });
    this.element.replaceChildren(sum, list);
  }
}

/** @param {number | null} of */
function goToLine(of) {
  const place = document.querySelector(of === null ? ".head" : `.card[data-line="${of}"]`);
  place?.scrollIntoView({ block: "center", behavior: stillness.matches ? "auto" : "smooth" });
  if (place instanceof HTMLElement) place.querySelector("input")?.focus({ preventScroll: true });
}
