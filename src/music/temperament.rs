//! From sounding pitch to hertz.

use super::{Decimal, SoundingPitch};

/// How a take is tuned: equal temperament on a given A4.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Tuning {
    a4: Decimal,
}

impl Tuning {
    /// The concert pitch of ISO 16:1975.
    pub const ISO_16: Tuning = Tuning {
        a4: Decimal::from_integer(440),
    };

    /// A4 in Hz.
    pub fn a4_hz(self) -> f64 {
        self.a4.as_f64()
    }

    /// The frequency of a pitch in Hz: A4 · 2^((n − 69) / 12).
    pub fn hz(self, pitch: SoundingPitch) -> f64 {
        self.a4_hz() * libm::exp2(f64::from(pitch.number() - 69) / 12.0)
    }
}

impl Default for Tuning {
    fn default() -> Self {
        Self::ISO_16
    }
}
