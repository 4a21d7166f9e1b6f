//! What all takes of one sample rate share.

use super::breath::Breath;
use super::click::Clicks;
use super::families::HornTone;
use super::levels;
use super::spectrum::{self, Timbre};
use super::tables::{ANCHOR_STEP, Bank, rms};
use crate::brass::Family;
use crate::timeline::{Source, Tone};

/// Time constant with which brightness follows, seconds.
const BRIGHTNESS_SECONDS: f64 = 0.002;

/// The guide's tables reach up to F-sharp 6, above the highest note of a piccolo trumpet.
const HIGHEST_MIDI: u8 = 92;

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
    /// One for each family, in the order of [`Family::ALL`].
    horns: Vec<Bank>,
    mouthpieces: Vec<Bank>,
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
        let guide = |timbre: fn(Family) -> Timbre, family| {
            let lowest = HornTone::of(family).lowest_midi;
            let anchors = usize::from(HIGHEST_MIDI - lowest) / ANCHOR_STEP as usize + 1;
            Bank::new(timbre(family), lowest, anchors, &layers, |_, a| {
                1.0 / rms(a)
            })
        };
        let of_all = |timbre| Family::ALL.map(|family| guide(timbre, family)).into();
        Self {
            sample_rate,
            life,
            horns: of_all(Timbre::Horn),
            mouthpieces: of_all(Timbre::Mouthpiece),
            // From E1, the lowest pitch that a routine can name, to E6.
            drone: Bank::new(Timbre::Drone, 28, 31, &[1.0], |f0, a| {
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
        let guides = self.horns.iter().chain(&self.mouthpieces);
        guides.map(Bank::bytes).sum::<usize>() + self.drone.bytes()
    }

    /// The tables of what produces `tone`.
    pub(super) fn bank(&self, tone: &Tone) -> &Bank {
        match tone.source {
            Source::Horn => self.horn(tone.family),
            Source::Mouthpiece => &self.mouthpieces[tone.family as usize],
        }
    }

    /// The tables of a family.
    pub(super) fn horn(&self, family: Family) -> &Bank {
        &self.horns[family as usize]
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
