// What tests/engine/in_browser.mjs and tests/browse put into the pages they check.

declare var start: () => Promise<any>;
declare var Engine: any;
declare var Player: any;
declare var nextCountIn: any;
declare var whereIs: any;
declare var engine: any;
declare var context: AudioContext;
declare var player: any;
declare var opened: Protocol.Opened;
declare var said: any[];
declare var blocks: Map<number, Float32Array>;
declare var heard: (from: number, count: number) => Float32Array;
declare var firstSound: () => number | null;
declare var unit: (number: number, voices?: string[]) => Promise<Float32Array>;
declare var until: (so: () => unknown, seconds?: number) => Promise<void>;
declare var longest: { task: number };
declare var tapped: number;
declare var watched: {
  busy: number[];
  sounds: number[];
  contexts: AudioContext[];
  actions: Record<string, () => void>;
  ready?: number;
  worker?: Worker;
  mended?: boolean;
  saved?: string;
};
declare var sound: { context: AudioContext; tap: ScriptProcessorNode };
declare var axe: any;
