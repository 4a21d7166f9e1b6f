//! The core as a page asks it: text and JSON in, JSON and frames out. Feature `engine`.
//!
//! A [`Session`] holds what is open: a routine, a pencil over it, a take. [`Session::ask`] takes a request in JSON and
//! answers in JSON; [`Session::fill`] and [`Session::mix`] give the frames of a unit that was begun.
//! `src/handout/engine/protocol.d.ts` declares every request and answer; `tests/engine` and `.ci/scripts` hold real answers
//! against it.
//!
//! In WebAssembly `exports` puts a session behind a few functions of numbers and addresses. The module imports nothing; a
//! panic stops it, and its last words can be read.

mod answer;
mod described;
#[cfg(target_arch = "wasm32")]
mod exports;
mod marks;
mod opened;
mod playing;
mod request;
mod session;
mod strips;

pub use session::Session;

/// The most frames given at once.
pub const MOST_FRAMES: usize = 1 << 18;
