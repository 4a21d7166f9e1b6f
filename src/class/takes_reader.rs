//! Reads which takes are wanted: by all, by a group, by a player.

use super::bounds::{FARTHEST_KEY, MOST_OF_EACH};
use crate::carry::CarryRule;
use crate::music::{Decimal, NoteNames, Tempo};
use crate::routine::fields::{Entry, Fields, whole_number};
use crate::routine::{Fault, Guide};
use crate::score::TakeTempo;
use crate::words::{Language, Words, list, tell};
use toml::de::DeValue;

/// The takes of players without their own.
#[derive(Clone)]
pub struct Takes {
    pub tempos: Vec<TakeTempo>,
    pub keys: Vec<i32>,
    pub guides: Vec<Guide>,
    pub carry: CarryRule,
    pub language: Option<Language>,
    /// The names that notes are shown in.
    pub names: Option<NoteNames>,
}

/// The takes that these entries ask for, else `defaults`.
pub fn read_takes(fields: &mut Fields<'_, '_>, defaults: &Takes) -> Takes {
    let tempos = each(fields, "tempo", "[\"100%\", \"85%\"]", tempo);
    let keys = each(fields, "key", "[0, -1]", |_, entry| {
        whole_number(entry.value)
            .filter(|n| n.abs() <= FARTHEST_KEY)
            .map(|n| n as i32)
            .ok_or_else(|| (tell::key_is_number(), tell::for_instance_keys(FARTHEST_KEY)))
    });
    let guides = each(fields, "guide", "[\"together\", \"echo\"]", |_, entry| {
        let text = match entry.value {
            DeValue::String(text) => text.trim(),
            _ => "",
        };
        let known = Guide::WORDS.iter().find(|(word, _)| *word == text);
        known
            .map(|(_, guide)| *guide)
            .ok_or_else(|| (tell::no_guide_mode(), tell::guide_can_be()))
    });
    Takes {
        tempos: tempos.unwrap_or_else(|| defaults.tempos.clone()),
        keys: keys.unwrap_or_else(|| defaults.keys.clone()),
        guides: guides.unwrap_or_else(|| defaults.guides.clone()),
        carry: fields
            .choice("carry", &CarryRule::WORDS)
            .unwrap_or(defaults.carry),
        language: read_language(fields).or(defaults.language),
        names: fields.choice("names", &NoteNames::WORDS).or(defaults.names),
    }
}

/// The language of the words for a player.
fn read_language(fields: &mut Fields<'_, '_>) -> Option<Language> {
    let (tag, span) = fields.text("language", "de")?;
    let language = Language::of(&tag);
    if language.is_none() {
        let all = Language::ALL.map(|one| tell::tag_for_language(one.tag(), one.name()));
        let fault = Fault::new(span, tell::speaks_not(&tag));
        fields
            .faults
            .push(fault.hint(tell::write_one_of(list::any(&all))));
    }
    language
}

/// Reads every entry of a list with `one`, which returns message and hint for an invalid one.
fn each<T: PartialEq>(
    fields: &mut Fields<'_, '_>,
    key: &str,
    example: &str,
    one: impl Fn(&str, Entry<'_, '_>) -> Result<T, (Words, Words)>,
) -> Option<Vec<T>> {
    let (entries, span) = fields.list(key)?;
    if entries.is_empty() || entries.len() > MOST_OF_EACH {
        fields.faults.push(
            Fault::new(span, tell::list_entries_from(key, MOST_OF_EACH))
                .hint(tell::for_instance_list(key, example)),
        );
        return None;
    }
    let mut found = Vec::new();
    for entry in entries {
        match one(fields.source, entry) {
            // A duplicate is rendered once.
            Ok(value) if found.contains(&value) => {}
            Ok(value) => found.push(value),
            Err((message, hint)) => fields.wrong(entry, message, hint),
        }
    }
    Some(found)
}

fn tempo(source: &str, entry: Entry<'_, '_>) -> Result<TakeTempo, (Words, Words)> {
    let wrong = |_| (tell::no_tempo_of_take(), tell::tempo_of_take());
    let clicks = |text: &str| {
        let clicks = Decimal::parse(&text.replace('_', "")).map_err(|_| ())?;
        Tempo::from_decimal(clicks).map_err(|_| ())?;
        Ok(TakeTempo::Clicks(clicks))
    };
    match entry.value {
        DeValue::Integer(_) | DeValue::Float(_) => {
            clicks(&source[entry.span.start..entry.span.end]).map_err(wrong)
        }
        DeValue::String(text) => match text.trim().strip_suffix('%') {
            Some(part) => Decimal::parse(part.trim_end())
                .ok()
                .filter(|part| part.is_positive())
                .map(TakeTempo::Percent)
                .ok_or(())
                .map_err(wrong),
            None => clicks(text.trim()).map_err(wrong),
        },
        _ => Err(wrong(())),
    }
}
