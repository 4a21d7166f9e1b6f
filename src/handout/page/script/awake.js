// Keeps the screen on while something is played, where the browser lets a page do so (not on a page from plain http).

class Awake {
  /** @type {WakeLockSentinel | undefined} */
  #lock;
  #wanted = false;

  constructor() {
    // The lock is lost whenever the page is out of sight.
    document.addEventListener("visibilitychange", () => {
      if (this.#wanted && document.visibilityState === "visible") this.#ask();
    });
  }

  keep() {
    this.#wanted = true;
    this.#ask();
  }

  release() {
    this.#wanted = false;
    this.#lock?.release();
    this.#lock = undefined;
  }

  async #ask() {
    try {
      this.#lock = await navigator.wakeLock?.request("screen");
      if (!this.#wanted) this.release();
    } catch {
      // Low on battery, or not allowed: then the screen may go dark.
    }
  }
}
