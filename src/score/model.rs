//! The unrolled routine.

use super::take::Take;
use crate::brass::{Instrument, Valves};
use crate::music::{Meter, Seconds, SoundingPitch, Tempo, Whole, WrittenPitch};
use crate::routine::{Articulation, Attack, Guide, On, Routine, Span, Style};
use num_rational::BigRational;

/// A routine at one take, unrolled.
#[derive(Clone, Debug)]
pub struct Score<'r> {
    /// What it was unrolled from.
    pub routine: &'r Routine,
    /// At which take.
    pub take: Take,
    /// Lines that are played, in order. A line none of whose passes fits is not among them.
    pub lines: Vec<ScoreLine>,
    /// What was left out or left as it was, and why.
    pub notices: Vec<Notice>,
    /// Length of the track in seconds, from its first frame to the end of the last fade.
    pub seconds: BigRational,
}

impl Score<'_> {
    /// The instrument.
    pub fn instrument(&self) -> &'static Instrument {
        self.routine.instrument
    }
}

/// Something the take could not do as asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// Index of the line in the routine.
    pub line: usize,
    /// What kind of thing.
    pub kind: NoticeKind,
    /// Where in the file.
    pub span: Span,
    /// In words.
    pub message: String,
}

/// Kinds of [`Notice`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NoticeKind {
    /// The passes of this entry of the walk leave the instrument and are left out.
    PassLeftOut {
        /// Index of the entry.
        walk_index: usize,
    },
    /// No pass of the line fits, so the line is left out.
    LineLeftOut,
    /// A line with fingerings stays in its key.
    KeyKept,
}

/// One line of a score, from its count-in to its last bar line.
#[derive(Clone, Debug)]
pub struct ScoreLine {
    /// Index of the line in the routine.
    pub index: usize,
    /// What it is played on.
    pub on: On,
    /// Its tempo in this take.
    pub tempo: Tempo,
    /// Its meter.
    pub meter: Meter,
    /// Its guide mode in this take.
    pub guide: Guide,
    /// Length of its count-in; its first pass starts when that ends.
    pub count_in: Whole,
    /// Its passes in order, at least one.
    pub passes: Vec<Pass>,
    /// From the start of the first pass to the last bar line: passes, turns, rests between.
    pub length: Whole,
    /// How long the pupil plays in it: passes, or their turns in echo; no rest between.
    pub played: Seconds,
    /// When its count-in starts, in seconds from the start of the track.
    pub start: BigRational,
    /// The rest after it; none after the last line.
    pub rest: Option<ScoreRest>,
}

impl ScoreLine {
    /// Seconds of `length` at this line's tempo.
    pub fn seconds(&self, length: Whole) -> Seconds {
        self.tempo.seconds(length, self.meter)
    }

    /// Seconds from the line's first click to its last bar line.
    pub fn total_seconds(&self) -> Seconds {
        self.seconds(self.count_in + self.length)
    }
}

/// The rest between a line's last bar line and the next line's first beat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ScoreRest {
    /// Its length; its end is the next line's count-in.
    pub seconds: Seconds,
    /// What was asked for, where that was too short for the count-in.
    pub asked: Option<Seconds>,
}

/// A line once: one half step or tube, one articulation, one repetition.
#[derive(Clone, Debug)]
pub struct Pass {
    /// Half steps the line is moved by, take's key included; 0 on tubes.
    pub half_steps: i32,
    /// The tube the line is played on, if it is on tubes.
    pub tube: Option<Valves>,
    /// Which entry of the walk this is, from 0.
    pub walk_index: usize,
    /// Which repetition, from 1.
    pub repetition: u32,
    /// How it is joined.
    pub articulation: Articulation,
    /// Start, from the start of the line's first pass.
    pub start: Whole,
    /// Length, filled up to a bar line. In echo the pupil's turn of the same length follows.
    pub length: Whole,
    /// True if a turn for the pupil follows.
    pub turn: bool,
    /// Rest after it before the next pass; zero after the last.
    pub between: Whole,
    /// Notes and breathing actions in order; rests are the time between them.
    pub notes: Vec<ScoreNote>,
    /// The pass's key note as written; none on air lines.
    pub tonic: Option<WrittenPitch>,
    /// What the drone holds during it, lowest first.
    pub drone: Vec<SoundingPitch>,
}

impl Pass {
    /// When the pass, with its turn, has ended, from the start of the line's first pass.
    pub fn end(&self) -> Whole {
        self.start
            + if self.turn {
                self.length + self.length
            } else {
                self.length
            }
    }
}

/// One note or breathing action of a pass.
#[derive(Clone, Debug, PartialEq)]
pub struct ScoreNote {
    /// Index of the event in the line's melody.
    pub event: usize,
    /// Start, from the start of the pass.
    pub start: Whole,
    /// Full written length.
    pub length: Whole,
    /// What is played.
    pub played: Played,
    /// How it follows from the note before.
    pub joined: Joined,
    /// True if the next note is joined to it.
    pub leads_on: bool,
    /// How it is held.
    pub style: Option<Style>,
    /// Length of the breath taken from its end, in seconds.
    pub breath: Option<Seconds>,
    /// Where it stands in the file.
    pub span: Span,
}

/// What is played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Played {
    /// A note.
    Pitch {
        /// As written.
        written: WrittenPitch,
        /// As it sounds.
        sounding: SoundingPitch,
        /// Valves down; none on the mouthpiece.
        valves: Option<Valves>,
        /// Partial of that tube; none on the mouthpiece, or where the valves cannot sound the note.
        partial: Option<u8>,
    },
    /// Breathing in.
    In,
    /// Breathing out.
    Out,
}

/// How a note follows from what was before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Joined {
    /// It starts afresh.
    Fresh(Attack),
    /// Slurred to it.
    Slurred,
    /// Lipped down from it, on its valves.
    Bent,
}
