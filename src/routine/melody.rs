//! A line's notes once they are understood: ties joined, slurs and marks resolved, times exact.

use super::fault::Span;
use crate::brass::Valves;
use crate::music::{Dynamic, Whole, WrittenPitch};

/// What one pass of a line plays, as written (before it is moved to other keys or tubes).
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Melody {
    /// Notes, rests and breathing actions in order; each starts where the one before ends.
    pub events: Vec<Event>,
    /// Sum of all lengths, before it is filled up to a bar line.
    pub length: Whole,
    /// Changes of loudness in order; the first is mf at 0.
    pub loudness: Vec<LoudnessChange>,
}

/// One note (tied notes are one), rest or breathing action.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Event {
    /// Moment from the start of the pass.
    pub start: Whole,
    /// Full written length, ties included.
    pub length: Whole,
    /// Note, rest or breath.
    pub kind: EventKind,
    /// Joined to the event before it by a written slur. A repeated pitch or a note after a `breath`
    /// is not, even inside a slur.
    pub slurred: bool,
    /// How it starts if it is tongued.
    pub attack: Attack,
    /// How it is held, where something is written.
    pub style: Option<Style>,
    /// A breath is taken at its end.
    pub breath_after: bool,
    /// The fingering written with it.
    pub valves: Option<Valves>,
    /// Reached by lipping down from the note before, on that note's valves.
    pub bend: bool,
    /// Where it stands in the file, without its ties.
    pub span: Span,
}

/// What an event is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EventKind {
    /// A note, as written.
    Note(WrittenPitch),
    /// Silence.
    Rest,
    /// Breathe in (air lines).
    In,
    /// Breathe out (air lines).
    Out,
    /// Neither (air lines).
    Hold,
}

impl EventKind {
    /// True for all but rests and held breath.
    pub fn sounds(self) -> bool {
        !matches!(self, EventKind::Rest | EventKind::Hold)
    }
}

/// How a note starts when nothing joins it to the one before.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Attack {
    /// With the tongue.
    #[default]
    Tongue,
    /// With the air alone.
    Air,
    /// With the second consonant of double tonguing.
    Ku,
}

/// How a note is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs)]
pub enum Style {
    Staccato,
    Legato,
    Accent,
}

/// From `at` on the loudness is `to`; with a `since` it has moved there evenly in dB since then.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LoudnessChange {
    /// When the new loudness is reached.
    pub at: Whole,
    /// The loudness from then on.
    pub to: Dynamic,
    /// Where a `cresc` or `dim` began that leads here.
    pub since: Option<Whole>,
}

impl Melody {
    /// Loudness in dB against forte just after `moment`.
    pub fn level_db(&self, moment: Whole) -> f64 {
        let mut held = Dynamic::Mf.level_db();
        for change in &self.loudness {
            if change.at <= moment {
                held = change.to.level_db();
            } else if let Some(since) = change.since
                && since <= moment
            {
                let part = (moment - since) / (change.at - since);
                let part = *part.numer() as f64 / *part.denom() as f64;
                return held + part * (change.to.level_db() - held);
            } else {
                break;
            }
        }
        held
    }
}
