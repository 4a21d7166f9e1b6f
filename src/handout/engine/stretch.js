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
  return { ...what, unit, ...scheduled, next: index + 1, follow: opened };
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
 * What follows; null after the last line. A loop would be here: the stretch that is played, counted in once more.
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
