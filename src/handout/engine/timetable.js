// Where the music is, by the timetable that the engine and the page's finished tracks share (Protocol.TimetableLine).

/**
 * In `count` a line, or a pass after a rest, is counted in: `left` clicks are to come, this one included. `moment` is in whole notes
 * since the start of the pass. In `between` and `rest` `left` seconds are to come. `pass` is the pass that is played or comes next.
 * @typedef {{ phase: "count", beat: number, left: number, pass: number }
 *   | { phase: "play" | "listen" | "turn", pass: number, moment: number }
 *   | { phase: "between", pass: number, left: number }
 *   | { phase: "rest", left: number }
 *   | { phase: "done" }} Whereabouts
 */

/** Seconds that a player's clock may be early at the start of a beat. */
const CLOCK_ERROR = 0.004;

/**
 * The frame of a line at which the next line's count-in begins; null for the last line.
 * @param {Protocol.TimetableLine[]} lines
 * @param {number} index
 */
function nextCountIn(lines, index) {
  return index + 1 < lines.length ? lines[index + 1].start - lines[index].start : null;
}

/**
 * @param {Protocol.TimetableLine[]} lines
 * @param {number} index of the line
 * @param {number} frame since the start of its count-in
 * @param {number} sampleRate
 * @returns {Whereabouts}
 */
function whereIs(lines, index, frame, sampleRate) {
  const line = lines[index];
  const now = Math.max(0, frame) + CLOCK_ERROR * sampleRate;
  if (now < line.countIn) return counting(line, 0, now);
  if (now >= line.barLine) {
    const next = nextCountIn(lines, index);
    return next === null ? { phase: "done" } : { phase: "rest", left: Math.max(0, next - now) / sampleRate };
  }
  const number = line.passes.findLastIndex(({ start }) => start <= now);
  const pass = line.passes[number];
  const { start, turn, end } = pass;
  if (now < (turn ?? end)) {
    return { phase: turn === null ? "play" : "listen", pass: number, moment: (now - start) / line.wholeNote };
  }
  if (turn !== null && now < end) return { phase: "turn", pass: number, moment: (now - turn) / line.wholeNote };
  const next = line.passes[number + 1];
  // The last pass is over and its bar is not full yet.
  if (!next) {
    return { phase: turn === null ? "play" : "turn", pass: number, moment: (end - (turn ?? start)) / line.wholeNote };
  }
  const left = next.start - now;
  return left <= line.countIn ? counting(line, number + 1, now) : { phase: "between", pass: number + 1, left: left / sampleRate };
}

/**
 * @param {Protocol.TimetableLine} line
 * @param {number} pass that is counted in
 * @param {number} now
 * @returns {Whereabouts}
 */
function counting(line, pass, now) {
  const left = Math.max(1, Math.ceil((line.passes[pass].start - now) / line.click));
  const perBar = line.clicksABar;
  const beat = (((-left % perBar) + perBar) % perBar) + 1;
  return { phase: "count", beat, left, pass };
}
