//! What any musician's program needs to know: pitch, interval, note value, meter, tempo, temperament.
//!
//! Nothing here knows of brass, of files or of sound.

pub mod decimal;
pub mod dynamic;
pub mod interval;
pub mod meter;
pub mod pitch;
pub mod temperament;
pub mod tempo;
pub mod value;

pub use decimal::Decimal;
pub use dynamic::Dynamic;
pub use meter::Meter;
pub use pitch::{SoundingPitch, WrittenPitch};
pub use temperament::{Temperament, Tuning};
pub use tempo::Tempo;
pub use value::{NoteValue, Whole};

/// Exact seconds inside one line. Every tempo is bounded to three decimals and every line to a take
/// of four hours, so 128 bits hold any sum of them; the start of a line, which sums lines of
/// different tempos, does not fit and is a `BigRational`.
pub type Seconds = num_rational::Ratio<i128>;
