//! **leadpipe** turns a brass warm-up routine, written once as text, into play-along tracks.
//!
//! The way of the data, one type in and one type out at each stage, none looking back:
//!
//! 1. **read**: [`routine::read`] takes the text of a routine file to a [`routine::Routine`], or to
//!    every [`routine::Fault`] in it, each with its place.
//! 2. **pencil**: [`pencil::lay()`] lays a player's marks over a routine and gives another routine.
//! 3. **unroll**: [`score::unroll()`] takes a routine and a [`score::Take`] (tempo, key, guide mode,
//!    tuning) to a [`score::Score`]: every pass and note, with pitch, fingering and exact time.
//! 4. **check**: [`check::check`] takes a score to [`check::Finding`]s.
//! 5. **compile**: [`timeline::compile()`] takes a score to a [`timeline::Timeline`]: frames, hertz,
//!    gains, and how one note leads to the next.
//! 6. **sound**: [`synth`] fills blocks of 64 frames from one [`timeline::Unit`] at a time.
//! 7. **file**: `render` (feature `cli`) writes the takes of a batch in parallel.
//! 8. **engrave**: [`sheet::engrave`] takes a score to a [`sheet::Sheet`], pages on which every mark has its
//!    place; [`sheet::svg`] draws them, `print` (features `pdf`, `png`) makes files of them.
//! 9. **hand out**: `handout` (feature `cli`) puts a page beside them, and shares the folder with phones.
//! 10. **exchange**: `exchange` (feature `exchange`) writes a score as MusicXML or MIDI, and reads such files into the
//!     text of a routine.
//!
//! `engine` (feature `engine`) does all this from the pupil's page, in WebAssembly: the same lines, the same frames.
//!
//! [`class`] reads a teacher's list of players, each of whom goes this way with a routine and a pencil.
//!
//! [`notation`] says how a score is written down, for the sheet and for other programs' files.
//!
//! [`music`] and [`brass`] hold what is true of music and of brass instruments whatever the routine; [`words`] says
//! numbers, lengths, keys and notes the same way everywhere.
//!
//! Everything but `render`, `print`, `handout`, `exchange` and `command` is the core: no files, clocks, threads, environment or
//! terminal, and `libm` for transcendental functions, so that it gives the same bits as WebAssembly.

#![deny(unsafe_code)]
// The lists are in clippy.toml. Every module is core unless it says otherwise below.
#![deny(clippy::disallowed_methods, clippy::disallowed_types)]
#![warn(missing_docs)]

pub mod brass;
pub mod check;
pub mod class;
pub mod edition;
pub mod music;
pub mod notation;
pub mod pencil;
pub mod problem;
pub mod routine;
pub mod score;
pub mod sheet;
pub mod synth;
pub mod timeline;
pub mod volume;
pub mod words;

#[cfg(feature = "engine")]
pub mod engine;

#[cfg(feature = "cli")]
#[allow(clippy::disallowed_methods, clippy::disallowed_types)]
pub mod command;
#[cfg(feature = "exchange")]
pub mod exchange;
#[cfg(feature = "cli")]
#[allow(clippy::disallowed_methods, clippy::disallowed_types)]
pub mod handout;
#[cfg(any(feature = "pdf", feature = "png"))]
#[allow(clippy::disallowed_methods, clippy::disallowed_types)]
pub mod print;
#[cfg(feature = "cli")]
#[allow(clippy::disallowed_methods, clippy::disallowed_types)]
pub mod render;

/// Changes whenever anything that turns a timeline into samples changes: a hash of sources, made at build time.
pub const SOUND_REVISION: &str = env!("LEADPIPE_SOUND_REVISION");

/// Changes whenever anything of the core changes, what it says as much as how it sounds.
pub const CORE_REVISION: &str = env!("LEADPIPE_CORE_REVISION");

/// Changes whenever anything that decides how sound is packed into labelled files changes.
#[cfg(feature = "cli")]
pub const ENCODER_REVISION: &str = env!("LEADPIPE_ENCODER_REVISION");
