//! Rounds played ticks to lengths that can be notated.

use crate::exchange::piece::on_grid;
use crate::music::Whole;

/// A note as played, in ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Struck {
    pub from: u64,
    pub to: u64,
    pub key: u8,
}

/// A note as it can be notated, in whole notes from the beginning.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Rounded {
    pub from: Whole,
    pub to: Whole,
    pub key: u8,
}

/// The grids of a quarter: how many parts it is divided into.
const GRIDS: [u64; 3] = [4, 6, 8];

/// Rounds a tune: the notes of each quarter begin at quarters of it, or sixths or eighths if those fit better.
/// Of simultaneous notes the highest is kept; a note ends where the next begins if at most a breath separates
/// them. True if some notes were simultaneous.
pub(super) fn tune(mut struck: Vec<Struck>, ticks: u64) -> (Vec<Rounded>, bool) {
    struck.sort_unstable();
    let mut starts = vec![0; struck.len()];
    let mut index = 0;
    while index < struck.len() {
        // A note slightly early belongs to the quarter that it leads into.
        let quarter = (struck[index].from + ticks / 16) / ticks;
        let in_quarter = |s: &Struck| (s.from + ticks / 16) / ticks == quarter;
        let count = struck[index..].iter().take_while(|s| in_quarter(s)).count();
        let group = &struck[index..index + count];
        let parts = grid(group, ticks);
        for (offset, note) in group.iter().enumerate() {
            starts[index + offset] = nearest(note.from, ticks, parts);
        }
        index += count;
    }
    let mut at_once = false;
    let mut notes: Vec<(u64, Struck)> = vec![];
    for (start, note) in starts.into_iter().zip(struck) {
        match notes.last_mut() {
            Some((of, before)) if *of == start => {
                at_once = true;
                if note.key > before.key {
                    *before = note;
                }
            }
            _ => notes.push((start, note)),
        }
    }
    let mut rounded = vec![];
    for (index, (start, note)) in notes.iter().enumerate() {
        let next = notes.get(index + 1).map(|(start, _)| *start);
        let end = end(*start, note, next, ticks, &mut at_once);
        let whole = |units: u64| on_grid(i128::from(units), i128::from(UNITS) * 4);
        if let (Some(from), Some(to)) = (whole(*start), whole(end)) {
            let key = note.key;
            rounded.push(Rounded { from, to, key });
        }
    }
    (rounded, at_once)
}

/// Units of a quarter in which all grids are whole numbers.
const UNITS: u64 = 24;

/// The nearest point of a grid, in units.
fn nearest(tick: u64, ticks: u64, parts: u64) -> u64 {
    let points =
        (u128::from(tick) * u128::from(parts) * 2 + u128::from(ticks)) / (2 * u128::from(ticks));
    points as u64 * (UNITS / parts)
}

/// The coarsest grid that fits almost as well as any other.
fn grid(group: &[Struck], ticks: u64) -> u64 {
    let off = |parts: u64| -> u64 {
        let distance = |s: &Struck| {
            let point = nearest(s.from, ticks, parts) * ticks / UNITS;
            point.abs_diff(s.from)
        };
        group.iter().map(distance).sum()
    };
    let trifle = ticks / 40 * group.len() as u64;
    let best = GRIDS.iter().map(|parts| off(*parts)).min().unwrap_or(0);
    let good = GRIDS.iter().find(|parts| off(**parts) <= best + trifle);
    *good.unwrap_or(&GRIDS[0])
}

/// Where a note ends, in units.
fn end(start: u64, note: &Struck, next: Option<u64>, ticks: u64, at_once: &mut bool) -> u64 {
    let played = ((note.to - note.from) * UNITS / ticks).max(1);
    let until = start + played;
    if let Some(next) = next {
        let between = next - start;
        if until > next + between / 8 {
            *at_once = true;
        }
        // Four fifths of the time to the next note, or all but a sixteenth: it was held to the next.
        if until >= next || (next - until) * 5 <= between || next - until <= UNITS / 8 {
            return next;
        }
    }
    // To the beat, if that is near, or else to the half or the quarter of one.
    for unit in [UNITS, UNITS / 2] {
        let rounded = (until + unit / 2) / unit * unit;
        if rounded > start && rounded.abs_diff(until) * 8 <= played {
            return next.map_or(rounded, |next| rounded.min(next));
        }
    }
    let unit = UNITS / 4;
    let rounded = ((until + unit / 2) / unit * unit).max(start + unit);
    next.map_or(rounded, |next| rounded.min(next))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lengths(notes: &[(u64, u64)]) -> Vec<(Whole, Whole)> {
        let struck = notes.iter().map(|(from, to)| Struck {
            from: *from,
            to: *to,
            key: 60,
        });
        let (rounded, at_once) = tune(struck.collect(), 480);
        assert!(!at_once);
        rounded.iter().map(|n| (n.from, n.to)).collect()
    }

    #[test]
    fn what_is_played_nearly_on_the_beat_is_on_it() {
        let w = Whole::new;
        // Quarters held for nine tenths, the second slightly late.
        assert_eq!(
            lengths(&[(0, 432), (492, 920), (960, 1392)]),
            [(w(0, 1), w(1, 4)), (w(1, 4), w(1, 2)), (w(1, 2), w(3, 4))]
        );
        // A triplet of eighths, then a quarter.
        assert_eq!(
            lengths(&[(0, 150), (160, 310), (320, 470), (480, 900)]),
            [
                (w(0, 1), w(1, 12)),
                (w(1, 12), w(1, 6)),
                (w(1, 6), w(1, 4)),
                (w(1, 4), w(1, 2))
            ]
        );
        // A short note is followed by a rest.
        assert_eq!(
            lengths(&[(0, 240), (480, 960)]),
            [(w(0, 1), w(1, 8)), (w(1, 4), w(1, 2))]
        );
    }
}
