// A player's pencil: its text, and what was before each mark.

/**
 * A change of the text: what it is then, nothing, or why not.
 * @typedef {(text: string | null) => Promise<{ ok: true, pencil: string | null, undone?: boolean } | Protocol.Refusal | null>} Change
 */

class Pencil extends EventTarget {
  #rendered;
  #kept;
  /** @type {(string | null)[]} Its text before each mark. */
  #before;
  /** @type {Protocol.Opened["pencil"]} What the engine says of it. */
  #read = null;
  /** @type {Promise<unknown>} What was asked for before. */
  #last = Promise.resolve();

  /**
   * @param {Rendered} rendered
   * @param {Kept} kept
   * @param {(string | null)[]} before
   */
  constructor(rendered, kept, before) {
    super();
    this.#rendered = rendered;
    this.#kept = kept;
    this.#before = before;
    this.#read = rendered.opened.pencil;
    kept.watch(() => this.#do(async () => null));
  }

  /**
   * Opens the routine with what the phone remembers, or with what was handed out; what cannot be read is laid aside. `other` is the
   * teacher's copy if that has changed since.
   * @param {Rendered} rendered
   * @param {Protocol.Take} take
   */
  static async remembered(rendered, take) {
    const handed = data.pencil;
    const kept = new Kept();
    let there = kept.read();
    if (there !== null && there !== "unreadable") {
      const marked = (there.text ?? "") !== (there.handed ?? "");
      const isNew = there.handed !== handed;
      const text = isNew && !marked ? handed : there.text;
      const { ok } = await rendered.open(take, text);
      const before = isNew && !marked ? [] : there.before;
      if (ok) return { pencil: new Pencil(rendered, kept, before), other: isNew && marked ? handed : null };
      there = "unreadable";
    }
    if (there === "unreadable") kept.setAside();
    let opened = await rendered.open(take, handed);
    // A text that is no pencil must not keep the routine from being played.
    if (!opened.ok) opened = await rendered.open(take, null);
    if (!opened.ok) throw new Error(inWords(opened.problems));
    return { pencil: new Pencil(rendered, kept, []), other: null };
  }

  get text() {
    return this.#rendered.pencil;
  }

  /** False where the browser keeps nothing. */
  get kept() {
    return this.#kept.ok;
  }

  get canUndo() {
    return this.#before.length > 0;
  }

  /** Whose it is. */
  get player() {
    return this.#read?.player ?? data.player;
  }

  /** Marks in the order of the text. */
  get marks() {
    return this.#read?.marks ?? [];
  }

  /** Why marks are left out. */
  get problems() {
    return this.#read?.problems ?? [];
  }

  /** What the checker has to say of the marks. */
  get advice() {
    return this.#read?.advice ?? [];
  }

  /**
   * Marks at a line; null is the whole routine.
   * @param {number | null} of
   */
  at(of) {
    return this.marks.filter((mark) => mark.of === of);
  }

  /**
   * Writes a mark. The mark of index `replaces` gives way. Gives back what is wrong, if anything.
   * @param {{ of: number | null, mark: string, replaces?: number, player?: string }} mark
   */
  write({ player, replaces, ...mark }) {
    const old = this.marks.find(({ index }) => index === replaces);
    return this.#do(async (text) => {
      let pencil = text;
      const index = old && this.#again(old);
      if (index !== undefined) {
        const without = await this.#rendered.mark({ pencil, index, erase: true });
        if (!without.ok) return without;
        ({ pencil } = without);
      }
      return this.#rendered.mark({ pencil, date: today(), player: player || data.player || undefined, ...mark });
    });
  }

  /**
   * Takes a mark back. Gives back what is wrong, if anything.
   * @param {number} index
   */
  takeBack(index) {
    const old = this.marks.find((mark) => mark.index === index);
    return this.#do(async (pencil) => {
      const there = old && this.#again(old);
      return there === undefined ? null : this.#rendered.mark({ pencil, index: there, erase: true });
    });
  }

  undo() {
    return this.#do(async () => {
      const before = this.#before.at(-1);
      return before === undefined ? null : { ok: true, pencil: before, undone: true };
    });
  }

  /**
   * Lays another text over the routine.
   * @param {string | null} text
   */
  set(text) {
    return this.#do(async () => ({ ok: true, pencil: text }));
  }

  /**
   * Adds marks of another pencil. One of a kind that can stand at a line but once takes the place of ours.
   * @param {{ of: number | null, typed: string }[]} marks
   * @param {string | null} player
   */
  add(marks, player) {
    return this.#do(async (text) => {
      let pencil = text;
      for (const { of, typed } of marks) {
        const marked = await this.#rendered.mark({ pencil, of, mark: typed, date: today(), player: player || undefined });
        if (!marked.ok) return marked;
        ({ pencil } = marked);
      }
      return { ok: true, pencil };
    });
  }

  /** Hands the file over: to another program of the phone where that can be, else as a download. */
  async send() {
    const name = this.#fileName();
    // Some phones share files of few kinds only; under its second name it is the same text.
    const files = [name, `${name}.txt`].map((one) => new File([this.text ?? ""], one, { type: "text/plain" }));
    const shared = files.find((file) => navigator.canShare?.({ files: [file] }));
    if (shared) {
      try {
        await navigator.share({ files: [shared], title: phrase("marks-to-send", { title: data.title }) });
        return;
      } catch (error) {
        if (/** @type {Error} */ (error).name === "AbortError") return;
      }
    }
    download(files[0]);
  }

  /**
   * The index of a mark in the text as it is now, which another page may have changed.
   * @param {Protocol.Mark} old
   */
  #again({ of, typed }) {
    return this.marks.find((mark) => mark.of === of && mark.typed === typed)?.index;
  }

  /**
   * Changes the text, one change after another. Gives back what is wrong, if anything.
   * @param {Change} change
   * @returns {Promise<string | null>}
   */
  #do(change) {
    const done = this.#last.then(() => this.#kept.alone(() => this.#turn(change)));
    this.#last = done.catch(() => {});
    return done;
  }

  /** @param {Change} change */
  async #turn(change) {
    for (;;) {
      const followed = await this.#follow();
      const changed = await change(this.text);
      if (changed && !changed.ok) return inWords(changed.problems);
      const before = [...this.#before];
      if (changed?.undone) before.pop();
      else before.push(this.text);
      if (changed) {
        const wrong = await this.#use(changed.pencil);
        if (wrong !== null) return wrong;
        // Without locks another page may have come first: then once more, on top of that.
        if (this.#kept.changed) continue;
        this.#before = before;
        this.#kept.write(changed.pencil, before);
      }
      if (changed || followed) this.dispatchEvent(new Event("marked"));
      return null;
    }
  }

  /** Takes over what another page has written since. */
  async #follow() {
    if (!this.#kept.changed) return false;
    const there = this.#kept.read();
    if (there === "unreadable") return false;
    // What could not be kept is only here: it must not go with what was written elsewhere.
    const own = this.kept ? [] : this.marks;
    const wrong = await this.#use(there ? there.text : data.pencil);
    if (wrong !== null) return false;
    this.#before = there?.before ?? [];
    for (const { of, typed } of own) {
      if (of === "nowhere" || this.marks.some((mark) => mark.of === of && mark.typed === typed)) continue;
      const marked = await this.#rendered.mark({ pencil: this.text, of, mark: typed, date: today() });
      if (marked.ok) await this.#use(marked.pencil);
    }
    return true;
  }

  /** @param {string | null} text */
  async #use(text) {
    const opened = await this.#rendered.open(this.#rendered.take, text);
    if (!opened.ok) return inWords(opened.problems);
    this.#read = opened.pencil;
    return null;
  }

  #fileName() {
    const whose = this.#read?.player || data.player || data.title;
    const plain = whose.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
    return `${plain.replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "") || "my"}.pencil.toml`;
  }
}

function today() {
  const now = new Date();
  const two = (/** @type {number} */ number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** @param {File} file */
function download(file) {
  const address = URL.createObjectURL(file);
  make("a", { href: address, download: file.name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}
