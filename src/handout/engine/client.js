// The page's side of the engine: one promise for each thing it is asked.
//
// HOW IT GETS IN. The page is one file that may be opened from a folder (file:), from a server on the local network
// (http: by an address of numbers) or from the web, so nothing is fetched. Rust's `handout::engine` puts two things into the
// page: `engine::SCRIPT`, these files joined as one text (worker.js in it as a string named ENGINE_WORKER), which the page's own
// inline module script begins with, and `engine::data_block()`, a `<script type="application/wasm" id="leadpipe-engine">` that holds
// the WebAssembly module packed (gzip) in letters (base64); browsers do not run a script of that type. The page's policy (W3C Content
// Security Policy) needs, beside the hash of its script: `'wasm-unsafe-eval'` in script-src, and `worker-src blob:`. Player needs
// `media-src blob:` where media-src or default-src is named.
//
//   if (Engine.possible()) {
//     const engine = await Engine.start({ worker: ENGINE_WORKER, wasm: document.getElementById("leadpipe-engine").textContent });
//     const opened = await engine.open({ routine, pencil, take: { tempo: "85%" } });
//   }
//
// `possible()` is false where there is no WebAssembly, no Worker or no DecompressionStream, and `start` may still be rejected (a
// policy, an old phone): then the page plays its finished tracks.
//
// WHAT IS ASKED AND ANSWERED. Each method sends one message { id, do, ... } to the worker and gets one { id, answer } or { id, broken }
// back, in the order they were asked. What a person wrote wrongly is an answer, { ok: false, faults: [Fault] }. A promise is
// rejected with EngineBroken only for bugs of ours: the module has trapped (`message` says where); the worker has started it
// anew, what was opened must be opened again, and tracks still play.
//
//   Fault = { in: "routine" | "pencil" | "take" | "request", row, column (from 1; null where there is no place), message, label, hint,
//             also: null | { row, column, message } }
//           message begins small and ends without a full stop; hint says what would be right, or is null.
//
// open({ routine, pencil, take, sampleRate, age }) -> Opened
//   routine    text of a routine file
//   pencil     text of a pencil file, or null. Marks that do not fit are told in pencil.faults and left out; others are applied.
//              Of a text that is no pencil nothing is applied: that is a fault, and ok is false.
//   take       all may be left out: { tempo: "100%" | "72", key: 0, guide: "together" | "echo" | "off", a4: "440",
//              temperament: "equal" | "just" | "horn", signs: true }; numbers do as well as texts
//   sampleRate frames a second, 44100 to 192000; left out, 44100, at which the command line's tracks are made
//   age        "8-10" | "11-13" | "14-16" | "adult": for advice on breath; may be left out
//   strips, mark and marks mean what was opened last; of the last four any unit can be begun, and what was begun goes on.
//
//   Opened = { ok: true, id, title, purpose, words, instrument, comfortableTop, reach,
//              take: { words, tempo, clicks, key, guide, a4 },   words: "at 61.2 clicks a minute"; clicks: the base tempo, a number
//              sampleRate, frames, seconds,                      of the whole track
//              lines: [Line],       those that are played, in order
//              course,              what is played when, as JSON for the stand (sheet::course)
//              leftOut: [{ of, name }],      the teacher's lines that a pencil or the key leaves out
//              notices: [text],     what the take could not do as asked
//              findings: [Finding], what the checker has to say of this version at this take
//              summary: { seconds, playingSeconds, restSeconds, lowest, highest, breaths },
//              pencil: null | { player, marks: [Mark], faults: [Fault] } }
//   Finding = { severity: "error" | "warning" | "advice", rule, in: "routine" | "pencil", of: index in the teacher's routine or null,
//               row, column, message, hint }
//   Mark    = { index, of: null for the whole routine, "nowhere" where its line is not found, heading, words, kind (its name in the file), typed (as it is typed),
//               note (from 1, or null), date }
//   Line = { index,                 its place here, from 0; its unit is 2 * index + 1, the rest before it 2 * index, after it 2 * index + 2
//            of,                    index in the teacher's routine; `of + 1` is its printed number
//            number, name, purpose, say, words, on: "horn" | "mouthpiece" | "air",
//            tempo (clicks a minute), meter: "4/4", clicksABar, guide,
//            firstFrame,            of its count-in, from the start of the track
//            frames,                to the end of its fade: what its unit holds; `barLine`: to its last bar line
//            countIn,               frames of the count-in
//            beats: [{ frame, beat (from 1, in its bar), countIn: true | false, click: true where it is heard }],
//            passes: [Pass],
//            rest: null | { unit, frames (of that unit: the silence up to the next count-in), seconds (of the whole rest, count-in
//                    included), signs: [{ frame, sign: "horn down" | "horn up" }] },
//            marks: [index of Mark] }
//   Pass = { frame, end, turn: null | frame at which the pupil's turn begins, label ("on 1-2", "3 half steps down" or null),
//            halfSteps, tube, articulation, repetition, sheet, notes: [Note] }
//   Note = { frame, frames, breath (frames at its end, or 0), kind: "note" | "in" | "out", written: "F#4", sounding: "E4",
//            fingering: "1-2-3" or null, partial, joined: "fresh" | "slurred" | "bent", note, id }
//   All frames in a line count from the first frame of its unit, at sampleRate. In an echo turn the notes of the pass are played again
//   from `turn` on. `sheet` is the pass of the teacher's sheet that shows this one (from 0), null if none does; `id` is "line.pass.note"
//   from 1, as in the sheet's SVG: its heads are `[data-note^="${id}."]`; null if it is not on the sheet.
//
// strips({ width, lines, passes, fingerings }) -> { ok: true, strips: [Strip], glyphs }
//   The printed lines of what is open, as the teacher wrote them, at this take's key; the pencil is drawn over.
//   width in points, as wide as the drawing's viewBox (a staff space is 4.96: 270 on a phone); lines: indices `of`, left out: all;
//   passes: "all" | "ends" (left out: "all"); fingerings: "by level" | "unusual" | "all" | "none" (left out: "by level")
//   Strip = { of, svg, places, width, height, notes: [{ id, head (from 0), x, y }], words }; places: where the music is at which
//   moment, as JSON (sheet::inline); glyphs: what the drawings use, to stand in the page once; words say what is drawn, for those who do not see it
//
// mark({ pencil, of, mark, index, erase, date, player }) -> { ok: true, pencil, said }
//   Writes a mark into a pencil's text or takes one back; nothing else of the text changes, and what is open stays as it was.
//   pencil: the text, or null for a new one; of: index of the teacher's line, null for the whole routine; mark: the words of
//   `leadpipe pencil` ("slower", "breath after 4", "rest 2 bars"); erase: true takes back the mark of those words, or, with `index` in
//   place of of and mark, the Mark of that index; date: "2026-11-25"; player: a nickname, for a new pencil. Needs an open routine.
//   said: "3 Slurs on one tube: slower (85 % of the tempo)."
//
// marks({ pencil }) -> { ok: true, player, marks: [Mark], faults: [Fault], vocabulary }
//   What a pencil's text says over the open routine, without applying it. ok is true even if there are faults.
//
// begin({ opened, unit, from, volume }) -> { ok: true, performance, from, frames }
//   opened: the id of an Opened, left out: the last; from: a frame of the unit, brought down to a whole block of 64; frames: what is left
// fill({ performance, frames }) -> { ok: true, frames, guide, click, drone }   Float32Arrays, `frames` long each; 0 frames: it is over
// mix({ performance, frames })  -> { ok: true, frames, mix }        an Int16Array: what `leadpipe render` writes, sample for sample
// end({ performance })          -> { ok: true }                    needed only for one that was not played out
//   Several may be begun at once; each is played out in turn, with fill or with mix. `frames` is a wish: rounded up to whole blocks
//   of 64, at most 2^18. volume: ["click=-6dB", "drone=off"], as on the command line; it counts for both. Units are counted from
//   0: 0 is the half second before the first line.

/** The engine is no longer what it was: a bug of ours. Its message says where. */
class EngineBroken extends Error {}

class Engine {
  #worker;
  #next = 1;
  #waiting = new Map();

  constructor(worker) {
    this.#worker = worker;
    worker.onmessage = ({ data }) => {
      const waiting = this.#waiting.get(data.id);
      this.#waiting.delete(data.id);
      if ("broken" in data) waiting?.reject(new EngineBroken(data.broken));
      else waiting?.resolve(data.answer);
    };
    worker.onerror = (event) => {
      event.preventDefault?.();
      this.#fail(event.message || "the worker could not be started");
    };
    worker.onmessageerror = () => this.#fail("a message could not be read");
  }

  /** True where the engine may be tried. */
  static possible() {
    return ["WebAssembly", "Worker", "DecompressionStream", "Blob"].every((name) => name in globalThis);
  }

  /** Starts a worker from its text, and the engine in it; builds the tables for `sampleRate` beforehand. */
  static async start({ worker, wasm, sampleRate = 44100 }) {
    const address = URL.createObjectURL(new Blob([worker], { type: "text/javascript" }));
    let engine;
    try {
      engine = new Engine(new Worker(address));
      engine.started = await engine.ask("start", { wasm, sampleRate });
    } catch (error) {
      engine?.close();
      throw error;
    } finally {
      URL.revokeObjectURL(address);
    }
    return engine;
  }

  open(request) {
    return this.ask("open", request);
  }

  strips(request) {
    return this.ask("strips", request);
  }

  mark(request) {
    return this.ask("mark", request);
  }

  marks(request) {
    return this.ask("marks", request);
  }

  begin(request) {
    return this.ask("begin", request);
  }

  fill(request) {
    return this.ask("fill", request);
  }

  mix(request) {
    return this.ask("mix", request);
  }

  end(request) {
    return this.ask("end", request);
  }

  /** Ends the worker; what was asked and not answered is rejected. */
  close() {
    this.#worker.terminate();
    this.#fail("the engine was closed");
  }

  ask(what, request = {}) {
    return new Promise((resolve, reject) => {
      const id = this.#next++;
      this.#waiting.set(id, { resolve, reject });
      this.#worker.postMessage({ ...request, id, do: what });
    });
  }

  #fail(message) {
    const all = [...this.#waiting.values()];
    this.#waiting.clear();
    for (const waiting of all) waiting.reject(new EngineBroken(message));
  }
}
