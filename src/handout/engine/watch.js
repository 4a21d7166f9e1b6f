// Whether what was asked to sound does: how long it takes, and whether the clock of the sound device runs.

class Watch {
  #began = 0;
  #clock = 0;
  #seen = 0;
  /** Milliseconds since it was asked to sound. */
  waited = 0;
  /** Milliseconds for which the clock has stood still. */
  still = 0;

  /** @param {number} clock of the device, when something is asked to sound */
  begin(clock) {
    this.#began = clock;
    this.#clock = clock;
    this.#seen = performance.now();
    this.waited = 0;
    this.still = 0;
  }

  /** @param {number} clock */
  look(clock) {
    const now = performance.now();
    // A phone that was asleep in between could move nothing.
    const spent = Math.min(now - this.#seen, 1000);
    this.#seen = now;
    this.waited += spent;
    this.still = clock === this.#clock ? this.still + spent : 0;
    this.#clock = clock;
  }

  /** True if the clock has run since. */
  get runs() {
    return this.#clock > this.#began;
  }
}
