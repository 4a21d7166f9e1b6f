//! What a pencil may say, and what is told of one that says something else.

use super::{read, text};
use leadpipe::pencil::{self, Change, RestChange, Target, TempoChange, spoken, words};
use leadpipe::routine::RestLength;

#[test]
fn every_kind_of_mark_is_read() {
    let pencil = read(&text(&[
        "line = 3\ntempo = \"slower\"\ndate = 2026-11-25",
        "tempo = \"70%\"",
        "line = 3\ntempo = 60",
        "line = \"Away\"\nrest = \"longer\"\nbetween = \"2 bars\"",
        "line = 1\nbreath_after = [2, 4]",
        "line = 1\narticulation = \"both\"\nbend = true\ntimes = 5",
        "line = 1\nleave_out = true",
        "loudness = \"softer\"\ndrone = \"tonic and fifth\"\nguide = \"echo\"",
        "line = 1\nstop_after = \"1-2\"",
        "line = 1\nstop_after = -2",
        "line = 1\nhalf_steps = [0, -1]",
        "line = 1\ntubes = [\"0\"]\nwords = \"Keep the corners quiet.\"",
    ]));
    assert_eq!(pencil.player.as_deref(), Some("Anna"));
    assert_eq!(pencil.marks.len(), 19);
    let first = &pencil.marks[0];
    assert_eq!(first.target, Target::Number(3));
    assert_eq!(first.change, Change::Tempo(TempoChange::Slower));
    assert_eq!(first.date.as_deref(), Some("2026-11-25"));
    assert_eq!(pencil.marks[1].target, Target::Whole);
    assert!(pencil.marks.iter().any(|m| {
        m.change
            == Change::Between(RestChange::To(RestLength::Bars(
                leadpipe::music::Decimal::from_integer(2),
            )))
    }));
    let breaths = pencil
        .marks
        .iter()
        .filter(|m| m.change.kind() == "breath_after");
    assert_eq!(breaths.count(), 2);
}

/// Message and hint of the only fault of a mark.
fn fault(mark: &str) -> (String, String) {
    let read = pencil::read(&text(&[mark]));
    let [fault] = &read.faults[..] else {
        panic!("{mark}\n{:#?}", read.faults);
    };
    (
        fault.message.to_string(),
        fault.hint.clone().unwrap().to_string(),
    )
}

#[test]
fn what_is_wrong_is_told_with_what_would_be_right() {
    for (mark, message, hint) in [
        (
            "line = 3\ntmepo = \"slower\"",
            "tmepo is not known here",
            "did you mean tempo?",
        ),
        (
            "line = 3\nplayer = \"A\"\ntimes = 2",
            "player is not known here",
            "player belongs to the head of the file",
        ),
        (
            "line = 3",
            "this mark changes nothing",
            "say what: tempo = \"slower\", breath_after = 4, leave_out = true",
        ),
        (
            "line = 3\ntempo = \"slow\"",
            "tempo cannot be slow",
            "it can be \"slower\", \"faster\"",
        ),
        (
            "line = 3\ntempo = 500",
            "tempo cannot be 500",
            "clicks a minute go from 20 to 300",
        ),
        (
            "line = 3\ntempo = \"5%\"",
            "tempo cannot be 5%",
            "a percentage goes from 10% to 400%",
        ),
        (
            "line = 3\nrest = \"2 bras\"",
            "rest cannot be \"2 bras\"",
            "it can be \"longer\", \"shorter\"",
        ),
        (
            "line = 0\ntimes = 2",
            "a line is named by its number, from 1 to 200, or by its name in quotes",
            "for instance line = 3",
        ),
        (
            "breath_after = 4",
            "breath_after says nothing of a whole routine",
            "name the line it is for",
        ),
        (
            "line = 1\nbreath_after = 0",
            "breath_after is the number of a note",
            "count the notes of the line from 1",
        ),
        (
            "line = 1\nleave_out = false",
            "leave_out can only be true",
            "write leave_out = true",
        ),
        (
            "line = 1\nloudness = \"loud\"",
            "loudness cannot be \"loud\"",
            "did you mean \"louder\"?",
        ),
        (
            "line = 1\ntimes = 2\ndate = \"2026-02-30\"",
            "a date is written year, month, day",
            "for instance date = 2026-11-25",
        ),
        (
            "line = 1\nstop_after = \"9\"",
            "stop_after names the last one that is played",
            "as the line lists them",
        ),
        (
            "line = 1\nbend = false",
            "bend is true, or the number of a note",
            "bend = true lips down",
        ),
        (
            "line = 1\ndrone = \"loud\"",
            "drone cannot be \"loud\"",
            "it can be \"tonic\"",
        ),
    ] {
        let (said, helped) = fault(mark);
        assert_eq!(said, message, "{mark}");
        assert!(helped.starts_with(hint), "{mark}: {helped}");
    }
}

#[test]
fn all_faults_are_told_at_once_and_the_other_marks_are_read() {
    let read = pencil::read(&text(&[
        "line = 1\ntimes = 0",
        "line = 2\ntimes = 3",
        "line = 3\ntempo = \"slow\"\nguide = \"lead\"",
    ]));
    assert_eq!(read.faults.len(), 3);
    assert!(read.faults.is_sorted_by_key(|f| f.span.start));
    let marks = read.pencil.unwrap().marks;
    assert_eq!(marks.len(), 1);
    assert_eq!(marks[0].change, Change::Times(3));
}

/// Where a row is not understood, the mark it belongs to may be meant for anything: nothing is applied.
#[test]
fn a_file_that_is_no_toml_gives_no_marks() {
    for broken in [
        "line = \ntimes = 3",
        "line 3\ntimes = 3",
        "line = 3\ntempo = “slower”",
    ] {
        let read = pencil::read(&text(&[broken]));
        assert!(read.pencil.is_none(), "{broken}");
        assert_eq!(read.faults.len(), 1, "{broken}\n{:#?}", read.faults);
    }
}

#[test]
fn one_bar_and_one_beat_are_said_in_the_singular() {
    let pencil = read(&text(&[
        "line = 1\nrest = \"1 bars\"",
        "line = 1\nbetween = \"1 beats\"",
        "line = 2\nrest = \"0.5 bars\"",
    ]));
    let said: Vec<String> = (pencil.marks.iter())
        .map(|mark| words::change(leadpipe::words::Language::En, &mark.change))
        .collect();
    assert_eq!(
        said,
        [
            "rest after it: 1 bar",
            "rest from one time through to the next: 1 beat",
            "rest after it: 0.5 bars",
        ]
    );
    let typed: Vec<String> = (pencil.marks.iter())
        .map(|mark| spoken::typed(&mark.change))
        .collect();
    assert_eq!(typed, ["rest 1 bar", "between 1 beat", "rest 0.5 bars"]);
}
