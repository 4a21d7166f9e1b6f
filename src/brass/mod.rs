//! Brass instruments and their players: instruments as rows of data, valves, partials, fingerings, what is
//! comfortable at each level, and how long a breath lasts.

pub mod breath;
pub mod caution;
pub mod comfort;
pub mod family;
pub mod fingering;
pub mod instrument;
pub mod partials;
pub mod valves;

pub use breath::AgeBand;
pub use comfort::{Band, Level};
pub use family::Family;
pub use fingering::Fingering;
pub use instrument::Instrument;
pub use valves::Valves;
