//! The course of a tone: its pitch, loudness, brightness and noise at any moment, as smooth functions.
//!
//! Times and depths of joins are decided in the timeline; their shapes are decided here.

use std::f64::consts::{FRAC_PI_2, LN_10};

use super::block::CONTROL_FRAMES;
use super::drift::{Drift, Drifting, Seeds};
use super::engine::Life;
use super::families::HornTone;
use super::levels::{self, saturated_db};
use super::spectrum::from_db;
use super::starting::{Starting, falling};
use crate::timeline::{Approach, LevelPoint, Source, Tone};

/// A note opens: it starts darker by so much and comes to its brightness in so many seconds and periods. So each partial
/// reaches half its height 0.5 to 2 ms after the one below, whatever the pitch and the dynamic (recorded: 0.5 to 1.9).
const OPENING: f64 = 0.37;
const OPENING_SECONDS: f64 = 0.0122;
const OPENING_PERIODS: f64 = 3.8;
/// An accent's extra loudness in dB, and how long it lasts, seconds.
const ACCENT_DB: f64 = 2.0;
const ACCENT_SECONDS: f64 = 0.08;
/// Brightness follows this power of the level inside a note: in a release, a dip, an accent. It swings by as
/// much as a note of brightness `LEAST_SWING` does where the note itself is darker.
const BRIGHTNESS_POWER: f64 = 1.1;
const LEAST_SWING: f64 = 0.5;
/// What 100 cents of lipping do: dB of loudness, darkening, dB of noise.
const BEND_DB: f64 = -2.0;
const BEND_DARKENING: f64 = 0.35;
const BEND_NOISE_DB: f64 = 2.0;
/// A slur's dip is longer than its glide: a valve's by this factor, the lips' by that.
const VALVE_DIP: f64 = 4.0;
const LIP_DIP: f64 = 1.6;
/// dB of noise more in the middle of a lip slur.
const LIP_NOISE_DB: f64 = 3.0;
/// Noise against the tone in dB at forte at MIDI note 60 and below, and how much less a fifth above it and
/// beyond (recorded: 27 to 37 dB below the harmonics).
const NOISE_DB: f64 = -32.0;
const NOISE_FALL_DB: f64 = -3.5;
/// A buzz is breathier than a horn.
const MOUTHPIECE_NOISE_DB: f64 = 4.0;
/// Noise grows more slowly than the tone, as this power of it.
const NOISE_POWER: f64 = 0.9;
/// A written step of loudness inside a tone takes so long, seconds.
const STEP_SECONDS: f64 = 0.02;
/// A note whose steady part is shorter than this drifts less, so that its middle alone is in tune too,
/// seconds.
const WANDER_SECONDS: f64 = 1.7;

/// A tone at one moment.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// log2 of the frequency in Hz, without drift.
    pub log2_hz: f64,
    /// Drift of pitch, cents.
    pub cents: f64,
    /// Gain of the tone, whose cycles have an RMS of 1.
    pub gain: f64,
    /// What brightness tends to.
    pub brightness: f64,
    /// RMS of its noise.
    pub noise: f64,
}

/// How one note leads to the next: what changes, when, and by which curve.
#[derive(Clone, Debug)]
struct Join {
    /// First and last moment at which it has an effect.
    begin: f64,
    finish: f64,
    glide_from: f64,
    glide: f64,
    change: Hold,
    dip_db: f64,
    dip_half: f64,
    middle: f64,
    lips: bool,
    bend: bool,
}

/// What a note holds once it is reached.
#[derive(Clone, Copy, Debug, Default)]
struct Hold {
    /// log2 of the frequency.
    log2_hz: f64,
    /// How much of the drift it has, and the cents that keep its mean where it should be.
    wander: f64,
    centre_cents: f64,
    /// Cents away from its slot.
    cents_off: f64,
}

impl Hold {
    fn plus(self, change: Hold, x: f64) -> Hold {
        Hold {
            log2_hz: self.log2_hz + x * change.log2_hz,
            wander: self.wander + x * change.wander,
            centre_cents: self.centre_cents + x * change.centre_cents,
            cents_off: self.cents_off + x * change.cents_off,
        }
    }
}

/// A tone's course. Moments are frames of the unit and are asked for in order.
#[derive(Clone, Debug)]
pub struct Contour {
    start: u64,
    end: f64,
    frames_per_second: f64,
    attack: f64,
    /// Time constant in frames with which it opens.
    opening: f64,
    starting: Starting,
    release: f64,
    accented: bool,
    level_db: f64,
    /// What makes its family as loud as the others.
    family_db: f64,
    /// What its saturation is lower by.
    crest_db: f64,
    noise_db: f64,
    joins: Vec<Join>,
    /// Joins that are over, and what they led to.
    done: usize,
    hold: Hold,
    levels: Vec<LevelPoint>,
    /// The last level point that has been passed.
    passed: usize,
    drift: Option<Drifting>,
}

impl Contour {
    /// The course of `tone`, which must have a step.
    pub fn new(tone: &Tone, sample_rate: f64, life: Life, seeds: &mut Seeds) -> Self {
        let (start, end) = (tone.frame as f64, tone.end as f64);
        let hz = tone.steps[0].hz;
        let length = end - start;
        let family = HornTone::of(tone.family);
        let attack = (tone.rise as f64).min(0.5 * length);
        let release = (tone.release as f64).clamp(1.0, (length - attack).max(1.0));
        let drift = match life {
            Life::On => Some(Drifting::new(seeds, sample_rate, CONTROL_FRAMES)),
            Life::Off => None,
        };
        let (hold, joins) = joins(tone, attack, release, sample_rate, drift.as_ref());
        let midi = 69.0 + 12.0 * libm::log2(hz / 440.0);
        let (level_db, breathier) = match tone.source {
            Source::Horn => (0.0, 0.0),
            Source::Mouthpiece => (levels::MOUTHPIECE_DB, MOUTHPIECE_NOISE_DB),
        };
        Self {
            start: tone.frame,
            end,
            frames_per_second: sample_rate,
            attack,
            opening: (OPENING_SECONDS + OPENING_PERIODS / hz) * sample_rate,
            starting: Starting::new(tone, midi, attack, sample_rate, seeds),
            release,
            accented: tone.accented,
            level_db,
            family_db: family.level_db + family.crest_db,
            crest_db: family.crest_db,
            noise_db: NOISE_DB
                + NOISE_FALL_DB * ((midi - 60.0) / 7.0).clamp(0.0, 1.0)
                + breathier
                + family.noise_db,
            joins,
            done: 0,
            hold,
            levels: without_steps(&tone.levels, STEP_SECONDS * sample_rate),
            passed: 0,
            drift,
        }
    }

    /// Whether anything but drift and slow changes happens between two moments.
    pub fn busy(&self, from: u64, to: u64) -> bool {
        ((from - self.start) as f64) < self.attack
            || to as f64 > self.end - self.release
            || self
                .joins
                .get(self.done)
                .is_some_and(|j| j.begin < to as f64)
    }

    /// The tone at `frame`.
    pub fn at(&mut self, frame: u64) -> Point {
        let t = frame as f64;
        while let Some(join) = self.joins.get(self.done).filter(|j| j.finish <= t) {
            self.hold = self.hold.plus(join.change, 1.0);
            self.done += 1;
        }
        let mut hold = self.hold;
        let (mut dip_db, mut noise_db) = (0.0, self.noise_db);
        for join in self.joins[self.done..].iter().take_while(|j| j.begin < t) {
            hold = hold.plus(join.change, join.reached(t));
            let depth = join.depth(t);
            dip_db -= join.dip_db * depth;
            if join.lips {
                noise_db += LIP_NOISE_DB * depth;
            }
        }
        let lipped = hold.cents_off.abs() / 100.0;
        dip_db += BEND_DB * lipped;
        noise_db += BEND_NOISE_DB * lipped;

        let drift = match &mut self.drift {
            Some(drift) => drift.at(frame - self.start),
            None => Drift::default(),
        };
        let since = t - self.start as f64;
        let held_db = self.level(t) + drift.db * hold.wander;
        let accent_db = if self.accented {
            ACCENT_DB * falling(since, ACCENT_SECONDS * self.frames_per_second)
        } else {
            0.0
        };
        let overshoot_db = self.starting.overshoot_db(since);
        let (rise, fall) = (self.rise(t), self.fall(t));
        let envelope = rise * fall;
        let asked_db = held_db + accent_db + overshoot_db + self.family_db;
        let db = saturated_db(asked_db) - self.crest_db + dip_db;
        let inside_db = accent_db + dip_db;
        // Powers of the level inside the note; most of it is neither fading nor changing.
        let (brighter, noisier) = if fall <= 0.0 {
            (0.0, 0.0)
        } else if fall == 1.0 && inside_db == 0.0 {
            (1.0, 1.0)
        } else {
            let ln = libm::log(fall);
            (
                libm::exp(BRIGHTNESS_POWER * (ln + inside_db * LN_10 / 20.0)),
                libm::exp(NOISE_POWER * ln),
            )
        };
        let closed = if since < 10.0 * self.opening {
            OPENING * libm::exp(-since / self.opening)
        } else {
            0.0
        };
        let held_brightness = held_brightness(held_db);
        let swing = held_brightness.max(LEAST_SWING);
        let inside = brighter * (1.0 - (BEND_DARKENING * lipped).min(1.0));
        let forte = levels::FORTE_RMS;
        // A breath comes before the tone: in the attack noise rises as its root.
        let breath = rise.sqrt();
        let (scoop, burst, height) = match self.drift {
            Some(_) => (
                self.starting.scoop_cents(since),
                self.starting.burst(since) * from_db(held_db),
                self.starting.height(since),
            ),
            None => (0.0, 0.0, 1.0),
        };
        Point {
            log2_hz: hold.log2_hz,
            cents: hold.centre_cents + hold.wander * drift.cents - scoop,
            gain: forte * from_db(db + self.level_db) * envelope * height,
            brightness: held_brightness + swing * (inside - 1.0) - closed,
            noise: if self.drift.is_some() {
                forte * from_db(NOISE_POWER * db + noise_db + self.level_db) * breath * noisier
                    + forte * burst * breath * fall
            } else {
                0.0
            },
        }
    }

    /// The attack: from 0 at the first frame to 1.
    fn rise(&self, t: f64) -> f64 {
        quarter(t - self.start as f64, self.attack)
    }

    /// The release: from 1 to 0 at the end.
    fn fall(&self, t: f64) -> f64 {
        quarter(self.end - t, self.release)
    }

    /// The written loudness, dB against forte.
    fn level(&mut self, t: f64) -> f64 {
        let Some(first) = self.levels.first() else {
            return 0.0;
        };
        while self
            .levels
            .get(self.passed + 1)
            .is_some_and(|p| p.frame as f64 <= t)
        {
            self.passed += 1;
        }
        let here = self.levels[self.passed];
        match self.levels.get(self.passed + 1) {
            _ if t <= first.frame as f64 => first.db,
            Some(next) => {
                let x = (t - here.frame as f64) / (next.frame - here.frame) as f64;
                here.db + x * (next.db - here.db)
            }
            None => here.db,
        }
    }
}

impl Join {
    /// How much of the change has come about: 0 to 1.
    fn reached(&self, t: f64) -> f64 {
        let x = ((t - self.glide_from) / self.glide).clamp(0.0, 1.0);
        if self.bend {
            let sin = libm::sin(FRAC_PI_2 * x);
            sin * sin
        } else {
            // Rest, speed and acceleration are 0 at both ends.
            x * x * x * (10.0 + x * (6.0 * x - 15.0))
        }
    }

    /// How much of the dip there is: 0 to 1 in the middle.
    fn depth(&self, t: f64) -> f64 {
        let x = (t - self.middle).abs() / self.dip_half;
        if x >= 1.0 {
            return 0.0;
        }
        let cos = libm::cos(FRAC_PI_2 * x);
        cos * cos
    }
}

/// sin² from 0 to 1 over `length` frames.
fn quarter(frames: f64, length: f64) -> f64 {
    if frames >= length {
        return 1.0;
    }
    let sin = libm::sin(FRAC_PI_2 * (frames / length).max(0.0));
    sin * sin
}

/// Brightness of a tone held at `db` against forte. Gentler than inside a note, so that the first partial
/// too grows with every dynamic (Beauchamp, 1975).
fn held_brightness(db: f64) -> f64 {
    (1.0 + db / 30.0 * (1.0 - db / 36.0)).clamp(0.0, 1.2)
}

/// What the first note holds, and how each next one is reached.
fn joins(
    tone: &Tone,
    attack: f64,
    release: f64,
    sample_rate: f64,
    drift: Option<&Drifting>,
) -> (Hold, Vec<Join>) {
    let glides: Vec<(f64, f64)> = tone
        .steps
        .iter()
        .map(|s| glide(s.frame as f64, s.approach))
        .collect();
    let start = tone.frame as f64;
    let mut holds = Vec::with_capacity(tone.steps.len());
    for (i, step) in tone.steps.iter().enumerate() {
        let from = if i == 0 {
            start + attack
        } else {
            glides[i].0 + glides[i].1
        };
        let to = glides.get(i + 1).map_or(tone.end as f64 - release, |g| g.0);
        let mut hold = Hold {
            log2_hz: libm::log2(step.hz),
            cents_off: match step.approach {
                Approach::Bend { cents_off, .. } => cents_off,
                _ => 0.0,
            },
            ..Hold::default()
        };
        if let Some(drift) = drift {
            hold.wander = ((to - from) / (WANDER_SECONDS * sample_rate)).clamp(0.1, 1.0);
            hold.centre_cents = -hold.wander * drift.mean_cents(from - start, to - start);
        }
        holds.push(hold);
    }
    let mut joins: Vec<Join> = Vec::with_capacity(tone.steps.len().saturating_sub(1));
    for i in 1..holds.len() {
        let (glide_from, glide) = glides[i];
        let (dip_db, dip_half, lips, bend) = match tone.steps[i].approach {
            Approach::Start => (0.0, 1.0, false, false),
            Approach::Valves { dip_db, .. } => (dip_db, 0.5 * VALVE_DIP * glide, false, false),
            Approach::Lips { dip_db, .. } => (dip_db, 0.5 * LIP_DIP * glide, true, false),
            Approach::Bend { .. } => (0.0, 1.0, false, true),
        };
        let middle = tone.steps[i].frame as f64;
        let dip_half = if dip_db == 0.0 { 1.0 } else { dip_half };
        joins.push(Join {
            begin: glide_from.min(middle - dip_half),
            finish: (glide_from + glide).max(middle + dip_half),
            glide_from,
            glide,
            change: holds[i].plus(holds[i - 1], -1.0),
            dip_db,
            dip_half,
            middle,
            lips,
            bend,
        });
    }
    // A deep dip must not begin unseen behind a shallow one that starts later.
    for i in (1..joins.len()).rev() {
        joins[i - 1].begin = joins[i - 1].begin.min(joins[i].begin);
    }
    (holds[0], joins)
}

/// Where a glide begins, and its length, at least a frame.
fn glide(frame: f64, approach: Approach) -> (f64, f64) {
    match approach {
        Approach::Start => (frame, 1.0),
        Approach::Valves { glide, .. }
        | Approach::Lips { glide, .. }
        | Approach::Bend { glide, .. } => {
            let glide = glide.max(1) as f64;
            (frame - 0.5 * glide, glide)
        }
    }
}

/// A step of loudness becomes a short slope, so that nothing clicks.
fn without_steps(levels: &[LevelPoint], slope_frames: f64) -> Vec<LevelPoint> {
    let mut smooth: Vec<LevelPoint> = Vec::with_capacity(levels.len());
    for &(mut point) in levels {
        if let Some(last) = smooth.last() {
            let least = if point.db == last.db {
                0
            } else {
                slope_frames as u64
            };
            point.frame = point.frame.max(last.frame + least);
        }
        smooth.push(point);
    }
    smooth
}

/// The exponent of 2 that turns cents into a ratio.
pub const OCTAVES_PER_CENT: f64 = 1.0 / 1200.0;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn brightness_of_the_marks() {
        for (db, want) in [
            (-18.0, 0.10),
            (-13.0, 0.41),
            (-9.0, 0.62),
            (-5.0, 0.81),
            (0.0, 1.0),
            (4.0, 1.12),
        ] {
            assert!((held_brightness(db) - want).abs() < 0.006, "{db}");
        }
    }

    #[test]
    fn steps_of_loudness_become_slopes() {
        let point = |frame, db| LevelPoint { frame, db };
        let smooth = without_steps(
            &[
                point(0, -5.0),
                point(100, -5.0),
                point(100, 0.0),
                point(5000, 0.0),
            ],
            960.0,
        );
        assert_eq!(smooth[2], point(1060, 0.0));
        assert_eq!(smooth[3], point(5000, 0.0));
    }
}
