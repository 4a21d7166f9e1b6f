//! Marks written into a file and taken out of it.

use super::{read, text};
use leadpipe::pencil::{edit, spoken};

#[test]
fn what_is_said_becomes_a_row() {
    for (said, kind, value) in [
        ("slower", "tempo", "\"slower\""),
        ("85%", "tempo", "\"85%\""),
        ("tempo 60.5", "tempo", "60.5"),
        ("rest longer", "rest", "\"longer\""),
        ("rest 2 bars", "rest", "\"2 bars\""),
        ("breath after 4", "breath_after", "4"),
        ("breath 4", "breath_after", "4"),
        ("tongue it", "articulation", "\"tongued\""),
        ("both", "articulation", "\"both\""),
        ("bend it", "bend", "true"),
        ("times 5", "times", "5"),
        ("5 times", "times", "5"),
        ("leave out", "leave_out", "true"),
        ("softer", "loudness", "\"softer\""),
        ("stop after 1-2", "stop_after", "\"1-2\""),
        ("stop after -2", "stop_after", "-2"),
        ("half steps 0,-1", "half_steps", "[0, -1]"),
        ("tubes 0,1-2", "tubes", "[\"0\", \"1-2\"]"),
        ("words Say \"ah\"", "words", "\"Say \\\"ah\\\"\""),
    ] {
        let row = spoken::parse(said).unwrap();
        assert_eq!((row.kind, row.value.as_str()), (kind, value), "{said}");
        // Every one of them is understood by the reader.
        read(&edit::add(
            "format = 1\n",
            Some("1"),
            &row,
            Some("2026-11-25"),
        ));
    }
    assert_eq!(spoken::parse("slowre").unwrap_err(), "did you mean slower?");
    assert!(spoken::parse("longer").unwrap_err().contains("rest longer"));
    assert!(
        spoken::parse("")
            .unwrap_err()
            .starts_with("marks are slower")
    );
    for said in [
        "breath after four",
        "times",
        "tempo 1e9",
        "bend 0x1",
        "times [1]",
    ] {
        assert!(spoken::parse(said).is_err(), "{said}");
    }
}

#[test]
fn a_mark_in_the_middle_goes_and_everything_else_stays() {
    let before = "\
# mine
format = 1   # one

[[mark]]   # on Monday
line = 1
times = 3 # three

# about the second line
[[mark]]
line = 2
tempo = \"slower\"
# and this too
loudness = \"softer\"

[[mark]]
line = 3
breath_after = [2, 4]
";
    let pencil = read(before);
    let mark = |kind: &str| {
        pencil
            .marks
            .iter()
            .find(|m| m.change.kind() == kind)
            .unwrap()
    };
    let without = |kind| edit::erase(before, mark(kind)).unwrap();
    assert_eq!(
        without("times"),
        before.replace(
            "\n[[mark]]   # on Monday\nline = 1\ntimes = 3 # three\n",
            ""
        )
    );
    assert_eq!(without("tempo"), before.replace("tempo = \"slower\"\n", ""));
    assert_eq!(without("breath_after"), before.replace("[2, 4]", "[4]"));
}

#[test]
fn marks_in_one_row_are_left_to_their_writer() {
    let inline = "format = 1\nmark = [{ line = 1, times = 3 }]\n";
    assert_eq!(edit::erase(inline, &read(inline).marks[0]), None);
}

#[test]
fn dates_stand_with_their_marks() {
    let row = spoken::parse("slower").unwrap();
    let text = edit::add(&text(&[]), Some("\"Away\""), &row, Some("2026-11-25"));
    assert!(
        text.ends_with("\n\n[[mark]]\nline = \"Away\"\ndate = 2026-11-25\ntempo = \"slower\"\n")
    );
}
