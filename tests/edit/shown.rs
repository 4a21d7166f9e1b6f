//! Each edit, as the text before and after it.

use crate::{ODD, edited};
use leadpipe::edit::{Distance, Edit, Value, apply};

/// Holds that the edit replaces one piece of the text by another and leaves the rest.
fn replaces(edit: &Edit, before: &str, after: &str) {
    assert_eq!(ODD.matches(before).count(), 1, "{before}");
    assert_eq!(
        edited(ODD, edit).text,
        ODD.replacen(before, after, 1),
        "{edit:?}"
    );
}

fn refused(edit: &Edit) -> String {
    apply(ODD, edit).expect_err("it is refused").to_string()
}

fn set(line: Option<usize>, key: &str, value: Value) -> Edit {
    let key = key.to_owned();
    Edit::Set { line, key, value }
}

fn remove(line: Option<usize>, key: &str) -> Edit {
    let key = key.to_owned();
    Edit::Remove { line, key }
}

fn text(text: &str) -> Value {
    Value::Text(text.to_owned())
}

#[test]
fn entries() {
    replaces(
        &set(None, "tempo", Value::Whole(80)),
        "tempo = 72",
        "tempo = 80",
    );
    replaces(
        &set(None, "title", text("A \"B\"")),
        "\"Odd\"",
        r#""A \"B\"""#,
    );
    replaces(
        &set(None, "purpose", text("air")),
        "key = \"F major\"\n",
        "key = \"F major\"\npurpose = \"air\"\n",
    );
    let walk = Value::List(vec![Value::Whole(0), Value::Whole(-1)]);
    replaces(
        &set(Some(0), "half_steps", walk),
        "# breathe\n",
        "# breathe\nhalf_steps = [0, -1]\n",
    );
    replaces(
        &set(Some(0), "rest", text("none")),
        "\"2 bars\"",
        "\"none\"",
    );
    replaces(
        &remove(Some(0), "rest"),
        "rest = \"2 bars\" # breathe",
        "# breathe",
    );
    replaces(&remove(None, "key"), "key = \"F major\"\n", "");
    assert_eq!(edited(ODD, &remove(Some(1), "say")).text, ODD);
    assert_eq!(
        refused(&remove(None, "tempo")),
        "a routine cannot be without its tempo"
    );
    assert_eq!(
        refused(&set(Some(0), "volume", Value::Whole(1))),
        "a line has no “volume”"
    );
    assert_eq!(
        refused(&set(Some(9), "times", Value::Whole(1))),
        "there is no line 10"
    );
}

#[test]
fn lines() {
    let block = ODD.find("# --- warm").unwrap()..ODD.find("[[line]]\n   name").unwrap();
    let warm = &ODD[block];
    replaces(&Edit::RemoveLine { line: 0 }, warm, "");
    replaces(
        &Edit::DuplicateLine { line: 0 },
        warm,
        &format!("{warm}{warm}"),
    );
    let moved = edited(ODD, &Edit::MoveLine { line: 0, to: 1 });
    assert_eq!(
        moved.text,
        format!("{}\n{warm}", ODD.replacen(warm, "", 1))
            .trim_end()
            .to_owned()
            + "\n"
    );
    assert_eq!(moved.selection.unwrap().line, 1);
    let (name, notes) = ("New".to_owned(), "C4:whole".to_owned());
    replaces(
        &Edit::AddLine { at: 0, name, notes },
        "# --- warm",
        "[[line]]\nname = \"New\"\nnotes = \"C4:whole\"\n\n# --- warm",
    );
    let gone = edited(ODD, &Edit::RemoveLine { line: 1 }).text;
    let last = apply(&gone, &Edit::RemoveLine { line: 0 }).unwrap_err();
    assert_eq!(last.to_string(), "a routine has at least one line");
}

#[test]
fn notes_are_written_and_deleted() {
    let insert = |at, notes: &str| Edit::Insert {
        line: 0,
        at,
        notes: notes.to_owned(),
    };
    // What takes its length over keeps it.
    replaces(&insert(1, "rest:quarter"), "F4 |", "rest:quarter F4:half |");
    replaces(
        &insert(6, "C4:whole"),
        "rest:quarter\"",
        "rest:quarter C4:whole\"",
    );
    let delete = |first, last| Edit::Delete {
        line: 0,
        first,
        last,
    };
    replaces(&delete(0, 0), "G4:half   F4 ", "   F4:half ");
    replaces(&delete(2, 2), "G4:quarter A4", "A4:quarter");
    replaces(&delete(2, 3), "slur( G4:quarter A4 Bb4 )", "Bb4:quarter");
    assert_eq!(
        refused(&delete(0, 5)),
        "a line keeps at least one note or rest"
    );
    assert_eq!(refused(&insert(0, "H4:half")), "“H4:half” is no note");
    assert_eq!(refused(&insert(0, "")), "“” is no note");
}

#[test]
fn pitches_and_lengths() {
    let by = |first, last, by| Edit::Move {
        line: 0,
        first,
        last,
        by,
    };
    // In F major the step above A is B-flat.
    replaces(&by(3, 3, Distance::Steps(1)), "A4 Bb4", "Bb4 Bb4");
    replaces(
        &by(0, 1, Distance::HalfSteps(2)),
        "G4:half   F4 ",
        "A4:half   G4 ",
    );
    replaces(&by(1, 1, Distance::Octaves(-1)), "  F4 ", "  F3 ");
    assert!(refused(&by(1, 1, Distance::Octaves(7))).contains("cannot be moved"));
    let sharp = Edit::Accidental {
        line: 0,
        first: 1,
        last: 1,
        alter: 1,
    };
    replaces(&sharp, "  F4 ", "  F#4 ");
    let length = |first, length: &str| {
        let length = length.to_owned();
        Edit::Length {
            line: 0,
            first,
            last: first,
            length,
        }
    };
    replaces(&length(0, "half."), "G4:half   F4 ", "G4:half.   F4:half ");
    assert_eq!(refused(&length(0, "long")), "“long” is no length");
}

#[test]
fn groups_marks_and_fingerings() {
    let group = |first, last, group: &str| {
        let group = group.to_owned();
        Edit::Group {
            line: 0,
            first,
            last,
            group,
        }
    };
    replaces(
        &group(0, 1, "slur"),
        "G4:half   F4 ",
        "slur( G4:half   F4 ) ",
    );
    replaces(
        &group(2, 4, "triplet"),
        "G4:quarter A4 Bb4 )",
        "triplet( G4:quarter A4 Bb4 ) )",
    );
    assert!(refused(&group(1, 2, "slur")).contains("end outside it"));
    assert!(refused(&group(2, 3, "slur")).contains("already"));
    let at = 3;
    let ungroup = Edit::Ungroup {
        line: 0,
        at,
        group: "slur".to_owned(),
    };
    replaces(&ungroup, "slur( G4:quarter A4 Bb4 )", "G4:quarter A4 Bb4");
    let mark = |line, on| {
        let mark = "accent".to_owned();
        Edit::Mark {
            line,
            first: 0,
            last: 0,
            mark,
            on,
        }
    };
    replaces(&mark(0, true), "G4:half   F4", "G4:half(accent)   F4");
    replaces(&mark(1, false), "[0] (accent)", "[0]");
    let finger = |line, fingering: Option<&str>| {
        let fingering = fingering.map(str::to_owned);
        Edit::Finger {
            line,
            at: 0,
            fingering,
        }
    };
    replaces(&finger(0, Some("1-3")), "G4:half   F4", "G4:half[1-3]   F4");
    replaces(&finger(1, Some("1-3")), "[0]", "[1-3]");
    replaces(&finger(1, None), "quarter [0]", "quarter");
}
