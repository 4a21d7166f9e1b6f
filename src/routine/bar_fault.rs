//! A bar with more or less than its meter allows.

use super::fault::{Fault, Span};
use crate::music::{Meter, Whole};
use crate::words::{beats, count};
use num_traits::{Signed, Zero};

/// The fault of the bar of this number, which has this length. `span` is its end.
pub(super) fn of(number: u32, held: Whole, meter: Meter, span: Span) -> Fault {
    let bar = meter.bar();
    let off = in_words(length((held - bar).abs(), meter));
    let which = if held < bar { "short" } else { "too long" };
    let message = if held.is_zero() {
        format!("bar {number} is empty")
    } else {
        format!("bar {number} is {off} {which}")
    };
    let hint = if held.is_zero() {
        format!("one | parts two bars; a silent bar of {meter} is written with rests")
    } else {
        let whole = if meter.is_compound() {
            length(bar, meter)
        } else {
            count::note_values(meter.clicks_per_bar(), meter.click_name())
        };
        format!(
            "a bar of {meter} holds {whole}; this one holds {}",
            length(held, meter)
        )
    };
    let fault = Fault::new(span, message).hint(hint);
    if number == 1 && held < bar {
        let hint = format!(
            "{}; a pickup is written as a whole bar that begins with rests",
            fault.hint.as_deref().unwrap_or_default()
        );
        fault.hint(hint)
    } else {
        fault
    }
}

/// With a small number as a word: "two eighths", "one eighth".
fn in_words(length: String) -> String {
    const WORDS: [&str; 5] = ["one", "two", "three", "four", "five"];
    let word = |number: &str| {
        WORDS
            .get(number.parse::<usize>().ok()?.checked_sub(1)?)
            .copied()
    };
    match length.split_once(' ') {
        Some((number, eighths)) if eighths.starts_with("eighth") => {
            format!("{} {eighths}", word(number).unwrap_or(number))
        }
        _ => length,
    }
}

/// A length in beats. In 6/8, where a beat is a dotted quarter and nobody counts thirds of it, in eighths.
fn length(length: Whole, meter: Meter) -> String {
    let eighths = length * Whole::from_integer(8);
    if meter.is_compound() && eighths.is_integer() {
        count::note_values(eighths.to_integer(), "eighth")
    } else {
        beats::in_words(length / meter.click()).into()
    }
}
