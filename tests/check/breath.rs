//! How long the air must last.

use crate::{middle, of_rule, only, report_of, silent};
use leadpipe::brass::AgeBand;
use leadpipe::check::Options;
use leadpipe::check::Severity;
use leadpipe::music::Decimal;
use leadpipe::score::Take;
use leadpipe::score::TakeTempo;

#[test]
fn a_phrase_longer_than_a_breath_is_advised_where_to_breathe() {
    let text = middle(
        "notes = \"slur( G4:half F4:half | E4:whole ) | slur( D4:half E4:half | C4:whole )\"",
    );
    let (severity, message, hint, _) = only(&text, "long-breath");
    assert_eq!(severity, Severity::Advice);
    assert_eq!(
        message,
        "“L2”: from G4, the 1st note, to C4, the 6th note, the air must last 16.0 s at 60 clicks a \
         minute; an easy breath lasts a grown player about 7.6 s at this loudness"
    );
    assert!(
        hint.contains("after the 3rd note, E4 (the end of bar 2)"),
        "{hint}"
    );
}

#[test]
fn breath_marks_rests_and_a_faster_tempo_help() {
    silent(
        &middle("notes = \"G4:whole breath | E4:whole breath | C4:whole\""),
        "long-breath",
    );
    silent(
        &middle("notes = \"G4:whole | rest:whole | C4:whole\""),
        "long-breath",
    );
    let text = middle("tempo = 48\nnotes = \"G4:whole | E4:whole\"");
    only(&text, "long-breath");
    let take = Take {
        tempo: TakeTempo::Clicks(Decimal::from_integer(80)),
        ..Take::default()
    };
    let faster = report_of(&text, &take, &Options::default());
    assert!(of_rule(&faster, "long-breath").is_empty());
}

#[test]
fn children_are_advised_sooner_and_soft_notes_last_longer() {
    let text = middle("tempo = 48\nnotes = \"G4:whole\"");
    let at = |age| {
        let options = Options {
            age: Some(age),
            ..Options::default()
        };
        let report = report_of(&text, &Take::default(), &options);
        let found = of_rule(&report, "long-breath");
        found.iter().filter(|f| f.line == Some(1)).count()
    };
    assert_eq!((at(AgeBand::Adult), at(AgeBand::EightToTen)), (0, 1));
    silent(
        &middle("tempo = 48\nnotes = \"pp G4:whole | E4:whole\""),
        "long-breath",
    );
    only(
        &middle("tempo = 48\nnotes = \"mf G4:whole | E4:whole\""),
        "long-breath",
    );
}

#[test]
fn passes_without_silence_between_them_are_one_stretch() {
    let line = "notes = \"G4:whole\"\ntimes = 3\nbetween = \"none\"";
    let (_, message, hint, _) = only(&middle(line), "long-breath");
    assert!(message.contains("12.0 s"), "{message}");
    assert!(hint.contains("the 1st note, G4"), "{hint}");
    silent(&middle("notes = \"G4:whole\"\ntimes = 3"), "long-breath");
}

#[test]
fn several_long_phrases_of_a_line_are_one_finding() {
    let line = "tempo = 48\nnotes = \"G4:whole | E4:whole breath | G4:whole | E4:whole | rest:whole | G4:whole | E4:whole\"";
    let (_, message, hint, _) = only(&middle(line), "long-breath");
    assert!(
        message.contains("(and also 2 other phrases of this line)"),
        "{message}"
    );
    assert_eq!(hint.matches("the end of bar").count(), 3, "{hint}");
}

#[test]
fn a_single_note_too_long_cannot_be_divided() {
    let (_, _, hint, _) = only(
        &middle("tempo = 48\nnotes = \"G4:whole tie:whole\""),
        "long-breath",
    );
    assert_eq!(
        hint,
        "shorten the note, or play it softer or at a faster tempo"
    );
}

/// Nobody breathes in the middle of a short slur: it is played faster, or has one note fewer.
#[test]
fn a_short_slur_is_not_parted_by_a_breath() {
    let of_child = |line: &str| {
        let options = Options {
            age: Some(AgeBand::EightToTen),
            ..Options::default()
        };
        let report = report_of(&middle(line), &Take::default(), &options);
        let found = of_rule(&report, "long-breath");
        let finding = found.iter().find(|f| f.line == Some(1)).unwrap();
        finding.hint.clone().unwrap()
    };
    assert_eq!(
        of_child("notes = \"slur( G4:half F4:half | G4:half ) rest:half\""),
        "play it at a faster tempo or softer, or leave out a note: a breath would break the slur"
    );
    // Between two slurs there is a place.
    assert_eq!(
        of_child("notes = \"slur( G4:half F4:half ) | slur( E4:half F4:half )\""),
        "`breath` would help after the 2nd note, F4 (the end of bar 1)"
    );
}
