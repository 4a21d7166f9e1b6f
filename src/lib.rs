//! **leadpipe** turns a brass warm-up routine, written once as text, into play-along tracks.
//!
//! Data passes through these stages. Each takes one type and returns another, and none depends on a later stage:
//!
//! 1. **read**: [`routine::read`] reads the text of a routine file and returns a [`routine::Routine`], or every
//!    [`routine::Fault`] in it with its place.
//! 2. **pencil**: [`pencil::lay()`] applies a player's marks to a routine and returns another routine.
//! 3. **unroll**: [`score::unroll()`] turns a routine and a [`score::Take`] (tempo, key, guide mode,
//!    tuning) into a [`score::Score`]: every pass and note, with pitch, fingering and exact time.
//! 4. **check**: [`check::check`] checks a score and returns [`check::Finding`]s.
//! 5. **compile**: [`timeline::compile()`] turns a score into a [`timeline::Timeline`]: frames, hertz,
//!    gains, and how one note leads to the next.
//! 6. **sound**: [`synth`] fills blocks of 64 frames from one [`timeline::Unit`] at a time.
//! 7. **file**: `render` (feature `cli`) writes the takes of a batch in parallel.
//! 8. **engrave**: [`sheet::engrave`] lays a score out as a [`sheet::Sheet`], pages on which every mark has its
//!    place; [`sheet::svg`] draws them, `print` (features `pdf`, `png`) writes them as files.
//! 9. **hand out**: `handout` (feature `cli`) writes a page beside them and shares the folder with phones.
//! 10. **exchange**: `exchange` (feature `exchange`) writes a score as MusicXML or MIDI, and turns such files into the
//!     text of a routine.
//!
//! `engine` (feature `engine`) runs the core in the pupil's page, as WebAssembly, with the same lines and the same frames.
//!
//! `workshop` (feature `workshop`) answers what a teacher's page asks for beyond that, as a second module.
//!
//! [`carry`] turns the text of a routine into that of one for another instrument.
//!
//! [`edit`] changes the text of a routine by one edit after the other, each of which can be taken back.
//!
//! [`mend`] offers edits that mend what reader and checker find, each tried before.
//!
//! [`group`] arranges a routine for players of different instruments who play together.
//!
//! [`presets`] are the routines that come with the program, and say which of them suits a player.
//!
//! [`class`] reads a teacher's list of players, each with a routine and perhaps a pencil.
//!
//! [`notation`] decides how a score is notated, for the sheet and for files of other programs.
//!
//! [`music`] and [`brass`] hold facts of music and of brass instruments that do not depend on a routine. [`words`] puts
//! numbers, lengths, keys and notes into words, the same everywhere.
//!
//! Everything except `render`, `print`, `handout`, `exchange`, `workshop`, `desk` and `command` is the core. It uses no files, clocks, threads,
//! environment or terminal, and takes transcendental functions from `libm`, so that WebAssembly gives the same bits.

#![deny(unsafe_code)]
// clippy.toml lists what is disallowed. Every module is core unless it says otherwise below.
#![deny(clippy::disallowed_methods, clippy::disallowed_types)]
#![warn(missing_docs)]

pub mod brass;
pub mod carry;
pub mod check;
pub mod class;
pub mod edit;
pub mod edition;
pub mod group;
pub mod mend;
pub mod music;
pub mod notation;
pub mod pencil;
pub mod presets;
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
#[cfg(feature = "cli")]
#[allow(clippy::disallowed_methods, clippy::disallowed_types)]
pub mod desk;
#[cfg(feature = "exchange")]
pub mod exchange;
#[cfg(any(feature = "cli", feature = "workshop"))]
#[allow(clippy::disallowed_methods, clippy::disallowed_types)]
pub mod handout;
#[cfg(any(feature = "pdf", feature = "png"))]
#[allow(clippy::disallowed_methods, clippy::disallowed_types)]
pub mod print;
#[cfg(feature = "cli")]
#[allow(clippy::disallowed_methods, clippy::disallowed_types)]
pub mod render;
#[cfg(feature = "workshop")]
pub mod workshop;

/// Changes whenever anything that turns a timeline into samples changes: a hash of sources, made at build time.
pub const SOUND_REVISION: &str = env!("LEADPIPE_SOUND_REVISION");

/// Changes whenever anything in the core changes, in its messages or in its sound.
pub const CORE_REVISION: &str = env!("LEADPIPE_CORE_REVISION");

/// Changes whenever anything that decides how sound is packed into labelled files changes.
#[cfg(feature = "cli")]
pub const ENCODER_REVISION: &str = env!("LEADPIPE_ENCODER_REVISION");
