//! Lengths of time: as on a player, in a sentence, and roughly.

use super::{Language, say};

/// Hours, minutes and seconds of a length rounded to the second.
fn parts(seconds: f64) -> (u64, u64, u64) {
    let whole = libm::round(seconds) as u64;
    (whole / 3600, whole / 60 % 60, whole % 60)
}

/// As a player shows it: `9:41`, `1:02:03`.
pub fn duration(seconds: f64) -> String {
    match parts(seconds) {
        (0, m, s) => format!("{m}:{s:02}"),
        (h, m, s) => format!("{h}:{m:02}:{s:02}"),
    }
}

/// In a sentence with other figures: `8 s`, `1 min 20 s`, `1 h 2 min`.
pub fn with_units(seconds: f64) -> String {
    let (h, m, s) = parts(seconds);
    let units = [(h, "h"), (m, "min"), (s, "s")];
    let said: Vec<String> = units
        .iter()
        .filter(|(n, _)| *n > 0)
        .map(|(n, unit)| format!("{n} {unit}"))
        .collect();
    if said.is_empty() {
        "0 s".to_owned()
    } else {
        said.join(" ")
    }
}

/// In a sentence of words: "20 seconds", "1 minute", "1:20 minutes", "1:02:03 hours".
pub fn in_words(language: Language, seconds: f64) -> String {
    match parts(seconds) {
        (0, 0, s) => say::seconds(language, s),
        (0, m, 0) => say::minutes(language, m),
        (0, ..) => say::minutes_on_a_clock(language, duration(seconds)),
        (h, 0, 0) => say::hours(language, h),
        _ => say::hours_on_a_clock(language, duration(seconds)),
    }
}

/// Roughly how long something lasts and how much of that is playing: "about 12 minutes, 7 of them playing",
/// "about 36 seconds, 18 of them playing", "about 1 minute, 40 seconds of it playing".
pub fn and_playing(language: Language, seconds: f64, playing: f64) -> String {
    let whole = Rough::of(seconds).at_least_a_second();
    let said = whole.said(language);
    match (whole, Rough::of(playing.min(seconds))) {
        (_, Rough::Seconds(0)) => say::playing_less_than_a_second(language, said),
        (Rough::Seconds(_), Rough::Seconds(n)) | (Rough::Minutes(_), Rough::Minutes(n))
            if n > 1 =>
        {
            say::playing_so_many_of_them(language, said, n)
        }
        (whole, playing) if whole == playing => say::playing_most_of_it(language, said),
        (_, playing) => say::playing_part_of_it(language, said, playing.said(language)),
    }
}

/// A length in the unit that one would name it in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Rough {
    /// Less than a minute.
    Seconds(u64),
    /// Less than an hour.
    Minutes(u64),
    /// An hour and more: hours and minutes.
    Hours(u64, u64),
}

impl Rough {
    fn of(seconds: f64) -> Self {
        let whole = libm::round(seconds) as u64;
        if whole < 60 {
            return Rough::Seconds(whole);
        }
        match libm::round(seconds / 60.0) as u64 {
            minutes @ ..60 => Rough::Minutes(minutes),
            minutes => Rough::Hours(minutes / 60, minutes % 60),
        }
    }

    fn said(self, language: Language) -> String {
        match self {
            Rough::Seconds(n) => say::seconds(language, n),
            Rough::Minutes(n) => say::minutes(language, n),
            Rough::Hours(n, 0) => say::hours(language, n),
            Rough::Hours(n, minutes) => say::hours_and_minutes(
                language,
                say::hours(language, n),
                say::minutes(language, minutes),
            ),
        }
    }

    fn at_least_a_second(self) -> Self {
        match self {
            Rough::Seconds(0) => Rough::Seconds(1),
            longer => longer,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn lengths_read_as_on_a_player() {
        assert_eq!(duration(0.4), "0:00");
        assert_eq!(duration(59.6), "1:00");
        assert_eq!(duration(3599.4), "59:59");
        assert_eq!(duration(3723.0), "1:02:03");
        assert_eq!(duration(14_400.0), "4:00:00");
    }

    #[test]
    fn lengths_are_said_with_units() {
        let said = [0.2, 8.4, 80.0, 119.6, 3600.0, 3723.0].map(with_units);
        let right = ["0 s", "8 s", "1 min 20 s", "2 min", "1 h", "1 h 2 min 3 s"];
        assert_eq!(said, right);
    }

    #[test]
    fn lengths_are_said_in_words() {
        let said = [1.0, 20.0, 60.0, 80.0, 120.0, 3600.0, 3723.0, 7200.0]
            .map(|s| in_words(Language::En, s));
        let right = [
            "1 second",
            "20 seconds",
            "1 minute",
            "1:20 minutes",
            "2 minutes",
            "1 hour",
            "1:02:03 hours",
            "2 hours",
        ];
        assert_eq!(said, right);
    }

    #[test]
    fn playing_is_said_in_the_unit_that_fits() {
        for (seconds, playing, right) in [
            (0.6, 0.3, "about 1 second, less than a second of it playing"),
            (2.0, 1.0, "about 2 seconds, 1 second of it playing"),
            (36.0, 18.0, "about 36 seconds, 18 of them playing"),
            (59.6, 31.0, "about 1 minute, 31 seconds of it playing"),
            (75.0, 59.6, "about 1 minute, most of it playing"),
            (80.0, 40.0, "about 1 minute, 40 seconds of it playing"),
            (89.0, 70.0, "about 1 minute, most of it playing"),
            (100.0, 50.0, "about 2 minutes, 50 seconds of it playing"),
            (180.0, 80.0, "about 3 minutes, 1 minute of it playing"),
            (240.0, 120.0, "about 4 minutes, 2 of them playing"),
            (720.0, 400.0, "about 12 minutes, 7 of them playing"),
            (3569.0, 1800.0, "about 59 minutes, 30 of them playing"),
            (3600.0, 1800.0, "about 1 hour, 30 minutes of it playing"),
            (
                3723.0,
                1800.0,
                "about 1 hour and 2 minutes, 30 minutes of it playing",
            ),
            (
                14_400.0,
                7260.0,
                "about 4 hours, 2 hours and 1 minute of it playing",
            ),
        ] {
            assert_eq!(and_playing(Language::En, seconds, playing), right);
        }
    }

    /// What is wrong with a sentence, if a number in it does not agree with the word after it.
    fn disagreement(said: &str) -> Option<String> {
        let words: Vec<&str> = said.split([' ', ',']).filter(|w| !w.is_empty()).collect();
        let wrong = words.windows(3).find(|three| {
            let Ok(n) = three[0].parse::<u64>() else {
                return false;
            };
            match three[1] {
                "of" => three[2] != "them" || n < 2,
                unit => unit.ends_with('s') != (n != 1),
            }
        });
        wrong.map(|three| three.join(" "))
    }

    proptest! {
        #[test]
        fn numbers_and_words_agree(seconds in 0.5f64..15_000.0, part in 0.0f64..=1.0) {
            let said = and_playing(Language::En, seconds, seconds * part);
            prop_assert_eq!(disagreement(&said), None, "{}", said);
            // "them" are the units of the whole, so there must be several.
            if said.contains("of them") {
                let first = said.split(' ').nth(1).unwrap();
                prop_assert_ne!(first, "1", "{}", said);
            }
        }

        #[test]
        fn a_length_is_what_it_reads_as(seconds in 0u64..15_000) {
            let said = duration(seconds as f64);
            let read = said.split(':').fold(0, |sum, n| 60 * sum + n.parse::<u64>().unwrap());
            prop_assert_eq!(read, seconds);
            prop_assert!(said.split(':').skip(1).all(|n| n.len() == 2 && n < "60"), "{}", said);
        }
    }
}
