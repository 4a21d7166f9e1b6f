//! How a tone starts, besides rising: lips and air need some periods until the horn holds them.
//!
//! Recorded trumpets (`tests/recordings/starts.py`) have 10 to 15 dB less energy between their partials than in all in the
//! first eight periods (the middle half of them). Noise alone would do that, but with high peaks; most of it is an uneven height of the periods.

use std::f64::consts::{FRAC_PI_2, TAU};

use super::drift::Seeds;
use super::spectrum::from_db;
use crate::timeline::{Onset, Tone};

/// The air behind the tongue: so many dB above the note when it has risen, gone so many seconds later (recorded: 0.6 to
/// 2.0 dB, median 1.4).
const OVERSHOOT_DB: f64 = 1.5;
const OVERSHOOT_SECONDS: f64 = 0.09;
/// Lips that are not yet caught by the horn: noise at the height of its burst, dB against a note at forte from MIDI note
/// 60 down and two octaves up, and the time constant of its fall in seconds and periods.
const BURST_DB: f64 = -8.5;
const BURST_HIGH_DB: f64 = -13.0;
const BURST_SECONDS: f64 = 0.0015;
const BURST_PERIODS: f64 = 2.1;
/// The burst grows against the note by so many dB for each dB of it, up to forte.
const BURST_GROWTH: f64 = 0.2;
/// They start flat by so many cents at forte, less by a half at so many dB below it, and are in tune after so many seconds
/// and periods.
const SCOOP_CENTS: f64 = 120.0;
const SCOOP_HALVED_BY_DB: f64 = 14.0;
const SCOOP_SECONDS: f64 = 0.006;
const SCOOP_PERIODS: f64 = 3.5;
/// The first periods are uneven: their height swings this much at forte, less by a half at so many dB below it, by a sine
/// whose frequency is between these shares of the pitch, until the note has risen and for no more than so many periods.
const UNEVEN: f64 = 0.72;
const UNEVEN_HALVED_BY_DB: f64 = 30.0;
const UNEVEN_PERIODS: f64 = 13.0;
const UNEVEN_RATES: [f64; 2] = [0.4, 0.6];
/// How much of all this there is after the softer consonant and by the air alone.
const KU_START: f64 = 0.6;
const AIR_START: f64 = 0.3;

/// How a tone starts, besides rising.
#[derive(Clone, Copy, Debug)]
pub struct Starting {
    overshoot_db: f64,
    /// Frames after which the overshoot falls, and how long it takes.
    attack: f64,
    overshoot: f64,
    /// The burst's height against the note and the time constant in frames of its fall.
    burst: f64,
    burst_fall: f64,
    scoop_cents: f64,
    scoop: f64,
    uneven: f64,
    uneven_end: f64,
    /// Radians a frame, and the phase at the first.
    swing: (f64, f64),
}

impl Starting {
    /// For a tone of this MIDI note number whose rise takes `attack` frames.
    pub fn new(tone: &Tone, midi: f64, attack: f64, sample_rate: f64, seeds: &mut Seeds) -> Self {
        let much = match tone.onset {
            Onset::Tongue => 1.0,
            Onset::Ku => KU_START,
            Onset::Air => AIR_START,
        };
        let (hz, db) = (
            tone.steps[0].hz,
            tone.levels.first().map_or(0.0, |level| level.db),
        );
        let [slowest, quickest] = UNEVEN_RATES;
        let high = ((midi - 60.0) / 24.0).clamp(0.0, 1.0);
        let burst_db = BURST_DB + high * (BURST_HIGH_DB - BURST_DB) + BURST_GROWTH * db.min(0.0);
        Self {
            overshoot_db: much * OVERSHOOT_DB,
            attack,
            overshoot: OVERSHOOT_SECONDS * sample_rate,
            burst: much * from_db(burst_db),
            burst_fall: (BURST_SECONDS + BURST_PERIODS / hz) * sample_rate,
            scoop_cents: much * SCOOP_CENTS * libm::exp2(db / SCOOP_HALVED_BY_DB),
            scoop: attack.min((SCOOP_SECONDS + SCOOP_PERIODS / hz) * sample_rate),
            uneven: much * (UNEVEN * libm::exp2(db / UNEVEN_HALVED_BY_DB)).min(1.0),
            uneven_end: attack.min(UNEVEN_PERIODS / hz * sample_rate),
            swing: (
                TAU * (slowest + seeds.unit() * (quickest - slowest)) * hz / sample_rate,
                TAU * seeds.unit(),
            ),
        }
    }

    /// dB above the note, `since` frames after its first.
    pub fn overshoot_db(&self, since: f64) -> f64 {
        self.overshoot_db * falling((since - self.attack).max(0.0), self.overshoot)
    }

    /// Noise against the note's level, before it rises with the note.
    pub fn burst(&self, since: f64) -> f64 {
        if since < 8.0 * self.burst_fall {
            self.burst * libm::exp(-since / self.burst_fall)
        } else {
            0.0
        }
    }

    /// What the unevenness leaves of the height.
    pub fn height(&self, since: f64) -> f64 {
        if since >= self.uneven_end {
            return 1.0;
        }
        let passed = since / self.uneven_end;
        let swing = libm::sin(self.swing.1 + self.swing.0 * since);
        1.0 - self.uneven * (1.0 - passed * passed) * (0.5 + 0.5 * swing)
    }

    /// Cents that it is flat.
    pub fn scoop_cents(&self, since: f64) -> f64 {
        let left = (1.0 - since / self.scoop).max(0.0);
        self.scoop_cents * left * left
    }
}

/// cos² from 1 to 0 over `length` frames.
pub fn falling(frames: f64, length: f64) -> f64 {
    if frames >= length {
        return 0.0;
    }
    let cos = libm::cos(FRAC_PI_2 * frames / length);
    cos * cos
}
