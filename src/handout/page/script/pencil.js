// A player's pencil: its text, what was before each mark, and where it is kept.

const NAME = `pencil ${data.title} ${data.player ?? ""}`;
const MOST_UNDO = 50;

class Pencil extends EventTarget {
  #rendered;
  #before = [];
  /** Marks in the order of the text, as the engine says them. */
  marks = [];
  /** Where the teacher's copy has changed since: that copy. */
  other = null;
  kept = true;

  constructor(rendered) {
    super();
    this.#rendered = rendered;
  }

  get text() {
    return this.#rendered.pencil;
  }

  get canUndo() {
    return this.#before.length > 0;
  }

  /** What the phone remembers, or what came with the handout. */
  static remembered() {
    const handed = data.pencil;
    let there;
    try {
      there = JSON.parse(memory.get(NAME));
    } catch {
      there = null;
    }
    if (typeof there?.text !== "string") return { text: handed, other: null };
    const marked = there.text !== (there.handed ?? "");
    const news = (there.handed ?? null) !== handed;
    if (news && !marked) return { text: handed, other: null };
    return { text: there.text, other: news ? handed : null };
  }

  /**
   * Writes a mark, or takes one back: { of, mark } or { index, erase }; the mark of index `replaces` gives way. Gives back what is
   * wrong, if anything.
   */
  async write({ player, replaces, ...mark }) {
    let { text } = this;
    if (replaces !== undefined) {
      const without = await this.#rendered.mark({ pencil: text, index: replaces, erase: true });
      if (!without.ok) return said(without.faults);
      text = without.pencil;
    }
    const written = await this.#rendered.mark({ pencil: text, date: today(), player: player || data.player || undefined, ...mark });
    return written.ok ? this.set(written.pencil) : said(written.faults);
  }

  async undo() {
    if (!this.canUndo) return null;
    const wrong = await this.#use(this.#before.pop());
    this.dispatchEvent(new Event("marked"));
    return wrong;
  }

  /** Lays another text over the routine. */
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

  async #use(text) {
    const opened = await this.#rendered.open(this.#rendered.take, text);
    if (!opened.ok) return said(opened.faults);
    this.read(opened);
    this.kept = memory.set(NAME, text === null ? null : JSON.stringify({ text, handed: data.pencil }));
    return null;
  }

  read(opened) {
    this.marks = opened.pencil?.marks ?? [];
    this.faults = opened.pencil?.faults ?? [];
    this.findings = opened.findings;
  }

  /** Marks at a line; null is the whole routine. */
  at(of) {
    return this.marks.filter((mark) => mark.of === of);
  }

  get fileName() {
    const whose = /^player\s*=\s*"([^"\\]+)"/m.exec(this.text ?? "")?.[1] ?? data.player ?? data.title;
    const plain = whose.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
    return `${plain.replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "") || "my"}.pencil.toml`;
  }

  /** Hands the file over: to another program of the phone where that can be, else as a download. */
  async send() {
    const name = this.fileName;
    // Some phones share files of few kinds only; under its second name it is the same text.
    const files = [name, `${name}.txt`].map((one) => new File([this.text], one, { type: "text/plain" }));
    const shared = files.find((file) => navigator.canShare?.({ files: [file] }));
    if (shared) {
      try {
        await navigator.share({ files: [shared], title: `Marks: ${data.title}` });
        return;
      } catch (error) {
        if (error.name === "AbortError") return;
      }
    }
    const address = URL.createObjectURL(files[0]);
    make("a", { href: address, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(address), 60000);
  }
}

function today() {
  const now = new Date();
  const two = (number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Faults as one text. */
function said(faults) {
  const sentence = (text) => (text ? `${text[0].toUpperCase()}${text.slice(1)}.` : "");
  return faults.map(({ message, hint }) => `${sentence(message)} ${sentence(hint)}`.trim()).join(" ");
}
