// Plays an opened routine through the engine: lines and rests, one after another, on the clock of the sound device.
//
// Each line and each rest with signs is rendered in chunks, and each chunk begins on the whole frame of the clock where the one before
// ends, so that seams are exact to the frame. states.js says what it does when.
//
// The player says (addEventListener): "state" when its state changes; "late" with { seconds } where the machine was too slow and there
// was a gap of that length; "fault" with { error } when the engine broke down: play the tracks.

class Player extends ByTable {
  /** Seconds that are rendered ahead of what is heard: a tab in the background is woken once a second at best. */
  static AHEAD = 12;

  /** Chunks in seconds, the first short so that it sounds soon. */
  static CHUNKS = [0.2, 0.8, 2];

  /** How often in a row the engine may keep still before it counts as broken. */
  static TRIES = 2;

  #engine;
  /** @type {Sound} */
  #sound;
  /** @type {Protocol.Opened | null} */
  #opened = null;
  /** @type {Stretch[]} What is scheduled, in order; each begins where the one before ends. */
  #queue = [];
  /** Where it stands, or what was asked for: a line and its pass. In a rest it is the line before. */
  #at = { index: 0, pass: 0 };
  /** The line that is counted in after the rest that is held. */
  #held = 0;
  /** Changes whenever something else is to be played. */
  #session = 0;
  /** @type {Promise<void> | null} */
  #feeding = null;
  /** @type {ReturnType<typeof setInterval> | null} */
  #timer = null;
  #watch = new Watch();
  /** @type {"device" | "engine"} What keeps still, in `silent`. */
  #cause = "device";
  #tries = 0;
  /** @type {unknown} */
  #error = null;

  /**
   * Makes no sound and asks for nothing yet. It can play into a node of an AudioContext that is given.
   * @param {Engine} engine
   * @param {{ context?: AudioContext, output?: AudioNode }} [given]
   */
  constructor(engine, given = {}) {
    super();
    this.#engine = engine;
    this.#sound = new Sound(engine.sampleRate, given);
    this.#sound.onInterrupted = () => this.send("lost");
    this.#sound.onRunning = () => this.send("back");
    this.#sound.onGone = () => this.#quiet("device");
  }

  get sampleRate() {
    return this.#sound.sampleRate;
  }

  /** What keeps still while it is `silent`. */
  get cause() {
    return this.#cause;
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
   * What is to be played from now on. While it plays, the pass that sounds begins again from a count-in; a rest goes on, and what comes
   * after it is new.
   * @param {Protocol.Opened} opened
   */
  load(opened) {
    const before = this.#opened;
    const { where, index, pass, frame } = this.position();
    // The fade of a line is shown as the rest that it is.
    const resting =
      where === "rest" || (where && before && whereIs(before.lines, index, frame, this.sampleRate).phase === "rest");
    this.#opened = opened;
    if (!before?.lines[index]) {
      this.#at = { index: 0, pass: 0 };
      return;
    }
    const { of } = before.lines[index];
    const last = opened.lines.length - 1;
    // The same line of the teacher's, or the first after it that is played.
    const found = opened.lines.findIndex((line) => line.of >= of);
    const same = found >= 0 && opened.lines[found].of === of;
    const next = found < 0 ? last + 1 : same ? found + 1 : found;
    const at = found < 0 ? last : same || !resting ? found : Math.max(found - 1, 0);
    this.#at = { index: at, pass: same ? Math.min(pass, opened.lines[at].passes.length - 1) : 0 };
    if (this.state === "waiting") this.#held = Math.min(next, last);
    else if (!resting || !this.#followRest(before, index, next)) this.send("change");
  }

  /**
   * Plays from the count-in of a line, or of one of its passes; left out, of where it stands. The first time it must be called from a
   * tap or a key.
   * @param {number} [index]
   * @param {number} [pass]
   */
  play(index, pass = 0) {
    if (!this.#opened) throw new Error("nothing is loaded");
    if (index !== undefined) this.#at = { index: Math.min(Math.max(index, 0), this.#opened.lines.length - 1), pass };
    this.send("play");
  }

  /** Goes on: where it was, after a rest that is held, from the top after the end. */
  go() {
    if (this.#opened) this.send("go");
  }

  /** Holds everything where it is. */
  pause() {
    this.send("pause");
  }

  /** In a rest, the fade before it included, or while a line after the first is counted in: silence until it is to go on. */
  hold() {
    const next = this.#nextAfterRest();
    if (next === null) return false;
    const { index, pass } = this.#at;
    this.#held = next;
    this.#at = { index: Math.max(next - 1, 0), pass: 0 };
    if (this.send("hold")) return true;
    this.#at = { index, pass };
    return false;
  }

  /** Silence, and the routine is closed; the screen may sleep. */
  stop() {
    this.send("close");
  }

  /**
   * What is heard now, the latency of the speaker taken off. `frame` is that of the unit, not rounded; while a pass after the first is
   * counted in by the line's own count-in it is a frame of that, so `pass` says which. In a rest, `index` is the line before it and
   * `leftToCount` the seconds to the next count-in, null while it waits.
   * @returns {{ where: "line" | "rest" | null, index: number, pass: number, frame: number, leftToCount: number | null }}
   */
  position() {
    const here = { ...this.#at, frame: 0, leftToCount: null };
    if (this.state === "waiting") return { ...here, where: "rest" };
    if (this.#queue.length === 0) return { ...here, where: null };
    const heard = this.#sound.heard();
    const stretch = this.#queue.findLast(({ start }) => start !== null && start <= heard) ?? this.#queue[0];
    const { kind, opened, index, start, from, frames } = stretch;
    const gone = start === null ? 0 : Math.min(Math.max(heard - start, 0), frames);
    if (kind === "rest") return { where: kind, index, pass: 0, frame: gone, leftToCount: (frames - gone) / this.sampleRate };
    const frame = from + gone;
    const pass = kind === "count" ? stretch.pass : passAt(opened.lines[index], frame);
    return { where: "line", index, pass, frame, leftToCount: null };
  }

  /** @returns {Record<PlayerDeed, () => void>} */
  get deeds() {
    return {
      countIn: () => this.#jump(),
      again: () => this.#again(),
      goOn: () => this.#goOn(),
      fromHold: () => this.#jump({ index: this.#held, pass: 0 }),
      fromTop: () => this.#jump({ index: 0, pass: 0 }),
      sleep: () => this.#sound.suspend(),
      hold: () => {
        this.#clear();
        this.#sound.hush();
      },
      forget: () => this.#clear(),
      silence: () => this.#silence(this.position()),
      finish: () => this.#silence({ index: 0, pass: 0 }),
      tell: () => {
        this.#silence(this.position());
        this.#say("fault", { error: this.#error });
      },
      nothing: () => {},
    };
  }

  /**
   * The line that a rest at this place would be held before; null where there is no rest to hold.
   */
  #nextAfterRest() {
    if (!this.#opened || this.state === "waiting") return null;
    const { where, index, frame } = this.position();
    const { lines } = this.#opened;
    let next = null;
    if (where === "rest") next = this.#queue.find((one) => one.kind === "rest" && one.index === index)?.next ?? null;
    // What a page shows as a rest can be held, even where its clock is early.
    else if (where && whereIs(lines, index, frame, this.sampleRate).phase === "rest") next = index + 1;
    else if (where === "line" && index > 0 && frame < lines[index].countIn) next = index;
    // After the last rest of a routine that was shortened meanwhile, nothing comes.
    return next === null || next >= lines.length ? null : next;
  }

  /**
   * A rest that was begun goes on, and another line follows. False if it is no longer in the queue.
   * @param {Protocol.Opened} before
   * @param {number} index
   * @param {number} next
   */
  #followRest(before, index, next) {
    const rest = this.#queue.find((one) => one.kind === "rest" && one.opened === before && one.index === index);
    if (!rest || !this.#opened) return false;
    this.#drop((one) => one.start !== null && rest.start !== null && one.start > rest.start);
    rest.next = next;
    rest.follow = this.#opened;
    this.#feed();
    return true;
  }

  #clear() {
    this.#session++;
    this.#drop(() => true);
  }

  /** @param {{ index: number, pass: number }} at */
  #silence({ index, pass }) {
    this.#clear();
    this.#at = { index, pass };
    this.#sound.suspend();
  }

  #again() {
    if (this.#cause === "device") this.#sound.renew();
    this.#jump();
  }

  #goOn() {
    if (this.#queue.some(({ start }) => start !== null)) {
      this.#begins();
      this.#woken(this.#session);
    } else this.#jump();
  }

  /** Something is to be heard soon: it is watched that it is. */
  #begins() {
    this.#watch.begin(this.#sound.now());
    if (this.#timer === null) this.#timer = setInterval(() => this.#tick(), 25);
  }

  /**
   * False where the system keeps the sound to itself, as during a call, or something else has been asked for meanwhile.
   * @param {number} session
   */
  async #woken(session) {
    try {
      // Nothing may be waited for before.
      await this.#sound.wake();
    } catch {
      if (session === this.#session) this.#quiet("device");
      return false;
    }
    return session === this.#session;
  }

  async #jump(at = this.#at) {
    const session = ++this.#session;
    const opened = this.#opened;
    if (!opened) return;
    const { asleep } = this.#sound;
    this.#drop(() => true);
    this.#at = { ...at };
    const stretch = countedIn(opened, at.index, at.pass);
    this.#queue = [stretch];
    this.#begins();
    try {
      if (!(await this.#woken(session))) return;
      const chunk = await this.#render(stretch);
      if (session !== this.#session) return;
      // A wireless speaker swallows the first moment after a silence of the device: as much as the track begins with.
      const leadIn = opened.lines[0].start / this.sampleRate;
      this.#schedule(stretch, this.#sound.soon(asleep ? leadIn : 0.02), chunk);
      this.#tries = 0;
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
    this.#error = error;
    this.send("broken");
  }

  /** @param {"device" | "engine"} cause */
  #quiet(cause) {
    if (this.state === "silent") return;
    if (cause === "engine" && ++this.#tries > Player.TRIES) {
      return this.#broken(new EngineBroken("the engine does not answer"), this.#session);
    }
    this.#cause = cause;
    this.#watch.begin(this.#sound.now());
    this.send("quiet");
  }

  /**
   * The next frames of a stretch; none if it is over.
   * @param {Stretch} stretch
   * @returns {Promise<Protocol.Filled>}
   */
  async #render(stretch) {
    if (stretch.performance === null) {
      const begun = await this.#engine.begin({ opened: stretch.opened.id, unit: stretch.unit, from: stretch.from });
      if (!begun.ok) throw new Error(begun.problems[0].message);
      stretch.performance = begun.performance;
      // It begins on a whole block.
      stretch.early = stretch.from - begun.from;
      if (stretch.gone) this.#end(stretch);
    }
    const { early } = stretch;
    const seconds = Player.CHUNKS[Math.min(stretch.chunks++, Player.CHUNKS.length - 1)];
    const frames = Math.round(seconds * this.sampleRate) + early;
    const filled = await this.#engine.fill({ performance: stretch.performance, frames });
    stretch.early = 0;
    const wanted = Math.min(filled.frames - early, stretch.frames - stretch.done);
    if (early === 0 && wanted === filled.frames) return filled;
    const { guide, click, drone } = filled;
    const cut = (/** @type {Float32Array<ArrayBuffer>} */ voice) => voice.subarray(early, early + wanted);
    return { ...filled, frames: wanted, guide: cut(guide), click: cut(click), drone: cut(drone) };
  }

  /**
   * @param {Stretch} stretch
   * @param {number} start frame of the clock at which the stretch begins
   * @param {Protocol.Filled} chunk
   */
  #schedule(stretch, start, chunk) {
    stretch.start = start;
    if (chunk.frames <= 0) {
      stretch.done = stretch.frames;
      return;
    }
    const late = this.#sound.soon(0.005) - (start + stretch.done);
    if (late > 0) {
      stretch.start += late;
      this.#say("late", { seconds: late / this.sampleRate });
    }
    // In the middle of a line something may sound already: it comes in within a few milliseconds.
    stretch.fader ??= this.#sound.fader(stretch.from > 0 ? stretch.start : null);
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

  get #running() {
    return this.state === "playing" || this.state === "starting" || this.state === "silent";
  }

  async #renderAhead() {
    const session = this.#session;
    try {
      while (session === this.#session && this.#running) {
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
    const next = following(last);
    if (!next) return null;
    next.start = last.start + last.frames;
    this.#queue.push(next);
    return next;
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
    if (!this.#running) return;
    const watch = this.#watch;
    watch.look(this.#sound.now());
    const last = this.#queue.at(-1);
    const first = this.#queue[0]?.start ?? null;
    // Frames for which nothing has been there to be heard.
    const dry = last && last.start !== null && last.done < last.frames ? this.#sound.soon(0) - last.start - last.done : 0;
    if (this.state !== "playing") {
      if (first !== null && watch.runs && dry <= 0) this.send("sounds");
      else if (watch.waited > PATIENCE) this.#quiet(this.#sound.asleep || first !== null ? "device" : "engine");
    } else if (watch.still > PATIENCE) this.#quiet("device");
    else if (dry * 1000 > PATIENCE * this.sampleRate) this.#quiet("engine");
    else this.#follow();
  }

  /** What is heard by now. */
  #follow() {
    this.#feed();
    const heard = this.#sound.heard();
    const last = this.#queue.at(-1);
    const over = last && last.start !== null && last.done >= last.frames && heard >= last.start + last.frames;
    if (over && !following(last)) {
      this.send("over");
      return;
    }
    const begun = (/** @type {Stretch | undefined} */ stretch) => stretch && stretch.start !== null && stretch.start <= heard;
    while (begun(this.#queue[1])) this.#end(this.#queue.shift());
    if (begun(this.#queue[0])) this.#at = { index: this.#queue[0].index, pass: this.#queue[0].pass };
  }

  /**
   * @param {string} what
   * @param {object} detail
   */
  #say(what, detail) {
    this.dispatchEvent(new CustomEvent(what, { detail }));
  }
}
