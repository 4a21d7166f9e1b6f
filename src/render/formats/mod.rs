//! Formats of sound files: how samples and labels are stored in each.

pub mod chapters;
pub mod cover;
pub mod cue_chunks;
#[cfg(feature = "flac")]
pub mod flac;
pub mod labels;
#[cfg(feature = "mp3")]
pub mod mp3;
#[cfg(any(feature = "flac", feature = "mp3"))]
mod packed;
#[cfg(not(any(feature = "flac", feature = "mp3")))]
#[path = "unpacked.rs"]
mod packed;
pub mod pcm;
pub mod wave;

pub use labels::Labels;
pub(super) use packed::Packed;
pub use pcm::{Bits, Channels, SampleFormat};
