//! What is read of a routine.

use crate::read_line;
use leadpipe::music::Whole;
use leadpipe::routine::{self, Articulation, EventKind, RestLength, Walk};

#[test]
fn the_sketch_of_the_format_reads_as_it_says() {
    let text = r#"
format = 1
title = "Second steps"
instrument = "trumpet in B-flat"
comfortable_top = "G4"          # written pitch
reach = "B4"
tempo = 72
meter = "4/4"

[[line]]
name = "Long tone and neighbour"
purpose = "steady air"
say = "Let the air move before the lips do."
notes = "mf slur( G4:half F#4:half | G4:whole ) breath | slur( G4:half F#4:half | G4:whole )"
half_steps = [0, -1, -2]
rest = "same"

[[line]]
name = "Two notes, seven lengths of tube"
open = "slur( C4:half G4:half | C4:whole )"
tubes = ["0", "2", "1", "1-2", "2-3", "1-3", "1-2-3"]
articulation = ["slurred", "tongued"]
drone = "tonic"
between = "same"
"#;
    let routine = routine::read(text).expect("the sketch is a routine");
    assert_eq!(routine.lines.len(), 2);
    let first = &routine.lines[0];
    assert_eq!(first.walk, Walk::HalfSteps(vec![0, -1, -2]));
    assert_eq!(first.melody.length, Whole::from_integer(4));
    let joined: Vec<bool> = first.melody.events.iter().map(|e| e.slurred).collect();
    assert_eq!(joined, [false, true, true, false, true, true]);
    assert!(first.melody.events[2].breath_after);
    let second = &routine.lines[1];
    assert_eq!(
        second.articulations,
        [Articulation::Slurred, Articulation::Tongued]
    );
    assert!(matches!(&second.walk, Walk::Tubes(t) if t.len() == 7));
    assert_eq!(second.rest, RestLength::Same);
}

#[test]
fn ties_make_one_note_and_triplets_are_three_in_the_time_of_two() {
    let routine = read_line(
        "notes = \"G4:whole | tie:half triplet( A4:quarter G4:quarter F4:quarter ) | rest:half E4:half.\"\nmeter = \"4/4\""
            .replace(" | rest:half E4:half.", " | rest:quarter E4:half.")
            .as_str(),
    );
    let events = &routine.lines[0].melody.events;
    let lengths: Vec<Whole> = events.iter().map(|e| e.length).collect();
    let third = Whole::new(1, 6);
    assert_eq!(
        lengths,
        [
            Whole::new(3, 2),
            third,
            third,
            third,
            Whole::new(1, 4),
            Whole::new(3, 4)
        ]
    );
}

#[test]
fn a_repeated_pitch_and_a_breath_break_a_slur_and_a_tie_into_it_holds() {
    let slurred = |notes: &str| -> Vec<bool> {
        let routine = read_line(&format!("each = \"quarter\"\nnotes = \"{notes}\""));
        routine.lines[0]
            .melody
            .events
            .iter()
            .map(|e| e.slurred)
            .collect()
    };
    assert_eq!(slurred("slur( G4 G4 A4 )"), [false, false, true]);
    assert_eq!(
        slurred("slur( G4 A4 breath G4 F4 )"),
        [false, true, false, true]
    );
    assert_eq!(slurred("G4 slur( tie A4 )"), [false, true]);
    assert_eq!(
        slurred("slur( G4 A4 ) G4 slur( F4 E4 )"),
        [false, true, false, false, true]
    );
    assert_eq!(
        slurred("slur( G4 F#4 ) slur( Gb4 F4 )"),
        [false, true, false, true]
    );
}

#[test]
fn loudness_leads_evenly_in_db() {
    let routine = read_line("notes = \"p G4:half cresc tie:half A4:half f B4:half\"");
    let melody = &routine.lines[0].melody;
    let at = |n, d| melody.level_db(Whole::new(n, d));
    assert_eq!(at(0, 1), -13.0);
    assert_eq!(at(1, 2), -13.0);
    assert_eq!(at(1, 1), -6.5);
    assert_eq!(at(3, 2), 0.0);
    let routine = read_line("notes = \"G4:half A4:half\"");
    assert_eq!(
        routine.lines[0].melody.level_db(Whole::new(1, 4)),
        -5.0,
        "passes start at mf"
    );
}

#[test]
fn breathing_lines_hold_breath_in_place_of_pitches() {
    let routine = read_line("on = \"air\"\nnotes = \"in:whole | out:half. hold:quarter\"");
    let kinds: Vec<EventKind> = routine.lines[0]
        .melody
        .events
        .iter()
        .map(|e| e.kind)
        .collect();
    assert_eq!(kinds, [EventKind::In, EventKind::Out, EventKind::Hold]);
}
