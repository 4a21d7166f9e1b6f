//! The music of a section: ties joined, slurs resolved to the notes they join, bar lines where the bars are
//! full.

use crate::brass::Tube;
use crate::music::{Dynamic, Key, Whole, WrittenPitch};
use crate::routine::{Attack, Style};

/// A note, rest or breath of a tune.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct TuneEvent {
    /// Index of the measure it begins in, for reporting losses.
    pub measure: usize,
    /// What it is.
    pub kind: TuneEventKind,
    /// Its noteheads: moment and length of each; the later ones are tied.
    pub heads: Vec<(Whole, Whole)>,
    /// True if a slur joins it to the previous note.
    pub joined: bool,
    pub style: Option<Style>,
    pub attack: Attack,
    pub bend: bool,
    pub breath: bool,
    /// Its fingering, if the file has one that sounds the note.
    pub tube: Option<Tube>,
}

/// What an event is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum TuneEventKind {
    Note(WrittenPitch),
    Rest,
    In,
    Out,
    Hold,
}

impl TuneEvent {
    pub(super) fn start(&self) -> Whole {
        self.heads[0].0
    }

    pub(super) fn end(&self) -> Whole {
        let (at, length) = self.heads[self.heads.len() - 1];
        at + length
    }

    pub(super) fn pitch(&self) -> Option<WrittenPitch> {
        match self.kind {
            TuneEventKind::Note(pitch) => Some(pitch),
            _ => None,
        }
    }

    pub(super) fn is_rest(&self) -> bool {
        self.kind == TuneEventKind::Rest
    }
}

/// A change of loudness in the file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct TuneChange {
    pub at: Whole,
    /// Index of its measure.
    pub measure: usize,
    /// Index of its bar.
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
pub(super) struct TuneBar {
    pub start: Whole,
    pub length: Whole,
    /// True if it is silent.
    pub silent: bool,
    /// Text over it, if that is about rests.
    pub rest: Option<String>,
}

/// A section's music.
#[derive(Clone, Debug, Default)]
pub(super) struct Tune {
    /// The key it begins in.
    pub key: Option<Key>,
    pub events: Vec<TuneEvent>,
    pub changes: Vec<TuneChange>,
    pub bars: Vec<TuneBar>,
    /// True if all bars are full, except perhaps the last: then bar lines can be written.
    pub regular: bool,
    /// True if some of its bars were several bars in the file.
    pub joined_bars: bool,
    /// Text over its beginning.
    pub heading: Vec<String>,
    /// Text over later bars: measure and words.
    pub words: Vec<(usize, String)>,
    /// True if bars of rest outside the notes have a text over them.
    pub rests_marked: bool,
    /// Leadpipe's own words.
    pub mouthpiece: bool,
    pub echo: bool,
    pub goes_on: bool,
    /// A rest after it, given in words.
    pub rest: Option<String>,
    /// Bars of rest at its end, as indices into the course.
    pub rest_bars: usize,
    /// Bars of rest before its first note.
    pub lead_bars: usize,
}
