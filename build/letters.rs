//! The text font: widths and glyph numbers of its letters as a Rust table. The font itself goes beside
//! the table, for the back ends that embed it.

use std::fmt::Write;
use ttf_parser::{Face, GlyphId};

/// The faces that a sheet is set in, by the names inside the fonts.
const FACES: [(&str, &str); 3] = [
    ("regular", "LibertinusSerif-Regular"),
    ("italic", "LibertinusSerif-Italic"),
    ("bold", "LibertinusSerif-Bold"),
];

/// Letters, marks, punctuation and arrows of the scripts the font has.
const LAST_LETTER: u32 = 0x2bff;

/// The tables as Rust source, and each face's file under its name.
pub fn tables(
    fonts: impl Iterator<Item = &'static [u8]>,
) -> (String, Vec<(String, &'static [u8])>) {
    let fonts: Vec<(&[u8], Face<'_>)> = fonts
        .filter_map(|data| Face::parse(data, 0).ok().map(|face| (data, face)))
        .collect();
    let mut source = String::new();
    let mut files = Vec::new();
    for (name, wanted) in FACES {
        let (data, face) = fonts
            .iter()
            .find(|(_, face)| postscript_name(face).as_deref() == Some(wanted))
            .unwrap_or_else(|| panic!("{wanted} is among the fonts"));
        assert_eq!(
            face.units_per_em(),
            1000,
            "widths are in thousandths of the size"
        );
        assert!(
            face.tables().cff.is_some(),
            "outlines are cubic (src/print/png.rs)"
        );
        let mut rows = String::new();
        let mut count = 0;
        for (code, glyph) in letters(face) {
            let advance = face.glyph_hor_advance(glyph).unwrap_or(0);
            write!(rows, "({code}, {}, {advance}),", glyph.0).unwrap();
            count += 1;
        }
        let upper = name.to_uppercase();
        writeln!(
            source,
            "static {upper}: [(u32, u16, u16); {count}] = [{rows}];"
        )
        .unwrap();
        files.push((format!("{name}.otf"), *data));
    }
    (source, files)
}

fn letters<'f>(face: &'f Face<'_>) -> impl Iterator<Item = (u32, GlyphId)> + 'f {
    (0x20..=LAST_LETTER).filter_map(|code| {
        let letter = char::from_u32(code)?;
        Some((code, face.glyph_index(letter)?))
    })
}

fn postscript_name(face: &Face<'_>) -> Option<String> {
    let names = face.names().into_iter();
    names
        .filter(|n| n.name_id == ttf_parser::name_id::POST_SCRIPT_NAME)
        .find_map(|n| n.to_string())
}
