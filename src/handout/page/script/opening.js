// A file that is opened as a pencil: what it is, what it would change, and whether it is added to the player's own marks or takes
// their place. Nothing changes before that is chosen.

/** Kinds of marks that can stand at a line but once. */
const ONLY_ONE = new Set(data.marks.flatMap((group) => group.marks.map(({ kind }) => kind)));

class Opening {
  #rendered;
  #pencil;
  #sheet = make("dialog", { id: "opening", "aria-labelledby": "opening-title" });

  /**
   * @param {Rendered} rendered
   * @param {Pencil} pencil
   */
  constructor(rendered, pencil) {
    this.#rendered = rendered;
    this.#pencil = pencil;
    document.body.append(this.#sheet);
  }

  /** @param {File} file */
  async of(file) {
    if (file.size > data.largestPencil) return this.#refuse(file, phrase("file-too-large"));
    const text = await file.text();
    const { pencil, isRoutine } = await this.#rendered.look(text);
    if (isRoutine || /^\s*\[\[\s*line\s*\]\]/m.test(text)) {
      const title = /^\s*title\s*=\s*"([^"\n]*)"/m.exec(text)?.[1];
      return this.#refuse(file, title ? phrase("file-is-routine-of", { title }) : phrase("file-is-routine"));
    }
    if (!pencil.ok) return this.#refuse(file, phrase("file-is-no-pencil", { why: inWords(pencil.problems) }));
    const read = pencil.pencil;
    if (!read || (read.marks.length === 0 && read.problems.length > 0)) {
      return this.#refuse(file, phrase("file-is-no-pencil", { why: inWords((read?.problems ?? []).slice(0, 1)) }));
    }
    this.#offer(file, text, read);
  }

  /**
   * @param {File} file
   * @param {string} why
   */
  #refuse(file, why) {
    this.#show(file, [make("p", { textContent: why })], [[phrase("leave-my-marks"), () => null]]);
  }

  /**
   * @param {File} file
   * @param {string} text
   * @param {NonNullable<Protocol.Opened["pencil"]>} read
   */
  #offer(file, text, read) {
    const own = this.#pencil.marks;
    const { added, there, gone } = compared(own, read.marks);
    const others = read.player && this.#pencil.player && read.player !== this.#pencil.player;
    const marks = phrase("so-many-marks", { n: read.marks.length });
    const { player } = read;
    const about = player ? phrase("pencil-with-marks", { player, marks }) : phrase("nobodys-pencil-with-marks", { marks });
    /** @type {HTMLElement[]} */
    const parts = [make("p", { textContent: about })];
    if (others) {
      const words = phrase("yours-is", { player: this.#pencil.player ?? "" });
      parts.push(make("p", { className: "wrong", textContent: words }));
    }
    const told = /** @type {const} */ ([
      [phrase("marks-new"), added.map(newAtLine)],
      [phrase("marks-there"), there.map(atLine)],
      [phrase("marks-gone"), gone.map(atLine)],
      [phrase("marks-left-out"), read.problems.map((problem) => inWords([problem]))],
    ]);
    for (const [title, words] of told) {
      if (words.length === 0) continue;
      parts.push(make("h3", { textContent: title }), make("ul", {}, ...words.map((one) => make("li", { textContent: one }))));
    }
    const add = () =>
      this.#pencil.add(
        added.map(({ mark }) => ({ of: /** @type {number | null} */ (mark.of), typed: mark.typed })),
        read.player,
      );
    /** @type {[string, () => Promise<string | null> | null][]} */
    const choices = [];
    if (added.length > 0 && own.length > 0) choices.push([phrase("add-them"), add]);
    if (read.marks.length > 0 && (own.length === 0 || gone.length > 0 || added.length > 0)) {
      choices.push([own.length > 0 ? phrase("replace-mine") : phrase("use-these"), () => this.#pencil.set(text)]);
    }
    choices.push([phrase("leave-my-marks"), () => null]);
    this.#show(file, parts, choices);
  }

  /**
   * @param {File} file
   * @param {HTMLElement[]} parts
   * @param {[string, () => Promise<string | null> | null][]} choices
   */
  #show(file, parts, choices) {
    const wrong = make("p", { className: "wrong", role: "status" });
    const buttons = choices.map(([words, does]) =>
      button(words, async () => {
        const why = await does();
        if (why) wrong.textContent = why;
        else this.#sheet.close();
      }),
    );
    const title = make("h2", { id: "opening-title", textContent: file.name });
    this.#sheet.replaceChildren(title, ...parts, wrong, make("div", { className: "row last" }, ...buttons));
    openSheet(this.#sheet);
  }
}

/** @param {Protocol.Mark} mark */
function atLine({ of, words }) {
  const name = typeof of === "number" ? find("h3", itemOf(of)).textContent : phrase("every-line");
  return `${name}: ${words}`;
}

/** @param {{ mark: Protocol.Mark, instead?: Protocol.Mark }} added */
function newAtLine({ mark, instead }) {
  return instead ? phrase("mark-instead", { mark: atLine(mark), words: instead.words }) : atLine(mark);
}

/**
 * What another pencil would bring: marks that are new, those that are there already, and those that only the player has.
 * @param {Protocol.Mark[]} own
 * @param {Protocol.Mark[]} others
 */
function compared(own, others) {
  const same = (/** @type {Protocol.Mark} */ a, /** @type {Protocol.Mark} */ b) => a.of === b.of && a.typed === b.typed;
  const fitting = others.filter(({ of }) => of !== "nowhere");
  const isThere = (/** @type {Protocol.Mark} */ mark) => own.some((one) => same(one, mark));
  const added = fitting
    .filter((mark) => !isThere(mark))
    .map((mark) => {
      const instead = ONLY_ONE.has(mark.kind) ? own.find(({ of, kind }) => of === mark.of && kind === mark.kind) : undefined;
      return { mark, instead };
    });
  const gone = own.filter((mark) => !fitting.some((one) => same(one, mark)) && !added.some(({ instead }) => instead === mark));
  return { added, there: fitting.filter(isThere), gone };
}
