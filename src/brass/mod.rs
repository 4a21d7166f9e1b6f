//! What a brass player knows: instruments as rows of data, valves, partials, fingerings, and what is
//! comfortable at which level.

pub mod comfort;
pub mod fingering;
pub mod instrument;
pub mod partials;
pub mod valves;

pub use comfort::{Band, Level};
pub use fingering::Fingering;
pub use instrument::Instrument;
pub use valves::Valves;
