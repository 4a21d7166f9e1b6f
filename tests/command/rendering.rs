//! `render`: names, the listing, and what is refused.

use super::{ROUTINE, Test, names};
use std::fs;

#[test]
fn tracks_are_listed_on_standard_output_and_named_for_practice() {
    let ran = Test::new(&[
        "render", "a.toml", "--tempo", "100%,80%", "--key", "0,-1", "--out", "to",
    ])
    .file("a.toml", ROUTINE)
    .stdout(&with_separators(
        "\
Track                                 Length    Size
to/short 060 key-0 together.wav         0:17  1.5 MB  new
to/short 060 key-down-1 together.wav    0:17  1.5 MB  new
to/short 048 key-0 together.wav         0:21  1.9 MB  new
to/short 048 key-down-1 together.wav    0:21  1.9 MB  new
",
    ))
    .run();
    assert!(
        ran.stderr.ends_with("4 tracks rendered.\n"),
        "{}",
        ran.stderr
    );
    let again = Test::within(ran.folder, &["render", "a.toml", "--out", "to"])
        .stdout(&with_separators(
            "\
Track                            Length    Size
to/short 060 key-0 together.wav    0:17  1.5 MB  unchanged
",
        ))
        .run();
    assert!(
        again.stderr.ends_with("1 track unchanged.\n"),
        "{}",
        again.stderr
    );
    let changed = ROUTINE.replace("D4:half", "E4:half");
    let again = Test::within(
        again.folder,
        &["render", "a.toml", "--tempo", "100%,80%,60", "--out", "to"],
    )
    .file("a.toml", changed)
    .run();
    assert!(
        again
            .stderr
            .ends_with("2 tracks rendered again: 2 of 4 lines.\n"),
        "{}",
        again.stderr
    );
    assert_eq!(
        names(&again.path("to")),
        [
            ".leadpipe",
            "practice.m3u8",
            "short 048 key-0 together.wav",
            "short 048 key-down-1 together.wav",
            "short 060 key-0 together.wav",
            "short 060 key-down-1 together.wav",
        ]
    );
}

/// Paths as this system writes them.
fn with_separators(text: &str) -> String {
    text.replace("to/", &format!("to{}", std::path::MAIN_SEPARATOR))
}

#[test]
fn routines_of_one_title_do_not_overwrite_each_other() {
    let ran = Test::new(&["render", "a.toml", "b.toml", "-", "--out", "to"])
        .file("a.toml", ROUTINE)
        .file(
            "b.toml",
            ROUTINE.replace("Short", "SHÖRT").replace('Ö', "O"),
        )
        .stdin(ROUTINE)
        .run();
    assert_eq!(
        names(&ran.path("to")),
        [
            ".leadpipe",
            "practice.m3u8",
            "short 060 key-0 together.wav",
            "short-2 060 key-0 together.wav",
            "short-3 060 key-0 together.wav",
        ]
    );
}

#[test]
fn a_routine_with_errors_is_refused_and_the_others_are_rendered() {
    let ran = Test::new(&["render", "bad.toml", "good.toml", "--out", "to"])
        .file("bad.toml", ROUTINE.replace("( C4:half", "( C4:hlaf"))
        .file("good.toml", ROUTINE)
        .exit(1)
        .run();
    assert!(ran.stderr.contains(" --> bad.toml:"), "{}", ran.stderr);
    assert!(
        ran.stderr
            .ends_with("1 track rendered.\nerror: 1 routine was not rendered\n"),
        "{}",
        ran.stderr
    );
    assert_eq!(
        names(&ran.path("to")),
        [".leadpipe", "practice.m3u8", "short 060 key-0 together.wav"]
    );
    let ran = Test::new(&["render", "good.toml", "none.toml", "--out", "to"])
        .file("good.toml", ROUTINE)
        .exit(2)
        .run();
    assert_eq!(
        names(&ran.path("to")),
        [""; 0],
        "a slip stops before anything is rendered"
    );
}

#[test]
fn a_take_that_cannot_be_is_refused_before_anything_is_rendered() {
    let ran = Test::new(&["render", "a.toml", "--tempo", "100%,20%", "--out", "to"])
        .file("a.toml", ROUTINE)
        .stdout("")
        .exit(2)
        .run();
    assert!(
        ran.stderr.contains("would come to 12 clicks a minute"),
        "{}",
        ran.stderr
    );
    assert_eq!(names(&ran.path("to")), [""; 0]);
    Test::new(&["check", "a.toml", "--key", "24"])
        .file("a.toml", ROUTINE)
        .exit(2)
        .run();
}

#[test]
fn what_stands_in_the_way_of_tracks_is_named() {
    let ran = Test::new(&["render", "a.toml", "--out", "file"])
        .file("a.toml", ROUTINE)
        .file("file", "mine")
        .stdout("")
        .exit(1)
        .run();
    assert!(
        ran.stderr.ends_with(
            "\
error: file is a file, so nothing can be put into it
 |
 = help: name another folder with --out
"
        ),
        "{}",
        ran.stderr
    );
    assert_eq!(ran.read("file"), "mine");
}

/// A track of one routine never takes the place of another's of the same title, whichever run it comes from.
#[test]
fn a_track_of_another_routine_is_never_replaced() {
    let other = ROUTINE.replace("C4:half", "D4:half");
    assert_ne!(other, ROUTINE);
    let first = "to/short 060 key-0 together.wav";
    let second = "to/short-2 060 key-0 together.wav";
    let mut ran = Test::new(&["render", "a.toml", "--out", "to"])
        .file("a.toml", ROUTINE)
        .file("sub/a.toml", &other)
        .run();
    let before = fs::read(ran.path(first)).unwrap();
    for done in ["1 track rendered.", "1 track unchanged."] {
        ran = Test::within(ran.folder, &["render", "sub/a.toml", "--out", "to"]).run();
        ran.says("Another routine called “Short” has tracks in to: those of sub/a.toml are called short-2.\n");
        ran.says(done);
        assert!(fs::read(ran.path(first)).unwrap() == before);
        assert!(fs::read(ran.path(second)).unwrap() != before);
    }
    // A routine that was moved, or got another file name, is still the same routine.
    fs::rename(ran.path("a.toml"), ran.path("b.toml")).unwrap();
    let ran = Test::within(ran.folder, &["render", "b.toml", "--out", "to"]).run();
    assert_eq!(ran.stderr, "1 track unchanged.\n");
}

/// Advice on three tempos would fill three screens where nothing is wrong: it is counted, and the command that shows it is
/// named.
#[test]
fn advice_is_counted_and_not_printed() {
    let long = "format = 1\ntitle = \"Long\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G4\"\n\
                tempo = 60\n\n[[line]]\nname = \"Long\"\nnotes = \"mf C4:whole tie:half rest:half\"\n";
    let ran = Test::new(&["render", "long.toml", "--tempo", "100%,40%,35%"])
        .file("long.toml", long)
        .run();
    assert!(
        ran.stderr.starts_with(
            "long.toml: 1 piece of advice on breath and rest; leadpipe check long.toml --tempo 40% shows it.\n"
        ),
        "{}",
        ran.stderr
    );
    assert!(!ran.stderr.contains("the air must last"), "{}", ran.stderr);
    Test::within(ran.folder, &["check", "long.toml", "--tempo", "40%"])
        .run()
        .says("of air");
}
