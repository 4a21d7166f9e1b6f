//! The unrolled routine.

use super::take::Take;
use crate::brass::{Instrument, Tube};
use crate::music::{Key, Meter, Seconds, SoundingPitch, Tempo, Whole, WrittenPitch};
use crate::routine::{Articulation, Attack, Guide, On, Routine, Span, Style};
use crate::words::Words;
use num_rational::BigRational;

/// A routine at one take, unrolled.
#[derive(Clone, Debug)]
pub struct Score<'r> {
    /// The routine it was unrolled from.
    pub routine: &'r Routine,
    /// The take.
    pub take: Take,
    /// The lines that are played, in order. A line is missing if none of its passes fits the instrument.
    pub lines: Vec<ScoreLine>,
    /// What was left out or not moved, and why.
    pub notices: Vec<Notice>,
    /// Length of the track in seconds, from its first frame to the end of the last fade.
    pub seconds: BigRational,
}

impl Score<'_> {
    /// The line at `index` at each of its tempos.
    pub fn rungs(&self, index: usize) -> &[ScoreLine] {
        let of = self.lines[index].index;
        let first = self.lines.partition_point(|line| line.index < of);
        let end = self.lines.partition_point(|line| line.index <= of);
        &self.lines[first..end]
    }

    /// The instrument.
    pub fn instrument(&self) -> &'static Instrument {
        self.routine.instrument
    }
}

/// A part of the routine that could not be played as the take asks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Notice {
    /// Index of the line in the routine.
    pub line: usize,
    /// What happened.
    pub kind: NoticeKind,
    /// Where in the file.
    pub span: Span,
    /// The notice in words.
    pub message: Words,
}

/// Kinds of [`Notice`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum NoticeKind {
    /// The passes at this entry of the walk leave the instrument's compass and are left out.
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
    /// Which of the line's tempos it is played at, from 0: one line at several tempos is several lines of a score.
    pub rung: usize,
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
    /// How long the pupil plays in it: the passes, or the turns in echo, without the rests between.
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
    /// The length that was asked for, if that was too short for the count-in.
    pub asked: Option<Seconds>,
}

/// A line played once: one half step or tube, one articulation, one repetition.
#[derive(Clone, Debug)]
pub struct Pass {
    /// Half steps the line is moved by, including the take's key; 0 on tubes.
    pub half_steps: i32,
    /// The tube, if the line goes through tubes.
    pub tube: Option<Tube>,
    /// Which entry of the walk this is, from 0.
    pub walk_index: usize,
    /// Which repetition, from 1.
    pub repetition: u32,
    /// How it is joined.
    pub articulation: Articulation,
    /// Start, from the start of the line's first pass.
    pub start: Whole,
    /// Length, rounded up to a bar line. In echo a turn of the same length follows for the pupil.
    pub length: Whole,
    /// True if the pupil's turn follows.
    pub turn: bool,
    /// Rest after it before the next pass; zero after the last.
    pub between: Whole,
    /// Notes and breathing actions in order. Rests are the time between them.
    pub notes: Vec<ScoreNote>,
    /// Its key as written, if the routine says: that of the line, moved as the pass is.
    pub key: Option<Key>,
    /// The pass's key note as written; `None` on air lines.
    pub tonic: Option<WrittenPitch>,
    /// What the drone holds during it, lowest first.
    pub drone: Vec<SoundingPitch>,
}

impl Pass {
    /// The end of the pass and of its turn, from the start of the line's first pass.
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
    /// How it is reached from the note before.
    pub joined: Joined,
    /// True if the next note is joined to it.
    pub leads_on: bool,
    /// How it is held.
    pub style: Option<Style>,
    /// Length of the breath taken from its end, in seconds.
    pub breath: Option<Seconds>,
    /// Its place in the file.
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
        /// The pressed valves; `None` on the mouthpiece.
        tube: Option<Tube>,
        /// The partial of that tube; `None` on the mouthpiece, and if the valves cannot sound the note.
        partial: Option<u8>,
    },
    /// Breathing in.
    In,
    /// Breathing out.
    Out,
}

/// How a note is reached from the one before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Joined {
    /// It is started anew.
    Fresh(Attack),
    /// Slurred.
    Slurred,
    /// Lipped down from that note, on its valves.
    Bent,
}
