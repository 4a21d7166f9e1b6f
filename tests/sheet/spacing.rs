//! Distances: by value, never pressed so far that groups are no longer read at a glance, and clear of bar lines.

use super::{check_page, of_kind, routine_of, unroll};
use leadpipe::sheet::page::{DrawnKind, Page, Shape, SheetBlock};
use leadpipe::sheet::sizes::SPACE;
use leadpipe::sheet::{SheetOptions, engrave, strip};

/// The distance that a length asks for, in staff spaces: 2.1 for a sixteenth, about a third more each time it doubles.
fn asked_for(whole_notes: f64) -> f64 {
    2.1 * 1.36_f64.powf((whole_notes * 16.0).log2())
}

/// Panics where music stands nearer together than 85 % of what its values ask for.
pub fn check_spacing(page: &Page) {
    for block in &page.blocks {
        let whole_rests = whole_rests(block);
        let centred = |x: f64| whole_rests.iter().any(|rest| (rest - x).abs() < 0.5);
        for two in block.moments.windows(2) {
            let (one, next) = (two[0], two[1]);
            // A rest of a whole bar stands in its middle, not at its moment.
            if one.pass != next.pass || centred(one.x) || centred(next.x) {
                continue;
            }
            let length = next.at - one.at;
            let length = *length.numer() as f64 / *length.denom() as f64;
            // Moments are middles of heads, which are up to 0.65 spaces from their left edges.
            let least = 0.85 * asked_for(length) - 0.7;
            let there = (next.x - one.x) / SPACE;
            assert!(there >= least, "{there} < {least}: {one:?} {next:?}");
        }
    }
}

fn whole_rests(block: &SheetBlock) -> Vec<f64> {
    let rests = block.marks.iter().filter(|m| m.kind == DrawnKind::Rest);
    let whole = rests
        .filter(|m| matches!(m.shape, Shape::Glyph { glyph, .. } if glyph.name() == "restWhole"));
    whole
        .map(|m| (m.bounds().left + m.bounds().right) / 2.0)
        .collect()
}

/// Bars of each system: pieces between bar lines.
fn systems(page: &Page) -> Vec<usize> {
    let lines = |block: &SheetBlock| {
        let mut xs: Vec<f64> = block
            .marks
            .iter()
            .filter(|m| m.kind == DrawnKind::BarLine)
            .map(|m| m.bounds().left)
            .collect();
        xs.sort_by(f64::total_cmp);
        // The two strokes of a double bar line are one.
        xs.dedup_by(|b, a| *b - *a < 1.5 * SPACE);
        xs.len()
    };
    let music = page.blocks.iter().filter(|b| !b.moments.is_empty());
    music.map(lines).collect()
}

#[test]
fn seven_bars_of_sixteenths_do_not_stand_in_one_system() {
    let bar = "C4 D4 E4 F4 G4 A4 B4 C5 B4 A4 G4 F4 E4:eighth D4 C#4";
    let line = format!("each = \"sixteenth\"\nnotes = \"{}\"", [bar; 7].join(" | "));
    let page = strip(
        &unroll(&routine_of(&[&line])),
        0,
        &SheetOptions::default(),
        None,
        523.0,
    );
    check_spacing(&page);
    check_page(&page);
    let systems = systems(&page);
    assert_eq!(systems.iter().sum::<usize>(), 7);
    assert!(systems.iter().all(|bars| *bars <= 3), "{systems:?}");
}

#[test]
fn twelve_bars_of_two_notes_are_two_systems() {
    let line = "notes = \"slur( G4:half F#4:half | G4:half ) rest:half | slur( G4:half F#4:half(bend) | G4:half ) rest:half\"\n\
                half_steps = [0, -1, -2]";
    let sheet = engrave(&unroll(&routine_of(&[line])), &SheetOptions::default());
    check_spacing(&sheet.pages[0]);
    // They break between passes.
    assert_eq!(systems(&sheet.pages[0]), [8, 4]);
}

#[test]
fn the_final_bar_line_stands_clear_of_the_last_note_of_a_full_system() {
    for count in 4..14 {
        let notes = vec!["C4:quarter D4:quarter E4:quarter G#4:quarter"; count].join(" | ");
        let line = format!("notes = \"{notes}\"");
        for width in [340.0, 400.0, 460.0, 523.0] {
            let page = strip(
                &unroll(&routine_of(&[&line])),
                0,
                &SheetOptions::default(),
                None,
                width,
            );
            check_page(&page);
        }
    }
}

#[test]
fn rests_stand_clear_of_flags() {
    let line = "each = \"sixteenth\"\nnotes = \"G4 rest G4 rest F4 rest E4 rest G4 rest F4 rest E4 rest:eighth. | C5:eighth rest:eighth D4:eighth. rest E4:eighth rest:eighth C4:eighth rest:eighth\"";
    let page = strip(
        &unroll(&routine_of(&[line])),
        0,
        &SheetOptions::default(),
        None,
        340.0,
    );
    let flags = of_kind(&page, DrawnKind::Flag);
    assert!(flags.len() > 8);
    for flag in flags {
        for rest in of_kind(&page, DrawnKind::Rest) {
            assert!(
                !flag.bounds().overlaps(&rest.bounds(), 0.0),
                "{flag:?} {rest:?}"
            );
        }
    }
}
