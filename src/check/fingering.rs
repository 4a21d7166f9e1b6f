//! Valves and lips: notes that a fingering does not sound, the flat seventh partial, bends.

use super::course::{Course, PlacedNote};
use super::place::Group;
use super::{Finding, Severity};
use crate::brass::{Valves, fingering, partials};
use crate::music::WrittenPitch;
use crate::routine::Walk;
use crate::words::interval;
use std::collections::BTreeSet;

/// Finds notes whose fingering is wrong, and bends that cannot be played or were not prepared.
pub fn check(course: &Course<'_>) -> Vec<Finding> {
    let mut findings = silent(course);
    findings.extend(seventh(course));
    findings.extend(bends_from_nothing(course));
    findings.extend(bends_of_wrong_size(course));
    findings.extend(bends_not_fingered_first(course));
    findings
}

fn finding(severity: Severity, rule: &'static str, group: &Group<'_>, what: &str) -> Finding {
    let message = format!("{} {what}", group.place());
    let first = &group.first;
    Finding::of_line(severity, rule, first.turn.line.index, first.span(), message)
}

/// Notes that are not a partial of their tube.
fn silent(course: &Course<'_>) -> Vec<Finding> {
    let wrong = course
        .horn_notes()
        .filter(|n| n.valves().is_some() && n.partial().is_none() && !n.is_bend());
    let groups = Group::by_token(wrong);
    let one = |group: &Group<'_>| {
        let first = &group.first;
        let valves = first.valves().unwrap_or(Valves::OPEN);
        let tube: Vec<WrittenPitch> = usable(course, valves).collect();
        let what = format!(
            "does not sound on {valves}: that tube sounds {}",
            listed(&tube)
        );
        let hint = if on_tubes(first) {
            let open: Vec<WrittenPitch> = usable(course, Valves::OPEN).collect();
            format!(
                "write notes of the open horn in `open` ({}); the line then moves through its \
                 tubes by itself",
                listed(&open)
            )
        } else {
            sounds_on(course, first.pitch)
        };
        finding(Severity::Error, "silent-fingering", group, &what).hint(hint)
    };
    groups.iter().map(one).collect()
}

/// Notes on partial 7.
fn seventh(course: &Course<'_>) -> Vec<Finding> {
    let flat = course
        .horn_notes()
        .filter(|n| n.partial() == Some(fingering::FLAT_PARTIAL) && !n.is_bend());
    let groups = Group::by_token(flat);
    let one = |group: &Group<'_>| {
        let valves = group.first.valves().unwrap_or(Valves::OPEN);
        let cents = -partials::cents(fingering::FLAT_PARTIAL);
        let what = format!(
            "is the seventh partial of {valves}, {cents:.0} cents flat: nobody plays it in tune"
        );
        let hint = if on_tubes(&group.first) {
            "leave the seventh partial out of `open`: after G5 the next note is C6".to_owned()
        } else {
            sounds_on(course, group.first.pitch)
        };
        finding(Severity::Warning, "seventh-partial", group, &what).hint(hint)
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
        let after = match group.first.before() {
            None => "starts the pass",
            Some(before) if before.note.breath.is_some() => "comes after a breath",
            Some(_) => "comes after a rest",
        };
        let what = format!("is a bend but {after}: there is no note to bend it from");
        let from = group.first.pitch.half_step_above();
        finding(Severity::Error, "bend-from-nothing", group, &what).hint(format!(
            "let it follow right after {from}, or leave `(bend)` out and finger it"
        ))
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
            0 => format!("is a bend from {from}, the same note"),
            ..0 => format!("is a bend upwards from {from}: lips bend a note down, not up"),
            _ => format!(
                "is bent down from {from} by {}: further than the half step that a lip bends",
                interval::name(depth)
            ),
        };
        finding(Severity::Error, "bend-size", group, &what).hint(format!(
            "bend {from} to {}, or leave `(bend)` out and finger the note",
            from.half_step_below()
        ))
    };
    Group::by_token(wrong).iter().map(one).collect()
}

/// Bends to a neighbour note that has not been fingered before: the ear must know the note before the lip
/// looks for it.
fn bends_not_fingered_first(course: &Course<'_>) -> Vec<Finding> {
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
        let what = format!("is bent from {from} before {from} and {to} were fingered");
        finding(Severity::Warning, "bend-first", group, &what).hint(format!(
            "first finger it, then bend it: play {from} {to} {from} on the valves, in an earlier \
             line or pass, so that the ear knows where the lip must go"
        ))
    };
    Group::by_line(early).iter().map(one).collect()
}

fn on_tubes(note: &PlacedNote<'_>) -> bool {
    matches!(note.turn.written.walk, Walk::Tubes(_))
}

/// The notes of a tube within the compass, without the seventh partial.
fn usable<'c>(course: &'c Course<'_>, valves: Valves) -> impl Iterator<Item = WrittenPitch> + 'c {
    let instrument = course.score.instrument();
    partials::of_tube(instrument, valves)
        .filter(|(n, _)| *n != fingering::FLAT_PARTIAL)
        .map(|(_, pitch)| pitch)
}

/// Which fingerings sound a note, as a hint.
fn sounds_on(course: &Course<'_>, pitch: WrittenPitch) -> String {
    let instrument = course.score.instrument();
    let mut all = fingering::all(instrument, pitch);
    all.retain(|f| f.partial != fingering::FLAT_PARTIAL);
    match all.as_slice() {
        [] => format!("{pitch} lies outside the {}", instrument.name),
        [only] => format!("{pitch} sounds on {}", only.valves),
        [first, others @ ..] => {
            let others: Vec<String> = others.iter().map(|f| f.valves.to_string()).collect();
            format!(
                "{pitch} sounds on {}; other fingerings for it: {}",
                first.valves,
                others.join(", ")
            )
        }
    }
}

fn listed(pitches: &[WrittenPitch]) -> String {
    let names: Vec<String> = pitches.iter().map(ToString::to_string).collect();
    names.join(" ")
}
