// The page's side of the engine: a promise for each request. protocol.d.ts declares requests and answers.
//
// The page is one file that may be opened from a folder (file:), from a server on the local network (http:) or from the web, so it
// fetches nothing. Rust's `handout::engine` puts these scripts into the page as one text, with worker.js as a string named
// ENGINE_WORKER, and the WebAssembly module as an element of letters (base64) that browsers do not run. The page's policy (W3C Content
// Security Policy) needs, beside the hash of its script, `'wasm-unsafe-eval'` in script-src, `worker-src blob:`, and `media-src blob:`
// for the player.
//
// Requests are answered in the order they are made. What a person wrote wrongly is an answer that says so (`ok` is false). A promise is
// rejected with EngineBroken only for our own bugs: the module has trapped, and the worker has started it anew. What was open must then
// be opened again; finished tracks still play.

/** The engine broke down: a bug of ours. Its message says where. */
class EngineBroken extends Error {}

class Engine {
  /** Frames a second that the engine is ready for. */
  sampleRate = 0;
  /** @type {Worker} */
  #worker;
  #nextId = 1;
  /** @type {Map<number, { resolve: (answer: any) => void, reject: (error: Error) => void }>} */
  #waiting = new Map();
  /** Why the worker answers nothing any more. @type {string | null} */
  #gone = null;

  /** @param {Worker} worker */
  constructor(worker) {
    this.#worker = worker;
    worker.onmessage = ({ data }) => this.#receive(data);
    worker.onerror = (event) => {
      event.preventDefault?.();
      this.#gone = event.message || "the worker could not be started";
      this.#fail(this.#gone);
    };
    worker.onmessageerror = () => this.#fail("a message could not be read");
  }

  /** True where the browser has what the engine needs. `start` may still fail: a policy, an old phone. */
  static possible() {
    return ["WebAssembly", "Worker", "DecompressionStream", "Blob"].every((name) => name in globalThis);
  }

  /**
   * Starts a worker from its text, and the engine in it.
   * @param {{ worker: string, wasm: string | Uint8Array }} texts
   */
  static async start({ worker, wasm }) {
    const address = URL.createObjectURL(new Blob([worker], { type: "text/javascript" }));
    let engine;
    try {
      engine = new Engine(new Worker(address));
      const { sampleRate } = await engine.ask("start", { wasm });
      engine.sampleRate = sampleRate;
    } catch (error) {
      engine?.close();
      throw error;
    } finally {
      URL.revokeObjectURL(address);
    }
    return engine;
  }

  /** @param {Protocol.OpenRequest} request */
  open(request) {
    return this.ask("open", request);
  }

  /** @param {Protocol.StripsRequest} request */
  strips(request) {
    return this.ask("strips", request);
  }

  /** @param {Protocol.MarkRequest} request */
  mark(request) {
    return this.ask("mark", request);
  }

  /** @param {Protocol.BeginRequest} request */
  begin(request) {
    return this.ask("begin", request);
  }

  /** @param {Protocol.FramesRequest} request */
  fill(request) {
    return this.ask("fill", request);
  }

  /** @param {Protocol.FramesRequest} request */
  mix(request) {
    return this.ask("mix", request);
  }

  /** @param {Protocol.EndRequest} request */
  end(request) {
    return this.ask("end", request);
  }

  /** Ends the worker. Requests without an answer are rejected. */
  close() {
    this.#worker.terminate();
    this.#gone = "the engine was closed";
    this.#fail(this.#gone);
  }

  /**
   * @template {keyof Protocol.Exchanges} What
   * @param {What} what
   * @param {Protocol.Exchanges[What]["request"]} request
   * @returns {Promise<Protocol.Exchanges[What]["answer"]>}
   */
  ask(what, request) {
    // A worker that is gone would keep it waiting for ever.
    if (this.#gone !== null) return Promise.reject(new EngineBroken(this.#gone));
    return new Promise((resolve, reject) => {
      const id = this.#nextId++;
      this.#waiting.set(id, { resolve, reject });
      this.#worker.postMessage({ ...request, id, do: what });
    });
  }

  /** @param {Protocol.Reply} reply */
  #receive(reply) {
    const waiting = this.#waiting.get(reply.id);
    this.#waiting.delete(reply.id);
    if ("broken" in reply) waiting?.reject(new EngineBroken(reply.broken));
    else waiting?.resolve(reply.answer);
  }

  /** @param {string} message */
  #fail(message) {
    const all = [...this.#waiting.values()];
    this.#waiting.clear();
    for (const { reject } of all) reject(new EngineBroken(message));
  }
}
