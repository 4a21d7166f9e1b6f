//! Dynamics, breaths and bar lines between the notes.

use leadpipe::edit::{Edit, apply, signs_in, undo};
use leadpipe::presets::ALL;
use leadpipe::routine;

const NOTES: &str = "p slur( C4:half D4 ) breath | E4:quarter tie:half triplet( F4:eighth E4 D4 )";

fn text(notes: &str) -> String {
    format!("[[line]]\nname = \"One\"\nnotes = \"{notes}\"\n")
}

/// Holds what the notes are after an edit of them, and that it can be taken back.
fn becomes(edit: &Edit, notes: &str) {
    let before = text(NOTES);
    let edited = apply(&before, edit).expect("it can be done");
    assert_eq!(edited.text, text(notes), "{edit:?}");
    assert_eq!(undo(&edited.text, &edited.inverse), before);
}

#[test]
fn a_dynamic_stands_before_what_begins_there() {
    let dynamic = |at, dynamic: Option<&str>| Edit::Dynamic {
        line: 0,
        at,
        dynamic: dynamic.map(str::to_owned),
    };
    becomes(&dynamic(0, Some("mf")), &NOTES.replace("p slur", "mf slur"));
    becomes(&dynamic(0, None), &NOTES.replace("p slur", "slur"));
    becomes(&dynamic(1, Some("f")), &NOTES.replace("D4 ) b", "f D4 ) b"));
    becomes(
        &dynamic(4, Some("dim")),
        &NOTES.replace("triplet(", "dim triplet("),
    );
    becomes(&dynamic(2, None), NOTES);
    let refused = apply(&text(NOTES), &dynamic(0, Some("loud"))).expect_err("no dynamic");
    assert!(refused.hint.expect("it has one").contains("mf"));
}

#[test]
fn breaths_and_bar_lines_stand_behind_what_ends_there() {
    let breath = |at, on| Edit::Breath { line: 0, at, on };
    let bar = |at, on| Edit::Bar { line: 0, at, on };
    becomes(&breath(1, true), NOTES);
    becomes(&breath(1, false), &NOTES.replace(" breath", ""));
    becomes(
        &breath(2, true),
        &NOTES.replace("tie:half", "tie:half breath"),
    );
    becomes(&breath(6, true), &format!("{NOTES} breath"));
    becomes(&bar(1, false), &NOTES.replace(" |", ""));
    becomes(&bar(1, true), NOTES);
    becomes(&bar(3, true), &NOTES.replace("tie:half", "tie:half |"));
    assert!(apply(&text(NOTES), &breath(9, true)).is_err());
}

/// Wherever they are written in a routine that can be read, it can be read again, or they are refused with a hint in the
/// reader's words.
#[test]
fn the_reader_takes_every_dynamic_and_breath() {
    let (mut done, mut refused) = (0, 0);
    for preset in ALL.iter().step_by(9) {
        let lines = routine::read(preset.text).expect("a test reads it").lines;
        for line in 0..lines.len() {
            for sign in signs_in(preset.text, line).expect("it has notes") {
                let at = sign.at;
                let edits = [Some("mp"), None]
                    .map(|dynamic| Edit::Dynamic {
                        line,
                        at,
                        dynamic: dynamic.map(str::to_owned),
                    })
                    .into_iter()
                    .chain([true, false].map(|on| Edit::Breath { line, at, on }));
                for edit in edits {
                    match apply(preset.text, &edit) {
                        Ok(edited) => {
                            done += 1;
                            let read = routine::read(&edited.text);
                            assert!(read.is_ok(), "{}: {edit:?}: {read:?}", preset.name);
                        }
                        Err(problem) => {
                            refused += 1;
                            assert!(problem.place.is_some(), "{edit:?}: {problem}");
                        }
                    }
                }
            }
        }
    }
    assert!(done > 3 * refused, "{refused} of {done} were refused");
}
