// A line as a card: its drawing, what it says beneath, and its notes as text.

class Card {
  #book;
  #pen;
  #heard;
  /** @type {number} */
  of;
  element;
  #music = make("div", { className: "drawing", tabIndex: 0, role: "application" });
  #said = make("p", { className: "unseen", role: "status" });
  #number = make("span", { className: "number" });
  #problems = make("ul", { className: "problems" });
  #marks = make("div");
  #notes = make("textarea", { className: "notes", spellcheck: false, rows: 2 });
  #play;
  /** @type {(() => void)[]} */
  #shows = [];
  #tools = make("div", { className: "place-of-tools" });
  /** @type {{ note: number, pitch: string } | null} What a pointer holds. */
  #held = null;
  /** @type {{ pitch: string, x: number, y: number } | null} The note that is written when the pointer is lifted here. */
  #meant = null;

  /**
   * @param {Book} book
   * @param {Pen} pen
   * @param {Heard} heard
   * @param {number} of
   * @param {(from: number, to: number) => void} moved
   */
  constructor(book, pen, heard, of, moved) {
    this.#book = book;
    this.#pen = pen;
    this.#heard = heard;
    this.of = of;
    this.#play = button(t("hear line"), () => (heard.line === this.of ? heard.stop() : heard.only(this.of)), "quiet play");
    this.element = make("li", { className: "card", "data-line": String(of) }, this.#head(), this.#music, this.#said, this.#tools);
    this.element.append(this.#marks, this.#problems, this.#fields(), this.#text());
    this.#listen();
    this.#draggable(moved);
    this.show();
  }

  #head() {
    const name = this.#control({ key: "name", kind: "text" });
    name.classList.add("name");
    const more = make(
      "details",
      { className: "menu" },
      make("summary", { textContent: t("more"), "aria-label": t("more of line") }),
    );
    const inside = make("div", { className: "choices" });
    const choose = (/** @type {string} */ words, /** @type {() => void} */ does) => {
      inside.append(
        button(words, () => {
          more.open = false;
          does();
        }),
      );
    };
    choose(t("hear from here"), () => this.#heard.from(this.of));
    choose(t("line up"), () => this.#move(this.of - 1));
    choose(t("line down"), () => this.#move(this.of + 1));
    choose(t("twice"), () =>
      this.#edit(withLine(this.#book.text, this.of + 1, lineText(this.#book.text, this.of)), "duplicated"),
    );
    choose(t("copy line"), () => navigator.clipboard?.writeText(lineText(this.#book.text, this.of)).catch(() => {}));
    choose(t("new line below"), () => this.#edit(withLine(this.#book.text, this.of + 1, newLine()), "new line"));
    choose(t("take line out"), () => this.#edit(withoutLine(this.#book.text, this.of), "taken out"));
    more.append(inside);
    const grip = make("span", {
      className: "grip",
      textContent: "⠿",
      title: t("drag line"),
      draggable: true,
      "aria-hidden": "true",
    });
    return make("header", {}, grip, this.#number, name, this.#play, more);
  }

  /** @param {string} text @param {string} what */
  #edit(text, what) {
    this.#book.change(text, what);
  }

  /** @param {number} to */
  #move(to) {
    this.#edit(withMoved(this.#book.text, this.of, to), "moved");
  }

  /** @param {Field} field */
  #control(field) {
    const { element, show } = control(this.#book, () => this.of, field);
    this.#shows.push(show);
    return element;
  }

  #fields() {
    const words = make("div", { className: "words" });
    words.append(this.#control({ key: "purpose", kind: "text" }), this.#control({ key: "say", kind: "words" }));
    const plain = make("div", { className: "plain" }, ...LINE_FIELDS.map((field) => this.#control(field)));
    return make("div", { className: "fields" }, words, plain);
  }

  #text() {
    this.#notes.oninput = () => {
      const line = this.#book.parts.lines[this.of];
      const key = rawOf(line, "open") === null ? "notes" : "open";
      const raw = rawNotes(rawOf(line, key), this.#notes.value);
      this.#edit(withEntry(this.#book.text, this.of, key, raw), `typed notes ${this.of}`);
    };
    return labelled(t("notes as text"), this.#notes);
  }

  #listen() {
    const music = this.#music;
    music.addEventListener("focus", () => this.#pen.of !== this.of && this.#pen.select(this.of, this.#count()));
    music.addEventListener("keydown", (event) => {
      if (this.#pen.of !== this.of || !keyed(this.#pen, event)) return;
      event.preventDefault();
    });
    music.addEventListener("pointerdown", (event) => this.#pressed(event));
    music.addEventListener("pointermove", (event) => this.#dragged(event));
    music.addEventListener("pointerup", (event) => this.#released(event));
    music.addEventListener("pointercancel", () => this.#letGo());
  }

  #count() {
    const line = this.#book.parts.lines[this.of];
    return new Notes(saidOf(line, "notes") || saidOf(line, "open")).count;
  }

  /** @param {PointerEvent} event */
  #spot(event) {
    const drawing = this.#drawing;
    const strip = this.#book.strips.get(this.of);
    return drawing && strip ? spotAt(drawing, strip, pointIn(drawing, event)) : null;
  }

  get #drawing() {
    return /** @type {SVGSVGElement | null} */ (this.#music.querySelector("svg.strip"));
  }

  /** @param {PointerEvent} event */
  #pressed(event) {
    if (event.button !== 0) return;
    const first = this.#pen.of !== this.of;
    const spot = this.#spot(event);
    this.#music.focus({ preventScroll: true });
    if (!spot) {
      this.#pen.select(this.of, 0);
      return;
    }
    // The tools come to this line now, and what lies under the pointer may move away from it before it is lifted.
    this.#music.setPointerCapture(event.pointerId);
    if (spot.note !== null) {
      this.#pen.select(this.of, event.shiftKey && !first ? this.#pen.from : spot.note, spot.note);
      this.#held = { note: spot.note, pitch: spot.pitch };
      this.#pen.hear();
      return;
    }
    // The first touch of a line only chooses it, and a finger may be about to scroll: nobody writes a note by accident.
    this.#pen.select(this.of, spot.after);
    if (!first || this.#count() === 0) this.#meant = { pitch: spot.pitch, x: event.clientX, y: event.clientY };
  }

  /** @param {PointerEvent} event */
  #released(event) {
    const meant = this.#meant;
    this.#letGo();
    if (meant && Math.hypot(event.clientX - meant.x, event.clientY - meant.y) < 8) this.#pen.add(meant.pitch);
  }

  #letGo() {
    this.#held = null;
    this.#meant = null;
  }

  /** @param {PointerEvent} event */
  #dragged(event) {
    if (!this.#held) return;
    const spot = this.#spot(event);
    if (!spot || spot.pitch === this.#held.pitch) return;
    const now = this.#pen.notes.note(this.#held.note)?.pitch ?? "";
    if (!LETTERS.includes(now[0] ?? "?")) return;
    const by = stepsBetween(this.#held.pitch, spot.pitch);
    this.#held = { ...this.#held, pitch: spot.pitch };
    this.#pen.move(this.#held.note, stepped(now, by));
  }

  /** @param {(from: number, to: number) => void} moved */
  #draggable(moved) {
    const grip = find(".grip", this.element);
    grip.addEventListener("dragstart", (event) => {
      event.dataTransfer?.setData("text/leadpipe-line", String(this.of));
      event.dataTransfer?.setDragImage(this.element, 20, 20);
    });
    this.element.addEventListener("dragover", (event) => {
      if (!event.dataTransfer?.types.includes("text/leadpipe-line")) return;
      event.preventDefault();
      this.element.classList.add("over");
    });
    this.element.addEventListener("dragleave", () => this.element.classList.remove("over"));
    this.element.addEventListener("drop", (event) => {
      this.element.classList.remove("over");
      const from = event.dataTransfer?.getData("text/leadpipe-line");
      if (!from) return;
      event.preventDefault();
      event.stopPropagation();
      moved(Number(from), this.of);
    });
  }

  /** Writes what the text says into the controls. */
  show() {
    this.element.dataset.line = String(this.of);
    write(this.#number, String(this.of + 1));
    for (const show of this.#shows) show();
    const line = this.#book.parts.lines[this.of];
    const notes = saidOf(line, rawOf(line, "open") === null ? "notes" : "open");
    if (document.activeElement !== this.#notes && this.#notes.value !== notes) this.#notes.value = notes;
  }

  /** Draws the music anew. */
  draw() {
    const strip = this.#book.strips.get(this.of);
    if (!strip) {
      this.#music.textContent = t("nothing to draw");
      return;
    }
    this.#music.innerHTML = strip.svg;
    this.#music.classList.toggle("ghost", this.#book.broken.has(this.of));
    this.selected();
  }

  /** Shows what is selected, here and in words. */
  selected() {
    const mine = this.#pen.of === this.of;
    this.element.classList.toggle("current", mine);
    const [drawing, strip] = [this.#drawing, this.#book.strips.get(this.of)];
    if (drawing && strip) showSelected(drawing, strip, mine ? this.#pen.selected : []);
    const name = saidOf(this.#book.parts.lines[this.of], "name");
    const words = mine ? wordsOfNote(this.#pen.notes.note(this.#pen.to)) : "";
    this.#music.setAttribute("aria-label", t("music of line", { number: this.of + 1, name }));
    if (mine) write(this.#said, words);
  }

  /** @param {HTMLElement | null} tools */
  tools(tools) {
    // Where they are they stay: who is at one of them keeps it.
    if (tools && tools.parentElement === this.#tools) return;
    if (tools) this.#tools.replaceChildren(tools);
    else if (this.#tools.childElementCount > 0) this.#tools.replaceChildren();
  }

  /** @param {Protocol.Problem[]} problems */
  problems(problems) {
    this.#problems.replaceChildren(
      ...problems.map((problem) => {
        return make("li", { className: problem.severity }, problemWords(problem), ...mendsOf(this.#book, problem));
      }),
    );
    this.element.classList.toggle(
      "wrong",
      problems.some(({ severity }) => severity === "error"),
    );
  }

  /** @param {HTMLElement} list of a pupil's marks */
  marks(list) {
    this.#marks.replaceChildren(list);
  }

  /** @param {boolean} playing */
  playing(playing) {
    write(this.#play, playing ? t("stop") : t("hear line"));
    this.element.classList.toggle("playing", playing);
  }
}

/** @param {string} from @param {string} to */
function stepsBetween(from, to) {
  const at = (/** @type {string} */ pitch) => LETTERS.indexOf(pitch[0]) + 7 * Number(pitch.at(-1));
  return at(to) - at(from);
}

/** A line to begin with. */
function newLine() {
  return `[[line]]\nname = ${quotedText(t("new line"))}\nnotes = ""\n`;
}

/** @param {Protocol.Problem} problem */
function problemWords({ message, hint }) {
  const said = `${message[0].toUpperCase()}${message.slice(1)}.`;
  return hint ? `${said} ${t("hint", { hint })}` : said;
}
