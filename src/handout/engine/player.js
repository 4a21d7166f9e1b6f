// Plays an opened routine through the engine: lines and rests, one after another, on the clock of the sound device.
//
// Each line and each rest with signs is rendered in chunks, and each chunk begins on the whole frame of the clock where the one before
// ends, so that seams are exact to the frame.
//
// The player says (addEventListener): "state" when its state changes; "late" with { seconds } where the machine was too slow and there
// was a gap of that length; "fault" with { error } when the engine broke down, or there is no sound device: play the tracks.

/** @typedef {"stopped" | "playing" | "paused" | "waiting" | "interrupted" | "ended"} PlayerState */

/**
 * A line or a rest in the queue.
 * @typedef {object} Stretch
 * @property {"line" | "rest"} kind
 * @property {Protocol.Opened} opened
 * @property {number} index of the line, or of the line before the rest
 * @property {number} unit
 * @property {number} frames
 * @property {number | null} start frame of the device's clock; null until it is known
 * @property {number} done frames that are scheduled
 * @property {number} chunks how many were rendered
 * @property {number | null} performance
 * @property {Set<AudioBufferSourceNode>} sources
 * @property {GainNode | null} fader
 * @property {boolean} gone true if it was taken out of the queue
 * @property {number} next after a rest: the line that follows
 * @property {Protocol.Opened} follow after a rest: where that line is from
 */

class Player extends EventTarget {
  /** Seconds that are rendered ahead of what is heard: a tab in the background is woken once a second at best. */
  static AHEAD = 12;

  /** Chunks in seconds, the first short so that it sounds soon. */
  static CHUNKS = [0.2, 0.8, 2];

  #engine;
  /** @type {Sound} */
  #sound;
  /** @type {Protocol.Opened | null} */
  #opened = null;
  /** @type {PlayerState} */
  #state = "stopped";
  /** @type {Stretch[]} What is scheduled, in order; each begins where the one before ends. */
  #queue = [];
  /** The line it stands at, or the one before the rest it stands in. */
  #at = 0;
  /** @type {number | null} The line that ready() counts in, while wait() holds the rest before it. */
  #held = null;
  /** Changes whenever something else is to be played. */
  #session = 0;
  /** @type {Promise<void> | null} */
  #feeding = null;
  /** @type {ReturnType<typeof setInterval> | null} */
  #timer = null;

  /**
   * Makes no sound and asks for nothing yet. It can play into a node of an AudioContext that is given.
   * @param {Engine} engine
   * @param {{ context?: AudioContext, output?: AudioNode }} [given]
   */
  constructor(engine, given = {}) {
    super();
    this.#engine = engine;
    this.#sound = new Sound(engine.sampleRate, given);
    this.#sound.onInterrupted = () => {
      if (this.#state === "playing" || this.#state === "waiting") this.#become("interrupted");
    };
    this.#sound.onRunning = () => {
      if (this.#state !== "interrupted") return;
      this.#become(this.#held === null ? "playing" : "waiting");
      this.#feed();
    };
  }

  get sampleRate() {
    return this.#sound.sampleRate;
  }

  get state() {
    return this.#state;
  }

  get volumes() {
    return this.#sound.volumes;
  }

  /**
   * @param {Voice} voice
   * @param {number} gain 0 to 1, 1 as calibrated
   */
  volume(voice, gain) {
    this.#sound.volume(voice, gain);
  }

  /**
   * What is to be played from now on. While it plays, the line that sounds begins again from its count-in; a rest goes on, and what
   * comes after it is new.
   * @param {Protocol.Opened} opened
   */
  async load(opened) {
    const before = this.#opened;
    const { where, index } = this.position();
    this.#opened = opened;
    if (!before?.lines[index]) {
      this.#at = 0;
      return;
    }
    const { of } = before.lines[index];
    const last = opened.lines.length - 1;
    // The same line of the teacher's, or the first after it that is played.
    const found = opened.lines.findIndex((line) => line.of >= of);
    const same = found >= 0 && opened.lines[found].of === of;
    const next = found < 0 ? last + 1 : same ? found + 1 : found;
    this.#at = found < 0 ? last : same || where !== "rest" ? found : Math.max(found - 1, 0);
    if (this.#held !== null) {
      this.#held = Math.min(next, last);
      return;
    }
    if (where === "rest") {
      const rest = this.#queue.find((one) => one.kind === "rest" && one.opened === before && one.index === index);
      if (rest) {
        this.#drop((one) => one.start !== null && rest.start !== null && one.start > rest.start);
        rest.next = next;
        rest.follow = opened;
        this.#feed();
        return;
      }
    }
    if (this.#state === "playing") return this.#jump(this.#at);
    this.#drop(() => true);
  }

  /**
   * Plays from the count-in of a line; left out, of the line it stands at. The first time it must be called from a tap or a key.
   * Resolves when the first frames are scheduled.
   * @param {number} [index]
   * @returns {Promise<void>}
   */
  async play(index) {
    if (!this.#opened) throw new Error("nothing is loaded");
    const halted = this.#state === "paused" || this.#state === "interrupted";
    if (index === undefined && halted && (this.#queue.length > 0 || this.#held !== null)) return this.resume();
    const wanted = index ?? this.#held ?? this.#at;
    return this.#jump(Math.min(Math.max(wanted, 0), this.#opened.lines.length - 1));
  }

  /** Holds everything where it is. */
  async pause() {
    if (this.#state !== "playing" && this.#state !== "waiting") return;
    await this.#sound.suspend();
    this.#become("paused");
  }

  /**
   * Goes on where it was.
   * @returns {Promise<void>}
   */
  async resume() {
    if (this.#state !== "paused" && this.#state !== "interrupted") return;
    const begun = this.#queue.some(({ start }) => start !== null);
    if (!begun && this.#held === null) return this.play(this.#at);
    if (!(await this.#woken(this.#session))) return;
    this.#become(this.#held === null ? "playing" : "waiting");
    this.#feed();
  }

  /** In a rest, the fade before it included, or while a line after the first is counted in: silence until ready(). */
  wait() {
    if (this.#state !== "playing" || !this.#opened) return false;
    const { where, index, frame } = this.position();
    const { lines } = this.#opened;
    let held;
    if (where === "rest") held = this.#queue.find((one) => one.kind === "rest" && one.index === index)?.next;
    // What a page shows as a rest can be held, even where its clock is early.
    else if (whereIs(lines, index, frame, this.sampleRate).phase === "rest") held = index + 1;
    else if (where === "line" && index > 0 && frame < lines[index].countIn) held = index;
    // After the last rest of a routine that was shortened meanwhile, nothing comes.
    if (held === undefined || held >= lines.length) return false;
    this.#session++;
    this.#drop(() => true);
    this.#held = held;
    this.#at = Math.max(held - 1, 0);
    this.#become("waiting");
    return true;
  }

  /** Counts the next line in, at once. */
  async ready() {
    if (this.#held !== null) return this.#jump(this.#held);
  }

  /** Silence, and the routine is closed; the screen may sleep. */
  stop() {
    this.#session++;
    this.#at = this.position().index;
    this.#held = null;
    this.#drop(() => true);
    this.#sound.suspend();
    this.#become("stopped");
  }

  /**
   * What is heard now, the latency of the speaker taken off. `frame` is that of the unit, not rounded. In a rest, `index` is the line
   * before it and `leftToCount` the seconds to the next count-in, null while it waits.
   * @returns {{ where: "line" | "rest" | null, index: number, frame: number, leftToCount: number | null }}
   */
  position() {
    const here = { index: this.#at, frame: 0, leftToCount: null };
    if (this.#held !== null) return { ...here, where: "rest" };
    if (this.#queue.length === 0) return { ...here, where: null };
    const heard = this.#sound.heard();
    const stretch = this.#queue.findLast(({ start }) => start !== null && start <= heard) ?? this.#queue[0];
    const { kind, index, start, frames } = stretch;
    if (start === null) return { ...here, where: "line", index };
    const frame = Math.min(Math.max(heard - start, 0), frames);
    const leftToCount = kind === "rest" ? (frames - frame) / this.sampleRate : null;
    return { where: kind, index, frame, leftToCount };
  }

  /**
   * False where the system keeps the sound to itself, as during a call, or something else has been asked for meanwhile.
   * @param {number} session
   */
  async #woken(session) {
    // Nothing may be waited for before.
    const waking = this.#sound.wake();
    try {
      await waking;
    } catch {
      if (session === this.#session) this.#become("interrupted");
      return false;
    }
    return session === this.#session;
  }

  /** @param {number} index */
  async #jump(index) {
    const session = ++this.#session;
    const opened = this.#opened;
    if (!opened) return;
    const { asleep } = this.#sound;
    this.#drop(() => true);
    this.#held = null;
    this.#at = index;
    const stretch = this.#line(opened, index);
    this.#queue = [stretch];
    try {
      if (!(await this.#woken(session))) return;
      const chunk = await this.#render(stretch);
      if (session !== this.#session) return;
      // A wireless speaker swallows the first moment after a silence of the device: as much as the track begins with.
      const leadIn = opened.lines[0].start / this.sampleRate;
      this.#schedule(stretch, this.#sound.soon(asleep ? leadIn : 0.02), chunk);
      this.#become("playing");
      if (this.#timer === null) this.#timer = setInterval(() => this.#tick(), 25);
      this.#feed();
    } catch (error) {
      this.#broken(error, session);
    }
  }

  /**
   * @param {unknown} error
   * @param {number} session
   */
  #broken(error, session) {
    if (session !== this.#session) return;
    this.stop();
    this.#say("fault", { error });
  }

  /**
   * @param {Protocol.Opened} opened
   * @param {number} index
   */
  #line(opened, index) {
    return this.#stretch({ kind: "line", opened, index, unit: 2 * index + 1, frames: opened.lines[index].frames });
  }

  /**
   * The rest after a line; none after the last.
   * @param {Protocol.Opened} opened
   * @param {number} index
   */
  #rest(opened, index) {
    const { frames, signs } = opened.lines[index];
    const until = nextCountIn(opened.lines, index);
    if (until === null) return null;
    const rest = this.#stretch({ kind: "rest", opened, index, unit: 2 * index + 2, frames: until - frames });
    // There is nothing to render where no signs are.
    if (!signs) rest.done = rest.frames;
    return rest;
  }

  /**
   * @param {Pick<Stretch, "kind" | "opened" | "index" | "unit" | "frames">} what
   * @returns {Stretch}
   */
  #stretch(what) {
    const scheduled = { start: null, done: 0, chunks: 0, performance: null, sources: new Set(), fader: null, gone: false };
    return { ...what, ...scheduled, next: what.index + 1, follow: what.opened };
  }

  /**
   * The next frames of a stretch; none if it is over.
   * @param {Stretch} stretch
   */
  async #render(stretch) {
    if (stretch.performance === null) {
      const begun = await this.#engine.begin({ opened: stretch.opened.id, unit: stretch.unit });
      if (!begun.ok) throw new Error(begun.problems[0].message);
      stretch.performance = begun.performance;
      if (stretch.gone) this.#end(stretch);
    }
    const seconds = Player.CHUNKS[Math.min(stretch.chunks++, Player.CHUNKS.length - 1)];
    const frames = Math.round(seconds * this.sampleRate);
    return this.#engine.fill({ performance: stretch.performance, frames });
  }

  /**
   * @param {Stretch} stretch
   * @param {number} start frame of the clock at which the stretch begins
   * @param {Protocol.Filled} chunk
   */
  #schedule(stretch, start, chunk) {
    stretch.start = start;
    if (chunk.frames === 0) {
      stretch.done = stretch.frames;
      return;
    }
    const late = this.#sound.soon(0.005) - (start + stretch.done);
    if (late > 0) {
      stretch.start += late;
      this.#say("late", { seconds: late / this.sampleRate });
    }
    stretch.fader ??= this.#sound.fader();
    const source = this.#sound.play(chunk, stretch.start + stretch.done, stretch.fader);
    source.onended = () => {
      stretch.sources.delete(source);
      source.disconnect();
    };
    stretch.sources.add(source);
    stretch.done += chunk.frames;
  }

  /** Renders ahead, once at a time. */
  #feed() {
    if (this.#feeding) return;
    this.#feeding = this.#renderAhead().finally(() => (this.#feeding = null));
  }

  async #renderAhead() {
    const session = this.#session;
    try {
      while (session === this.#session && this.#state === "playing") {
        const stretch = this.#toFeed();
        if (!stretch || stretch.start === null) return;
        if (stretch.done >= stretch.frames) continue;
        const chunk = await this.#render(stretch);
        if (session !== this.#session || stretch.gone) continue;
        this.#schedule(stretch, stretch.start, chunk);
      }
    } catch (error) {
      this.#broken(error, session);
    }
  }

  /** The last stretch of the queue, or a new one after it where that is done; null where enough is rendered. */
  #toFeed() {
    const last = this.#queue.at(-1);
    if (!last || last.start === null) return null;
    const ahead = last.start + last.done - this.#sound.soon(0);
    if (ahead > Player.AHEAD * this.sampleRate) return null;
    if (last.done < last.frames) return last;
    const following = this.#following(last);
    if (!following) return null;
    following.start = last.start + last.frames;
    this.#queue.push(following);
    return following;
  }

  /** @param {Stretch} stretch */
  #following({ kind, opened, index, next, follow }) {
    if (kind === "line") return this.#rest(opened, index);
    return next < follow.lines.length ? this.#line(follow, next) : null;
  }

  /**
   * Takes stretches out of the queue; what sounds of them is faded.
   * @param {(stretch: Stretch) => boolean} which
   */
  #drop(which) {
    const gone = this.#queue.filter(which);
    this.#queue = this.#queue.filter((stretch) => !gone.includes(stretch));
    for (const stretch of gone) {
      stretch.gone = true;
      this.#sound.fade(stretch.fader, stretch.sources);
      this.#end(stretch);
    }
  }

  /**
   * Lets the engine forget what is not played out.
   * @param {Stretch | undefined} stretch
   */
  #end(stretch) {
    const performance = stretch?.performance ?? null;
    // A broken engine has forgotten it already.
    if (performance !== null) this.#engine.end({ performance }).catch(() => {});
  }

  #tick() {
    if (this.#state !== "playing") return;
    this.#feed();
    const heard = this.#sound.heard();
    const last = this.#queue.at(-1);
    const over = last && last.start !== null && last.done >= last.frames && heard >= last.start + last.frames;
    if (over && !this.#following(last)) {
      this.#queue = [];
      this.#at = 0;
      this.#sound.suspend();
      this.#become("ended");
      return;
    }
    const begun = (/** @type {Stretch | undefined} */ stretch) => stretch && stretch.start !== null && stretch.start <= heard;
    while (begun(this.#queue[1])) this.#end(this.#queue.shift());
    if (begun(this.#queue[0])) this.#at = this.#queue[0].index;
  }

  /** @param {PlayerState} state */
  #become(state) {
    if (state === this.#state) return;
    this.#state = state;
    if ("mediaSession" in navigator) {
      const sounding = state === "playing" || state === "waiting";
      navigator.mediaSession.playbackState = state === "stopped" || state === "ended" ? "none" : sounding ? "playing" : "paused";
    }
    this.#say("state", { state });
  }

  /**
   * @param {string} what
   * @param {object} detail
   */
  #say(what, detail) {
    this.dispatchEvent(new CustomEvent(what, { detail }));
  }
}
