// Plays finished tracks.

/**
 * Something that can be made softer, with words for its slider.
 * @typedef {{ words: string, get: () => number, set: (value: number) => void }} Volume
 */

/**
 * What plays, tracks or the engine. It says "change" when it begins, stops or ends.
 * @typedef {object} PlayerOfPage
 * @property {Protocol.TimetableLine[]} lines
 * @property {number} sampleRate of the frames of `lines`
 * @property {number} key
 * @property {boolean} playing true while it sounds
 * @property {boolean} failed true if the sound could not be loaded
 * @property {Record<string, Volume>} volumes
 * @property {() => { index: number, frame: number }} position the line, and frames since the start of its count-in
 * @property {(index: number) => Promise<void>} play from the count-in of a line
 * @property {() => void} pause
 * @property {() => Promise<void>} resume
 * @property {() => void} wait holds a rest for as long as it takes
 * @property {(index: number) => Promise<void>} ready counts in the line after it
 * @property {() => void} stop
 */

class Tracks extends EventTarget {
  sampleRate = data.sampleRate;
  /** Index of the take that is played. */
  take = 0;
  key = 0;
  /** @type {Protocol.TimetableLine[]} */
  lines = [];
  /** @type {Record<string, Volume>} */
  volumes = {};
  #players;
  /** @type {HTMLAudioElement} */
  #audio;

  /** @param {HTMLAudioElement[]} players of the takes */
  constructor(players) {
    super();
    this.#players = players;
    for (const audio of players) {
      for (const name of ["play", "pause", "ended", "error"]) {
        audio.addEventListener(name, () => {
          if (audio === this.#audio) this.dispatchEvent(new Event("change"));
        });
      }
    }
    [this.#audio] = players;
    this.choose(0);
    // Some phones leave the volume to their own buttons: what is set there is not kept.
    const [audio] = players;
    audio.volume = 0.5;
    if (audio.volume === 0.5) {
      const set = (/** @type {number} */ value) => players.forEach((player) => (player.volume = value));
      this.volumes.all = { words: "Volume", get: () => audio.volume, set };
    }
    audio.volume = 1;
  }

  /** @param {number} take */
  choose(take) {
    this.#audio.pause();
    this.take = take;
    this.#audio = this.#players[take];
    this.lines = data.takes[take].lines;
    this.key = data.takes[take].key;
  }

  get playing() {
    return !this.#audio.paused && !this.#audio.ended;
  }

  get failed() {
    return this.#audio.error !== null;
  }

  position() {
    const frame = this.#audio.currentTime * this.sampleRate;
    // A jump may land a moment before its line.
    const soon = frame + 0.05 * this.sampleRate;
    const index = Math.max(
      0,
      this.lines.findLastIndex((line) => line.start <= soon),
    );
    return { index, frame: frame - this.lines[index].start };
  }

  /** @param {number} index */
  async play(index) {
    // A player that broke off begins anew.
    if (this.failed) this.#audio.load();
    this.#audio.currentTime = this.lines[index].start / this.sampleRate;
    await this.#audio.play();
  }

  pause() {
    this.#audio.pause();
  }

  async resume() {
    await this.#audio.play();
  }

  wait() {
    this.pause();
  }

  /** @param {number} index */
  ready(index) {
    return this.play(index);
  }

  stop() {
    this.pause();
  }
}
