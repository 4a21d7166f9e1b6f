//! The built-in routines in other languages: their titles, their purposes, and what they say of each line.

use super::list::Preset;
use crate::words::Language;
use std::collections::HashMap;
use toml::de::{DeTable, DeValue};

/// The words of all built-in routines in a language, each beside the English ones; `None` where they are not translated.
fn source(language: Language) -> Option<&'static str> {
    match language {
        Language::De => Some(include_str!("languages/de.toml")),
        _ => None,
    }
}

/// Keys of a routine whose values are said to the player.
const SAID: [&str; 5] = ["title", "purpose", "name", "say", "words"];

/// The text of a built-in routine in a language, which its head names. `None` for English, and for a language that the built-in routines are not
/// translated into.
pub fn translated(preset: &Preset, language: Language) -> Option<String> {
    let words = words(source(language)?);
    let mut text = String::with_capacity(preset.text.len());
    for row in preset.text.split_inclusive('\n') {
        match said(row).and_then(|(key, english)| Some((key, words.get(english)?))) {
            Some(("title", own)) => {
                text += &format!("title = \"{own}\"\nlanguage = \"{}\"\n", language.tag());
            }
            Some((key, own)) => text += &format!("{key} = \"{own}\"\n"),
            None => text += row,
        }
    }
    Some(text)
}

/// English words and those of the language.
fn words(source: &'static str) -> HashMap<String, String> {
    let table = DeTable::parse(source).expect("a test reads it");
    let entries = table.into_inner().into_iter();
    entries
        .filter_map(|(english, own)| match own.into_inner() {
            DeValue::String(own) => Some((english.into_inner().into_owned(), own.into_owned())),
            _ => None,
        })
        .collect()
}

/// The key and the text of a row of a built-in routine that says something to the player.
fn said(row: &str) -> Option<(&str, &str)> {
    let (key, value) = row.trim_end().split_once(" = \"")?;
    let text = value.strip_suffix('"')?;
    SAID.contains(&key).then_some((key, text))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::presets::ALL;
    use crate::routine::{self, Routine};
    use std::collections::BTreeSet;

    fn read(text: &str) -> Routine {
        routine::read(text).expect("it is a routine")
    }

    /// All that a routine says in words.
    fn all_said(routine: &Routine) -> Vec<String> {
        let mut all = vec![routine.title.clone()];
        all.extend(routine.purpose.clone());
        for line in &routine.lines {
            let said = [&line.purpose, &line.say, &line.words];
            all.push(line.name.clone());
            all.extend(said.into_iter().flatten().cloned());
        }
        all
    }

    #[test]
    fn every_word_of_the_built_in_routines_is_translated_and_no_other() {
        let english = ALL.iter().flat_map(|preset| all_said(&read(preset.text)));
        let english: BTreeSet<String> = english.collect();
        for language in Language::ALL {
            let Some(source) = source(language) else {
                continue;
            };
            let words = words(source);
            let there: BTreeSet<String> = words.keys().cloned().collect();
            assert_eq!(there, english);
            for (english, own) in &words {
                assert_ne!(english, own);
                assert!(!own.is_empty() && !own.contains(['"', '\\']), "{own}");
            }
        }
    }

    #[test]
    fn a_translated_routine_is_the_same_music() {
        for preset in &ALL {
            let text = translated(preset, Language::De).expect("it is translated");
            let (own, english) = (read(&text), read(preset.text));
            assert_eq!(own.language.as_deref(), Some("de"));
            assert_eq!(own.words_in, Language::De);
            let (said, before) = (all_said(&own), all_said(&english));
            assert_eq!(said.len(), before.len());
            for (own, english) in said.iter().zip(&before) {
                assert_ne!(own, english, "{}", preset.name);
            }
            let music = |text: &str| -> Vec<String> {
                let rows = text.lines().filter(|row| said_nothing(row));
                rows.map(str::to_owned).collect()
            };
            assert_eq!(music(&text), music(preset.text), "{}", preset.name);
        }
        assert_eq!(translated(&ALL[0], Language::En), None);
    }

    fn said_nothing(row: &str) -> bool {
        said(row).is_none() && !row.starts_with("language = ")
    }
}
