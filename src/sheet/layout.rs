//! Page layout: the head, the lines one below another, the foot. Systems break at bars, pages between lines.

use super::breaks::{self, Width};
use super::foot;
use super::head;
use super::letters::{ABOVE, Face};
use super::options::SheetOptions;
use super::page::{DrawnKind, DrawnMark, Page, Role, Sheet, SheetBlock};
use super::paragraph::paragraph;
use super::part::LinePart;
use super::pencil_words;
use super::pencilled;
use super::placed::SystemPlace;
use super::system;
use super::words;
use crate::pencil::Pencil;
use crate::score::Score;

/// Length of a staff space: a staff of 7 mm, as in printed parts, which reads from a music stand.
pub const SPACE: f64 = 4.96;

/// Empty border of a page.
pub const MARGIN: f64 = 40.0;
/// Border at the foot, where the number of the page stands.
const FOOT: f64 = 48.0;

const NAME: f64 = 12.5;
const SAY: f64 = 10.0;
const BETWEEN_LINES: f64 = 15.0;
const BETWEEN_SYSTEMS: f64 = 9.0;

/// The factor of the gaps between lines if that saves a page.
const NEARER: f64 = 0.6;

/// Blocks that stay together on a page, and the gap before them.
#[derive(Clone)]
struct Group {
    gap: f64,
    blocks: Vec<(f64, SheetBlock)>,
}

impl Group {
    fn height(&self) -> f64 {
        self.blocks
            .iter()
            .map(|(gap, block)| gap + block.height)
            .sum()
    }
}

/// Lays a score out as a sheet.
pub fn engrave(score: &Score<'_>, options: &SheetOptions) -> Sheet {
    engrave_marked(score, options, None)
}

/// The same with a player's pencil marks. The score is that of the teacher's own routine: the print does not change.
pub fn engrave_pencilled(score: &Score<'_>, options: &SheetOptions, pencil: &Pencil) -> Sheet {
    engrave_marked(score, options, Some(pencil))
}

/// The same with a player's pencil marks, if there is a pencil.
pub fn engrave_marked(score: &Score<'_>, options: &SheetOptions, pencil: Option<&Pencil>) -> Sheet {
    let (width, height) = options.paper.size();
    let inner = width - 2.0 * MARGIN;
    let mut top = head::group(score, inner);
    if let Some(pencil) = pencil {
        let words = pencil_words::on_whole(pencil, score.routine);
        top.extend(in_pencil(&words, inner).map(|block| (3.0, block)));
    }
    let mut groups = vec![Group {
        gap: 0.0,
        blocks: top,
    }];
    // A line at several tempos is printed once.
    let printed = (0..score.lines.len()).filter(|index| score.lines[*index].rung == 0);
    for index in printed {
        groups.extend(line(LinePart::new(score, index, options, pencil), inner));
    }
    for blocks in foot::groups(score, inner) {
        groups.push(Group { gap: 14.0, blocks });
    }
    // Narrow the gaps if that saves a page.
    let wide = paginate(groups.clone(), (width, height), 1.0);
    let near = paginate(groups, (width, height), NEARER);
    let mut pages = if near.len() < wide.len() { near } else { wide };
    number_pages(&mut pages, &score.routine.title);
    Sheet {
        title: score.routine.title.clone(),
        pages,
    }
}

/// Places groups one below another, and those that do not fit on the next page.
fn paginate(groups: Vec<Group>, (width, height): (f64, f64), gaps: f64) -> Vec<Page> {
    let mut pages: Vec<Page> = vec![];
    let floor = height - FOOT;
    let mut y = f64::INFINITY;
    for group in groups {
        let gap = group.gap * gaps;
        let fresh = y + gap + group.height() > floor;
        if fresh {
            pages.push(Page {
                width,
                height,
                blocks: vec![],
            });
            y = MARGIN;
        } else {
            y += gap;
        }
        let page = pages.last_mut().expect("the first group opens a page");
        for (index, (gap, block)) in group.blocks.into_iter().enumerate() {
            if !(fresh && index == 0) {
                y += gap;
            }
            let below = block.height;
            page.blocks.push(block.moved(1.0, MARGIN, y));
            y += below;
        }
    }
    pages
}

/// A single line of a score in the given width: its music without its words, and the pencil's signs at its notes. The
/// print does not depend on the pencil.
pub fn strip(
    score: &Score<'_>,
    index: usize,
    options: &SheetOptions,
    pencil: Option<&Pencil>,
    width: f64,
) -> Page {
    const BORDER: f64 = 4.0;
    let part = LinePart::new(score, index, options, pencil);
    let mut y = BORDER;
    let mut blocks = vec![];
    for block in systems(&part, width - 2.0 * BORDER) {
        let below = block.height + BETWEEN_SYSTEMS;
        blocks.push(block.moved(1.0, BORDER, y));
        y += below;
    }
    Page {
        width,
        height: y - BETWEEN_SYSTEMS + BORDER,
        blocks,
    }
}

fn systems(part: &LinePart<'_>, width: f64) -> Vec<SheetBlock> {
    let across = width / SPACE;
    let room = |first| across - system::prefix(part, first);
    let slots = part.slots(room(true));
    let widths: Vec<Width> = slots
        .iter()
        .map(|slot| Width {
            least: slot.distances.least_width(),
            natural: slot.distances.natural_width(),
            closes_pass: slot.closes_pass,
        })
        .collect();
    let mut from = 0;
    let mut blocks = vec![];
    for count in breaks::systems(&widths, (room(true), room(false))) {
        let place = SystemPlace {
            first: from == 0,
            last: from + count == slots.len(),
            width: across,
        };
        let drawn = system::draw(part, &slots[from..from + count], place);
        blocks.push(drawn.moved(SPACE, 0.0, 0.0));
        from += count;
    }
    blocks
}

/// The name of a line, its purpose and how to play it, its systems, and its rests in words.
fn line(part: LinePart<'_>, width: f64) -> Vec<Group> {
    let mut first = vec![(0.0, heading(&part, width))];
    let say = part.line.say.as_deref().unwrap_or_default();
    if let Some(block) = paragraph(say, Face::Regular, SAY, width) {
        first.push((2.0, block));
    }
    let pencil = in_pencil(&part.pencil.words.join(" · "), width);
    first.extend(pencil.map(|block| (2.0, block)));
    for block in &mut first {
        block.1.line = Some(part.score_line.index);
    }
    let mut groups = vec![];
    let mut open = Group {
        gap: BETWEEN_LINES,
        blocks: first,
    };
    for (number, block) in systems(&part, width).into_iter().enumerate() {
        if number > 0 {
            groups.push(open);
            open = Group {
                gap: BETWEEN_SYSTEMS,
                blocks: vec![],
            };
        }
        let gap = if number == 0 { 5.0 } else { 0.0 };
        open.blocks.push((gap, block));
    }
    let rests = words::rests(part.rungs);
    if let Some(mut block) = rests.and_then(|text| paragraph(&text, Face::Italic, SAY, width)) {
        block.line = Some(part.score_line.index);
        open.blocks.push((4.0, block));
    }
    groups.push(open);
    together(groups)
}

/// Keeps the systems of a line on one page if they are few, so that pages break between lines.
fn together(groups: Vec<Group>) -> Vec<Group> {
    const HIGHEST: f64 = 420.0;
    let all: f64 = groups.iter().map(|g| g.gap + g.height()).sum();
    if all > HIGHEST {
        return groups;
    }
    let mut groups = groups.into_iter();
    let Some(mut one) = groups.next() else {
        return vec![];
    };
    for group in groups {
        let gap = group.gap;
        for (index, (own, block)) in group.blocks.into_iter().enumerate() {
            one.blocks
                .push((if index == 0 { own + gap } else { own }, block));
        }
    }
    vec![one]
}

fn heading(part: &LinePart<'_>, width: f64) -> SheetBlock {
    let mut block = SheetBlock::new(Role::Heading);
    let number = format!("{}", part.number);
    let indent = Face::Bold.width(&number, NAME) + 9.0;
    let mut y = ABOVE * NAME;
    let kind = DrawnKind::Text;
    block
        .marks
        .push(DrawnMark::text(kind, (0.0, y), Face::Bold, NAME, number));
    let mut x = indent;
    let names = Face::Bold.wrapped(&part.line.name, NAME, width - indent);
    for (row, name) in names.iter().enumerate() {
        if row > 0 {
            y += NAME * 1.2;
        }
        block
            .marks
            .push(DrawnMark::text(kind, (indent, y), Face::Bold, NAME, name));
        x = indent + Face::Bold.width(name, NAME) + 10.0;
    }
    if let Some(purpose) = &part.line.purpose {
        let mut rows = Face::Italic.wrapped(purpose, SAY + 0.5, width - x);
        if rows.len() > 1 {
            rows = Face::Italic.wrapped(purpose, SAY + 0.5, width - indent);
            y += NAME * 1.2;
            x = indent;
        }
        for (row, text) in rows.iter().enumerate() {
            if row > 0 {
                y += SAY * 1.25;
            }
            block
                .marks
                .push(DrawnMark::text(kind, (x, y), Face::Italic, SAY + 0.5, text));
        }
    }
    block.height = y + NAME * 0.25;
    block
}

/// A paragraph in pencil.
fn in_pencil(text: &str, width: f64) -> Option<SheetBlock> {
    let mut block = paragraph(text, Face::Italic, SAY, width)?;
    for mark in &mut block.marks {
        mark.kind = DrawnKind::Pencil;
        mark.shade = pencilled::GREY;
    }
    Some(block)
}

fn number_pages(pages: &mut [Page], title: &str) {
    const SIZE: f64 = 8.5;
    let count = pages.len();
    for (index, page) in pages.iter_mut().enumerate() {
        let number = format!(" · page {} of {count}", index + 1);
        let room = page.width - 2.0 * MARGIN - Face::Regular.width(&number, SIZE);
        let rows = Face::Regular.wrapped(title, SIZE, room);
        let title = rows.first().map_or("", String::as_str);
        let text = format!("{title}{number}");
        let x = (page.width - Face::Regular.width(&text, SIZE)) / 2.0;
        let y = page.height - 26.0;
        let mut block = SheetBlock::new(Role::Margin);
        block.marks.push(DrawnMark::text(
            DrawnKind::Text,
            (x, y),
            Face::Regular,
            SIZE,
            text,
        ));
        page.blocks.push(block);
    }
}
