// What the phone remembers, where the browser lets a page remember anything.

const memory = {
  /** @param {string} name */
  key(name) {
    return `leadpipe ${name}`;
  },
  /** @param {string} name */
  get(name) {
    try {
      return localStorage.getItem(memory.key(name));
    } catch {
      return null;
    }
  },
  /**
   * True if it will be remembered.
   * @param {string} name
   * @param {string | null} text null forgets it
   */
  set(name, text) {
    try {
      if (text === null) localStorage.removeItem(memory.key(name));
      else localStorage.setItem(memory.key(name), text);
      return true;
    } catch {
      return false;
    }
  },
};
