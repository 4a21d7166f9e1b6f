//! The core as a page uses it: text and JSON in, JSON and frames out. Feature `engine`.
//!
//! A [`Session`] holds an open routine, the pencil over it and a take. [`Session::ask`] takes a request in JSON and
//! answers in JSON; [`Session::fill`] and [`Session::mix`] render the frames of a unit that was begun.
//! `src/handout/engine/protocol.d.ts` declares every request and answer; `tests/engine` and `.ci/scripts` hold real answers
//! against it.
//!
//! In WebAssembly, `exports` offers a session as a few functions on numbers and addresses. The module imports nothing. A
//! panic stops it; its message can still be read.

pub(crate) mod answer;
mod described;
#[cfg(all(target_arch = "wasm32", not(feature = "workshop")))]
mod exports;
#[cfg(target_arch = "wasm32")]
pub(crate) mod mailbox;
mod marks;
pub(crate) mod opened;
mod playing;
pub(crate) mod request;
mod session;
mod strips;

pub use session::Session;

/// The most frames rendered by one call.
pub const MOST_FRAMES: usize = 1 << 18;
