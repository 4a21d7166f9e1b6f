// The page's engine under Node.js: client.js and worker.js as they are, with Node's threads in place of a browser's workers.
import { readFileSync } from "node:fs";
import { Worker as Thread } from "node:worker_threads";

const place = new URL("../../src/handout/engine/", import.meta.url);
const text = (name) => readFileSync(new URL(name, place), "utf8");

/** What a browser has in a worker and Node has not. */
const SHIM = `
const { parentPort } = require("node:worker_threads");
globalThis.onmessage = null;
globalThis.postMessage = (message, { transfer } = {}) => parentPort.postMessage(message, transfer);
parentPort.on("message", (data) => globalThis.onmessage({ data }));
`;

class NodeWorker {
  /** @type {((event: { data: any }) => void) | undefined} */
  onmessage;
  /** @type {((event: { message: string }) => void) | undefined} */
  onerror;

  constructor(worker) {
    this.thread = new Thread(SHIM + worker, { eval: true });
    this.thread.on("message", (data) => this.onmessage?.({ data }));
    this.thread.on("error", (error) => this.onerror?.({ message: String(error.stack ?? error) }));
  }

  postMessage(message) {
    this.thread.postMessage(message);
  }

  terminate() {
    this.thread.terminate();
  }
}

/**
 * The page's `Engine`, whose workers are made from their text.
 * @type {{ Engine: any, EngineBroken: typeof Error }}
 */
export const { Engine, EngineBroken } = new Function(
  "Worker",
  "URL",
  "Blob",
  `${text("client.js")}; return { Engine, EngineBroken };`,
)(
  NodeWorker,
  { createObjectURL: (blob) => blob.text, revokeObjectURL() {} },
  class {
    constructor([text]) {
      this.text = text;
    }
  },
);

/** An engine started from a module's file, packed or not. */
export function start(path, options = {}) {
  return Engine.start({ worker: text("worker.js"), wasm: readFileSync(path), ...options });
}
