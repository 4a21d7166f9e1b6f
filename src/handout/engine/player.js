// Plays an opened routine through the engine: lines and rests, one after another, on the clock of an AudioContext.
//
//   const player = new Player(engine);                        makes no sound and asks for nothing yet. Options: { session: false } leaves
//                                                             what the lock screen shows and its buttons to the page; with { context,
//                                                             output } it plays into a node of an AudioContext of the page's
//   player.load(await engine.open({ ..., sampleRate: player.sampleRate }));
//   button.onclick = () => player.play(0);                    from a tap or a key, the first time: browsers want that
//
// WHAT IT DOES
//   load(opened)     what is to be played from now on. While it plays: the line that sounds begins again from its count-in with what is new;
//                    in a rest, the rest goes on and what comes after it is new. So a tempo changed is heard at once.
//   play(index)      from that line's count-in; left out, the line it stands at. Resolves when its first frames are scheduled.
//   pause(), resume()    holds everything where it is, and goes on
//   wait()           in a rest, or while it counts in: the rest goes on until ready(), in silence
//   ready()          counts the next line in, at once
//   next(), previous(), again()     from the count-in of the line after, before (in the first: it again), or once more. In a rest, again() is the
//                    line before the rest, next() the one after it, at once.
//   stop()           silence, and the routine is closed; the screen may sleep
//   volume(voice, gain)  voice: "guide", "click", "drone"; gain: 0 to 1, 1 as calibrated
//   volumes          { guide, click, drone }
//   state            "stopped", "playing", "paused", "waiting" (wait() holds the rest), "interrupted" (a call, an alarm, headphones
//                    pulled: resume() goes on, or the browser does by itself), "ended"
//   position()       what is heard now, latency of the speaker taken off: { state, where: "line" | "rest" | null, index, frame,
//                    frames, left, total }. index: in opened.lines, of the line, or the line before the rest. frame: in its unit, not
//                    rounded, for a place mark between two notes. In a rest: left, seconds to the first note, and
//                    leftToCount, to the count-in; total, seconds of the whole rest. null while waiting.
//   close()          gives the sound device back
//
// WHAT IT SAYS (addEventListener; details in event.detail). Each is told once, when it is heard.
//   "state" { state }
//   "line"  { index, line }           its count-in begins
//   "beat"  { index, beat, beats, countIn, last }     beats: in the bar; last: the last beat of the count-in, "breathe"
//   "note"  { index, pass, turn, note }     note: null where none sounds; turn: true in the pupil's turn of an echo
//   "rest"  { index, next, left, leftToCount, total }     at its beginning and at each whole second
//   "late"  { seconds }               the machine was too slow, and there was a gap of that length
//   "fault" { error }                 the engine broke down, or there is no sound device: play the tracks
//
// HOW. Each line is rendered in chunks and each chunk is an AudioBuffer of three channels (guide, click, drone) that begins on a
// whole frame of the context's clock, right where the one before ends: so seams are exact to the frame. Volumes are gains after it. Media
// Session needs a sounding media element beside an AudioContext: a silent one, which on phones also lifts the silent switch.

class Player extends EventTarget {
  /** At this rate the command line's tracks are made, and every browser resamples it to what its device has. */
  static SAMPLE_RATE = 44100;

  /** Seconds that are rendered ahead of what is heard: a tab in the background is woken once a second at best. */
  static AHEAD = 12;

  /** Chunks in seconds, the first short so that it sounds soon. */
  static CHUNKS = [0.2, 0.8, 2];

  #engine;
  #context = null;
  #splitter;
  #gains = {};
  #volumes = { guide: 1, click: 1, drone: 1 };
  #opened = null;
  #state = "stopped";
  /** Scheduled stretches in order; each begins where the one before ends. */
  #queue = [];
  /** The line it stands at, or the one before the rest it stands in. */
  #at = 0;
  /** The line that ready() counts in, while wait() holds the rest before it. */
  #held = null;
  #session = 0;
  #feeding = null;
  #timer = null;
  #told = {};
  #keeper = null;
  #pausing = false;
  #controls;

  constructor(engine, { context = null, output = context?.destination, session = true } = {}) {
    super();
    this.#engine = engine;
    this.#controls = session;
    if (context) this.#attach(context, output);
  }

  get sampleRate() {
    return this.#context?.sampleRate ?? Player.SAMPLE_RATE;
  }

  get state() {
    return this.#state;
  }

  get volumes() {
    return { ...this.#volumes };
  }

  get context() {
    return this.#context;
  }

  get opened() {
    return this.#opened;
  }

  load(opened) {
    const before = this.#opened;
    const { where, index } = this.position();
    const here = before?.lines[index];
    this.#opened = opened;
    if (!here) {
      this.#at = 0;
      return Promise.resolve();
    }
    // The same line of the teacher's, or the first after it that is played.
    const found = opened.lines.findIndex((line) => line.of >= here.of);
    const same = found >= 0 && opened.lines[found].of === here.of;
    const last = opened.lines.length - 1;
    const next = found < 0 ? last + 1 : same ? found + 1 : found;
    this.#at = found < 0 ? last : same || where !== "rest" ? found : Math.max(found - 1, 0);
    if (this.#held !== null) {
      this.#held = Math.min(next, last);
      return Promise.resolve();
    }
    if (where === "rest") {
      const rest = this.#queue.find((stretch) => stretch.kind === "rest" && stretch.opened === before && stretch.index === index);
      if (rest) {
        this.#drop((stretch) => stretch.start > rest.start);
        rest.next = next;
        rest.follow = opened;
        this.#feed();
        return Promise.resolve();
      }
    }
    if (this.#state === "playing") return this.#jump(this.#at);
    this.#drop(() => true);
    return Promise.resolve();
  }

  play(index) {
    if (!this.#opened) return Promise.reject(new Error("nothing is loaded"));
    const halted = this.#state === "paused" || this.#state === "interrupted";
    if (index === undefined && halted && (this.#queue.length > 0 || this.#held !== null)) return this.resume();
    const wanted = index ?? this.#held ?? this.#at;
    return this.#jump(Math.min(Math.max(wanted, 0), this.#opened.lines.length - 1));
  }

  async pause() {
    if (this.#state !== "playing" && this.#state !== "waiting") return;
    this.#pausing = true;
    this.#keeper?.pause();
    await this.#context.suspend();
    this.#become("paused");
  }

  async resume() {
    if (this.#state !== "paused" && this.#state !== "interrupted") return;
    const begun = this.#queue.some(({ start }) => start !== null);
    if (!begun && this.#held === null) return this.play(this.#at);
    if (!(await this.#woken(this.#session))) return;
    this.#become(this.#held === null ? "playing" : "waiting");
    this.#feed();
  }

  wait() {
    if (this.#state !== "playing") return false;
    const { where, index, frame } = this.position();
    let held;
    if (where === "rest") held = this.#queue.find((stretch) => stretch.kind === "rest" && stretch.index === index).next;
    else if (where === "line" && index > 0 && frame < this.#opened.lines[index].countIn) held = index;
    else return false;
    // After the last rest of a routine that was shortened meanwhile, nothing comes.
    if (held >= this.#opened.lines.length) return false;
    this.#session++;
    this.#drop(() => true);
    this.#held = held;
    this.#at = Math.max(held - 1, 0);
    this.#become("waiting");
    return true;
  }

  ready() {
    return this.#held === null ? Promise.resolve() : this.#jump(this.#held);
  }

  next() {
    return this.play(this.#held ?? this.#here() + 1);
  }

  previous() {
    return this.play(this.#here() - 1);
  }

  again() {
    return this.play(this.#here());
  }

  stop() {
    this.#session++;
    this.#at = this.#here();
    this.#held = null;
    this.#drop(() => true);
    this.#pausing = true;
    this.#keeper?.pause();
    this.#context?.suspend();
    this.#become("stopped");
  }

  volume(voice, gain) {
    this.#volumes[voice] = Math.min(Math.max(gain, 0), 1);
    if (this.#context) this.#gains[voice].gain.setTargetAtTime(this.#volumes[voice], this.#context.currentTime, 0.015);
  }

  position() {
    const none = { state: this.#state, where: null, index: this.#at, frame: 0, frames: 0, left: null, leftToCount: null, total: null };
    if (this.#held !== null) return { ...none, where: "rest", total: this.#opened.lines[this.#at].rest?.seconds ?? null };
    if (!this.#context || this.#queue.length === 0) return none;
    const heard = this.#heard();
    const first = this.#queue[0];
    const stretch = this.#queue.findLast(({ start }) => start !== null && start <= heard) ?? first;
    if (stretch.start === null) return { ...none, where: "line", index: stretch.index };
    const frame = Math.min(Math.max(heard - stretch.start, 0), stretch.frames);
    const here = { ...none, where: stretch.kind, index: stretch.index, frame, frames: stretch.frames };
    if (stretch.kind === "line") return here;
    const follow = (stretch.follow ?? stretch.opened).lines[stretch.next];
    const leftToCount = (stretch.frames - frame) / this.sampleRate;
    here.leftToCount = leftToCount;
    here.left = leftToCount + (follow ? follow.countIn / this.sampleRate : 0);
    here.total = (stretch.frames + (follow?.countIn ?? 0)) / this.sampleRate;
    return here;
  }

  async close() {
    this.stop();
    clearInterval(this.#timer);
    this.#timer = null;
    await this.#context?.close();
    this.#context = null;
    if (this.#keeper) URL.revokeObjectURL(this.#keeper.src);
    this.#keeper = null;
  }

  /** The line that next, previous and again go by. */
  #here() {
    return this.position().index;
  }

  /** The frame of the context's clock that is heard now. */
  #heard() {
    const latency = this.#context.outputLatency || this.#context.baseLatency || 0;
    return (this.#context.currentTime - Math.min(latency, 1)) * this.sampleRate;
  }

  #attach(context, output) {
    this.#context = context;
    const splitter = context.createChannelSplitter(3);
    for (const [channel, voice] of ["guide", "click", "drone"].entries()) {
      const gain = context.createGain();
      gain.gain.value = this.#volumes[voice];
      splitter.connect(gain, channel);
      gain.connect(output);
      this.#gains[voice] = gain;
    }
    this.#splitter = splitter;
    context.onstatechange = () => this.#changed();
  }

  /** Called from a tap, with nothing waited for before: only then a browser lets it sound. */
  #wake() {
    if (!this.#context) {
      const latencyHint = "playback";
      const context = new AudioContext({ sampleRate: Player.SAMPLE_RATE, latencyHint });
      this.#attach(context, context.destination);
    }
    this.#pausing = false;
    this.#keep();
    return this.#context.resume();
  }

  /** False where the system keeps the sound to itself, as during a call, or somebody has asked for something else meanwhile. */
  async #woken(session) {
    const waking = this.#wake();
    try {
      await waking;
    } catch {
      if (session === this.#session) this.#become("interrupted");
      return false;
    }
    return session === this.#session;
  }

  /** The system has taken the sound away, or given it back. */
  #changed() {
    const running = this.#context?.state === "running";
    if (!running && !this.#pausing && (this.#state === "playing" || this.#state === "waiting")) {
      this.#become("interrupted");
    } else if (running && this.#state === "interrupted") {
      this.#become(this.#held === null ? "playing" : "waiting");
      this.#feed();
    }
  }

  async #jump(index) {
    const session = ++this.#session;
    const opened = this.#opened;
    // A wireless speaker swallows the first half second after a silence of the device.
    const asleep = this.#context?.state !== "running";
    this.#drop(() => true);
    this.#held = null;
    this.#at = index;
    const stretch = this.#line(opened, index);
    this.#queue = [stretch];
    try {
      if (!(await this.#woken(session))) return;
      const chunk = await this.#render(stretch);
      if (session !== this.#session) return;
      stretch.start = this.#now(asleep ? 0.5 : 0.02);
      this.#schedule(stretch, chunk);
      this.#told = {};
      this.#become("playing");
      this.#timer ??= setInterval(() => this.#tick(), 25);
      this.#feed();
    } catch (error) {
      this.#broken(error, session);
    }
  }

  #broken(error, session) {
    if (session !== this.#session) return;
    this.stop();
    this.#say("fault", { error });
  }

  /** The first whole frame so many seconds from now. */
  #now(seconds) {
    return Math.ceil((this.#context.currentTime + seconds) * this.sampleRate);
  }

  #line(opened, index) {
    const { unit, frames } = { unit: 2 * index + 1, frames: opened.lines[index].frames };
    return this.#new({ kind: "line", opened, index, unit, frames });
  }

  #rest(opened, index) {
    const { unit, frames, signs } = opened.lines[index].rest;
    // A rest without signs is silence: nothing to ask the engine for.
    return this.#new({ kind: "rest", opened, index, unit, frames, next: index + 1, done: signs.length === 0 ? frames : 0 });
  }

  #new(stretch) {
    return { start: null, done: 0, chunks: 0, performance: null, sources: new Set(), fade: null, gone: false, ...stretch };
  }

  /** The next frames of a stretch; none if it is over. */
  async #render(stretch) {
    if (stretch.performance === null) {
      const begun = await this.#engine.begin({ opened: stretch.opened.id, unit: stretch.unit });
      if (!begun.ok) throw new Error(begun.faults[0].message);
      stretch.performance = begun.performance;
      if (stretch.gone) this.#end(stretch);
    }
    const seconds = Player.CHUNKS[Math.min(stretch.chunks++, Player.CHUNKS.length - 1)];
    const frames = Math.round(seconds * this.sampleRate);
    return this.#engine.fill({ performance: stretch.performance, frames });
  }

  #schedule(stretch, { frames, guide, click, drone }) {
    const context = this.#context;
    if (frames === 0) {
      stretch.done = stretch.frames;
      return;
    }
    const late = this.#now(0.005) - (stretch.start + stretch.done);
    if (late > 0) {
      stretch.start += late;
      this.#say("late", { seconds: late / this.sampleRate });
    }
    if (!stretch.fade) {
      stretch.fade = context.createGain();
      stretch.fade.connect(this.#splitter);
    }
    const buffer = context.createBuffer(3, frames, this.sampleRate);
    for (const [channel, samples] of [guide, click, drone].entries()) buffer.copyToChannel(samples, channel);
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(stretch.fade);
    source.start((stretch.start + stretch.done) / this.sampleRate);
    source.onended = () => {
      stretch.sources.delete(source);
      source.disconnect();
    };
    stretch.sources.add(source);
    stretch.done += frames;
  }

  /** Renders ahead. One at a time; a jump makes it give up. */
  #feed() {
    this.#feeding ??= this.#fed().finally(() => (this.#feeding = null));
    return this.#feeding;
  }

  async #fed() {
    const session = this.#session;
    try {
      while (session === this.#session && this.#state === "playing") {
        let stretch = this.#queue.at(-1);
        if (!stretch || stretch.start === null) return;
        const ahead = stretch.start + stretch.done - this.#context.currentTime * this.sampleRate;
        if (ahead > Player.AHEAD * this.sampleRate) return;
        if (stretch.done >= stretch.frames) {
          const following = this.#following(stretch);
          if (!following) return;
          following.start = stretch.start + stretch.frames;
          this.#queue.push(following);
          stretch = following;
          if (stretch.done >= stretch.frames) continue;
        }
        const chunk = await this.#render(stretch);
        if (session !== this.#session || stretch.gone) continue;
        this.#schedule(stretch, chunk);
      }
    } catch (error) {
      this.#broken(error, session);
    }
  }

  #following(stretch) {
    const { opened, index } = stretch;
    if (stretch.kind === "rest") {
      const follow = stretch.follow ?? opened;
      return stretch.next < follow.lines.length ? this.#line(follow, stretch.next) : null;
    }
    return opened.lines[index].rest ? this.#rest(opened, index) : null;
  }

  /** Takes stretches out of the queue; what sounds of them is faded in a few milliseconds. */
  #drop(which) {
    const gone = this.#queue.filter(which);
    this.#queue = this.#queue.filter((stretch) => !gone.includes(stretch));
    const now = this.#context?.currentTime ?? 0;
    for (const stretch of gone) {
      stretch.gone = true;
      stretch.fade?.gain.setTargetAtTime(0, now, 0.004);
      for (const source of stretch.sources) source.stop(now + 0.03);
      this.#end(stretch);
    }
  }

  /** Lets the engine forget what is not played out. */
  #end({ performance }) {
    // A broken engine has forgotten it already.
    if (performance !== null) this.#engine.end({ performance }).catch(() => {});
  }

  #tick() {
    if (this.#state !== "playing") return;
    this.#feed();
    const heard = this.#heard();
    const last = this.#queue.at(-1);
    const over = last && last.start !== null && last.done >= last.frames && heard >= last.start + last.frames;
    if (over && !this.#following(last)) {
      this.#queue = [];
      this.#at = 0;
      this.#pausing = true;
      this.#keeper?.pause();
      this.#context.suspend();
      this.#become("ended");
      return;
    }
    while (this.#queue.length > 1 && this.#queue[1].start <= heard) this.#end(this.#queue.shift());
    const here = this.position();
    if (here.where === null || this.#queue[0].start > heard) return;
    this.#at = here.index;
    if (here.where === "line") this.#tellLine(here, this.#queue[0]);
    else this.#tellRest(here, this.#queue[0]);
  }

  #tellLine({ index, frame }, stretch) {
    const line = stretch.opened.lines[index];
    if (this.#told.stretch !== stretch) {
      this.#told = { stretch, beat: -1, note: undefined };
      this.#announce(line);
      this.#say("line", { index, line });
    }
    const beat = line.beats.findLastIndex((one) => one.frame <= frame);
    if (beat !== this.#told.beat && beat >= 0) {
      this.#told.beat = beat;
      const { countIn, beat: number } = line.beats[beat];
      const last = countIn && !line.beats[beat + 1]?.countIn;
      this.#say("beat", { index, beat: number, beats: line.clicksABar, countIn, last });
    }
    const found = noteAt(line, frame);
    const key = found ? `${found.pass}.${found.turn}.${found.note.note}` : null;
    if (key !== this.#told.note) {
      this.#told.note = key;
      this.#say("note", { index, ...(found ?? { pass: null, turn: false, note: null }) });
    }
  }

  #tellRest({ index, left, leftToCount, total }, stretch) {
    const second = Math.ceil(left);
    if (this.#told.stretch === stretch && this.#told.second === second) return;
    if (this.#told.stretch !== stretch) this.#say("note", { index, pass: null, turn: false, note: null });
    this.#told = { stretch, second };
    this.#say("rest", { index, next: stretch.next, left, leftToCount, total });
  }

  #become(state) {
    if (state === this.#state) return;
    this.#state = state;
    if ("mediaSession" in navigator) {
      const sounding = state === "playing" || state === "waiting";
      navigator.mediaSession.playbackState = state === "stopped" || state === "ended" ? "none" : sounding ? "playing" : "paused";
    }
    this.#say("state", { state });
  }

  #say(what, detail) {
    this.dispatchEvent(new CustomEvent(what, { detail }));
  }

  /** What the lock screen shows. */
  #announce(line) {
    if (!this.#controls || !("mediaSession" in navigator) || !("MediaMetadata" in globalThis)) return;
    const { title } = this.#opened;
    navigator.mediaSession.metadata = new MediaMetadata({ title: `${line.number} ${line.name}`, album: title });
  }

  /** Silence in a media element, for lock screens and headset buttons know no AudioContext. */
  #keep() {
    if (!this.#keeper) {
      const keeper = new Audio(URL.createObjectURL(silence(10)));
      keeper.loop = true;
      // Paused by the system: headphones pulled, a call.
      keeper.onpause = () => {
        if (this.#pausing || !keeper.paused || (this.#state !== "playing" && this.#state !== "waiting")) return;
        this.#pausing = true;
        this.#context.suspend();
        this.#become("interrupted");
      };
      this.#keeper = keeper;
      const does = {
        play: () => this.play(),
        pause: () => this.pause(),
        previoustrack: () => this.previous(),
        nexttrack: () => this.next(),
        stop: () => this.stop(),
      };
      for (const [action, handler] of this.#controls ? Object.entries(does) : []) {
        try {
          navigator.mediaSession?.setActionHandler(action, () => void handler());
        } catch {
          // This browser does not know it.
        }
      }
    }
    // Where it may not play, only the lock screen misses it.
    this.#keeper.play().catch(() => {});
  }
}

/** The note of a line that sounds at a frame, with its pass; null where none does. */
function noteAt(line, frame) {
  const pass = line.passes.findLastIndex((one) => one.frame <= frame);
  if (pass < 0) return null;
  const { frame: start, turn: turnAt, notes } = line.passes[pass];
  const turn = turnAt !== null && frame >= turnAt;
  const moved = frame - (turn ? turnAt - start : 0);
  const note = notes.findLast((one) => one.frame <= moved);
  if (!note || moved >= note.frame + note.frames) return null;
  return { pass, turn, note };
}

/** A WAV file of so many seconds of silence. */
function silence(seconds) {
  const rate = 8000;
  const size = rate * seconds;
  const bytes = new Uint8Array(44 + size).fill(128, 44);
  const view = new DataView(bytes.buffer);
  const text = (at, letters) => [...letters].forEach((letter, i) => view.setUint8(at + i, letter.charCodeAt(0)));
  text(0, "RIFF");
  view.setUint32(4, 36 + size, true);
  text(8, "WAVEfmt ");
  // PCM, one channel, 8 bits.
  [16, 0x00010001, rate, rate, 0x00080001].forEach((value, i) => view.setUint32(16 + 4 * i, value, true));
  text(36, "data");
  view.setUint32(40, size, true);
  return new Blob([bytes], { type: "audio/wav" });
}
