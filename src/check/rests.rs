//! Rest: at least as long as playing, and soon enough.
//!
//! This is about the lips. They play in *spells*: a pass, or the part of a pass before or after a written
//! rest of a bar or more. They rest between passes, between lines, in breathing lines, and while the guide
//! plays in `echo`.

use super::course::{Course, SAME_SECONDS, Turn};
use super::{Finding, Severity};
use crate::music::Whole;
use crate::routine::{On, Span};
use crate::words::duration;
use crate::words::tell;

/// Seconds of playing after which a rest as long as the last spell is due. Common practice.
const LONGEST_RUN: f64 = 30.0;
/// Rest may be this many seconds shorter than playing, because a rest in seconds is seldom exact.
const NEAR_ENOUGH: f64 = 0.5;

/// Finds long playing without rest, and lines and routines that rest for less time than they play.
pub fn check(course: &Course<'_>) -> Vec<Finding> {
    let spells: Vec<Spell<'_>> = course.turns.iter().flat_map(of_pass).collect();
    let mut findings = long_runs(&spells);
    findings.extend(balance(course, &spells));
    findings
}

/// Playing that is interrupted by no more than a few beats.
struct Spell<'s> {
    turn: Turn<'s>,
    /// Its start and end in seconds from the start of the track.
    start: f64,
    end: f64,
    /// The place of its notes in the file.
    span: Span,
}

impl Spell<'_> {
    fn seconds(&self) -> f64 {
        self.end - self.start
    }
}

/// The spells of a pass; a breathing line has none.
fn of_pass<'s>(turn: &Turn<'s>) -> Vec<Spell<'s>> {
    if turn.line.on == On::Air {
        return vec![];
    }
    let bar = turn.line.meter.bar();
    let mut spells: Vec<(Whole, Whole, Span)> = vec![];
    let mut silent_from = Whole::ZERO;
    for note in turn.notes() {
        let start = note.note.start;
        match spells.last_mut() {
            Some(spell) if start - silent_from < bar => {
                spell.1 = note.end();
                spell.2 = spell.2.to(note.span());
            }
            // A pickup is written as a bar that begins with rests, and that bar counts as played.
            None if start < bar => spells.push((Whole::ZERO, note.end(), note.span())),
            _ => spells.push((start, note.end(), note.span())),
        }
        silent_from = note.end();
    }
    if let Some(spell) = spells.last_mut()
        && turn.pass.length - spell.1 < bar
    {
        spell.1 = turn.pass.length;
    }
    let in_seconds = |at: Whole| turn.start + turn.seconds(at);
    let spell = |(start, end, span)| Spell {
        turn: *turn,
        start: in_seconds(start),
        end: in_seconds(end),
        span,
    };
    spells.into_iter().map(spell).collect()
}

/// Finds playing that goes on for too long before a rest as long as the last spell.
fn long_runs(spells: &[Spell<'_>]) -> Vec<Finding> {
    let mut findings: Vec<Finding> = vec![];
    let rested = |a: &Spell<'_>, b: &Spell<'_>| b.start - a.end >= a.seconds() - SAME_SECONDS;
    for run in spells.chunk_by(|a, b| !rested(a, b)) {
        let seconds: f64 = run.iter().map(Spell::seconds).sum();
        if seconds <= LONGEST_RUN + SAME_SECONDS {
            continue;
        }
        let first = &run[0];
        let line = first.turn.line.index;
        // One finding is enough for a line that does so again in its next passes.
        if findings.iter().any(|f| f.line == Some(line)) {
            continue;
        }
        let (what, hint) = if run.len() == 1 {
            (
                tell::long_pass(duration::with_units(seconds)),
                tell::divide_it(),
            )
        } else {
            (
                tell::long_playing(duration::with_units(seconds)),
                tell::rest_sooner(),
            )
        };
        let message = tell::of_a_line(first.turn.line_name(), what);
        findings.push(
            Finding::of_line(Severity::Advice, "long-playing", line, first.span, message)
                .hint(hint),
        );
    }
    findings
}

/// What a line plays before its last rest, and what it rests.
#[derive(Clone, Copy, Default)]
struct Balance {
    owed: f64,
    given: f64,
}

impl Balance {
    fn is_short(self) -> bool {
        self.given < self.owed - NEAR_ENOUGH
    }
}

fn balance(course: &Course<'_>, spells: &[Spell<'_>]) -> Vec<Finding> {
    let mut findings = vec![];
    let mut whole = Balance::default();
    let mut at = 0;
    for line in spells.chunk_by(|a, b| a.turn.line.index == b.turn.line.index) {
        at += line.len();
        let next = spells.get(at);
        let balance = of_line(line, next);
        whole.owed += balance.owed;
        whole.given += balance.given;
        if balance.is_short() {
            let first = &line[0];
            let span = first
                .turn
                .written
                .rest_span
                .unwrap_or(first.turn.written.span);
            let message = tell::short_rest(
                first.turn.line_name(),
                duration::with_units(balance.owed),
                duration::with_units(balance.given),
            );
            let index = first.turn.line.index;
            findings.push(
                Finding::of_line(Severity::Warning, "short-rest", index, span, message)
                    .hint(tell::rest_as_long()),
            );
        }
    }
    if whole.is_short() {
        let message = tell::short_rest_whole(
            duration::with_units(whole.owed),
            duration::with_units(whole.given),
        );
        let span = course.score.routine.spans.title;
        findings.push(
            Finding::of_routine(Severity::Warning, "short-rest-whole", span, message)
                .hint(tell::longer_rests()),
        );
    }
    findings
}

/// How long a line plays up to its last rest, and how long it rests, including the rest after it. Playing
/// after the last rest of the last line needs no rest.
fn of_line(line: &[Spell<'_>], next: Option<&Spell<'_>>) -> Balance {
    let mut balance = Balance::default();
    let mut played = 0.0;
    for (i, spell) in line.iter().enumerate() {
        played += spell.seconds();
        let Some(after) = line.get(i + 1).or(next) else {
            break;
        };
        let rest = after.start - spell.end;
        if rest > SAME_SECONDS {
            balance.given += rest;
            balance.owed = played;
        }
    }
    balance
}
