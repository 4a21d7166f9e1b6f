//! The score of a group: the staves of all its parts one below another, with what sounds together in one column.

use super::breaks::{self, Width};
use super::foot;
use super::layout::number_pages;
use super::letters::Face;
use super::options::SheetOptions;
use super::page::{DrawnKind, DrawnMark, Page, Role, Shape, Sheet, SheetBlock};
use super::pages::{Follows, Group, paginate};
use super::paragraph::paragraph;
use super::part::{LinePart, chosen};
use super::placed::SystemPlace;
use super::signature::Signature;
use super::sizes::{SMALLEST_STAFF_MM, Sizes};
use super::slots::Slot;
use super::spacing::{self, Distances};
use super::{system, titles};
use crate::music::Whole;
use crate::routine::{On, Walk};
use crate::score::Score;
use num_traits::ToPrimitive;
use std::ops::Range;

/// Between the staves of a system, in points.
const BETWEEN_STAVES: f64 = 5.0;
/// The most that a short last system is stretched.
const MOST_STRETCH: f64 = 1.5;
/// Room for the names of the instruments, in points.
const NAMES: f64 = 62.0;
/// How thick the line is that joins the staves of a system, in staff spaces.
const JOIN: f64 = 0.16;

/// Lays out the scores of a group as one; `None` if they do not have the same lines, passes and bars.
pub fn engrave_full_score(
    scores: &[&Score<'_>],
    title: &str,
    options: &SheetOptions,
) -> Option<Sheet> {
    let first = *scores.first()?;
    let language = first.routine.words_in;
    let sizes = options.size.sizes().tight(SMALLEST_STAFF_MM);
    let paper = options.paper.size();
    let inner = paper.0 - 2.0 * sizes.margins.0;
    let mut groups = vec![head(first, title, inner, &sizes)];
    if scores
        .iter()
        .any(|score| score.lines.len() != first.lines.len())
    {
        return None;
    }
    for index in (0..first.lines.len()).filter(|index| first.lines[*index].rung == 0) {
        let mut staves = Staves::of(scores, index, options, sizes)?;
        // The tempo is written where it changes.
        staves.parts[0].shows_tempo = index.checked_sub(1).is_none_or(|before| {
            let (before, line) = (&first.lines[before], &first.lines[index]);
            (before.tempo, before.meter.click()) != (line.tempo, line.meter.click())
        });
        groups.extend(of_line(&staves, inner, first.routine.lines.len())?);
    }
    groups.push(foot::caution(language, inner, &sizes));
    let mut pages: Vec<Page> = paginate(groups, paper, &sizes);
    number_pages(&mut pages, language, title, sizes);
    Some(Sheet {
        title: title.to_owned(),
        language: first.routine.language.clone(),
        pages,
    })
}

/// The title of the score and the tempo of its routine.
fn head(score: &Score<'_>, title: &str, width: f64, sizes: &Sizes) -> Group {
    let mut block = SheetBlock::new(Role::Title);
    let mut y = 0.0;
    for row in Face::Bold.wrapped(title, sizes.title, width) {
        y += sizes.title * 1.05;
        let at = (0.0, y - sizes.title * 0.25);
        let mark = DrawnMark::text(DrawnKind::Text, at, Face::Bold, sizes.title, row);
        block.marks.push(mark);
    }
    block.height = y;
    let mut blocks = vec![(0.0, block)];
    let purpose = score.routine.purpose.as_deref().unwrap_or_default();
    let purpose = paragraph(purpose, Face::Italic, sizes.purpose, width);
    blocks.extend(purpose.map(|block| (2.0, block)));
    Group {
        gap: 0.0,
        blocks,
        follows: Follows::Freely,
    }
}

/// The parts of one line.
struct Staves<'s> {
    parts: Vec<LinePart<'s>>,
    names: Vec<String>,
    /// The bars of each part.
    slots: Vec<Vec<Slot>>,
    /// The distances of each bar that suit all parts.
    merged: Vec<Distances>,
    /// Index of the first part that plays.
    leads: usize,
}

impl<'s> Staves<'s> {
    fn of(
        scores: &[&'s Score<'s>],
        index: usize,
        options: &SheetOptions,
        sizes: Sizes,
    ) -> Option<Self> {
        let plays = |score: &&Score<'_>| score.lines[index].on != On::Rest;
        let leads = scores.iter().position(&plays).unwrap_or(0);
        let leader = scores[leads];
        let written = chosen(
            leader,
            &leader.lines[index],
            options.passes,
            options.fingerings,
        );
        let passes = leader.lines[index].passes.len();
        if (scores.iter()).any(|score| score.lines[index].passes.len() != passes) {
            return None;
        }
        let mut parts = vec![];
        for (number, score) in scores.iter().enumerate() {
            let mut part = LinePart::of_passes(score, index, options, &written);
            part.sizes = sizes;
            part.shows_tempo = false;
            // What is moved by half steps is so in all parts; tubes are each part's own.
            let own_words = matches!(part.line.walk, Walk::Tubes(_)) && plays(score);
            if number != leads && !own_words {
                for pass in &mut part.passes {
                    pass.between.clear();
                    pass.label.clear();
                }
            }
            parts.push(part);
        }
        let slots: Vec<Vec<Slot>> = parts.iter().map(|part| part.slots(f64::INFINITY)).collect();
        let bars = slots[0].len();
        if slots.iter().any(|slots| slots.len() != bars) {
            return None;
        }
        let merged = (0..bars).map(|bar| merged(&slots, bar)).collect();
        Some(Self {
            names: (scores.iter())
                .map(|score| score.instrument().name_in(score.routine.words_in))
                .collect(),
            parts,
            slots,
            merged,
            leads,
        })
    }

    /// The width of clef and signature in all parts.
    fn front(&self) -> f64 {
        let fronts = self.parts.iter().map(|part| system::prefix(part, false));
        fronts.fold(0.0, f64::max)
    }
}

/// The distances of a bar in which every part has its room.
fn merged(slots: &[Vec<Slot>], bar: usize) -> Distances {
    let richest = slots.iter().map(|slots| &slots[bar]);
    let richest = richest.max_by_key(|slot| slot.bar.symbols.len());
    let mut all = richest.map_or_else(
        || Distances {
            natural: vec![],
            least: vec![],
        },
        |slot| slot.distances.clone(),
    );
    for slot in slots.iter().map(|slots| &slots[bar]) {
        let own = &slot.distances;
        if own.natural.len() == all.natural.len() {
            for index in 0..all.natural.len() {
                all.natural[index] = all.natural[index].max(own.natural[index]);
                all.least[index] = all.least[index].max(own.least[index]);
            }
        } else if let (Some(first), Some(least)) = (own.natural.first(), own.least.first()) {
            all.natural[0] = all.natural[0].max(*first);
            all.least[0] = all.least[0].max(*least);
        }
    }
    all
}

/// The name of a line, and its systems.
fn of_line(staves: &Staves<'_>, width: f64, highest: usize) -> Option<Vec<Group>> {
    let leader = &staves.parts[staves.leads];
    let indent = titles::indent(leader, highest);
    let mut blocks = vec![(0.0, titles::heading(leader, width, indent))];
    let say = leader.line.say.as_deref().unwrap_or_default();
    let say = titles::said(leader, say, Face::Regular, width, indent);
    blocks.extend(say.map(|block| (2.0, block)));
    let mut groups = Group::of_line(blocks, systems(staves, width)?, 3.0);
    for (_, block) in groups.iter_mut().flat_map(|group| &mut group.blocks) {
        block.line = Some(leader.score_line.index);
    }
    Some(groups)
}

/// The systems of a line, each with a staff for every part.
fn systems(staves: &Staves<'_>, width: f64) -> Option<Vec<SheetBlock>> {
    let sizes = &staves.parts[0].sizes;
    let across = (width - NAMES) / sizes.space;
    let front = staves.front();
    let meter = |first| {
        let part = &staves.parts[0];
        system::prefix(part, first) - system::prefix(part, false)
    };
    let room = |first| across - front - meter(first);
    let widths: Vec<Width> = (staves.merged.iter())
        .zip(&staves.slots[staves.leads])
        .map(|(distances, slot)| Width {
            pressed: distances.pressed_width(),
            natural: distances.natural_width(),
            closes_pass: slot.closes_pass,
        })
        .collect();
    let mut from = 0;
    let mut blocks = vec![];
    for count in breaks::systems(&widths, (room(true), room(false)), sizes) {
        let (first, last) = (from == 0, from + count == widths.len());
        let most = if last { MOST_STRETCH } else { f64::INFINITY };
        let gaps = gaps(staves, from..from + count, room(first), most);
        let music: f64 = gaps.iter().flatten().sum();
        let place = SystemPlace {
            first,
            last,
            width: front + meter(first) + music,
            front: Some(front),
        };
        let drawn = staves.parts.iter().zip(&staves.slots).map(|(part, slots)| {
            let slots = &slots[from..from + count];
            let slots = aligned(
                slots,
                &staves.slots[staves.leads][from..from + count],
                &gaps,
            );
            let block = system::draw(part, &slots, place);
            block.moved(sizes.space, NAMES, 0.0)
        });
        let drawn: Vec<SheetBlock> = drawn.collect();
        blocks.push(stacked(drawn, &staves.names, sizes));
        from += count;
    }
    Some(blocks)
}

/// The distances in the bars of a system that is `room` wide, stretched by `most` at most.
fn gaps(staves: &Staves<'_>, system: Range<usize>, room: f64, most: f64) -> Vec<Vec<f64>> {
    // The first bar of a system has its signature after the clef.
    let unused = (staves.slots.iter()).map(|slots| slots[system.start].change.width());
    let unused = unused.fold(0.0, f64::max);
    let mut bars: Vec<Distances> = staves.merged[system].to_vec();
    bars[0].natural[0] -= unused;
    bars[0].least[0] -= unused;
    let all: Vec<&Distances> = bars.iter().collect();
    let factor = spacing::stretch_to(&all, room).min(most);
    (bars.iter())
        .map(|bar| spacing::stretched(bar, factor).collect())
        .collect()
}

/// The bars of a part with the distances of the system.
fn aligned(slots: &[Slot], leading: &[Slot], gaps: &[Vec<f64>]) -> Vec<Slot> {
    let mut all = slots.to_vec();
    for ((slot, leading), gaps) in all.iter_mut().zip(leading).zip(gaps) {
        let own = own_gaps(slot, leading, gaps);
        slot.distances = Distances {
            natural: own.clone(),
            least: own,
        };
    }
    if let Some(slot) = all.first_mut() {
        slot.change = Signature::default();
    }
    all
}

/// The distances between a part's own symbols, where the moments of the leading part stand at `gaps`.
fn own_gaps(slot: &Slot, leading: &Slot, gaps: &[f64]) -> Vec<f64> {
    if slot.bar.symbols.len() + 1 == gaps.len() {
        return gaps.to_vec();
    }
    let known = leading.bar.symbols.iter().map(|symbol| symbol.at);
    let known: Vec<Whole> = known.collect();
    let mut xs = vec![];
    let mut x = 0.0;
    for gap in gaps {
        x += gap;
        xs.push(x);
    }
    let end = x;
    let x_of = |at: Whole| {
        let after = known.partition_point(|moment| *moment <= at);
        let before = after.saturating_sub(1).min(xs.len() - 1);
        let (Some(from), next) = (known.get(before), xs.get(before + 1).copied()) else {
            return xs[before];
        };
        let until = known.get(before + 1).copied();
        let until = until.unwrap_or_else(|| leading.bar.symbols[before].end());
        let part = ((at - from) / (until - from)).to_f64().unwrap_or(0.0);
        xs[before] + part * (next.unwrap_or(end) - xs[before])
    };
    let mut own = vec![];
    let mut x = 0.0;
    for symbol in &slot.bar.symbols {
        let next = x_of(symbol.at);
        own.push(next - x);
        x = next;
    }
    own.push(end - x);
    own
}

/// The staves of a system one below another, with the names of the instruments and the line that joins them.
fn stacked(staves: Vec<SheetBlock>, names: &[String], sizes: &Sizes) -> SheetBlock {
    let mut words = vec![];
    let mut system = SheetBlock::new(Role::Paragraph);
    let mut y = 0.0;
    let mut ends: Vec<(f64, f64)> = vec![];
    for (mut block, name) in staves.into_iter().zip(names) {
        if let Role::Figure(said) = &block.role {
            words.push(format!("{name}: {said}"));
        }
        let (top, bottom) = staff(&block);
        name_at(&mut block, name, (top + bottom) / 2.0, sizes);
        let below = block.height + BETWEEN_STAVES;
        let block = block.moved(1.0, 0.0, y);
        ends.push((top + y, bottom + y));
        system.marks.extend(block.marks);
        system.notes.extend(block.notes);
        if system.moments.is_empty() {
            system.moments = block.moments;
        }
        y += below;
    }
    if let (Some((top, _)), Some((_, bottom))) = (ends.first(), ends.last()) {
        system.marks.push(DrawnMark::line(
            DrawnKind::BarLine,
            (NAMES, *top),
            (NAMES, *bottom),
            JOIN * sizes.space,
        ));
    }
    system.height = y - BETWEEN_STAVES;
    system.role = Role::Figure(words.join(" "));
    system
}

/// The upper and the lower line of the staff in a block.
fn staff(block: &SheetBlock) -> (f64, f64) {
    let lines = block.marks.iter().filter_map(|mark| match &mark.shape {
        Shape::Line { from, .. } if mark.kind == DrawnKind::StaffLine => Some(from.1),
        _ => None,
    });
    let (mut top, mut bottom) = (f64::INFINITY, f64::NEG_INFINITY);
    for y in lines {
        top = top.min(y);
        bottom = bottom.max(y);
    }
    (top, bottom)
}

/// Writes the name of an instrument left of its staff.
fn name_at(block: &mut SheetBlock, name: &str, middle: f64, sizes: &Sizes) {
    let size = sizes.small;
    let rows = Face::Regular.wrapped(name, size, NAMES - 6.0);
    let height = rows.len() as f64 * size * 1.15;
    for (row, text) in rows.into_iter().enumerate() {
        let y = middle - height / 2.0 + (row as f64 + 0.8) * size * 1.15;
        let mark = DrawnMark::text(DrawnKind::Text, (0.0, y), Face::Regular, size, text);
        block.marks.push(mark);
    }
}
