//! What players are told of a take.

use super::takes;
use crate::brass::caution;
use crate::render::{Labels, take_name};
use crate::routine::Routine;
use crate::score::Take;
use crate::words::key;

/// The labels of a take, number `number` of `of` in the order of practice. `whose` is the player whose marks
/// are in it.
pub fn of(routine: &Routine, whose: Option<&str>, take: &Take, number: u32, of: usize) -> Labels {
    let words = takes::in_words(take, routine);
    let title = one_row(&routine.title);
    Labels {
        routine: match whose {
            Some(player) => format!("{title}, {}", one_row(player)),
            None => title,
        },
        take: words.strip_prefix("at ").unwrap_or(&words).to_owned(),
        number,
        of: u32::try_from(of).unwrap_or(u32::MAX),
        tempo: take
            .tempo
            .base(routine)
            .map_or_else(|_| take.tempo.to_string(), |tempo| tempo.to_string()),
        key: key::short(take.key),
        caution: caution::SHORT.to_owned(),
    }
}

/// The place of each name in the order of practice, from 1.
pub fn numbers<'n>(names: impl Iterator<Item = &'n str>) -> Vec<u32> {
    let names: Vec<&str> = names.collect();
    let mut order: Vec<usize> = (0..names.len()).collect();
    order.sort_by(|a, b| take_name::order(names[*a], names[*b]));
    let mut numbers = vec![0; names.len()];
    for (number, place) in (1..).zip(order) {
        numbers[place] = number;
    }
    numbers
}

fn one_row(title: &str) -> String {
    let words: Vec<&str> = title
        .split(|c: char| c.is_whitespace() || c.is_control())
        .collect();
    let words: Vec<&str> = words.into_iter().filter(|w| !w.is_empty()).collect();
    words.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slow_tracks_come_first_in_practice() {
        let names = [
            "s 072 key-0 together",
            "s 050.4 key-0 together",
            "s 061.2 key-0 echo",
        ];
        assert_eq!(numbers(names.into_iter()), [3, 1, 2]);
    }

    #[test]
    fn a_title_is_one_row() {
        assert_eq!(one_row(" two\n rows\t"), "two rows");
    }
}
