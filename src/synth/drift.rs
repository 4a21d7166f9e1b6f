//! The small unrest of a held tone: quasi-random, seeded, and in tune on the whole.

use std::f64::consts::TAU;

/// Rates of the five sines that make it up, Hz (Risset, JASA 38:912, 1965: small, fast, quasi-random).
/// None is slow enough to leave a stretch of a second out of tune.
const RATES_HZ: [f64; 5] = [1.31, 2.09, 3.07, 4.43, 6.1];
/// Peak of each sine in cents: a standard deviation of 2.4, never beyond 7.6.
const CENTS: f64 = 1.518;
/// Peak of each sine in dB: a standard deviation of 0.35, never beyond 1.1.
const DB: f64 = 0.22;

/// A stream of seeds from one.
#[derive(Clone, Copy, Debug)]
pub struct Seeds(u64);

impl Seeds {
    /// Starts the stream.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits (splitmix64: Steele, Lea and Flood, 2014).
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// The next number from 0 up to 1.
    pub fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }
}

/// Drift at one moment.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Drift {
    /// Pitch, cents.
    pub cents: f64,
    /// Level, dB.
    pub db: f64,
}

/// A run of drift, sampled every `step` frames and straight between.
#[derive(Clone, Debug)]
pub struct Drifting {
    step: u64,
    /// One a sine: radians a frame, the phase at frame 0, and the level's phase beside it.
    sines: [(f64, f64, f64); 5],
    /// Sine and cosine of each phase at the grid point after `left`, and what turns them by a step.
    state: [(f64, f64); 5],
    turn: [(f64, f64); 5],
    /// Sine and cosine of the level's phase against the pitch's.
    beside: [(f64, f64); 5],
    /// Grid point of `left`.
    at: u64,
    left: Drift,
    right: Drift,
}

impl Drifting {
    /// Drift from frame 0 of a tone, seeded.
    pub fn new(seeds: &mut Seeds, sample_rate: f64, step: u64) -> Self {
        let sines = RATES_HZ.map(|hz| {
            let hz = hz * (0.93 + 0.14 * seeds.unit());
            (
                TAU * hz / sample_rate,
                TAU * seeds.unit(),
                TAU * seeds.unit(),
            )
        });
        let mut drifting = Self {
            step,
            sines,
            state: sines.map(|(_, phase, _)| libm::sincos(phase)),
            turn: sines.map(|(rate, _, _)| libm::sincos(rate * step as f64)),
            beside: sines.map(|(_, _, beside)| libm::sincos(beside)),
            at: 0,
            left: Drift::default(),
            right: Drift::default(),
        };
        drifting.left = drifting.value();
        drifting.advance();
        drifting.right = drifting.value();
        drifting
    }

    /// Drift at `frame` of the tone; frames must not go back beyond a grid step.
    pub fn at(&mut self, frame: u64) -> Drift {
        while frame > (self.at + 1) * self.step {
            self.at += 1;
            self.left = self.right;
            self.advance();
            self.right = self.value();
        }
        let x = (frame - self.at * self.step) as f64 / self.step as f64;
        Drift {
            cents: self.left.cents + x * (self.right.cents - self.left.cents),
            db: self.left.db + x * (self.right.db - self.left.db),
        }
    }

    /// Mean of the pitch drift in cents from frame `from` to frame `to`, in closed form.
    pub fn mean_cents(&self, from: f64, to: f64) -> f64 {
        if to <= from {
            return 0.0;
        }
        let sum: f64 = self
            .sines
            .iter()
            .map(|&(rate, phase, _)| {
                (libm::cos(phase + rate * from) - libm::cos(phase + rate * to))
                    / (rate * (to - from))
            })
            .sum();
        CENTS * sum
    }

    fn advance(&mut self) {
        for ((sin, cos), (s, c)) in self.state.iter_mut().zip(self.turn) {
            (*sin, *cos) = (*sin * c + *cos * s, *cos * c - *sin * s);
        }
    }

    fn value(&self) -> Drift {
        let mut drift = Drift::default();
        for ((sin, cos), (s, c)) in self.state.iter().zip(self.beside) {
            drift.cents += CENTS * sin;
            drift.db += DB * (sin * c + cos * s);
        }
        drift
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn splitmix64_gives_its_published_numbers() {
        let mut seeds = Seeds::new(1_234_567);
        assert_eq!(seeds.bits(), 6_457_827_717_110_365_317);
        assert_eq!(seeds.bits(), 3_203_168_211_198_807_973);
    }

    #[test]
    fn drift_stays_small_and_its_mean_is_known() {
        for seed in 0..200 {
            let mut drifting = Drifting::new(&mut Seeds::new(seed), 48_000.0, 64);
            let wanted = drifting.mean_cents(4_800.0, 62_400.0);
            let mut sum = 0.0;
            for frame in 0..62_400 {
                let drift = drifting.at(frame);
                assert!(drift.cents.abs() < 7.7 && drift.db.abs() < 1.11);
                if frame >= 4_800 {
                    sum += drift.cents;
                }
            }
            assert!((sum / 57_600.0 - wanted).abs() < 0.01);
        }
    }
}
