//! Which partials a sound has, and how strong. The numbers of each family of horns stand in [`families`](super::families).

use super::families::{HIGH_PHASES, HornTone};
use crate::brass::Family;
use std::f64::consts::PI;

/// A family of harmonic spectra, over pitch and brightness.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Timbre {
    /// A horn.
    Horn(Family),
    /// Lips and mouthpiece without the horn.
    Mouthpiece(Family),
    /// The held tone under it all.
    Drone,
}

impl Timbre {
    /// Level in dB of the component at `f` Hz of a tone of `f0` Hz. `brightness` is 1 at forte and
    /// falls to 0 below pianissimo; the drone has but one.
    pub fn level_db(self, f: f64, f0: f64, brightness: f64) -> f64 {
        match self {
            Timbre::Horn(family) => horn_db(HornTone::of(family), f, f0, brightness),
            Timbre::Mouthpiece(family) => mouthpiece_db(HornTone::of(family), f, brightness),
            Timbre::Drone => drone_db(f, f0),
        }
    }

    /// Linear amplitudes of partials 1, 2, … up to `count`, in no particular scale.
    pub fn amplitudes(self, f0: f64, brightness: f64, count: usize) -> Vec<f64> {
        (1..=count)
            .map(|k| from_db(self.level_db(k as f64 * f0, f0, brightness)))
            .collect()
    }

    /// Starting phase in radians of partial `k`, the same in every table of the timbre, so that its tables can be
    /// faded into one another. Beyond those that were searched for they go on quadratically.
    pub fn phase(self, k: usize) -> f64 {
        let phases = match self {
            Timbre::Horn(family) => HornTone::of(family).phases,
            Timbre::Mouthpiece(_) | Timbre::Drone => &HIGH_PHASES,
        };
        phases.get(k - 1).copied().unwrap_or_else(|| {
            let turns = 0.105 * (k * k) as f64;
            2.0 * PI * (turns - libm::floor(turns))
        })
    }
}

/// Level of a horn's component at `f` Hz.
fn horn_db(tone: &HornTone, f: f64, f0: f64, brightness: f64) -> f64 {
    let fall = tone.fall_db - tone.fall_gentler_db * libm::log2(f0 / 466.0);
    let formant = libm::log2(f / tone.formant_hz) / tone.formant_octaves;
    let darkening = tone.darkening_db / (1.0 + square(f0 / tone.darkening_less_hz)).sqrt();
    -10.0 * libm::log10(1.0 + square(tone.bell_hz / f))
        - 0.25 * fall * libm::log2(1.0 + square(square(f / tone.fall_hz)))
        + tone.formant_db * libm::exp(-0.5 * square(formant))
        - 0.5 * darkening * (1.0 - brightness) * libm::log2(1.0 + square(f / tone.darkening_hz))
}

/// The trumpet's mouthpiece resonates here, Hz; a larger cup moves all of its spectrum down with its resonance.
const TRUMPET_MOUTHPIECE_HZ: f64 = 850.0;

/// Buzzing lips on a mouthpiece: no bell to radiate the top, so a flatter fall, and the cup's own
/// resonance. A choice by analogy; nothing was fitted.
fn mouthpiece_db(tone: &HornTone, f: f64, brightness: f64) -> f64 {
    let f = f * (TRUMPET_MOUTHPIECE_HZ / tone.mouthpiece_hz);
    let bump = libm::log2(f / TRUMPET_MOUTHPIECE_HZ) / 0.7;
    -10.0 * libm::log10(1.0 + square(300.0 / f))
        - 2.6 * libm::log2(1.0 + square(square(f / 1700.0)))
        + 7.0 * libm::exp(-0.5 * square(bump))
        - 4.0 * (1.0 - brightness) * libm::log2(1.0 + square(f / 600.0))
}

/// The drone: soft as a whole, and strong where a horn's own strongest partials lie, so that what is out of tune is heard
/// as beats of these. Of a low drone the even partials are stronger there: a horn plays an octave or two above it.
fn drone_db(f: f64, f0: f64) -> f64 {
    let formant = 20.0 * libm::exp(-0.5 * square(libm::log2(f / 1_250.0) / 0.4));
    let odd = libm::round(f / f0) % 2.0 == 1.0;
    let share = if odd {
        1.0 - 0.15 / (1.0 + square(square(f0 / 330.0)))
    } else {
        1.0
    };
    -10.0 * libm::log10(1.0 + square(280.0 / f)) - 3.5 * libm::log2(1.0 + square(square(f / 800.0)))
        + share * formant
}

/// The linear gain of `db`.
pub fn from_db(db: f64) -> f64 {
    libm::exp2(db * (std::f64::consts::LOG2_10 / 20.0))
}

fn square(x: f64) -> f64 {
    x * x
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Check values of the fitted model, dB, partials 1 to 8 before any scaling.
    #[test]
    fn horn_reads_as_fitted() {
        let b_flat_3 = 440.0 * libm::exp2(-11.0 / 12.0);
        let checks: [(f64, f64, [f64; 8]); 4] = [
            (
                1.0,
                1.0,
                [-7.483, -3.298, -1.157, 1.148, 2.770, 2.970, 2.139, 0.907],
            ),
            (
                2.0,
                1.0,
                [-3.298, 1.153, 2.994, 0.980, -1.452, -3.769, -6.228, -8.868],
            ),
            (
                2.0,
                0.5,
                [
                    -6.323, -6.713, -8.929, -14.177, -19.248, -23.778, -28.136, -32.437,
                ],
            ),
            (
                4.0 * libm::exp2(2.0 / 12.0),
                1.0,
                [
                    2.123, -0.108, -5.050, -10.497, -15.927, -20.840, -25.177, -29.011,
                ],
            ),
        ];
        for (ratio, brightness, want) in checks {
            let f0 = b_flat_3 * ratio;
            for (i, want) in want.into_iter().enumerate() {
                let got =
                    Timbre::Horn(Family::Trumpet).level_db((i + 1) as f64 * f0, f0, brightness);
                assert!(
                    (got - want).abs() < 2e-3,
                    "{f0} Hz, partial {}: {got} for {want}",
                    i + 1
                );
            }
        }
    }

    #[test]
    fn decibels() {
        assert_eq!(from_db(0.0), 1.0);
        assert!((from_db(-20.0) - 0.1).abs() < 1e-15);
    }
}
