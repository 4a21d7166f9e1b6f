//! Converts lengths to note values: plain, dotted, tied, in triplets; and handles those that are none of these.

use super::tune::{Tune, TuneEvent};
use crate::music::{Meter, NoteValue, Whole, value};
use num_traits::{Signed, Zero};
use std::sync::OnceLock;

/// A notehead with its value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Atom {
    /// Index of the event.
    pub event: usize,
    /// True for the first notehead of its event; the others are tied.
    pub first: bool,
    /// Its moment.
    pub at: Whole,
    /// Its end.
    pub end: Whole,
    /// Its written value.
    pub value: NoteValue,
    /// The triplet it belongs to, numbered from the beginning.
    pub triplet: Option<u32>,
}

/// Every value of the note language, longest first.
fn values() -> &'static [NoteValue] {
    static VALUES: OnceLock<Vec<NoteValue>> = OnceLock::new();
    VALUES.get_or_init(|| {
        let names = value::NAMES.iter();
        let texts = names.flat_map(|(name, _)| [format!("{name}."), (*name).to_owned()]);
        texts.filter_map(|text| NoteValue::parse(&text)).collect()
    })
}

/// The fewest values that add up to a length, longest first.
fn made_of(length: Whole) -> Option<Vec<NoteValue>> {
    if !is_written(length) {
        return None;
    }
    let mut made = vec![];
    let mut left = length;
    while !left.is_zero() {
        // The longest that fits may leave a thirty-second; the next shorter one then does not.
        let mut fitting = values().iter().filter(|value| value.length() <= left);
        let value = fitting.find(|value| is_written(left - value.length()))?;
        left -= value.length();
        made.push(*value);
    }
    Some(made)
}

/// True for lengths that values can add up to: any number of thirty-seconds except one.
fn is_written(length: Whole) -> bool {
    let parts = length * Whole::from_integer(32);
    parts.is_integer() && parts != Whole::from_integer(1) && !length.is_negative()
}

/// Writes the noteheads of events as values. `cuts` are moments at which a notehead must end. `None` if a
/// length cannot be written.
pub(super) fn atoms(events: &[TuneEvent], cuts: &[Whole], bars: &[Whole]) -> Option<Vec<Atom>> {
    let heads = heads(events, cuts, bars);
    let mut atoms = vec![];
    let mut triplets = 0;
    let mut index = 0;
    while index < heads.len() {
        let head = heads[index];
        if is_written(head.length()) {
            head.write(head.length(), None, &mut atoms)?;
            index += 1;
            continue;
        }
        let count = triplet(&heads[index..], bars)?;
        triplets += 1;
        for head in &heads[index..index + count] {
            let inside = head.length() * Whole::new(3, 2);
            if !is_written(inside) {
                return None;
            }
            head.write(inside, Some(triplets), &mut atoms)?;
        }
        index += count;
    }
    Some(atoms)
}

/// How many noteheads, from the first on, make up a full triplet, which no bar line may cross.
fn triplet(heads: &[Head], bars: &[Whole]) -> Option<usize> {
    let start = heads[0].at;
    let bar = bars.get(bars.partition_point(|bar| *bar <= start));
    for (index, head) in heads.iter().enumerate() {
        if bar.is_some_and(|bar| head.end > *bar) {
            return None;
        }
        let full = (head.end - start) * Whole::from_integer(16);
        if full.is_integer() {
            return Some(index + 1);
        }
    }
    None
}

/// A notehead without a value.
#[derive(Clone, Copy)]
struct Head {
    event: usize,
    first: bool,
    at: Whole,
    end: Whole,
}

impl Head {
    fn length(self) -> Whole {
        self.end - self.at
    }

    fn write(self, length: Whole, triplet: Option<u32>, atoms: &mut Vec<Atom>) -> Option<()> {
        let scale = match triplet {
            Some(_) => Whole::new(2, 3),
            None => Whole::from_integer(1),
        };
        let mut at = self.at;
        for (index, value) in made_of(length)?.into_iter().enumerate() {
            let end = at + value.length() * scale;
            atoms.push(Atom {
                event: self.event,
                first: self.first && index == 0,
                at,
                end,
                value,
                triplet,
            });
            at = end;
        }
        Some(())
    }
}

/// True if a notehead can be written as two, tied at `moment`.
pub(super) fn can_cut(at: Whole, end: Whole, moment: Whole) -> bool {
    let sixteenths = |length: Whole| (length * Whole::from_integer(16)).is_integer();
    at < moment && moment < end && sixteenths(moment - at) && sixteenths(end - moment)
}

fn heads(events: &[TuneEvent], cuts: &[Whole], bars: &[Whole]) -> Vec<Head> {
    let mut cuts = cuts.to_vec();
    cuts.sort_unstable();
    let mut heads = vec![];
    for (event, of) in events.iter().enumerate() {
        for (index, (at, length)) in of.heads.iter().enumerate() {
            let end = *at + *length;
            let mut moments = between(bars, *at, end).to_vec();
            let cuts = between(&cuts, *at, end).iter();
            moments.extend(cuts.filter(|cut| can_cut(*at, end, **cut)));
            moments.sort();
            moments.dedup();
            moments.push(end);
            let mut from = *at;
            for (part, to) in moments.into_iter().enumerate() {
                heads.push(Head {
                    event,
                    first: index == 0 && part == 0,
                    at: from,
                    end: to,
                });
                from = to;
            }
        }
    }
    heads
}

/// Those of the moments, which are in order, that lie inside a stretch.
fn between(moments: &[Whole], from: Whole, to: Whole) -> &[Whole] {
    let first = moments.partition_point(|moment| *moment <= from);
    let count = moments[first..].partition_point(|moment| *moment < to);
    &moments[first..first + count]
}

/// How the lengths of a line were converted to values.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Brought {
    /// All are written so many times as long, and played so many times as fast.
    pub factor: i64,
    /// What could not be written, and was moved to the nearest sixteenth.
    pub moved: Moved,
}

/// The measures of notes whose lengths have no value.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Moved {
    /// Of those that begin or end at another moment.
    pub notes: Vec<usize>,
    /// Of those that are too short to be written at all.
    pub lost: Vec<usize>,
}

/// Converts the lengths of a tune to values, multiplied or rounded if necessary.
pub(super) fn bring(tune: &mut Tune, meter: Meter) -> Brought {
    let can_be = |tune: &Tune| atoms(&tune.events, &[], &bar_lines(tune)).is_some();
    let exactly = |factor| {
        let moved = Moved::default();
        Brought { factor, moved }
    };
    if can_be(tune) {
        return exactly(1);
    }
    for factor in [2, 4] {
        let mut longer = tune.clone();
        lengthen(&mut longer, factor);
        if longer_meter(meter, factor).is_some() && can_be(&longer) {
            *tune = longer;
            return exactly(factor);
        }
    }
    // So that as few notes as possible are lost.
    let mut best: Option<(Brought, Tune)> = None;
    for factor in [1, 2, 4] {
        let mut rounded = tune.clone();
        lengthen(&mut rounded, factor);
        if factor > 1 && longer_meter(meter, factor).is_none() {
            continue;
        }
        let moved = round(&mut rounded);
        let least = best.as_ref().map(|(best, _)| best.moved.lost.len());
        if least.is_none_or(|least| moved.lost.len() < least) {
            best = Some((Brought { factor, moved }, rounded));
        }
    }
    let (brought, rounded) = best.expect("one way is always there");
    *tune = rounded;
    brought
}

/// Moments at which bar lines are written.
pub(super) fn bar_lines(tune: &Tune) -> Vec<Whole> {
    if !tune.regular {
        return vec![];
    }
    tune.bars.iter().skip(1).map(|b| b.start).collect()
}

/// The meter with bars `factor` times as long.
pub(super) fn longer_meter(meter: Meter, factor: i64) -> Option<Meter> {
    let unit = i64::from(meter.unit()) / factor;
    let beats = i64::from(meter.beats());
    Meter::parse(&format!("{beats}/{unit}")).or_else(|| {
        // Halves are the longest beat.
        let beats = beats * factor * 2 / i64::from(meter.unit());
        let whole = (i64::from(meter.beats()) * factor * 2) % i64::from(meter.unit()) == 0;
        whole.then(|| Meter::parse(&format!("{beats}/2"))).flatten()
    })
}

fn lengthen(tune: &mut Tune, factor: i64) {
    let factor = Whole::from_integer(factor);
    for event in &mut tune.events {
        for (at, length) in &mut event.heads {
            *at *= factor;
            *length *= factor;
        }
    }
    for change in &mut tune.changes {
        change.at *= factor;
    }
    for bar in &mut tune.bars {
        bar.start *= factor;
        bar.length *= factor;
    }
}

/// Moves what cannot be written to the nearest sixteenth. Beats that can be written stay.
fn round(tune: &mut Tune) -> Moved {
    let bars = bar_lines(tune);
    let sixteenth = Whole::new(1, 16);
    let nearest = |moment: Whole| (moment / sixteenth).round() * sixteenth;
    let mut moved = Moved::default();
    let events = std::mem::take(&mut tune.events);
    let mut kept: Vec<TuneEvent> = vec![];
    let mut index = 0;
    while index < events.len() {
        // Up to the next moment on the sixteenth grid in both: this part may be written as it is.
        let mut end = index + 1;
        while end < events.len() && !((events[end].start() / sixteenth).is_integer()) {
            end += 1;
        }
        let group = &events[index..end];
        let whole = (group[group.len() - 1].end() / sixteenth).is_integer();
        if whole && atoms(group, &[], &bars).is_some() {
            kept.extend(group.iter().cloned());
        } else {
            for event in group {
                let mut event = event.clone();
                let from = nearest(event.start());
                let to = nearest(event.end());
                let stays = (from, to) == (event.start(), event.end());
                if !event.is_rest() && to <= from {
                    moved.lost.push(event.measure);
                } else if !event.is_rest() && !stays {
                    moved.notes.push(event.measure);
                }
                if to > from {
                    event.heads = vec![(from, to - from)];
                    kept.push(event);
                }
            }
        }
        index = end;
    }
    for bar in &mut tune.bars {
        let end = nearest(bar.start + bar.length);
        bar.start = nearest(bar.start);
        bar.length = end - bar.start;
    }
    tune.events = kept;
    moved
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_of_thirty_seconds_but_one_is_made_of_values() {
        assert_eq!(made_of(Whole::new(1, 32)), None);
        for n in 2..200 {
            let length = Whole::new(n, 32);
            let values = made_of(length).unwrap_or_else(|| panic!("{length}"));
            let sum: Whole = values.iter().map(|v| v.length()).sum();
            assert_eq!(sum, length);
        }
    }

    #[test]
    fn bars_can_be_twice_as_long() {
        let longer = |text: &str, factor| {
            longer_meter(Meter::parse(text).unwrap(), factor).map(|m| m.to_string())
        };
        assert_eq!(longer("2/4", 2).as_deref(), Some("2/2"));
        assert_eq!(longer("6/8", 2).as_deref(), Some("6/4"));
        assert_eq!(longer("6/8", 4).as_deref(), Some("6/2"));
        assert_eq!(longer("2/2", 2).as_deref(), Some("4/2"));
        assert_eq!(longer("9/2", 2), None);
    }
}
