//! The shape of a routine: an easy beginning, a way that does not only climb, a soft and comfortable end.

use super::course::{Course, PlacedNote, Turn};
use super::{Finding, Severity};
use crate::brass::Band;
use crate::music::Dynamic;
use crate::routine::On;
use crate::words::{Words, interval, ordinal, tell};

/// The widest range of an easy pass in half steps: a fifth.
const EASY_RANGE: i32 = 7;
/// The shortest note of an easy line in seconds: about eighths at 100 a minute.
const EASY_NOTE_SECONDS: f64 = 0.3;
/// The loudest an easy line may be.
const EASY_LOUDEST: Dynamic = Dynamic::Mf;
/// The loudest the last line may be.
const END_LOUDEST: Dynamic = Dynamic::Mp;
/// The fewest lines for which one can say that a routine only climbs.
const LINES_OF_A_CLIMB: usize = 3;
/// The fewest half steps between the highest notes of the first and the last line that make a climb.
const CLIMB: i32 = 3;
/// Levels that differ by less than this, in dB, count as equally loud.
const SAME_DB: f64 = 0.01;

/// Checks the first line, the last line and the way between them. A routine of one line is a fragment and
/// has no shape.
pub fn check(course: &Course<'_>) -> Vec<Finding> {
    let lines: Vec<&[Turn<'_>]> = course
        .turns
        .chunk_by(|a, b| a.line.index == b.line.index)
        .collect();
    let [first, .., last] = lines.as_slice() else {
        return vec![];
    };
    let mut findings = vec![];
    findings.extend(beginning(course, first));
    findings.extend(climb(course, &lines));
    findings.extend(ending(course, last));
    findings
}

fn notes<'t, 's: 't>(line: &'t [Turn<'s>]) -> impl Iterator<Item = PlacedNote<'s>> + 't {
    line.iter().flat_map(|turn| turn.notes())
}

/// A warning about one line, with every reason for it.
fn warn(
    line: &Turn<'_>,
    rule: &'static str,
    reasons: &[Words],
    what: Words,
    hint: Words,
) -> Finding {
    let message = tell::with_reasons(line.line_name(), what, Words::joined(reasons, "; "));
    Finding::of_line(
        Severity::Warning,
        rule,
        line.line.index,
        line.written.span,
        message,
    )
    .hint(hint)
}

fn named(note: &PlacedNote<'_>) -> Words {
    let pass = note
        .turn
        .name()
        .map_or_else(Words::default, tell::further_pass);
    tell::named_note(note.pitch, ordinal::in_figures(note.index + 1), &pass)
}

fn louder(line: &[Turn<'_>], than: Dynamic) -> Option<Words> {
    let loud = notes(line).find(|n| n.peak_db() > than.level_db() + SAME_DB)?;
    Some(tell::louder_than(named(&loud), than))
}

fn uncomfortable(course: &Course<'_>, line: &[Turn<'_>]) -> Option<Words> {
    let high = notes(line).find(|n| course.band(n) != Band::Comfortable)?;
    Some(tell::not_comfortable(named(&high)))
}

fn beginning(course: &Course<'_>, line: &[Turn<'_>]) -> Option<Finding> {
    // Breathing and buzzing wake the body up without demanding a sound.
    if line[0].line.on != On::Horn {
        return None;
    }
    let mut reasons: Vec<Words> = uncomfortable(course, line).into_iter().collect();
    reasons.extend(line.iter().find_map(wide));
    reasons.extend(louder(line, EASY_LOUDEST));
    if let Some(n) = notes(line).find(|n| n.seconds() < EASY_NOTE_SECONDS) {
        reasons.push(tell::is_fast(named(&n)));
    }
    let hint = tell::begin_easily();
    (!reasons.is_empty()).then(|| {
        let what = tell::hard_beginning();
        warn(&line[0], "hard-beginning", &reasons, what, hint)
    })
}

fn wide(turn: &Turn<'_>) -> Option<Words> {
    let low = turn.notes().min_by_key(|n| n.pitch.number())?;
    let high = turn.notes().max_by_key(|n| n.pitch.number())?;
    let range = high.pitch.number() - low.pitch.number();
    (range > EASY_RANGE).then(|| tell::goes_from_to(low.pitch, high.pitch, interval::name(range)))
}

fn climb(course: &Course<'_>, lines: &[&[Turn<'_>]]) -> Option<Finding> {
    let tops: Vec<i32> = lines
        .iter()
        .filter(|line| line[0].line.on == On::Horn)
        .filter_map(|line| notes(line).map(|n| n.pitch.number()).max())
        .collect();
    let rises = tops.windows(2).all(|pair| pair[0] <= pair[1]);
    let height = tops.last()? - tops.first()?;
    if tops.len() < LINES_OF_A_CLIMB || !rises || height < CLIMB {
        return None;
    }
    let message = tell::only_climbs();
    let span = course.score.routine.spans.title;
    Some(
        Finding::of_routine(Severity::Warning, "only-climbs", span, message.to_owned())
            .hint(tell::come_down_again()),
    )
}

fn ending(course: &Course<'_>, line: &[Turn<'_>]) -> Option<Finding> {
    if line[0].line.on != On::Horn {
        return None;
    }
    let mut reasons: Vec<Words> = uncomfortable(course, line).into_iter().collect();
    reasons.extend(louder(line, END_LOUDEST));
    let hint = tell::end_gently(END_LOUDEST);
    (!reasons.is_empty()).then(|| {
        let what = tell::hard_ending();
        warn(&line[0], "hard-ending", &reasons, what, hint)
    })
}
