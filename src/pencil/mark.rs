//! A mark: what changes, and where.

use crate::brass::Tube;
use crate::music::Decimal;
use crate::routine::{Articulation, Drone, Guide, RestLength, Span};

/// All marks of a player.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Pencil {
    /// Whose it is; a nickname is enough.
    pub player: Option<String>,
    /// The marks in order of the file.
    pub marks: Vec<Mark>,
}

/// One mark.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What it marks.
    pub target: Target,
    /// When it was made, as written: 2026-11-25.
    pub date: Option<String>,
    /// What it changes.
    pub change: Change,
    /// The place of its value in the file.
    pub span: Span,
    /// The place where its line is named, or where its table opens.
    pub target_span: Span,
    /// Number of its `[[mark]]` in the file, from 0.
    pub table: usize,
}

/// What a mark is made on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Target {
    /// The routine as a whole.
    Whole,
    /// The line of that number, from 1.
    Number(usize),
    /// The line of that name.
    Name(String),
}

/// What a mark changes.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// How fast.
    Tempo(TempoChange),
    /// The rest after the line.
    Rest(RestChange),
    /// The rest from one time through to the next.
    Between(RestChange),
    /// A breath after this note, counted from 1.
    BreathAfter(usize),
    /// One articulation after the other.
    Articulation(Vec<Articulation>),
    /// Notes lipped down instead of fingered: one, counted from 1, or every one that can be.
    Bend(Option<usize>),
    /// Notes fingered that the teacher bends: one, counted from 1, or every one.
    Finger(Option<usize>),
    /// How often each half step or tube is played.
    Times(u32),
    /// The line is not played.
    LeaveOut,
    /// A dynamic step louder (true) or softer.
    Louder(bool),
    /// What the drone holds.
    Drone(Drone),
    /// What the guide does.
    Guide(Guide),
    /// The last half step or tube that is played.
    StopAfter(Stop),
    /// Other half steps.
    HalfSteps(Vec<i32>),
    /// Other tubes.
    Tubes(Vec<Tube>),
    /// Words for the sheet.
    Words(String),
}

/// An entry of `half_steps` or `tubes`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stop {
    /// A number of half steps.
    HalfStep(i32),
    /// A tube.
    Tube(Tube),
}

/// How fast.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TempoChange {
    /// A notch slower.
    Slower,
    /// A notch faster.
    Faster,
    /// Percent of the written tempo.
    Percent(Decimal),
    /// Clicks a minute at the written tempo; it moves with the take's.
    Clicks(Decimal),
}

/// How long a rest is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RestChange {
    /// A notch longer.
    Longer,
    /// A notch shorter.
    Shorter,
    /// Percent of the rest as it would be.
    Percent(Decimal),
    /// As in a routine.
    To(RestLength),
}

/// Every kind of change by its name in the file.
pub const KINDS: [&str; 16] = [
    "tempo",
    "rest",
    "between",
    "breath_after",
    "articulation",
    "bend",
    "finger",
    "times",
    "leave_out",
    "loudness",
    "drone",
    "guide",
    "stop_after",
    "half_steps",
    "tubes",
    "words",
];

impl Change {
    /// Its name in the file.
    pub fn kind(&self) -> &'static str {
        match self {
            Change::Tempo(_) => "tempo",
            Change::Rest(_) => "rest",
            Change::Between(_) => "between",
            Change::BreathAfter(_) => "breath_after",
            Change::Articulation(_) => "articulation",
            Change::Bend(_) => "bend",
            Change::Finger(_) => "finger",
            Change::Times(_) => "times",
            Change::LeaveOut => "leave_out",
            Change::Louder(_) => "loudness",
            Change::Drone(_) => "drone",
            Change::Guide(_) => "guide",
            Change::StopAfter(_) => "stop_after",
            Change::HalfSteps(_) => "half_steps",
            Change::Tubes(_) => "tubes",
            Change::Words(_) => "words",
        }
    }

    /// True if it makes no sense for the whole routine.
    pub fn needs_line(&self) -> bool {
        matches!(
            self,
            Change::BreathAfter(_)
                | Change::Bend(_)
                | Change::Finger(_)
                | Change::LeaveOut
                | Change::StopAfter(_)
                | Change::HalfSteps(_)
                | Change::Tubes(_)
        )
    }

    /// True if it may shorten a rest.
    pub fn may_cut_rest(&self) -> bool {
        match self {
            Change::Rest(change) | Change::Between(change) => match change {
                RestChange::Shorter => true,
                RestChange::Longer | RestChange::To(RestLength::Same) => false,
                RestChange::Percent(part) => *part < RestLength::WHOLE,
                RestChange::To(_) => true,
            },
            _ => false,
        }
    }

    /// True if a line cannot have both marks.
    pub fn conflicts(&self, other: &Change) -> bool {
        let walks = |c: &Change| {
            matches!(
                c,
                Change::StopAfter(_) | Change::HalfSteps(_) | Change::Tubes(_)
            )
        };
        match (self, other) {
            (Change::BreathAfter(a), Change::BreathAfter(b)) => a == b,
            (
                Change::Bend(Some(a)) | Change::Finger(Some(a)),
                Change::Bend(Some(b)) | Change::Finger(Some(b)),
            ) => a == b,
            (Change::Bend(_) | Change::Finger(_), Change::Bend(_) | Change::Finger(_)) => true,
            (Change::LeaveOut, _) | (_, Change::LeaveOut) => true,
            _ => self.kind() == other.kind() || walks(self) && walks(other),
        }
    }
}
