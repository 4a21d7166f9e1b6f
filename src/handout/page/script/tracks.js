// Plays finished tracks.

/**
 * Something that can be made softer, with words for its slider.
 * @typedef {{ words: string, get: () => number, set: (value: number) => void }} Volume
 */

/**
 * What plays, tracks or the engine, by the table of states.js. It says "state" when its state changes.
 * @typedef {object} PlayerOfPage
 * @property {Protocol.TimetableLine[]} lines
 * @property {number} sampleRate of the frames of `lines`
 * @property {number} key
 * @property {PlayerState} state
 * @property {"device" | "engine" | "network"} cause what keeps still while it is `silent`
 * @property {Record<string, Volume>} volumes
 * @property {() => Heard} position
 * @property {(index: number) => void} play from the count-in of a line
 * @property {() => void} go goes on
 * @property {() => void} pause
 * @property {() => boolean} hold holds a rest for as long as it takes; false where there is none
 * @property {() => void} stop
 */

/**
 * The line, and frames since the start of its count-in. `pass` says which pass is counted in, where the line's own count-in is played
 * for a later one. `counted` is what a loop counts in: so many frames are left until that moment of a pass.
 * @typedef {{ index: number, frame: number, pass?: number, counted?: { left: number, pass: number, moment: number } }} Heard
 */

class Tracks extends ByTable {
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
  /** What was asked for. */
  #index = 0;
  /** The line that follows the rest that is held. */
  #held = 0;
  /** @type {"device" | "network"} */
  cause = "network";
  #watch = new Watch();
  /** @type {ReturnType<typeof setInterval> | null} */
  #timer = null;
  /** True while we let it stand ourselves. */
  #still = true;

  /** @param {HTMLAudioElement[]} players of the takes */
  constructor(players) {
    super();
    this.#players = players;
    for (const audio of players) {
      audio.addEventListener("pause", () => audio === this.#audio && this.#stopped());
      audio.addEventListener("playing", () => audio === this.#audio && this.state === "interrupted" && this.send("back"));
      audio.addEventListener("ended", () => audio === this.#audio && this.send("over"));
      audio.addEventListener("error", () => audio === this.#audio && this.#quiet("network"));
    }
    [this.#audio] = players;
    this.choose(0);
    // Some phones leave the volume to their own buttons: what is set there is not kept.
    const [audio] = players;
    audio.volume = 0.5;
    if (audio.volume === 0.5) {
      const set = (/** @type {number} */ value) => players.forEach((player) => (player.volume = value));
      this.volumes.all = { words: phrase("volume"), get: () => audio.volume, set };
    }
    audio.volume = 1;
  }

  /** Fetches the beginnings of the tracks: where the engine plays, nothing of them is needed. */
  fetch() {
    for (const audio of this.#players) audio.preload = "metadata";
  }

  /** @param {number} take */
  choose(take) {
    this.stop();
    this.take = take;
    this.#audio = this.#players[take];
    this.lines = data.takes[take].lines;
    this.key = data.takes[take].key;
    this.#index = 0;
  }

  /** @returns {Heard} */
  position() {
    if (this.state === "ended") return { index: this.lines.length - 1, frame: Infinity };
    if (this.state === "waiting") return { index: this.#held - 1, frame: this.lines[this.#held - 1].barLine };
    const frame = this.#audio.currentTime * this.sampleRate;
    // A jump may land a moment before its line.
    const soon = frame + 0.05 * this.sampleRate;
    let index = 0;
    while (this.lines[index + 1]?.start <= soon) index++;
    return { index, frame: frame - this.lines[index].start };
  }

  /** @param {number} index */
  play(index) {
    this.#index = index;
    this.send("play");
  }

  go() {
    this.send("go");
  }

  pause() {
    this.send("pause");
  }

  hold() {
    const { index, frame } = this.position();
    const { phase } = whereIs(this.lines, index, frame, this.sampleRate);
    const counted = phase === "count" && frame < this.lines[index].countIn;
    const next = phase === "rest" ? index + 1 : counted && index > 0 ? index : null;
    if (next === null) return false;
    const before = this.#held;
    this.#held = next;
    if (this.send("hold")) return true;
    this.#held = before;
    return false;
  }

  stop() {
    this.send("close");
  }

  /** @returns {Record<PlayerDeed, () => void>} */
  get deeds() {
    const sleep = () => this.#sleep();
    return {
      countIn: () => this.#from(this.#index),
      again: () => this.#again(),
      goOn: () => this.#play(),
      fromHold: () => this.#from(this.#held),
      fromTop: () => this.#from(0),
      sleep,
      hold: sleep,
      forget: () => {},
      leave: () => {},
      silence: sleep,
      finish: sleep,
      tell: sleep,
      nothing: () => {},
    };
  }

  /** A player that broke off begins anew. */
  #again() {
    const { index } = this.position();
    if (this.#audio.error) this.#audio.load();
    else this.#index = index;
    this.#from(this.#index);
  }

  /** @param {number} index */
  #from(index) {
    this.#index = index;
    if (this.#audio.error) this.#audio.load();
    this.#audio.currentTime = this.lines[index].start / this.sampleRate;
    this.#play();
  }

  #play() {
    this.#still = false;
    this.#watch.begin(this.#audio.currentTime);
    if (this.#timer === null) this.#timer = setInterval(() => this.#tick(), 100);
    this.#audio.play().catch(({ name }) => {
      // A later touch has taken its place, which is as it should be.
      if (name !== "AbortError") this.#quiet(this.#audio.error ? "network" : "device");
    });
  }

  #sleep() {
    this.#still = true;
    this.#audio.pause();
  }

  /** Not by us: headphones pulled, a call, or another player of the page. */
  #stopped() {
    if (!this.#still && !this.#audio.ended) this.send("lost");
  }

  /** @param {"device" | "network"} cause */
  #quiet(cause) {
    this.cause = cause;
    this.send("quiet");
  }

  #tick() {
    if (this.#still) return;
    const { currentTime, readyState, HAVE_FUTURE_DATA } = this.#audio;
    this.#watch.look(currentTime);
    const { still, waited, runs } = this.#watch;
    const cause = readyState < HAVE_FUTURE_DATA ? "network" : "device";
    if (this.state === "playing") {
      if (still > PATIENCE && !this.#audio.ended) this.#quiet(cause);
    } else if (runs && still === 0) this.send("sounds");
    else if (waited > PATIENCE && this.state === "starting") this.#quiet(cause);
  }
}
