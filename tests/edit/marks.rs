//! A mark that is taken into the routine sounds as the mark did.

use leadpipe::edit::take_mark;
use leadpipe::edition::Edition;
use leadpipe::presets::ALL;
use leadpipe::render::reuse::fingerprint::Fingerprint;
use leadpipe::score::Take;
use leadpipe::timeline::compile::{Settings, compile};
use leadpipe::{pencil, routine};

const MARKS: [&str; 15] = [
    "tempo = \"slower\"",
    "tempo = 66",
    "tempo = \"90%\"",
    "rest = \"2 bars\"",
    "between = \"none\"",
    "breath_after = 1",
    "articulation = \"slurred\"",
    "bend = \"all\"",
    "bend = 2",
    "finger = \"all\"",
    "times = 2",
    "leave_out = true",
    "drone = \"off\"",
    "guide = \"off\"",
    "half_steps = [0, -1]",
];

/// What sounds, whatever the text says.
fn sound(edition: &Edition) -> String {
    let score = edition.score(&Take::default()).expect("it can be played");
    let settings = Settings {
        sample_rate: 44_100,
        signs: true,
    };
    format!("{:?}", Fingerprint::of(&compile(&score, &settings)).whole)
}

#[test]
fn it_is_played_as_with_the_mark() {
    let mut taken = 0;
    for preset in ALL.iter().step_by(9) {
        let lines = routine::read(preset.text).expect("a test reads it").lines;
        for line in (0..lines.len()).step_by(2) {
            for mark in MARKS {
                let text = format!("format = 1\n\n[[mark]]\nline = {}\n{mark}\n", line + 1);
                let read = pencil::read(&text).pencil.expect("it is a pencil");
                let pencilled = Edition::read(preset.text, Some(&text)).expect("it is a pencil");
                let fits = pencilled.left_out().is_empty();
                match take_mark(preset.text, &read, &text, 0) {
                    Ok(now) => {
                        assert!(fits, "{}, line {}: {mark}", preset.name, line + 1);
                        taken += 1;
                        let written = Edition::read(&now, None).expect("it can be read");
                        let same = sound(&written) == sound(&pencilled);
                        assert!(same, "{}, line {}: {mark}\n{now}", preset.name, line + 1);
                    }
                    Err(problem) => assert!(
                        !fits || problem.place.is_some(),
                        "{}, line {}: {mark}: {problem}",
                        preset.name,
                        line + 1
                    ),
                }
            }
        }
    }
    assert!(taken > 60, "only {taken} were taken");
}

#[test]
fn what_a_routine_has_no_words_for_stays_a_mark() {
    let text = "format = 1\n[[mark]]\nline = 3\nrest = \"longer\"\n[[mark]]\nline = 4\nloudness = \"softer\"\n";
    let read = pencil::read(text).pencil.expect("it is a pencil");
    for index in 0..2 {
        let refused = take_mark(ALL[8].text, &read, text, index).expect_err("it has no words");
        assert!(refused.hint.is_some(), "{refused}");
    }
}

#[test]
fn a_line_does_not_go_while_marks_behind_it_count() {
    let text = "format = 1\n[[mark]]\nline = 2\nleave_out = true\n[[mark]]\nline = 4\ntimes = 2\n";
    let read = pencil::read(text).pencil.expect("it is a pencil");
    assert!(take_mark(ALL[8].text, &read, text, 0).is_err());
    let later = take_mark(ALL[8].text, &read, text, 1).expect("it fits");
    assert!(later.contains("times = 2"));
}
