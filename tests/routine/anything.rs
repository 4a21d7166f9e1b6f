//! Whatever is written is read or told, inside the text.

use crate::{read_line, with_line};
use leadpipe::music::{Meter, NoteValue};
use leadpipe::routine::{self, Fault, notes};
use proptest::prelude::*;

/// Notes that make sense most of the time.
fn token() -> impl Strategy<Value = String> {
    let pitch = prop::sample::select(vec![
        "C4", "G4", "F#4", "Bb3", "E5", "Cb5", "B#3", "h4", "g4",
    ]);
    let value = prop::sample::select(vec![":half", ":quarter", ":eighth.", ":whole", "", ":haf"]);
    let mark = prop::sample::select(vec!["", " [1-2]", "(bend)", " (staccato) (air)", "(ku)"]);
    let note = (pitch, value, mark).prop_map(|(p, v, m)| format!("{p}{v}{m}"));
    let word = prop::sample::select(vec![
        "slur(",
        "triplet(",
        ")",
        "|",
        "breath",
        "tie:half",
        "rest:quarter",
        "cresc",
        "dim",
        "p",
        "f",
        ",",
        "(",
        "[",
        "in:half",
    ]);
    prop_oneof![3 => note, 1 => word.prop_map(str::to_owned)]
}

fn inside(faults: &[Fault], text: &str) {
    for fault in faults {
        for span in [Some(fault.span), fault.also.as_ref().map(|a| a.0)]
            .into_iter()
            .flatten()
        {
            assert!(
                span.start <= span.end && span.end <= text.len(),
                "{fault:?}"
            );
            assert!(
                text.is_char_boundary(span.start) && text.is_char_boundary(span.end),
                "{fault:?}"
            );
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_is_read_without_panic_and_faults_lie_inside_it(text in any::<String>()) {
        if let Err(faults) = routine::read(&text) {
            prop_assert!(!faults.is_empty());
            inside(&faults, &text);
        }
    }

    #[test]
    fn any_notes_are_read_without_panic(tokens in prop::collection::vec(token(), 0..40), junk in any::<String>()) {
        for body in [tokens.join(" "), tokens.concat(), format!("{} {junk}", tokens.join(" "))] {
            let text = with_line(&format!("notes = '''{body}'''"));
            if let Err(faults) = routine::read(&text) {
                inside(&faults, &text);
            }
        }
    }

    #[test]
    fn a_file_with_changed_bytes_is_read_without_panic(at in 0usize..200, put in any::<char>(), cut in 0usize..220) {
        let mut text: String = with_line("notes = \"mf slur( G4:half F#4:half | G4:whole ) breath\"\ntimes = 2");
        if text.is_char_boundary(at.min(text.len())) {
            text.insert(at.min(text.len()), put);
        }
        let cut = cut.min(text.len());
        for text in [text.clone(), text.chars().take(cut).collect(), text.replace('"', "”")] {
            if let Err(faults) = routine::read(&text) {
                inside(&faults, &text);
            }
        }
    }

    #[test]
    fn what_is_printed_reads_back(tokens in prop::collection::vec(token(), 1..40)) {
        let text = with_line(&format!("each = \"quarter\"\nnotes = \"{}\"", tokens.join(" ")));
        if let Ok(routine) = routine::read(&text) {
            let line = &routine.lines[0];
            let printed = line.phrase.to_string();
            let again = read_line(&format!("notes = \"{printed}\""));
            prop_assert_eq!(again.lines[0].phrase.to_string(), printed);
            let without_places = |m: &routine::Melody| {
                let mut m = m.clone();
                m.events.iter_mut().for_each(|e| e.span = routine::Span::new(0, 0));
                m
            };
            prop_assert_eq!(without_places(&again.lines[0].melody), without_places(&line.melody));
        }
    }
}

#[test]
fn the_property_tests_meet_routines_that_read_well() {
    // Guards the generator: a fixed phrase of its tokens is a routine.
    let routine =
        read_line("notes = \"p slur( C4:half G4:quarter ) cresc F#4:half breath E5:half f\"");
    assert_eq!(
        routine.lines[0].phrase.to_string(),
        "p slur( C4:half G4:quarter ) cresc F#4:half breath E5:half f"
    );
    let _ = (
        Meter::parse("4/4"),
        NoteValue::parse("half"),
        notes::Phrase::default(),
    );
}
