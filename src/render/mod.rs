//! Takes become files: the batch, the WAV writer, and the record of what was rendered.
//!
//! A [`Track`] names a take and says how to come by its timeline; [`batch::render`] renders many in
//! parallel into one folder. Each track appears under its name whole or not at all, and a second run
//! renders only what changed.

pub mod batch;
pub mod cue_chunks;
pub mod cut_short;
pub mod failure;
pub mod fingerprint;
pub mod growing;
pub mod kept;
pub mod part;
pub mod record;
pub mod single;
pub mod take_name;
pub mod track;
pub mod wave;
pub mod whole_file;

pub use batch::{End, Settings, Watch};
pub use failure::RenderFailure;
pub use part::Part;
pub use track::{Finished, Made, Track};
pub use wave::{Bits, Channels, Format};
