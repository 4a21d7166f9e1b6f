//! Breath: how long the player blows before air can be taken.
//!
//! A stretch reaches from one place where there is time to breathe to the next: a start, a rest, a breath
//! mark, silence between passes. Its air is the sum of its notes' flows. The figures are estimates (see
//! [`crate::brass::breath`]), so these findings are never more than advice.

use super::course::{Course, PlacedNote, Turn};
use super::place::Group;
use super::{Finding, Options, Severity};
use crate::brass::{AgeBand, breath};
use crate::score::Joined;
use crate::words::tempo::clicks_a_minute;
use crate::words::{Words, count, figures, ordinal, tell};
use num_traits::ToPrimitive;
use std::ops::Range;

/// A stretch of up to this many breaths is not reported, because the figures are estimates.
const NEAR_ENOUGH: f64 = 1.1;
/// The most notes of a slur that is one thought: nobody breathes in it.
const SHORT_SLUR: usize = 8;
/// The most breaths suggested for one line. After adding them one checks again.
const MOST_PLACES: usize = 4;

/// Finds stretches longer than one breath.
pub fn check(course: &Course<'_>, options: &Options) -> Vec<Finding> {
    let age = options
        .age
        .or(course.score.routine.age)
        .unwrap_or(AgeBand::Adult);
    let mut findings = vec![];
    for line in course.turns.chunk_by(|a, b| a.line.index == b.line.index) {
        let long: Vec<Stretch<'_>> = stretches(line)
            .into_iter()
            .filter(|s| s.litres() > most_litres(age))
            .collect();
        findings.extend(of_line(&long, age));
    }
    findings
}

/// The most air that a stretch may take without being reported.
fn most_litres(age: AgeBand) -> f64 {
    NEAR_ENOUGH * age.breath_litres()
}

/// Notes played on one breath.
struct Stretch<'s> {
    notes: Vec<Blown<'s>>,
}

/// A note with what it asks of the player. Measured once, because places to breathe are looked for many times.
#[derive(Clone, Copy)]
struct Blown<'s> {
    note: PlacedNote<'s>,
    litres: f64,
    /// Its full length.
    whole_seconds: f64,
    /// What of it is blown: a breath is taken out of its end.
    seconds: f64,
    ends_bar: bool,
}

impl<'s> Blown<'s> {
    fn new(note: PlacedNote<'s>) -> Self {
        let breath = note.note.breath.and_then(|b| b.to_f64()).unwrap_or(0.0);
        let whole_seconds = note.seconds();
        let seconds = whole_seconds - breath;
        let (instrument, level) = (note.turn.instrument, note.middle_db());
        let flow = breath::flow_litres_a_second(instrument, level, Some(note.pitch));
        Self {
            note,
            litres: seconds * flow,
            whole_seconds,
            seconds,
            ends_bar: ends_bar(&note),
        }
    }

    fn is_slurred(&self) -> bool {
        matches!(self.note.note.joined, Joined::Slurred | Joined::Bent)
    }
}

/// All stretches of a line, pass after pass.
fn stretches<'s>(line: &[Turn<'s>]) -> Vec<Stretch<'s>> {
    let mut all: Vec<Stretch<'s>> = vec![];
    let mut open = false;
    let mut sounding_until = None;
    for note in line.iter().flat_map(|turn| turn.notes()) {
        let start = note.turn.at + note.note.start;
        let follows_at_once = sounding_until == Some(start);
        open &= follows_at_once;
        let blown = Blown::new(note);
        match all.last_mut() {
            Some(stretch) if open => stretch.notes.push(blown),
            _ => all.push(Stretch { notes: vec![blown] }),
        }
        open = note.note.breath.is_none();
        sounding_until = Some(start + note.note.length);
    }
    all
}

impl Stretch<'_> {
    fn litres(&self) -> f64 {
        litres(&self.notes)
    }

    fn seconds(&self) -> f64 {
        self.notes.iter().map(|blown| blown.seconds).sum()
    }
}

fn litres(notes: &[Blown<'_>]) -> f64 {
    notes.iter().map(|blown| blown.litres).sum()
}

/// A place to breathe: after a note of a stretch.
struct Place<'s> {
    after: Blown<'s>,
    /// True if a breath there would part a slur that is short enough to be one thought.
    breaks_slur: bool,
}

impl<'s> Place<'s> {
    /// After the note at this place of a whole stretch.
    fn new(stretch: &[Blown<'s>], at: usize) -> Self {
        let slurred = |notes: &mut dyn Iterator<Item = &Blown<'s>>| {
            let slurred = notes.take_while(|blown| blown.is_slurred());
            slurred.take(SHORT_SLUR).count()
        };
        let after = slurred(&mut stretch[at + 1..].iter());
        let before = slurred(&mut stretch[..=at].iter().rev());
        Self {
            after: stretch[at],
            // The note that the slur starts from is fresh itself.
            breaks_slur: after > 0 && before + after < SHORT_SLUR,
        }
    }
}

/// One finding for all long stretches of a line.
fn of_line(long: &[Stretch<'_>], age: AgeBand) -> Option<Finding> {
    let stretch = long.first()?;
    let first = stretch.notes.first()?.note;
    let last = stretch.notes.last()?.note;
    let seconds = stretch.seconds();
    // What this player blows in one breath at the stretch's own mean flow.
    let lasts = age.breath_litres() * seconds / stretch.litres();
    let others = Group::by_token(long.iter().filter_map(|s| Some(s.notes.first()?.note))).len() - 1;
    let others = match others {
        0 => Words::default(),
        n => tell::and_other_phrases(count::other_phrases(n)),
    };
    let pass = first
        .turn
        .name()
        .map_or_else(Words::default, tell::further_pass);
    let air = tell::seconds_at(
        figures(format!("{:.1}", seconds)),
        Words::of(|l| clicks_a_minute(l, first.turn.line.tempo)),
    );
    let what = if stretch.notes.len() > 1 {
        tell::air_from_to(first.name(), last.name(), &air)
    } else {
        tell::air_of_one_note(first.name(), &air)
    };
    let message = tell::long_breath(
        first.turn.line_name(),
        &pass,
        &what,
        &others,
        age.who(),
        figures(format!("{:.1}", lasts)),
    );
    let mut places: Vec<Place<'_>> = vec![];
    for stretch in long {
        let whole = 0..stretch.notes.len();
        places_to_breathe(&stretch.notes, whole, most_litres(age), &mut places);
    }
    // Of all passes the first stands for a token.
    places.sort_by_key(|place| place.after.note.note.event);
    places.dedup_by_key(|place| place.after.note.note.event);
    let hint = match places.as_slice() {
        places if places.iter().any(|place| place.breaks_slur) => tell::faster_or_softer(),
        [] => tell::shorten_the_note(),
        places => {
            let named: Vec<Words> = places.iter().take(MOST_PLACES).map(place).collect();
            tell::breath_would_help(Words::joined(&named, tell::breath_after_more()))
        }
    };
    let (line, span) = (first.turn.line.index, first.span().to(last.span()));
    let finding = Finding::of_line(Severity::Advice, "long-breath", line, span, message);
    Some(finding.hint(hint))
}

fn place(place: &Place<'_>) -> Words {
    let note = &place.after.note;
    let bar = if place.after.ends_bar {
        let bars = (note.end() / note.turn.line.meter.bar()).to_integer();
        tell::end_of_bar(bars)
    } else {
        Words::default()
    };
    tell::after_note(ordinal::in_figures(note.index + 1), note.pitch, &bar)
}

fn ends_bar(note: &PlacedNote<'_>) -> bool {
    (note.end() / note.turn.line.meter.bar()).is_integer()
}

/// Divides a part of a stretch where a musician would breathe, until every part is one breath or one note.
fn places_to_breathe<'s>(
    stretch: &[Blown<'s>],
    part: Range<usize>,
    most_litres: f64,
    places: &mut Vec<Place<'s>>,
) {
    if places.len() >= MOST_PLACES * 16 {
        return;
    }
    let notes = &stretch[part.clone()];
    let all = litres(notes);
    if all <= most_litres {
        return;
    }
    let mean = notes.iter().map(|b| b.whole_seconds).sum::<f64>() / notes.len() as f64;
    let mut blown = 0.0;
    let mut best: Option<(f64, usize)> = None;
    for (i, pair) in notes.windows(2).enumerate() {
        blown += pair[0].litres;
        let Some(cost) = cost(&pair[0], &pair[1], blown, all, most_litres, mean) else {
            continue;
        };
        if best.is_none_or(|(least, _)| cost < least) {
            best = Some((cost, i));
        }
    }
    let Some((_, at)) = best else {
        return;
    };
    let at = part.start + at;
    places_to_breathe(stretch, part.start..at + 1, most_litres, places);
    places.push(Place::new(stretch, at));
    places_to_breathe(stretch, at + 1..part.end, most_litres, places);
}

/// The cost of a breath between two notes; `None` where it is impossible. The weights are a choice: a breath
/// is best near the middle of the stretch, at a bar line, after a long note and outside a slur.
fn cost(
    note: &Blown<'_>,
    next: &Blown<'_>,
    blown: f64,
    all: f64,
    most_litres: f64,
    mean_seconds: f64,
) -> Option<f64> {
    let off_middle = (blown / all - 0.5).abs() * 2.0;
    let in_slur = match next.note.note.joined {
        Joined::Bent => return None,
        Joined::Slurred => 0.5,
        Joined::Fresh(_) => 0.0,
    };
    let inside_bar = if note.ends_bar { 0.0 } else { 0.4 };
    let short = if note.whole_seconds > mean_seconds {
        0.0
    } else {
        0.3
    };
    let still_long = if blown.max(all - blown) > most_litres {
        0.6
    } else {
        0.0
    };
    Some(off_middle + in_slur + inside_bar + short + still_long)
}
