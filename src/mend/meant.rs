//! What the reader takes a word for that it does not know.

use super::place::Mend;
use crate::problem::Problem;
use crate::words::{Language, say};

/// The word that a hint asks about, in the place of the one that was not understood.
pub fn of(text: &str, problem: &Problem) -> Option<Mend> {
    let span = problem.place?.span;
    let wrong = text.get(span.start..span.end)?;
    // A hint that asks ends in the word that may be meant, and one of two words tells to write the second.
    let hint = problem.hint.as_deref()?.trim_end();
    let words = || hint.split_whitespace();
    let meant = match hint.strip_suffix('?') {
        Some(asked) => asked.trim_end().rsplit(char::is_whitespace).next()?,
        None if words().count() == 2 => words().next_back()?,
        None => return None,
    };
    let meant = meant.trim_matches(['“', '”', '„', '«', '»']);
    if wrong.is_empty() || meant.is_empty() || wrong.contains('\n') {
        return None;
    }
    // A value keeps its quotes.
    let quote = wrong.chars().next().filter(|c| "\"'".contains(*c));
    let with = match quote {
        Some(quote) if !meant.starts_with(quote) => {
            format!("{quote}{}{quote}", meant.trim_matches('"'))
        }
        None => meant.trim_matches('"').to_owned(),
        _ => meant.to_owned(),
    };
    let says = say::mend_word(Language::En, &with, wrong);
    let text = format!("{}{with}{}", &text[..span.start], &text[span.end..]);
    Some(Mend { says, text })
}

/// A note that cannot be bent where it stands, fingered.
pub fn unbent(text: &str, problem: &Problem) -> Option<Mend> {
    const BEND: &str = "(bend)";
    let span = problem.place?.span;
    let note = text.get(span.start..span.end)?;
    let at = span.start + note.find(BEND)?;
    let says = say::mend_no_bend(Language::En).to_owned();
    let text = format!("{}{}", &text[..at], &text[at + BEND.len()..]);
    Some(Mend { says, text })
}
