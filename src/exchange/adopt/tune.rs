//! A section as one tune: notes with their ties joined, slurs as what they join, bar lines where they add up.

use crate::brass::Valves;
use crate::music::{Dynamic, Whole, WrittenPitch};
use crate::routine::{Attack, Style};

/// A note, rest or breath of a tune.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Event {
    /// Index of the measure it begins in, to tell where something is lost.
    pub measure: usize,
    /// What it is.
    pub kind: Kind,
    /// Its heads: moment and length of each; the later ones are tied.
    pub heads: Vec<(Whole, Whole)>,
    /// A slur joins it to the note before.
    pub joined: bool,
    pub style: Option<Style>,
    pub attack: Attack,
    pub bend: bool,
    pub breath: bool,
    /// Its fingering, where the file has one that sounds it.
    pub valves: Option<Valves>,
}

/// What an event is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Kind {
    Note(WrittenPitch),
    Rest,
    In,
    Out,
    Hold,
}

impl Event {
    pub(super) fn start(&self) -> Whole {
        self.heads[0].0
    }

    pub(super) fn end(&self) -> Whole {
        let (at, length) = self.heads[self.heads.len() - 1];
        at + length
    }

    pub(super) fn pitch(&self) -> Option<WrittenPitch> {
        match self.kind {
            Kind::Note(pitch) => Some(pitch),
            _ => None,
        }
    }

    pub(super) fn is_rest(&self) -> bool {
        self.kind == Kind::Rest
    }
}

/// A change of loudness as the file has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Change {
    pub at: Whole,
    /// Index of the measure it stands in.
    pub measure: usize,
    /// Index of the bar it stands in.
    pub bar: usize,
    pub kind: ChangeKind,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum ChangeKind {
    Dynamic(Dynamic),
    Wedge(bool),
    WedgeOver,
}

/// A bar of a tune.
#[derive(Clone, Debug)]
pub(super) struct Bar {
    pub start: Whole,
    pub length: Whole,
    /// True if nobody plays in it.
    pub silent: bool,
    /// What is said over it, if that is about rests.
    pub rest: Option<String>,
}

/// A section's music.
#[derive(Clone, Debug, Default)]
pub(super) struct Tune {
    pub events: Vec<Event>,
    pub changes: Vec<Change>,
    pub bars: Vec<Bar>,
    /// True if all bars are full, but the last may be short; then bar lines can be written.
    pub regular: bool,
    /// True if some of its bars were several in the file.
    pub joined_bars: bool,
    /// What stands over its beginning.
    pub heading: Vec<String>,
    /// What stands over later bars: measure and words.
    pub words: Vec<(usize, String)>,
    /// True if bars of rest that are not part of the notes have a word over them.
    pub rests_marked: bool,
    /// Leadpipe's own words.
    pub mouthpiece: bool,
    pub echo: bool,
    pub goes_on: bool,
    /// A rest after it as words have it.
    pub rest: Option<String>,
    /// Bars of rest at its end, as places in the course.
    pub rest_bars: usize,
    /// Bars of rest before its first note.
    pub lead_bars: usize,
}
