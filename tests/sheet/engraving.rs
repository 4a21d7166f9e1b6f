//! Slurs and brackets, beams, hairpins, pencil breaths and held breaths, as engravers draw them.

use super::{along, of_kind, routine_of, unroll};
use leadpipe::pencil;
use leadpipe::sheet::page::{DrawnKind, DrawnMark, OutlineStep, Page, Shape};
use leadpipe::sheet::sizes::SPACE;
use leadpipe::sheet::{SheetOptions, strip};

fn strip_of(line: &str) -> Page {
    let routine = routine_of(&[line]);
    strip(&unroll(&routine), 0, &SheetOptions::default(), None, 500.0)
}

#[test]
fn slurs_are_outside_of_brackets() {
    for notes in [
        "slur( triplet( C4:eighth D4:eighth E4:eighth ) triplet( F4:eighth G4:eighth A4:eighth ) triplet( B4:eighth C5:eighth D5:eighth ) C5:quarter )",
        "slur( triplet( D5:quarter C5:quarter B4:quarter ) triplet( C5:quarter D5:quarter E5:quarter ) )",
        "slur( C4:quarter triplet( E4:eighth F4:eighth G4:eighth ) A4:quarter triplet( C5:eighth B4:eighth A4:eighth ) )",
    ] {
        let page = strip_of(&format!("notes = \"{notes}\""));
        let slurs = of_kind(&page, DrawnKind::Slur);
        assert_eq!(slurs.len(), 1);
        let Shape::Area(steps) = &slurs[0].shape else {
            panic!("a slur is an area")
        };
        for bracket in of_kind(&page, DrawnKind::Bracket) {
            let b = bracket.bounds();
            let inside = |(x, y): &(f64, f64)| {
                b.left < *x && *x < b.right && b.top - 0.5 < *y && *y < b.bottom + 0.5
            };
            assert!(!along(steps).iter().any(inside), "{notes}: {b:?}");
        }
    }
}

#[test]
fn brackets_of_a_line_are_at_one_height() {
    let page = strip_of(
        "notes = \"triplet( C4:eighth D4:eighth E4:eighth ) triplet( F4:eighth G4:eighth A4:eighth ) triplet( E4:quarter C4:quarter E4:quarter )\"",
    );
    let threes = of_kind(&page, DrawnKind::Bracket).into_iter();
    let threes: Vec<f64> = threes
        .filter(|m| matches!(m.shape, Shape::Glyph { .. }))
        .map(|m| m.bounds().top)
        .collect();
    assert_eq!(threes.len(), 3);
    assert!(threes.iter().all(|y| *y == threes[0]), "{threes:?}");
}

/// How far each outer beam rises from its left to its right end.
fn rises(page: &Page) -> Vec<f64> {
    let rise = |mark: &&DrawnMark| match &mark.shape {
        Shape::Area(steps) => match steps[..2] {
            [OutlineStep::Move(from), OutlineStep::Line(to)] => to.1 - from.1,
            _ => panic!("a beam has corners"),
        },
        _ => panic!("a beam is an area"),
    };
    of_kind(page, DrawnKind::Beam).iter().map(rise).collect()
}

#[test]
fn beams_of_a_repeated_pattern_are_level() {
    let beams = |notes: &str| {
        rises(&strip_of(&format!(
            "each = \"sixteenth\"\nnotes = \"{notes}\""
        )))
    };
    for notes in ["C4 E4 C4 E4", "G4 F4 G4 F4", "E4:eighth G4:eighth"] {
        let level = beams(notes).iter().all(|rise| rise.abs() < 1e-9);
        assert_eq!(level, !notes.contains("eighth"), "{notes}");
    }
    assert!(beams("C4 D4 E4 F4").iter().all(|rise| *rise < -0.1));
}

#[test]
fn a_short_hairpin_between_two_dynamics_is_seen() {
    for line in [
        "notes = \"p cresc C4:quarter mf D4:quarter dim E4:quarter p F4:quarter\"",
        "notes = \"C4:half. pp cresc D4:quarter | ff E4:whole\"",
        "each = \"eighth\"\nnotes = \"mp C4 p cresc D4 f E4 F4 C4:half\"",
        "notes = \"f C4:half. dim D4:quarter p\"",
    ] {
        let strokes = strip_of(line);
        let strokes = of_kind(&strokes, DrawnKind::Hairpin);
        assert!(strokes.len() >= 2, "{line}");
        for stroke in strokes {
            let b = stroke.bounds();
            assert!(
                b.right - b.left >= 4.99 * SPACE,
                "{line}: {}",
                (b.right - b.left) / SPACE
            );
        }
    }
}

#[test]
fn breaths_in_pencil_are_at_one_height() {
    let line =
        "notes = \"C4:quarter D4:quarter E4:quarter G5:quarter | C4:half A5:half | C4:whole\"";
    let routine = routine_of(&[line]);
    let marks: String = [1, 4, 6]
        .map(|after| format!("[[mark]]\nline = 1\nbreath_after = {after}\n"))
        .concat();
    let read = pencil::read(&format!("format = 1\n{marks}"));
    assert!(read.faults.is_empty(), "{:?}", read.faults);
    let page = strip(
        &unroll(&routine),
        0,
        &SheetOptions::default(),
        read.pencil.as_ref(),
        500.0,
    );
    let breaths: Vec<f64> = of_kind(&page, DrawnKind::Pencil)
        .iter()
        .map(|m| m.bounds().top)
        .collect();
    assert_eq!(breaths.len(), 3);
    assert!(breaths.iter().all(|y| *y == breaths[0]), "{breaths:?}");
}

#[test]
fn a_held_breath_is_tied() {
    let ties = |notes: &str, width: f64| {
        let routine = routine_of(&[&format!("on = \"air\"\nnotes = \"{notes}\"")]);
        let page = strip(&unroll(&routine), 0, &SheetOptions::default(), None, width);
        of_kind(&page, DrawnKind::Tie).len()
    };
    assert_eq!(
        ties(
            "in:whole | tie:half out:half | hold:half out:half | tie:whole",
            500.0
        ),
        2
    );
    assert_eq!(ties("in:whole | out:whole", 500.0), 0);
    // Over the end of a system it is drawn as two halves.
    let long = "in:whole | out:whole | in:whole | out:whole | in:whole | tie:whole | tie:whole | tie:whole | tie:whole | tie:whole";
    assert!(ties(long, 190.0) > 5);
}
