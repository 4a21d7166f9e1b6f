//! How many there are of something: `1 track`, `3 tracks`.

use super::told::figures;
use super::{Language, Words, say, tell};
use crate::music::Decimal;
use std::fmt::Display;

/// A number that things are counted with.
pub trait Number: Copy + Display {
    /// True for exactly one, which takes the singular.
    fn is_one(self) -> bool;
}

macro_rules! whole_numbers {
    ($($kind:ty),*) => {
        $(impl Number for $kind {
            fn is_one(self) -> bool {
                self == 1
            }
        })*
    };
}

whole_numbers!(u8, u32, u64, usize, i32, i64);

impl Number for Decimal {
    fn is_one(self) -> bool {
        self == Decimal::from_integer(1)
    }
}

/// `1 track`, `3 tracks`. Prefer the functions below, which know both forms of their word.
pub fn count(n: impl Number, one: &str, many: &str) -> String {
    format!("{n} {}", if n.is_one() { one } else { many })
}

/// A function for each thing that is counted, and the message that says it.
macro_rules! things {
    ($($name:ident $message:ident: $one:literal, $many:literal;)*) => {
        $(
            #[doc = concat!("`1 ", $one, "`, `3 ", $many, "`.")]
            pub fn $name<N: Number>(n: N) -> Words {
                tell::$message(figures(n.to_string()))
            }
        )*

        #[cfg(test)]
        type Thing = (fn(usize) -> Words, &'static str, &'static str);

        #[cfg(test)]
        const THINGS: &[Thing] = &[$(($name::<usize>, $one, $many)),*];
    };
}

things! {
    advice n_advice: "piece of advice", "pieces of advice";
    bars n_bars: "bar", "bars";
    beats n_beats: "beat", "beats";
    errors n_errors: "error", "errors";
    faults n_faults: "fault", "faults";
    files n_files: "file", "files";
    half_steps n_half_steps: "half step", "half steps";
    hours n_hours: "hour", "hours";
    lines n_lines: "line", "lines";
    marks n_marks: "mark", "marks";
    minutes n_minutes: "minute", "minutes";
    more_notes n_more_notes: "more note", "more notes";
    notes n_notes: "note", "notes";
    other_phrases n_other_phrases: "other phrase", "other phrases";
    other_tracks n_other_tracks: "other track", "other tracks";
    pages n_pages: "page", "pages";
    partials n_partials: "partial", "partials";
    passes n_passes: "pass", "passes";
    players n_players: "player", "players";
    seconds n_seconds: "second", "seconds";
    things n_things: "thing", "things";
    tracks n_tracks: "track", "tracks";
    unfinished_files n_unfinished_files: "unfinished file", "unfinished files";
    warnings n_warnings: "warning", "warnings";
}

/// Note values: `3 quarters`, `2 halves`, `1 dotted quarter`.
pub fn note_values(n: impl Number, value: &str) -> Words {
    let number = || figures(n.to_string());
    tell::note_values(number(), number(), value.replace(' ', "-"))
}

/// How often: `once`, `twice`, `3 times`.
pub fn times(language: Language, n: u32) -> String {
    say::times(language, n)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_takes_the_singular_and_every_other_number_the_plural() {
        for (say, one, many) in THINGS {
            assert_ne!(one, many);
            assert_eq!(say(1), format!("1 {one}"));
            for n in [0, 2, 11, 21, 101] {
                assert_eq!(say(n), format!("{n} {many}"));
            }
        }
    }

    #[test]
    fn parts_of_one_take_the_plural() {
        let bars = |text: &str| bars(Decimal::parse(text).unwrap());
        assert_eq!(bars("0.5"), "0.5 bars");
        assert_eq!(bars("1.0"), "1 bar");
        assert_eq!(bars("1.5"), "1.5 bars");
    }

    #[test]
    fn note_values_and_times_have_forms_of_their_own() {
        assert_eq!(note_values(2u32, "half"), "2 halves");
        assert_eq!(note_values(1u32, "half"), "1 half");
        assert_eq!(note_values(4u32, "dotted quarter"), "4 dotted quarters");
        assert_eq!(
            [1, 2, 3].map(|n| times(Language::En, n)),
            ["once", "twice", "3 times"]
        );
    }
}
