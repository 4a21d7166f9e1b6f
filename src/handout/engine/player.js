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

  /** How often in a row the engine may keep still before it counts as broken. */
  static TRIES = 2;

  /** Seconds before its end in which a loop can no longer be left. */
  static TOO_LATE = 0.25;

  #chunks;
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
  /** @type {Loop | null} What is repeated. */
  #loop = null;
  #turns = new Turns();
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
    this.#chunks = new Chunks(engine);
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
   * @param {boolean} [later] in a loop: not before what is played has been played to its end
   */
  load(opened, later = false) {
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
    const { at, next, same } = foundAgain(before.lines[index], opened.lines, Boolean(resting));
    this.#at = { index: at, pass: same ? Math.min(pass, opened.lines[at].passes.length - 1) : 0 };
    if (this.#loop && !(same && holdsLoop(opened.lines[at], this.#loop))) this.#setLoop(null);
    if (this.state === "waiting") this.#held = Math.min(next, opened.lines.length - 1);
    else if (later && this.#finishTurn()) return;
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
    this.#setLoop(null);
    this.send("play");
  }

  /** What is repeated; null where nothing is. */
  get repeated() {
    return this.#loop;
  }

  /**
   * Plays a part of a line again and again, each time after a bar of count-in.
   * @param {Loop} loop
   */
  loop(loop) {
    const index = this.#opened?.lines.findIndex(({ of, rung }) => of === loop.of && rung === loop.rung) ?? -1;
    if (!holdsLoop(this.#opened?.lines[index], loop)) return false;
    this.#at = { index, pass: loop.pass };
    this.#setLoop(loop);
    return this.send("loop");
  }

  /** What is repeated is played to its end, and the line goes on from there. */
  onward() {
    if (this.#loop) this.send("onward");
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
    if (!this.#opened || this.#loop || this.state === "waiting") return false;
    const next = nextToHold(this.position(), this.#queue, this.#opened.lines, this.sampleRate);
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
   * What is heard now, the latency of the speaker taken off.
   * @returns {Moment}
   */
  position() {
    const here = { ...this.#at, frame: 0, leftToCount: null, toMusic: null, lines: this.#opened?.lines ?? [] };
    if (this.state === "waiting") return { ...here, where: "rest" };
    if (this.#queue.length === 0) return { ...here, where: null };
    const heard = this.#sound.heard();
    const stretch = this.#soundingAt(heard);
    return { ...here, ...heardOf(stretch, heard, this.sampleRate) };
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
      leave: () => this.#leave(),
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

  /** @param {Loop | null} loop */
  #setLoop(loop) {
    if (loop === this.#loop) return;
    this.#loop = loop;
    this.#say("loop", { loop });
  }

  /**
   * The stretch that is heard at a frame of the clock.
   * @param {number} frame
   */
  #soundingAt(frame) {
    return this.#queue.findLast(({ start }) => start !== null && start <= frame) ?? this.#queue[0];
  }

  /**
   * Drops what comes after the loop that is heard at a frame, and gives the last stretch that stays.
   * @param {number} frame
   */
  #onlyTurnAt(frame) {
    const { turn } = this.#soundingAt(frame);
    const first = this.#queue.findIndex((one) => one.turn === turn);
    this.#drop((one) => one.turn !== turn && this.#queue.indexOf(one) > first);
    const last = this.#queue[this.#queue.length - 1];
    this.#sound.sustain(last.fader);
    return last;
  }

  /** True where the music of a loop sounds: it is played to its end before anything else. */
  #finishTurn() {
    const soon = this.#sound.soon(Player.TOO_LATE);
    if (this.state !== "playing" || !this.#loop || this.position().toMusic !== null) return false;
    const { turn, kind } = this.#soundingAt(soon);
    if (!turn || kind === "count") return false;
    this.#onlyTurnAt(soon);
    this.#feed();
    return true;
  }

  /** The loop is left at its end; where that is too near, at the next one. */
  #leave() {
    this.#setLoop(null);
    const soon = this.#sound.soon(Player.TOO_LATE);
    if (!this.#soundingAt(soon)?.turn) return;
    const last = this.#onlyTurnAt(soon);
    if (isLastOfTurn(last) && (last.start ?? Infinity) + last.frames - last.tail > soon) cutTail(last);
    this.#feed();
  }

  /**
   * What comes after a stretch; null after the last line.
   * @param {Stretch} last
   */
  #next(last) {
    const { turn } = last;
    if (!turn) return following(last);
    const within = turn.parts[turn.parts.indexOf(last) + 1];
    if (within) return within;
    if (turn.loop === this.#loop) return this.#turns.next(this.#opened, this.#at.index, this.#loop);
    return this.#opened ? afterLoop(this.#opened, last) : null;
  }

  #clear() {
    this.#session++;
    this.#drop(() => true);
  }

  /** @param {{ index: number, pass: number }} at */
  #silence({ index, pass }) {
    this.#clear();
    this.#setLoop(null);
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
    const stretch = this.#turns.next(opened, at.index, this.#loop) ?? countedIn(opened, at.index, at.pass);
    this.#queue = [stretch];
    this.#begins();
    try {
      if (!(await this.#woken(session))) return;
      const chunk = await this.#chunks.next(stretch, this.sampleRate);
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
    stretch.fader ??= this.#sound.fader(stretch.from > 0 && !stretch.joined && !stretch.turn ? stretch.start : null);
    const source = this.#sound.play(chunk, stretch.start + stretch.done, stretch.fader);
    source.onended = () => {
      stretch.sources.delete(source);
      source.disconnect();
    };
    stretch.sources.add(source);
    stretch.done += chunk.frames;
    if (stretch.done >= stretch.frames - stretch.tail) stretch.done = stretch.frames;
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
        const chunk = await this.#chunks.next(stretch, this.sampleRate);
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
    const next = this.#next(last);
    if (!next) return null;
    next.start = last.start + last.frames;
    if (last.turn && !next.joined) this.#sound.fall(last.fader, next.start - last.tail);
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
      this.#chunks.end(stretch);
    }
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
    if (over && !this.#next(last)) {
      this.send("over");
      return;
    }
    const begun = (/** @type {Stretch | undefined} */ stretch) => stretch && stretch.start !== null && stretch.start <= heard;
    while (begun(this.#queue[1])) this.#chunks.end(this.#queue.shift());
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
