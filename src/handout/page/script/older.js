// What the oldest browsers meant (README.md) do not have, in the few ways that this page uses it. Older ones still cannot read the
// script: there the page without it plays the tracks.

/**
 * Gives a prototype the methods that it lacks.
 * @param {object} prototype
 * @param {Record<string, unknown>} methods
 */
function giveMissing(prototype, methods) {
  for (const [name, value] of Object.entries(methods)) {
    if (!(name in prototype)) Object.defineProperty(prototype, name, { value, writable: true, configurable: true });
  }
}

giveMissing(Array.prototype, {
  /** @this {unknown[]} */
  at(index = 0) {
    return this[index < 0 ? this.length + index : index];
  },
  /**
   * @this {unknown[]}
   * @param {(element: unknown, index: number, array: unknown[]) => unknown} is
   */
  findLastIndex(is) {
    let index = this.length - 1;
    while (index >= 0 && !is(this[index], index, this)) index--;
    return index;
  },
  /**
   * @this {unknown[]}
   * @param {(element: unknown, index: number, array: unknown[]) => unknown} is
   */
  findLast(is) {
    return this[this.findLastIndex(is)];
  },
});

/** Dialogs where the browser has none: over the page, with the keyboard inside. */
const olderDialogs = {
  /** @type {{ sheet: HTMLElement, from: Element | null }[]} The uppermost is the last. */
  shown: [],

  /** @param {KeyboardEvent} event */
  onKey(event) {
    const top = olderDialogs.shown.at(-1);
    if (!top || event.key !== "Escape") return;
    event.stopImmediatePropagation();
    event.preventDefault();
    /** @type {HTMLDialogElement} */ (top.sheet).close();
  },

  /** @param {FocusEvent} event */
  onFocus(event) {
    const top = olderDialogs.shown.at(-1);
    if (top && !top.sheet.contains(/** @type {Node} */ (event.target))) top.sheet.focus();
  },
};

function giveDialogs() {
  const prototype = Object.getPrototypeOf(document.createElement("dialog"));
  if ("showModal" in prototype) return;
  document.documentElement.classList.add("older-dialogs");
  addEventListener("keydown", olderDialogs.onKey, { capture: true });
  addEventListener("focusin", olderDialogs.onFocus);
  giveMissing(prototype, {
    /** @this {HTMLElement} */
    showModal() {
      olderDialogs.shown.push({ sheet: this, from: document.activeElement });
      this.setAttribute("open", "");
      this.setAttribute("role", "dialog");
      this.setAttribute("aria-modal", "true");
      this.tabIndex = -1;
      /** @type {HTMLElement} */ (this.querySelector("[autofocus]") ?? this).focus();
    },
    /** @this {HTMLElement} */
    close() {
      this.removeAttribute("open");
      const index = olderDialogs.shown.findLastIndex(({ sheet }) => sheet === this);
      const [was] = index < 0 ? [] : olderDialogs.shown.splice(index, 1);
      /** @type {HTMLElement | null | undefined} */ (was?.from)?.focus?.();
    },
  });
  if ("open" in prototype) return;
  Object.defineProperty(prototype, "open", {
    /** @this {HTMLElement} */
    get() {
      return this.hasAttribute("open");
    },
  });
}

giveDialogs();
