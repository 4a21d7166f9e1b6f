// The sound device: an AudioContext with a volume for each voice, and whether the system lets it sound.

/** @typedef {"guide" | "click" | "drone"} Voice */

class Sound {
  /** @type {Voice[]} In the order of the channels of a buffer. */
  static VOICES = ["guide", "click", "drone"];

  /** Told when the system takes the sound away, and when it gives it back. */
  onInterrupted = () => {};
  onRunning = () => {};
  /** Told when the device is gone for good. */
  onGone = () => {};
  #defaultRate;
  /** @type {AudioContext | null} */
  #context = null;
  /** @type {ChannelSplitterNode | null} */
  #splitter = null;
  /** @type {Map<Voice, GainNode>} */
  #gains = new Map();
  /** @type {Record<Voice, number>} */
  #volumes = { guide: 1, click: 1, drone: 1 };
  /** @type {Silence | null} */
  #silence = null;
  /** True while it is silent because we want it so. */
  #pausing = false;

  /**
   * @param {number} sampleRate for an AudioContext of its own: browsers resample it to what their device has
   * @param {{ context?: AudioContext, output?: AudioNode }} given or those of somebody else
   */
  constructor(sampleRate, { context, output = context?.destination }) {
    this.#defaultRate = sampleRate;
    if (context && output) this.#attach(context, output);
  }

  get sampleRate() {
    return this.#context?.sampleRate ?? this.#defaultRate;
  }

  get volumes() {
    return { ...this.#volumes };
  }

  /** True before the first sound and where the device has gone to sleep. */
  get asleep() {
    return this.#context?.state !== "running";
  }

  /**
   * @param {Voice} voice
   * @param {number} gain 0 to 1, 1 as calibrated
   */
  volume(voice, gain) {
    this.#volumes[voice] = Math.min(Math.max(gain, 0), 1);
    const now = this.now();
    this.#gains.get(voice)?.gain.setTargetAtTime(this.#volumes[voice], now, 0.015);
  }

  /** Must be called from a tap, before anything is waited for: only then a browser lets it sound. */
  async wake() {
    if (!this.#context) {
      const context = new AudioContext({ sampleRate: this.#defaultRate, latencyHint: "playback" });
      this.#attach(context, context.destination);
    }
    this.#pausing = false;
    this.#silence ??= new Silence(() => this.#interrupted());
    this.#silence.play();
    await this.#open.resume();
  }

  /** Lets a device go that keeps still: the next sound opens another. */
  renew() {
    const context = this.#context;
    this.#context = null;
    this.#gains.clear();
    if (!context) return;
    context.onstatechange = null;
    // What is gone already cannot be closed.
    context.close().catch(() => {});
  }

  /** A rest is held: the button of a headset must say that it goes on. The device stays awake, so that it then sounds at once. */
  hush() {
    this.#silence?.pause();
  }

  async suspend() {
    this.#pausing = true;
    this.#silence?.pause();
    if (this.#context?.state !== "closed") await this.#context?.suspend();
  }

  /** Seconds on the device's clock. */
  now() {
    return this.#context?.currentTime ?? 0;
  }

  /** The frame of the device's clock that is heard now. */
  heard() {
    if (!this.#context) return 0;
    const latency = this.#context.outputLatency || this.#context.baseLatency || 0;
    return (this.#context.currentTime - Math.min(latency, 1)) * this.sampleRate;
  }

  /**
   * The first whole frame so many seconds from now.
   * @param {number} seconds
   */
  soon(seconds) {
    return Math.ceil((this.now() + seconds) * this.sampleRate);
  }

  /**
   * Something that is connected to the voices and can be faded as one.
   * @param {number | null} rises frame of the clock from which it comes in within a few milliseconds; null where it is open at once
   */
  fader(rises) {
    const fader = this.#open.createGain();
    if (rises !== null) {
      const at = rises / this.sampleRate;
      fader.gain.setValueAtTime(0, at);
      fader.gain.linearRampToValueAtTime(1, at + 0.003);
    }
    if (this.#splitter) fader.connect(this.#splitter);
    return fader;
  }

  /**
   * Plays frames of all voices from a frame of the clock on.
   * @param {Protocol.Filled} filled
   * @param {number} at
   * @param {GainNode} fader
   */
  play(filled, at, fader) {
    const context = this.#open;
    const buffer = context.createBuffer(Sound.VOICES.length, filled.frames, this.sampleRate);
    for (const [channel, voice] of Sound.VOICES.entries()) buffer.copyToChannel(filled[voice], channel);
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(fader);
    source.start(at / this.sampleRate);
    return source;
  }

  /**
   * Fades out in the last milliseconds before a frame of the clock.
   * @param {GainNode | null} fader
   * @param {number} end
   */
  fall(fader, end) {
    const at = Math.max(end / this.sampleRate - 0.003, 0);
    fader?.gain.setValueAtTime(1, at);
    fader?.gain.linearRampToValueAtTime(0, at + 0.003);
  }

  /**
   * Takes a fall back that is not heard yet.
   * @param {GainNode | null} fader
   */
  sustain(fader) {
    fader?.gain.cancelScheduledValues(this.now());
  }

  /**
   * Fades what sounds within a few milliseconds.
   * @param {GainNode | null} fader
   * @param {Iterable<AudioBufferSourceNode>} sources
   */
  fade(fader, sources) {
    const now = this.now();
    fader?.gain.setTargetAtTime(0, now, 0.004);
    for (const source of sources) source.stop(now + 0.03);
  }

  get #open() {
    if (!this.#context) throw new Error("there is no sound device");
    return this.#context;
  }

  /**
   * @param {AudioContext} context
   * @param {AudioNode} output
   */
  #attach(context, output) {
    this.#context = context;
    this.#splitter = context.createChannelSplitter(Sound.VOICES.length);
    for (const [channel, voice] of Sound.VOICES.entries()) {
      const gain = context.createGain();
      gain.gain.value = this.#volumes[voice];
      this.#splitter.connect(gain, channel);
      gain.connect(output);
      this.#gains.set(voice, gain);
    }
    context.onstatechange = () => {
      if (context.state === "running") this.onRunning();
      else if (context.state === "closed") this.onGone();
      else this.#interrupted();
    };
    // Where the browser could not open its device, or lost it.
    context.addEventListener("error", () => context === this.#context && this.onGone());
  }

  #interrupted() {
    if (this.#pausing) return;
    if (this.#context?.state === "running") {
      this.#pausing = true;
      this.#context.suspend();
    }
    this.onInterrupted();
  }
}
