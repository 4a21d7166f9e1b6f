// What the engine renders of a stretch, chunk by chunk.

class Chunks {
  /** In seconds, the first short so that it sounds soon. */
  static LENGTHS = [0.2, 0.8, 2];

  #engine;

  /** @param {Engine} engine */
  constructor(engine) {
    this.#engine = engine;
  }

  /**
   * The next frames of a stretch; none if it is over.
   * @param {Stretch} stretch
   * @param {number} sampleRate
   * @returns {Promise<Protocol.Filled>}
   */
  async next(stretch, sampleRate) {
    const number = stretch.chunks++;
    const there = stretch.kept?.[number];
    if (there) return there;
    const chunk = await this.#render(stretch, number, sampleRate);
    if (stretch.turn) {
      if (stretch.mute) chunk.drone.fill(0);
      if (number === 0 && !stretch.joined) soften(chunk, sampleRate);
    }
    if (stretch.kept?.length === number) stretch.kept.push(chunk);
    return chunk;
  }

  /**
   * @param {Stretch} stretch
   * @param {number} number of the chunk
   * @param {number} sampleRate
   * @returns {Promise<Protocol.Filled>}
   */
  async #render(stretch, number, sampleRate) {
    if (stretch.performance === null) {
      const from = stretch.from + stretch.done;
      const begun = await this.#engine.begin({ opened: stretch.opened.id, unit: stretch.unit, from });
      if (!begun.ok) throw new Error(begun.problems[0].message);
      stretch.performance = begun.performance;
      // It begins on a whole block.
      stretch.early = from - begun.from;
      if (stretch.gone) this.end(stretch);
    }
    const { early } = stretch;
    const seconds = Chunks.LENGTHS[Math.min(number, Chunks.LENGTHS.length - 1)];
    const frames = Math.round(seconds * sampleRate) + early;
    const filled = await this.#engine.fill({ performance: stretch.performance, frames });
    stretch.early = 0;
    const wanted = Math.min(filled.frames - early, stretch.frames - stretch.tail - stretch.done);
    if (early === 0 && wanted === filled.frames) return filled;
    const { guide, click, drone } = filled;
    const cut = (/** @type {Float32Array<ArrayBuffer>} */ voice) => voice.subarray(early, early + wanted);
    return { ...filled, frames: wanted, guide: cut(guide), click: cut(click), drone: cut(drone) };
  }

  /**
   * Lets the engine forget what is not played out.
   * @param {Stretch | undefined} stretch
   */
  end(stretch) {
    const performance = stretch?.performance ?? null;
    // A broken engine has forgotten it already.
    if (performance !== null) this.#engine.end({ performance }).catch(() => {});
  }
}
