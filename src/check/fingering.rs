//! Tubes and lips: notes that a fingering or position does not sound, partials out of tune, bends.

use super::course::{Course, PlacedNote};
use super::place::Group;
use super::{Finding, Severity};
use crate::brass::{Instrument, Tube, fingering, partials};
use crate::music::WrittenPitch;
use crate::routine::Walk;
use crate::words::{Words, interval, ordinal, tell};
use std::collections::BTreeSet;

/// Finds notes whose fingering is wrong, and bends that cannot be played or were not prepared.
pub fn check(course: &Course<'_>) -> Vec<Finding> {
    let mut findings = silent(course);
    findings.extend(out_of_tune(course));
    findings.extend(bends_from_nothing(course));
    findings.extend(bends_of_wrong_size(course));
    findings.extend(bends_not_fingered_first(course));
    findings
}

fn finding(severity: Severity, rule: &'static str, group: &Group<'_>, what: Words) -> Finding {
    let message = tell::placed(group.place(), what);
    let first = &group.first;
    Finding::of_line(severity, rule, first.turn.line.index, first.span(), message)
}

/// Notes that are not a partial of their tube.
fn silent(course: &Course<'_>) -> Vec<Finding> {
    let wrong = course
        .horn_notes()
        .filter(|n| n.fingered().is_some() && n.partial().is_none() && !n.is_bend());
    let groups = Group::by_token(wrong);
    let one = |group: &Group<'_>| {
        let first = &group.first;
        let instrument = course.score.instrument();
        let tube = first.fingered().unwrap_or(instrument.open());
        let what = tell::does_not_sound(
            instrument.with_tube(tube),
            instrument.tube_word(),
            listed(&usable(course, tube)),
        );
        let hint = if on_tubes(first) {
            tell::write_open_notes(listed(&usable(course, instrument.open())))
        } else {
            sounds_on(course, first.pitch)
        };
        finding(Severity::Error, "silent-fingering", group, what).hint(hint)
    };
    groups.iter().map(one).collect()
}

/// Notes on the seventh partial, and on others that no tube puts in tune.
fn out_of_tune(course: &Course<'_>) -> Vec<Finding> {
    let off = course.horn_notes().filter(|n| {
        let slot = n.slot().filter(|_| !n.is_bend());
        slot.is_some_and(|(tube, partial)| !partials::in_tune(tube, partial))
    });
    let groups = Group::by_token(off);
    let one = |group: &Group<'_>| {
        let instrument = course.score.instrument();
        let (tube, partial) = group.first.slot().unwrap_or((instrument.open(), 7));
        let cents = partials::cents(partial);
        let side = if cents < 0.0 { "flat" } else { "sharp" };
        let what = tell::out_of_tune(
            ordinal::written_out(usize::from(partial)),
            of_tube(instrument, tube),
            format!("{:.0}", cents.abs()),
            side,
        );
        let hint = if on_tubes(&group.first) {
            tell::leave_partial_out(
                ordinal::written_out(usize::from(partial)),
                listed(&usable(course, instrument.open())),
            )
        } else {
            sounds_on(course, group.first.pitch)
        };
        finding(Severity::Warning, "seventh-partial", group, what).hint(hint)
    };
    groups.iter().map(one).collect()
}

/// Bends with no note right before them.
fn bends_from_nothing(course: &Course<'_>) -> Vec<Finding> {
    let lost = course.horn_notes().filter(|n| {
        n.is_bend()
            && n.before()
                .is_none_or(|before| before.end() < n.note.start || before.note.breath.is_some())
    });
    let one = |group: &Group<'_>| {
        let what = match group.first.before() {
            None => tell::starts_the_pass(),
            Some(before) if before.note.breath.is_some() => tell::bend_after_breath(),
            Some(_) => tell::bend_after_rest(),
        };
        let from = group.first.pitch.half_step_above();
        finding(Severity::Error, "bend-from-nothing", group, what)
            .hint(tell::follow_right_after(from))
    };
    Group::by_token(lost).iter().map(one).collect()
}

/// Bends that do not go down by exactly one half step.
fn bends_of_wrong_size(course: &Course<'_>) -> Vec<Finding> {
    let wrong = course.horn_notes().filter(|n| {
        n.bent_from()
            .is_some_and(|from| from.pitch.number() - n.pitch.number() != 1)
    });
    let one = |group: &Group<'_>| {
        let n = &group.first;
        let from = n.bent_from().map_or(n.pitch, |f| f.pitch);
        let depth = from.number() - n.pitch.number();
        let what = match depth {
            0 => tell::bend_of_nothing(from),
            ..0 => tell::bend_upwards(from),
            _ => tell::bend_too_far(from, interval::name(depth)),
        };
        finding(Severity::Error, "bend-size", group, what)
            .hint(tell::bend_a_half_step(from, from.half_step_below()))
    };
    Group::by_token(wrong).iter().map(one).collect()
}

/// Bends to a neighbour note that has not been fingered before: the ear must know the note before the lip
/// looks for it. A slide bends by moving, and needs no such preparation.
fn bends_not_fingered_first(course: &Course<'_>) -> Vec<Finding> {
    if course.score.instrument().has_slide() {
        return vec![];
    }
    let mut fingered = BTreeSet::new();
    let mut early = vec![];
    for note in course.horn_notes() {
        let Some(before) = note.before() else {
            continue;
        };
        let (a, b) = (before.pitch.number(), note.pitch.number());
        let pair = (a.min(b), a.max(b));
        if !note.is_bend() && !before.is_bend() {
            fingered.insert(pair);
        } else if note.is_bend() && a - b == 1 && !fingered.contains(&pair) {
            early.push(note);
        }
    }
    let one = |group: &Group<'_>| {
        let n = &group.first;
        let (from, to) = (n.pitch.half_step_above(), n.pitch);
        let from = n.before().map_or(from, |b| b.pitch);
        let what = tell::bend_first(from, to);
        finding(Severity::Warning, "bend-first", group, what).hint(tell::finger_it_first(from, to))
    };
    Group::by_line(early).iter().map(one).collect()
}

fn on_tubes(note: &PlacedNote<'_>) -> bool {
    matches!(note.turn.written.walk, Walk::Tubes(_))
}

/// The notes of a tube that are in tune on it, as far as the instrument goes.
fn usable(course: &Course<'_>, tube: Tube) -> Vec<WrittenPitch> {
    let instrument = course.score.instrument();
    let notes = partials::usable(instrument, tube).map(|(_, pitch)| pitch);
    notes.filter(|pitch| instrument.can_reach(*pitch)).collect()
}

/// A tube in the genitive: "of 1-2", "of position 4".
fn of_tube(instrument: &Instrument, tube: Tube) -> Words {
    if instrument.has_slide() {
        tell::of_position(tube.to_string())
    } else {
        tell::of_fingering(tube.to_string())
    }
}

/// Which fingerings sound a note, as a hint.
fn sounds_on(course: &Course<'_>, pitch: WrittenPitch) -> Words {
    let instrument = course.score.instrument();
    let all = fingering::usable(instrument, pitch);
    match all.as_slice() {
        [] => tell::outside_the_instrument(pitch, instrument.named_in_words()),
        [only] => tell::sounds_on(pitch, instrument.with_tube(only.tube)),
        [first, others @ ..] => {
            let others: Vec<String> = others.iter().map(|f| f.tube.to_string()).collect();
            let what = if instrument.has_slide() {
                "positions"
            } else {
                "fingerings"
            };
            tell::sounds_on_others(
                pitch,
                instrument.with_tube(first.tube),
                what,
                others.join(", "),
            )
        }
    }
}

fn listed(pitches: &[WrittenPitch]) -> Words {
    let names: Vec<Words> = pitches.iter().map(|pitch| (*pitch).into()).collect();
    Words::joined(&names, " ")
}
