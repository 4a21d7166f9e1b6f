// The pen: what is selected, what would be written next, and every edit of notes. Tools and keys both call it.

class Pen extends EventTarget {
  #book;
  #heard;
  /** The line that is written into; -1 for none. */
  of = -1;
  /** The notes that are selected, from the first to the last; what is written comes after the last. 0 is before the first note. */
  from = 0;
  to = 0;
  length = "quarter";
  /** True for rests in the place of notes. */
  rests = false;
  /** Notes that were copied. */
  #copied = "";

  /**
   * @param {Book} book
   * @param {Heard} heard
   */
  constructor(book, heard) {
    super();
    this.#book = book;
    this.#heard = heard;
    book.addEventListener("text", () => this.#kept());
  }

  /** The key under which the line's notes are written. */
  get #key() {
    const line = this.#book.parts.lines[this.of];
    return rawOf(line, "open") === null ? "notes" : "open";
  }

  get #raw() {
    return rawOf(this.#book.parts.lines[this.of], this.#key);
  }

  /** @returns {Notes} */
  get notes() {
    const line = this.#book.parts.lines[this.of];
    return new Notes(saidOf(line, this.#key), saidOf(line, "each"));
  }

  get selected() {
    return this.from === 0 ? [] : Array.from({ length: this.to - this.from + 1 }, (_, index) => this.from + index);
  }

  /**
   * @param {number} of
   * @param {number} from
   * @param {number} to
   */
  select(of, from, to = from) {
    const other = this.of !== of;
    this.of = of;
    [this.from, this.to] = [Math.min(from, to), Math.max(from, to)];
    if (other) this.dispatchEvent(new CustomEvent("line"));
    this.dispatchEvent(new Event("selected"));
  }

  /** A text that was changed elsewhere may have fewer lines and notes. */
  #kept() {
    if (this.of >= this.#book.parts.lines.length) this.of = this.#book.parts.lines.length - 1;
    const most = this.of < 0 ? 0 : this.notes.count;
    if (this.to > most) [this.from, this.to] = [Math.min(this.from, most), most];
    this.dispatchEvent(new Event("selected"));
  }

  /** Whole notes in a bar of the line. */
  get bar() {
    const { head, lines } = this.#book.parts;
    const meter = saidOf(lines[this.of], "meter") || saidOf(head, "meter") || "4/4";
    const [over, under] = meter.split("/").map(Number);
    return over / under || 1;
  }

  /**
   * The notes of the line become others.
   * @param {string} notes
   * @param {string} what
   */
  #write(notes, what) {
    const fits = new Notes(notes, this.notes.each).barred(this.bar);
    const text = withEntry(this.#book.text, this.of, this.#key, rawNotes(this.#raw, fits));
    this.#book.change(text, `notes: ${what}`);
  }

  /** Lets the selected note be heard, once the engine has read it. */
  hear() {
    const { of, to } = this;
    const sound = () => {
      const moment = this.notes.moments().moments.get(to);
      if (moment && this.of === of) this.#heard.note(of, moment.at, moment.length);
    };
    this.#book.read().then(sound);
  }

  /** A note after what is selected. @param {string} pitch */
  add(pitch) {
    if (this.of < 0) return;
    const after = this.to;
    if (this.rests) {
      this.#write(this.notes.insert(after, "rest", this.length), "rest");
      return;
    }
    this.#write(this.notes.insert(after, pitch, this.length), "note");
    this.select(this.of, after + 1);
    this.hear();
  }

  /** A note of a letter, near the one before. @param {string} letter */
  addLetter(letter) {
    const before = this.notes.note(this.to)?.pitch ?? this.notes.note(1)?.pitch;
    const near = before && before.length > 1 && LETTERS.includes(before[0]) ? before : this.#middle();
    this.add(nearest(letter, near));
  }

  #middle() {
    return saidOf(this.#book.parts.head, "comfortable_top") || "G4";
  }

  addRest() {
    this.#write(this.notes.insert(this.to, "rest", this.length), "rest");
  }

  /** @param {string} length */
  setLength(length) {
    this.length = length;
    if (this.from > 0) this.#write(this.notes.lengthened(this.selected, length), "length");
    this.dispatchEvent(new Event("selected"));
  }

  dot() {
    const length = this.notes.note(this.to)?.length ?? this.length;
    this.setLength(length.endsWith(".") ? length.slice(0, -1) : `${length}.`);
  }

  /** Steps on the staff, up or down. @param {number} steps */
  step(steps) {
    if (this.from === 0) return;
    this.#write(
      this.notes.pitched(this.selected, (pitch) => stepped(pitch, steps)),
      "pitch",
    );
    this.hear();
  }

  /** The note on another pitch. @param {number} note @param {string} pitch */
  move(note, pitch) {
    this.#write(
      this.notes.pitched([note], () => pitch),
      "typed pitch",
    );
    this.select(this.of, note);
    this.hear();
  }

  /** @param {"#" | "b" | ""} sign */
  sign(sign) {
    if (this.from === 0) return;
    this.#write(
      this.notes.pitched(this.selected, (pitch) => pitch[0] + sign + pitch.at(-1)),
      "accidental",
    );
    this.hear();
  }

  delete() {
    if (this.from === 0) return;
    const { from } = this;
    this.#write(this.notes.without(this.selected), "deleted");
    this.select(this.of, Math.min(from - 1, this.notes.count));
  }

  tie() {
    if (this.from > 0) this.#write(this.notes.tied(this.to, this.length.replace(".", "")), "tie");
  }

  /** @param {"slur" | "triplet"} word */
  group(word) {
    if (this.from > 0) this.#write(this.notes.grouped(this.from, this.to, word), word);
  }

  breath() {
    if (this.from > 0) this.#write(this.notes.toggledAfter(this.to, "breath"), "breath");
  }

  barLine() {
    if (this.from > 0) this.#write(this.notes.toggledAfter(this.to, "|"), "bar");
  }

  /** @param {string} dynamic */
  loud(dynamic) {
    if (this.from > 0) this.#write(this.notes.loud(this.from, dynamic), "dynamic");
  }

  /** @param {string} mark */
  mark(mark) {
    if (this.from > 0) this.#write(this.notes.marked(this.selected, mark), "mark");
  }

  copy() {
    const [first, last] = [this.notes.note(this.from), this.notes.note(this.to)];
    if (!first || !last) return "";
    const notes = this.notes.tokens.filter(({ number, kind }) => kind === "note" && number >= this.from && number <= this.to);
    this.#copied = notes.map((token) => written(token.pitch, token.length, token.rest)).join(" ");
    return this.#copied;
  }

  paste() {
    let { notes } = this;
    let after = this.to;
    for (const token of tokensOf(this.#copied)) {
      notes = new Notes(notes.insert(after, token.pitch, token.length + token.rest), notes.each);
      after++;
    }
    this.#write(notes.text, "pasted");
    this.select(this.of, Math.min(this.to + 1, after), after);
  }

  /** Goes to the note before or after. @param {number} by @param {boolean} more the selection grows */
  go(by, more) {
    const to = Math.min(Math.max(this.to + by, more ? 1 : 0), this.notes.count);
    this.select(this.of, more ? this.from : to, to);
    const token = this.notes.note(to);
    if (token && to > 0) this.hear();
  }
}
