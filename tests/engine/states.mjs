// The table of states.js, pair by pair, in both players that go by it: the engine's and that of the finished tracks.
//
//     node states.mjs
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";

const text = (name) => readFileSync(new URL(`../../src/handout/${name}`, import.meta.url), "utf8");
const part = (names) => names.map((name) => text(`engine/${name}.js`)).join("\n");

// What comes of each event in each state. A dot: nothing changes.
const WANTED = `
            play     go       pause  hold    close   change      sounds  quiet  lost        back     over  broken
stopped     starting starting .      .       .       .           .       .      .           .        .     stopped
starting    starting .        paused .       stopped starting    playing silent .           .        .     stopped
playing     starting .        paused waiting stopped starting    .       silent interrupted .        ended stopped
paused      starting starting .      waiting stopped paused      .       .      .           .        .     stopped
waiting     starting starting .      .       stopped .           .       .      .           .        .     stopped
interrupted starting starting paused waiting stopped interrupted .       .      .           starting .     stopped
silent      starting starting .      .       stopped silent      playing .      .           starting .     stopped
ended       starting starting .      .       stopped .           .       .      .           .        .     stopped`;
const [events, ...rows] = WANTED.trim()
  .split("\n")
  .map((row) => row.trim().split(/\s+/));
const STATES = rows.map(([state]) => state);

const RATE = 1000;
/** Two lines of two passes, 1 s counted in and 2 s a pass; no rest between the passes of the first, which another count-in has. */
const lines = [0, 1].map((of) => {
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
const opened = (id) => ({ ok: true, id, lines });

/** A device whose clock we turn, and what was asked of it. */
class Device {
  static all = [];
  currentTime = 0;
  state = "suspended";
  sampleRate = RATE;
  destination = {};
  sounding = new Set();
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
    return { gain: { setTargetAtTime() {}, setValueAtTime() {}, linearRampToValueAtTime() {} }, connect() {} };
  }
  createBuffer(_, frames) {
    return { frames, copyToChannel() {} };
  }
  /** What is scheduled and not over. */
  get heard() {
    return [...this.sounding].filter(({ end }) => end > this.currentTime);
  }
  createBufferSource() {
    const { sounding } = this;
    return {
      buffer: { frames: 0 },
      end: 0,
      connect() {},
      disconnect() {},
      start(at) {
        this.end = at + this.buffer.frames / RATE;
        sounding.add(this);
      },
      stop() {
        sounding.delete(this);
      },
    };
  }
}

class FakeEngine {
  sampleRate = RATE;
  begun = [];
  async begin({ unit, from = 0 }) {
    this.begun.push({ unit, from });
    return { ok: true, performance: this.begun.length, from: from - (from % 64), frames: 0 };
  }
  async fill({ frames }) {
    const voice = new Float32Array(frames);
    return { ok: true, frames, guide: voice, click: voice, drone: voice };
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

const settled = () => new Promise((done) => setImmediate(done));

/** The engine's player, and how time goes by. */
function engines() {
  const {
    made: Player,
    clock,
    session,
  } = scripts(["timetable", "states", "stretch", "silence", "sound", "watch", "player"], "", "Player");
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
function tracks() {
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
  const { made: Tracks, clock, session } = scripts(["timetable", "states", "watch"], text("page/script/tracks.js"), "Tracks");
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

/** Into each state as a person and the device get there. */
const ENTER = {
  async stopped() {},
  async starting(it) {
    it.player.play(0);
    await settled();
  },
  async playing(it) {
    it.player.play(0);
    await it.passes(0.8);
  },
  async paused(it) {
    await ENTER.playing(it);
    it.player.pause();
    await settled();
  },
  async waiting(it) {
    await ENTER.playing(it);
    await it.passes(6.5);
    assert(it.player.hold(), "there is a rest to hold");
    await settled();
  },
  async interrupted(it) {
    await ENTER.playing(it);
    it.lose();
    await settled();
  },
  async silent(it) {
    it.player.play(0);
    await it.passes(1.9, true);
  },
  async ended(it) {
    it.player.play(1);
    await it.passes(9);
  },
};

const checks = {};
for (const [name, make] of Object.entries({ engine: engines, tracks })) {
  checks[`${name}: every event in every state`] = async () => {
    assert.equal(STATES.length * (events.length + 1), rows.flat().length, "a pair is missing");
    for (const [state, ...wanted] of rows) {
      for (const [i, event] of events.entries()) {
        const it = make();
        await ENTER[state](it);
        assert.equal(it.player.state, state, `${name} does not get to ${state}`);
        const done = it.player.send(event);
        assert.equal(done, wanted[i] !== ".", `${state}, ${event}`);
        assert.equal(it.player.state, done ? wanted[i] : state, `${state}, ${event}`);
        await settled();
        const { state: now } = it.player;
        if (now === "starting") assert(it.runs(), `${state}, ${event}: the device is woken`);
        if (["paused", "stopped", "ended"].includes(now)) assert(!it.runs(), `${state}, ${event}: it keeps still`);
        if (now === "waiting" && name === "engine") assert.equal(it.device().heard.length, 0, "a rest that is held is silent");
        const lock = { stopped: "none", ended: "none", starting: "playing", playing: "playing" };
        if (state !== now) assert.equal(it.session.playbackState, lock[now] ?? "paused", `${now} on the lock screen`);
      }
    }
  };

  checks[`${name}: what a person does in a rest, and what comes of it`] = async () => {
    const it = make();
    await ENTER.waiting(it);
    await it.passes(60);
    assert.deepEqual([it.player.state, it.player.position().index], ["waiting", 0], "it waits as long as it takes");
    it.player.pause();
    assert.equal(it.player.state, "waiting");
    it.player.go();
    await it.passes(0.5);
    assert.deepEqual([it.player.state, it.player.position().index], ["playing", 1], "going on counts in the next line");
    // A pause in a rest: it can be held, or goes on where it was.
    const other = make();
    await ENTER.playing(other);
    await other.passes(6.5);
    other.player.pause();
    const before = other.clock();
    await other.passes(3);
    assert.equal(other.clock(), before);
    assert(other.player.hold());
    other.player.go();
    await other.passes(0.5);
    assert.deepEqual([other.player.state, other.player.position().index], ["playing", 1]);
  };

  checks[`${name}: after the end it begins from the top`] = async () => {
    const it = make();
    await ENTER.ended(it);
    it.player.go();
    await it.passes(1);
    assert.deepEqual([it.player.state, it.player.position().index], ["playing", 0]);
  };

  checks[`${name}: a clock that stands is told within two seconds, from the start and later`] = async () => {
    for (const state of ["stopped", "playing"]) {
      const it = make();
      await ENTER[state](it);
      if (state === "stopped") it.player.play(0);
      await it.passes(1.3, true);
      assert.notEqual(it.player.state, "silent", "not at once");
      await it.passes(0.6, true);
      assert.equal(it.player.state, "silent", state);
      assert.equal(it.player.cause, "device");
      it.player.go();
      await it.passes(0.8);
      assert.equal(it.player.state, "playing", "another try");
    }
  };

  checks[`${name}: nothing to hold while a line sounds`] = async () => {
    const it = make();
    await ENTER.playing(it);
    await it.passes(1.5);
    assert.equal(it.player.hold(), false);
    assert.equal(it.player.state, "playing");
  };
}

checks["engine: one that does not answer is told, and the second time in a row it is broken"] = async () => {
  const it = engines();
  it.engine.fill = () => new Promise(() => {});
  const faults = [];
  it.player.addEventListener("fault", ({ detail }) => faults.push(detail.error.message));
  for (const round of [1, 2]) {
    it.player.play(0);
    await it.passes(1.9);
    assert.deepEqual([it.player.state, it.player.cause, round], ["silent", "engine", round]);
  }
  it.player.go();
  await it.passes(1.9);
  assert.deepEqual([it.player.state, faults], ["stopped", ["the engine does not answer"]]);
};

checks["engine: what comes late is heard, and the state says so"] = async () => {
  const it = engines();
  let answer = () => {};
  const { fill } = it.engine;
  it.engine.fill = (asked) => new Promise((done) => (answer = () => fill(asked).then(done)));
  it.player.play(0);
  await it.passes(1.9);
  assert.equal(it.player.state, "silent");
  it.engine.fill = fill;
  answer();
  await it.passes(1);
  assert.equal(it.player.state, "playing");
};

checks["engine: another tempo stays at the pass, counted in"] = async () => {
  /** @type {[number, number, number[]][]} */
  const cases = [
    // Its passes follow one another: the line's own count-in, then the pass.
    [0, 3.5, [0, 3000]],
    // There is a count-in before the second pass: from there on.
    [1, 5.5, [4000]],
    // In the first pass: the whole line.
    [1, 1.5, [0]],
  ];
  for (const [line, frame, from] of cases) {
    const it = engines();
    it.player.play(line);
    await it.passes(frame + 0.8);
    const before = it.player.position();
    it.engine.begun.length = 0;
    it.change();
    await it.passes(0.2);
    assert.equal(it.player.position().pass, before.pass, "while it is counted in");
    assert.equal(it.player.state, "playing");
    await it.passes(1.5);
    assert.equal(it.player.position().pass, before.pass);
    const unit = 2 * line + 1;
    assert.deepEqual(
      it.engine.begun.slice(0, from.length),
      from.map((one) => ({ unit, from: one })),
    );
  }
};

checks["engine: paused at a pass, another tempo goes on there"] = async () => {
  const it = engines();
  it.player.play(0);
  await it.passes(4.3);
  it.player.pause();
  it.change();
  assert.deepEqual([it.player.state, it.player.position().pass], ["paused", 1]);
  it.player.go();
  await it.passes(2.2);
  const { index, pass, frame } = it.player.position();
  assert.deepEqual([index, pass], [0, 1]);
  assert(frame >= 3000 && frame < 4500, String(frame));
};

let failed = 0;
for (const [name, check] of Object.entries(checks)) {
  try {
    await check();
    console.log(`holds: ${name}`);
  } catch (error) {
    failed++;
    console.log(`FAILS: ${name}\n${error.stack}`);
  }
}
process.exit(failed > 0 ? 1 : 0);
