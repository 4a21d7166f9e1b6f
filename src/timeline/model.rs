//! The timeline: resolved, so that no repeats, beats, keys, marks or written pitches are left.
//!
//! Frames inside a unit count from the unit's first frame, so that a unit sounds the same wherever it
//! stands: nothing in it knows its place in the track.

use crate::brass::Family;

/// A whole track.
#[derive(Clone, Debug, PartialEq)]
pub struct Timeline {
    /// Frames a second.
    pub sample_rate: u32,
    /// Length of the track.
    pub frames: u64,
    /// Rests and lines in turn, each starting where the one before ends. The first is a rest.
    pub units: Vec<Unit>,
    /// One for each line, in order.
    pub cues: Vec<Cue>,
}

/// A place to jump to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cue {
    /// First frame of the line's count-in, from the start of the track.
    pub frame: u64,
    /// Frames to the line's last bar line.
    pub frames: u64,
    /// Number and name of the line.
    pub label: String,
}

/// A part of the track that is rendered by itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Unit {
    /// Its first frame, from the start of the track.
    pub first_frame: u64,
    /// Its length.
    pub frames: u64,
    /// What sounds in it.
    pub content: Content,
}

/// The content of a unit.
#[derive(Clone, Debug, PartialEq)]
pub enum Content {
    /// A line, from its count-in to the end of its fade.
    Line(LineSound),
    /// The silence between two lines, with its signs.
    Rest(RestSound),
}

/// Everything that sounds in a line. Each list is in order of frames.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct LineSound {
    /// Clicks.
    pub clicks: Vec<Click>,
    /// Held pitches of the drone, each starting where the one before ends.
    pub drone: Vec<Held>,
    /// Tones of the guide; none overlaps the next.
    pub tones: Vec<Tone>,
    /// Tones of the guides that sound with it in a group's track, each like `tones`.
    pub company: Vec<Vec<Tone>>,
    /// How much softer each guide of a group's track is, in dB; 0 for one alone.
    pub softer_db: f64,
    /// Breathing of the guide on air lines; none overlaps the next.
    pub swells: Vec<Swell>,
}

/// Signs in a rest.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct RestSound {
    /// In order of frames.
    pub signs: Vec<(u64, Sign)>,
}

/// What a sign says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Sign {
    /// A falling pair of tones: horn down.
    HornDown,
    /// A rising pair of tones: horn up.
    HornUp,
}

/// One click.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Click {
    /// Its first frame.
    pub frame: u64,
    /// True on beat one.
    pub accented: bool,
}

/// One part of the drone.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// Where it starts. The drone moves here from its pitches before.
    pub frame: u64,
    /// Where it ends: at the start of the next one, or at the end of the last one's fade.
    pub end: u64,
    /// One or two pitches in Hz. The first is the tonic or the named pitch.
    pub hz: Vec<f64>,
    /// Frames of fade at its end; 0 if another part follows.
    pub fade: u64,
}

/// One unbroken sound of the guide: a tongued note, or several notes slurred and bent.
#[derive(Clone, Debug, PartialEq)]
pub struct Tone {
    /// First frame, before the beat: the middle of its rise is on it.
    pub frame: u64,
    /// One past the last frame that sounds, release included.
    pub end: u64,
    /// Frames from nothing to full height.
    pub rise: u64,
    /// How it starts.
    pub onset: Onset,
    /// True for an accented start.
    pub accented: bool,
    /// Frames of release before `end`.
    pub release: u64,
    /// What produces it.
    pub source: Source,
    /// Whose tone it has.
    pub family: Family,
    /// The notes in order.
    pub steps: Vec<Step>,
    /// Loudness in dB against forte at points in order, linear between them, held beyond them.
    /// Two points at one frame are a step.
    pub levels: Vec<LevelPoint>,
    /// Seed of its noise and drift, from the content of the line.
    pub seed: u64,
}

/// How a tone starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Onset {
    /// With the tongue.
    Tongue,
    /// With the second, softer consonant.
    Ku,
    /// With the air alone.
    Air,
}

/// What produces a tone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Source {
    /// The horn.
    Horn,
    /// The mouthpiece alone.
    Mouthpiece,
}

/// One note inside a tone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// The moment of the note, on the beat.
    pub frame: u64,
    /// Its frequency.
    pub hz: f64,
    /// How it is reached from the step before.
    pub approach: Approach,
}

/// How a note is reached inside a tone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Approach {
    /// It is the first.
    Start,
    /// Over a change of valves: one quick stroke with the beat in its middle.
    Valves {
        /// Frames from the old pitch to the new.
        glide: u64,
        /// Depth of the dip in dB.
        dip_db: f64,
    },
    /// From one partial to another on the same tube (or anything on the mouthpiece): a glide through
    /// the boundary between two slots, with the beat in its middle.
    Lips {
        /// Frames from the old pitch to the new.
        glide: u64,
        /// Depth of the dip in dB.
        dip_db: f64,
    },
    /// Lipped away from its slot, or back into it from such a note: a slow glide with the beat in its middle, where the
    /// ear places the note.
    Bend {
        /// Frames from the old pitch to the new.
        glide: u64,
        /// Cents away from the slot once it is reached: 0 when it comes back.
        cents_off: f64,
    },
}

/// A point of a loudness curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LevelPoint {
    /// Frame of the unit.
    pub frame: u64,
    /// dB against forte.
    pub db: f64,
}

/// One breath of an air line: noise that grows and fades between two frames.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Swell {
    /// First frame.
    pub frame: u64,
    /// One past the last.
    pub end: u64,
    /// True for breathing in.
    pub inward: bool,
    /// Seed of its noise.
    pub seed: u64,
}
