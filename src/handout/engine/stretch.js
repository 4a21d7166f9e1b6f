// What lies in the player's queue: a count-in by itself, a line or the rest of one, a rest.

/**
 * Each begins on the frame of the device's clock where the one before it ends.
 * @typedef {object} Stretch
 * @property {"count" | "line" | "rest"} kind
 * @property {Protocol.Opened} opened
 * @property {number} index of the line, or of the line before the rest
 * @property {number} pass that is counted in, or that a line begins at
 * @property {number} unit
 * @property {number} from frame of the unit at which it begins
 * @property {number} frames
 * @property {number | null} start frame of the device's clock; null until it is known
 * @property {number} done frames that are scheduled
 * @property {number} chunks how many were rendered
 * @property {number | null} performance
 * @property {number} early frames that the engine renders before the first one wanted
 * @property {Set<AudioBufferSourceNode>} sources
 * @property {GainNode | null} fader
 * @property {boolean} gone true if it was taken out of the queue
 * @property {number} next after a rest: the line that follows
 * @property {Protocol.Opened} follow after a rest: where that line is from
 * @property {Turn | null} turn of a loop that it is a part of
 * @property {number} tail frames of silence at its end
 * @property {boolean} joined true if it goes on without a gap where the one before ends
 * @property {boolean} mute true if its held note is left out
 * @property {Protocol.Filled[] | null} kept what a loop has rendered already
 */

/**
 * @param {Pick<Stretch, "kind" | "opened" | "index" | "pass" | "from" | "frames">} what
 * @returns {Stretch}
 */
function stretchOf(what) {
  const { kind, opened, index } = what;
  const unit = 2 * index + (kind === "rest" ? 2 : 1);
  const scheduled = {
    start: null,
    done: 0,
    chunks: 0,
    performance: null,
    early: 0,
    sources: new Set(),
    fader: null,
    gone: false,
  };
  const once = { turn: null, tail: 0, joined: false, mute: false, kept: null };
  return { ...what, unit, ...scheduled, ...once, next: index + 1, follow: opened };
}

/**
 * A line from the count-in of one of its passes. Where no count-in stands before that pass, the line's own is played first.
 * @param {Protocol.Opened} opened
 * @param {number} index
 * @param {number} pass
 */
function countedIn(opened, index, pass) {
  const line = opened.lines[index];
  const { countIn, passes } = line;
  if (pass <= 0 || pass >= passes.length) return lineFrom(opened, index, 0, 0);
  const { start } = passes[pass];
  if (start - passes[pass - 1].end >= countIn) return lineFrom(opened, index, pass, start - countIn);
  return stretchOf({ kind: "count", opened, index, pass, from: 0, frames: countIn });
}

/**
 * @param {Protocol.Opened} opened
 * @param {number} index
 * @param {number} pass
 * @param {number} from
 */
function lineFrom(opened, index, pass, from) {
  return stretchOf({ kind: "line", opened, index, pass, from, frames: opened.lines[index].frames - from });
}

/**
 * The rest after a line; null after the last.
 * @param {Protocol.Opened} opened
 * @param {number} index
 */
function restAfter(opened, index) {
  const { frames, signs } = opened.lines[index];
  const until = nextCountIn(opened.lines, index);
  if (until === null) return null;
  const rest = stretchOf({ kind: "rest", opened, index, pass: 0, from: 0, frames: until - frames });
  // There is nothing to render where no signs are.
  if (!signs) rest.done = rest.frames;
  return rest;
}

/**
 * What follows; null after the last line. What follows in a loop is in loop.js.
 * @param {Stretch} stretch
 */
function following({ kind, opened, index, pass, next, follow }) {
  if (kind === "count") return lineFrom(opened, index, pass, opened.lines[index].passes[pass].start);
  if (kind === "line") return restAfter(opened, index);
  return next < follow.lines.length ? countedIn(follow, next, 0) : null;
}

/**
 * The pass that sounds, or comes next, at a frame of a line.
 * @param {Protocol.TimetableLine} line
 * @param {number} frame
 */
function passAt({ passes }, frame) {
  const next = passes.findIndex(({ end }) => frame < end);
  return next < 0 ? passes.length - 1 : next;
}

/**
 * What is heard. `frame` is that of the unit, not rounded; while a pass after the first is counted in by the line's own count-in it is a
 * frame of that, so `pass` says which. In a rest, `index` is the line before it and `leftToCount` the seconds to the next count-in, null
 * while it waits. While a loop is counted in, `toMusic` is how many frames are left of that. `lines` is the timetable that all this is
 * meant in.
 * @typedef {object} Moment
 * @property {"line" | "rest" | null} where
 * @property {number} index
 * @property {number} pass
 * @property {number} frame
 * @property {number | null} leftToCount
 * @property {number | null} toMusic
 * @property {Protocol.TimetableLine[]} lines
 */

/**
 * What is heard of a stretch at a frame of the clock.
 * @param {Stretch} stretch
 * @param {number} heard
 * @param {number} sampleRate
 * @returns {Moment}
 */
function heardOf(stretch, heard, sampleRate) {
  const { kind, opened, index, start, from, frames, tail, turn } = stretch;
  const { lines } = opened;
  const gone = start === null ? 0 : Math.min(Math.max(heard - start, 0), frames);
  const here = { index, lines, leftToCount: null, toMusic: null };
  if (kind === "rest") return { ...here, where: kind, pass: 0, frame: gone, leftToCount: (frames - gone) / sampleRate };
  // What comes after a loop is not shown while it is repeated.
  const most = turn ? frames - tail - CLOCK_ERROR * sampleRate - 1 : frames;
  const frame = from + Math.min(gone, most);
  const pass = kind === "count" || turn ? stretch.pass : passAt(lines[index], frame);
  return { ...here, where: "line", pass, frame, toMusic: toMusic(stretch, gone) };
}

/**
 * The line that a rest at this place would be held before; null where there is no rest to hold.
 * @param {Moment} moment
 * @param {Stretch[]} queue
 * @param {Protocol.TimetableLine[]} lines
 * @param {number} sampleRate
 */
function nextToHold({ where, index, frame }, queue, lines, sampleRate) {
  let next = null;
  if (where === "rest") next = queue.find((one) => one.kind === "rest" && one.index === index)?.next ?? null;
  // What a page shows as a rest can be held, even where its clock is early.
  else if (where && whereIs(lines, index, frame, sampleRate).phase === "rest") next = index + 1;
  else if (where === "line" && index > 0 && frame < lines[index].countIn) next = index;
  // After the last rest of a routine that was shortened meanwhile, nothing comes.
  return next === null || next >= lines.length ? null : next;
}

/**
 * Where a line of the teacher's is in other lines: the same, or the first after it that is played. `next` is the line after it.
 * @param {Protocol.TimetableLine} line
 * @param {Protocol.TimetableLine[]} lines
 * @param {boolean} resting true in the rest after the line
 */
function foundAgain({ of, rung = 0 }, lines, resting) {
  const last = lines.length - 1;
  const first = lines.findIndex((line) => line.of >= of);
  const found = first >= 0 && lines[first + rung]?.of === of ? first + rung : first;
  const same = found >= 0 && lines[found].of === of;
  const next = found < 0 ? last + 1 : same ? found + 1 : found;
  const at = found < 0 ? last : same || !resting ? found : Math.max(found - 1, 0);
  return { at, next, same };
}
