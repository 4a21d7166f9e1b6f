//! Walks through half steps and tubes: which passes are written, and how the others are said.

use super::{of_kind, routine_of, texts, unroll};
use leadpipe::routine;
use leadpipe::sheet::page::{DrawnKind, Page};
use leadpipe::sheet::{SheetFingerings, SheetOptions, SheetPasses, strip};

fn strip_with(line: &str, passes: SheetPasses, fingerings: SheetFingerings) -> Page {
    let options = SheetOptions {
        passes,
        fingerings,
        ..SheetOptions::default()
    };
    strip(&unroll(&routine_of(&[line])), 0, &options, None, 900.0)
}

fn said(line: &str) -> String {
    let page = strip_with(line, SheetPasses::ByLevel, SheetFingerings::ByLevel);
    texts(&page, DrawnKind::Words).join(" ")
}

#[test]
fn a_pass_with_a_new_fingering_is_written_and_the_others_are_listed_by_their_first_notes() {
    let steps =
        "notes = \"C5:half B4:half | C5:whole\"\nhalf_steps = [0, -1, -2, -3, -4, -5, -6, -7, -8]";
    assert_eq!(
        said(steps),
        "1 half step down then 2 half steps down from Bb4 (1); 3 half steps down \
         then 4 half steps down from Ab4 (2-3); 5 half steps down \
         then 6 and 7 half steps down from Gb4 (2) and F4 (1); last 8 half steps down"
    );
    // With no fingerings to read, the ends are enough; a long walk is said by its end.
    let page = strip_with(steps, SheetPasses::Ends, SheetFingerings::None);
    let words = texts(&page, DrawnKind::Words).join(" ");
    assert!(
        words.starts_with(
            "then down to the seventh half step from B4 (2), Bb4 (1), A4 (1-2), Ab4 (2-3),"
        ),
        "{words}"
    );
    assert!(
        words.ends_with("Gb4 (2) and F4 (1); last 8 half steps down"),
        "{words}"
    );
}

#[test]
fn two_equal_passes_have_the_others_between_them() {
    let tubes = "open = \"C4:half G4:half\"\ntubes = [\"0\", \"2\", \"1\", \"1-2\", \"0\"]";
    assert_eq!(
        said(tubes),
        "on the open horn then on 2 from B3, on 1 from Bb3 and on 1-2 from A3; last on the open horn"
    );
    // On the mouthpiece there is nothing to finger.
    let buzz = "on = \"mouthpiece\"\nnotes = \"C4:half D4:half\"\nhalf_steps = [0, 1, 2, 3, 4]";
    assert_eq!(
        said(buzz),
        "mouthpiece alone then up to the third half step from Db4, D4 and Eb4; last 4 half steps up"
    );
}

#[test]
fn players_of_the_first_level_have_every_pass_written_out() {
    let text = |top: &str| {
        format!(
            "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"{top}\"\ntempo = 72\n\
             [[line]]\nname = \"L\"\nopen = \"C4:half G4:half\"\ntubes = [\"1-2\", \"2-3\", \"1-3\", \"1-2-3\", \"1-2\"]\n"
        )
    };
    let heads = |top: &str, passes| {
        let routine = routine::read(&text(top)).unwrap();
        let options = SheetOptions {
            passes,
            ..SheetOptions::default()
        };
        let page = strip(&unroll(&routine), 0, &options, None, 900.0);
        of_kind(&page, DrawnKind::Head).len()
    };
    assert_eq!(heads("C4", SheetPasses::ByLevel), 10);
    assert_eq!(heads("C4", SheetPasses::Ends), 4);
    assert_eq!(heads("G4", SheetPasses::ByLevel), 4);
    assert_eq!(heads("G4", SheetPasses::All), 10);
}
