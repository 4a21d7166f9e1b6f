// Runs in the page: an engine with a routine open, a player, and what is heard of it, recorded from a tap on. Everything becomes a global
// of the page.

export const startRecording = async ([routine]) => {
  const RECORDER = `registerProcessor("recorder", class extends AudioWorkletProcessor {
        process([[samples]], [[out]]) {
          if (samples) { out.set(samples); this.port.postMessage([currentFrame, samples.slice()]); }
          return true;
        }
      });`;
  const engine = await start();
  const context = new AudioContext({ sampleRate: 44100 });
  await context.audioWorklet.addModule(URL.createObjectURL(new Blob([RECORDER], { type: "text/javascript" })));
  const recorder = new AudioWorkletNode(context, "recorder", {
    outputChannelCount: [1],
    channelCount: 1,
    channelCountMode: "explicit",
  });
  recorder.connect(context.destination);
  const blocks = new Map();
  recorder.port.onmessage = ({ data: [frame, samples] }) => blocks.set(frame, samples);
  const player = new Player(engine, { context, output: recorder });
  const said = [];
  for (const what of ["state", "late", "fault"]) {
    player.addEventListener(what, (event) => {
      const { detail } = /** @type {CustomEvent} */ (event);
      said.push({ what, at: context.currentTime, ...JSON.parse(JSON.stringify(detail)) });
    });
  }
  const { load } = player;
  player.load = (given) => {
    globalThis.opened = given;
    return load.call(player, given);
  };
  const opened = await engine.open({ routine, sampleRate: player.sampleRate });
  const { strips } = await engine.strips({ width: 190 });
  /** What a page can show of what is heard: lines, beats, notes, seconds of rest. Each is told once. */
  const seen = {};
  const see = (what, key, detail) => {
    if (seen[what] === key) return;
    seen[what] = key;
    said.push({ what, at: context.currentTime, ...detail });
  };
  const look = () => {
    const { where, index, frame, leftToCount } = player.position();
    if (player.state !== "playing" || where === null || (where === "line" && frame === 0)) return;
    const { lines } = globalThis.opened;
    const line = lines[index];
    if (where === "line") see("line", index, { index, line });
    const at = where === "line" ? frame : nextCountIn(lines, index) - leftToCount * player.sampleRate;
    const now = whereIs(lines, index, at, player.sampleRate);
    if (now.phase === "rest" && now.left > 0) {
      see("rest", `${index} ${Math.ceil(now.left)}`, { index, next: index + 1, left: now.left });
    }
    if (now.phase === "count") {
      see("beat", `${index} count ${now.left}`, { index, beat: now.beat, countIn: true, last: now.left === 1 });
    }
    if (now.phase !== "play") return;
    const clicks = Math.floor((now.moment * line.wholeNote) / line.click);
    see("beat", `${index} ${now.pass} ${clicks}`, {
      index,
      beat: (clicks % line.clicksABar) + 1,
      countIn: false,
      last: false,
    });
    const { moments } = strips[index].places.systems[0];
    const note = moments.findLastIndex(([, moment]) => moment <= now.moment);
    see("note", `${index} ${now.pass} ${note}`, { index, note });
  };
  setInterval(look, 5);
  await player.load(opened);
  /** What was heard from a frame on. */
  const heard = (from, count) => {
    const samples = new Float32Array(count);
    for (let i = 0; i < count; i++) samples[i] = blocks.get((from + i) & ~127)?.[(from + i) & 127] ?? NaN;
    return samples;
  };
  const firstSound = () => {
    for (const frame of [...blocks.keys()].sort((a, b) => a - b)) {
      const at = blocks.get(frame).findIndex((x) => x !== 0);
      if (at >= 0) return frame + at;
    }
    return null;
  };
  /** All frames of a unit. */
  const unit = async (number, voices = ["guide"]) => {
    const { performance, frames } = await engine.begin({ unit: number });
    const sum = new Float32Array(frames);
    let at = 0;
    for (;;) {
      const filled = await engine.fill({ performance, frames: 1 << 16 });
      if (filled.frames === 0) return sum;
      for (const voice of voices) for (let i = 0; i < filled.frames; i++) sum[at + i] += filled[voice][i];
      at += filled.frames;
    }
  };
  const until = async (so, seconds = 20) => {
    const end = performance.now() + 1000 * seconds;
    while (!so()) {
      if (performance.now() > end) throw new Error(`not in ${seconds} s: ${so}; ${JSON.stringify(said.slice(-5))}`);
      await new Promise((done) => setTimeout(done, 10));
    }
  };
  const longest = { task: 0 };
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) longest.task = Math.max(longest.task, duration);
  }).observe({ type: "longtask", buffered: true });
  Object.assign(globalThis, { engine, context, player, opened, said, blocks, heard, firstSound, unit, until, longest });
  document.querySelector("button").onclick = () => {
    globalThis.tapped = performance.now();
    player.play(0);
  };
};
