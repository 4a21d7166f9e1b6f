//! Places to breathe in a long phrase.

use super::place::{At, Mend};
use crate::edit::{Edit, SignPlace, signs_in};
use crate::words::say;

/// How many places of a line are tried.
const MOST_PLACES: usize = 24;

/// A breath after one of the notes of the phrase, from its middle outwards; or two of them.
pub fn of(place: &At<'_>, line: usize) -> Vec<Mend> {
    let Some(span) = place.problem.place.map(|place| place.span) else {
        return vec![];
    };
    let signs = signs_in(place.text, line).unwrap_or_default();
    let inside: Vec<&SignPlace> = signs
        .iter()
        .filter(|sign| {
            sign.is_note() && sign.place.start >= span.start && sign.place.end <= span.end
        })
        .collect();
    let middle = inside.len() / 2;
    let mut order: Vec<usize> = (0..inside.len()).collect();
    order.sort_by_key(|index| (index.abs_diff(middle), *index));
    let breath = |at: usize| Edit::Breath { line, at, on: true };
    let ones = order.iter().take(MOST_PLACES).filter_map(|index| {
        let sign = inside[*index];
        let number = number_of(&signs, sign);
        let says = say::mend_breath(place.routine.words_in, number, &sign.head);
        place.mend(says, &[breath(sign.at)])
    });
    let mut mends: Vec<Mend> = ones.collect();
    let third = inside.len() / 3;
    if third > 0 {
        let (first, second) = (inside[third - 1], inside[2 * third - 1]);
        let (a, b) = (number_of(&signs, first), number_of(&signs, second));
        let says = say::mend_breaths(place.routine.words_in, a, b);
        mends.extend(place.mend(says, &[breath(second.at), breath(first.at)]));
    }
    mends
}

/// Which note of the line it is, from 1.
fn number_of(signs: &[SignPlace], sign: &SignPlace) -> usize {
    let before = signs
        .iter()
        .filter(|one| one.is_note() && one.at <= sign.at);
    before.count()
}
