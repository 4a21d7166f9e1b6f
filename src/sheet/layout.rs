//! Page layout: the head, the lines one below another, the foot. Systems break at bars, pages between lines.

use super::breaks::{self, Width};
use super::foot;
use super::head;
use super::letters::Face;
use super::options::SheetOptions;
use super::page::{DrawnKind, DrawnMark, Page, Role, Sheet, SheetBlock};
use super::pages::{BETWEEN_SYSTEMS, Follows, Group, paginate};
use super::paragraph::paragraph;
use super::part::LinePart;
use super::pencil_words;
use super::placed::SystemPlace;
use super::sizes::Sizes;
use super::slots::Slot;
use super::system;
use super::titles::{self, PENCIL, in_pencil};
use super::words;
use crate::pencil::Pencil;
use crate::score::Score;
use crate::words::{Language, say};

/// A sheet that needs more pages than were asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLong {
    /// The pages it needs at the least.
    pub pages: usize,
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
    engrave_sized(score, options, pencil, options.size.sizes())
}

/// The same on at most `most` pages: with less between the lines, more bars in a system and smaller staves, as far as
/// they can be read.
///
/// # Errors
/// If it needs more pages even then.
pub fn engrave_within(
    score: &Score<'_>,
    options: &SheetOptions,
    pencil: Option<&Pencil>,
    most: usize,
) -> Result<Sheet, TooLong> {
    let own = options.size.sizes();
    let smaller = options.size.staves().iter();
    let mut pages = 0;
    for sizes in std::iter::once(own).chain(smaller.map(|mm| own.tight(*mm))) {
        let sheet = engrave_sized(score, options, pencil, sizes);
        if sheet.pages.len() <= most {
            return Ok(sheet);
        }
        pages = sheet.pages.len();
    }
    Err(TooLong { pages })
}

/// The same in sizes of one's own.
pub fn engrave_sized(
    score: &Score<'_>,
    options: &SheetOptions,
    pencil: Option<&Pencil>,
    sizes: Sizes,
) -> Sheet {
    let paper = options.paper.size();
    let inner = paper.0 - 2.0 * sizes.margins.0;
    let mut top = head::group(score, inner, &sizes);
    if let Some(pencil) = pencil {
        let words = pencil_words::on_whole(pencil, score.routine);
        let block = paragraph(&words, Face::Italic, sizes.said, inner);
        top.extend(block.map(|block| (3.0, in_pencil(block, sizes.grey(PENCIL)))));
    }
    let mut groups = vec![Group {
        gap: 0.0,
        blocks: top,
        follows: Follows::Freely,
    }];
    let highest = score.lines.last().map_or(1, |line| line.index + 1);
    // A line at several tempos is printed once.
    let printed = (0..score.lines.len()).filter(|index| score.lines[*index].rung == 0);
    for index in printed {
        let line = &score.lines[index];
        let mut part = LinePart::new(score, index, options, pencil);
        part.sizes = sizes;
        // The tempo is written where it changes.
        part.shows_tempo = part.rungs.len() > 1
            || index.checked_sub(1).is_none_or(|before| {
                let before = &score.lines[before];
                (before.tempo, before.meter.click()) != (line.tempo, line.meter.click())
            });
        groups.extend(of_line(&part, inner, highest));
    }
    groups.extend(foot::groups(score, inner, &sizes));
    let mut pages = paginate(groups, paper, &sizes);
    number_pages(
        &mut pages,
        score.routine.words_in,
        &score.routine.title,
        sizes,
    );
    Sheet {
        title: score.routine.title.clone(),
        language: score.routine.language.clone(),
        pages,
    }
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
    let mut part = LinePart::new(score, index, options, pencil);
    part.sizes = part.sizes.on_phone(score.instrument());
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
    let space = part.sizes.space;
    let across = width / space;
    let room = |first| across - system::prefix(part, first);
    let slots = part.slots(room(true));
    let widths: Vec<Width> = slots
        .iter()
        .map(|slot| Width {
            pressed: slot.distances.pressed_width(),
            natural: slot.distances.natural_width(),
            closes_pass: slot.closes_pass,
        })
        .collect();
    let mut blocks = vec![];
    // A long line has many bars: each is dropped as soon as it is drawn.
    let mut slots = slots.into_iter();
    for count in breaks::systems(&widths, (room(true), room(false)), &part.sizes) {
        let own: Vec<Slot> = slots.by_ref().take(count).collect();
        let place = SystemPlace {
            first: blocks.is_empty(),
            last: slots.len() == 0,
            width: across,
            front: None,
        };
        let drawn = system::draw(part, &own, place);
        blocks.push(drawn.moved(space, 0.0, 0.0));
    }
    blocks
}

/// The name of a line, its purpose and how to play it, its systems, and its rests in words.
fn of_line(part: &LinePart<'_>, width: f64, highest: usize) -> Vec<Group> {
    let indent = titles::indent(part, highest);
    let mut first = vec![(0.0, titles::heading(part, width, indent))];
    let say = part.line.say.as_deref().unwrap_or_default();
    let mut rests = words::rests(part.language, part.rungs).unwrap_or_default();
    let mut say = say.to_owned();
    if part.sizes.tight {
        // The rests need no row of their own.
        say = format!("{say} {}", std::mem::take(&mut rests));
    }
    let said = titles::said(part, &say, Face::Regular, width, indent);
    first.extend(said.map(|block| (2.0, block)));
    let pencil = part.pencil.words.join(" · ");
    let pencil = titles::said(part, &pencil, Face::Italic, width, indent);
    let grey = part.sizes.grey(PENCIL);
    first.extend(pencil.map(|block| (2.0, in_pencil(block, grey))));
    let below_words = if part.sizes.tight { 2.0 } else { 5.0 };
    let mut groups = Group::of_line(first, systems(part, width), below_words);
    let rests = titles::said(part, &rests, Face::Italic, width, indent);
    if let Some(last) = groups.last_mut() {
        last.blocks.extend(rests.map(|block| (4.0, block)));
    }
    for (_, block) in groups.iter_mut().flat_map(|group| &mut group.blocks) {
        block.line = Some(part.score_line.index);
    }
    groups
}

pub(super) fn number_pages(pages: &mut [Page], language: Language, title: &str, sizes: Sizes) {
    let size = sizes.small + 0.5;
    let count = pages.len();
    for (index, page) in pages.iter_mut().enumerate() {
        let number = say::page_number(language, index + 1, count);
        let room = page.width - 2.0 * sizes.margins.0 - Face::Regular.width(&number, size);
        let rows = Face::Regular.wrapped(title, size, room);
        let title = rows.first().map_or("", String::as_str);
        let text = format!("{title}{number}");
        let x = (page.width - Face::Regular.width(&text, size)) / 2.0;
        let y = page.height - sizes.margins.1 + 2.2 * size;
        let mut block = SheetBlock::new(Role::Margin);
        block.marks.push(DrawnMark::text(
            DrawnKind::Text,
            (x, y),
            Face::Regular,
            size,
            text,
        ));
        page.blocks.push(block);
    }
}
