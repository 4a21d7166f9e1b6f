//! The words of every language, from the Fluent files in `src/words/languages`: one folder for each language, named by
//! its tag. They become `catalogue.rs`: the type `Language`, a function for each message (`say`), and the words of the
//! page's script (`SCRIPT`).
//!
//! The build fails where a language lacks a message of the English one, has one more, or uses another argument. What a
//! teacher reads, in the folder `teacher` of each language, becomes functions that say it in every language at once
//! (`tell`). Only the languages of [`COMPLETE`] must have all of it; another one says a message that it lacks in English.

use super::pattern::Message;
use fluent_syntax::ast::Entry;
use fluent_syntax::parser;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::fs;
use std::path::Path;

/// Where the folders of the languages are.
pub const FOLDER: &str = "src/words/languages";
/// The language that every message is first written in.
const FIRST: &str = "en";
/// The languages that must have every message; the others may lack those to the teacher.
const COMPLETE: [&str; 2] = ["de", "en"];
/// The folder, within that of a language, of the messages to the teacher.
const TEACHER: &str = "teacher/";
/// The file whose words are for the page's script alone.
const SCRIPT: &str = "script.ftl";

/// Which number takes the singular (Unicode CLDR, Language Plural Rules), for the languages that tell two forms apart.
const PLURALS: [(&str, &str); 9] = [
    ("da", "One"),
    ("de", "One"),
    ("en", "One"),
    ("es", "One"),
    ("fr", "ZeroAndOne"),
    ("it", "One"),
    ("nl", "One"),
    ("pt", "ZeroAndOne"),
    ("sv", "One"),
];

/// A language as it was read.
struct Language {
    tag: String,
    /// By file, then by key.
    messages: BTreeMap<String, BTreeMap<String, Message>>,
}

impl Language {
    fn message(&self, file: &str, key: &str) -> Option<&Message> {
        self.messages.get(file)?.get(key)
    }

    /// True if it may say the messages of this file in English.
    fn may_lack(&self, file: &str) -> bool {
        file.starts_with(TEACHER) && !COMPLETE.contains(&self.tag.as_str())
    }
}

/// The sources of `catalogue.rs` and of `tell.rs`, from the sources below `root`.
pub fn sources(root: &Path) -> (String, String) {
    let mut languages: Vec<Language> = names(&root.join(FOLDER))
        .into_iter()
        .map(|tag| read(root, tag))
        .collect();
    languages.sort_by_key(|one| (one.tag != FIRST, one.tag.clone()));
    let first = &languages[0];
    assert_eq!(first.tag, FIRST, "{FOLDER} holds {FIRST}");
    for other in &languages[1..] {
        compare(first, other);
    }
    let mut out = language_type(&languages);
    let (mut said, mut told) = (String::new(), String::new());
    let mut script = String::new();
    for (file, messages) in &first.messages {
        for key in messages.keys() {
            let all: Vec<&Message> = languages
                .iter()
                .map(|l| l.message(file, key).unwrap_or(&messages[key]))
                .collect();
            if file.starts_with(TEACHER) {
                told += &teller(key, &all);
            } else if file == SCRIPT {
                let json: Vec<String> = all.iter().map(|m| m.json(key)).collect();
                let _ = writeln!(script, "    ({key:?}, &{json:?}),");
            } else {
                said += &function(key, &all);
            }
        }
    }
    let _ = write!(
        out,
        "/// A function for each message of the catalogue, in the language that is asked for.\n\
         {}pub(crate) mod say {{\nuse super::{{Arg, Language, said}};\n{said}}}\n\n\
         /// The words of the page's script by their keys, in each language as JSON.\n\
         #[cfg_attr(not(feature = \"cli\"), allow(dead_code))]\n\
         pub(crate) const SCRIPT: &[(&str, &[&str])] = &[\n{script}];\n",
        all_said(&["cli", "engine", "pdf"]),
    );
    let tell = format!(
        "/// A function for each message to the teacher, in all languages at once.\n\
         {}pub(crate) mod tell {{\nuse super::{{Given, Words, told}};\n{told}}}\n",
        all_said(&[
            "cli", "engine", "exchange", "flac", "mp3", "pdf", "png", "share"
        ]),
    );
    (out, tell)
}

/// A message that nothing says is a fault, in a build with all features that say some.
fn all_said(features: &[&str]) -> String {
    let features: Vec<String> = features
        .iter()
        .map(|f| format!("feature = {f:?}"))
        .collect();
    let all = features.join(", ");
    format!(
        "#[cfg_attr(all({all}), deny(dead_code))]\n#[cfg_attr(not(all({all})), allow(dead_code))]\n"
    )
}

/// The names in a folder, in order.
fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("the sources are readable");
    let mut names: Vec<String> = entries
        .map(|entry| entry.expect("the sources are readable").file_name())
        .map(|name| name.to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

fn read(root: &Path, tag: String) -> Language {
    let folder = root.join(FOLDER).join(&tag);
    let mut files = names(&folder);
    if folder.join(TEACHER).is_dir() {
        let teachers = names(&folder.join(TEACHER)).into_iter();
        files.extend(teachers.map(|name| TEACHER.to_owned() + &name));
    }
    let files = files.into_iter().filter(|name| name.ends_with(".ftl"));
    let messages = files.map(|file| {
        let shown = format!("{FOLDER}/{tag}/{file}");
        let text = fs::read_to_string(folder.join(&file)).expect("the sources are readable");
        let resource = parser::parse(text.as_str())
            .unwrap_or_else(|(_, errors)| panic!("{shown}: {:?}", errors[0]));
        let mut all = BTreeMap::new();
        for entry in resource.body {
            match entry {
                Entry::Message(message) => {
                    let key = message.id.name;
                    let pattern = message.value.as_ref();
                    let pattern = pattern.unwrap_or_else(|| panic!("{shown}: {key} says nothing"));
                    let message = Message::of(pattern)
                        .unwrap_or_else(|wrong| panic!("{shown}: {key}: {wrong}"));
                    let twice = all.insert(key.to_owned(), message).is_some();
                    assert!(!twice, "{shown}: {key} is there twice");
                }
                Entry::Term(term) => panic!("{shown}: -{}: terms are not read", term.id.name),
                Entry::Junk { content } => panic!("{shown}: {content}"),
                _ => {}
            }
        }
        (file, all)
    });
    let messages = messages.collect();
    Language { tag, messages }
}

/// Panics where a language does not have the messages of the first one, with the same arguments.
fn compare(first: &Language, other: &Language) {
    let keys = |language: &Language| -> Vec<(String, String)> {
        let files = language.messages.iter();
        files
            .flat_map(|(file, all)| all.keys().map(move |key| (file.clone(), key.clone())))
            .collect()
    };
    let (own, wanted) = (keys(other), keys(first));
    for (file, key) in &wanted {
        assert!(
            other.may_lack(file) || own.contains(&(file.clone(), key.clone())),
            "{FOLDER}/{}/{file}: {key} is missing",
            other.tag
        );
    }
    for (file, key) in &own {
        assert!(
            wanted.contains(&(file.clone(), key.clone())),
            "{FOLDER}/{}/{file}: {key} is not in {FOLDER}/{FIRST}/{file}",
            other.tag
        );
    }
}

fn variant(tag: &str) -> String {
    let (head, tail) = tag.split_at(1);
    head.to_uppercase() + tail
}

fn language_type(languages: &[Language]) -> String {
    let variants: Vec<String> = languages.iter().map(|l| variant(&l.tag)).collect();
    let mut list = String::new();
    for (index, (variant, language)) in variants.iter().zip(languages).enumerate() {
        let default = if index == 0 { "    #[default]\n" } else { "" };
        let _ = writeln!(list, "    /// `{}`.\n{default}    {variant},", language.tag);
    }
    let arms = |of: &dyn Fn(&Language) -> String| -> String {
        let arms = variants.iter().zip(languages);
        arms.map(|(variant, language)| format!("Self::{variant} => {},\n", of(language)))
            .collect()
    };
    let rule = |language: &Language| {
        let rule = PLURALS.iter().find(|(tag, _)| *tag == language.tag);
        let (_, rule) = rule.unwrap_or_else(|| {
            panic!(
                "build/catalogue.rs does not know which numbers take the singular in {}: add a row to PLURALS",
                language.tag
            )
        });
        format!("Plural::{rule}")
    };
    format!(
        "/// A language that leadpipe speaks: one folder in `{FOLDER}`.\n\
         #[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]\npub enum Language {{\n{list}}}\n\n\
         impl Language {{\n    /// All of them, English first.\n    pub const ALL: [Self; {}] = [{}];\n\n\
         /// Its tag (BCP 47).\n    pub fn tag(self) -> &'static str {{\nmatch self {{\n{}}}\n}}\n\n\
         /// The language that a teacher is spoken to in: English where this one has no words for teachers.\n    \
         pub fn to_teachers(self) -> Self {{\nmatch self {{\n{}}}\n}}\n\n\
         /// Which numbers take the singular.\n    fn plural(self) -> Plural {{\nmatch self {{\n{}}}\n}}\n}}\n\n",
        variants.len(),
        variants
            .iter()
            .map(|v| format!("Self::{v}"))
            .collect::<Vec<_>>()
            .join(", "),
        arms(&|l| format!("{:?}", l.tag)),
        arms(&|l| {
            let some = l.messages.keys().any(|file| file.starts_with(TEACHER));
            format!("Self::{}", variant(if some { &l.tag } else { FIRST }))
        }),
        arms(&rule),
    )
}

/// The arguments of all languages, in the order of the English words.
fn arguments<'m>(all: &[&'m Message]) -> Vec<&'m str> {
    let mut arguments: Vec<&str> = vec![];
    for name in all.iter().flat_map(|m| m.arguments()) {
        if !arguments.contains(&name) {
            arguments.push(name);
        }
    }
    arguments
}

/// The function that says a message in a language.
fn function(key: &str, all: &[&Message]) -> String {
    let arguments = arguments(all);
    let name = key.replace('-', "_");
    let doc = all[0].english();
    let written: Vec<String> = all.iter().map(|m| m.written(&arguments)).collect();
    if arguments.is_empty() {
        return format!(
            "/// “{doc}”\npub(crate) fn {name}(language: Language) -> &'static str {{\n\
             [{}][language as usize]\n}}\n",
            list(&written)
        );
    }
    let taken: Vec<String> = arguments
        .iter()
        .map(|a| format!("{}: impl Into<Arg<'a>>", a.replace('-', "_")))
        .collect();
    let given: Vec<String> = arguments
        .iter()
        .map(|a| format!("{}.into()", a.replace('-', "_")))
        .collect();
    format!(
        "/// “{doc}”\npub(crate) fn {name}<'a>(language: Language, {}) -> String {{\n\
         said(language, &[{}], &[{}])\n}}\n",
        taken.join(", "),
        list(&written),
        given.join(", ")
    )
}

/// The function that says a message to a teacher, in all languages.
fn teller(key: &str, all: &[&Message]) -> String {
    let arguments = arguments(all);
    let names: Vec<String> = arguments.iter().map(|a| a.replace('-', "_")).collect();
    let taken: Vec<String> = names
        .iter()
        .map(|name| format!("{name}: impl Into<Given<'a>>"))
        .collect();
    let given: Vec<String> = names.iter().map(|name| format!("{name}.into()")).collect();
    let written: Vec<String> = all.iter().map(|m| m.written(&arguments)).collect();
    format!(
        "/// “{}”\n#[allow(clippy::too_many_arguments)]\npub(crate) fn {}{}({}) -> Words {{\n\
         told(&[{}], &[{}])\n}}\n",
        all[0].english(),
        key.replace('-', "_"),
        if taken.is_empty() { "" } else { "<'a>" },
        taken.join(", "),
        list(&written),
        given.join(", ")
    )
}

fn list(texts: &[String]) -> String {
    let quoted: Vec<String> = texts.iter().map(|t| format!("{t:?}")).collect();
    quoted.join(", ")
}
