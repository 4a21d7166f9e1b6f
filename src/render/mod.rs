//! Takes become files: the batch, the writers of WAV, FLAC and MP3, and the record of what was rendered.
//!
//! A [`Track`] names a take and says how to come by its timeline; [`batch::render`] renders many in
//! parallel into one folder. Each track appears under its name whole or not at all, and a second run
//! renders only what changed.

pub mod batch;
pub mod chapters;
pub mod cover;
pub mod cue_chunks;
pub mod cut_short;
mod earlier;
pub mod failure;
pub mod file_kind;
pub mod fingerprint;
#[cfg(feature = "flac")]
pub mod flac;
pub mod growing;
pub mod kept;
pub mod labels;
pub mod list;
#[cfg(feature = "mp3")]
pub mod mp3;
#[cfg(any(feature = "flac", feature = "mp3"))]
mod packed;
#[cfg(not(any(feature = "flac", feature = "mp3")))]
#[path = "unpacked.rs"]
mod packed;
pub mod part;
pub mod planned;
pub mod record;
pub mod sharing;
pub mod shelf;
pub mod single;
pub mod together;

pub mod track;
pub mod wave;
pub mod whole_file;
mod writer;

pub use batch::{End, Settings, Watch};
pub use failure::RenderFailure;
pub use file_kind::{FileKind, FileKinds};
pub use fingerprint::Fingerprint;
pub use labels::Labels;
pub use part::Part;
pub use track::{Finished, FinishedFile, Made, Track};
pub use wave::{Bits, Channels, Format};
