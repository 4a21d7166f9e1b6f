// Undo and redo without end: the steps from one text to the next, each a piece that was put in the place of another.

/** @typedef {{ from: number, before: string, after: string, what: string, time: number }} Step */

/** Steps of typing in one place that follow within this time, in milliseconds, are undone together. */
const TOGETHER = 1200;

/**
 * The step from a text to another: what lies between their common beginning and their common end.
 * @param {string} before
 * @param {string} after
 * @param {string} what names what was changed
 * @returns {Step}
 */
function stepBetween(before, after, what) {
  const shorter = Math.min(before.length, after.length);
  let from = 0;
  while (from < shorter && before[from] === after[from]) from++;
  let end = 0;
  while (end < shorter - from && before[before.length - 1 - end] === after[after.length - 1 - end]) end++;
  return {
    from,
    before: before.slice(from, before.length - end),
    after: after.slice(from, after.length - end),
    what,
    time: Date.now(),
  };
}

class Steps {
  /** @type {Step[]} */
  #steps;
  #at;

  /**
   * @param {Step[]} steps
   * @param {number} at
   */
  constructor(steps, at) {
    this.#steps = steps;
    this.#at = Math.min(at, steps.length);
  }

  get at() {
    return this.#at;
  }

  get length() {
    return this.#steps.length;
  }

  /**
   * Notes a step. Typing on in one place lengthens the last one.
   * @param {string} before
   * @param {string} after
   * @param {string} what
   */
  note(before, after, what) {
    const last = this.#steps[this.#at - 1];
    let step = stepBetween(before, after, what);
    if (last && what.startsWith("typed") && last.what === what && step.time - last.time < TOGETHER) {
      const start = before.slice(0, last.from) + last.before + before.slice(last.from + last.after.length);
      step = stepBetween(start, after, what);
      this.#at--;
    }
    this.#steps = [...this.#steps.slice(0, this.#at), step];
    this.#at++;
    return step;
  }

  /**
   * The text before the last step; null where there is none.
   * @param {string} text
   */
  undo(text) {
    if (this.#at === 0) return null;
    const { from, before, after } = this.#steps[--this.#at];
    return text.slice(0, from) + before + text.slice(from + after.length);
  }

  /** @param {string} text */
  redo(text) {
    if (this.#at === this.#steps.length) return null;
    const { from, before, after } = this.#steps[this.#at++];
    return text.slice(0, from) + after + text.slice(from + before.length);
  }
}
