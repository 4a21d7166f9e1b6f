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
    notes: Vec<PlacedNote<'s>>,
}

/// All stretches of a line, pass after pass.
fn stretches<'s>(line: &[Turn<'s>]) -> Vec<Stretch<'s>> {
    let mut all: Vec<Stretch<'s>> = vec![];
    let mut open = false;
    let mut sounding_until = None;
    for note in line.iter().flat_map(|turn| turn.notes()) {
        let start = note.turn.at + note.note.start;
        let follows_at_once = sounding_until == Some(start);
        match all.last_mut() {
            Some(stretch) if open && follows_at_once => stretch.notes.push(note),
            _ => all.push(Stretch { notes: vec![note] }),
        }
        open = note.note.breath.is_none();
        sounding_until = Some(start + note.note.length);
    }
    all
}

/// Seconds a note sounds: a breath is taken out of its end.
fn blown_seconds(note: &PlacedNote<'_>) -> f64 {
    let breath = note.note.breath.and_then(|b| b.to_f64()).unwrap_or(0.0);
    note.seconds() - breath
}

/// Litres of air a note takes.
fn litres(note: &PlacedNote<'_>) -> f64 {
    blown_seconds(note)
        * breath::flow_litres_a_second(note.turn.instrument, note.middle_db(), Some(note.pitch))
}

impl Stretch<'_> {
    fn litres(&self) -> f64 {
        self.notes.iter().map(litres).sum()
    }

    fn seconds(&self) -> f64 {
        self.notes.iter().map(blown_seconds).sum()
    }

    /// True if a breath after `place` would part a slur that is short enough to be one thought.
    fn breaks_short_slur(&self, place: &PlacedNote<'_>) -> bool {
        let same = |note: &PlacedNote<'_>| {
            note.index == place.index && note.turn.number == place.turn.number
        };
        let Some(at) = self.notes.iter().position(same) else {
            return false;
        };
        let slurred =
            |note: &&PlacedNote<'_>| matches!(note.note.joined, Joined::Slurred | Joined::Bent);
        let after = self.notes[at + 1..].iter().take_while(slurred).count();
        let before = self.notes[..=at].iter().rev().take_while(slurred).count();
        // The note that the slur starts from is fresh itself.
        after > 0 && before + after < SHORT_SLUR
    }
}

/// One finding for all long stretches of a line.
fn of_line(long: &[Stretch<'_>], age: AgeBand) -> Option<Finding> {
    let stretch = long.first()?;
    let first = stretch.notes.first()?;
    let last = stretch.notes.last()?;
    let seconds = stretch.seconds();
    // What this player blows in one breath at the stretch's own mean flow.
    let lasts = age.breath_litres() * seconds / stretch.litres();
    let others = Group::by_token(long.iter().filter_map(|s| s.notes.first().copied())).len() - 1;
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
    let mut places: Vec<PlacedNote<'_>> = vec![];
    for stretch in long {
        places_to_breathe(&stretch.notes, most_litres(age), &mut places);
    }
    let mut places: Vec<PlacedNote<'_>> = Group::by_token(places).iter().map(|g| g.first).collect();
    places.sort_by_key(|n| n.note.event);
    let breaks = |place: &PlacedNote<'_>| {
        let mut stretches = long.iter();
        stretches.any(|stretch| stretch.breaks_short_slur(place))
    };
    let hint = match places.as_slice() {
        places if places.iter().any(breaks) => tell::faster_or_softer(),
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

fn place(note: &PlacedNote<'_>) -> Words {
    let bar = if ends_bar(note) {
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

/// Divides a stretch where a musician would breathe, until every part is one breath or one note.
fn places_to_breathe<'s>(
    notes: &[PlacedNote<'s>],
    most_litres: f64,
    places: &mut Vec<PlacedNote<'s>>,
) {
    let all: f64 = notes.iter().map(litres).sum();
    if all <= most_litres || places.len() >= MOST_PLACES * 16 {
        return;
    }
    let mean = notes.iter().map(PlacedNote::seconds).sum::<f64>() / notes.len() as f64;
    let mut blown = 0.0;
    let mut best: Option<(f64, usize)> = None;
    for (i, pair) in notes.windows(2).enumerate() {
        blown += litres(&pair[0]);
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
    let (first, second) = notes.split_at(at + 1);
    places_to_breathe(first, most_litres, places);
    places.push(notes[at]);
    places_to_breathe(second, most_litres, places);
}

/// The cost of a breath between two notes; `None` where it is impossible. The weights are a choice: a breath
/// is best near the middle of the stretch, at a bar line, after a long note and outside a slur.
fn cost(
    note: &PlacedNote<'_>,
    next: &PlacedNote<'_>,
    blown: f64,
    all: f64,
    most_litres: f64,
    mean_seconds: f64,
) -> Option<f64> {
    let off_middle = (blown / all - 0.5).abs() * 2.0;
    let in_slur = match next.note.joined {
        Joined::Bent => return None,
        Joined::Slurred => 0.5,
        Joined::Fresh(_) => 0.0,
    };
    let inside_bar = if ends_bar(note) { 0.0 } else { 0.4 };
    let short = if note.seconds() > mean_seconds {
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
