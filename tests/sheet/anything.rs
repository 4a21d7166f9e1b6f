//! Whatever is written: nothing on anything else, nothing off the page, and every note once a pass.

use super::spacing::check_spacing;
use super::{check_page, unroll, usual};
use leadpipe::routine;
use leadpipe::score::Score;
use leadpipe::sheet::{
    Paper, Sheet, SheetFingerings, SheetOptions, SheetPasses, SheetSize, engrave, strip,
};
use proptest::prelude::*;
use std::collections::HashSet;

fn options() -> Vec<SheetOptions> {
    let mut all = vec![];
    for paper in [Paper::A4, Paper::Letter] {
        for fingerings in [
            SheetFingerings::ByLevel,
            SheetFingerings::Unusual,
            SheetFingerings::All,
            SheetFingerings::None,
        ] {
            for passes in [SheetPasses::Ends, SheetPasses::All] {
                for size in [SheetSize::Normal, SheetSize::Large] {
                    all.push(SheetOptions {
                        paper,
                        fingerings,
                        passes,
                        size,
                    });
                }
            }
        }
    }
    all
}

/// Every note of every pass that is written has its first head once; a pass is written for each half step
/// or tube, or at least for the first and the last of them.
fn check_notes(score: &Score<'_>, sheet: &Sheet, passes: SheetPasses) {
    let placed: Vec<_> = sheet
        .pages
        .iter()
        .flat_map(|p| &p.blocks)
        .flat_map(|b| &b.notes)
        .collect();
    let mut seen = HashSet::new();
    for note in &placed {
        let this = (note.line, note.pass, note.note, note.head);
        assert!(seen.insert(this), "twice: {note:?}");
    }
    for line in &score.lines {
        let mut first_of_walk: Vec<usize> = vec![];
        for (index, pass) in line.passes.iter().enumerate() {
            if index == 0 || pass.walk_index != line.passes[index - 1].walk_index {
                first_of_walk.push(index);
            }
        }
        let written: HashSet<usize> = placed
            .iter()
            .filter(|n| n.line == line.index)
            .map(|n| n.pass)
            .collect();
        if passes == SheetPasses::Ends && first_of_walk.len() > 4 {
            let last = first_of_walk.len() - 1;
            assert!(written.contains(&first_of_walk[0]) && written.contains(&first_of_walk[last]));
            first_of_walk.retain(|pass| written.contains(pass));
        }
        assert_eq!(
            written,
            first_of_walk.iter().copied().collect::<HashSet<_>>()
        );
        for pass in &first_of_walk {
            for note in 0..line.passes[*pass].notes.len() {
                assert!(
                    seen.contains(&(line.index, *pass, note, 0)),
                    "missing: {pass} {note}"
                );
            }
        }
    }
}

#[test]
fn the_usual_routines_with_all_options() {
    for (name, routine) in usual() {
        let score = unroll(&routine);
        for options in options() {
            let sheet = engrave(&score, &options);
            assert!(!sheet.pages.is_empty(), "{name}");
            sheet.pages.iter().for_each(check_page);
            check_notes(&score, &sheet, options.passes);
        }
    }
}

/// Values with their length in thirty-seconds.
const VALUES: [(&str, u32); 10] = [
    ("whole", 32),
    ("half.", 24),
    ("half", 16),
    ("quarter.", 12),
    ("quarter", 8),
    ("eighth.", 6),
    ("eighth", 4),
    ("sixteenth.", 3),
    ("sixteenth", 2),
    ("whole.", 48),
];
const PITCHES: [&str; 14] = [
    "F#3", "G3", "Ab3", "Bb3", "C4", "C#4", "Eb4", "E4", "F#4", "Gb4", "G4", "B4", "E5", "C6",
];
const MARKS: [&str; 8] = [
    "",
    "",
    "",
    "(staccato)",
    "(legato)",
    "(accent)",
    "(air)",
    "(ku)",
];
const BETWEEN: [&str; 8] = ["", "", "", "pp", "mf", "ff", "breath", "mp"];

prop_compose! {
    fn token()(
        pitch in 0..PITCHES.len(),
        value in 0..VALUES.len(),
        mark in 0..MARKS.len(),
        between in 0..BETWEEN.len(),
        kind in 0..8,
    ) -> String {
        let note = format!("{}:{}{}", PITCHES[pitch], VALUES[value].0, MARKS[mark]);
        match kind {
            0 => format!("rest:{}", VALUES[value].0),
            1 => format!("{note} tie:{}", VALUES[(value + 3) % VALUES.len()].0),
            2 => format!("slur( {note} C4:eighth D4:quarter )"),
            3 => format!("triplet( {}:eighth Eb4:eighth F4:eighth )", PITCHES[pitch]),
            4 => format!("{note} {}", BETWEEN[between]),
            5 => format!("p cresc {note} f"),
            6 => format!("slur( triplet( G4:quarter A4:quarter Bb4:quarter ) {note} )"),
            _ => note,
        }
    }
}

/// Fingerings on both sides of a bar line and in both parts of a divided bar, found by chance in large print.
#[test]
fn fingerings_keep_apart_from_bar_to_bar() {
    for (meter, value, bar) in [
        ("1/8", "sixteenth", 2),
        ("2/8", "eighth", 2),
        ("1/4", "quarter", 1),
        ("16/2", "quarter", 32),
        ("7/4", "eighth", 14),
    ] {
        for bars in 1..14 {
            let notes: Vec<String> = (0..bar * bars)
                .map(|n| format!("{}:{value} [1-2-3]", ["F#4", "C#5"][n % 2]))
                .collect();
            let notes: Vec<String> = notes.chunks(bar).map(|bar| bar.join(" ")).collect();
            let notes = notes.join(" | ");
            let text = format!(
                "format = 1\ntitle = \"Any\"\ninstrument = \"cornet\"\ncomfortable_top = \"C4\"\ntempo = 90\n\
                 [[line]]\nname = \"N\"\nmeter = \"{meter}\"\nkey = \"D major\"\nnotes = \"{notes}\"\n"
            );
            let routine = routine::read(&text).unwrap_or_else(|why| panic!("{why:?}\n{text}"));
            let score = unroll(&routine);
            for size in [SheetSize::Normal, SheetSize::Large] {
                let options = SheetOptions {
                    fingerings: SheetFingerings::Unusual,
                    size,
                    ..SheetOptions::default()
                };
                engrave(&score, &options).pages.iter().for_each(check_page);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 160, failure_persistence: None, max_shrink_iters: 400, ..ProptestConfig::default() })]

    #[test]
    fn any_music(
        tokens in prop::collection::vec(token(), 1..24),
        meter in prop::sample::select(vec!["4/4", "3/4", "2/2", "6/8", "12/8", "5/8", "1/4", "7/4", "16/2"]),
        walk in prop::sample::select(vec![
            "", "half_steps = [0, -1, 2]", "half_steps = [0, 1, 0, -1, 0, 1]", "times = 3",
        ]),
        key in prop::sample::select(vec![
            "", "", "key = \"C major\"", "key = \"E-flat major\"", "key = \"C-sharp minor\"", "key = \"C-flat major\"",
        ]),
        all in any::<bool>(),
    ) {
        let notes = tokens.join(" ");
        let text = format!(
            "format = 1\ntitle = \"Any\"\ninstrument = \"cornet\"\ncomfortable_top = \"C4\"\ntempo = 90\n\
             [[line]]\nname = \"N\"\nsay = \"So.\"\nmeter = \"{meter}\"\nnotes = \"{notes}\"\n{walk}\n{key}\n"
        );
        // A hairpin to no louder mark, a breath after a rest: faults of the text, not of the sheet.
        if let Ok(routine) = routine::read(&text)
            && let Ok(score) = leadpipe::score::unroll(&routine, &leadpipe::score::Take::default())
        {
            let fingerings = if all { SheetFingerings::All } else { SheetFingerings::Unusual };
            let passes = SheetPasses::Ends;
            let options = SheetOptions { fingerings, passes, ..SheetOptions::default() };
            let sheet = engrave(&score, &options);
            sheet.pages.iter().for_each(check_page);
            sheet.pages.iter().for_each(check_spacing);
            check_notes(&score, &sheet, SheetPasses::Ends);
            let strip = strip(&score, 0, &options, None, 340.0);
            check_page(&strip);
            check_spacing(&strip);
            let large = engrave(&score, &SheetOptions { size: SheetSize::Large, ..options });
            large.pages.iter().for_each(check_page);
        }
    }

    #[test]
    fn any_words(
        title in "[ -~äß練]{1,200}",
        name in "[A-Za-z ]{1,160}",
        say in "[ -~]{0,400}",
    ) {
        let quoted = |s: &str| s.replace('\\', "\\\\").replace('"', "\\\"");
        let text = format!(
            "format = 1\ntitle = \"{}\"\npurpose = \"{}\"\ninstrument = \"trumpet\"\n\
             comfortable_top = \"G5\"\ntempo = 72\n[[line]]\nname = \"{}\"\npurpose = \"{}\"\n\
             say = \"x{}\"\nnotes = \"C4:half\"\n",
            quoted(&title), quoted(&name), quoted(&name), quoted(&name), quoted(&say),
        );
        if let Ok(routine) = routine::read(&text) {
            let sheet = engrave(&unroll(&routine), &SheetOptions::default());
            sheet.pages.iter().for_each(check_page);
        }
    }
}
