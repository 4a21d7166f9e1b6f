//! Pencil marks: grey and slanted, over a print that stays as it is.

use super::{check_page, routine_of, unroll};
use leadpipe::pencil::{self, Pencil};
use leadpipe::sheet::letters::Face;
use leadpipe::sheet::page::{DrawnKind, DrawnMark, Role, Shape, SheetBlock};
use leadpipe::sheet::{Sheet, SheetOptions, engrave, engrave_pencilled};

const LINES: [&str; 3] = [
    "notes = \"slur( G4:half F#4:half | G4:half ) breath rest:half\"\nhalf_steps = [0, -1]",
    "notes = \"C4:half D4:half | E4:whole\"",
    "notes = \"C4:whole\"",
];

fn pencil(marks: &str) -> Pencil {
    let text = format!("format = 1\nplayer = \"Anna\"\n{marks}");
    let read = pencil::read(&text);
    assert!(read.faults.is_empty(), "{:?}", read.faults);
    read.pencil.expect("it is one")
}

fn sheets(marks: &str) -> (Sheet, Sheet) {
    let routine = routine_of(&LINES);
    let pencil = pencil(marks);
    assert!(pencil::lay(&pencil, &routine).faults.is_empty());
    let score = unroll(&routine);
    let options = SheetOptions::default();
    let with = engrave_pencilled(&score, &options, &pencil);
    with.pages.iter().for_each(check_page);
    (engrave(&score, &options), with)
}

fn in_pencil(sheet: &Sheet) -> Vec<&DrawnMark> {
    let marks = sheet
        .pages
        .iter()
        .flat_map(|p| &p.blocks)
        .flat_map(|b| &b.marks);
    marks.filter(|m| m.kind == DrawnKind::Pencil).collect()
}

fn words(sheet: &Sheet) -> Vec<String> {
    let of = |mark: &&DrawnMark| match &mark.shape {
        Shape::Text { text, .. } => Some(text.clone()),
        _ => None,
    };
    in_pencil(sheet).iter().filter_map(of).collect()
}

/// What is printed of the music: every mark that is not pencil, from the first one of its block.
fn print(sheet: &Sheet) -> Vec<Vec<DrawnMark>> {
    let music = sheet
        .pages
        .iter()
        .flat_map(|p| &p.blocks)
        .filter(|b: &&SheetBlock| b.line.is_some() && matches!(b.role, Role::Figure(_)));
    music
        .map(|block| {
            let printed: Vec<&DrawnMark> = block
                .marks
                .iter()
                .filter(|m| m.kind != DrawnKind::Pencil)
                .collect();
            let top = printed[0].bounds().top;
            // To a thousandth of a point: the block may have moved down the page.
            let placed = printed
                .into_iter()
                .map(|m| m.clone().moved(1000.0, 0.0, -top * 1000.0));
            placed.map(rounded).collect()
        })
        .collect()
}

fn rounded(mark: DrawnMark) -> DrawnMark {
    let round = |(x, y): (f64, f64)| (x.round(), y.round());
    let shape = match mark.shape {
        Shape::Glyph { glyph, at, space } => Shape::Glyph {
            glyph,
            at: round(at),
            space,
        },
        Shape::Line { from, to, width } => Shape::Line {
            from: round(from),
            to: round(to),
            width,
        },
        Shape::Text {
            at,
            size,
            face,
            text,
        } => Shape::Text {
            at: round(at),
            size,
            face,
            text,
        },
        Shape::Area(steps) => Shape::Area(
            steps
                .into_iter()
                .take(1)
                .map(|s| match s {
                    leadpipe::sheet::page::OutlineStep::Move(p) => {
                        leadpipe::sheet::page::OutlineStep::Move(round(p))
                    }
                    other => other,
                })
                .collect(),
        ),
    };
    DrawnMark { shape, ..mark }
}

const MARKS: &str = "[[mark]]\nline = 1\ntempo = \"slower\"\nbreath_after = 2\n[[mark]]\nline = 1\nbend = 2\n\
    [[mark]]\nline = 2\nleave_out = true\n[[mark]]\nline = 3\nwords = \"Like a bell.\"\n\
    [[mark]]\nrest = \"longer\"\n";

#[test]
fn the_print_stays_as_it_is() {
    let (plain, with) = sheets(MARKS);
    assert!(in_pencil(&plain).is_empty());
    assert_eq!(print(&plain), print(&with));
}

#[test]
fn marks_are_grey_and_slanted_and_stand_where_they_belong() {
    let (_, with) = sheets(MARKS);
    for mark in in_pencil(&with) {
        assert!(mark.shade > 0x50, "{mark:?}");
        if let Shape::Text { face, .. } = &mark.shape {
            assert_eq!(*face, Face::Italic);
        }
    }
    let said = words(&with);
    assert_eq!(
        said,
        [
            "With the pencil marks of Anna; in every line: rest after it longer (125 %)",
            "slower (85 % of the tempo)",
            "bend",
            "bend",
            "leave it out",
            "“Like a bell.”",
        ]
    );
    // A comma in each of the two passes, and two strokes through the line that is left out.
    let glyphs = in_pencil(&with)
        .iter()
        .filter(|m| matches!(m.shape, Shape::Glyph { .. }))
        .count();
    let strokes = in_pencil(&with)
        .iter()
        .filter(|m| matches!(m.shape, Shape::Line { .. }))
        .count();
    assert_eq!((glyphs, strokes), (2, 2));
}
