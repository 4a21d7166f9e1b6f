//! What a teacher types by mistake, and what is said of it: at the place itself, in a musician's words, with what would be
//! right. Each slip is one change to a small routine that has no fault.

use super::Test;
use serde_json::Value;

mod lengths;
mod pitches;
mod rows;
mod signs;

const ROUTINE: &str = r#"format = 1
title = "Slips"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
tempo = 72
meter = "4/4"

[[line]]
name = "One"
notes = "C4:half D4:half | E4:whole"
"#;

const NOTES: &str = r#"notes = "C4:half D4:half | E4:whole""#;

/// The rows that are changed, what they are changed to, and what is said: place, message and hint.
type Slip = (&'static str, &'static str, &'static [&'static str]);

/// What `check` says of a routine, each fault as "place: message / hint".
fn said(routine: &str) -> Vec<String> {
    let ran = Test::new(&["check", "slip.toml", "--json"])
        .file("slip.toml", routine)
        .exit(1)
        .run();
    let json: Value = serde_json::from_str(&ran.stdout).unwrap();
    let of = |key: &str| json[key].as_array().cloned().unwrap_or_default();
    let all = [of("faults"), of("findings")].concat();
    all.iter()
        .map(|fault| {
            let byte = |at: usize| fault["bytes"][at].as_u64().unwrap() as usize;
            format!(
                "{}: {} / {}",
                &routine[byte(0)..byte(1)],
                fault["message"].as_str().unwrap(),
                fault["hint"].as_str().unwrap()
            )
        })
        .collect()
}

#[test]
fn every_slip_is_told_at_its_place_with_what_would_be_right() {
    Test::new(&["check", "slip.toml"])
        .file("slip.toml", ROUTINE)
        .run();
    let mut wrong = vec![];
    let all = [pitches::SLIPS, lengths::SLIPS, signs::SLIPS, rows::SLIPS].concat();
    for (from, to, expected) in all {
        assert!(ROUTINE.contains(from), "{from}");
        let said = said(&ROUTINE.replacen(from, to, 1));
        if said != expected {
            wrong.push(format!(
                "{to}\n  said: {said:#?}\n  expected: {expected:#?}"
            ));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} slips:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

/// A length carries over from note to note, across bar lines, slurs and rests, until another one is written. What `each`
/// says goes first, as it always has.
#[test]
fn a_length_carries_over_within_a_line() {
    let with = |rows: &str| ROUTINE.replace(NOTES, rows);
    let carried = with("notes = \"C4:quarter D4 slur( E4 F4 | G4 ) rest E4:half | D4 C4\"");
    let written = with(
        "notes = \"C4:quarter D4:quarter slur( E4:quarter F4:quarter | G4:quarter ) rest:quarter \
         E4:half | D4:half C4:half\"",
    );
    let each = with("each = \"quarter\"\nnotes = \"C4:half D4 E4 | F4 E4 D4 C4\"");
    let as_before = with(
        "notes = \"C4:half D4:quarter E4:quarter | F4:quarter E4:quarter D4:quarter C4:quarter\"",
    );
    for (a, b) in [(carried, written), (each, as_before)] {
        let melody = |text: &str| {
            let routine = leadpipe::routine::read(text).unwrap();
            let events = routine.lines[0].melody.events.clone();
            let events = events.into_iter();
            events
                .map(|e| (e.start, e.length, e.kind, e.slurred))
                .collect::<Vec<_>>()
        };
        assert_eq!(melody(&a), melody(&b));
    }
    // A tie names its own length, and hands none on.
    assert_eq!(
        said(&with(
            "notes = \"C4:half tie:quarter D4:quarter | E4:half tie D4\""
        )),
        ["tie: tie has no length / a tie names its own length: tie:quarter"]
    );
}
