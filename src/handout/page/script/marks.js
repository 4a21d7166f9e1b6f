// What can be marked with the pencil, at a line or on the whole routine: a sheet of buttons.

const NOT_KEPT = phrase("marks-not-kept");

/**
 * Kinds of marks that a line cannot take: breathing has no notes, and only the horn has fingerings to spare.
 * @type {Record<Protocol.TimetableLine["on"], string[]>}
 */
const NOT_ON = {
  horn: [],
  mouthpiece: ["bend", "finger"],
  air: ["articulation", "loudness", "drone", "bend", "finger", "breath_after"],
  rest: ["articulation", "loudness", "drone", "bend", "finger", "breath_after"],
};

class Marks {
  #rendered;
  #pencil;
  #sheet = make("dialog", { id: "marks", "aria-labelledby": "marks-title" });
  #title = make("h2", { id: "marks-title", tabIndex: -1, autofocus: true });
  #there = make("ul", { className: "there" });
  #wrong = make("p", { role: "status", className: "wrong" });
  #advice = make("p", { className: "soft" });
  #body = make("div");
  /** @type {{ of: number, drawing: HTMLElement } | null} The line that is drawn large. */
  #large = null;
  #undo;
  /** @type {number | null} Index of the line in the teacher's routine; null for the whole routine. */
  #of = null;
  /** What touching a note marks, as it is typed. */
  #what = "breath after";
  #player = "";

  /**
   * @param {Rendered} rendered
   * @param {Pencil} pencil
   */
  constructor(rendered, pencil) {
    this.#rendered = rendered;
    this.#pencil = pencil;
    this.#undo = button(phrase("undo"), async () => this.#told(await pencil.undo()));
    const done = button(phrase("done-marking"), () => this.#sheet.close(), "deed");
    const last = make("div", { className: "row last" }, this.#undo, done);
    this.#sheet.append(this.#title, this.#there, this.#wrong, this.#advice, this.#body, last);
    document.body.append(this.#sheet);
    pencil.addEventListener("marked", () => {
      if (!this.#sheet.open) return;
      this.#refill();
      this.#say(pencil.kept ? null : NOT_KEPT);
    });
  }

  /**
   * Opens the sheet of a line; null is the whole routine.
   * @param {number | null} of
   * @param {string} title
   */
  open(of, title) {
    this.#of = of;
    this.#title.textContent = of === null ? phrase("marks-everywhere") : phrase("marks-of", { title });
    this.#say(this.#pencil.kept ? null : NOT_KEPT);
    this.#fill();
    openSheet(this.#sheet);
    // What it is about, and not a field that brings up the keyboard of the phone.
    this.#title.focus({ preventScroll: true });
  }

  /** Shows the marks as they are now. The keyboard stays where it was. */
  #refill() {
    const had = nameOfControl(document.activeElement);
    const typed = [...this.#sheet.querySelectorAll("details")].map(({ open }) => open);
    const drawn = this.#fill();
    for (const [index, details] of this.#sheet.querySelectorAll("details").entries()) details.open = typed[index] ?? false;
    const back = () => {
      if (had === null || this.#sheet.contains(document.activeElement?.closest("button, input, summary") ?? null)) return;
      const controls = [...this.#sheet.querySelectorAll("button, input, summary")];
      const same = controls.find((one) => nameOfControl(one) === had && !one.matches(":disabled"));
      /** @type {HTMLElement} */ (same ?? this.#title).focus({ preventScroll: true });
    };
    back();
    // A note is a button only when its line is drawn.
    drawn.then(back);
  }

  /** @param {string | null} wrong */
  #say(wrong) {
    this.#wrong.textContent = wrong ?? "";
    if (wrong) this.#wrong.scrollIntoView({ block: "nearest" });
  }

  /**
   * Writes a mark. One of its kind that is there already gives way.
   * @param {string | null} kind null where several may stand at a line
   * @param {string} words as they are typed
   */
  async #mark(kind, words) {
    const player = this.#pencil.text === null ? this.#player : undefined;
    const old = kind === null ? undefined : this.#pencil.at(this.#of).find((mark) => mark.kind === kind);
    this.#told(await this.#pencil.write({ of: this.#of, mark: words, replaces: old?.index, player }));
  }

  /** @param {string | null} wrong what kept a mark from being made; what the phone cannot keep is said already */
  #told(wrong) {
    if (wrong) this.#say(wrong);
  }

  /** @param {number} index */
  async #takeBack(index) {
    this.#told(await this.#pencil.takeBack(index));
  }

  #fill() {
    const of = this.#of;
    this.#undo.disabled = !this.#pencil.canUndo;
    const marks = this.#pencil.at(of);
    const item = (/** @type {Protocol.Mark} */ mark) => {
      const words = make("span", { className: "pencilled", textContent: mark.words });
      return make(
        "li",
        {},
        words,
        button(phrase("rub-out"), () => this.#takeBack(mark.index)),
      );
    };
    this.#there.replaceChildren(...marks.map(item));
    this.#there.hidden = marks.length === 0;
    this.#advice.textContent = inWords(this.#pencil.advice.filter((one) => of === null || one.of === of));
    const needsName = this.#pencil.text === null && !data.player;
    const [notes, drawn] = of === null ? [null, Promise.resolve()] : this.#atNotes(of, marks);
    this.#body.replaceChildren(
      ...(needsName ? [this.#nickname()] : []),
      ...(notes ? [notes] : []),
      ...this.#groups(false),
      ...this.#stops(),
      ...(of === null ? [] : this.#groups(true)),
      fieldset(phrase("words"), this.#asked(phrase("words-for-the-sheet"), "words", "words ", { maxLength: 200 })),
      this.#anotherMark(),
    );
    return drawn;
  }

  /** The kinds of marks that the line cannot take; all can be made on the whole routine, for the lines that take them. */
  get #not() {
    if (this.#of === null) return [];
    const all = [this.#rendered.lines, ...data.takes.map(({ lines }) => lines)].flat();
    const line = all.find(({ of }) => of === this.#of);
    if (!line) return [];
    return line.passes.length > 1 ? NOT_ON[line.on] : [...NOT_ON[line.on], "between"];
  }

  /**
   * The groups of marks that the line can take.
   * @param {boolean} ofALine
   */
  #groups(ofALine) {
    const not = this.#not;
    const there = this.#pencil.at(this.#of);
    // What stands there can be taken back all the same.
    const fits = (/** @type {string} */ kind) => !not.includes(kind) || there.some((mark) => mark.kind === kind);
    return data.marks.flatMap((group) => {
      const marks = group.marks.filter(({ kind }) => fits(kind));
      return group.ofALine === ofALine && marks.length > 0 ? [this.#group({ ...group, marks })] : [];
    });
  }

  #nickname() {
    const name = make("input", { type: "text", value: this.#player, maxLength: 60 });
    name.oninput = () => (this.#player = name.value);
    return labelled(phrase("nickname"), name);
  }

  /** @param {Protocol.PageData["marks"][number]} group */
  #group({ title, marks }) {
    const buttons = marks.map(({ kind, typed, words }) => this.#button(kind, typed, words));
    if (marks[0].kind !== "tempo") return fieldset(title, ...buttons);
    const more = { placeholder: "70%", pattern: "\\d{2,3}%" };
    return fieldset(title, ...buttons, this.#asked(phrase("percent-of-written"), "tempo", "", more));
  }

  /**
   * A button that makes a mark, or takes it back where it stands already.
   * @param {string} kind
   * @param {string} typed
   * @param {string} words
   */
  #button(kind, typed, words) {
    const there = this.#pencil.at(this.#of).findLast((mark) => mark.kind === kind);
    const on = there?.typed === typed;
    const one = button(words, () => (there && on ? this.#takeBack(there.index) : this.#mark(kind, typed)));
    one.setAttribute("aria-pressed", String(on));
    return one;
  }

  /**
   * A field for what no button says.
   * @param {string} label
   * @param {string | null} kind
   * @param {string} begin what is typed before it
   * @param {Record<string, unknown>} [more]
   */
  #asked(label, kind, begin, more = {}) {
    const input = make("input", { type: "text", ...more });
    const words = make("label", {}, make("span", { textContent: label }), input);
    const form = make(
      "form",
      { className: "asked" },
      words,
      make("button", { className: "quiet", textContent: phrase("make-mark") }),
    );
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      if (input.value.trim()) this.#mark(kind, `${begin}${input.value.trim()}`);
    });
    return form;
  }

  #anotherMark() {
    return make(
      "details",
      {},
      make("summary", { textContent: phrase("another-mark") }),
      make("p", { className: "soft", textContent: phrase("mark-example") }),
      this.#asked(phrase("make-mark"), null, ""),
    );
  }

  /**
   * Breaths and bends, by touching notes.
   * @param {number} of
   * @param {Protocol.Mark[]} marks
   */
  #atNotes(of, marks) {
    const not = this.#not;
    if (not.includes("breath_after")) return /** @type {const} */ ([null, Promise.resolve()]);
    const row = make("div", { className: "row" });
    const place = make("fieldset", {}, make("legend", { textContent: phrase("touch-a-note") }), row);
    // What is drawn already stays until it is drawn anew: nothing moves under the finger.
    if (this.#large?.of === of) place.append(this.#large.drawing);
    const draw = async () => {
      const bends = this.#what === "bend";
      // A note that the teacher bends is marked by fingering it.
      const typed = (/** @type {Protocol.StripNote} */ { bent }) => (bends && bent ? "finger" : this.#what);
      const own = (/** @type {Protocol.StripNote} */ one) => {
        const kind = !bends ? "breath_after" : one.bent ? "finger" : "bend";
        return marks.find((mark) => mark.kind === kind && (mark.note === one.note || (one.bent && mark.note === null)));
      };
      const bears = (/** @type {Protocol.StripNote} */ one) => (bends && one.bent ? !own(one) : !!own(one));
      const what = (/** @type {number} */ note) => phrase(bends ? "bend-note" : "breath-after-note", { note });
      const drawing = await zoomed(this.#rendered, of, what, bears, (one) => {
        const there = own(one);
        if (there) this.#takeBack(there.index);
        else this.#mark(null, `${typed(one)} ${one.note}`);
      });
      for (const old of place.querySelectorAll(".zoomed, p")) old.remove();
      place.append(drawing);
      this.#large = { of, drawing };
    };
    const ways = [
      ["breath after", phrase("breathe-after-it")],
      ["bend", phrase("bend-it")],
    ];
    if (not.includes("bend")) {
      ways.pop();
      this.#what = "breath after";
    }
    for (const [what, words] of ways) {
      const one = button(words, () => {
        this.#what = what;
        for (const other of row.children) other.setAttribute("aria-pressed", String(other === one));
        draw();
      });
      one.setAttribute("aria-pressed", String(this.#what === what));
      row.append(one);
    }
    return /** @type {const} */ ([place, draw()]);
  }

  /** The half steps or tubes after which the line may be over. */
  #stops() {
    const line = this.#rendered.lines.find((one) => one.of === this.#of);
    const stops = line?.stops ?? [];
    if (stops.length === 0) return [];
    return [fieldset(phrase("stop-after"), ...stops.map(({ typed, words }) => this.#button("stop_after", typed, words)))];
  }
}

/**
 * What tells a control from the others of its sheet; null for what is none.
 * @param {Element | null} element
 */
function nameOfControl(element) {
  if (!element?.matches("button, input, summary")) return null;
  const title = element.closest("fieldset")?.querySelector("legend")?.textContent ?? "";
  const label = element.getAttribute("aria-label") ?? element.closest("label")?.textContent ?? element.textContent;
  return `${element.tagName} ${title}: ${label}`;
}

/**
 * A titled row.
 * @param {string} title
 * @param {HTMLElement[]} parts
 */
function fieldset(title, ...parts) {
  return make("fieldset", {}, make("legend", { textContent: title }), make("div", { className: "row" }, ...parts));
}
