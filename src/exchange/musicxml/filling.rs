//! Makes whole bars of what was read: in order, without gaps, and cut where a repeat sign stands inside.

use super::reading::Reading;
use crate::exchange::piece::{Measure, MeasureSymbol, SymbolKind};
use crate::music::Whole;
use num_traits::{Signed, Zero};

/// Puts symbols in order, without overlaps, and fills gaps with rests.
pub(super) fn fill(reading: &mut Reading<'_>) {
    let mut symbols = std::mem::take(&mut reading.measure.symbols);
    symbols.sort_by_key(|s| s.at);
    // In a staff whose voices alternate, the rests of one stand beside the notes of the other.
    let notes: Vec<(Whole, Whole)> = symbols
        .iter()
        .filter(|s| s.what != SymbolKind::Rest)
        .map(|s| (s.at, s.at + s.length))
        .collect();
    symbols.retain(|s| {
        let before = notes.partition_point(|(at, _)| *at < s.at + s.length);
        let covered = before > 0 && notes[before - 1].1 > s.at;
        s.what != SymbolKind::Rest || !covered
    });
    let mut filled: Vec<MeasureSymbol> = Vec::with_capacity(symbols.len());
    let mut now = Whole::zero();
    for mut symbol in symbols {
        if symbol.at < now {
            if symbol.what != SymbolKind::Rest {
                reading.lose("of notes that overlap one is cut where the other begins or ends");
            }
            // A symbol that lasts beyond the start of the next one is cut short.
            let end = symbol.at + symbol.length;
            if let Some(before) = filled.last_mut()
                && before.at < symbol.at
            {
                before.length = symbol.at - before.at;
            } else if end > now {
                symbol.length = end - now;
                symbol.at = now;
            } else {
                continue;
            }
        } else if symbol.at > now {
            filled.push(MeasureSymbol::plain(now, symbol.at - now, SymbolKind::Rest));
        }
        now = symbol.at + symbol.length;
        if symbol.length.is_positive() {
            filled.push(symbol);
        } else if symbol.what != SymbolKind::Rest {
            reading.lose("notes without a length are left out");
        }
    }
    let measure = &mut *reading.measure;
    if now < measure.length {
        filled.push(MeasureSymbol::plain(
            now,
            measure.length - now,
            SymbolKind::Rest,
        ));
    }
    measure.length = measure.length.max(now);
    measure.symbols = filled;
}

/// Gives a silent bar its length: its own, or that of a full bar where its sign means one. `of_bar` is true if the
/// rest is said to be that of a whole bar.
pub(super) fn set_rest(measure: &mut Measure, bar: Whole, of_bar: bool) {
    let whole = Whole::from_integer(1);
    let length = match measure.symbols.as_slice() {
        [] if measure.length.is_zero() => bar,
        [rest] if rest.what == SymbolKind::Rest => {
            // A whole rest stands for a bar of any length.
            let sign = rest.length == whole && (of_bar || rest.length > bar);
            if sign { bar } else { return }
        }
        _ => return,
    };
    measure.length = length;
    for rest in &mut measure.symbols {
        rest.length = length;
    }
}

/// A bar line inside a bar: its moment, and what it says to what stands before and after it.
pub(super) struct Inside {
    pub at: Whole,
    pub signs: Measure,
}

/// Cuts a measure at the bar lines inside it that repeat something.
pub(super) fn cut(measure: Measure, inside: Vec<Inside>) -> Vec<Measure> {
    let mut parts = vec![measure];
    for Inside { at, signs } in inside {
        let before: Whole = parts.iter().rev().skip(1).map(|part| part.length).sum();
        let last = parts.last_mut().expect("there is one");
        let at = at - before;
        if !at.is_positive() || at >= last.length {
            continue;
        }
        let mut after = Measure {
            label: last.label.clone(),
            length: last.length - at,
            symbols: parted(&mut last.symbols, at),
            repeat: last.repeat.clone(),
            double_after: last.double_after,
            ..Measure::default()
        };
        after.marks = last.marks.extract_if(.., |mark| mark.at >= at).collect();
        for mark in &mut after.marks {
            mark.at -= at;
        }
        after.repeat.begins = signs.repeat.begins;
        after.repeat.ending = signs.repeat.ending;
        after.repeat.segno = false;
        let ends = &mut last.repeat;
        (ends.times, ends.ending_over) = (signs.repeat.times, signs.repeat.ending_over);
        ends.over = signs.repeat.over;
        (ends.da_capo, ends.dal_segno, ends.to_coda) = (false, false, false);
        (ends.coda, ends.fine) = (false, false);
        last.double_after = signs.double_after;
        last.length = at;
        parts.push(after);
    }
    parts
}

/// Takes the symbols from `at` on, counted from there; one that lasts beyond it becomes two, tied.
fn parted(symbols: &mut Vec<MeasureSymbol>, at: Whole) -> Vec<MeasureSymbol> {
    let mut after: Vec<MeasureSymbol> = symbols.extract_if(.., |s| s.at >= at).collect();
    for symbol in &mut after {
        symbol.at -= at;
    }
    if let Some(last) = symbols.last_mut()
        && last.at + last.length > at
    {
        let rest = last.at + last.length - at;
        let mut second = MeasureSymbol::plain(Whole::zero(), rest, last.what);
        last.length = at - last.at;
        if last.what != SymbolKind::Rest {
            (second.tied_from, second.tied_on) = (true, last.tied_on);
            last.tied_on = true;
            second.slurs_end = std::mem::take(&mut last.slurs_end);
        }
        after.insert(0, second);
    }
    after
}
