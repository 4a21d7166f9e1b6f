//! The music theory that every other module builds on: pitch, spelling, key, interval, note value, meter, tempo,
//! temperament.
//!
//! Nothing here depends on brass instruments, files or sound.

pub mod clef;
pub mod decimal;
pub mod dynamic;
pub mod interval;
pub mod key;
pub mod meter;
pub mod name;
pub mod note_names;
pub mod pitch;
pub mod spelling;
pub mod temperament;
pub mod tempo;
pub mod transposed;
pub mod value;

pub use clef::Clef;
pub use decimal::Decimal;
pub use dynamic::Dynamic;
pub use key::Key;
pub use meter::Meter;
pub use note_names::NoteNames;
pub use pitch::{SoundingPitch, WrittenPitch};
pub use spelling::Spelling;
pub use temperament::{Temperament, Tuning};
pub use tempo::Tempo;
pub use value::{NoteValue, Whole};

/// Exact seconds inside one line. A tempo has at most three decimals and a take lasts at most four hours,
/// so 128 bits hold any sum of them. The start of a line is a sum over lines of different tempos, which
/// does not fit and is a `BigRational`.
pub type Seconds = num_rational::Ratio<i128>;
