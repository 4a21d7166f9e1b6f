//! From sounding pitch to hertz.

use super::{Decimal, SoundingPitch, interval};
use std::fmt;

/// How the notes of a take are tuned to one another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Temperament {
    /// Twelve equal half steps to the octave.
    #[default]
    Equal,
    /// Pure intervals over the key note of each time through a line.
    Just,
    /// Each note as its tube and partial sound it, before the lip or a slide corrects it.
    Horn,
}

impl Temperament {
    /// The words in files and on the command line.
    pub const WORDS: [(&'static str, Temperament); 3] = [
        ("equal", Temperament::Equal),
        ("just", Temperament::Just),
        ("horn", Temperament::Horn),
    ];
}

impl fmt::Display for Temperament {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = Self::WORDS.iter().find(|(_, t)| t == self);
        f.write_str(word.map_or("", |(word, _)| word))
    }
}

/// How a take is tuned: its A4 and its temperament.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tuning {
    a4: Decimal,
    temperament: Temperament,
}

/// An A4 that no instrument is tuned to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoConcertPitch;

impl Tuning {
    /// Equal temperament on the concert pitch of ISO 16:1975.
    pub const ISO_16: Tuning = Tuning {
        a4: Decimal::from_integer(440),
        temperament: Temperament::Equal,
    };
    /// The lowest A4 in Hz, well below every pitch that ensembles tune to today.
    pub const LOWEST_A4: i64 = 380;
    /// The highest A4 in Hz.
    pub const HIGHEST_A4: i64 = 480;

    /// A tuning with A4 at `a4` Hz.
    ///
    /// # Errors
    /// If `a4` lies outside [`Tuning::LOWEST_A4`] to [`Tuning::HIGHEST_A4`].
    pub fn new(a4: Decimal, temperament: Temperament) -> Result<Self, NoConcertPitch> {
        let bounds =
            Decimal::from_integer(Self::LOWEST_A4)..=Decimal::from_integer(Self::HIGHEST_A4);
        if bounds.contains(&a4) {
            Ok(Self { a4, temperament })
        } else {
            Err(NoConcertPitch)
        }
    }

    /// The A4.
    pub fn a4(self) -> Decimal {
        self.a4
    }

    /// The temperament.
    pub fn temperament(self) -> Temperament {
        self.temperament
    }

    /// A4 in Hz.
    pub fn a4_hz(self) -> f64 {
        self.a4.as_f64()
    }

    /// The frequency of a pitch in equal temperament in Hz: A4 · 2^((n − 69) / 12).
    pub fn hz(self, pitch: SoundingPitch) -> f64 {
        self.a4_hz() * libm::exp2(f64::from(pitch.number() - 69) / 12.0)
    }

    /// The frequency of a pitch in Hz that makes a pure interval, octaves aside, with `tonic`, itself
    /// in equal temperament. The ratios are those of [`interval::just_ratio`].
    pub fn pure_hz(self, pitch: SoundingPitch, tonic: SoundingPitch) -> f64 {
        let half_steps = pitch.number() - tonic.number();
        let (octaves, above) = (half_steps.div_euclid(12), half_steps.rem_euclid(12));
        let (p, q) = interval::just_ratio(above as u8);
        libm::ldexp(self.hz(tonic) * f64::from(p) / f64::from(q), octaves)
    }
}

impl Default for Tuning {
    fn default() -> Self {
        Self::ISO_16
    }
}
