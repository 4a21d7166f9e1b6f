// The engine in a worker of its own: takes the messages that client.js describes, one after another.
"use strict";

let module, instance, sampleRate;

/** What the engine said when it broke down, and a fresh one in its place. */
async function brokenDown(error) {
  let said = String(error?.message ?? error);
  try {
    const { memory, last_words, last_words_length } = instance.exports;
    const length = last_words_length();
    if (length > 0) said = new TextDecoder().decode(new Uint8Array(memory.buffer, last_words(), length));
  } catch {
    // It was never there, or cannot speak any more.
  }
  if (module) instance = await WebAssembly.instantiate(module, {});
  return said;
}

async function unpacked(wasm) {
  let bytes = wasm;
  if (typeof wasm === "string") {
    const letters = atob(wasm.trim());
    bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
  }
  bytes = new Uint8Array(bytes);
  // gzip, or the module itself.
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return bytes;
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/** Asks the engine in JSON. */
function ask(request) {
  const { memory, room, ask } = instance.exports;
  const text = new TextEncoder().encode(JSON.stringify(request));
  const at = room(text.length);
  new Uint8Array(memory.buffer, at, text.length).set(text);
  const length = ask();
  return JSON.parse(new TextDecoder().decode(new Uint8Array(memory.buffer, instance.exports.answer(), length)));
}

/** Frames of a performance, copied out of the engine's memory. */
function frames(exports, { performance, frames }) {
  const wish = Math.min(Math.max(Math.trunc(frames) || 0, 1), 2 ** 18);
  const count = exports.fill(performance, wish);
  const stems = ["guide", "click", "drone"].map((_, voice) =>
    new Float32Array(exports.memory.buffer, exports.stem(voice), count).slice(),
  );
  return { ok: true, frames: count, guide: stems[0], click: stems[1], drone: stems[2] };
}

function mixed(exports, { performance, frames }) {
  const wish = Math.min(Math.max(Math.trunc(frames) || 0, 1), 2 ** 18);
  const count = exports.mix(performance, wish);
  return { ok: true, frames: count, mix: new Int16Array(exports.memory.buffer, exports.steps(), count).slice() };
}

const does = {
  async start(request) {
    module = await WebAssembly.compile(await unpacked(request.wasm));
    instance = await WebAssembly.instantiate(module, {});
    sampleRate = request.sampleRate;
    return ask({ do: "start", sampleRate });
  },
  fill: (request) => frames(instance.exports, request),
  mix: (request) => mixed(instance.exports, request),
};

async function handle({ id, ...request }) {
  try {
    const known = does[request.do];
    const answer = known ? await known(request) : ask(request);
    const arrays = [answer.guide, answer.click, answer.drone, answer.mix].filter((array) => ArrayBuffer.isView(array));
    postMessage({ id, answer }, { transfer: arrays.map((array) => array.buffer) });
  } catch (error) {
    postMessage({ id, broken: await brokenDown(error).catch(String) });
  }
}

// One after another, also across what has to be waited for.
let last = Promise.resolve();
onmessage = ({ data }) => {
  last = last.then(() => handle(data));
};
