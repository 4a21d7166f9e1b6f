// What is repeated: the same frames each time, until it is left; at another tempo; and in every state of the player.
import assert from "node:assert/strict";
import { engines, lines, nameOf, opened, RATE, settled } from "./players.mjs";

/** The second bar of the first line's second pass, after a count-in of one bar. */
const BAR = { of: 0, pass: 1, from: 1, to: 2 };

/** The frames that a device has been given, in the order of its clock: the name of each, of one voice. */
function given(device, voice = 1) {
  const all = [...device.sounding].sort((one, other) => one.begin - other.begin);
  const begin = all[0].begin;
  const heard = [];
  for (const { begin: at, buffer } of all) {
    for (let i = 0; i < buffer.frames; i++) {
      assert.equal(heard[at - begin + i], undefined, `two sounds at ${at + i}`);
      heard[at - begin + i] = buffer.voices[voice][i];
    }
  }
  return heard;
}

const span = (first, end, id = 1, unit = 1) => Array.from({ length: end - first }, (_, i) => nameOf(id, unit, first + i));

/** The same frames, those of the first milliseconds left out where a voice comes in. */
function same(heard, wanted, what) {
  const wrong = wanted.findIndex((name, i) => heard[i] !== name);
  assert(wrong < 0, `${what}: frame ${wrong} is ${heard[wrong]}, not ${wanted[wrong]}`);
}

/** A line of other passes and meters. */
const with_ = (more) => ({ ...opened(1), lines: [{ ...lines[0], ...more }, lines[1]] });

async function looping(loop = BAR, what = opened(1)) {
  const it = engines();
  it.player.load(what);
  assert(it.player.loop(loop));
  await settled();
  return it;
}

export function loopChecks(states, enter) {
  const checks = {};

  checks["a loop: each time the same frames without a gap, rendered once"] = async () => {
    const it = await looping();
    await it.passes(5);
    const turn = [...span(0, 1000), ...span(4000, 5000)];
    same(given(it.device()), [...turn, ...turn, ...turn, ...turn], "click");
    assert.deepEqual(it.engine.begun, [
      { unit: 1, from: 0 },
      { unit: 1, from: 4000 },
    ]);
    await it.passes(30);
    assert.deepEqual([it.player.state, it.player.position().index, it.engine.begun.length], ["playing", 0, 2]);
    // A voice that sounds comes in within 3 ms; the rest of it is as it was rendered.
    const guide = given(it.device(), 0);
    assert.deepEqual([guide[1000], guide[1003]], [0, nameOf(1, 1, 4003)]);
  };

  checks["a loop: told to go on, it is played to its end, and the line goes on without a gap"] = async () => {
    /** @type {[typeof BAR, number, number[]][]} */
    const cases = [
      // While it is counted in, and in its music.
      [{ of: 0, pass: 0, from: 0, to: 1 }, 0.6, [...span(0, 1000), ...span(1000, 5100)]],
      [{ of: 0, pass: 0, from: 0, to: 1 }, 1.6, [...span(0, 1000), ...span(1000, 5100)]],
      // In the second turn.
      [{ of: 0, pass: 0, from: 0, to: 1 }, 3.6, [...span(0, 2000), ...span(0, 1000), ...span(1000, 5100)]],
      // A moment before its end it is too late: once more.
      [{ of: 0, pass: 0, from: 0, to: 1 }, 2.4, [...span(0, 2000), ...span(0, 1000), ...span(1000, 5100)]],
      // To the last bar line.
      [BAR, 1.6, [...span(0, 1000), ...span(4000, 5100)]],
    ];
    for (const [loop, seconds, wanted] of cases) {
      const it = await looping(loop);
      await it.passes(seconds);
      it.player.onward();
      assert.equal(it.player.repeated, null);
      await it.passes(wanted.length / RATE - seconds);
      same(given(it.device()), wanted, `after ${seconds} s`);
      // What a count-in follows has faded before it; the last turn has not.
      const begin = Math.min(...[...it.device().sounding].map((sound) => sound.begin));
      const fades = it.device().faders.flatMap(({ ramps }) => ramps.map(({ at }) => Math.round(at * RATE) - begin));
      const turns = wanted.length > 6000 ? 2 : 1;
      assert.deepEqual([fades.includes(2000), fades.includes(2000 * turns)], [turns === 2, false], `after ${seconds} s`);
      await it.passes(8);
      assert.deepEqual([it.player.state, it.player.position().index], ["playing", 1], "and the next line comes");
    }
  };

  checks["a loop: notes inside a bar are counted in from beat to beat, and the next count-in is on a click"] = async () => {
    const it = await looping({ of: 0, pass: 0, from: 0.375, to: 0.8 });
    await it.passes(3.5);
    const turn = [...span(375, 1000), ...span(0, 375), ...span(1375, 1800), ...Array(75).fill(undefined)];
    same(given(it.device()), [...turn, ...turn.slice(0, 1000)], "click");
    assert.equal(turn.length % lines[0].click, 0);
  };

  checks["a loop: how much of its count-in is left"] = async () => {
    const it = await looping({ of: 0, pass: 0, from: 0.5, to: 1 });
    for (const wanted of [900, 400]) {
      await it.passes(wanted === 900 ? 0.6 : 0.5);
      const { toMusic, pass } = it.player.position();
      assert(Math.abs(toMusic - wanted) < 2, `${toMusic}, not ${wanted}`);
      assert.equal(pass, 0);
    }
    await it.passes(0.6);
    const { toMusic, frame } = it.player.position();
    assert.equal(toMusic, null);
    assert(frame > 1650 && frame < 1750, String(frame));
  };

  checks["a loop: of two bars of count-in one is played, and another tube's is without the held note"] = async () => {
    const passes = lines[0].passes.map((pass, i) => ({
      ...pass,
      start: pass.start + 1000,
      end: pass.end + 1000,
      place: String(i),
    }));
    const it = await looping(BAR, with_({ countIn: 2000, barLine: 6000, frames: 6100, passes }));
    await it.passes(2.5);
    same(given(it.device()), [...span(1000, 2000), ...span(5000, 6000)], "click");
    assert(
      given(it.device(), 2)
        .slice(0, 1000)
        .every((sample) => sample === 0),
      "the held note is that of another tube",
    );
  };

  checks["a loop: in echo the player's turn comes after the guide's, and going on leads to the rest of the guide's"] =
    async () => {
      const passes = [
        { start: 1000, turn: 3000, end: 5000 },
        { start: 5000, turn: 7000, end: 9000 },
      ];
      const echo = with_({ barLine: 9000, frames: 9100, passes });
      const it = await looping({ of: 0, pass: 0, from: 1, to: 2 }, echo);
      await it.passes(4);
      const turn = [...span(0, 1000), ...span(2000, 3000), ...span(4000, 5000)];
      same(given(it.device()), [...turn, ...turn], "a bar");
      const first = await looping({ of: 0, pass: 0, from: 0, to: 1 }, echo);
      await first.passes(2);
      first.player.onward();
      await first.passes(3);
      same(given(first.device()), [...span(0, 2000), ...span(3000, 4000), ...span(2000, 4000)], "left");
      const whole = await looping({ of: 0, pass: 0, from: 0, to: 2 }, echo);
      await whole.passes(2);
      whole.player.onward();
      await whole.passes(3);
      same(given(whole.device()), span(0, 7000), "the whole pass, left");
    };

  checks["a loop: after a good go it is played to its end, then faster; slower is at once"] = async () => {
    for (const [seconds, later, wanted] of [
      [1.6, true, [...span(0, 1000), ...span(4000, 5000), ...span(0, 1000, 2), ...span(4000, 5000, 2)]],
      // While it is counted in nothing is lost.
      [0.9, true, span(0, 1000, 2)],
      [1.6, false, span(0, 1000, 2)],
    ]) {
      const it = await looping();
      await it.passes(seconds);
      it.player.load(opened(2), later);
      await it.passes(2.9);
      assert.deepEqual(it.player.repeated, BAR);
      const heard = given(it.device());
      const from = heard.indexOf(wanted[0]);
      same(heard.slice(from), wanted, `after ${seconds} s, ${later}`);
    }
  };

  checks["a loop: in every state what ends it, and what does not"] = async () => {
    // What ends a loop in a state in which there is one.
    const ends = {
      play: true,
      close: true,
      broken: true,
      onward: true,
      pause: false,
      go: false,
      change: false,
      quiet: false,
      lost: false,
    };
    for (const state of states.filter((one) => !["stopped", "waiting", "ended"].includes(one))) {
      for (const [event, ended] of Object.entries(ends)) {
        const it = engines();
        const { play } = it.player;
        it.player.play = () => it.player.loop(BAR);
        await enter[state](it);
        it.player.play = play;
        assert.deepEqual([it.player.state, it.player.repeated], [state, BAR]);
        if (event === "play" || event === "onward") it.player[event]();
        else if (event === "change") it.change();
        else it.player.send(event);
        await settled();
        const reached = it.player.state;
        assert.equal(it.player.repeated, ended ? null : BAR, `${state}, ${event}`);
        if (event === "onward") assert.equal(reached, state, "it is left as it is played");
        assert.equal(
          it.player.hold(),
          reached === "stopped" ? false : ended && event === "x",
          `${state}, ${event}: no rest to hold`,
        );
        it.player.go();
        await it.passes(1.8);
        if (!ended) assert.equal(it.player.position().pass, BAR.pass, `${state}, ${event}`);
      }
    }
  };

  checks["a loop: where the line is gone, or shorter, it is over"] = async () => {
    for (const changed of [
      { ...opened(2), lines: [lines[1]] },
      { ...opened(2), lines: [{ ...lines[0], passes: lines[0].passes.slice(0, 1) }, lines[1]] },
    ]) {
      const it = await looping();
      await it.passes(1.6);
      it.player.load(changed);
      assert.equal(it.player.repeated, null);
      await it.passes(1);
      assert.equal(it.player.state, "playing");
    }
    const it = engines();
    assert.equal(it.player.loop({ ...BAR, to: 3 }), false, "there is no third bar");
    assert.equal(it.player.state, "stopped");
  };
  return checks;
}
