//! Names of notes: the same routine in English, German and solfège names.

use leadpipe::brass::Instrument;
use leadpipe::carry::{CarryRule, carry};
use leadpipe::music::{NoteNames, WrittenPitch, pitch::Letter};
use leadpipe::presets;
use leadpipe::routine::{self, Routine, note_names};
use proptest::prelude::*;

/// Everything that a routine says, without the places it says it at and the names it says it in.
fn facts(text: &str) -> String {
    let mut routine: Routine =
        routine::read(text).unwrap_or_else(|faults| panic!("{text}\n{faults:?}"));
    routine.names = NoteNames::English;
    let debug = format!("{routine:?}");
    let mut out = String::new();
    let mut rest = debug.as_str();
    while let Some(at) = rest.find("Span {") {
        out.push_str(&rest[..at]);
        let end = rest[at..].find('}').expect("it is closed");
        rest = &rest[at + end + 1..];
    }
    out + rest
}

fn in_names(text: &str) -> [String; 3] {
    NoteNames::WORDS.map(|(_, names)| note_names::rewritten(text, names))
}

#[test]
fn every_built_in_routine_is_the_same_in_all_names() {
    for preset in &presets::ALL {
        let english = facts(preset.text);
        let [same, german, solfege] = in_names(preset.text);
        assert_eq!(same, preset.text);
        for other in [&german, &solfege] {
            assert_ne!(other, preset.text);
            assert_eq!(facts(other), english, "{}", preset.name);
            let back = note_names::rewritten(other, NoteNames::English);
            assert_eq!(
                back.replace("names = \"english\"\n", ""),
                preset.text,
                "{}",
                preset.name
            );
        }
    }
}

#[test]
fn a_carried_routine_keeps_the_names_it_was_written_in() {
    let cornet = Instrument::named("trombone").expect("it is an instrument");
    let text = presets::ALL[0].text;
    let english = carry(text, cornet, CarryRule::Partials).expect("it can be carried");
    for names in [NoteNames::German, NoteNames::Solfege] {
        let other = note_names::rewritten(text, names);
        let carried = carry(&other, cornet, CarryRule::Partials).expect("it can be carried");
        assert_eq!(note_names::of(&carried.text), names);
        assert_eq!(facts(&carried.text), facts(&english.text));
    }
}

#[test]
fn names_that_are_not_those_of_the_file_are_told() {
    let text = |names: &str, notes: &str| {
        format!(
            "format = 1\nnames = \"{names}\"\ntitle = \"T\"\ninstrument = \"trumpet\"\ncomfortable_top = \"{}\"\n\
             tempo = 72\n[[line]]\nname = \"L\"\nnotes = \"{notes}\"\n",
            if names == "german" { "G4" } else { "sol4" }
        )
    };
    let faults = |names: &str, notes: &str| {
        let faults = routine::read(&text(names, notes)).expect_err("it has a fault");
        let faults = faults
            .iter()
            .map(|f| format!("{}: {}", f.message, f.hint.as_deref().unwrap_or("")));
        faults.collect::<Vec<_>>()
    };
    let said = |head: &str, meant: &str| {
        format!("{head} is not one of the names that this file says its notes have: write {meant}")
    };
    assert_eq!(faults("german", "F#4:half"), [said("F#4", "Fis4")]);
    assert_eq!(faults("german", "fis4:half"), [said("fis4", "Fis4")]);
    assert_eq!(faults("solfege", "G4:half"), [said("G4", "sol4")]);
    assert_eq!(faults("solfege", "Ré4:half"), [said("Ré4", "re4")]);
    // In German names a B is a B-flat, and nobody is asked about it.
    let routine =
        routine::read(&text("german", "B4:half H4:half Fis4:half")).expect("it is a routine");
    assert_eq!(
        routine.lines[0].phrase.to_string(),
        "Bb4:half B4:half F#4:half"
    );
}

#[test]
fn a_pencil_is_read_and_written_in_its_own_names() {
    use leadpipe::pencil::{edit, hand, reader};
    let text = note_names::rewritten(presets::ALL[0].text, NoteNames::German);
    let routine = routine::read(&text).expect("it is a routine");
    let empty = note_names::rewritten(&edit::empty(Some("Anna")), routine.names);
    let row = hand::row("drone H2").expect("it is a mark");
    let line = routine.lines.iter().position(|line| line.on.has_pitches());
    let written = hand::write(&empty, &routine, line, &row, None).expect("it fits");
    assert!(written.text.contains("drone = \"H2\""), "{}", written.text);
    let read = reader::read(&written.text);
    assert!(read.faults.is_empty(), "{:?}", read.faults);
}

proptest! {
    #[test]
    fn the_same_notes_in_all_names_are_the_same(
        notes in proptest::collection::vec((0usize..7, -1i8..=1, any::<bool>()), 1..20)
    ) {
        let notes: Vec<String> = notes
            .iter()
            .map(|(letter, alter, dotted)| {
                let pitch = WrittenPitch::new(Letter::ALL[*letter], *alter, 4);
                format!("{pitch}:{}", if *dotted { "half." } else { "quarter" })
            })
            .collect();
        let text = format!(
            "format = 1\ntitle = \"T\"\ninstrument = \"trumpet\"\ncomfortable_top = \"G4\"\ntempo = 72\n\
             [[line]]\nname = \"L\"\nnotes = \"\"\"\n{}\n\"\"\"\n",
            notes.join(" ")
        );
        let english = facts(&text);
        for other in &in_names(&text)[1..] {
            prop_assert_eq!(&facts(other), &english);
            let back = note_names::rewritten(other, NoteNames::English);
            prop_assert_eq!(back.replace("names = \"english\"\n", ""), text.clone());
        }
    }
}
