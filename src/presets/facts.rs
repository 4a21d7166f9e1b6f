//! What the notes of a built-in routine ask for. Whatever is said of a routine is computed from these facts.

use super::levels::STARTER;
use super::list::{ALL, Preset, is_starter};
use crate::brass::{Band, INSTRUMENTS, Instrument, Level, Tube, comfort};
use crate::carry::{CarryRule, carry};
use crate::check::summary::summarise;
use crate::music::{Dynamic, WrittenPitch};
use crate::routine::{self, On, Routine, Skill};
use crate::score::{Played, Score, ScoreLine, ScoreNote, Take, unroll};
use crate::words::{self, Words, tell};
use std::borrow::Cow;
use std::sync::OnceLock;

/// Levels that differ by less than this, in dB, count as equally loud.
const SAME_DB: f64 = 0.01;

/// What a routine asks for, at its written tempo and key.
#[derive(Clone, Debug)]
pub struct Facts {
    /// Which routine.
    pub preset: Preset,
    /// The routine.
    pub routine: Routine,
    /// Length in seconds.
    pub seconds: f64,
    /// Lowest note on the horn.
    pub lowest: WrittenPitch,
    /// Highest note on the horn.
    pub highest: WrittenPitch,
    /// The first note on the horn, and its valves.
    pub first: (WrittenPitch, Tube),
    /// The highest note above the comfortable top that a long tube makes easy, with the tube.
    pub long_tube: Option<(WrittenPitch, Tube)>,
    /// Number, from 1, and lowest note of each line on the horn.
    lowest_of_lines: Vec<(usize, WrittenPitch)>,
    /// The lines that go beyond what is comfortable.
    pub stretches: Vec<Stretch>,
}

/// A line that goes beyond what is comfortable.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// Its number, from 1.
    pub number: usize,
    /// Its highest note.
    pub highest: WrittenPitch,
    /// True if its notes beyond what is comfortable are mp or softer.
    pub soft: bool,
}

impl Facts {
    /// The facts of a routine that comes with the program.
    ///
    /// # Panics
    /// Where such a routine cannot be read or unrolled, which a test rules out.
    pub fn of(preset: &Preset) -> Self {
        Self::of_text(preset, preset.text)
    }

    /// Those of the same routine for an instrument; `None` if it cannot be carried there, or if what it trains is lost.
    pub fn carried(preset: &Preset, to: &'static Instrument) -> Option<Self> {
        let carried = carry(preset.text, to, CarryRule::Partials).ok()?;
        let routine = routine::read(&carried.text).ok()?;
        if !routine.lines.iter().any(|line| line.on == On::Horn) {
            return None;
        }
        let facts = Self::of_text(preset, &carried.text);
        let trains_pedals = routine.skills.contains(&Skill::PedalTones);
        (!trains_pedals || to.is_pedal(facts.lowest)).then_some(facts)
    }

    fn of_text(preset: &Preset, text: &str) -> Self {
        let routine = routine::read(text).expect("a test reads every built-in routine");
        let score =
            unroll(&routine, &Take::default()).expect("a test unrolls every built-in routine");
        let notes = || horn_notes(&score);
        let pitches = || notes().map(|met| met.pitch);
        let lowest = pitches().min_by_key(|p| p.number());
        let highest = pitches().max_by_key(|p| p.number());
        let first = notes().next().map(|met| (met.pitch, met.tube));
        let top = routine.comfortable_top;
        let eased = notes().filter(|met| {
            met.pitch.number() > top.number() && met.band(&score) == Band::Comfortable
        });
        let long_tube = eased.max_by_key(|met| met.pitch.number());
        Self {
            preset: *preset,
            seconds: summarise(&score).seconds,
            lowest: lowest.expect("it has notes"),
            highest: highest.expect("it has notes"),
            first: first.expect("it has notes"),
            long_tube: long_tube.map(|met| (met.pitch, met.tube)),
            lowest_of_lines: lowest_of_lines(&score),
            stretches: stretches(&score),
            routine: routine.clone(),
        }
    }

    /// The level it is written for.
    pub fn level(&self) -> Level {
        Level::of_top(self.routine.instrument, self.routine.comfortable_top)
            .expect("a comfortable top is that of a level")
    }

    /// True for a whole warm-up, which breathes and buzzes; false for one of five minutes and for one skill.
    pub fn is_whole(&self) -> bool {
        let has = |on| self.routine.lines.iter().any(|line| line.on == on);
        has(On::Air) && has(On::Mouthpiece)
    }

    /// The numbers, from 1, of the lines on the horn with a note below `lowest`.
    pub fn lines_below(&self, lowest: WrittenPitch) -> Vec<usize> {
        let below = self.lowest_of_lines.iter();
        below
            .filter(|(_, note)| note.number() < lowest.number())
            .map(|(number, _)| *number)
            .collect()
    }

    /// Where it goes beyond what is comfortable, as a sentence.
    pub fn beyond(&self) -> Words {
        let highest = self.stretches.iter().map(|stretch| stretch.highest);
        let Some(highest) = highest.max_by_key(|pitch| pitch.number()) else {
            return tell::none_beyond();
        };
        let numbers = self.stretches.iter().map(|stretch| stretch.number);
        let numbers: Vec<String> = numbers.map(|number| number.to_string()).collect();
        let softly = match self.stretches.iter().all(|stretch| stretch.soft) {
            true => "softly",
            false => "no",
        };
        let listed = Words::of(|language| words::list::and_in(language, &numbers));
        tell::lines_beyond(numbers.len(), listed, highest, softly)
    }
}

/// A note on the horn.
struct Met<'s> {
    line: &'s ScoreLine,
    note: &'s ScoreNote,
    pitch: WrittenPitch,
    tube: Tube,
    partial: Option<u8>,
}

impl Met<'_> {
    fn band(&self, score: &Score<'_>) -> Band {
        let routine = score.routine;
        let tube = self.partial.map(|partial| (self.tube, partial));
        let (top, reach) = (routine.comfortable_top, routine.reach);
        comfort::band(routine.instrument, top, reach, self.pitch, tube)
    }

    /// True from its start to its end.
    fn is_soft(&self, score: &Score<'_>) -> bool {
        let melody = &score.routine.lines[self.line.index].melody;
        let end = self.note.start + self.note.length;
        let inside = melody.loudness.iter().map(|change| change.at);
        let moments = inside.filter(|at| *at > self.note.start && *at < end);
        moments
            .chain([self.note.start])
            .all(|at| melody.level_db(at) <= Dynamic::Mp.level_db() + SAME_DB)
    }
}

fn horn_notes<'s>(score: &'s Score<'_>) -> impl Iterator<Item = Met<'s>> {
    let lines = score.lines.iter().filter(|line| line.on == On::Horn);
    lines.flat_map(move |line| {
        let notes = line.passes.iter().flat_map(|pass| &pass.notes);
        notes.filter_map(move |note| match note.played {
            Played::Pitch {
                written,
                tube,
                partial,
                ..
            } => Some(Met {
                line,
                note,
                pitch: written,
                tube: tube.unwrap_or(score.instrument().open()),
                partial,
            }),
            Played::In | Played::Out => None,
        })
    })
}

fn stretches(score: &Score<'_>) -> Vec<Stretch> {
    let mut stretches: Vec<Stretch> = vec![];
    for met in horn_notes(score).filter(|met| met.band(score) != Band::Comfortable) {
        let number = met.line.index + 1;
        let soft = met.is_soft(score);
        match stretches.last_mut().filter(|last| last.number == number) {
            Some(last) => {
                last.soft &= soft;
                if met.pitch.number() > last.highest.number() {
                    last.highest = met.pitch;
                }
            }
            None => stretches.push(Stretch {
                number,
                highest: met.pitch,
                soft,
            }),
        }
    }
    stretches
}

fn lowest_of_lines(score: &Score<'_>) -> Vec<(usize, WrittenPitch)> {
    let mut lowest: Vec<(usize, WrittenPitch)> = vec![];
    for met in horn_notes(score) {
        let number = met.line.index + 1;
        match lowest.last_mut().filter(|last| last.0 == number) {
            Some(last) if last.1.number() <= met.pitch.number() => {}
            Some(last) => last.1 = met.pitch,
            None => lowest.push((number, met.pitch)),
        }
    }
    lowest
}

/// The facts of all built-in routines, each for its own instrument, in their order. They are computed once.
pub fn facts() -> &'static [Facts] {
    static ALL_FACTS: OnceLock<Vec<Facts>> = OnceLock::new();
    ALL_FACTS.get_or_init(|| ALL.iter().map(Facts::of).collect())
}

/// The facts of all built-in routines that can be carried to an instrument, as they are there. Those for the trumpet, which
/// most ask for, are computed once.
pub fn for_instrument(instrument: &'static Instrument) -> Cow<'static, [Facts]> {
    static FOR_TRUMPET: OnceLock<Vec<Facts>> = OnceLock::new();
    let there = || {
        let all = ALL.iter();
        all.filter_map(|preset| Facts::carried(preset, instrument))
            .collect()
    };
    if instrument.name == INSTRUMENTS[0].name {
        return Cow::Borrowed(FOR_TRUMPET.get_or_init(there));
    }
    Cow::Owned(there())
}

/// The whole warm-ups of a level, `None` being before level 1.
pub(super) fn whole(all: &[Facts], level: Option<Level>) -> impl Iterator<Item = &Facts> {
    all.iter().filter(move |facts| {
        let starts = is_starter(&facts.preset);
        let of_level = if starts { None } else { Some(facts.level()) };
        facts.is_whole() && of_level == level
    })
}

/// The routine for players who have not reached level 1 yet.
pub(super) fn starter(all: &[Facts]) -> &Facts {
    let starter = all.iter().find(|facts| facts.preset.name == STARTER);
    starter
        .or(all.first())
        .expect("a test carries it to every instrument")
}
