//! What a pupil reads of a routine.

use leadpipe::edition::Edition;
use leadpipe::handout::page::{HandoutPage, PageTake};
use leadpipe::routine::Routine;
use leadpipe::score::{Take, spoken};
use leadpipe::sheet::page::{Role, Shape};
use leadpipe::sheet::{self, SheetOptions};
use serde_json::Value;

/// The words of the teacher, the longest first.
pub fn teachers_words(routine: &Routine) -> Vec<String> {
    let mut all = vec![routine.title.clone()];
    all.extend(routine.purpose.clone());
    for line in &routine.lines {
        all.push(line.name.clone());
        all.extend(
            [&line.purpose, &line.say, &line.words]
                .into_iter()
                .flatten()
                .cloned(),
        );
    }
    all.sort_by_key(|words| std::cmp::Reverse(words.len()));
    all
}

/// A text without those words.
pub fn without(said: &str, teacher: &[String]) -> String {
    let mut said = said.to_owned();
    for words in teacher {
        said = said.replace(words.as_str(), "…");
    }
    said
}

/// True if a text says these words, as whole words.
pub fn says(text: &str, words: &str) -> bool {
    let alone = |c: Option<char>| c.is_none_or(|c| !c.is_alphanumeric());
    text.match_indices(words).any(|(at, _)| {
        alone(text[..at].chars().next_back()) && alone(text[at + words.len()..].chars().next())
    })
}

/// The texts of a sheet and the descriptions of its drawings, each page and drawing as one.
pub fn sheet(edition: &Edition) -> Vec<String> {
    let score = edition.printed(&Take::default()).expect("it can be played");
    let sheet = sheet::engrave(&score, &SheetOptions::default());
    let mut all = vec![];
    for block in sheet.pages.iter().flat_map(|page| &page.blocks) {
        if let Role::Figure(words) = &block.role {
            all.push(words.clone());
        }
        let texts = block.marks.iter().filter_map(|mark| match &mark.shape {
            Shape::Text { text, .. } => Some(text.as_str()),
            _ => None,
        });
        all.push(texts.collect::<Vec<_>>().join(" "));
    }
    all
}

/// The texts of a page, those of its script included.
pub fn page(edition: &Edition, text: &str) -> Vec<String> {
    let take = Take::default();
    let score = edition.score(&take).expect("it can be played");
    let of = edition.line_origins();
    let html = HandoutPage {
        edition,
        text,
        pencil_text: None,
        whose: None,
        takes: vec![PageTake {
            title: spoken::facts(edition.played().words_in, &take, edition.played()),
            file: "track.mp3".to_owned(),
            score: &score,
            state: String::new(),
            of: &of,
        }],
        sheets: vec![],
        list: Some("list.m3u8"),
    }
    .html();
    let (markup, data) = parts(&html);
    let data: Value = serde_json::from_str(&data).expect("the data is JSON");
    let mut all = visible(&markup);
    for part in ["words", "keys", "guides", "marks", "takes"] {
        said_in(&data[part], &mut all);
    }
    all
}

/// The page without its scripts and styles, and the data of its script.
fn parts(html: &str) -> (String, String) {
    let mut markup = String::new();
    let mut data = String::new();
    let mut rest = html;
    while let Some(at) = ["<script", "<style"]
        .iter()
        .filter_map(|tag| rest.find(tag))
        .min()
    {
        markup += &rest[..at];
        let opened = at + rest[at..].find('>').expect("a tag ends") + 1;
        let name = &rest[at + 1..at + 1 + rest[at + 1..].find([' ', '>']).unwrap()];
        let closing = format!("</{name}>");
        let closed = opened + rest[opened..].find(&closing).expect("an element ends");
        if rest[at..opened].contains("id=\"data\"") {
            data = rest[opened..closed].to_owned();
        }
        rest = &rest[closed + closing.len()..];
    }
    (markup + rest, data)
}

/// Texts between tags, and the attributes that are read aloud.
fn visible(markup: &str) -> Vec<String> {
    let mut all = vec![];
    for part in markup.split('<').skip(1) {
        let (tag, text) = part.split_once('>').unwrap_or((part, ""));
        let label = tag
            .split("aria-label=\"")
            .nth(1)
            .and_then(|rest| rest.split('"').next());
        all.extend([label, Some(text)].into_iter().flatten().map(unescaped));
    }
    all.retain(|said| !said.trim().is_empty());
    all
}

fn unescaped(text: &str) -> String {
    let marks = [
        ("&#39;", "'"),
        ("&quot;", "\""),
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&amp;", "&"),
    ];
    marks.iter().fold(text.to_owned(), |text, (code, mark)| {
        text.replace(code, mark)
    })
}

/// Without the names of arguments in braces.
fn without_arguments(text: &str) -> String {
    let parts = text.split('{').enumerate();
    let texts = parts.map(|(at, part)| match at {
        0 => part,
        _ => part.split_once('}').map_or("", |(_, after)| after),
    });
    texts.collect::<Vec<_>>().join("…")
}

/// Every text in the data that is shown: not what the engine is asked, nor names of files.
fn said_in(value: &Value, all: &mut Vec<String>) {
    match value {
        Value::String(text) => all.push(without_arguments(text)),
        Value::Array(items) => items.iter().for_each(|item| said_in(item, all)),
        Value::Object(fields) => {
            for (key, value) in fields {
                let asked = [
                    "typed", "kind", "value", "on", "file", "guide", "by", "tempo",
                ];
                // The words of the script have keys of their own.
                let words = value.is_string() && fields.len() > 20;
                if words || !asked.contains(&key.as_str()) {
                    said_in(value, all);
                }
            }
        }
        _ => {}
    }
}
