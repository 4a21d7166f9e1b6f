// A player's pencil: its text, what was before each mark, and where it is kept.

const PENCIL_NAME = `pencil ${data.title} ${data.player ?? ""}`;
const MOST_UNDO = 50;

class Pencil extends EventTarget {
  #rendered;
  /** @type {(string | null)[]} Its text before each mark. */
  #before = [];
  /** @type {Protocol.Opened["pencil"]} What the engine says of it. */
  #read = null;
  /** False where the browser keeps nothing. */
  kept = true;

  /** @param {Rendered} rendered */
  constructor(rendered) {
    super();
    this.#rendered = rendered;
    this.#read = rendered.opened.pencil;
  }

  /**
   * What the phone remembers, or what was handed out; `other` is the teacher's copy if that has changed since.
   * @returns {{ text: string | null, other: string | null }}
   */
  static remembered() {
    const handed = data.pencil;
    let there;
    try {
      there = JSON.parse(memory.get(PENCIL_NAME) ?? "null");
    } catch {
      there = null;
    }
    if (typeof there?.text !== "string") return { text: handed, other: null };
    const marked = there.text !== (there.handed ?? "");
    const isNew = (there.handed ?? null) !== handed;
    if (isNew && !marked) return { text: handed, other: null };
    return { text: there.text, other: isNew ? handed : null };
  }

  get text() {
    return this.#rendered.pencil;
  }

  get canUndo() {
    return this.#before.length > 0;
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
  async write({ player, replaces, ...mark }) {
    let pencil = this.text;
    if (replaces !== undefined) {
      const without = await this.#rendered.mark({ pencil, index: replaces, erase: true });
      if (!without.ok) return inWords(without.problems);
      ({ pencil } = without);
    }
    return this.#change({ pencil, date: today(), player: player || data.player || undefined, ...mark });
  }

  /**
   * Takes a mark back. Gives back what is wrong, if anything.
   * @param {number} index
   */
  takeBack(index) {
    return this.#change({ pencil: this.text, index, erase: true });
  }

  async undo() {
    const before = this.#before.pop();
    if (before === undefined) return null;
    const wrong = await this.#use(before);
    this.dispatchEvent(new Event("marked"));
    return wrong;
  }

  /**
   * Lays another text over the routine.
   * @param {string | null} text
   */
  async set(text) {
    const before = this.text;
    const wrong = await this.#use(text);
    if (wrong === null) {
      this.#before.push(before);
      if (this.#before.length > MOST_UNDO) this.#before.shift();
      this.dispatchEvent(new Event("marked"));
    }
    return wrong;
  }

  /** Hands the file over: to another program of the phone where that can be, else as a download. */
  async send() {
    const name = this.#fileName();
    // Some phones share files of few kinds only; under its second name it is the same text.
    const files = [name, `${name}.txt`].map((one) => new File([this.text ?? ""], one, { type: "text/plain" }));
    const shared = files.find((file) => navigator.canShare?.({ files: [file] }));
    if (shared) {
      try {
        await navigator.share({ files: [shared], title: `Marks: ${data.title}` });
        return;
      } catch (error) {
        if (/** @type {Error} */ (error).name === "AbortError") return;
      }
    }
    const address = URL.createObjectURL(files[0]);
    make("a", { href: address, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(address), 60000);
  }

  /** @param {Protocol.MarkRequest} request */
  async #change(request) {
    const marked = await this.#rendered.mark(request);
    return marked.ok ? this.set(marked.pencil) : inWords(marked.problems);
  }

  /** @param {string | null} text */
  async #use(text) {
    const opened = await this.#rendered.open(this.#rendered.take, text);
    if (!opened.ok) return inWords(opened.problems);
    this.#read = opened.pencil;
    this.kept = memory.set(PENCIL_NAME, text === null ? null : JSON.stringify({ text, handed: data.pencil }));
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
