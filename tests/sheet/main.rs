//! The printed sheet: what stands on it, where, and that nothing stands on anything else.

use leadpipe::routine::{self, Routine};
use leadpipe::score::{self, Score, Take};
use leadpipe::sheet::page::{DrawnKind, DrawnMark, OutlineStep, Page, Shape, SheetBlock};

mod anything;
mod engraving;
mod keys;
mod lines;
mod music;
mod pages;
#[cfg(feature = "pdf")]
mod pdf;
mod pencil;
#[cfg(feature = "png")]
mod pictures;
mod reading;
mod shape;
mod slides;
mod spacing;
mod walks;
mod words;

/// A routine of these lines, each given as the keys under its name.
fn routine_of(lines: &[&str]) -> Routine {
    let mut text = "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\n\
                    comfortable_top = \"G4\"\nreach = \"C6\"\ntempo = 72\n"
        .to_owned();
    for (index, line) in lines.iter().enumerate() {
        text.push_str(&format!("[[line]]\nname = \"L{}\"\n{line}\n", index + 1));
    }
    routine::read(&text).unwrap_or_else(|faults| panic!("{text}\n{faults:#?}"))
}

fn unroll(routine: &Routine) -> Score<'_> {
    score::unroll(routine, &Take::default()).expect("it unrolls")
}

/// The usual routine of each level. Whatever draws with every option, or through another program, keeps to these.
fn usual() -> Vec<(String, Routine)> {
    let read = |preset: &leadpipe::presets::Preset| {
        let routine = routine::read(preset.text).expect("it is a routine");
        (preset.name.to_owned(), routine)
    };
    leadpipe::presets::usual().map(read).collect()
}

/// The built-in routines by name.
fn built_in() -> Vec<(String, Routine)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/presets");
    let mut all: Vec<(String, Routine)> = std::fs::read_dir(folder)
        .expect("they are there")
        .map(|entry| {
            let path = entry.expect("it can be listed").path();
            let text = std::fs::read_to_string(&path).expect("it can be read");
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            (name, routine::read(&text).expect("it is a routine"))
        })
        .collect();
    all.sort_by(|a, b| a.0.cmp(&b.0));
    assert_eq!(all.len(), leadpipe::presets::ALL.len());
    all
}

fn marks(page: &Page) -> impl Iterator<Item = &DrawnMark> {
    page.blocks.iter().flat_map(|block| &block.marks)
}

fn of_kind(page: &Page, kind: DrawnKind) -> Vec<&DrawnMark> {
    marks(page).filter(|mark| mark.kind == kind).collect()
}

/// The texts of a kind in the order they were drawn.
fn texts(page: &Page, kind: DrawnKind) -> Vec<String> {
    let of = |mark: &DrawnMark| match &mark.shape {
        Shape::Text { text, .. } => Some(text.clone()),
        _ => None,
    };
    of_kind(page, kind).into_iter().filter_map(of).collect()
}

/// SMuFL names of the glyphs of a kind, from left to right.
fn glyphs(page: &Page, kind: DrawnKind) -> Vec<&'static str> {
    let mut found: Vec<(f64, &'static str)> = of_kind(page, kind)
        .into_iter()
        .filter_map(|mark| match &mark.shape {
            Shape::Glyph { glyph, at, .. } => Some((at.0, glyph.name())),
            _ => None,
        })
        .collect();
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found.into_iter().map(|(_, name)| name).collect()
}

/// What must never stand on one another.
fn apart(block: &SheetBlock) -> Vec<&DrawnMark> {
    let kinds = [
        DrawnKind::Head,
        DrawnKind::Accidental,
        DrawnKind::Fingering,
        DrawnKind::Dynamic,
        DrawnKind::Words,
        DrawnKind::Tempo,
        DrawnKind::BreathMark,
        DrawnKind::Rest,
        DrawnKind::Dot,
        DrawnKind::Clef,
        DrawnKind::Pencil,
        DrawnKind::Meter,
    ];
    block
        .marks
        .iter()
        // A line that is left out is crossed out: those strokes run through it by intent.
        .filter(|m| kinds.contains(&m.kind) && !matches!(m.shape, Shape::Line { .. }))
        .collect()
}

/// Panics where things stand on one another or outside their page.
fn check_page(page: &Page) {
    for block in &page.blocks {
        let marks = apart(block);
        for (index, one) in marks.iter().enumerate() {
            for other in &marks[index + 1..] {
                // The two digits of a number in a meter touch, as letters of a word do.
                let letters = one.kind == other.kind
                    && matches!(one.kind, DrawnKind::Meter | DrawnKind::Tempo);
                let (a, b) = (one.bounds(), other.bounds());
                assert!(
                    letters || !a.overlaps(&b, 0.05),
                    "{one:?}\n{other:?}\n{a:?}\n{b:?}"
                );
            }
        }
        check_bar_lines(block);
        check_flags(block);
        check_slurs(block);
        for mark in &block.marks {
            let b = mark.bounds();
            assert!(
                b.left >= 0.0 && b.top >= 0.0 && b.right <= page.width && b.bottom <= page.height,
                "outside: {mark:?} {b:?}"
            );
        }
    }
    // Blocks follow one another; only the head's small staff stands beside its text.
    let mut boxes = page
        .blocks
        .iter()
        .skip(3)
        .filter_map(SheetBlock::bounds)
        .peekable();
    while let (Some(one), Some(next)) = (boxes.next(), boxes.peek()) {
        assert!(!one.overlaps(next, 0.5), "{one:?} {next:?}");
    }
}

/// Panics where a bar line runs through anything of the music.
fn check_bar_lines(block: &SheetBlock) {
    let kinds = [
        DrawnKind::Head,
        DrawnKind::Accidental,
        DrawnKind::Rest,
        DrawnKind::Dot,
        DrawnKind::Flag,
        DrawnKind::LedgerLine,
    ];
    for line in block.marks.iter().filter(|m| m.kind == DrawnKind::BarLine) {
        let b = line.bounds();
        for other in block.marks.iter().filter(|m| kinds.contains(&m.kind)) {
            let o = other.bounds();
            let beside = o.right <= b.left || b.right <= o.left;
            // Over and under the staff, ledger lines may be at its side.
            assert!(beside, "{line:?} {other:?}");
        }
    }
}

/// Panics where a flag reaches a rest, an accidental or the head of the next note.
fn check_flags(block: &SheetBlock) {
    let kinds = [DrawnKind::Head, DrawnKind::Accidental, DrawnKind::Rest];
    for flag in block.marks.iter().filter(|m| m.kind == DrawnKind::Flag) {
        let b = flag.bounds();
        for other in block.marks.iter().filter(|m| kinds.contains(&m.kind)) {
            let o = other.bounds();
            // Its own head is left of it, or above or below it.
            let own = other.kind == DrawnKind::Head && (o.left + o.right) / 2.0 < b.right;
            assert!(own || !b.overlaps(&o, 0.05), "{flag:?} {other:?}");
        }
    }
}

/// Panics where a slur runs through a head or a stem.
fn check_slurs(block: &SheetBlock) {
    let of = |kind| {
        block
            .marks
            .iter()
            .filter(move |m: &&DrawnMark| m.kind == kind)
    };
    for slur in of(DrawnKind::Slur) {
        let Shape::Area(steps) = &slur.shape else {
            panic!("a slur is an area")
        };
        let points = along(steps);
        for other in of(DrawnKind::Head)
            .chain(of(DrawnKind::Stem))
            .chain(of(DrawnKind::Bracket))
        {
            let b = other.bounds();
            let slack: f64 = 0.4;
            let hit = points.iter().find(|(x, y)| {
                b.left + slack.min((b.right - b.left) / 3.0) < *x
                    && *x < b.right - slack.min((b.right - b.left) / 3.0)
                    && b.top + slack < *y
                    && *y < b.bottom - slack
            });
            assert!(hit.is_none(), "{hit:?} {other:?} {b:?} {steps:?}");
        }
    }
}

/// Points on the curves of an outline.
fn along(steps: &[OutlineStep]) -> Vec<(f64, f64)> {
    let mut points: Vec<(f64, f64)> = vec![];
    for step in steps {
        match *step {
            OutlineStep::Move(p) | OutlineStep::Line(p) => points.push(p),
            OutlineStep::Curve(a, b, p) => {
                let from = *points.last().expect("a curve begins somewhere");
                for n in 1..=200 {
                    let t = f64::from(n) / 200.0;
                    let s = 1.0 - t;
                    let mix = |v: [f64; 4]| {
                        s.powi(3) * v[0]
                            + 3.0 * s * s * t * v[1]
                            + 3.0 * s * t * t * v[2]
                            + t.powi(3) * v[3]
                    };
                    points.push((mix([from.0, a.0, b.0, p.0]), mix([from.1, a.1, b.1, p.1])));
                }
            }
            OutlineStep::Close => {}
        }
    }
    points
}
