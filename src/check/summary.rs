//! A routine in figures: how long it plays and rests, how low and how high it goes.

use crate::music::{Seconds, Tempo, WrittenPitch};
use crate::routine::On;
use crate::score::{Played, Score, ScoreLine};
use num_traits::{ToPrimitive, Zero};

/// A routine at one take, in figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// Base tempo of the take, clicks a minute.
    pub tempo: Tempo,
    /// Length of the track in seconds.
    pub seconds: f64,
    /// Seconds the pupil plays (in `echo` the pupil's turns), breathing lines included.
    pub playing_seconds: f64,
    /// The part of `playing_seconds` that is breathing without a sound.
    pub breathing_seconds: f64,
    /// Seconds of rest: between passes, between lines, and listening in `echo`.
    pub rest_seconds: f64,
    /// The part of `playing_seconds` that comes after the last rest and so needs no rest.
    pub final_seconds: f64,
    /// Lowest note played, as written; `None` in a routine of breathing alone.
    pub lowest: Option<WrittenPitch>,
    /// Highest note played, as written.
    pub highest: Option<WrittenPitch>,
    /// Number of breath marks, each counted as often as it is played.
    pub breaths: usize,
    /// The lines in order.
    pub lines: Vec<LineSummary>,
}

/// One line in figures.
#[derive(Clone, Debug, PartialEq)]
pub struct LineSummary {
    /// Index of the line in the routine.
    pub line: usize,
    /// Its name.
    pub name: String,
    /// What it is played on.
    pub on: On,
    /// Its tempo in this take, clicks a minute.
    pub tempo: Tempo,
    /// How many passes it has.
    pub passes: usize,
    /// From its first click to its last bar line, in seconds.
    pub seconds: f64,
    /// Seconds the pupil plays.
    pub playing_seconds: f64,
    /// Seconds of rest: between passes, after the line, and listening in `echo`.
    pub rest_seconds: f64,
    /// Lowest note, as written.
    pub lowest: Option<WrittenPitch>,
    /// Highest note, as written.
    pub highest: Option<WrittenPitch>,
    /// Number of breath marks, each counted as often as it is played.
    pub breaths: usize,
}

impl Summary {
    /// Rest divided by playing: 1 if both are equally long. Playing after the last rest does not count. `None` if
    /// there is no rest.
    pub fn ratio(&self) -> Option<f64> {
        let rested = self.playing_seconds - self.final_seconds;
        (self.rest_seconds > 0.0 && rested > 0.0).then(|| self.rest_seconds / rested)
    }
}

/// Sums up a score.
pub fn summarise(score: &Score<'_>) -> Summary {
    let lines: Vec<LineSummary> = score.lines.iter().map(|l| line(score, l)).collect();
    let sum = |figure: fn(&LineSummary) -> f64| lines.iter().map(figure).sum();
    let breathing = lines.iter().filter(|l| l.on == On::Air);
    Summary {
        // A score exists only at a tempo within bounds, so the written one is never needed.
        tempo: (score.take.tempo.base(score.routine)).unwrap_or(score.routine.tempo),
        seconds: score.seconds.to_f64().unwrap_or(f64::INFINITY),
        playing_seconds: sum(|l| l.playing_seconds),
        breathing_seconds: breathing.map(|l| l.playing_seconds).sum(),
        rest_seconds: sum(|l| l.rest_seconds),
        final_seconds: final_seconds(score),
        lowest: (lines.iter().filter_map(|l| l.lowest)).min_by_key(|p| p.number()),
        highest: (lines.iter().filter_map(|l| l.highest)).max_by_key(|p| p.number()),
        breaths: lines.iter().map(|l| l.breaths).sum(),
        lines,
    }
}

fn line(score: &Score<'_>, line: &ScoreLine) -> LineSummary {
    let notes = || line.passes.iter().flat_map(|p| &p.notes);
    let pitches = || {
        notes().filter_map(|n| match n.played {
            Played::Pitch { written, .. } => Some(written),
            Played::In | Played::Out => None,
        })
    };
    let listening = line.passes.iter().filter(|p| p.turn).map(|p| p.length);
    let between = line.passes.iter().map(|p| p.between);
    let counting = line.passes.iter().filter(|_| line.on == On::Rest);
    let counting = counting.map(|p| p.length);
    let rest = line.rest.map_or(0.0, |r| as_f64(r.seconds));
    LineSummary {
        line: line.index,
        name: score.routine.lines[line.index].name.clone(),
        on: line.on,
        tempo: line.tempo,
        passes: line.passes.len(),
        seconds: as_f64(line.total_seconds()),
        playing_seconds: as_f64(line.played),
        rest_seconds: rest + as_f64(line.seconds(listening.chain(between).chain(counting).sum())),
        lowest: pitches().min_by_key(|p| p.number()),
        highest: pitches().max_by_key(|p| p.number()),
        breaths: notes().filter(|n| n.breath.is_some()).count(),
    }
}

/// What is played after the last rest, listening and the time between passes included.
fn final_seconds(score: &Score<'_>) -> f64 {
    let mut seconds = 0.0;
    for line in &score.lines {
        for pass in &line.passes {
            if pass.turn || line.on == On::Rest {
                seconds = 0.0;
            }
            if line.on == On::Rest {
                continue;
            }
            seconds += as_f64(line.seconds(pass.length));
            if !pass.between.is_zero() {
                seconds = 0.0;
            }
        }
        if line.rest.is_some() {
            seconds = 0.0;
        }
    }
    seconds
}

/// The nearest `f64`, which is exact enough to display.
fn as_f64(seconds: Seconds) -> f64 {
    seconds.to_f64().unwrap_or(f64::INFINITY)
}
