// The players of the page with a device, an engine and a clock that a test turns.
import { readFileSync } from "node:fs";

const text = (name) => readFileSync(new URL(`../../src/handout/${name}`, import.meta.url), "utf8");
const part = (names) => names.map((name) => text(`engine/${name}.js`)).join("\n");

export const RATE = 1000;
/** Two lines of two passes, 1 s counted in and 2 s a pass; no rest between the passes of the first, which another count-in has. */
export const lines = [0, 1].map((of) => {
  const second = of === 0 ? 3000 : 5000;
  return {
    of,
    click: 250,
    clicksABar: 4,
    wholeNote: 1000,
    start: 500 + of * 10000,
    countIn: 1000,
    barLine: second + 2000,
    frames: second + 2100,
    rest: of === 0 ? 5000 : null,
    signs: false,
    passes: [
      { start: 1000, turn: null, end: 3000 },
      { start: second, turn: null, end: second + 2000 },
    ],
  };
});
export const opened = (id) => ({ ok: true, id, lines });

/** A device whose clock we turn, and what was asked of it. */
class Device {
  static all = [];
  currentTime = 0;
  state = "suspended";
  sampleRate = RATE;
  destination = {};
  sounding = new Set();
  faders = [];
  constructor() {
    Device.all.push(this);
  }
  async resume() {
    this.state = "running";
  }
  async suspend() {
    this.state = "suspended";
  }
  async close() {
    this.state = "closed";
  }
  addEventListener() {}
  createChannelSplitter() {
    return { connect() {} };
  }
  createGain() {
    const { faders } = this;
    const fader = { ramps: [], connect() {}, gain: {} };
    fader.gain = {
      setTargetAtTime() {},
      setValueAtTime() {},
      linearRampToValueAtTime: (value, at) => fader.ramps.push({ value, at }),
      cancelScheduledValues: (from) => (fader.ramps = fader.ramps.filter(({ at }) => at < from)),
    };
    faders.push(fader);
    return fader;
  }
  createBuffer(_, frames) {
    const voices = [];
    return { frames, voices, copyToChannel: (voice, channel) => (voices[channel] = Float32Array.from(voice)) };
  }
  /** What is scheduled and not over. */
  get heard() {
    return [...this.sounding].filter(({ end }) => end > this.currentTime);
  }
  createBufferSource() {
    const { sounding } = this;
    return {
      buffer: { frames: 0, voices: [] },
      begin: 0,
      end: 0,
      connect() {},
      disconnect() {},
      start(at) {
        this.begin = Math.round(at * RATE);
        this.end = at + this.buffer.frames / RATE;
        sounding.add(this);
      },
      stop() {
        sounding.delete(this);
      },
    };
  }
}

/** A frame of what was opened has a sample of its own. */
export const nameOf = (id, unit, frame) => id * 1e6 + unit * 1e5 + frame;

/** What it renders is the name of each frame. */
class FakeEngine {
  sampleRate = RATE;
  begun = [];
  /** @type {Record<number, number>} */
  at = {};
  async begin({ opened = 0, unit, from = 0 }) {
    this.begun.push({ unit, from });
    const whole = from - (from % 64);
    this.at[this.begun.length] = nameOf(opened, unit, whole);
    return { ok: true, performance: this.begun.length, from: whole, frames: 0 };
  }
  async fill({ performance, frames }) {
    const first = this.at[performance];
    this.at[performance] += frames;
    const voice = () => Float32Array.from({ length: frames }, (_, i) => first + i);
    return { ok: true, frames, guide: voice(), click: voice(), drone: voice() };
  }
  async end() {
    return { ok: true };
  }
}

/** Scripts of the page with a clock that we turn. */
function scripts(names, more, result) {
  const clock = { now: 0, tick: () => {} };
  const given = {
    AudioContext: Device,
    Audio: class {
      async play() {}
      pause() {}
    },
    URL: { createObjectURL: () => "" },
    performance: { now: () => clock.now },
    navigator: { mediaSession: {} },
    setInterval: (tick) => (clock.tick = tick),
    EngineBroken: class extends Error {},
    data: { sampleRate: RATE, takes: [{ lines, key: 0 }] },
  };
  const made = new Function(...Object.keys(given), `${part(names)}\n${more}\nreturn ${result};`)(...Object.values(given));
  return { made, clock, session: given.navigator.mediaSession };
}

export const settled = () => new Promise((done) => setImmediate(done));

/** The engine's player, and how time goes by. */
export function engines() {
  const {
    made: Player,
    clock,
    session,
  } = scripts(["timetable", "states", "stretch", "loop", "silence", "sound", "watch", "chunks", "player"], "", "Player");
  const engine = new FakeEngine();
  const player = new Player(engine);
  Device.all.length = 0;
  player.load(opened(1));
  return {
    player,
    session,
    engine,
    device: () => Device.all.at(-1),
    runs: () => Device.all.at(-1)?.state === "running",
    clock: () => Device.all.at(-1).currentTime,
    /** Seconds go by; the clock of the device with them, unless it is stuck. */
    async passes(seconds, stuck = false) {
      for (let left = seconds; left > 1e-9; left -= 0.1) {
        clock.now += 100;
        const device = Device.all.at(-1);
        if (device?.state === "running" && !stuck) device.currentTime += 0.1;
        await settled();
        clock.tick();
        await settled();
      }
    },
    lose: () => {
      Device.all.at(-1).state = "interrupted";
      Device.all.at(-1).onstatechange();
    },
    change: () => player.load(opened(2)),
  };
}

/** The player of the finished tracks. */
export function tracks() {
  const audio = new (class extends EventTarget {
    currentTime = 0;
    paused = true;
    ended = false;
    error = null;
    readyState = 4;
    HAVE_FUTURE_DATA = 3;
    volume = 1;
    async play() {
      this.paused = false;
      this.ended = false;
    }
    pause() {
      if (!this.paused) this.dispatchEvent(new Event("pause"));
      this.paused = true;
    }
  })();
  const {
    made: Tracks,
    clock,
    session,
  } = scripts(["timetable", "states", "watch"], `const phrase = (key) => key;\n${text("page/script/tracks.js")}`, "Tracks");
  const player = new Tracks([audio]);
  return {
    player,
    session,
    runs: () => !audio.paused,
    clock: () => audio.currentTime,
    async passes(seconds, stuck = false) {
      for (let left = seconds; left > 1e-9; left -= 0.1) {
        clock.now += 100;
        if (!audio.paused && !stuck) audio.currentTime += 0.1;
        if (audio.currentTime > 18 && !audio.paused) {
          audio.paused = audio.ended = true;
          audio.dispatchEvent(new Event("pause"));
          audio.dispatchEvent(new Event("ended"));
        }
        await settled();
        clock.tick();
        await settled();
      }
    },
    lose: () => audio.pause(),
    change: () => player.send("change"),
  };
}
