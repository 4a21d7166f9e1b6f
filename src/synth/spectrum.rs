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
            Timbre::Drone => drone_db(f, f0),
        }
    }

    /// Linear amplitudes of partials 1, 2, … up to `count`, in no particular scale.
    pub fn amplitudes(self, f0: f64, brightness: f64, count: usize) -> Vec<f64> {
        (1..=count)
            .map(|k| from_db(self.level_db(k as f64 * f0, f0, brightness)))
            .collect()
    }
}

/// The trumpet's spectrum, fitted to recorded trumpets (`tests/recordings`, which says which, how, and how
/// well it holds for sets that were left out). The shape is Fletcher and Tarnopolsky's (JASA 105:874, 1999):
/// an envelope that stands still in frequency while the note moves under it, so that a higher note has fewer
/// strong partials, and that loudness lifts at its upper end.
mod trumpet {
    /// Below this the bell radiates 6 dB an octave less, Hz (its radiation as a small source; the corner
    /// fitted).
    pub const BELL_HZ: f64 = 500.0;
    /// Above this the bell's cutoff and the source's own fall act together, Hz (fitted).
    pub const FALL_HZ: f64 = 3_150.0;
    /// Their fall in dB an octave at sounding B-flat 4, and by how much it is gentler an octave up (fitted).
    pub const FALL_DB: f64 = 22.5;
    pub const FALL_GENTLER_DB: f64 = 1.75;
    /// The formant that mouthpiece and bell add: middle in Hz, width in octaves, height in dB (fitted;
    /// Benade put the bell's cutoff at about 1.5 kHz).
    pub const FORMANT_HZ: f64 = 1_310.0;
    pub const FORMANT_OCTAVES: f64 = 0.48;
    pub const FORMANT_DB: f64 = 3.9;
    /// What softness takes away: dB an octave at brightness 0, and above what frequency in Hz. So each partial
    /// grows faster than the one below (Risset, JASA 38:912, 1965; Beauchamp, 1975). Knee and amount are those
    /// of recorded attacks; two softer sets agree.
    pub const DARKENING_DB: f64 = 20.0;
    pub const DARKENING_HZ: f64 = 600.0;
    /// High notes darken less: lips that swing faster need more pressure to swing at all (threshold pressure
    /// grows with frequency: Fletcher and Tarnopolsky). Where it begins to show, Hz (fitted to the softer sets).
    pub const DARKENING_LESS_HZ: f64 = 900.0;
}

/// Level of the trumpet's component at `f` Hz.
fn horn_db(f: f64, f0: f64, brightness: f64) -> f64 {
    use trumpet::*;
    let fall = FALL_DB - FALL_GENTLER_DB * libm::log2(f0 / 466.0);
    let formant = libm::log2(f / FORMANT_HZ) / FORMANT_OCTAVES;
    let darkening = DARKENING_DB / (1.0 + square(f0 / DARKENING_LESS_HZ)).sqrt();
    -10.0 * libm::log10(1.0 + square(BELL_HZ / f))
        - 0.25 * fall * libm::log2(1.0 + square(square(f / FALL_HZ)))
        + FORMANT_DB * libm::exp(-0.5 * square(formant))
        - 0.5 * darkening * (1.0 - brightness) * libm::log2(1.0 + square(f / DARKENING_HZ))
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

/// Starting phases in radians of the first partials, found by a search (steepest descent from random
/// starts) for the lowest peaks over all pitches and layers of the horn; partials beyond go on
/// quadratically.
#[rustfmt::skip]
const PHASES: [f64; 24] = [
    1.772, 2.458, 6.134, 3.689, 4.662, 5.555, 5.942, 4.819, 3.305, 5.784, 3.060, 0.643,
    2.611, 3.971, 0.019, 4.917, 4.532, 0.482, 0.800, 5.296, 4.191, 5.753, 1.190, 4.859,
];

/// Starting phase in radians of partial `k`, the same in every table, so that tables can be faded into
/// one another. It keeps the peak of every cycle within 1.83 of its RMS (in use, 1.75), which leaves room
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
