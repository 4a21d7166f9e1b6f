//! Takes in words: reading what is typed, and describing a take.

use super::{Notice, Pass, Take, TakeFault, TakeKey, TakeTempo};
use crate::brass::Instrument;
use crate::music::decimal::DecimalError;
use crate::music::key::KeyName;
use crate::music::{Decimal, Temperament, Tempo, Tuning, tempo};
use crate::problem::Problem;
use crate::routine::{Guide, Line, Routine, Walk};
use crate::words::tempo::clicks_a_minute;
use crate::words::{self, Language, Words, duration, figures, say, tell};

/// The most half steps a take can be moved by: two octaves, further than any instrument here can follow.
const FARTHEST: i32 = 24;

/// Reads `72`, `61.2` or `85%`.
///
/// # Errors
/// A message to show after the option's name.
pub fn tempo(text: &str) -> Result<TakeTempo, Words> {
    let text = text.trim();
    let (number, percent) = match text.strip_suffix('%') {
        Some(number) => (number.trim_end(), true),
        None => (text, false),
    };
    let number = Decimal::parse(number).map_err(|error| match error {
        DecimalError::TooFine => tell::tempo_too_fine(),
        DecimalError::NotANumber | DecimalError::TooLarge => tell::tempo_expected(),
    })?;
    if percent {
        if !number.is_positive() {
            return Err(tell::tempo_expected());
        }
        return Ok(TakeTempo::Percent(number));
    }
    Tempo::from_decimal(number)
        .map_err(|_| tell::tempos_and_percent(tempo::SLOWEST, tempo::FASTEST))?;
    Ok(TakeTempo::Clicks(number))
}

/// Reads half steps: `0`, `-1`, `+2`.
///
/// # Errors
/// A message to show after the option's name.
pub fn half_steps(text: &str) -> Result<i32, Words> {
    match text.trim().parse::<i32>() {
        Ok(key) if key.abs() <= FARTHEST => Ok(key),
        _ => Err(tell::key_is_half_steps(FARTHEST)),
    }
}

/// Reads half steps, or the name of a key: `-1`, `B-flat major`, `Bb`.
///
/// # Errors
/// A message to show after the option's name.
pub fn key(text: &str) -> Result<TakeKey, Words> {
    if let Some(name) = KeyName::parse(text) {
        return Ok(TakeKey::Named(name));
    }
    half_steps(text)
        .map(TakeKey::HalfSteps)
        .map_err(|_| tell::key_is_half_steps_or_name(FARTHEST))
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
            let message = tell::stays_in_its_mode(title, words::key::written(from), mode);
            Err(Problem::error(message).hint(tell::write_key(name.tonic.to_string(), mode)))
        }
        _ => Err(Problem::error(tell::says_no_key(title)).hint(tell::write_the_key())),
    }
}

/// Reads `together`, `echo` or `off`.
///
/// # Errors
/// A message to show after the option's name.
pub fn guide(text: &str) -> Result<Guide, Words> {
    let text = text.trim().to_lowercase();
    Guide::WORDS
        .iter()
        .find_map(|(word, guide)| (*word == text).then_some(*guide))
        .ok_or_else(tell::guide_expected)
}

/// Reads the tuning of A4: `442`, `440.5`.
///
/// # Errors
/// A message to show after the option's name.
pub fn a4(text: &str) -> Result<Decimal, Words> {
    Decimal::parse(text.trim())
        .ok()
        .filter(|a4| Tuning::new(*a4, Temperament::Equal).is_ok())
        .ok_or_else(|| tell::a_four_from_to(Tuning::LOWEST_A4, Tuning::HIGHEST_A4))
}

/// Reads `equal`, `just` or `horn`.
///
/// # Errors
/// A message to show after the option's name.
pub fn temperament(text: &str) -> Result<Temperament, Words> {
    let text = text.trim().to_lowercase();
    Temperament::WORDS
        .iter()
        .find_map(|(word, temperament)| (*word == text).then_some(*temperament))
        .ok_or_else(tell::temperament_expected)
}

/// The take in words, leaving out what is as written: `at 61.2 clicks a minute, 2 half steps down, guide echo`.
pub fn in_words(take: &Take, routine: &Routine) -> Words {
    tell::at_the_take(Words::of(|language| facts(language, take, routine)))
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
pub fn notice(notice: &Notice) -> Words {
    tell::notice(notice.line + 1, &notice.message)
}

/// What distinguishes a pass from the others of its line: "on 1-2-3, slurred", "3 half steps down". `None` if
/// nothing does.
pub fn pass_name(instrument: &Instrument, line: &Line, pass: &Pass) -> Option<Words> {
    let mut parts = vec![];
    match (&line.walk, pass.tube) {
        (Walk::Tubes(_), Some(tube)) => parts.push(instrument.with_tube(tube)),
        (Walk::HalfSteps(walk), _) if walk.len() > 1 || pass.half_steps != 0 => {
            parts.push(Words::of(|language| {
                words::key::moved(language, pass.half_steps)
            }));
        }
        _ => {}
    }
    if line.articulations.len() > 1 {
        parts.push(Words::of(|language| {
            say::articulation(language, pass.articulation.word())
        }));
    }
    (!parts.is_empty()).then(|| Words::joined(&parts, ", "))
}

/// Describes why a take is impossible.
pub fn refusal(fault: &TakeFault, take: &Take, routine: &Routine) -> Problem {
    let at = in_words(take, routine);
    let title = &routine.title;
    let (message, hint) = match fault {
        TakeFault::Tempo { line, clicks } => {
            let whose = match line {
                Some(index) => tell::line_and_name(index + 1, &routine.lines[*index].name),
                None => tell::in_quotes(title),
            };
            (
                tell::would_come_to(
                    take.tempo.to_string(),
                    &whose,
                    figures(((clicks * 10.0).round() / 10.0).to_string()),
                ),
                tell::tempos_from_to(tempo::SLOWEST, tempo::FASTEST),
            )
        }
        TakeFault::TooLong { seconds } => (
            tell::take_too_long(title, &at, duration(*seconds)),
            tell::shorter_take(),
        ),
        TakeFault::NothingFits => (
            tell::nothing_fits(title, &at, routine.instrument.named_in_words()),
            tell::nearer_key(),
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
