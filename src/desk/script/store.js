// What the browser keeps of the work, so that nothing is lost: every state of every routine, in the browser's database.

/**
 * A routine on the desk. `steps` of it were made, and it stands after the first `at` of them.
 * @typedef {object} Work
 * @property {string} id
 * @property {string} text as it is now
 * @property {string} title
 * @property {string | null} file its path in the folder of the desk
 * @property {string | null} saved the text of its file when it was read or written last
 * @property {string | null} [pencil] a pupil's marks that are laid over it
 * @property {number} steps
 * @property {number} at
 * @property {number} changed milliseconds since 1970
 */

/** @typedef {{ work: string, number: number, step: Step }} KeptStep */

class Store {
  /** @type {IDBDatabase | null} Null where the browser keeps nothing. */
  #base = null;

  /** Opens what is kept. Some browsers keep nothing for a page from a disk, or in a private window. */
  static async open() {
    const store = new Store();
    try {
      const request = indexedDB.open("leadpipe-desk", 1);
      request.onupgradeneeded = () => {
        request.result.createObjectStore("works", { keyPath: "id" });
        request.result.createObjectStore("steps", { keyPath: ["work", "number"] });
      };
      store.#base = await settled(request);
      // Another page may have to change it one day; this one then keeps nothing more.
      store.#base.onversionchange = () => store.#base?.close();
    } catch (error) {
      console.warn(error);
    }
    return store;
  }

  get keeps() {
    return this.#base !== null;
  }

  /** @returns {Promise<Work[]>} All works, the last changed first. */
  async works() {
    if (!this.#base) return [];
    const works = /** @type {Work[]} */ (await settled(this.#base.transaction("works").objectStore("works").getAll()));
    return works.sort((a, b) => b.changed - a.changed);
  }

  /**
   * @param {string} id
   * @returns {Promise<Work | undefined>}
   */
  async work(id) {
    if (!this.#base) return undefined;
    return settled(this.#base.transaction("works").objectStore("works").get(id));
  }

  /**
   * The steps of a work, in order.
   * @param {string} id
   * @returns {Promise<Step[]>}
   */
  async steps(id) {
    if (!this.#base) return [];
    const all = IDBKeyRange.bound([id, 0], [id, Infinity]);
    const kept = await settled(this.#base.transaction("steps").objectStore("steps").getAll(all));
    return /** @type {KeptStep[]} */ (kept).map(({ step }) => step);
  }

  /**
   * Keeps a work and, with it in one transaction, the step that was just made.
   * @param {Work} work
   * @param {Step | null} step
   */
  async keep(work, step) {
    if (!this.#base) return;
    const both = this.#base.transaction(["works", "steps"], "readwrite", { durability: "relaxed" });
    both.objectStore("works").put(work);
    if (step) {
      const steps = both.objectStore("steps");
      // What was undone and is written over now is gone.
      steps.delete(IDBKeyRange.bound([work.id, work.at - 1], [work.id, Infinity]));
      steps.put({ work: work.id, number: work.at - 1, step });
    }
    await new Promise((resolve, reject) => {
      both.oncomplete = () => resolve(undefined);
      both.onerror = () => reject(both.error);
      both.onabort = () => reject(both.error);
    });
  }

  /** @param {string} id */
  async drop(id) {
    if (!this.#base) return;
    const both = this.#base.transaction(["works", "steps"], "readwrite");
    both.objectStore("works").delete(id);
    both.objectStore("steps").delete(IDBKeyRange.bound([id, 0], [id, Infinity]));
    await new Promise((resolve) => (both.oncomplete = resolve));
  }
}

/**
 * @template Value
 * @param {IDBRequest<Value>} request
 * @returns {Promise<Value>}
 */
function settled(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
