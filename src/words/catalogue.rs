//! The words of every language, made at build time from the Fluent files in `languages` (`build/catalogue.rs`).
//!
//! [`say`] has a function for each message, so that a message that is missing or never said keeps leadpipe from
//! being built.

use crate::music::{Decimal, Tempo};
use std::borrow::Cow;
use std::iter::Peekable;
use std::str::Chars;

include!(concat!(env!("OUT_DIR"), "/catalogue.rs"));

impl Language {
    /// The language of a tag (BCP 47), by its first part: German for `de`, `de-AT` and, as systems write it,
    /// `de_AT.UTF-8`. `None` for a language that leadpipe does not speak.
    pub fn of(tag: &str) -> Option<Self> {
        let first = tag.split(['-', '_', '.', '@']).next().unwrap_or_default();
        let mut all = Self::ALL.into_iter();
        all.find(|language| language.tag().eq_ignore_ascii_case(first))
    }

    /// Its name in itself: “Deutsch”.
    pub fn name(self) -> &'static str {
        say::language_name(self)
    }

    /// A number as it is written: with the language's own sign before decimals.
    pub fn number(self, number: impl std::fmt::Display) -> String {
        number.to_string().replace('.', say::decimal_sign(self))
    }

    /// What stands between numbers in a row: not the sign before decimals alone.
    pub fn between_numbers(self) -> &'static str {
        match say::decimal_sign(self) {
            "," => "; ",
            _ => ", ",
        }
    }
}

/// Which numbers take the singular (Unicode CLDR, Language Plural Rules).
#[derive(Clone, Copy)]
#[allow(dead_code, reason = "no language that is there may have one of them")]
enum Plural {
    /// One alone: `1 bar`, `0 bars`, `1.5 bars`.
    One,
    /// Everything below two: `0 mesure`, `1,5 mesure`.
    ZeroAndOne,
}

impl Plural {
    /// The name of a number's form.
    fn form(self, number: &str) -> &'static str {
        let whole = number.split('.').next().unwrap_or_default();
        let one = match self {
            Plural::One => number == "1",
            Plural::ZeroAndOne => matches!(whole, "0" | "1"),
        };
        if one { "one" } else { "other" }
    }
}

/// What is put into a message.
#[derive(Clone)]
pub(crate) enum Arg<'a> {
    Text(Cow<'a, str>),
    /// With a point before its decimals.
    Number(String),
}

impl<'a> From<&'a str> for Arg<'a> {
    fn from(text: &'a str) -> Self {
        Arg::Text(text.into())
    }
}

impl<'a> From<&'a String> for Arg<'a> {
    fn from(text: &'a String) -> Self {
        Arg::Text(text.into())
    }
}

impl From<String> for Arg<'_> {
    fn from(text: String) -> Self {
        Arg::Text(text.into())
    }
}

macro_rules! numbers {
    ($($kind:ty),*) => {
        $(impl From<$kind> for Arg<'_> {
            fn from(number: $kind) -> Self {
                Arg::Number(number.to_string())
            }
        })*
    };
}

numbers!(u8, i32, i64, u32, u64, usize, Decimal, Tempo);

/// A message in a language. `words` has it in every language, in their order, as `build/pattern.rs` writes it.
pub(super) fn said(language: Language, words: &[&str], given: &[Arg<'_>]) -> String {
    let mut saying = Saying {
        language,
        given,
        rest: words[language as usize].chars().peekable(),
        out: String::new(),
    };
    saying.pattern(true);
    saying.out
}

struct Saying<'w> {
    language: Language,
    given: &'w [Arg<'w>],
    rest: Peekable<Chars<'w>>,
    out: String,
}

impl<'w> Saying<'w> {
    /// Goes through a pattern up to the end of its variant; says it or not.
    fn pattern(&mut self, say: bool) {
        while let Some(letter) = self.rest.next_if(|c| !matches!(c, '\u{3}' | '\u{5}')) {
            match letter {
                '\u{1}' => {
                    let argument = self.argument();
                    if say {
                        match argument {
                            Arg::Text(text) => self.out.push_str(text),
                            Arg::Number(number) => self.out += &self.language.number(number),
                        }
                    }
                }
                '\u{2}' => self.choice(say),
                letter if say => self.out.push(letter),
                _ => {}
            }
        }
    }

    fn choice(&mut self, say: bool) {
        let (exact, form) = match self.argument() {
            Arg::Text(text) => (&**text, ""),
            Arg::Number(number) => (number.as_str(), self.language.plural().form(number)),
        };
        let mut left = say;
        while self.rest.next_if_eq(&'\u{3}').is_some() {
            let mut key = String::new();
            while let Some(letter) = self.rest.next_if(|c| *c != '\u{4}') {
                key.push(letter);
            }
            self.rest.next();
            let this = left && (key.is_empty() || key == exact || key == form);
            self.pattern(this);
            left &= !this;
        }
        self.rest.next();
    }

    fn argument(&mut self) -> &'w Arg<'w> {
        let number = self.rest.next().map_or(0, |c| c as usize - 'a' as usize);
        &self.given[number]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn in_english(words: &str, given: &[Arg<'_>]) -> String {
        said(Language::En, &[words], given)
    }

    #[test]
    fn arguments_stand_where_they_belong() {
        let words = "\u{1}b, then \u{1}a";
        assert_eq!(in_english(words, &["x".into(), 2u32.into()]), "2, then x");
    }

    #[test]
    fn a_number_or_a_word_chooses_a_variant() {
        let words = "\u{2}a\u{3}0\u{4}none\u{3}one\u{4}\u{1}a bar\u{3}\u{4}\u{1}a bars\u{5}.";
        let said = [0u32, 1, 2].map(|n| in_english(words, &[n.into()]));
        assert_eq!(said, ["none.", "1 bar.", "2 bars."]);
        let words =
            "\u{2}a\u{3}slide\u{4}in \u{2}b\u{3}one\u{4}one\u{3}\u{4}many\u{5}\u{3}\u{4}on\u{5} it";
        let said = [("slide", 1u32), ("slide", 5), ("valves", 1)]
            .map(|(what, n)| in_english(words, &[what.into(), n.into()]));
        assert_eq!(said, ["in one it", "in many it", "on it"]);
    }

    #[test]
    fn languages_are_known_by_their_tags() {
        for language in Language::ALL {
            assert_eq!(Language::of(language.tag()), Some(language));
        }
        assert_eq!(Language::of("de-AT"), Some(Language::De));
        assert_eq!(Language::of("de_DE.UTF-8"), Some(Language::De));
        assert_eq!(Language::of("C.UTF-8"), None);
        assert_eq!(Language::of("den"), None);
        assert_eq!(Language::default(), Language::En);
    }

    #[test]
    fn numbers_have_the_sign_of_their_language() {
        assert_eq!(Language::En.number(72.5), "72.5");
        assert_eq!(Language::De.number(72.5), "72,5");
    }

    /// The forms of Unicode CLDR 46, Language Plural Rules, for cardinal numbers.
    #[test]
    fn plurals_follow_the_rules_of_their_language() {
        let numbers = ["0", "0.5", "1", "1.5", "2", "11", "21"];
        let forms = |language: Language| numbers.map(|n| language.plural().form(n) == "one");
        for language in [Language::En, Language::De] {
            assert_eq!(
                forms(language),
                [false, false, true, false, false, false, false]
            );
        }
        assert_eq!(
            forms(Language::Fr),
            [true, true, true, true, false, false, false]
        );
    }
}
