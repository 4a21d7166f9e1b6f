//! Comfort: a warm-up stays where playing is easy, and goes beyond that late, rarely and softly.

use super::course::{Course, PlacedNote};
use super::place::Group;
use super::{Finding, Severity};
use crate::brass::Band;
use crate::music::Dynamic;
use crate::words::{Words, tell};

/// The part of the playing time that must pass before a routine stretches. Breathing and the mouthpiece warm
/// up too, so they count.
const WARM_AFTER: f64 = 1.0 / 3.0;
/// The largest part of the playing time that may stretch.
const STRETCH_AT_MOST: f64 = 0.15;
/// The loudest a stretching note may be.
const STRETCH_LOUDEST: Dynamic = Dynamic::Mf;
/// Levels that differ by less than this, in dB, count as equally loud.
const SAME_DB: f64 = 0.01;

/// Finds notes beyond the reach, and stretches that come too early, too often or too loud.
pub fn check(course: &Course<'_>) -> Vec<Finding> {
    let notes: Vec<(Band, PlacedNote<'_>)> = course.notes().map(|n| (course.band(&n), n)).collect();
    let of = |band: Band| {
        let notes = notes.iter().filter(move |(b, _)| *b == band);
        notes.map(|(_, n)| *n)
    };
    let mut findings = beyond(course, of(Band::Beyond));
    let stretch: Vec<PlacedNote<'_>> = of(Band::Reach).collect();
    findings.extend(early(course, &stretch));
    findings.extend(loud(course, &stretch));
    findings.extend(too_much(course, &stretch));
    findings
}

fn per_line<'s>(
    rule: &'static str,
    notes: impl IntoIterator<Item = PlacedNote<'s>>,
    what: Words,
    hint: Words,
) -> Vec<Finding> {
    let one = |group: &Group<'_>| {
        let n = &group.first;
        let message = tell::placed(group.place(), &what);
        Finding::of_line(
            Severity::Warning,
            rule,
            n.turn.line.index,
            n.span(),
            message,
        )
        .hint(&hint)
    };
    Group::by_line(notes).iter().map(one).collect()
}

fn beyond<'s>(course: &Course<'s>, notes: impl Iterator<Item = PlacedNote<'s>>) -> Vec<Finding> {
    let routine = course.score.routine;
    let top = course.comfortable_top;
    let (what, hint) = match routine.reach {
        Some(reach) => (tell::above_reach(reach), tell::write_it_within_reach(reach)),
        None => (tell::above_comfort(top), tell::write_it_lower()),
    };
    per_line("beyond-reach", notes, what, hint)
}

fn early(course: &Course<'_>, stretch: &[PlacedNote<'_>]) -> Vec<Finding> {
    let warm_at = course.playing_seconds * WARM_AFTER;
    let early = stretch
        .iter()
        .filter(|n| n.played_before() < warm_at - super::course::SAME_SECONDS)
        .copied();
    let what = tell::early_stretch(course.comfortable_top);
    let hint = tell::move_the_line_back();
    per_line("early-stretch", early, what, hint)
}

fn loud(course: &Course<'_>, stretch: &[PlacedNote<'_>]) -> Vec<Finding> {
    let limit = STRETCH_LOUDEST.level_db() + SAME_DB;
    let loud = stretch.iter().filter(|n| n.peak_db() > limit).copied();
    let what = tell::loud_stretch(course.comfortable_top, STRETCH_LOUDEST);
    let hint = tell::softer_stretch(STRETCH_LOUDEST);
    per_line("loud-stretch", loud, what, hint)
}

fn too_much(course: &Course<'_>, stretch: &[PlacedNote<'_>]) -> Option<Finding> {
    let routine = course.score.routine;
    let seconds: f64 = stretch.iter().map(PlacedNote::seconds).sum();
    let part = seconds / course.playing_seconds;
    if stretch.is_empty() || part <= STRETCH_AT_MOST {
        return None;
    }
    let span = (routine.spans.reach).unwrap_or(routine.spans.comfortable_top);
    // Rounded up, so that it never reads as the very figure it goes beyond.
    let shown = libm::ceil(100.0 * part);
    let most = 100.0 * STRETCH_AT_MOST;
    let message = tell::much_stretch(
        format!("{shown:.0}"),
        course.comfortable_top,
        format!("{most:.0}"),
    );
    let hint = tell::more_comfort();
    Some(Finding::of_routine(Severity::Warning, "much-stretch", span, message).hint(hint))
}
