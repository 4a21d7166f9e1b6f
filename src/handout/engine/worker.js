// The engine in a worker of its own: answers the messages of client.js one after another.
"use strict";

/** @type {WebAssembly.Module | undefined} */
let compiled;
/** @type {Protocol.Exports} */
let engine;

/**
 * What a module imports. The engine imports nothing; what unpacks files in the desk's workshop could ask for random numbers, and
 * never does.
 * @param {WebAssembly.Module} module
 */
function importsOf(module) {
  /** @type {WebAssembly.Imports} */
  const imports = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module)) {
    imports[from] = imports[from] || {};
    imports[from][name] = () => {
      throw new Error(`${name} is not there`);
    };
  }
  return imports;
}

/** Makes an engine from the module that was compiled. */
async function instantiate() {
  if (!compiled) return;
  const instance = await WebAssembly.instantiate(compiled, importsOf(compiled));
  engine = /** @type {Protocol.Exports} */ (instance.exports);
}

/**
 * What the engine said when it broke down; a fresh one takes its place.
 * @param {any} error
 */
async function breakdown(error) {
  let message = String(error?.message ?? error);
  try {
    const { memory, last_words, last_words_length } = engine;
    const length = last_words_length();
    if (length > 0) message = new TextDecoder().decode(new Uint8Array(memory.buffer, last_words(), length));
  } catch {
    // There was no engine yet, or it cannot speak any more.
  }
  await instantiate();
  return message;
}

/**
 * The module from base64 or bytes, gzipped or not.
 * @param {string | Uint8Array} wasm
 */
async function unpacked(wasm) {
  const bytes =
    typeof wasm === "string" ? Uint8Array.from(atob(wasm.trim()), (letter) => letter.charCodeAt(0)) : new Uint8Array(wasm);
  const isGzip = bytes[0] === 0x1f && bytes[1] === 0x8b;
  if (!isGzip) return bytes;
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

/**
 * Asks the engine in JSON.
 * @param {object} request
 */
function ask(request) {
  const { memory } = engine;
  const text = new TextEncoder().encode(JSON.stringify(request));
  const at = engine.room(text.length);
  new Uint8Array(memory.buffer, at, text.length).set(text);
  const length = engine.ask();
  return JSON.parse(new TextDecoder().decode(new Uint8Array(memory.buffer, engine.answer(), length)));
}

/**
 * The next frames of a performance, copied out of the engine's memory.
 * @param {Protocol.FramesRequest} request
 * @returns {Protocol.Filled}
 */
function fill({ performance, frames }) {
  const count = engine.fill(performance, Math.max(1, frames));
  /** @param {number} voice */
  const stem = (voice) => new Float32Array(engine.memory.buffer, engine.stem(voice), count).slice();
  return { ok: true, frames: count, guide: stem(0), click: stem(1), drone: stem(2) };
}

/**
 * @param {Protocol.FramesRequest} request
 * @returns {Protocol.Mixed}
 */
function mix({ performance, frames }) {
  const count = engine.mix(performance, Math.max(1, frames));
  return { ok: true, frames: count, mix: new Int16Array(engine.memory.buffer, engine.steps(), count).slice() };
}

/** @param {{ do: string, wasm?: any, performance?: any, frames?: any }} request */
async function answerTo(request) {
  if (request.do === "fill") return fill(/** @type {Protocol.FramesRequest} */ (request));
  if (request.do === "mix") return mix(/** @type {Protocol.FramesRequest} */ (request));
  if (request.do !== "start") return ask(request);
  const { wasm, ...rest } = request;
  compiled = await WebAssembly.compile(await unpacked(wasm));
  await instantiate();
  return ask(rest);
}

/** @param {{ id: number, do: string }} message */
async function handle({ id, ...request }) {
  try {
    const answer = await answerTo(request);
    const arrays = [answer.guide, answer.click, answer.drone, answer.mix].filter((array) => ArrayBuffer.isView(array));
    postMessage({ id, answer }, { transfer: arrays.map((array) => array.buffer) });
  } catch (error) {
    postMessage({ id, broken: await breakdown(error).catch(String) });
  }
}

/** Everything before it has been answered, also what had to be waited for. */
let answered = Promise.resolve();
onmessage = ({ data }) => {
  answered = answered.then(() => handle(data));
};
