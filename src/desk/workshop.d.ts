// What the desk asks its workshop and what it is answered, beside what protocol.d.ts declares for every page. tests/engine writes real
// ones to tests/scripts/answers_of_workshop.ts; .ci/scripts holds them against these types.

declare namespace Protocol {
  interface JudgeRequest {
    routine: string;
    /** As written if left out. */
    takes?: Take[];
    /** For whose breath: "8-10"; the routine's own if left out. */
    age?: string;
  }

  /** What the checker has to say, each thing once, and what the routine amounts to at the first take. */
  interface Judged {
    ok: true;
    findings: Problem[];
    seconds: number;
    playing: number;
    lowest: string | null;
    highest: string | null;
  }

  /** What would mend the problems of a routine; those for which nothing was found are left out. */
  interface Mended {
    ok: true;
    mended: { problem: Problem; mends: Mend[] }[];
  }

  interface Mend {
    /** What it does, for a button. */
    says: string;
    /** The whole text after it. */
    text: string;
  }

  interface ShelfRequest {
    /** As `leadpipe list --instruments` names it; a trumpet if left out. */
    instrument?: string;
  }

  /** The built-in routines for an instrument. */
  interface Shelf {
    ok: true;
    instruments: string[];
    routines: ShelfRow[];
    /** The natural notes that a player may be asked for, lowest first. */
    scale: string[];
  }

  interface ShelfRow {
    name: string;
    title: string;
    purpose: string | null;
    /** 0 before level 1. */
    level: number;
    seconds: number;
    lines: number;
    /** For whose breath it is: "8-10" or older. */
    age: string | null;
  }

  interface ChooseRequest {
    instrument?: string;
    /** The highest open note that is played with ease: "G4". */
    highest: string;
    lowest?: string;
    age?: string;
  }

  /** The routine to start with. */
  interface Chosen {
    ok: true;
    /** The note with its place on the staff. */
    note: string;
    routine: string;
    title: string;
    why: string;
    next: { routine: string; when: string } | null;
    easier: { routine: string; when: string } | null;
    /** What to ask a teacher first. */
    ask: string | null;
    /** For a player stuck on one note: the way to a second one. */
    steps: string[];
  }

  interface TakeDownRequest {
    name: string;
    instrument?: string;
  }

  /** The text of a built-in routine. */
  interface TakenDown {
    ok: true;
    text: string;
    /** Which lines the instrument cannot play, and why. */
    leftOut: string[];
  }

  interface PageRequest {
    routine: string;
    take?: Take;
    /** Whose page it is; nobody's if left out or empty. */
    player?: string;
  }

  /** The pupil's page as one file: what stands before and behind the letters of its engine. */
  interface MadePage {
    ok: true;
    before: string;
    after: string;
  }

  interface ExportRequest {
    routine: string;
    take?: Take;
    to: "musicxml" | "midi";
  }

  interface Exported {
    ok: true;
    /** The content of the file, in base64. */
    data: string;
  }

  interface AdoptRequest {
    /** Name of the file, with its ending. */
    name: string;
    /** Its bytes, in base64. */
    data: string;
    /** As in ShelfRequest. */
    instrument?: string;
    /** Whose part, or which tune: its number or its name. */
    part?: string;
    /** True takes the notes as they sound. */
    concert?: boolean;
  }

  /** A routine made of another program's file. */
  interface Adopted {
    ok: true;
    text: string;
    lines: number;
    /** True if every note was compared with the file's. */
    compared: boolean;
    /** True if such a file holds less than music has. */
    limited: boolean;
    /** What could not be kept. */
    losses: string[];
    /** What was assumed or changed. */
    said: string[];
  }

  interface TakeMarkRequest {
    routine: string;
    pencil: string;
    /** The mark's place in the pencil, from 0. */
    index: number;
  }

  /** A routine with a mark written into it. */
  interface TakenMark {
    ok: true;
    text: string;
  }

  /** Everything that the workshop can be asked. */
  interface Exchanges {
    judge: { request: JudgeRequest; answer: Judged | Refusal };
    mend: { request: JudgeRequest; answer: Mended | Refusal };
    shelf: { request: ShelfRequest; answer: Shelf | Refusal };
    choose: { request: ChooseRequest; answer: Chosen | Refusal };
    takeDown: { request: TakeDownRequest; answer: TakenDown | Refusal };
    page: { request: PageRequest; answer: MadePage | Refusal };
    export: { request: ExportRequest; answer: Exported | Refusal };
    adopt: { request: AdoptRequest; answer: Adopted | Refusal };
    takeMark: { request: TakeMarkRequest; answer: TakenMark | Refusal };
  }
}
