// Tracks as WAV files, with the very frames that `leadpipe render` writes: streamed to disk where the browser can.

/**
 * The head of a WAV file (RIFF, 16 bits, one channel).
 * @param {number} frames
 * @param {number} rate
 */
function waveHead(frames, rate) {
  const head = new DataView(new ArrayBuffer(44));
  const letters = (/** @type {number} */ at, /** @type {string} */ word) => {
    for (const [index, letter] of [...word].entries()) head.setUint8(at + index, letter.charCodeAt(0));
  };
  letters(0, "RIFF");
  head.setUint32(4, 36 + 2 * frames, true);
  letters(8, "WAVEfmt ");
  head.setUint32(16, 16, true);
  head.setUint16(20, 1, true);
  head.setUint16(22, 1, true);
  head.setUint32(24, rate, true);
  head.setUint32(28, 2 * rate, true);
  head.setUint16(32, 2, true);
  head.setUint16(34, 16, true);
  letters(36, "data");
  head.setUint32(40, 2 * frames, true);
  return new Uint8Array(head.buffer);
}

/**
 * Renders a take, chunk after chunk.
 * @param {Engine} engine
 * @param {string} routine
 * @param {Protocol.Take} take
 * @param {(bytes: Uint8Array<ArrayBuffer>) => unknown} put
 * @param {(part: number) => boolean} goesOn is told how far it is, and says whether to go on
 */
async function renderTake(engine, routine, take, put, goesOn) {
  const opened = await engine.open({ routine, take });
  if (!opened.ok) throw new Error(problemWords(opened.problems[0]));
  const last = opened.lines[opened.lines.length - 1];
  const frames = last.start + last.frames;
  await put(waveHead(frames, engine.sampleRate));
  let done = 0;
  for (let unit = 0; unit < 2 * opened.lines.length; unit++) {
    const begun = await engine.begin({ opened: opened.id, unit });
    if (!begun.ok) throw new Error(problemWords(begun.problems[0]));
    for (;;) {
      const { mix } = await engine.mix({ performance: begun.performance, frames: 2 ** 17 });
      if (mix.length === 0) break;
      await put(new Uint8Array(mix.buffer, mix.byteOffset, mix.byteLength));
      done += mix.length;
      if (!goesOn(done / frames)) {
        await engine.end({ performance: begun.performance });
        return false;
      }
    }
  }
  return true;
}
