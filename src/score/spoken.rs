//! Takes in words: reading what is typed, and describing a take.

use super::{Notice, Pass, Take, TakeFault, TakeKey, TakeTempo};
use crate::brass::Instrument;
use crate::music::decimal::DecimalError;
use crate::music::key::KeyName;
use crate::music::{Decimal, Temperament, Tempo, Tuning, tempo};
use crate::problem::Problem;
use crate::routine::{Guide, Line, Routine, Walk};
use crate::words::tempo::clicks_a_minute;
use crate::words::{self, Language, duration, say};

/// The most half steps a take can be moved by: two octaves, further than any instrument here can follow.
const FARTHEST: i32 = 24;

/// Reads `72`, `61.2` or `85%`.
///
/// # Errors
/// A message to show after the option's name.
pub fn tempo(text: &str) -> Result<TakeTempo, String> {
    const EXPECTED: &str = "write clicks a minute (72) or a percentage of the written tempo (85%)";
    let text = text.trim();
    let (number, percent) = match text.strip_suffix('%') {
        Some(number) => (number.trim_end(), true),
        None => (text, false),
    };
    let number = Decimal::parse(number).map_err(|error| match error {
        DecimalError::TooFine => "a tempo has at most three decimals; round it".to_owned(),
        DecimalError::NotANumber | DecimalError::TooLarge => EXPECTED.to_owned(),
    })?;
    if percent {
        if !number.is_positive() {
            return Err(EXPECTED.to_owned());
        }
        return Ok(TakeTempo::Percent(number));
    }
    Tempo::from_decimal(number).map_err(|_| {
        format!(
            "tempos go from {} to {} clicks a minute; a percentage of the written tempo ends in % \
             (85%); two tempos are separated by a comma",
            tempo::SLOWEST,
            tempo::FASTEST
        )
    })?;
    Ok(TakeTempo::Clicks(number))
}

/// Reads half steps: `0`, `-1`, `+2`.
///
/// # Errors
/// A message to show after the option's name.
pub fn half_steps(text: &str) -> Result<i32, String> {
    match text.trim().parse::<i32>() {
        Ok(key) if key.abs() <= FARTHEST => Ok(key),
        _ => Err(format!(
            "a key is a number of half steps up or down (-2), at most {FARTHEST}"
        )),
    }
}

/// Reads half steps, or the name of a key: `-1`, `B-flat major`, `Bb`.
///
/// # Errors
/// A message to show after the option's name.
pub fn key(text: &str) -> Result<TakeKey, String> {
    if let Some(name) = KeyName::parse(text) {
        return Ok(TakeKey::Named(name));
    }
    half_steps(text).map(TakeKey::HalfSteps).map_err(|_| {
        format!(
            "a key is a number of half steps up or down (-2), at most {FARTHEST}, or a name: \"B-flat major\", Bb"
        )
    })
}

/// The half steps to a key in this routine.
///
/// # Errors
/// If it is a name and the routine's own key does not lead there.
pub fn key_in(key: TakeKey, routine: &Routine) -> Result<i32, Problem> {
    let title = &routine.title;
    match (key.half_steps(routine), routine.key, key) {
        (Some(half_steps), _, _) => Ok(half_steps),
        (None, Some(from), TakeKey::Named(name)) => {
            let mode = from.mode().word();
            let message = format!("“{title}” is in {from}: moved, it stays in {mode}");
            Err(Problem::error(message).hint(format!("write --key \"{} {mode}\"", name.tonic)))
        }
        _ => Err(
            Problem::error(format!("“{title}” does not say which key it is in")).hint(
                "write it at the head of the routine, as the player reads it (key = \"C major\"), or move it by half \
                 steps (--key -2)",
            ),
        ),
    }
}

/// Reads `together`, `echo` or `off`.
///
/// # Errors
/// A message to show after the option's name.
pub fn guide(text: &str) -> Result<Guide, String> {
    let text = text.trim().to_lowercase();
    Guide::WORDS
        .iter()
        .find_map(|(word, guide)| (*word == text).then_some(*guide))
        .ok_or_else(|| "the guide is together, echo or off".to_owned())
}

/// Reads the tuning of A4: `442`, `440.5`.
///
/// # Errors
/// A message to show after the option's name.
pub fn a4(text: &str) -> Result<Decimal, String> {
    Decimal::parse(text.trim())
        .ok()
        .filter(|a4| Tuning::new(*a4, Temperament::Equal).is_ok())
        .ok_or_else(|| {
            format!(
                "A4 is from {} to {} hertz: 442",
                Tuning::LOWEST_A4,
                Tuning::HIGHEST_A4
            )
        })
}

/// Reads `equal`, `just` or `horn`.
///
/// # Errors
/// A message to show after the option's name.
pub fn temperament(text: &str) -> Result<Temperament, String> {
    let text = text.trim().to_lowercase();
    Temperament::WORDS
        .iter()
        .find_map(|(word, temperament)| (*word == text).then_some(*temperament))
        .ok_or_else(|| "the temperament is equal, just or horn".to_owned())
}

/// The take in words, leaving out what is as written: `at 61.2 clicks a minute, 2 half steps down, guide echo`.
pub fn in_words(take: &Take, routine: &Routine) -> String {
    format!("at {}", facts(Language::En, take, routine))
}

/// The same in a language, as a title: `61.2 clicks a minute, 2 half steps down, guide echo`.
pub fn facts(language: Language, take: &Take, routine: &Routine) -> String {
    let mut parts = Vec::new();
    parts.push(match take.tempo.base(routine) {
        Ok(tempo) => clicks_a_minute(language, tempo),
        Err(_) => take.tempo.to_string(),
    });
    if take.key != 0 {
        parts.push(words::key::moved(language, take.key));
    }
    if take.guide != Guide::Together {
        parts.push(say::take_guide(language, take.guide.word()));
    }
    parts.join(", ")
}

/// A notice as it is printed.
pub fn notice(notice: &Notice) -> String {
    format!("note: line {}: {}", notice.line + 1, notice.message)
}

/// What distinguishes a pass from the others of its line: "on 1-2-3, slurred", "3 half steps down". `None` if
/// nothing does.
pub fn pass_name(instrument: &Instrument, line: &Line, pass: &Pass) -> Option<String> {
    let mut parts = vec![];
    match (&line.walk, pass.tube) {
        (Walk::Tubes(_), Some(tube)) => parts.push(instrument.with(Language::En, tube)),
        (Walk::HalfSteps(walk), _) if walk.len() > 1 || pass.half_steps != 0 => {
            parts.push(words::key::moved(Language::En, pass.half_steps));
        }
        _ => {}
    }
    if line.articulations.len() > 1 {
        parts.push(pass.articulation.word().to_owned());
    }
    (!parts.is_empty()).then(|| parts.join(", "))
}

/// Describes why a take is impossible.
pub fn refusal(fault: &TakeFault, take: &Take, routine: &Routine) -> Problem {
    let at = in_words(take, routine);
    let title = &routine.title;
    let (message, hint) = match fault {
        TakeFault::Tempo { line, clicks } => {
            let whose = match line {
                Some(index) => format!("line {} “{}”", index + 1, routine.lines[*index].name),
                None => format!("“{title}”"),
            };
            (
                format!(
                    "at {}, {whose} would come to {} clicks a minute",
                    take.tempo,
                    (clicks * 10.0).round() / 10.0
                ),
                format!(
                    "tempos go from {} to {} clicks a minute",
                    tempo::SLOWEST,
                    tempo::FASTEST
                ),
            )
        }
        TakeFault::TooLong { seconds } => (
            format!(
                "“{title}” {at} would last {} or more, and a track can last four hours",
                duration(*seconds)
            ),
            "fewer times, half_steps or tubes make it shorter, and so do shorter rests".to_owned(),
        ),
        TakeFault::NothingFits => (
            format!(
                "no line of “{title}” {at} fits the compass of the {}",
                routine.instrument.name
            ),
            "choose a key closer to the written one".to_owned(),
        ),
    };
    Problem::error(message).hint(hint)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tempos_are_clicks_or_percent() {
        assert_eq!(
            tempo("72"),
            Ok(TakeTempo::Clicks(Decimal::from_integer(72)))
        );
        assert_eq!(
            tempo(" 85 %"),
            Ok(TakeTempo::Percent(Decimal::from_integer(85)))
        );
        for text in ["", "fast", "0.85", "2", "301", "-85%", "0%", "%", "1e2"] {
            assert!(tempo(text).is_err(), "{text}");
        }
    }

    #[test]
    fn keys_are_half_steps() {
        assert_eq!(half_steps("-2"), Ok(-2));
        assert_eq!(key("+2"), Ok(TakeKey::HalfSteps(2)));
        for text in ["", "F", "1.5", "25", "-25", "99999999999"] {
            assert!(half_steps(text).is_err(), "{text}");
        }
        for text in ["", "H", "1.5", "25", "-25", "B-flat lydian"] {
            assert!(key(text).is_err(), "{text}");
        }
        assert!(matches!(key("Bb"), Ok(TakeKey::Named(_))));
    }
}
