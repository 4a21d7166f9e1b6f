//! Brass instruments and their players: instruments as rows of data, tubes, partials, fingerings, what is
//! comfortable at each level, and how long a breath lasts.

pub mod breath;
pub mod caution;
pub mod comfort;
pub mod family;
pub mod fingering;
pub mod instrument;
pub mod instruments;
pub mod partials;
pub mod slide;
pub mod tube;
pub mod tubes;

pub use breath::AgeBand;
pub use comfort::{Band, Level};
pub use family::Family;
pub use fingering::Fingering;
pub use instrument::{Instrument, Mechanism};
pub use instruments::INSTRUMENTS;
pub use tube::Tube;
