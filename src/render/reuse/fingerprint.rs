//! Hashes of a timeline's sound: of all of it and of each unit.
//!
//! Every field is hashed: numbers as 64 bits little-endian, lists with their lengths, so that different
//! timelines have different hashes. The hash of a unit leaves out its position in the track, because a unit
//! that moved sounds the same.

use crate::timeline::{
    Approach, Click, Content, Cue, Held, LevelPoint, LineSound, Onset, RestSound, Sign, Source,
    Step, Swell, Timeline, Tone, Unit,
};
use blake3::{Hash, Hasher};

/// The hashes of a timeline.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fingerprint {
    /// Of the whole, cues included.
    pub whole: Hash,
    /// Of the sound alone: equal for tracks that differ only in the text of their cues.
    pub sound: Hash,
    /// Of each unit in order.
    pub units: Vec<Hash>,
}

impl Fingerprint {
    /// The hashes of `timeline`.
    pub fn of(timeline: &Timeline) -> Self {
        let Timeline {
            sample_rate,
            frames,
            units,
            cues,
        } = timeline;
        let hashes: Vec<Hash> = units.iter().map(unit).collect();
        let mut to = To(Hasher::new());
        to.number((*sample_rate).into());
        to.number(*frames);
        to.number(units.len() as u64);
        for (unit, hash) in units.iter().zip(&hashes) {
            to.number(unit.first_frame);
            to.0.update(hash.as_bytes());
        }
        let sound = to.0.finalize();
        to.list(cues, |to, cue| {
            let Cue {
                frame,
                frames,
                label,
            } = cue;
            to.number(*frame);
            to.number(*frames);
            to.number(label.len() as u64);
            to.0.update(label.as_bytes());
        });
        Self {
            whole: to.0.finalize(),
            sound,
            units: hashes,
        }
    }
}

/// The hash of a unit's sound.
fn unit(unit: &Unit) -> Hash {
    let Unit {
        first_frame: _,
        frames,
        content,
    } = unit;
    let mut to = To(Hasher::new());
    to.number(*frames);
    match content {
        Content::Line(sound) => {
            to.number(0);
            to.line(sound);
        }
        Content::Rest(RestSound { signs }) => {
            to.number(1);
            to.list(signs, |to, (frame, sign)| {
                to.number(*frame);
                to.number(match sign {
                    Sign::HornDown => 0,
                    Sign::HornUp => 1,
                });
            });
        }
    }
    to.0.finalize()
}

struct To(Hasher);

impl To {
    fn number(&mut self, n: u64) {
        self.0.update(&n.to_le_bytes());
    }

    fn real(&mut self, x: f64) {
        self.number(x.to_bits());
    }

    fn flag(&mut self, yes: bool) {
        self.number(u64::from(yes));
    }

    fn list<T>(&mut self, items: &[T], each: impl Fn(&mut Self, &T)) {
        self.number(items.len() as u64);
        for item in items {
            each(self, item);
        }
    }

    // Each struct is destructured by name, so that a new field does not compile until it is hashed here.
    fn line(&mut self, sound: &LineSound) {
        let LineSound {
            clicks,
            drone,
            tones,
            company,
            softer_db,
            swells,
        } = sound;
        self.list(clicks, |to, Click { frame, accented }| {
            to.number(*frame);
            to.flag(*accented);
        });
        self.list(drone, |to, held| {
            let Held {
                frame,
                end,
                hz,
                fade,
            } = held;
            to.number(*frame);
            to.number(*end);
            to.list(hz, |to, hz| to.real(*hz));
            to.number(*fade);
        });
        self.list(tones, Self::tone);
        self.list(company, |to, tones| to.list(tones, Self::tone));
        self.real(*softer_db);
        self.list(swells, |to, swell| {
            let Swell {
                frame,
                end,
                inward,
                seed,
            } = swell;
            to.number(*frame);
            to.number(*end);
            to.flag(*inward);
            to.number(*seed);
        });
    }

    fn tone(&mut self, tone: &Tone) {
        let Tone {
            frame,
            end,
            rise,
            onset,
            accented,
            release,
            source,
            family,
            steps,
            levels,
            seed,
        } = tone;
        self.number(*frame);
        self.number(*end);
        self.number(*rise);
        self.number(match onset {
            Onset::Tongue => 0,
            Onset::Ku => 1,
            Onset::Air => 2,
        });
        self.flag(*accented);
        self.number(*release);
        self.number(match source {
            Source::Horn => 0,
            Source::Mouthpiece => 1,
        });
        self.number(*family as u64);
        self.list(steps, |to, step| {
            let Step {
                frame,
                hz,
                approach,
            } = step;
            to.number(*frame);
            to.real(*hz);
            to.approach(*approach);
        });
        self.list(levels, |to, LevelPoint { frame, db }| {
            to.number(*frame);
            to.real(*db);
        });
        self.number(*seed);
    }

    fn approach(&mut self, approach: Approach) {
        match approach {
            Approach::Start => self.number(0),
            Approach::Valves { glide, dip_db } => {
                self.number(1);
                self.number(glide);
                self.real(dip_db);
            }
            Approach::Lips { glide, dip_db } => {
                self.number(2);
                self.number(glide);
                self.real(dip_db);
            }
            Approach::Bend { glide, cents_off } => {
                self.number(3);
                self.number(glide);
                self.real(cents_off);
            }
        }
    }
}
