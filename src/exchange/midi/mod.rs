//! Standard MIDI Files 1.0.

mod moments;
mod quantize;
pub mod read;
pub mod write;

pub use read::read;
pub use write::write;

/// Ticks of a quarter note, divisible for sixteenths, their triplets and dots.
pub const TICKS: u16 = 960;

/// The text that marks a file as written by leadpipe.
pub(super) const SIGNATURE: &str = concat!("leadpipe ", env!("CARGO_PKG_VERSION"));
/// Names of the tracks.
pub(super) const GUIDE: &str = "guide";
pub(super) const CLICK: &str = "click";
pub(super) const DRONE: &str = "drone";
