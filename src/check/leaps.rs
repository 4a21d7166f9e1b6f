//! Slurs on one tube: how many partials the lip skips.

use super::course::{Course, PlacedNote};
use super::place::Group;
use super::{Finding, Severity};
use crate::brass::Level;
use crate::score::Joined;
use crate::words::count;
use crate::words::tell;

/// Finds slurs on one tube that skip more partials than the player's level allows. A slur over a change of
/// valves is easier and is left to the teacher.
pub fn check(course: &Course<'_>) -> Vec<Finding> {
    let routine = course.score.routine;
    let level = Level::of_top(routine.instrument, course.comfortable_top);
    let most = level.map_or(0, |level| level.slur_skip(routine.instrument));
    let wide = course
        .horn_notes()
        .filter(|n| skipped(n).is_some_and(|skipped| skipped > most));
    let one = |group: &Group<'_>| {
        let n = &group.first;
        let from = n.before().map_or(n.pitch, |b| b.pitch);
        let allowed = match most {
            0 => tell::skip_none(),
            most => tell::no_more_than(most),
        };
        let message = tell::wide_slur(
            group.place(),
            from,
            count::partials(skipped(n).unwrap_or(0)),
            course.comfortable_top,
            &allowed,
        );
        Finding::of_line(
            Severity::Warning,
            "wide-slur",
            n.turn.line.index,
            n.span(),
            message,
        )
        .hint(tell::by_the_partials())
    };
    Group::by_line(wide).iter().map(one).collect()
}

/// Partials between a slurred note and the one before it on the same tube.
fn skipped(note: &PlacedNote<'_>) -> Option<u8> {
    let before = note.before()?;
    let one_tube = note.note.joined == Joined::Slurred && before.fingered() == note.fingered();
    let (from, to) = (before.slot()?.1, note.partial()?);
    (one_tube && from != to).then(|| from.abs_diff(to) - 1)
}
