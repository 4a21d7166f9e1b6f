//! Takes become files: the batch, the writers of WAV, FLAC and MP3, and the record of what was rendered.
//!
//! A [`Track`] names a take and says how to come by its timeline; [`batch::render`] renders many in
//! parallel into one folder. Each track appears under its name whole or not at all, and a second run
//! renders only what changed.
//!
//! Every file is written by [`files`]; [`formats`] says what stands in it, [`reuse`] what need not be done again.

pub mod batch;
pub mod failure;
pub mod file_kind;
pub mod files;
pub mod finished;
pub mod formats;
pub mod lazy_engine;
pub mod list;
pub mod part;
pub mod planned;
mod render_track;
pub mod reuse;
pub mod settings;
mod shared;
pub mod sharing;
pub mod single;
mod sounding;
pub mod together;
pub mod track;
pub mod watch;
mod writer;
mod writing;

pub use batch::End;
pub use failure::RenderFailure;
pub use file_kind::{FileKind, FileKinds};
pub use finished::{Finished, FinishedFile, Made};
pub use formats::{Bits, Channels, Format, Labels};
pub use lazy_engine::LazyEngine;
pub use part::Part;
pub use settings::Settings;
pub use track::Track;
pub use watch::Watch;
