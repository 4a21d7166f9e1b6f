//! Outlines, boxes and anchors of the few dozen music glyphs that a sheet needs, picked from a SMuFL font
//! into a Rust table.

use std::fmt::Write;

/// SMuFL names (W3C Music Notation Community Group), grouped as in its tables.
const WANTED: &[&str] = &[
    "gClef",
    "fClef",
    "unpitchedPercussionClef1",
    "timeSig0",
    "timeSig1",
    "timeSig2",
    "timeSig3",
    "timeSig4",
    "timeSig5",
    "timeSig6",
    "timeSig7",
    "timeSig8",
    "timeSig9",
    "noteheadWhole",
    "noteheadHalf",
    "noteheadBlack",
    "noteheadSlashWhiteWhole",
    "noteheadSlashWhiteHalf",
    "noteheadSlashHorizontalEnds",
    "augmentationDot",
    "flag8thUp",
    "flag8thDown",
    "flag16thUp",
    "flag16thDown",
    "flag32ndUp",
    "flag32ndDown",
    "flag64thUp",
    "flag64thDown",
    "accidentalFlat",
    "accidentalNatural",
    "accidentalSharp",
    "accidentalDoubleSharp",
    "accidentalDoubleFlat",
    "articAccentAbove",
    "articAccentBelow",
    "articStaccatoAbove",
    "articStaccatoBelow",
    "articTenutoAbove",
    "articTenutoBelow",
    "breathMarkComma",
    "dynamicPP",
    "dynamicPiano",
    "dynamicMP",
    "dynamicMF",
    "dynamicForte",
    "dynamicFF",
    "restWhole",
    "restHalf",
    "restQuarter",
    "rest8th",
    "rest16th",
    "rest32nd",
    "rest64th",
    "tuplet3",
    "metNoteHalfUp",
    "metNoteQuarterUp",
    "metNote8thUp",
    "metAugmentationDot",
];

/// The table as Rust source, from the font's list of glyphs and a way to one glyph's file.
pub fn table(list: &str, file: impl Fn(&str) -> String) -> String {
    let list = roxmltree::Document::parse(list).expect("the list of glyphs is XML");
    let mut variants = String::new();
    let mut rows = String::new();
    for name in WANTED {
        let entry = list
            .descendants()
            .find(|n| n.attribute("n") == Some(name))
            .unwrap_or_else(|| panic!("the font has no {name}"));
        let number = |key: &str| -> f64 {
            let text = entry
                .attribute(key)
                .unwrap_or_else(|| panic!("{name} has no {key}"));
            text.parse()
                .unwrap_or_else(|_| panic!("{key} of {name} is a number"))
        };
        let code = entry.attribute("c").expect("every glyph has a code");
        let (x, y, width, height) = (number("x"), number("y"), number("w"), number("h"));
        let mut anchors = String::new();
        for anchor in entry.children().filter(|n| n.has_tag_name("a")) {
            let value = |key| {
                anchor
                    .attribute(key)
                    .expect("anchors have a name and a place")
            };
            let float = |key| value(key).parse::<f64>().expect("places are numbers");
            write!(
                anchors,
                "({:?}, {:?}, {:?}),",
                value("n"),
                float("x"),
                float("y")
            )
            .unwrap();
        }
        let text = file(code);
        let drawing = roxmltree::Document::parse(&text).expect("a glyph is XML");
        let path = drawing
            .descendants()
            .find_map(|n| n.attribute("d"))
            .unwrap_or_else(|| panic!("{name} has an outline"));
        let mut variant = (*name).to_owned();
        variant[..1].make_ascii_uppercase();
        writeln!(
            variants,
            "    /// SMuFL `{name}`, U+{code}.\n    {variant},"
        )
        .unwrap();
        writeln!(
            rows,
            "Outline {{ name: {name:?}, advance: {:?}, bounds: [{:?}, {:?}, {:?}, {:?}], \
             anchors: &[{anchors}], path: &[{}] }},",
            number("h-a-x"),
            x,
            y,
            x + width,
            y + height,
            steps(path, name)
        )
        .unwrap();
    }
    let count = WANTED.len();
    format!(
        "/// A music glyph.\n#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]\npub enum Glyph {{\n{variants}}}\n\
         static OUTLINES: [Outline; {count}] = [\n{rows}];\n"
    )
}

/// The steps of an SVG path, absolute, as Rust source.
fn steps(path: &str, name: &str) -> String {
    let mut spaced = String::new();
    for c in path.chars() {
        match c {
            '-' => spaced.push_str(" -"),
            ',' => spaced.push(' '),
            c if c.is_ascii_alphabetic() => {
                spaced.push(' ');
                spaced.push(c);
                spaced.push(' ');
            }
            c => spaced.push(c),
        }
    }
    let mut words = spaced.split_whitespace().peekable();
    let (mut x, mut y) = (0.0_f64, 0.0_f64);
    let mut start = (0.0, 0.0);
    let mut handle = (0.0, 0.0);
    let mut out = String::new();
    let mut command = ' ';
    while let Some(word) = words.peek() {
        if let Some(c) = word.chars().next().filter(char::is_ascii_alphabetic) {
            command = c;
            words.next();
        }
        let mut next = || -> f64 {
            let word = words
                .next()
                .unwrap_or_else(|| panic!("{name}: a path ends early"));
            word.parse()
                .unwrap_or_else(|_| panic!("{name}: {word} in a path"))
        };
        match command {
            'M' => {
                (x, y) = (next(), next());
                start = (x, y);
                write!(out, "Step::Move({x:?}, {y:?}),").unwrap();
                handle = (x, y);
                command = 'L';
                continue;
            }
            'L' | 'l' | 'h' | 'v' | 'H' | 'V' => {
                (x, y) = match command {
                    'L' => (next(), next()),
                    'l' => (x + next(), y + next()),
                    'h' => (x + next(), y),
                    'H' => (next(), y),
                    'V' => (x, next()),
                    _ => (x, y + next()),
                };
                write!(out, "Step::Line({x:?}, {y:?}),").unwrap();
                handle = (x, y);
            }
            'c' | 's' => {
                let first = if command == 'c' {
                    (x + next(), y + next())
                } else {
                    (2.0 * x - handle.0, 2.0 * y - handle.1)
                };
                let second = (x + next(), y + next());
                let end = (x + next(), y + next());
                write!(
                    out,
                    "Step::Curve({:?}, {:?}, {:?}, {:?}, {:?}, {:?}),",
                    first.0, first.1, second.0, second.1, end.0, end.1
                )
                .unwrap();
                handle = second;
                (x, y) = end;
            }
            'z' | 'Z' => {
                out.push_str("Step::Close,");
                (x, y) = start;
                handle = start;
            }
            other => panic!("{name}: {other} in a path"),
        }
    }
    out
}
