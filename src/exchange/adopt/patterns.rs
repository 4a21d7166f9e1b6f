//! Finds lines that repeat one pattern: lower or higher, on several tubes, slurred and then tongued.

use super::loudness::{LoudnessStep, Word};
use super::tune::{Tune, TuneEvent, TuneEventKind};
use crate::brass::{Instrument, Tube, fingering, partials};
use crate::music::{Dynamic, Whole};
use crate::routine::Articulation;
use crate::routine::bounds::{FURTHEST_MOVE, MOST_STEPS, MOST_TIMES};

/// A pattern and how it is moved.
#[derive(Clone, Debug)]
pub(super) struct Pattern {
    /// The notes, written once.
    pub unit: PatternUnit,
    /// Bars from one pass to the next, without the rests between them.
    pub bars: usize,
    /// Bars of rest between two passes.
    pub between: usize,
    /// How many passes there are in all.
    pub count: usize,
    /// How often each half step or tube is played.
    pub times: usize,
    /// What changes from pass to pass.
    pub walk: PatternWalk,
    /// The joining of each pass; empty if it is always as written.
    pub articulations: Vec<Articulation>,
}

/// What changes from pass to pass.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum PatternWalk {
    /// Nothing.
    Stays,
    /// Half steps from the first pass.
    HalfSteps(Vec<i32>),
    /// Tubes.
    Tubes(Vec<Tube>),
}

/// A stretch of music, timed from its own beginning.
#[derive(Clone, Debug)]
pub(super) struct PatternUnit {
    pub events: Vec<TuneEvent>,
    /// Words of loudness, except the initial dynamic.
    pub steps: Vec<LoudnessStep>,
    /// The initial dynamic.
    pub level: Dynamic,
}

/// Finds the shortest pattern that makes up the whole line.
pub(super) fn find(
    tune: &Tune,
    steps: &[LoudnessStep],
    level: Dynamic,
    instrument: &Instrument,
    on_horn: bool,
) -> Option<Pattern> {
    if !tune.regular || tune.joined_bars {
        return None;
    }
    let count = tune.bars.len();
    let music = Music::of(tune, steps, level);
    let rests = rests_at_ends(tune);
    (1..count).find_map(|bars| {
        let between = rests[bars];
        if between >= bars || !(count + between).is_multiple_of(bars) {
            return None;
        }
        let starts = (0..(count + between) / bars).map(|n| n * bars);
        let content = bars - between;
        let silence = |start: usize| {
            let mut rests = (start + content)..(start + bars).min(count);
            rests.all(|bar| tune.bars[bar].silent)
        };
        let mut units: Vec<PatternUnit> = vec![];
        for start in starts {
            let unit = music.unit(start, content)?;
            // The first that differs ends it: most lines have no pattern, and each length is tried.
            if !silence(start) || units.first().is_some_and(|f| moved(f, &unit).is_none()) {
                return None;
            }
            units.push(unit);
        }
        let found = Found {
            units,
            bars: content,
            between,
            instrument,
            on_horn,
        };
        found.pattern()
    })
}

/// How many bars at the end of the first ones are a rest between two passes, for each number of first ones.
fn rests_at_ends(tune: &Tune) -> Vec<usize> {
    let mut rests = vec![0];
    // Silent bars since the last note, and since the first of them with a text about rests.
    let (mut silent, mut marked) = (0, 0);
    for bar in &tune.bars {
        if bar.silent {
            silent += 1;
            marked += usize::from(marked > 0 || bar.rest.is_some());
        } else {
            (silent, marked) = (0, 0);
        }
        rests.push(match marked {
            0 if tune.rests_marked => 0,
            0 => silent,
            marked => marked,
        });
    }
    rests
}

/// A tune from which any bars can be taken without a look at the others.
struct Music<'t> {
    tune: &'t Tune,
    steps: Vec<LoudnessStep>,
    /// The dynamic at the beginning of each bar.
    levels: Vec<Dynamic>,
}

impl<'t> Music<'t> {
    fn of(tune: &'t Tune, steps: &[LoudnessStep], level: Dynamic) -> Self {
        let mut ordered = steps.to_vec();
        ordered.sort_by_key(|step| step.bar);
        let mut before = steps.iter().peekable();
        let mut level = level;
        let levels = (0..tune.bars.len()).map(|bar| {
            while let Some(step) = before.next_if(|step| step.bar < bar) {
                if let Word::Dynamic(dynamic) = step.word {
                    level = dynamic;
                }
            }
            level
        });
        Self {
            tune,
            levels: levels.collect(),
            steps: ordered,
        }
    }

    /// The bars from `start` on, timed from their own beginning. `None` if something crosses their ends.
    fn unit(&self, start: usize, bars: usize) -> Option<PatternUnit> {
        let tune = self.tune;
        let inside = tune.bars.get(start..start + bars)?;
        let from = inside[0].start;
        let last = &inside[bars - 1];
        // The last bar may be short.
        let to = last.start + last.length.max(inside[0].length);
        let place = |moment| tune.events.partition_point(|e| e.start() < moment);
        let (first, end) = (place(from), place(to));
        // Events do not overlap, so that only the last one before the end can cross it.
        let last = tune.events[..end].last();
        let crosses = last.is_some_and(|e| !e.is_rest() && e.end() > to);
        let events = tune.events.get(first..end).unwrap_or_default();
        if crosses || events.first().is_some_and(|e| e.joined) {
            return None;
        }
        let mut events = events.to_vec();
        for event in &mut events {
            for (at, _) in &mut event.heads {
                *at -= from;
            }
        }
        let mut level = self.levels[start];
        let place = |bar| self.steps.partition_point(|step| step.bar < bar);
        let mut own = vec![];
        for step in &self.steps[place(start)..place(start + bars)] {
            match step.word {
                Word::Dynamic(dynamic) if step.at == from && own.is_empty() => level = dynamic,
                word => own.push(LoudnessStep {
                    at: step.at - from,
                    bar: step.bar - start,
                    word,
                }),
            }
        }
        Some(PatternUnit {
            events,
            steps: own,
            level,
        })
    }
}

/// Stretches of one length that may repeat one pattern.
struct Found<'i> {
    units: Vec<PatternUnit>,
    bars: usize,
    between: usize,
    instrument: &'i Instrument,
    on_horn: bool,
}

impl Found<'_> {
    fn pattern(&self) -> Option<Pattern> {
        let first = self.units.first()?;
        let notes = first.events.iter().filter(|e| !e.is_rest()).count();
        if notes == 0 || (notes == 1 && self.between == 0) || self.units.len() < 2 {
            return None;
        }
        let moves: Option<Vec<i32>> = self.units.iter().map(|unit| moved(first, unit)).collect();
        let moves = moves?;
        let (articulations, base) = self.articulations(&moves)?;
        let a_group = articulations.len().max(1);
        let of_groups: Vec<i32> = moves.iter().step_by(a_group).copied().collect();
        let times = times(&of_groups);
        let moves: Vec<i32> = of_groups.iter().step_by(times).copied().collect();
        let group = a_group * times;
        let walk = match self.tubes(group) {
            Some(tubes) => PatternWalk::Tubes(tubes),
            None if moves.len() == 1 => PatternWalk::Stays,
            None if self.has_fingerings() => return None,
            None => PatternWalk::HalfSteps(moves.clone()),
        };
        let fits = moves.len() <= MOST_STEPS
            && times as i64 <= MOST_TIMES
            && moves.iter().all(|m| i64::from(m.abs()) <= FURTHEST_MOVE);
        fits.then_some(Pattern {
            unit: base,
            bars: self.bars,
            between: self.between,
            count: self.units.len(),
            times,
            walk,
            articulations,
        })
    }

    /// How the passes differ in their slurs, and the one to write down.
    fn articulations(&self, moves: &[i32]) -> Option<(Vec<Articulation>, PatternUnit)> {
        let first = &self.units[0];
        let joins: Vec<Vec<bool>> = self.units.iter().map(joins).collect();
        if joins.iter().all(|j| *j == joins[0]) {
            return Some((vec![], first.clone()));
        }
        let all = slurred(first);
        let kind = |joins: &[bool]| {
            if joins == all {
                Articulation::Slurred
            } else if joins.iter().all(|j| !j) {
                Articulation::Tongued
            } else {
                Articulation::AsWritten
            }
        };
        for size in 2..=3 {
            if !self.units.len().is_multiple_of(size) {
                continue;
            }
            let same_move = moves.chunks(size).all(|c| c.iter().all(|m| *m == c[0]));
            let same_joins = joins.chunks(size).all(|c| c == &joins[..size]);
            let kinds: Vec<Articulation> = joins[..size].iter().map(|j| kind(j)).collect();
            let mut distinct = kinds.clone();
            distinct.dedup();
            if !same_move || !same_joins || distinct.len() < size {
                continue;
            }
            let place = |of| kinds.iter().position(|k| *k == of);
            let written = place(Articulation::AsWritten);
            // If no pass is as written, the notes are written without slurs.
            let base = written
                .or_else(|| place(Articulation::Tongued))
                .unwrap_or(0);
            let mut unit = self.units[base].clone();
            if written.is_none() {
                unit.events.iter_mut().for_each(|e| e.joined = false);
            }
            return Some((kinds, unit));
        }
        None
    }

    /// True if a note has another fingering than its usual one.
    fn has_fingerings(&self) -> bool {
        let mut events = self.units.iter().flat_map(|u| &u.events);
        self.on_horn
            && events.any(|event| {
                let usual = event
                    .pitch()
                    .and_then(|p| fingering::standard(self.instrument, p));
                !event.bend && event.tube.is_some() && event.tube != usual.map(|f| f.tube)
            })
    }

    /// The tube of each group of units, if every note of a group is played on one tube, and the first group is
    /// notes of the open horn lowered by it.
    fn tubes(&self, group: usize) -> Option<Vec<Tube>> {
        if !self.on_horn {
            return None;
        }
        let all: Option<Vec<Tube>> = self.units.iter().map(|unit| self.tube(unit)).collect();
        let all = all?;
        let tubes: Vec<Tube> = all.iter().step_by(group).copied().collect();
        let same = all.chunks(group).all(|c| c.iter().all(|v| *v == c[0]));
        let of = |tube: Tube| self.instrument.tube_half_steps(tube);
        let lowered = self
            .units
            .iter()
            .zip(&all)
            .all(|(unit, tube)| moved(&self.units[0], unit) == Some(of(all[0]) - of(*tube)));
        let pitches = || self.units[0].events.iter().filter_map(TuneEvent::pitch);
        let open = |pitch: crate::music::WrittenPitch| {
            let up = pitch.moved(of(all[0]));
            let open = self.instrument.open();
            partials::on_tube(self.instrument, open, up).is_some_and(|n| partials::in_tune(open, n))
        };
        let bends = self.units[0].events.iter().any(|e| e.bend);
        let several = pitches().any(|p| Some(p.number()) != pitches().next().map(|p| p.number()));
        let tells = several || self.has_fingerings();
        let fits = same && lowered && tells && !bends && tubes.len() > 1;
        (fits && pitches().all(open)).then_some(tubes)
    }

    /// The one tube that all notes of a unit are played on.
    fn tube(&self, unit: &PatternUnit) -> Option<Tube> {
        let mut of_notes = unit.events.iter().filter_map(|event| {
            let pitch = event.pitch()?;
            let usual = fingering::standard(self.instrument, pitch).map(|f| f.tube);
            Some(event.tube.or(usual))
        });
        let first = of_notes.next()??;
        of_notes.all(|tube| tube == Some(first)).then_some(first)
    }
}

/// The largest `each` that a walk can have.
fn times(moves: &[i32]) -> usize {
    let all = (1..=moves.len()).rev();
    let fits = |times: &usize| {
        moves.len().is_multiple_of(*times)
            && moves.chunks(*times).all(|c| c.iter().all(|m| *m == c[0]))
    };
    all.into_iter().find(fits).unwrap_or(1)
}

/// By how many half steps `other` repeats `first`, ignoring slurs.
fn moved(first: &PatternUnit, other: &PatternUnit) -> Option<i32> {
    let (a, b) = (&first.events, &other.events);
    if a.len() != b.len() || first.level != other.level || !same_steps(first, other) {
        return None;
    }
    let pitches =
        |events: &[TuneEvent]| events.iter().find_map(TuneEvent::pitch).map(|p| p.number());
    let by = pitches(b).unwrap_or(0) - pitches(a).unwrap_or(0);
    let same = |(a, b): (&TuneEvent, &TuneEvent)| {
        let kind = match (a.kind, b.kind) {
            (TuneEventKind::Note(a), TuneEventKind::Note(b)) => b.number() - a.number() == by,
            (a, b) => a == b,
        };
        kind && a.heads == b.heads
            && a.style == b.style
            && a.bend == b.bend
            && a.breath == b.breath
            && (a.attack == b.attack || a.joined || b.joined)
    };
    a.iter().zip(b).all(same).then_some(by)
}

fn same_steps(a: &PatternUnit, b: &PatternUnit) -> bool {
    let plain = |unit: &PatternUnit| -> Vec<(Whole, Word)> {
        unit.steps.iter().map(|s| (s.at, s.word)).collect()
    };
    plain(a) == plain(b)
}

/// Which notes are slurred, ignoring bends.
fn joins(unit: &PatternUnit) -> Vec<bool> {
    unit.events.iter().map(|e| e.joined && !e.bend).collect()
}

/// Which notes would be slurred if everything was.
fn slurred(unit: &PatternUnit) -> Vec<bool> {
    let mut before: Option<&TuneEvent> = None;
    let mut all = vec![];
    for event in &unit.events {
        let joined = match (before.and_then(TuneEvent::pitch), event.pitch()) {
            (Some(from), Some(to)) => {
                from.number() != to.number() && !before.is_some_and(|b| b.breath) && !event.bend
            }
            _ => false,
        };
        all.push(joined);
        before = Some(event);
    }
    all
}
