// What is played when, in seconds. A course is a list of lines:
//   { of, tempo, click, perBar, start, countIn, end, rest, whole, passes: [{ at, length, turn, place, how, notes }] }
// `of` is the index of the printed line, `start` that of its count-in in the track; everything inside counts from there. `end` is its
// last bar line, `rest` its rest, count-in of the next line included, `until` when the next count-in comes, none after the last. A pass lasts `length`; in echo the player's own `turn`
// of the same length follows. `whole` is a whole note. `notes` are moments of the pass in whole notes: start, length, start, ...

const data = JSON.parse(document.getElementById("course").textContent);

/** A course as the stand follows it, from the one that the core has written. */
function courseOf(lines) {
  return lines.map((line, index) => {
    const seconds = (length) => length * line.whole;
    const countIn = seconds(line.countIn);
    const next = lines[index + 1];
    return {
      of: line.line,
      on: line.on,
      tempo: line.tempo,
      whole: line.whole,
      click: seconds(line.click),
      perBar: Math.round(line.bar / line.click),
      start: line.start,
      countIn,
      end: countIn + seconds(line.length),
      until: next ? next.start - line.start : null,
      rest: line.rest,
      passes: line.passes.map(([at, length, turn, place, how, rhythm]) => ({
        at: countIn + seconds(at),
        length: seconds(length),
        turn: turn === 1,
        place,
        how,
        notes: line.rhythms[rhythm],
      })),
    };
  });
}

/**
 * Where a line is `t` seconds after the start of its count-in:
 *   { phase: "count", beat, left, pass }   counted in, or the end of a rest between two passes; `left` clicks are to come
 *   { phase: "play" | "listen" | "turn", pass, moment }   `moment` in whole notes since the start of the pass
 *   { phase: "between", left, pass }       resting from one pass to the next; `left` seconds are to come
 *   { phase: "rest", left }                resting after the line
 *   { phase: "done" }                      after the last line
 * `pass` is the index of the pass that is played or comes next.
 */
function whereIs(line, t) {
  // A player's clock may be a hair early at the start of a beat.
  const now = Math.max(0, t) + 0.004;
  const counting = (pass) => {
    const left = line.passes[pass].at - now;
    const clicks = Math.max(1, Math.ceil(left / line.click));
    const beat = ((((-clicks) % line.perBar) + line.perBar) % line.perBar) + 1;
    return { phase: "count", beat, left: clicks, pass };
  };
  if (now < line.countIn) return counting(0);
  if (now >= line.end) {
    return line.until === null ? { phase: "done" } : { phase: "rest", left: Math.max(0, line.until - now) };
  }
  const pass = line.passes.findLastIndex((one) => one.at <= now);
  const one = line.passes[pass];
  const since = now - one.at;
  if (since < one.length) return { phase: one.turn ? "listen" : "play", pass, moment: since / line.whole };
  if (one.turn && since < 2 * one.length) {
    return { phase: "turn", pass, moment: (since - one.length) / line.whole };
  }
  const next = line.passes[pass + 1];
  // The rest after the last pass, to the bar line, is over at once.
  if (!next) return { phase: one.turn ? "turn" : "play", pass, moment: one.length / line.whole };
  const left = next.at - now;
  return left <= line.countIn ? counting(pass + 1) : { phase: "between", left, pass: pass + 1 };
}
