//! Which notes share a beam: those of one beat of the meter.

use super::written::{WrittenBar, WrittenSymbol};
use crate::music::{Meter, Whole};
use num_traits::Zero;

/// The moments in a bar, from its start, where a new beam begins.
///
/// A beat is a click. Where the beats are eighths, two of them form a group and an odd one joins the last group; three
/// form one group.
fn groups(meter: Meter) -> Vec<Whole> {
    let beat = meter.click();
    let clicks = i64::from(meter.clicks_per_bar());
    if meter.unit() == 8 && !meter.is_compound() {
        let pairs = (clicks / 2).max(1);
        return (0..pairs)
            .map(|n| beat * Whole::from_integer(2 * n))
            .collect();
    }
    (0..clicks).map(|n| beat * Whole::from_integer(n)).collect()
}

/// Which beat of the bar a moment lies in.
fn beat_of(starts: &[Whole], moment: Whole) -> usize {
    starts.iter().filter(|start| **start <= moment).count()
}

/// Groups of two or more symbols that a beam joins, as indices into the bar.
pub fn of_bar(bar: &WrittenBar, meter: Meter) -> Vec<Vec<usize>> {
    let length = meter.bar();
    let bar_start = (bar.start / length).floor() * length;
    let starts = groups(meter);
    let mut all: Vec<Vec<usize>> = vec![];
    let mut open: Option<(usize, Vec<usize>)> = None;
    for (index, symbol) in bar.symbols.iter().enumerate() {
        let beamed = symbol.has_head() && symbol.value.flags() > 0;
        let beat = beat_of(&starts, symbol.at - bar_start);
        match &mut open {
            Some((of, group)) if beamed && *of == beat => group.push(index),
            _ => {
                all.extend(open.take().map(|(_, group)| group));
                open = beamed.then(|| (beat, vec![index]));
            }
        }
    }
    all.extend(open.map(|(_, group)| group));
    all.retain(|group| group.len() > 1);
    all
}

/// A beam of one level: from one note of the group to another, or a stub at one note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// From one note of the group to another.
    Between(usize, usize),
    /// A short stroke at a note, to the right (`true`) or to the left.
    Stub(usize, bool),
}

/// The strokes of a group, each with its level. Level 0 is the beam that joins all notes.
pub fn strokes(symbols: &[WrittenSymbol]) -> Vec<(usize, Stroke)> {
    let most = symbols.iter().map(|s| s.value.flags()).max().unwrap_or(0);
    let mut strokes = vec![];
    for level in 0..most {
        let mut run: Option<(usize, usize)> = None;
        let close = |run: &mut Option<(usize, usize)>, strokes: &mut Vec<(usize, Stroke)>| {
            let Some((from, to)) = run.take() else { return };
            let stroke = if from < to {
                Stroke::Between(from, to)
            } else {
                Stroke::Stub(from, points_right(symbols, from))
            };
            strokes.push((level, stroke));
        };
        for (index, symbol) in symbols.iter().enumerate() {
            if symbol.value.flags() > level {
                run = Some((run.map_or(index, |r| r.0), index));
            } else {
                close(&mut run, &mut strokes);
            }
        }
        close(&mut run, &mut strokes);
    }
    strokes
}

/// The direction of a stub: backwards after a dotted note, forwards before one.
fn points_right(symbols: &[WrittenSymbol], index: usize) -> bool {
    if index == 0 {
        return true;
    }
    if index + 1 == symbols.len() {
        return false;
    }
    let twice = symbols[index].value.length() * Whole::from_integer(2);
    let first = symbols[0].at;
    ((symbols[index].at - first) / twice).fract().is_zero()
}
