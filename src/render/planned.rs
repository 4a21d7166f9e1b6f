//! The tracks of planned takes, and their labels.

use super::{Labels, Track};
use crate::brass::caution;
use crate::edition::{Plan, PlannedTake, name};
use crate::routine::Routine;
use crate::score::{Take, spoken};
use crate::timeline::compile::{Settings, compile};
use crate::words::key;

/// The tracks of a plan, in its order. `whose` is the player whose marks are applied, `origin` the routine they
/// belong to.
pub fn tracks<'p>(
    plan: &'p Plan<'_>,
    whose: Option<&str>,
    origin: Option<&str>,
    settings: &Settings,
) -> Vec<Track<'p>> {
    let settings = *settings;
    let of = plan.takes.len();
    let track = |(planned, number): (&'p PlannedTake<'_>, u32)| Track {
        name: planned.name.clone(),
        labels: labels(planned.score.routine, whose, &planned.take, number, of),
        origin: origin.map(str::to_owned),
        frames: planned.frames(settings.sample_rate),
        like: vec![],
        twin: None,
        fingerprint: None,
        timeline: Box::new(move || compile(&planned.score, &settings)),
    };
    plan.takes.iter().zip(numbers(plan)).map(track).collect()
}

/// The labels of a take, number `number` of `of` in practice order. `whose` is the player whose marks are
/// applied.
pub fn labels(
    routine: &Routine,
    whose: Option<&str>,
    take: &Take,
    number: u32,
    of: usize,
) -> Labels {
    let language = routine.words_in;
    let title = one_row(&routine.title);
    Labels {
        routine: match whose {
            Some(player) => format!("{title}, {}", one_row(player)),
            None => title,
        },
        take: spoken::facts(language, take, routine),
        number,
        of: u32::try_from(of).unwrap_or(u32::MAX),
        tempo: take
            .tempo
            .base(routine)
            .map_or_else(|_| take.tempo.to_string(), |tempo| language.number(tempo)),
        key: key::short(language, take.key),
        caution: caution::short(language).to_owned(),
        language,
    }
}

/// The position of each take in practice order, from 1.
fn numbers(plan: &Plan<'_>) -> Vec<u32> {
    in_practice(plan.takes.iter().map(|take| take.name.as_str()))
}

/// The position of each name in practice order, from 1.
fn in_practice<'n>(names: impl Iterator<Item = &'n str>) -> Vec<u32> {
    let names: Vec<&str> = names.collect();
    let mut order: Vec<usize> = (0..names.len()).collect();
    order.sort_by(|a, b| name::order(names[*a], names[*b]));
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
        assert_eq!(in_practice(names.into_iter()), [3, 1, 2]);
    }

    #[test]
    fn a_title_is_one_row() {
        assert_eq!(one_row(" two\n rows\t"), "two rows");
    }
}
