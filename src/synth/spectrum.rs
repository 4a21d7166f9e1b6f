//! Which partials a sound has, and how strong: the parameters of every timbre stand here.

use std::f64::consts::PI;

/// A family of harmonic spectra, over pitch and brightness.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Timbre {
    /// The trumpet.
    Horn,
    /// Lips and mouthpiece without the horn.
    Mouthpiece,
    /// The held tone under it all.
    Drone,
}

impl Timbre {
    /// Level in dB of the component at `f` Hz of a tone of `f0` Hz. `brightness` is 1 at forte and
    /// falls to 0 below pianissimo; the drone has but one.
    pub fn level_db(self, f: f64, f0: f64, brightness: f64) -> f64 {
        match self {
            Timbre::Horn => horn_db(f, f0, brightness),
            Timbre::Mouthpiece => mouthpiece_db(f, brightness),
            Timbre::Drone => drone_db(f),
        }
    }

    /// Linear amplitudes of partials 1, 2, … up to `count`, in no particular scale.
    pub fn amplitudes(self, f0: f64, brightness: f64, count: usize) -> Vec<f64> {
        (1..=count)
            .map(|k| from_db(self.level_db(k as f64 * f0, f0, brightness)))
            .collect()
    }
}

/// The trumpet: 6 dB an octave of rise below 650 Hz is the bell's radiation, the fall above 2.65 kHz
/// its cutoff together with the source's own fall, the bump at 1.5 kHz the mouthpiece (the shape:
/// Fletcher and Tarnopolsky, JASA 105:874, 1999). The last term tilts it with loudness, so that each
/// partial grows faster than the one below (Beauchamp, 1975; Risset, JASA 38:912, 1965). The figures
/// are a robust fit to held notes of two openly licensed sound fonts.
fn horn_db(f: f64, f0: f64, brightness: f64) -> f64 {
    let fall = 20.5 - 2.0 * libm::log2(f0 / 466.0);
    let bump = libm::log2(f / 1500.0) / 0.63;
    -10.0 * libm::log10(1.0 + square(650.0 / f))
        - 0.25 * fall * libm::log2(1.0 + square(square(f / 2650.0)))
        + 2.8 * libm::exp(-0.5 * square(bump))
        - 9.0 * (1.0 - brightness) * libm::log2(1.0 + square(f / 600.0))
}

/// Buzzing lips on a mouthpiece: no bell to radiate the top, so a flatter fall, and the cup's own
/// resonance near 850 Hz. A choice by analogy; nothing was fitted.
fn mouthpiece_db(f: f64, brightness: f64) -> f64 {
    let bump = libm::log2(f / 850.0) / 0.7;
    -10.0 * libm::log10(1.0 + square(300.0 / f))
        - 2.6 * libm::log2(1.0 + square(square(f / 1700.0)))
        + 7.0 * libm::exp(-0.5 * square(bump))
        - 4.0 * (1.0 - brightness) * libm::log2(1.0 + square(f / 600.0))
}

/// The drone: soft above 1 kHz so as not to cover the player, and level between 300 Hz and there, for a
/// phone's speaker gives back little below 400 Hz.
fn drone_db(f: f64) -> f64 {
    -10.0 * libm::log10(1.0 + square(280.0 / f)) - 3.5 * libm::log2(1.0 + square(square(f / 950.0)))
}

/// Starting phases in radians of the first partials, found by a random search for the lowest peaks over
/// all pitches and layers of the horn; partials beyond go on quadratically.
#[rustfmt::skip]
const PHASES: [f64; 24] = [
    1.279, 2.609, 6.018, 4.248, 3.932, 5.102, 0.893, 4.286, 3.280, 2.955, 4.371, 1.049,
    4.194, 3.620, 5.235, 5.255, 3.193, 1.326, 5.891, 0.179, 2.787, 5.005, 2.660, 2.223,
];

/// Starting phase in radians of partial `k`, the same in every table, so that tables can be faded into
/// one another. It keeps the peak of every cycle within 1.95 of its RMS (in use, 1.85), which leaves room
/// for loudness: the ear does not hear these phases.
pub fn phase(k: usize) -> f64 {
    PHASES.get(k - 1).copied().unwrap_or_else(|| {
        let turns = 0.105 * (k * k) as f64;
        2.0 * PI * (turns - libm::floor(turns))
    })
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
                [-9.434, -4.620, -2.136, -0.296, 0.895, 1.309, 1.019, 0.196],
            ),
            (
                2.0,
                1.0,
                [
                    -4.619, -0.285, 1.362, 0.354, -2.111, -5.183, -8.420, -11.595,
                ],
            ),
            (
                2.0,
                0.5,
                [
                    -7.685, -8.258, -10.722, -15.008, -20.148, -25.462, -30.625, -35.484,
                ],
            ),
            (
                4.0 * libm::exp2(2.0 / 12.0),
                1.0,
                [
                    0.419, -0.460, -6.645, -12.884, -18.267, -22.846, -26.789, -30.238,
                ],
            ),
        ];
        for (ratio, brightness, want) in checks {
            let f0 = b_flat_3 * ratio;
            for (i, want) in want.into_iter().enumerate() {
                let got = Timbre::Horn.level_db((i + 1) as f64 * f0, f0, brightness);
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
