//! What a teacher is told, in every language at once.
//!
//! The readers and the checker say what is wrong without knowing who will read it. So they make [`Words`], which are put
//! into one language where they are shown.

use super::Language;
use super::catalogue::{Arg, said};
use crate::music::{Decimal, Dynamic, Meter, NoteNames, Tempo, WrittenPitch};
use std::borrow::Cow;
use std::fmt;
use std::ops::Deref;

include!(concat!(env!("OUT_DIR"), "/tell.rs"));

/// How many languages there are.
const LANGUAGES: usize = Language::ALL.len();

/// What stands before and after the name of a note, so that it can be said in other names where it is shown. Texts of
/// files hold no such characters: readers refuse them.
const NOTE: [char; 2] = ['\u{e}', '\u{f}'];

/// A text for a person, in every language. It dereferences to its English words.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Words(Text);

#[derive(Clone, Debug, PartialEq, Eq, Hash)]
enum Text {
    /// The same in all of them: a name, or a text that somebody else wrote.
    Same(Box<Line>),
    Each(Box<[Line; LANGUAGES]>),
}

/// A text, and the same with its notes marked where it names some.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
struct Line {
    plain: String,
    marked: Option<String>,
}

impl From<String> for Line {
    fn from(text: String) -> Self {
        if text.contains(NOTE) {
            Self {
                plain: text.replace(NOTE, ""),
                marked: Some(text),
            }
        } else {
            Self {
                plain: text,
                marked: None,
            }
        }
    }
}

impl Words {
    /// What `say` says in each language.
    pub fn of(say: impl Fn(Language) -> String) -> Self {
        Self(Text::Each(Box::new(
            Language::ALL.map(|language| say(language.to_teachers()).into()),
        )))
    }

    /// The words in a language, with notes in their English names.
    pub fn in_language(&self, language: Language) -> &str {
        &self.line(language).plain
    }

    /// The words in a language, with notes in these names.
    pub fn said(&self, language: Language, names: NoteNames) -> Cow<'_, str> {
        let line = self.line(language);
        let Some(marked) = line.marked.as_ref().filter(|_| names != NoteNames::English) else {
            return line.plain.as_str().into();
        };
        let mut said = String::new();
        for (at, part) in marked.split(NOTE).enumerate() {
            match WrittenPitch::parse(part).filter(|_| at % 2 == 1) {
                Some(pitch) => said += &names.of(pitch),
                None => said += part,
            }
        }
        said.into()
    }

    fn line(&self, language: Language) -> &Line {
        match &self.0 {
            Text::Same(line) => line,
            Text::Each(all) => &all[language as usize],
        }
    }

    /// The words in a language, with notes marked.
    fn marked(&self, language: Language) -> &str {
        let line = self.line(language);
        line.marked.as_deref().unwrap_or(&line.plain)
    }

    /// True if there are none.
    pub fn is_empty(&self) -> bool {
        self.deref().is_empty()
    }

    /// One after another.
    pub fn then(self, next: impl Into<Words>) -> Self {
        let next = next.into();
        Self::of(|l| format!("{}{}", self.marked(l), next.marked(l)))
    }

    /// Several, with something between them.
    pub fn joined(all: &[Words], between: impl Into<Words>) -> Self {
        let between = between.into();
        Self::of(|language| {
            let all: Vec<&str> = all.iter().map(|one| one.marked(language)).collect();
            all.join(between.marked(language))
        })
    }
}

impl Default for Words {
    fn default() -> Self {
        String::new().into()
    }
}

impl Deref for Words {
    type Target = str;

    fn deref(&self) -> &str {
        self.in_language(Language::En)
    }
}

impl AsRef<str> for Words {
    fn as_ref(&self) -> &str {
        self
    }
}

impl fmt::Display for Words {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self)
    }
}

impl std::error::Error for Words {}

impl From<String> for Words {
    fn from(text: String) -> Self {
        Self(Text::Same(Box::new(text.into())))
    }
}

impl From<WrittenPitch> for Words {
    fn from(pitch: WrittenPitch) -> Self {
        marked(pitch).into()
    }
}

impl From<&str> for Words {
    fn from(text: &str) -> Self {
        text.to_owned().into()
    }
}

impl From<&String> for Words {
    fn from(text: &String) -> Self {
        text.clone().into()
    }
}

impl From<&Words> for Words {
    fn from(words: &Words) -> Self {
        words.clone()
    }
}

impl From<Words> for String {
    /// The English words.
    fn from(words: Words) -> Self {
        words.to_string()
    }
}

#[cfg(any(feature = "cli", feature = "engine"))]
impl serde::Serialize for Words {
    /// In English, for programs.
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self)
    }
}

impl PartialEq<str> for Words {
    fn eq(&self, other: &str) -> bool {
        **self == *other
    }
}

impl PartialEq<&str> for Words {
    fn eq(&self, other: &&str) -> bool {
        **self == **other
    }
}

impl PartialEq<String> for Words {
    fn eq(&self, other: &String) -> bool {
        **self == **other
    }
}

/// What is put into a message that is said in every language.
pub(crate) enum Given<'a> {
    Same(Arg<'a>),
    Each(Words),
}

impl Given<'_> {
    fn in_language(&self, language: Language) -> Arg<'_> {
        match self {
            Given::Same(argument) => argument.clone(),
            Given::Each(words) => Arg::Text(words.marked(language).into()),
        }
    }
}

impl From<&&Words> for Given<'_> {
    fn from(words: &&Words) -> Self {
        Given::Each((*words).clone())
    }
}

impl From<Words> for Given<'_> {
    fn from(words: Words) -> Self {
        Given::Each(words)
    }
}

impl From<&Words> for Given<'_> {
    fn from(words: &Words) -> Self {
        Given::Each(words.clone())
    }
}

macro_rules! arguments {
    ($($kind:ty),*) => {
        $(impl<'a> From<$kind> for Given<'a> {
            fn from(argument: $kind) -> Self {
                Given::Same(argument.into())
            }
        })*
    };
}

arguments!(
    &'a str,
    String,
    u8,
    i32,
    i64,
    u32,
    u64,
    usize,
    Decimal,
    Tempo
);

impl<'a> From<&&'a str> for Given<'a> {
    fn from(text: &&'a str) -> Self {
        (*text).into()
    }
}

impl<'a> From<&&&'a str> for Given<'a> {
    fn from(text: &&&'a str) -> Self {
        (**text).into()
    }
}

macro_rules! as_written {
    ($($kind:ty),*) => {
        $(impl From<$kind> for Given<'_> {
            fn from(it: $kind) -> Self {
                Given::Same(Arg::Text(it.to_string().into()))
            }
        })*
    };
}

as_written!(
    char,
    Dynamic,
    Meter,
    &std::borrow::Cow<'_, str>,
    &std::path::Display<'_>,
    &std::io::Error,
    &&std::io::Error
);

impl<'a> From<&'a String> for Given<'a> {
    fn from(text: &'a String) -> Self {
        text.as_str().into()
    }
}

impl<'a> From<&&'a String> for Given<'a> {
    fn from(text: &&'a String) -> Self {
        text.as_str().into()
    }
}

impl From<WrittenPitch> for Given<'_> {
    fn from(pitch: WrittenPitch) -> Self {
        Given::Same(Arg::Text(marked(pitch).into()))
    }
}

macro_rules! by_reference {
    ($($kind:ty),*) => {
        $(impl<'a> From<&$kind> for Given<'a> {
            fn from(it: &$kind) -> Self {
                (*it).into()
            }
        })*
    };
}

by_reference!(
    char,
    u8,
    i32,
    i64,
    u32,
    u64,
    usize,
    Decimal,
    Tempo,
    Dynamic,
    Meter,
    WrittenPitch
);

/// A number that is written out already, with a point before its decimals.
pub(crate) fn figures<'a>(number: String) -> Given<'a> {
    Given::Same(Arg::Number(number))
}

/// The name of a note, marked.
fn marked(pitch: WrittenPitch) -> String {
    format!("{}{pitch}{}", NOTE[0], NOTE[1])
}

/// A message in every language: `words` has it as `build/pattern.rs` writes it.
fn told(words: &[&str], given: &[Given<'_>]) -> Words {
    Words::of(|language| {
        let given: Vec<Arg<'_>> = given.iter().map(|one| one.in_language(language)).collect();
        said(language, words, &given)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::say;

    #[test]
    fn words_are_there_in_every_language() {
        let words = Words::of(|language| say::bars(language, 2));
        assert_eq!(words, "2 bars");
        assert_eq!(words.in_language(Language::De), "2 Takte");
        let given = [
            Given::from(&words),
            Given::from(Decimal::parse("1.5").unwrap()),
        ];
        let told = told(&["\u{1}a: \u{1}b"; LANGUAGES], &given);
        assert_eq!(told, "2 bars: 1.5");
        assert_eq!(told.in_language(Language::De), "2 Takte: 1,5");
    }

    #[test]
    fn notes_are_said_in_the_names_that_are_asked_for() {
        let pitch = |text: &str| WrittenPitch::parse(text).unwrap();
        let words = Words::joined(&[pitch("B4").into(), pitch("F#4").into()], " to ");
        let words = told(&["from \u{1}a, that is H4"; LANGUAGES], &[words.into()]);
        assert_eq!(words, "from B4 to F#4, that is H4");
        let said = [NoteNames::English, NoteNames::German, NoteNames::Solfege]
            .map(|names| words.said(Language::En, names).into_owned());
        let right = [
            "from B4 to F#4, that is H4",
            "from H4 to Fis4, that is H4",
            "from si4 to fa♯4, that is H4",
        ];
        assert_eq!(said, right);
    }

    /// French has no words for teachers, and no half a French sentence stands in an English one.
    #[test]
    fn a_language_without_words_for_teachers_speaks_english_to_them() {
        let words = Words::of(|language| say::bars(language, 2));
        assert_eq!(Language::Fr.to_teachers(), Language::En);
        assert_eq!(words.in_language(Language::Fr), "2 bars");
    }
}
