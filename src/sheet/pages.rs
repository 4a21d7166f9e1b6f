//! Pages: how many, what stands on each, and how far apart.

use super::page::{Page, SheetBlock};
use super::sizes::Sizes;

/// Between two lines, in points.
const BETWEEN_LINES: f64 = 15.0;
/// Between two systems of a line, in points.
pub const BETWEEN_SYSTEMS: f64 = 9.0;

/// Factors of the gaps between groups, from the widest: the first that saves a page is taken.
const NEARER: [f64; 5] = [1.0, 0.9, 0.8, 0.7, 0.6];
/// The same where the number of pages is asked for.
const NEAREST: [f64; 9] = [1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.25];
/// The most that gaps grow on a page with room left over.
const WIDEST: f64 = 2.6;
/// The same between systems of a line, which belong together.
const WIDEST_INSIDE: f64 = 1.5;

/// Cost of a page, in units of the square of the blank part of one: there are as few as possible.
const PAGE: f64 = 100.0;
/// Cost of a page break inside a line.
const INSIDE_LINE: f64 = 1.0;
/// Cost of a page that holds nothing but what must not stand alone.
const ALONE: f64 = 5.0;

/// Blocks that stay together on a page.
#[derive(Clone)]
pub struct Group {
    /// The gap before it.
    pub gap: f64,
    /// Its blocks, each with the gap before it.
    pub blocks: Vec<(f64, SheetBlock)>,
    /// What comes before it on the page.
    pub follows: Follows,
}

/// How a group belongs to the one before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Follows {
    /// It begins something new, and may open a page.
    Freely,
    /// It goes on with the same line.
    SameLine,
    /// It must not be the only one on a page.
    NotAlone,
}

impl Group {
    /// The groups of a line: `first`, what stands over it with its first system, then one for each other system.
    pub fn of_line(
        first: Vec<(f64, SheetBlock)>,
        systems: Vec<SheetBlock>,
        below_words: f64,
    ) -> Vec<Group> {
        let mut groups = vec![Group {
            gap: BETWEEN_LINES,
            blocks: first,
            follows: Follows::Freely,
        }];
        for (number, system) in systems.into_iter().enumerate() {
            if number == 0 {
                groups[0].blocks.push((below_words, system));
            } else {
                groups.push(Group {
                    gap: BETWEEN_SYSTEMS,
                    blocks: vec![(0.0, system)],
                    follows: Follows::SameLine,
                });
            }
        }
        groups
    }

    fn height(&self) -> f64 {
        let heights = self.blocks.iter().map(|(gap, block)| gap + block.height);
        heights.sum()
    }
}

/// Places groups one below another on as few pages as possible, all about equally full.
pub fn paginate(groups: Vec<Group>, (width, height): (f64, f64), sizes: &Sizes) -> Vec<Page> {
    let (margin, foot) = sizes.margins;
    let room = height - margin - foot;
    let factors: &[f64] = if sizes.tight { &NEAREST } else { &NEARER };
    let torn = |counts: &[usize]| {
        let ends = counts.iter().scan(0, |end, count| {
            *end += count;
            Some(*end)
        });
        let inside = |end: &usize| groups.get(*end).map(|g| g.follows) == Some(Follows::SameLine);
        ends.filter(inside).count()
    };
    // As few pages as possible, then as few torn lines, then as much room.
    let (factor, counts) = factors
        .iter()
        .map(|factor| (*factor, divided(&groups, room, *factor)))
        .min_by_key(|(_, counts)| (counts.len(), torn(counts)))
        .expect("there are factors");
    let mut groups = groups.into_iter();
    let mut spread = WIDEST;
    let mut pages = vec![];
    for (number, count) in counts.iter().enumerate() {
        let own: Vec<Group> = groups.by_ref().take(*count).collect();
        let wanted = stretch(&own, room, factor).min(WIDEST);
        // The last page is not wider than the one before it.
        spread = match (number + 1 == counts.len(), number) {
            (true, 0) => 1.0,
            (true, _) => wanted.min(spread),
            (false, _) => wanted,
        };
        pages.push(Page {
            width,
            height,
            blocks: placed(own, factor * spread.max(1.0), margin),
        });
    }
    pages
}

/// By how much the gaps of a page grow until it is full.
fn stretch(groups: &[Group], room: f64, factor: f64) -> f64 {
    let gaps: f64 = groups.iter().skip(1).map(|g| g.gap * factor).sum();
    let used: f64 = groups.iter().map(Group::height).sum();
    if gaps > 0.0 {
        (room - used) / gaps
    } else {
        1.0
    }
}

fn placed(groups: Vec<Group>, factor: f64, margin: f64) -> Vec<SheetBlock> {
    let mut blocks = vec![];
    let mut y = margin;
    for (number, group) in groups.into_iter().enumerate() {
        if number > 0 {
            let most = match group.follows {
                Follows::SameLine => WIDEST_INSIDE,
                Follows::Freely | Follows::NotAlone => f64::INFINITY,
            };
            y += group.gap * factor.min(most);
        }
        for (index, (gap, block)) in group.blocks.into_iter().enumerate() {
            if number + index > 0 {
                y += gap;
            }
            let below = block.height;
            blocks.push(block.moved(1.0, margin, y));
            y += below;
        }
    }
    blocks
}

/// The number of groups on each page. A group that is higher than a page has one of its own.
fn divided(groups: &[Group], room: f64, factor: f64) -> Vec<usize> {
    let heights: Vec<f64> = groups.iter().map(Group::height).collect();
    // best[i]: cost of everything from group i on, and how many groups the first page of it takes.
    let mut best: Vec<(f64, usize)> = vec![(0.0, 0); groups.len() + 1];
    for from in (0..groups.len()).rev() {
        let mut used = 0.0;
        let mut found: Option<(f64, usize)> = None;
        for to in from..groups.len() {
            used += heights[to];
            if to > from {
                used += groups[to].gap * factor;
            }
            if used > room && to > from {
                break;
            }
            let blank = ((room - used) / room).max(0.0);
            let inside = groups.get(to + 1).map(|next| next.follows) == Some(Follows::SameLine);
            let alone = from == to && groups[to].follows == Follows::NotAlone;
            let mut cost = PAGE + blank * blank + best[to + 1].0;
            cost += if inside { INSIDE_LINE } else { 0.0 };
            cost += if alone { ALONE } else { 0.0 };
            if found.is_none_or(|(other, _)| cost < other) {
                found = Some((cost, to + 1 - from));
            }
        }
        best[from] = found.unwrap_or((PAGE, 1));
    }
    let mut counts = vec![];
    let mut from = 0;
    while from < groups.len() {
        counts.push(best[from].1);
        from += best[from].1;
    }
    counts
}

#[cfg(test)]
mod tests {
    use super::super::page::Role;
    use super::*;

    fn group(height: f64, follows: Follows) -> Group {
        let mut block = SheetBlock::new(Role::Paragraph);
        block.height = height;
        Group {
            gap: 10.0,
            blocks: vec![(0.0, block)],
            follows,
        }
    }

    #[test]
    fn pages_are_as_few_as_possible_and_equally_full() {
        let four = vec![group(90.0, Follows::Freely); 4];
        assert_eq!(divided(&four, 300.0, 1.0), [2, 2]);
        assert_eq!(divided(&four, 400.0, 1.0), [4]);
    }

    #[test]
    fn what_must_not_stand_alone_takes_company() {
        let mut groups = vec![group(140.0, Follows::Freely); 2];
        groups.push(group(30.0, Follows::NotAlone));
        assert_eq!(divided(&groups, 300.0, 1.0), [1, 2]);
    }

    #[test]
    fn a_line_goes_over_a_page_only_if_that_saves_one() {
        use Follows::{Freely, SameLine};
        let kinds = [Freely, Freely, SameLine, SameLine];
        let lines: Vec<Group> = kinds.map(|follows| group(90.0, follows)).to_vec();
        assert_eq!(divided(&lines, 300.0, 1.0), [1, 3]);
        let two = [Freely, SameLine, SameLine, Freely, SameLine, SameLine];
        let lines: Vec<Group> = two.map(|follows| group(90.0, follows)).to_vec();
        assert_eq!(divided(&lines, 200.0, 1.0).len(), 3);
    }
}
