//! A score in the order it is played: every note with its moment and its place.

use super::Options;
use crate::brass::{Band, Instrument, Tube, comfort};
use crate::music::{Seconds, Whole, WrittenPitch};
use crate::routine::{Line, On, Span};
use crate::score::{Joined, Pass, Played, Score, ScoreLine, ScoreNote};
use num_traits::ToPrimitive;

/// Sums of seconds are `f64` here, because lines of many tempos have no common 128-bit fraction. Two lengths
/// that differ by less than this count as equal.
pub const SAME_SECONDS: f64 = 0.01;

/// How many bends in a row are followed back to the note they start from. Nobody lips through an octave.
const DEEPEST_BEND: u8 = 12;

/// All notes of a score in the order they are played.
pub struct Course<'s> {
    /// The score.
    pub score: &'s Score<'s>,
    /// The lines' passes in order.
    pub turns: Vec<Turn<'s>>,
    /// How long the player plays in all, in seconds, including breathing lines.
    pub playing_seconds: f64,
    /// The highest open note that the player plays with ease.
    pub comfortable_top: WrittenPitch,
}

/// A pass at the time when the player plays it: in `echo` that is after the guide.
#[derive(Clone, Copy)]
pub struct Turn<'s> {
    /// What it is played on.
    pub instrument: &'static Instrument,
    /// The line in the score.
    pub line: &'s ScoreLine,
    /// The same line as the teacher wrote it.
    pub written: &'s Line,
    /// The pass.
    pub pass: &'s Pass,
    /// Number of the pass in its line, from 0.
    pub number: usize,
    /// Its start in musical time, from the start of the line's first pass.
    pub at: Whole,
    /// Seconds from the start of the track.
    pub start: f64,
    /// Seconds the player has played before it.
    pub played_before: f64,
}

/// A note in its pass.
#[derive(Clone, Copy)]
pub struct PlacedNote<'s> {
    /// The pass it belongs to.
    pub turn: Turn<'s>,
    /// Number of the note in its pass, from 0.
    pub index: usize,
    /// The note.
    pub note: &'s ScoreNote,
    /// Its pitch as written.
    pub pitch: WrittenPitch,
}

impl<'s> Course<'s> {
    /// Puts a score's passes in order.
    pub fn new(score: &'s Score<'s>, options: &Options) -> Self {
        let mut turns = vec![];
        let mut playing_seconds = 0.0;
        for line in &score.lines {
            let written = &score.routine.lines[line.index];
            let first_pass =
                line.start.to_f64().unwrap_or(f64::INFINITY) + as_f64(line.seconds(line.count_in));
            for (number, pass) in line.passes.iter().enumerate() {
                let wait = if pass.turn { pass.length } else { Whole::ZERO };
                let at = pass.start + wait;
                turns.push(Turn {
                    instrument: score.instrument(),
                    line,
                    written,
                    pass,
                    number,
                    at,
                    start: first_pass + as_f64(line.seconds(at)),
                    played_before: playing_seconds,
                });
                if line.on != On::Rest {
                    playing_seconds += as_f64(line.seconds(pass.length));
                }
            }
        }
        let top = options.comfortable_top;
        Self {
            score,
            turns,
            playing_seconds,
            comfortable_top: top.unwrap_or(score.routine.comfortable_top),
        }
    }

    /// Every note with a pitch, on the horn and on the mouthpiece.
    pub fn notes(&self) -> impl Iterator<Item = PlacedNote<'s>> + '_ {
        self.turns.iter().flat_map(|turn| turn.notes())
    }

    /// Every note on the horn.
    pub fn horn_notes(&self) -> impl Iterator<Item = PlacedNote<'s>> + '_ {
        self.notes().filter(|n| n.turn.line.on == On::Horn)
    }

    /// How comfortable a note is for the player.
    pub fn band(&self, met: &PlacedNote<'_>) -> Band {
        let routine = self.score.routine;
        let (top, reach) = (self.comfortable_top, routine.reach);
        comfort::band(routine.instrument, top, reach, met.pitch, met.slot())
    }
}

impl<'s> Turn<'s> {
    /// Its notes with a pitch.
    pub fn notes(self) -> impl Iterator<Item = PlacedNote<'s>> {
        (0..self.pass.notes.len()).filter_map(move |index| self.note(index))
    }

    /// The note with this number, from 0; `None` if it has no pitch.
    fn note(self, index: usize) -> Option<PlacedNote<'s>> {
        let note = self.pass.notes.get(index)?;
        match note.played {
            Played::Pitch { written, .. } => Some(PlacedNote {
                turn: self,
                index,
                note,
                pitch: written,
            }),
            Played::In | Played::Out => None,
        }
    }

    /// Seconds of a musical length in this line.
    pub fn seconds(&self, length: Whole) -> f64 {
        as_f64(self.line.seconds(length))
    }
}

impl<'s> PlacedNote<'s> {
    /// The note before this one in the pass.
    pub fn before(&self) -> Option<PlacedNote<'s>> {
        self.turn.note(self.index.checked_sub(1)?)
    }

    /// Its end in musical time, from the start of the pass.
    pub fn end(&self) -> Whole {
        self.note.start + self.note.length
    }

    /// Its full length in seconds.
    pub fn seconds(&self) -> f64 {
        self.turn.seconds(self.note.length)
    }

    /// Seconds the player has played before it.
    pub fn played_before(&self) -> f64 {
        self.turn.played_before + self.turn.seconds(self.note.start)
    }

    /// The tube it is fingered on.
    pub fn fingered(&self) -> Option<Tube> {
        match self.note.played {
            Played::Pitch { tube, .. } => tube,
            Played::In | Played::Out => None,
        }
    }

    /// The partial it is played on.
    pub fn partial(&self) -> Option<u8> {
        match self.note.played {
            Played::Pitch { partial, .. } => partial,
            Played::In | Played::Out => None,
        }
    }

    /// True if it is lipped from the note before.
    pub fn is_bend(&self) -> bool {
        self.note.joined == Joined::Bent || self.turn.written.melody.events[self.note.event].bend
    }

    /// The tube and partial it is played on. With valves a bend stays on those of the note it is
    /// bent from.
    pub fn slot(&self) -> Option<(Tube, u8)> {
        let from = match self.turn.instrument.has_slide() {
            // A slide bends by moving.
            true => *self,
            false => self.bent_from().unwrap_or(*self),
        };
        from.fingered().zip(from.partial())
    }

    /// The fingered note that a bend starts from, perhaps through other bends. `None` for a note that is not a
    /// bend or has no note before it.
    pub fn bent_from(&self) -> Option<PlacedNote<'s>> {
        if !self.is_bend() {
            return None;
        }
        let mut from = self.before()?;
        for _ in 0..DEEPEST_BEND {
            if !from.is_bend() {
                return Some(from);
            }
            from = from.before()?;
        }
        None
    }

    /// The loudest moment of the note, in dB relative to forte.
    pub fn peak_db(&self) -> f64 {
        let melody = &self.turn.written.melody;
        let (start, end) = (self.note.start, self.end());
        let over = melody.loudness.partition_point(|change| change.at <= start);
        let changes = melody.loudness[over..].iter();
        let changes = changes.take_while(|change| change.since.unwrap_or(change.at) < end);
        let within = changes.filter_map(|change| {
            let to = change.to.level_db();
            if change.at > start && change.at < end {
                return Some(to);
            }
            // A hairpin that is still under way, or just arrives, at the note's end.
            let under_way = change.since.is_some_and(|since| since < end) && change.at >= end;
            under_way.then(|| {
                if change.at == end {
                    to
                } else {
                    melody.level_db(end)
                }
            })
        });
        within.fold(melody.level_db(start), f64::max)
    }

    /// The loudness half-way through the note, in dB relative to forte.
    pub fn middle_db(&self) -> f64 {
        let middle = self.note.start + self.note.length / Whole::from_integer(2);
        self.turn.written.melody.level_db(middle)
    }

    /// Its place in the file.
    pub fn span(&self) -> Span {
        self.note.span
    }
}

/// The nearest `f64` of an exact length.
pub fn as_f64(seconds: Seconds) -> f64 {
    seconds.to_f64().unwrap_or(f64::INFINITY)
}
