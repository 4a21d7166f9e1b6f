//! Standard MIDI Files 1.0.

mod moments;
mod quantize;
pub mod read;
pub mod write;

pub use read::read;
pub use write::write;

/// Ticks of a quarter note: sixteenths, their triplets and dots are whole numbers of them.
pub const TICKS: u16 = 960;

/// What leadpipe writes into its files, so that it knows them again.
pub(super) const SIGNATURE: &str = concat!("leadpipe ", env!("CARGO_PKG_VERSION"));
/// Names of the tracks.
pub(super) const GUIDE: &str = "guide";
pub(super) const CLICK: &str = "click";
pub(super) const DRONE: &str = "drone";
