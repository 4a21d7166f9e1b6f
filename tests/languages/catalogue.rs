//! The Fluent files themselves.

use fluent_syntax::ast::{
    Entry, Expression, InlineExpression, Pattern, PatternElement, VariantKey,
};
use leadpipe::words::Language;
use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

fn folder(language: Language) -> PathBuf {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    root.join("src/words/languages").join(language.tag())
}

/// Calls `each` with the key and the pattern of every message of a file.
fn messages(language: Language, file: &str, mut each: impl FnMut(&str, &Pattern<&str>)) {
    let text = fs::read_to_string(folder(language).join(file)).expect("the file is there");
    let resource = fluent_syntax::parser::parse(text.as_str()).expect("it is Fluent");
    for entry in &resource.body {
        if let Entry::Message(message) = entry {
            each(
                message.id.name,
                message.value.as_ref().expect("it says something"),
            );
        }
    }
}

/// The files of what a pupil reads.
fn files(language: Language) -> Vec<String> {
    let entries = fs::read_dir(folder(language)).expect("the folder is there");
    let names = entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned());
    names.filter(|name| name.ends_with(".ftl")).collect()
}

/// The texts of a pattern between its arguments, those of all variants.
fn texts(pattern: &Pattern<&str>, out: &mut BTreeSet<String>) {
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => {
                // A text may go on in the next row of the file.
                let words: Vec<&str> = value.split_whitespace().collect();
                let marks = |c: char| !c.is_alphanumeric();
                out.insert(words.join(" ").trim_matches(marks).to_owned());
            }
            PatternElement::Placeable { expression } => match expression {
                Expression::Select { variants, .. } => {
                    variants
                        .iter()
                        .for_each(|variant| texts(&variant.value, out));
                }
                Expression::Inline(InlineExpression::StringLiteral { value }) => {
                    out.insert(value.trim().to_owned());
                }
                Expression::Inline(_) => {}
            },
        }
    }
}

fn all_texts(language: Language) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for file in files(language) {
        messages(language, &file, |_, pattern| texts(pattern, &mut all));
    }
    all
}

/// Words that English has and the other language has not: each text of the English catalogue, from four letters on, that
/// does not stand in a text of the other.
pub fn only_english(other: Language) -> Vec<String> {
    let others = all_texts(other);
    let english = all_texts(Language::En).into_iter();
    english
        .filter(|text| text.chars().filter(|c| c.is_alphabetic()).count() >= 4)
        .filter(|text| !others.iter().any(|other| super::read::says(other, text)))
        .collect()
}

/// The keys of the variants of a message.
pub fn variants(language: Language, file: &str, wanted: &str) -> BTreeSet<String> {
    let mut keys = BTreeSet::new();
    messages(language, file, |key, pattern| {
        for element in pattern.elements.iter().filter(|_| key == wanted) {
            if let PatternElement::Placeable {
                expression: Expression::Select { variants, .. },
            } = element
            {
                keys.extend(variants.iter().map(|variant| match variant.key {
                    VariantKey::Identifier { name } => name.to_owned(),
                    VariantKey::NumberLiteral { value } => value.to_owned(),
                }));
            }
        }
    });
    keys
}
