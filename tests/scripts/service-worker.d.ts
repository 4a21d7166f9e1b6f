// What Rust's `handout::page::installed` writes before service-worker.js.

/** Changes whenever one of the files does. */
declare const NAME: string;
declare const FILES: { page: string[]; sheets: string[]; tracks: string[] };
