//! What a slide asks for: slurs that need the tongue, and arms that are long enough.

use super::course::{Course, PlacedNote};
use super::options::Options;
use super::place::Group;
use super::{Finding, Severity};
use crate::brass::AgeBand;
use crate::brass::slide::{SlideSlur, slur};
use crate::routine::SlideLegato;
use crate::score::Joined;
use crate::words::{Words, tell};

/// The longest position of a young player's arm. Between the fourth and the sixth (common practice, no source).
const YOUNG_REACH: u8 = 5;

/// Finds what a slide cannot do, or a young player's arm.
pub fn check(course: &Course<'_>, options: &Options) -> Vec<Finding> {
    if !course.score.instrument().has_slide() {
        return vec![];
    }
    let mut findings = bends_past_the_end(course);
    findings.extend(soft_tongues(course));
    findings.extend(far(course, options));
    findings
}

fn finding(severity: Severity, rule: &'static str, group: &Group<'_>, what: Words) -> Finding {
    let first = &group.first;
    let message = tell::placed(group.place(), what);
    Finding::of_line(severity, rule, first.turn.line.index, first.span(), message)
}

/// Bends for which the slide would have to go further than it can.
fn bends_past_the_end(course: &Course<'_>) -> Vec<Finding> {
    let lost = course
        .horn_notes()
        .filter(|n| n.note.joined == Joined::Bent && n.slot().is_none());
    let one = |group: &Group<'_>| {
        let what = tell::bend_past_the_slide();
        finding(Severity::Error, "bend-past-the-slide", group, what).hint(tell::bend_shorter())
    };
    Group::by_token(lost).iter().map(one).collect()
}

/// Slurs that would smear without the tongue.
fn soft_tongues(course: &Course<'_>) -> Vec<Finding> {
    let instrument = course.score.instrument();
    let routine = course.score.routine;
    let smears = course.horn_notes().filter(|n| {
        let natural = n.turn.written.legato_in(routine) == SlideLegato::Natural;
        let slots = n.before().and_then(|before| before.slot()).zip(n.slot());
        // Back from a bend the slide glides as it went.
        let back = n.before().is_some_and(|before| before.is_bend());
        natural
            && !back
            && n.note.joined == Joined::Slurred
            && slots.is_some_and(|(from, to)| slur(instrument, from, to) == SlideSlur::SoftTongue)
    });
    let one = |group: &Group<'_>| {
        let first = &group.first;
        let from = first.before().map_or(first.pitch, |before| before.pitch);
        let what = tell::soft_tongue(from);
        finding(Severity::Advice, "soft-tongue", group, what).hint(tell::soft_tongue_usual())
    };
    Group::by_line(smears).iter().map(one).collect()
}

/// Positions that a young arm may not reach.
fn far(course: &Course<'_>, options: &Options) -> Vec<Finding> {
    let age = options.age.or(course.score.routine.age);
    if age != Some(AgeBand::EightToTen) {
        return vec![];
    }
    let position = |n: &PlacedNote<'_>| n.fingered().and_then(|tube| tube.numbers().last());
    let far = course
        .horn_notes()
        .filter(|n| position(n).is_some_and(|number| number > YOUNG_REACH));
    let one = |group: &Group<'_>| {
        let number = position(&group.first).unwrap_or_default();
        let what = tell::long_arm(number);
        finding(Severity::Advice, "long-arm", group, what).hint(tell::stop_the_walk())
    };
    Group::by_line(far).iter().map(one).collect()
}
