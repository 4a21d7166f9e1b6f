//! One line for each thing that is drawn, as it was looked at and found right. After a change that is
//! meant, look at the drawings again: `LEADPIPE_LOOKED=1 cargo test --test sheet` writes them anew.

use super::{routine_of, unroll};
use leadpipe::sheet::{SheetOptions, strip, svg};
use std::fs;
use std::path::PathBuf;

const LINES: &[(&str, &str)] = &[
    (
        "accidentals",
        "notes = \"F#4:quarter F#4:quarter F4:quarter Bb4:quarter | B4:half F4:half\"",
    ),
    (
        "air",
        "on = \"air\"\nnotes = \"in:half out:half | hold:half out:half | tie:whole\"",
    ),
    (
        "articulations",
        "notes = \"C4:quarter(staccato) A4:quarter(legato) C5:quarter(accent) G5:quarter(staccato)\"",
    ),
    (
        "beams",
        "notes = \"C4:eighth E4:eighth G4:sixteenth A4:sixteenth B4:sixteenth C5:sixteenth D5:eighth. B4:sixteenth rest:eighth G4:eighth\"",
    ),
    (
        "beams-in-six",
        "meter = \"6/8\"\neach = \"eighth\"\nnotes = \"C4 D4 E4 G4:sixteenth F4:sixteenth E4 D4\"",
    ),
    (
        "bend",
        "notes = \"slur( G4:half F#4:half | G4:half ) rest:half | slur( G4:half F#4:half(bend) | G4:half ) rest:half\"",
    ),
    (
        "breath",
        "notes = \"C4:half breath D4:half breath | slur( E4:half F4:half ) breath\"",
    ),
    (
        "dynamics",
        "notes = \"p cresc C4:half mf dim tie:half | p tie:half rest:half\"",
    ),
    (
        "ledger-lines",
        "notes = \"F#3:quarter A3:quarter C4:quarter D4:quarter | G5:quarter A5:quarter C6:half\"",
    ),
    (
        "passes",
        "open = \"slur( C4:half G4:half )\"\ntubes = [\"0\", \"2\", \"1\", \"1-2\", \"1-3\"]\narticulation = [\"slurred\", \"tongued\"]",
    ),
    (
        "rests",
        "notes = \"C4:eighth rest:eighth rest:quarter rest:half | rest:whole | rest:quarter. C4:eighth rest:half\"",
    ),
    (
        "slur-over-a-peak",
        "notes = \"slur( C4:quarter G4:quarter C6:quarter C5:quarter | C4:whole )\"",
    ),
    (
        "ties",
        "notes = \"C4:half. D4:half. tie:eighth E5:quarter.\"",
    ),
    (
        "triplets",
        "notes = \"triplet( C4:eighth D4:eighth E4:eighth ) triplet( C5:quarter rest:quarter E5:quarter ) C4:quarter\"",
    ),
    (
        "two-systems",
        "notes = \"slur( C4:quarter D4:quarter E4:quarter F4:quarter | G4:quarter A4:quarter B4:quarter C5:quarter | C5:quarter B4:quarter A4:quarter G4:quarter | F4:quarter E4:quarter D4:quarter C4:quarter )\"",
    ),
];

/// A drawing without the outlines of its glyphs, which are the font's.
fn drawing(line: &str) -> String {
    let page = strip(
        &unroll(&routine_of(&[line])),
        0,
        &SheetOptions::default(),
        None,
        340.0,
    );
    let whole = svg::page(&page);
    let (head, rest) = whole
        .split_once("<defs>")
        .expect("glyphs are defined first");
    let (_, body) = rest.split_once("</defs>\n").expect("the definitions end");
    format!("{head}{body}")
}

#[test]
fn lines_are_as_they_were_looked_at() {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/sheet/lines");
    let looked = std::env::var_os("LEADPIPE_LOOKED").is_some();
    let mut changed = vec![];
    for (name, line) in LINES {
        let path = folder.join(format!("{name}.svg"));
        let drawn = drawing(line);
        if looked {
            fs::write(&path, &drawn).expect("the drawing can be kept");
        } else if fs::read_to_string(&path).unwrap_or_default() != drawn {
            changed.push(*name);
        }
    }
    assert!(changed.is_empty(), "changed: {changed:?}");
}
