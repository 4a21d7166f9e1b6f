//! What all takes of one sample rate share.

use super::breath::Breath;
use super::click::Clicks;
use super::levels;
use super::spectrum::{self, Timbre};
use super::tables::{Bank, rms};

/// Time constant with which brightness follows, seconds.
const BRIGHTNESS_SECONDS: f64 = 0.002;

/// Whether the guide lives: drift, noise and consonants. Without them it is bare and exactly periodic,
/// which is for measuring.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Life {
    /// As it should sound.
    On,
    /// For measuring.
    Off,
}

/// What all takes of one sample rate share: tables and calibrated sounds. Made once a batch.
#[derive(Debug)]
pub struct Engine {
    sample_rate: u32,
    pub(super) life: Life,
    pub(super) horn: Bank,
    pub(super) mouthpiece: Bank,
    pub(super) drone: Bank,
    pub(super) breath: Breath,
    pub(super) clicks: Clicks,
    /// How much of the way brightness goes in 16 and in 64 frames.
    following: [f64; 2],
}

impl Engine {
    /// An engine for `sample_rate` frames a second: 44,100 or more, so that no partial folds back.
    pub fn new(sample_rate: u32) -> Self {
        Self::with(sample_rate, Life::On)
    }

    /// An engine whose guide lives or does not.
    pub fn with(sample_rate: u32, life: Life) -> Self {
        let rate = f64::from(sample_rate);
        // Darker than any held dynamic, for attacks and releases, and brighter, for accents.
        let layers: Vec<f64> = (-2..8).map(|i| Bank::LAYER_STEP * f64::from(i)).collect();
        // From D3, a whole tone below the lowest guide note, to D6.
        let guide = |timbre| Bank::new(timbre, 50, 19, &layers, |_, a| 1.0 / rms(a));
        Self {
            sample_rate,
            life,
            horn: guide(Timbre::Horn),
            mouthpiece: guide(Timbre::Mouthpiece),
            // From E2 to E6.
            drone: Bank::new(Timbre::Drone, 40, 25, &[1.0], |f0, a| {
                spectrum::from_db(levels::DRONE_LUFS - levels::tone_lufs(f0, a))
            }),
            breath: Breath::new(rate),
            clicks: Clicks::new(rate),
            following: [16, 64].map(|frames| following(frames, rate)),
        }
    }

    /// Frames a second.
    pub fn sample_rate(&self) -> u32 {
        self.sample_rate
    }

    /// Bytes of the tables that have been built.
    pub fn table_bytes(&self) -> usize {
        self.horn.bytes() + self.mouthpiece.bytes() + self.drone.bytes()
    }

    pub(super) fn rate(&self) -> f64 {
        f64::from(self.sample_rate)
    }

    /// How much of the way brightness goes in so many frames.
    pub(super) fn following(&self, frames: u64) -> f64 {
        match frames {
            16 => self.following[0],
            64 => self.following[1],
            _ => following(frames, self.rate()),
        }
    }
}

/// How much of the way to where it tends brightness goes in `frames`.
fn following(frames: u64, rate: f64) -> f64 {
    1.0 - libm::exp(-(frames as f64) / (BRIGHTNESS_SECONDS * rate))
}
