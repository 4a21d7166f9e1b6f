//! The bars of a line in the order of the page, with their widths.

use super::bar_line::BarLine;
use super::dynamics::{self, HairpinRoom};
use super::letters::Face;
use super::notes;
use super::part::{LinePart, LinePass};
use super::signature::Signature;
use super::spacing::{self, Distances, Extent};
use crate::music::Whole;
use crate::notation::beams;
use crate::notation::written::{WrittenBar, WrittenSymbol};
use num_traits::Zero;

/// A bar, or a part of one, in the order of the page.
#[derive(Clone)]
pub struct Slot {
    /// Index in the part's passes.
    pub pass: usize,
    /// What is in it.
    pub bar: WrittenBar,
    /// How wide it is.
    pub distances: Distances,
    /// True if a pass begins with it.
    pub opens_pass: bool,
    /// True if a pass ends with it.
    pub closes_pass: bool,
    /// What stands at its end; `None` if its bar goes on.
    pub bar_line: Option<BarLine>,
    /// The key signature that changes with it; empty if it does not. Its distances have room for it.
    pub change: Signature,
}

impl Slot {
    fn changes(&mut self, change: Signature) {
        for distances in [&mut self.distances.natural, &mut self.distances.least] {
            if let Some(first) = distances.first_mut() {
                *first += change.width();
            }
        }
        self.change = change;
    }
}

impl LinePart<'_> {
    /// All bars in order; bars wider than `room` are divided into parts that fit.
    pub fn slots(&self, room: f64) -> Vec<Slot> {
        let mut slots = vec![];
        for (number, pass) in self.passes.iter().enumerate() {
            let first = slots.len();
            for bar in &pass.written.bars {
                self.add(pass, number, bar.clone(), room, &mut slots);
            }
            let last = slots.len() - 1;
            slots[first].opens_pass = true;
            if let Some(before) = number.checked_sub(1) {
                let from = self.passes[before].written.key;
                slots[first].changes(Signature::change(from, pass.written.key, self.clef));
            }
            slots[last].closes_pass = true;
        }
        self.complete(&mut slots, room);
        slots
    }

    fn add(
        &self,
        pass: &LinePass<'_>,
        number: usize,
        bar: WrittenBar,
        room: f64,
        slots: &mut Vec<Slot>,
    ) {
        let distances = distances(self, pass, &bar);
        let halves = (distances.pressed_width() + BarLine::Final.width() > room)
            .then(|| self.halved(&bar))
            .flatten();
        match halves {
            Some((one, other)) => {
                self.add(pass, number, one, room, slots);
                self.add(pass, number, other, room, slots);
            }
            None => slots.push(Slot {
                pass: number,
                bar,
                distances,
                opens_pass: false,
                closes_pass: false,
                bar_line: None,
                change: Signature::default(),
            }),
        }
    }

    /// Divides a bar near its middle: at a beat if there is one, and never inside a triplet.
    fn halved(&self, bar: &WrittenBar) -> Option<(WrittenBar, WrittenBar)> {
        let beat = self.score_line.meter.click();
        let symbols = &bar.symbols;
        let middle = symbols.len() / 2;
        let parts = |at: usize| {
            symbols[at]
                .triplet
                .is_none_or(|t| symbols[at - 1].triplet != Some(t))
        };
        let on = |at: usize, grid: Whole| (symbols[at].at / grid).fract().is_zero();
        let quarter = Whole::new(1, 4);
        let near = |grid: Option<Whole>| {
            let places =
                (1..symbols.len()).filter(|at| parts(*at) && grid.is_none_or(|g| on(*at, g)));
            places.min_by_key(|at| at.abs_diff(middle))
        };
        let at = near(Some(beat))
            .or_else(|| near(Some(quarter)))
            .or_else(|| near(None))?;
        let (one, other) = symbols.split_at(at);
        let part = |symbols: &[WrittenSymbol], closed| WrittenBar {
            start: symbols[0].at,
            symbols: symbols.to_vec(),
            closed,
        };
        Some((part(one, false), part(other, bar.closed)))
    }

    /// Moves a bar away from the one before it where a fingering at its beginning would stand on one at the end of the other.
    fn part_fingerings(&self, slots: &mut [Slot]) {
        let edges = |slot: &Slot, symbol: &WrittenSymbol| {
            extent(self, &self.passes[slot.pass], symbol, false).fingering
        };
        for index in 1..slots.len() {
            let (before, slot) = (&slots[index - 1], &slots[index]);
            let end = before.bar.symbols.last();
            let end = end.and_then(|symbol| edges(before, symbol));
            let start = slot.bar.symbols.first();
            let start = start.and_then(|symbol| edges(slot, symbol));
            let (Some((_, end)), Some((start, _))) = (end, start) else {
                continue;
            };
            let last = before.distances.least.last().copied().unwrap_or(0.0);
            let apart = last + slot.distances.least[0] + start - end;
            let missing = (spacing::FINGERINGS_APART - apart).max(0.0);
            slots[index].distances.least[0] += missing;
            slots[index].distances.natural[0] += missing;
        }
    }

    /// Gives every bar its line and the room for it, and every hairpin its room.
    fn complete(&self, slots: &mut [Slot], room: f64) {
        let last = slots.len().saturating_sub(1);
        for (index, slot) in slots.iter_mut().enumerate() {
            slot.bar_line = slot.bar.closed.then_some(match slot.closes_pass {
                true if index == last => BarLine::Final,
                true => BarLine::Double,
                false => BarLine::Single,
            });
            let width = slot.bar_line.map_or(0.0, BarLine::width);
            slot.distances.make_room_for_bar_line(width);
        }
        self.part_fingerings(slots);
        let rooms = dynamics::hairpin_rooms(&self.line.melody.loudness);
        for of_pass in slots.chunk_by_mut(|a, b| a.pass == b.pass) {
            for hairpin in &rooms {
                make_room(of_pass, hairpin, room);
            }
        }
    }
}

/// Moves the notes over a hairpin apart if they are too near for it.
fn make_room(slots: &mut [Slot], hairpin: &HairpinRoom, room: f64) {
    let mut there = 0.0;
    // The distances over the hairpin that can grow.
    let mut over: Vec<(usize, usize)> = vec![];
    let mut least = hairpin.before_end;
    // A bar that began before the hairpin may hold its beginning.
    let first = slots.partition_point(|slot| slot.bar.start <= hairpin.since);
    let around = slots.iter().enumerate().skip(first.saturating_sub(1));
    for (number, slot) in around.take_while(|(_, slot)| slot.bar.start <= hairpin.at) {
        let start = slot.bar.start;
        if hairpin.since < start && start <= hairpin.at {
            there += slot.distances.least[0];
        }
        for (index, symbol) in slot.bar.symbols.iter().enumerate() {
            if hairpin.since <= symbol.at && symbol.end() <= hairpin.at {
                there += slot.distances.least[index + 1];
                over.push((number, index + 1));
            }
            if symbol.at == hairpin.at && symbol.has_head() {
                least = hairpin.under_note;
            }
        }
    }
    let missing = (least - there) / over.len().max(1) as f64;
    if missing <= 0.0 {
        return;
    }
    for (number, index) in over {
        let distances = &mut slots[number].distances;
        let wider = distances.least[index] + missing;
        let before = (distances.least[index], distances.natural[index]);
        distances.least[index] = wider;
        distances.natural[index] = distances.natural[index].max(wider);
        if distances.pressed_width() > room {
            (distances.least[index], distances.natural[index]) = before;
        }
    }
}

fn distances(part: &LinePart<'_>, pass: &LinePass<'_>, bar: &WrittenBar) -> Distances {
    let groups = beams::of_bar(bar, part.score_line.meter);
    let extents: Vec<Extent> = bar
        .symbols
        .iter()
        .enumerate()
        .map(|(index, symbol)| {
            let beamed = groups.iter().any(|group| group.contains(&index));
            extent(part, pass, symbol, beamed)
        })
        .collect();
    spacing::of_bar(&bar.symbols, &extents)
}

fn extent(
    part: &LinePart<'_>,
    pass: &LinePass<'_>,
    symbol: &WrittenSymbol,
    beamed: bool,
) -> Extent {
    let mut extent = notes::extent(symbol, beamed);
    if let Some(note) = symbol.note() {
        if note.head == 0
            && let Some(text) = &pass.fingerings[note.index]
        {
            let half = Face::Regular.width(text, part.sizes.words()) / 2.0;
            extent.fingering = Some((0.6 - half, 0.6 + half));
        }
        extent.breath = !note.tied_on && pass.pass.notes[note.index].breath.is_some();
    }
    extent
}
