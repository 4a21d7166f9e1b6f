// What the page asks the engine and what it is answered, and the data that the page carries: for `tsc --checkJs` over the scripts.
//
// tests/engine writes real requests, answers and data to tests/scripts/answers.ts; .ci/scripts holds them against these types, so a
// field that is missing here, or that no answer has any more, is an error.
//
// All frames are frames at the rate that was asked for. Those of a line count from the first frame of its count-in.

declare namespace Protocol {
  /** Something that is wrong, in words. */
  interface Problem {
    severity: "error" | "warning" | "advice";
    /** What it is in. */
    in: "routine" | "pencil" | "take" | "request";
    /** Index of the line in the teacher's routine, where one is meant. */
    of: number | null;
    /** Where in the text, from 1; null where there is no place. */
    row: number | null;
    column: number | null;
    /** Begins with a small letter and ends without a full stop. */
    message: string;
    /** What would be right. */
    hint: string | null;
  }

  /** The answer to a request that is refused. Nothing has changed. */
  interface Refusal {
    ok: false;
    problems: Problem[];
  }

  interface StartRequest {
    /** Frames a second, 44100 to 192000; the rate of the command line's tracks if left out. */
    sampleRate?: number;
  }

  interface Started {
    ok: true;
    sampleRate: number;
  }

  /** A take in the words of the command line; a number does as well as its digits. */
  interface Take {
    /** "100%", "72" */
    tempo?: string | number;
    /** Half steps. */
    key?: string | number;
    /** "together", "echo", "off" */
    guide?: string;
    /** Hertz of A4. */
    a4?: string | number;
    /** "equal", "just", "horn" */
    temperament?: string;
    /** False leaves the signs in long rests out. */
    signs?: boolean;
  }

  interface OpenRequest {
    /** The text of a routine. */
    routine: string;
    /** The text of a pencil. Marks that do not fit are left out; a text that is not a pencil is refused. */
    pencil?: string | null;
    /** Tag of the language of the answers, if it is not that of the routine; another than leadpipe speaks changes nothing. */
    language?: string | null;
    take?: Take;
    /** As in StartRequest. */
    sampleRate?: number;
  }

  /** A routine that was opened. `strips` and `mark` mean the one that was opened last; units of the last few can be begun. */
  interface Opened {
    ok: true;
    id: number;
    take: {
      /** The base tempo, in clicks a minute. */
      clicks: number;
      /** Half steps. */
      key: number;
    };
    /** The lines that are played, in order. */
    lines: Line[];
    pencil: null | {
      /** A nickname. */
      player: string | null;
      marks: Mark[];
      /** Why marks do not fit and are left out. */
      problems: Problem[];
      /** What the checker has to say of the marks. */
      advice: Problem[];
    };
  }

  /** When a line is played. */
  interface TimetableLine {
    /** Index of the line in the teacher's routine. */
    of: number;
    /** Which of the line's tempos it is played at, from 0; not there for the first. */
    rung?: number;
    on: "horn" | "mouthpiece" | "air" | "rest";
    /** Clicks a minute. */
    tempo: string;
    clicksABar: number;
    /** Frames from one click to the next, not rounded. */
    click: number;
    /** Frames of a whole note, not rounded. */
    wholeNote: number;
    /** From the start of the track to the line's count-in. */
    start: number;
    /** End of the count-in; the first pass begins. */
    countIn: number;
    /** The last bar line. */
    barLine: number;
    /** Frames of the rest after the line, the next count-in included; null after the last line. */
    rest: number | null;
    passes: Pass[];
  }

  /** A line once. */
  interface Pass {
    start: number;
    /** In echo, where the player's turn begins. */
    turn: number | null;
    /** The turn included. */
    end: number;
    /** Its half step or tube, as `Places.places` names it. */
    place: string;
    /** What tells it from the other passes; empty where nothing does. */
    name: string;
  }

  /** A line that the engine plays. It is unit 2 * index + 1; the rest after it is the next unit. */
  interface Line extends TimetableLine {
    /** Length of its unit: to the end of the fade after its last bar line. */
    frames: number;
    /** True if the rest after it has signs in it; without signs the rest is silent. */
    signs: boolean;
    /** How it is played and how long it takes, for a reader. */
    facts: string;
    /** Marks after which it is over early, with words for a button. */
    stops: { typed: string; words: string }[];
  }

  /** A mark of a pencil. */
  interface Mark {
    /** Its place in the text, from 0. */
    index: number;
    /** Index of the line in the teacher's routine; null for the whole routine. */
    of: number | null | "nowhere";
    /** What it says beside the line. */
    words: string;
    /** Its name in the file. */
    kind: string;
    /** As it is typed. */
    typed: string;
    /** The number of the note it stands at, from 1. */
    note: number | null;
  }

  interface StripsRequest {
    /** In points: 4.96 of them are a staff space. */
    width: number;
    /** Indices in the teacher's routine; all lines if left out. */
    lines?: number[];
    /** Which passes are drawn; all if left out. */
    passes?: "all" | "ends";
  }

  /** The teacher's lines, drawn in the key of the open take, with the pencil over them. */
  interface Strips {
    ok: true;
    strips: Strip[];
    /** What the drawings use; it must stand in the page once. */
    glyphs: string;
  }

  interface Strip {
    /** Index of the line in the teacher's routine. */
    of: number;
    width: number;
    svg: string;
    places: Places;
    /** The notes of the first pass that is drawn. */
    notes: StripNote[];
  }

  interface StripNote {
    /** From 1, as marks count. */
    note: number;
    /** The written pitch; null where one breathes. */
    name: string | null;
    /** True if the teacher has it bent. */
    bent: boolean;
    /** Index of its system. */
    system: number;
    x: number;
  }

  /** Where the music of a drawing is at which moment. */
  interface Places {
    /** The half step or tube of each pass that is drawn. */
    places: string[];
    systems: {
      /** Top and bottom of all that is drawn. */
      box: [number, number];
      /** Top and bottom of the staff. */
      staff: [number, number];
      /** Index into `places`, whole notes since the start of the pass, x. */
      moments: [number, number, number][];
    }[];
  }

  /** Writes a mark into a pencil's text or takes one back. The rest of the text and what is open stay as they are. */
  interface MarkRequest {
    /** The text; null for a new pencil. */
    pencil: string | null;
    /** Index of the line in the teacher's routine; null for the whole routine. */
    of?: number | null;
    /** As it is typed: "slower", "breath after 4". */
    mark?: string;
    /** True takes the mark back that `of` and `mark`, or `index`, name. */
    erase?: boolean;
    index?: number;
    /** "2026-11-25" */
    date?: string;
    /** A nickname, for a new pencil. */
    player?: string;
  }

  interface Marked {
    ok: true;
    pencil: string;
  }

  interface BeginRequest {
    /** The id of an Opened; the last one if left out. */
    opened?: number;
    unit: number;
    /** A frame of the unit, brought down to a whole block. */
    from?: number;
    /** "click=-6dB", "drone=off", as on the command line. */
    volume?: string[];
  }

  interface Begun {
    ok: true;
    performance: number;
    from: number;
    /** How many are left from there. */
    frames: number;
  }

  /** Asks for the next frames of a performance, brought up to whole blocks and limited by the engine. */
  interface FramesRequest {
    performance: number;
    frames: number;
  }

  /** Each voice for itself; no frames when the unit is over. */
  interface Filled {
    ok: true;
    frames: number;
    guide: Float32Array<ArrayBuffer>;
    click: Float32Array<ArrayBuffer>;
    drone: Float32Array<ArrayBuffer>;
  }

  /** What the command line writes, sample for sample. */
  interface Mixed {
    ok: true;
    frames: number;
    mix: Int16Array<ArrayBuffer>;
  }

  /** Drops a performance that was not played out. */
  interface EndRequest {
    performance: number;
  }

  interface Ended {
    ok: true;
  }

  /**
   * Everything that the engine can be asked. `start` also takes the module to the worker. src/desk/workshop.d.ts adds what the
   * desk's workshop can be asked.
   */
  interface Exchanges {
    start: { request: StartRequest & { wasm: string | Uint8Array }; answer: Started };
    open: { request: OpenRequest; answer: Opened | Refusal };
    strips: { request: StripsRequest; answer: Strips | Refusal };
    mark: { request: MarkRequest; answer: Marked | Refusal };
    begin: { request: BeginRequest; answer: Begun | Refusal };
    fill: { request: FramesRequest; answer: Filled };
    mix: { request: FramesRequest; answer: Mixed };
    end: { request: EndRequest; answer: Ended };
  }

  /** From the worker: an answer, or why the engine broke down. */
  type Reply = { id: number; answer: Exchanges[keyof Exchanges]["answer"] } | { id: number; broken: string };

  /** What the module exports: numbers and addresses. */
  interface Exports extends WebAssembly.Exports {
    memory: WebAssembly.Memory;
    room(bytes: number): number;
    ask(): number;
    answer(): number;
    fill(performance: number, frames: number): number;
    stem(voice: number): number;
    mix(performance: number, frames: number): number;
    steps(): number;
    last_words(): number;
    last_words_length(): number;
  }

  /** The data that a page carries. */
  interface PageData {
    /** Tag of the language of the page's words. */
    language: string;
    decimalSign: string;
    /** What the script says, by its keys. Arguments stand in braces; the number of argument `by` chooses among several forms. */
    words: Record<string, string | Record<string, string>>;
    title: string;
    /** The routine's tempo, in clicks a minute. */
    tempo: number;
    player: string | null;
    /** The text of the routine. */
    routine: string;
    /** The text of the pencil that was handed out with it. */
    pencil: string | null;
    /** Of `takes[].lines`. */
    sampleRate: number;
    takes: { file: string; tempo: string; key: number; guide: string; lines: TimetableLine[] }[];
    /** By key, then by the index of the line: for a narrow and a wide screen, null where the key leaves the line out. */
    places: Record<string, (Places[] | null)[]>;
    /** Widths that lines are drawn to, in points. */
    widths: { narrow: number; wide: number; touch: number };
    keys: Choice[];
    guides: Choice[];
    marks: {
      title: string;
      /** True for marks that mean one line, not the whole routine. */
      ofALine: boolean;
      marks: { kind: string; typed: string; words: string }[];
    }[];
    /** Bytes. */
    largestPencil: number;
  }

  /** What is asked of the engine, and words for it. */
  interface Choice {
    value: string;
    words: string;
  }
}

/** The text of worker.js. */
declare const ENGINE_WORKER: string;
