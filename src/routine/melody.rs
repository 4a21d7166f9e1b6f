//! The notes of a line, resolved: ties joined, slurs and marks applied, times exact.

use super::fault::Span;
use crate::brass::Tube;
use crate::music::{Dynamic, Whole, WrittenPitch};

/// What one pass of a line plays, as written (before it is moved to other keys or tubes).
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Melody {
    /// Notes, rests and breathing actions in order; each starts where the one before ends.
    pub events: Vec<Event>,
    /// Sum of all lengths, before it is rounded up to a whole bar.
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
    /// True if a written slur joins it to the previous event. False for a repeated pitch or a note after a
    /// `breath`, even inside a slur.
    pub slurred: bool,
    /// How it starts if it is tongued.
    pub attack: Attack,
    /// How it is held, if that is written.
    pub style: Option<Style>,
    /// True if a breath is taken at its end.
    pub breath_after: bool,
    /// Its written fingering.
    pub tube: Option<Tube>,
    /// Lipped down from the previous note, with that note's valves.
    pub bend: bool,
    /// Its place in the file, without its ties.
    pub span: Span,
}

/// A kind of event.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EventKind {
    /// A note, as written.
    Note(WrittenPitch),
    /// A rest.
    Rest,
    /// Breathe in (air lines).
    In,
    /// Breathe out (air lines).
    Out,
    /// Hold the breath (air lines).
    Hold,
}

impl EventKind {
    /// True except for rests and held breath.
    pub fn sounds(self) -> bool {
        !matches!(self, EventKind::Rest | EventKind::Hold)
    }
}

/// How a note starts if it is not joined to the previous one.
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

/// The loudness is `to` from `at` on; with a `since` it changes evenly in dB from then to `at`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LoudnessChange {
    /// When the new loudness is reached.
    pub at: Whole,
    /// The new loudness.
    pub to: Dynamic,
    /// Where the `cresc` or `dim` that leads here begins.
    pub since: Option<Whole>,
}

impl Melody {
    /// Loudness in dB relative to forte just after `moment`.
    pub fn level_db(&self, moment: Whole) -> f64 {
        let next = self.loudness.partition_point(|change| change.at <= moment);
        let held = next
            .checked_sub(1)
            .map_or(Dynamic::Mf, |before| self.loudness[before].to);
        let held = held.level_db();
        match self.loudness.get(next) {
            Some(LoudnessChange {
                at,
                to,
                since: Some(since),
            }) if *since <= moment => {
                let part = (moment - since) / (at - since);
                let part = *part.numer() as f64 / *part.denom() as f64;
                held + part * (to.level_db() - held)
            }
            _ => held,
        }
    }
}
