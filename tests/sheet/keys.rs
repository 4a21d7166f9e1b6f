//! Key signatures: at every system, before the meter, where a pass changes it; and the accidentals that follow from it.

use super::{glyphs, of_kind, unroll};
use leadpipe::routine::{self, Routine};
use leadpipe::score::{self, Take};
use leadpipe::sheet::page::{DrawnKind, Page, Role};
use leadpipe::sheet::{self, SheetOptions, SheetPasses};

fn routine_in(key: &str, line: &str) -> Routine {
    let text = format!(
        "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G4\"\n\
         reach = \"C6\"\ntempo = 72\n{key}\n[[line]]\nname = \"L\"\n{line}\n"
    );
    routine::read(&text).unwrap_or_else(|faults| panic!("{text}\n{faults:#?}"))
}

fn strip(routine: &Routine, width: f64) -> Page {
    let options = SheetOptions {
        passes: SheetPasses::All,
        ..SheetOptions::default()
    };
    sheet::strip(&unroll(routine), 0, &options, None, width)
}

fn described(page: &Page) -> Vec<&str> {
    let figures = page.blocks.iter().filter_map(|block| match &block.role {
        Role::Figure(words) => Some(words.as_str()),
        _ => None,
    });
    figures.collect()
}

#[test]
fn a_key_is_printed_and_its_notes_have_no_accidentals() {
    let routine = routine_in(
        "key = \"E-flat major\"",
        "notes = \"Eb4:half Bb4:half | Ab4:half A4:half\"",
    );
    let page = strip(&routine, 500.0);
    assert_eq!(glyphs(&page, DrawnKind::Key), ["accidentalFlat"; 3]);
    assert_eq!(glyphs(&page, DrawnKind::Accidental), ["accidentalNatural"]);
    assert!(
        described(&page)[0].contains("E flat major; 4 4 time"),
        "{:?}",
        described(&page)
    );
}

#[test]
fn a_line_has_a_key_of_its_own() {
    let routine = routine_in(
        "key = \"E-flat major\"",
        "key = \"D major\"\nnotes = \"D4:half F#4:half | F4:half F#4:half\"",
    );
    let page = strip(&routine, 500.0);
    assert_eq!(glyphs(&page, DrawnKind::Key), ["accidentalSharp"; 2]);
    assert_eq!(
        glyphs(&page, DrawnKind::Accidental),
        ["accidentalNatural", "accidentalSharp"]
    );
}

#[test]
fn a_routine_without_a_key_has_no_signature() {
    let page = strip(&routine_in("", "notes = \"Eb4:half F#4:half\""), 500.0);
    assert!(of_kind(&page, DrawnKind::Key).is_empty());
    assert_eq!(
        glyphs(&page, DrawnKind::Accidental),
        ["accidentalFlat", "accidentalSharp"]
    );
}

/// The signs of a signature from left to right, as steps of the staff above its bottom line: in treble clef, F C G D A
/// E B and B E A D G C F (common practice).
#[test]
fn signs_stand_where_every_player_looks_for_them() {
    for (key, right) in [
        ("C-sharp major", [8, 5, 9, 6, 3, 7, 4]),
        ("C-flat major", [4, 7, 3, 6, 2, 5, 1]),
    ] {
        let page = strip(
            &routine_in(&format!("key = \"{key}\""), "notes = \"G4:whole\""),
            500.0,
        );
        let staff = of_kind(&page, DrawnKind::StaffLine);
        let (top, bottom) = (staff[0].bounds(), staff[4].bounds());
        let space = (bottom.top - top.top) / 4.0;
        let mut signs: Vec<(f64, f64)> = of_kind(&page, DrawnKind::Key)
            .into_iter()
            .map(|mark| match &mark.shape {
                sheet::page::Shape::Glyph { at, .. } => *at,
                _ => panic!("a signature is made of glyphs"),
            })
            .collect();
        signs.sort_by(|a, b| a.0.total_cmp(&b.0));
        let low = (bottom.top + bottom.bottom) / 2.0;
        let steps: Vec<i32> = signs
            .iter()
            .map(|(_, y)| (2.0 * (low - y) / space).round() as i32)
            .collect();
        assert_eq!(steps, right, "{key}");
    }
}

#[test]
fn a_walk_changes_the_signature_with_each_pass() {
    let routine = routine_in(
        "key = \"F major\"",
        "notes = \"F4:half A4:half | F4:whole\"\nhalf_steps = [0, -1, -5]\nbetween = \"none\"",
    );
    let page = strip(&routine, 2000.0);
    assert_eq!(page.blocks.len(), 1);
    let mut right = vec!["accidentalFlat"];
    right.extend(["accidentalSharp"; 4]);
    // C major shows that E major is over.
    right.extend(["accidentalNatural"; 4]);
    assert_eq!(glyphs(&page, DrawnKind::Key), right);
    assert!(of_kind(&page, DrawnKind::Accidental).is_empty());
    let words = described(&page)[0];
    assert!(words.contains("1 half step down, E major"), "{words}");
    assert!(words.contains("C major"), "{words}");
}

#[test]
fn every_system_begins_with_the_signature_of_its_pass() {
    let routine = routine_in(
        "key = \"E-flat major\"",
        "notes = \"Eb4:quarter F4:quarter G4:quarter Ab4:quarter | Bb4:whole\"\nhalf_steps = [0, -1, -2]",
    );
    let page = strip(&routine, 170.0);
    let signs: Vec<usize> = page
        .blocks
        .iter()
        .map(|block| {
            block
                .marks
                .iter()
                .filter(|m| m.kind == DrawnKind::Key)
                .count()
        })
        .collect();
    let firsts: Vec<usize> = page
        .blocks
        .iter()
        .map(|block| block.notes[0].pass)
        .collect();
    let right: Vec<usize> = firsts.iter().map(|pass| [3, 2, 5][*pass]).collect();
    assert_eq!(signs, right);
    assert!(signs.len() >= 3);
}

#[test]
fn a_key_for_the_take_moves_the_signature() {
    let routine = routine_in(
        "key = \"G minor\"",
        "notes = \"G4:half F#4:half | G4:whole\"",
    );
    let take = Take {
        key: -1,
        ..Take::default()
    };
    let score = score::unroll(&routine, &take).unwrap();
    let page = sheet::strip(&score, 0, &SheetOptions::default(), None, 500.0);
    assert_eq!(glyphs(&page, DrawnKind::Key), ["accidentalSharp"; 3]);
    // The raised seventh of F-sharp minor.
    assert_eq!(glyphs(&page, DrawnKind::Accidental), ["accidentalSharp"]);
}

#[test]
fn a_double_sharp_is_drawn_where_a_key_needs_it() {
    let routine = routine_in(
        "key = \"A minor\"",
        "notes = \"A4:half G#4:half | A4:whole\"\nhalf_steps = -1",
    );
    let page = strip(&routine, 500.0);
    assert_eq!(glyphs(&page, DrawnKind::Key), ["accidentalSharp"; 5]);
    assert_eq!(
        glyphs(&page, DrawnKind::Accidental),
        ["accidentalDoubleSharp"]
    );
    assert!(described(&page)[0].contains("F double sharp 4"));
}
