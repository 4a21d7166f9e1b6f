//! A way for a player who is stuck on one note: a tube on which a second note lies near.

use crate::brass::{Instrument, Tube, partials};
use crate::music::WrittenPitch;
use crate::words::{Words, interval, list, tell};

/// The lengths of tube, longest first.
fn tubes(instrument: &Instrument) -> Vec<Tube> {
    let mut lengths: Vec<Tube> = instrument.lengths().collect();
    lengths.reverse();
    lengths
}

/// How many tubes are offered.
const OFFERED: usize = 3;

/// Two neighbouring notes of one tube, one of which the player has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pair {
    /// The tube.
    pub tube: Tube,
    /// The note that the player has.
    pub note: WrittenPitch,
    /// The note beside it on that tube.
    pub second: WrittenPitch,
    /// The lower of their partials.
    pub partial: u8,
}

impl Pair {
    fn half_steps(&self) -> i32 {
        (self.note.number() - self.second.number()).abs()
    }

    fn rises(&self) -> bool {
        self.second.number() > self.note.number()
    }
}

/// The tubes that sound `note` and another one near it, the nearest first. A second note below comes before any above: the
/// lips let go more easily than they take hold.
pub fn pairs(instrument: &Instrument, note: WrittenPitch) -> Vec<Pair> {
    let mut found = vec![];
    for tube in tubes(instrument) {
        let usable: Vec<(u8, WrittenPitch)> = partials::usable(instrument, tube)
            .filter(|(_, pitch)| instrument.can_reach(*pitch))
            .collect();
        for pair in usable.windows(2) {
            let [(partial, low), (_, high)] = [pair[0], pair[1]];
            let second = match note.number() {
                n if n == low.number() => high,
                n if n == high.number() => low,
                _ => continue,
            };
            found.push(Pair {
                tube,
                note,
                second,
                partial,
            });
        }
    }
    found.sort_by_key(|pair| (pair.rises(), pair.half_steps()));
    found
}

/// The way in sentences, one for each step, and a line of a routine that goes it; `None` for a note that no tube sounds.
pub fn way(instrument: &Instrument, note: WrittenPitch) -> Option<(Vec<Words>, String)> {
    let pairs = pairs(instrument, note);
    let pair = pairs.first()?;
    let (low, high) = if pair.rises() {
        (pair.note, pair.second)
    } else {
        (pair.second, pair.note)
    };
    let side = if pair.rises() { "above" } else { "below" };
    let others: Vec<Words> = pairs[1..]
        .iter()
        .take(OFFERED)
        .map(|p| {
            let on = Words::of(|language| instrument.on_tube(language, p.tube));
            Words::joined(&[p.second.into(), on], " ")
        })
        .collect();
    let others = if others.is_empty() {
        Words::default()
    } else {
        tell::else_try(list::any(&others))
    };
    let shorter: Vec<Tube> = tubes(instrument)
        .into_iter()
        .skip_while(|tube| *tube != pair.tube)
        .collect();
    let last = shorter.last()?;
    let of = |tube: Tube, partial| partials::written(instrument, tube, partial);
    let upper = partials::next_in_tune(pair.partial);
    let mut steps = vec![
        tell::two_notes(
            note,
            Words::of(|language| instrument.on_tube(language, pair.tube)),
            pair.second,
            interval::name(pair.half_steps()),
            side,
            &others,
        ),
        tell::then_slur(high, low),
    ];
    let names: Vec<String> = shorter.iter().map(Tube::to_string).collect();
    let ends = (of(*last, pair.partial), of(*last, upper));
    steps.extend(shortened(instrument, &shorter[1..], ends));
    let line = line(
        *pair,
        (
            of(instrument.open(), pair.partial),
            of(instrument.open(), upper),
        ),
        &names,
    );
    Some((steps, line))
}

/// The step through these shorter tubes, on the last of which the two notes are `ends`; `None` if there are none.
fn shortened(
    instrument: &Instrument,
    tubes: &[Tube],
    (low, high): (WrittenPitch, WrittenPitch),
) -> Option<Words> {
    let last = tubes.last()?;
    let named = |tube: &Tube| match tube.is_open() {
        true => tell::without_valves(),
        false => tube.to_string().into(),
    };
    let fingered: Vec<Words> = tubes.iter().map(named).collect();
    let unit = match instrument.has_slide() {
        true => "position",
        false => "valve",
    };
    Some(tell::then_shorten(
        unit,
        list::all(&fingered),
        Words::of(|language| instrument.on_tube(language, *last)),
        low,
        high,
    ))
}

/// A line of a routine that goes the way: `low` and `high` are the pair's partials on the open horn.
fn line(pair: Pair, (low, high): (WrittenPitch, WrittenPitch), tubes: &[String]) -> String {
    let (start, other) = if pair.rises() {
        (low, high)
    } else {
        (high, low)
    };
    let tubes: Vec<String> = tubes.iter().map(|t| format!("\"{t}\"")).collect();
    format!(
        "[[line]]\nname = \"A second note\"\nsay = \"Let the second note come by itself, and stop at the tube where it \
         does not.\"\nopen = \"mp {start}:half. rest:quarter | {other}:half. rest:quarter | slur( {high}:half {low}:half ) | \
         slur( {low}:half {high}:half ) | rest:whole\"\ntubes = [{}]\n",
        tubes.join(", ")
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn trumpet() -> &'static Instrument {
        Instrument::named("trumpet").unwrap()
    }

    fn first(note: &str) -> (String, String) {
        let pair = pairs(trumpet(), WrittenPitch::parse(note).unwrap())[0];
        (pair.tube.to_string(), pair.second.to_string())
    }

    #[test]
    fn the_nearest_note_on_any_tube_is_found_for_every_note() {
        assert_eq!(first("A3"), ("1-2".to_owned(), "E4".to_owned()));
        assert_eq!(first("C4"), ("0".to_owned(), "G4".to_owned()));
        assert_eq!(first("G4"), ("1-3".to_owned(), "D4".to_owned()));
        assert_eq!(first("C5"), ("2-3".to_owned(), "Ab4".to_owned()));
        for number in trumpet().lowest.number()..=trumpet().highest.number() {
            let note = WrittenPitch::from_number(number);
            let pairs = pairs(trumpet(), note);
            assert!(!pairs.is_empty(), "{note}");
            for pair in pairs {
                for sounds in [pair.note, pair.second] {
                    assert!(partials::on_tube(trumpet(), pair.tube, sounds).is_some());
                }
                assert!(pair.half_steps() <= 7, "{note}: {pair:?}");
            }
        }
    }

    #[test]
    fn the_line_can_be_read_and_begins_with_the_note_itself() {
        let head = "format = 1\ntitle = \"Way\"\ninstrument = \"trumpet in B-flat\"\n\
                    comfortable_top = \"G4\"\ntempo = 60\n\n";
        for note in ["G4", "A3", "E4", "C5", "F#3"] {
            let note = WrittenPitch::parse(note).unwrap();
            let (_, line) = way(trumpet(), note).unwrap();
            let routine = crate::routine::read(&format!("{head}{line}")).unwrap();
            let score = crate::score::unroll(&routine, &crate::score::Take::default()).unwrap();
            let crate::score::Played::Pitch { written, .. } =
                score.lines[0].passes[0].notes[0].played
            else {
                panic!("a note");
            };
            assert_eq!(written.number(), note.number());
        }
    }
}
