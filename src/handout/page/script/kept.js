// Where the phone keeps a pencil. Every page of the same handout shares it: two of them may be open at once.

/**
 * `before` is what was there before each mark, `handed` the pencil that came with the handout.
 * @typedef {{ text: string | null, handed: string | null, before: (string | null)[] }} KeptPencil
 */

class Kept {
  static NAME = `pencil ${data.title} ${data.player ?? ""}`;
  static ASIDE = `${Kept.NAME} aside`;
  static MOST_UNDO = 50;
  /** What was read or written last. */
  #seen = memory.get(Kept.NAME);
  /** False where the browser keeps nothing, or has no room left. */
  ok = true;

  /** @returns {KeptPencil | "unreadable" | null} */
  read() {
    this.#seen = memory.get(Kept.NAME);
    if (this.#seen === null) return null;
    try {
      const { text, handed = null, before = [] } = JSON.parse(this.#seen);
      const isText = (/** @type {unknown} */ one) => one === null || typeof one === "string";
      if (isText(text) && isText(handed) && Array.isArray(before) && before.every(isText)) return { text, handed, before };
    } catch {
      // Not ours.
    }
    return "unreadable";
  }

  /** True if another page has written since. */
  get changed() {
    return memory.get(Kept.NAME) !== this.#seen;
  }

  /**
   * Writes it, with as much to undo as there is room for.
   * @param {string | null} text
   * @param {(string | null)[]} before
   */
  write(text, before) {
    for (let left = before.slice(-Kept.MOST_UNDO); ; left = left.slice(Math.ceil(left.length / 2))) {
      const written = JSON.stringify({ text, handed: data.pencil, before: left });
      this.ok = memory.set(Kept.NAME, written);
      if (this.ok) this.#seen = written;
      if (this.ok || left.length === 0) return;
    }
  }

  /** Lays what cannot be read beside the pencil, so that no mark is written over it. */
  setAside() {
    const unreadable = memory.get(Kept.NAME);
    if (unreadable === null) return;
    const there = Kept.aside;
    const done = there.includes(unreadable) || memory.set(Kept.ASIDE, JSON.stringify([...there, unreadable]));
    if (done) memory.set(Kept.NAME, null);
    this.#seen = memory.get(Kept.NAME);
  }

  /**
   * What was laid aside.
   * @returns {string[]}
   */
  static get aside() {
    try {
      return JSON.parse(memory.get(Kept.ASIDE) ?? "[]");
    } catch {
      return [];
    }
  }

  /** @param {() => void} then called where another page has written */
  watch(then) {
    addEventListener("storage", ({ key }) => {
      if ((key === null || key === memory.key(Kept.NAME)) && this.changed) then();
    });
  }

  /**
   * Does something while no other page does, where the browser can see to it.
   * @template Result
   * @param {() => Promise<Result>} does
   * @returns {Promise<Result>}
   */
  async alone(does) {
    return navigator.locks ? await navigator.locks.request(memory.key(Kept.NAME), does) : await does();
  }
}
