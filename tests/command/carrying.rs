//! `--instrument` and `--carry`: a routine for another instrument, on every command that takes one.

use super::{ROUTINE, Test, written};

#[test]
fn a_routine_is_checked_for_another_instrument() {
    let ran = Test::new(&["check", "a.toml", "--instrument", "trombone"])
        .file("a.toml", ROUTINE)
        .run();
    ran.says("a.toml, for the trombone: no problems found.");
    assert!(!ran.stdout.contains("C4"), "{}", ran.stdout);
}

#[cfg(feature = "exchange")]
#[test]
fn files_are_named_for_the_instrument() {
    let ran = Test::new(&[
        "export",
        "a.toml",
        "--to",
        "musicxml",
        "--instrument",
        "trombone",
        "--out",
        "to",
    ])
    .file("a.toml", ROUTINE)
    .run();
    let names = written(&ran.path("to"));
    assert_eq!(names.len(), 1);
    assert!(names[0].contains("trombone"), "{names:?}");
    let file = ran.read(&format!("to/{}", names[0]));
    for part in [
        "<sign>F</sign>",
        "<line>4</line>",
        "<instrument-sound>brass.trombone.tenor</instrument-sound>",
        "<midi-program>58</midi-program>",
    ] {
        assert!(file.contains(part), "{part}");
    }
    assert!(!file.contains("<transpose>"));
}

/// The values of the MusicXML 4.0 reference for each transposition: diatonic, chromatic, octaves (computed from it).
#[cfg(feature = "exchange")]
#[test]
fn transpositions_are_written_as_the_standard_has_them() {
    for (instrument, want) in [
        ("trumpet in B-flat", (-1, -2, 0)),
        ("soprano cornet", (2, 3, 0)),
        ("piccolo trumpet in B-flat", (6, 10, 0)),
        ("piccolo trumpet in A", (5, 9, 0)),
        ("horn in F", (-4, -7, 0)),
        ("tenor horn", (-5, -9, 0)),
        ("euphonium in treble clef", (-1, -2, -1)),
        ("tuba in E-flat in treble clef", (-5, -9, -1)),
        ("tuba in B-flat in treble clef", (-1, -2, -2)),
    ] {
        let ran = Test::new(&[
            "export",
            "a.toml",
            "--to",
            "musicxml",
            "--instrument",
            instrument,
            "--out",
            "to",
        ])
        .file("a.toml", ROUTINE)
        .run();
        let names = written(&ran.path("to"));
        let file = ran.read(&format!("to/{}", names[0]));
        let number = |tag: &str| -> i32 {
            let (open, close) = (format!("<{tag}>"), format!("</{tag}>"));
            let value = file
                .split_once(&open)
                .and_then(|(_, rest)| rest.split_once(&close));
            value.map_or(0, |(value, _)| value.parse().unwrap())
        };
        let found = (
            number("diatonic"),
            number("chromatic"),
            number("octave-change"),
        );
        assert_eq!(found, want, "{instrument}");
    }
}

#[test]
fn a_line_that_stays_out_is_told_and_the_others_are_written() {
    let ran = Test::new(&[
        "render",
        "a.toml",
        "--instrument",
        "horn in F",
        "--carry",
        "concert",
        "--out",
        "to",
    ])
    .file(
        "a.toml",
        format!(
            "{ROUTINE}\n[[line]]\nname = \"Tubes\"\nopen = \"C4:whole\"\ntubes = [\"0\", \"2\"]\n"
        ),
    )
    .run();
    ran.says("“Tubes” is left out on the horn in F: it runs through the tubes of an instrument whose open notes are those of");
    ran.says("carry this line by partials");
    assert!(
        written(&ran.path("to"))
            .iter()
            .any(|name| name.contains("horn-in-f"))
    );
}

#[test]
fn an_unknown_instrument_or_rule_is_a_slip() {
    for (arguments, words) in [
        (
            ["--instrument", "kazoo"],
            "the instruments are trumpet in B-flat",
        ),
        (["--carry", "concert"], "--instrument"),
    ] {
        let all = ["check", "a.toml"].into_iter().chain(arguments);
        let all: Vec<&str> = all.collect();
        Test::new(&all)
            .file("a.toml", ROUTINE)
            .exit(2)
            .run()
            .says(words);
    }
    Test::new(&[
        "check",
        "a.toml",
        "--instrument",
        "trombone",
        "--carry",
        "up",
    ])
    .file("a.toml", ROUTINE)
    .exit(2)
    .run()
    .says("by partials or in concert");
}

#[test]
fn players_of_a_class_have_instruments_of_their_own() {
    let list = "format = 1\ncarry = \"concert\"\n\n[[player]]\nname = \"Ada\"\nroutine = \"a.toml\"\n\n\
        [[player]]\nname = \"Bo\"\nroutine = \"a.toml\"\ninstrument = \"trombone\"\n\n\
        [[player]]\nname = \"Cem\"\nroutine = \"a.toml\"\ninstrument = \"tuba\"\ncarry = \"partials\"\n";
    let ran = Test::new(&["class", "list.toml", "--out", "to", "--format", "wav"])
        .file("list.toml", list)
        .file("a.toml", ROUTINE)
        .run();
    for (folder, name) in [("bo", "trombone"), ("cem", "tuba-in-b-flat")] {
        let names = written(&ran.path(&format!("to/{folder}")));
        assert!(
            names
                .iter()
                .any(|file| file.contains(name) && file.ends_with(".wav")),
            "{names:?}"
        );
    }
    let wrong = list.replace("trombone", "trombon");
    Test::new(&["class", "list.toml", "--out", "to"])
        .file("list.toml", wrong)
        .file("a.toml", ROUTINE)
        .exit(1)
        .run()
        .says("write instrument = \"trombone\"");
}

#[test]
fn every_instrument_is_listed_and_chosen_for() {
    let ran = Test::new(&["list", "--instruments"]).run();
    for name in [
        "trombone with F attachment",
        "double horn",
        "tuba in B-flat",
    ] {
        assert!(ran.stdout.contains(name), "{}", ran.stdout);
    }
    let ran = Test::new(&["choose", "F3", "--instrument", "trombone"]).run();
    assert!(
        ran.stdout.contains("Start with  second-steps"),
        "{}",
        ran.stdout
    );
    assert!(ran.stdout.contains("F3, fourth-line F"), "{}", ran.stdout);
    let ran = Test::new(&["list", "--instrument", "horn", "--level", "4"]).run();
    assert!(ran.stdout.contains("third-steps"), "{}", ran.stdout);
}
