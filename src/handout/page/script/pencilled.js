// The pencil on the page: beside each line, and what can be done with all marks.

/**
 * @param {Rendered} rendered
 * @param {Pencil} pencil
 * @param {Stand} stand
 * @param {Drawings} drawings
 * @param {string | null} other the marks of a new handout, where they are not the player's own
 */
function withPencil(rendered, pencil, stand, drawings, other) {
  const marks = new Marks(rendered, pencil);
  const place = new PencilPlace(pencil, marks, new Opening(rendered, pencil), other);
  let before = pencil.marks;
  const show = () => {
    showMarks(rendered, pencil);
    place.show();
  };
  for (const item of items()) item.append(markButton(item, marks));
  by("music").after(place.section);
  pencil.addEventListener("marked", () => {
    show();
    drawings.changed(otherwise(before, pencil.marks));
    before = pencil.marks;
  });
  by("mark").addEventListener("click", () => {
    /** @type {HTMLDialogElement} */ (by("more")).close();
    stand.pause();
    marks.open(rendered.lines[stand.line].of, stand.nameOf(stand.line));
  });
  show();
}

/**
 * The lines that other marks stand at than before; all of them if a mark of the whole routine is another.
 * @param {Protocol.Mark[]} before
 * @param {Protocol.Mark[]} now
 */
function otherwise(before, now) {
  const typed = (/** @type {Protocol.Mark[]} */ marks, /** @type {number | null} */ line) =>
    marks.flatMap(({ of, typed: words }) => (of === line ? [words] : [])).join("\n");
  const differs = (/** @type {number | null} */ of) => typed(before, of) !== typed(now, of);
  const all = items().map((_, of) => of);
  return differs(null) ? all : all.filter(differs);
}

/**
 * The marks beside each line, and whether they leave it out.
 * @param {Rendered} rendered
 * @param {Pencil} pencil
 */
function showMarks(rendered, pencil) {
  const playing = new Set(rendered.lines.map(({ of }) => of));
  for (const [of, item] of items().entries()) {
    const words = pencil.at(of).map((mark) => mark.words);
    write(find(".pencilled", item), words.join(" · "));
    const played = playing.has(of);
    item.classList.toggle("left-out", !played);
    for (const jump of findAll(".jump", item)) /** @type {HTMLButtonElement} */ (jump).disabled = !played;
  }
}

/**
 * @param {HTMLElement} item
 * @param {Marks} marks
 */
function markButton(item, marks) {
  const title = find("h3", item).textContent ?? "";
  const mark = button(phrase("pencil"), () => marks.open(Number(item.dataset.line), title), "quiet mark");
  mark.setAttribute("aria-label", phrase("pencil-at", { title }));
  return mark;
}

/** The part of the page for all marks. */
class PencilPlace {
  section;
  #pencil;
  #send;
  #undo;
  #opening;
  #state = make("p", { role: "status" });

  /**
   * @param {Pencil} pencil
   * @param {Marks} marks
   * @param {Opening} opening
   * @param {string | null} other
   */
  constructor(pencil, marks, opening, other) {
    this.#pencil = pencil;
    this.#opening = opening;
    this.#send = button(phrase("send-marks"), () => pencil.send());
    this.#undo = button(phrase("undo"), async () => this.#tell(await pencil.undo()));
    const all = button(phrase("mark-every-line"), () => marks.open(null, ""));
    this.section = make(
      "section",
      { id: "pencil", "aria-labelledby": "pencil-title" },
      make("h2", { id: "pencil-title", textContent: phrase("pencil") }),
      make("p", { className: "soft", textContent: phrase("about-the-pencil") }),
      make("div", { className: "row" }, all, this.#undo, this.#send),
      labelled(phrase("open-marks"), this.#file()),
      this.#state,
    );
    if (other !== null) this.#offer(other);
    this.#showAside();
  }

  show() {
    const { marks, canUndo, kept, problems } = this.#pencil;
    this.#send.disabled = marks.length === 0;
    this.#undo.disabled = !canUndo;
    const lost = kept ? "" : NOT_KEPT;
    this.#state.textContent = [lost, inWords(problems)].filter(Boolean).join(" ");
  }

  /** @param {string | null} wrong */
  #tell(wrong) {
    if (wrong) this.#state.textContent = wrong;
  }

  #file() {
    const file = make("input", { type: "file", id: "open-pencil", accept: ".toml,.txt,text/plain" });
    file.addEventListener("change", () => {
      const chosen = file.files?.[0];
      file.value = "";
      if (chosen) this.#opening.of(chosen);
    });
    return file;
  }

  /** What could not be read when the page was opened. */
  #showAside() {
    const texts = Kept.aside;
    if (texts.length === 0) return;
    const words = phrase("marks-unreadable");
    const place = make("div", { id: "aside" }, make("p", { className: "wrong", textContent: words }));
    const save = button(phrase("save-unreadable"), () => {
      download(new File([texts.join("\n\n")], "unreadable-pencil.txt", { type: "text/plain" }));
    });
    const drop = button(phrase("throw-away"), () => {
      memory.set(Kept.ASIDE, null);
      place.remove();
    });
    place.append(make("div", { className: "row" }, save, drop));
    this.section.append(place);
  }

  /** @param {string} other */
  #offer(other) {
    const take = button(phrase("use-new-marks"), async () => {
      this.#tell(await this.#pencil.set(other));
      take.remove();
    });
    this.section.append(take);
  }
}
