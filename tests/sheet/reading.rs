//! What is read from a stand, 70 cm away: how large it is, and how often it is said.

use super::{built_in, marks, routine_of, texts, unroll};
use leadpipe::sheet::letters::Face;
use leadpipe::sheet::page::{DrawnKind, DrawnMark, Page, Role, Shape, SheetBlock};
use leadpipe::sheet::sizes::SPACE;
use leadpipe::sheet::{SheetFingerings, SheetOptions, engrave, strip};

fn first_page(lines: &[&str]) -> Page {
    engrave(&unroll(&routine_of(lines)), &SheetOptions::default())
        .pages
        .remove(0)
}

#[test]
fn what_is_read_while_playing_is_as_large_as_running_text() {
    for (name, routine) in built_in() {
        let sheet = engrave(&unroll(&routine), &SheetOptions::default());
        for mark in sheet.pages.iter().flat_map(marks) {
            let read = [DrawnKind::Fingering, DrawnKind::Words, DrawnKind::Tempo];
            if let Shape::Text { size, text, .. } = &mark.shape
                && read.contains(&mark.kind)
            {
                assert!((9.5..=10.0).contains(size), "{name}: {text} at {size}");
            }
        }
    }
}

#[test]
fn the_third_slide_is_said_once_a_pass() {
    let slides = |line: &str, fingerings| {
        let options = SheetOptions {
            fingerings,
            ..SheetOptions::default()
        };
        let page = strip(&unroll(&routine_of(&[line])), 0, &options, None, 500.0);
        let words = texts(&page, DrawnKind::Words);
        words
            .iter()
            .filter(|word| *word == "third slide out")
            .count()
    };
    let line = "notes = \"D4:half E4:half | D4:whole | G4:half C#4:half\"";
    assert_eq!(slides(line, SheetFingerings::ByLevel), 1);
    assert_eq!(
        slides(
            &format!("{line}\nhalf_steps = [0, -1]"),
            SheetFingerings::ByLevel
        ),
        2
    );
    assert_eq!(slides(line, SheetFingerings::None), 0);
}

#[test]
fn the_tempo_is_written_where_it_changes() {
    let lines = [
        "notes = \"C4:whole\"",
        "notes = \"D4:whole\"",
        "notes = \"E4:whole\"\ntempo = 80",
        "meter = \"6/8\"\nnotes = \"E4:half.\"\ntempo = 80",
        "notes = \"E4:whole\"",
    ];
    let sheet = engrave(&unroll(&routine_of(&lines)), &SheetOptions::default());
    let pages = sheet.pages.iter();
    let shown: Vec<String> = pages
        .flat_map(|page| texts(page, DrawnKind::Tempo))
        .collect();
    // A click of another length is another tempo.
    assert_eq!(shown, ["= 72", "= 80", "= 80", "= 72"]);
    // A line alone on a screen shows its own.
    let routine = routine_of(&["notes = \"C4:whole\"", "notes = \"D4:whole\""]);
    let alone = strip(&unroll(&routine), 1, &SheetOptions::default(), None, 340.0);
    assert_eq!(texts(&alone, DrawnKind::Tempo), ["= 72"]);
}

/// The left edge of the last text of a row.
fn left(block: &SheetBlock) -> f64 {
    let first = block.marks.iter().skip_while(|m| {
        // The number of a heading hangs out.
        matches!(&m.shape, Shape::Text { text, .. } if text.parse::<u32>().is_ok())
    });
    let mut first = first.map(|m| m.bounds().left);
    first.next().expect("there are words")
}

#[test]
fn the_title_of_a_line_and_its_sentences_share_one_indent() {
    let said = "say = \"So.\"\nnotes = \"C4:whole\"";
    let page = first_page(&[said; 11]);
    let of_lines = page.blocks.iter().filter(|b| b.line.is_some());
    let words = of_lines.filter(|b| matches!(b.role, Role::Heading(_) | Role::Paragraph));
    let lefts: Vec<f64> = words.map(left).collect();
    assert!(lefts.len() > 12);
    assert!(
        lefts.iter().all(|x| (x - lefts[0]).abs() < 1e-6),
        "{lefts:?}"
    );
}

#[test]
fn the_name_of_a_pass_is_not_read_together_with_a_fingering() {
    for (name, routine) in built_in() {
        let sheet = engrave(&unroll(&routine), &SheetOptions::default());
        for block in sheet.pages.iter().flat_map(|p| &p.blocks) {
            let bold = |m: &&DrawnMark| {
                matches!(
                    m.shape,
                    Shape::Text {
                        face: Face::Bold,
                        ..
                    }
                )
            };
            let words = block.marks.iter().filter(|m| m.kind == DrawnKind::Words);
            for word in words.filter(bold) {
                for fingering in block
                    .marks
                    .iter()
                    .filter(|m| m.kind == DrawnKind::Fingering)
                {
                    let (w, f) = (word.bounds(), fingering.bounds());
                    let apart = f.left - w.right > 2.0 * SPACE || f.right < w.left;
                    let rows = f.top >= w.bottom || w.top >= f.bottom;
                    assert!(apart || rows, "{name}: {word:?} {fingering:?}");
                }
            }
        }
    }
}
