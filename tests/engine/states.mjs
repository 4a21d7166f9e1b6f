// The table of states.js, pair by pair, in both players that go by it: the engine's and that of the finished tracks.
//
//     node states.mjs
import assert from "node:assert/strict";
import { hold } from "./hold.mjs";
import { loopChecks } from "./loops.mjs";
import { engines, settled, tracks } from "./players.mjs";

// What comes of each event in each state. A dot: nothing changes.
const WANTED = `
            play     loop     onward      go       pause  hold    close   change      sounds  quiet  lost        back     over  broken
stopped     starting starting .           starting .      .       .       .           .       .      .           .        .     stopped
starting    starting starting starting    .        paused .       stopped starting    playing silent .           .        .     stopped
playing     starting starting playing     .        paused waiting stopped starting    .       silent interrupted .        ended stopped
paused      starting starting paused      starting .      waiting stopped paused      .       .      .           .        .     stopped
waiting     starting starting .           starting .      .       stopped .           .       .      .           .        .     stopped
interrupted starting starting interrupted starting paused waiting stopped interrupted .       .      .           starting .     stopped
silent      starting starting silent      starting .      .       stopped silent      playing .      .           starting .     stopped
ended       starting starting .           starting .      .       stopped .           .       .      .           .        .     stopped`;
const [events, ...rows] = WANTED.trim()
  .split("\n")
  .map((row) => row.trim().split(/\s+/));
const STATES = rows.map(([state]) => state);

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
  const fill = it.engine.fill.bind(it.engine);
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

Object.assign(checks, loopChecks(STATES, ENTER));

const all = await hold(checks);
process.exit(all ? 0 : 1);
