// A bar, a pass or the notes between two, played again and again, each time after a bar of count-in.

/**
 * What is repeated. It is meant in note values, so that it is the same music at every tempo.
 * @typedef {object} Loop
 * @property {number} of index of the line in the teacher's routine
 * @property {number} [rung] which of the line's tempos, from 0; not there for the first
 * @property {number} pass
 * @property {number} from whole notes since the start of the pass
 * @property {number} to
 */

/**
 * The loop once: its count-in, then its music, in echo first the guide's and then the player's.
 * @typedef {object} Turn
 * @property {Loop} loop
 * @property {Stretch[]} parts
 */

/** How much two moments may differ and still be one, in whole notes: timetables round to frames. */
const SAME_MOMENT = 1e-3;

/**
 * Whole notes in a bar.
 * @param {Protocol.TimetableLine} line
 */
function barOf({ clicksABar, click, wholeNote }) {
  return (clicksABar * click) / wholeNote;
}

/**
 * Bars in a pass.
 * @param {Protocol.TimetableLine} line
 * @param {number} pass
 */
function barsIn(line, pass) {
  const { start, turn, end } = line.passes[pass];
  return Math.max(1, Math.round(((turn ?? end) - start) / line.wholeNote / barOf(line)));
}

/**
 * The number of the bar in which a moment is, from 0.
 * @param {Protocol.TimetableLine} line
 * @param {number} pass
 * @param {number} moment
 */
function barAt(line, pass, moment) {
  return Math.min(Math.floor(moment / barOf(line) + SAME_MOMENT), barsIn(line, pass) - 1);
}

/**
 * @param {Protocol.TimetableLine} line
 * @param {number} pass
 * @param {number} bar from 0
 * @returns {Loop}
 */
function loopOfBar(line, pass, bar) {
  return { of: line.of, rung: line.rung, pass, from: bar * barOf(line), to: (bar + 1) * barOf(line) };
}

/**
 * @param {Protocol.TimetableLine} line
 * @param {number} pass
 * @returns {Loop}
 */
function loopOfPass(line, pass) {
  return { of: line.of, rung: line.rung, pass, from: 0, to: barsIn(line, pass) * barOf(line) };
}

/**
 * False where a line was changed so that it no longer holds the loop.
 * @param {Protocol.TimetableLine | undefined} line
 * @param {Loop} loop
 */
function holdsLoop(line, { pass, from, to }) {
  return line !== undefined && pass < line.passes.length && from < to && to <= barsIn(line, pass) * barOf(line) + SAME_MOMENT;
}

/**
 * The frame of a line at a moment of a pass, or of the player's turn after it.
 * @param {Protocol.TimetableLine} line
 * @param {number} pass
 * @param {number} moment
 * @param {boolean} [turn]
 */
function frameOf(line, pass, moment, turn = false) {
  const one = line.passes[pass];
  const [start, end] = turn ? [one.turn ?? one.start, one.end] : [one.start, one.turn ?? one.end];
  // The end is a frame of the timetable: one frame more would be of the next pass.
  return Math.min(start + Math.round(moment * line.wholeNote), end);
}

/**
 * A loop once more. What begins inside a bar is counted in from there to there, so that every click falls on its beat.
 * @param {Protocol.Opened} opened
 * @param {number} index
 * @param {Loop} loop
 * @returns {Turn}
 */
function turnOf(opened, index, loop) {
  const line = opened.lines[index];
  const { pass, from, to } = loop;
  const { countIn, click, clicksABar, passes, wholeNote } = line;
  const first = Math.max(0, Math.round(countIn - clicksABar * click));
  const inBar = from - barOf(line) * Math.floor(from / barOf(line) + SAME_MOMENT);
  const middle = Math.min(countIn, first + Math.max(0, Math.round(inBar * wholeNote)));
  /** @type {["count" | "line", number, number][]} */
  const parts = [
    ["count", middle, countIn],
    ["count", first, middle],
    ["line", frameOf(line, pass, from), frameOf(line, pass, to)],
  ];
  if (passes[pass].turn !== null) parts.push(["line", frameOf(line, pass, from, true), frameOf(line, pass, to, true)]);
  /** @type {Turn} */
  const turn = { loop, parts: [] };
  for (const [kind, start, end] of parts) {
    if (end <= start) continue;
    const part = stretchOf({ kind, opened, index, pass, from: start, frames: end - start });
    part.turn = turn;
    part.joined = goesOnFrom(turn.parts.at(-1), part);
    // The held note of the count-in leads to the first pass: to another tube or key it would lead astray.
    part.mute = kind === "count" && passes[pass].place !== passes[0].place;
    turn.parts.push(part);
  }
  // The next count-in begins on a click.
  const length = (to - from) * wholeNote;
  const last = turn.parts[turn.parts.length - 1];
  last.tail = Math.max(0, Math.round(Math.ceil(length / click - SAME_MOMENT) * click - length));
  last.frames += last.tail;
  return turn;
}

/**
 * True where a stretch is the same line's sound without a gap.
 * @param {Stretch | undefined} before
 * @param {Stretch} stretch
 */
function goesOnFrom(before, { opened, unit, from }) {
  return before?.opened === opened && before.unit === unit && before.tail === 0 && before.from + before.frames === from;
}

/**
 * The line after a loop that is left: on from its end, and the player's turn once more where it was a part of one.
 * @param {Protocol.Opened} opened
 * @param {Stretch} last of the loop
 */
function afterLoop(opened, last) {
  const { index, pass, turn } = last;
  const line = opened.lines[index];
  const { to } = /** @type {Turn} */ (turn).loop;
  const isWhole = line.passes[pass].turn !== null && to >= barsIn(line, pass) * barOf(line) - SAME_MOMENT;
  const stretch = lineFrom(opened, index, pass, frameOf(line, pass, to, isWhole));
  stretch.joined = goesOnFrom(last, stretch);
  return stretch;
}

/** @param {Stretch} stretch */
function isLastOfTurn(stretch) {
  return stretch.turn?.parts.at(-1) === stretch;
}

/**
 * Leaves the silence out that a loop has at its end.
 * @param {Stretch} stretch
 */
function cutTail(stretch) {
  stretch.frames -= stretch.tail;
  stretch.done = Math.min(stretch.done, stretch.frames);
  stretch.tail = 0;
}

/**
 * Frames until the music of a turn begins; null where it has begun.
 * @param {Stretch} stretch
 * @param {number} gone frames of it that were heard
 */
function toMusic(stretch, gone) {
  if (stretch.kind !== "count" || !stretch.turn) return null;
  const { parts } = stretch.turn;
  const counts = parts.slice(parts.indexOf(stretch)).filter(({ kind }) => kind === "count");
  return counts.reduce((frames, one) => frames + one.frames, -gone);
}

/**
 * A frame of a line in the timetable of another tempo.
 * @param {Protocol.TimetableLine} before
 * @param {Protocol.TimetableLine} line
 * @param {number} pass
 * @param {number} frame
 */
function frameAtTempo(before, line, pass, frame) {
  const scale = line.wholeNote / before.wholeNote;
  if (frame < before.countIn) return frame * scale;
  const [old, now] = [before.passes[pass], line.passes[pass]];
  if (old.turn !== null && now.turn !== null && frame >= old.turn) return now.turn + (frame - old.turn) * scale;
  return now.start + (frame - old.start) * scale;
}

/**
 * Lets a voice that sounds already come in within a few milliseconds. A note that begins here begins as it was rendered, and so does
 * the click.
 * @param {Protocol.Filled} chunk
 * @param {number} sampleRate
 */
function soften({ guide, drone }, sampleRate) {
  const frames = Math.round(0.003 * sampleRate);
  for (const voice of [guide, drone]) {
    if (Math.abs(voice[0] ?? 0) < 1e-4) continue;
    for (let i = 0; i < Math.min(frames, voice.length); i++) voice[i] *= i / frames;
  }
}

/** The turns of a loop, one after another. */
class Turns {
  /** @type {{ opened: Protocol.Opened, loop: Loop, parts: Map<number, Protocol.Filled[]> } | null} */
  #kept = null;

  /**
   * The first stretch of the loop once more; null where nothing is repeated.
   * @param {Protocol.Opened | null} opened
   * @param {number} index
   * @param {Loop | null} loop
   */
  next(opened, index, loop) {
    if (!opened || !loop) return null;
    if (this.#kept?.opened !== opened || this.#kept.loop !== loop) this.#kept = { opened, loop, parts: new Map() };
    const { parts } = turnOf(opened, index, loop);
    for (const part of parts) {
      // Its frames are rendered once: a phone may take long to come to the middle of a line.
      part.kept = this.#kept.parts.get(part.from) ?? [];
      this.#kept.parts.set(part.from, part.kept);
    }
    return parts[0];
  }
}
