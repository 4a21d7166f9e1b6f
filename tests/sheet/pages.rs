//! Pages: how full they are, what stays together, and how many are asked for.

use super::spacing::check_spacing;
use super::{built_in, check_page, marks, of_kind, routine_of, unroll};
use leadpipe::routine::Routine;
use leadpipe::sheet::page::{DrawnKind, Page, Role, Shape, SheetBlock};
use leadpipe::sheet::{
    Sheet, SheetOptions, SheetPasses, SheetSize, TooLong, engrave, engrave_within,
};

/// The part of a page's height that is used.
fn fullness(page: &Page) -> f64 {
    let blocks = page.blocks.iter().filter(|b| b.role != Role::Margin);
    let bottom = blocks.filter_map(SheetBlock::bounds).map(|b| b.bottom);
    bottom.fold(0.0, f64::max) / page.height
}

fn is_music(block: &SheetBlock) -> bool {
    !block.moments.is_empty()
}

fn is_heading(block: &SheetBlock, words: &str) -> bool {
    matches!(&block.role, Role::Heading(said) if said == words)
}

fn with(size: SheetSize, passes: SheetPasses) -> SheetOptions {
    SheetOptions {
        size,
        passes,
        ..SheetOptions::default()
    }
}

fn all_sheets() -> Vec<(String, Sheet)> {
    let mut all = vec![];
    for (name, routine) in built_in() {
        let score = unroll(&routine);
        for size in [SheetSize::Normal, SheetSize::Large] {
            for passes in [SheetPasses::ByLevel, SheetPasses::Ends, SheetPasses::All] {
                let sheet = engrave(&score, &with(size, passes));
                all.push((format!("{name} {size:?} {passes:?}"), sheet));
            }
        }
    }
    all
}

#[test]
fn whole_pages_are_about_equally_full_and_the_caution_is_never_alone() {
    for (name, sheet) in all_sheets() {
        let full: Vec<f64> = sheet.pages.iter().map(fullness).collect();
        assert!(full.iter().all(|part| *part > 0.5), "{name}: {full:?}");
        let last = &sheet.pages.last().unwrap().blocks;
        assert!(
            last.iter().any(|b| is_heading(b, "Before you play")),
            "{name}"
        );
        let figures = last.iter().filter(|b| matches!(b.role, Role::Figure(_)));
        assert!(figures.count() > 0, "{name}");
    }
}

#[test]
fn a_line_keeps_its_words() {
    for (name, sheet) in all_sheets() {
        for page in &sheet.pages {
            let blocks = &page.blocks;
            for (index, block) in blocks.iter().enumerate() {
                let next = blocks.get(index + 1);
                // After a heading come words or music of the same line, or a part of the foot.
                if matches!(block.role, Role::Heading(_)) {
                    let next = next.expect("a heading is not the last thing on a page");
                    assert!(
                        next.line == block.line && next.role != Role::Margin,
                        "{name}"
                    );
                }
                // Words before the music have it after them; those after it have it before them.
                if block.role == Role::Paragraph && block.line.is_some() {
                    let before = index.checked_sub(1).map(|i| &blocks[i]);
                    let music = [before, next].into_iter().flatten();
                    let own = |b: &&SheetBlock| b.line == block.line;
                    assert!(
                        music
                            .filter(own)
                            .any(|b| is_music(b) || b.role == Role::Paragraph),
                        "{name}"
                    );
                }
            }
        }
    }
}

/// Height of the staves of a sheet, in millimetres.
fn staves(sheet: &Sheet) -> Vec<f64> {
    let blocks = sheet
        .pages
        .iter()
        .flat_map(|p| &p.blocks)
        .filter(|b| is_music(b));
    let height = |block: &SheetBlock| {
        let lines = block
            .marks
            .iter()
            .filter(|m| m.kind == DrawnKind::StaffLine);
        let ys: Vec<f64> = lines
            .map(|m| (m.bounds().top + m.bounds().bottom) / 2.0)
            .collect();
        let (least, most) = ys
            .iter()
            .fold((f64::MAX, f64::MIN), |(l, m), y| (l.min(*y), m.max(*y)));
        (most - least) * 25.4 / 72.0
    };
    blocks.map(height).filter(|height| *height > 0.0).collect()
}

fn on_two_pages(routine: &Routine, size: SheetSize) -> Result<Sheet, TooLong> {
    let options = with(size, SheetPasses::ByLevel);
    engrave_within(&unroll(routine), &options, None, 2)
}

#[test]
fn two_pages_are_made_by_spacing_that_can_be_read_or_refused() {
    let mut fits = vec![];
    for (name, routine) in built_in() {
        match on_two_pages(&routine, SheetSize::Normal) {
            Ok(sheet) => {
                assert!(sheet.pages.len() <= 2, "{name}");
                sheet.pages.iter().for_each(check_page);
                assert!(staves(&sheet).iter().all(|mm| *mm > 5.99), "{name}");
                for text in marks_of(&sheet).filter(|m| m.kind == DrawnKind::Words) {
                    assert!(
                        matches!(text.shape, Shape::Text { size, .. } if size > 9.49),
                        "{text:?}"
                    );
                }
                fits.push(name);
            }
            Err(TooLong { pages }) => assert!(pages > 2, "{name}"),
        }
    }
    for name in [
        "first-sounds",
        "first-steps",
        "second-steps-b",
        "third-steps",
    ] {
        assert!(fits.iter().any(|fit| fit == name), "{fits:?}");
    }
    // Large print keeps its size.
    let (_, routine) = &built_in()[0];
    assert!(matches!(
        on_two_pages(routine, SheetSize::Large),
        Err(TooLong { pages: 3.. })
    ));
    let many = ["notes = \"C4:whole | D4:whole | E4:whole | F4:whole\""; 40];
    let refused = on_two_pages(&routine_of(&many), SheetSize::Normal);
    assert!(matches!(refused, Err(TooLong { pages: 3.. })));
}

fn marks_of(sheet: &Sheet) -> impl Iterator<Item = &leadpipe::sheet::page::DrawnMark> {
    sheet.pages.iter().flat_map(marks)
}

#[test]
fn large_print_has_large_staves_large_text_and_no_light_greys_in_words() {
    for (name, routine) in built_in() {
        let sheet = engrave(
            &unroll(&routine),
            &with(SheetSize::Large, SheetPasses::ByLevel),
        );
        sheet.pages.iter().for_each(check_page);
        assert!(
            staves(&sheet).iter().all(|mm| (mm - 9.0).abs() < 0.01),
            "{name}"
        );
        for mark in marks_of(&sheet) {
            if let Shape::Text { size, text, .. } = &mark.shape {
                assert!(*size > 13.99, "{name}: {text} {size}");
                assert_eq!(mark.shade, 0, "{name}: {text}");
            }
        }
    }
}

#[test]
fn built_in_routines_are_never_pressed() {
    for (_, routine) in built_in() {
        let sheet = engrave(&unroll(&routine), &SheetOptions::default());
        sheet.pages.iter().for_each(check_spacing);
        assert!(
            sheet
                .pages
                .iter()
                .all(|p| of_kind(p, DrawnKind::Clef).len() > 1)
        );
    }
}
