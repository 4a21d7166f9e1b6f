//! A mark as it is said and typed: `slower`, `breath after 4`, `rest 2 bars`.

use super::reader;
use crate::brass::Valves;
use crate::routine::suggest::nearest;

/// A mark as a row of the file: its kind and its value in TOML.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// The name of the entry.
    pub kind: &'static str,
    /// Its value, quotes included where it has some.
    pub value: String,
}

/// What there is to say, for somebody who said something else.
pub const VOCABULARY: &str = "slower, faster, tempo 85%, tempo 60, rest longer, rest shorter, rest 2 bars, \
     between longer, breath after 4, tongued, slurred, both, bend, bend 2, times 5, leave out, softer, louder, \
     drone off, guide echo, stop after 1-2, half steps 0,-1, tubes 0,2,1, words \"…\"";

/// Words that a mark may begin with, or be.
const WORDS: [&str; 23] = [
    "slower",
    "faster",
    "tempo",
    "rest",
    "between",
    "breath",
    "breathe",
    "tongued",
    "slurred",
    "both",
    "bend",
    "times",
    "leave",
    "softer",
    "louder",
    "drone",
    "guide",
    "stop",
    "half",
    "half_steps",
    "tubes",
    "words",
    "longer",
];

/// Reads a mark. Whether its value is one is for the reader of the file to say.
///
/// # Errors
/// In words, what would be right.
pub fn parse(said: &str) -> Result<Row, String> {
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    let row = |kind: &'static str, value: String| Ok(Row { kind, value });
    let (first, rest) = said.split_once(' ').unwrap_or((&said, ""));
    match (first, rest) {
        ("slower" | "faster", "") => row("tempo", quoted(first)),
        ("tempo", value @ ("slower" | "faster")) => row("tempo", quoted(value)),
        ("tempo", part) if part.ends_with('%') => row("tempo", quoted(part)),
        ("tempo", clicks) if !clicks.is_empty() => row("tempo", number(clicks)?),
        (part, "") if part.ends_with('%') => row("tempo", quoted(part)),
        ("rest", value) if !value.is_empty() => row("rest", quoted(value)),
        ("between", value) if !value.is_empty() => row("between", quoted(value)),
        ("breath" | "breathe", note) if !note.is_empty() => {
            let note = note.strip_prefix("after ").unwrap_or(note);
            row(
                "breath_after",
                number(note.strip_prefix("note ").unwrap_or(note))?,
            )
        }
        ("tongued" | "tongue", "" | "it") => row("articulation", quoted("tongued")),
        ("slurred" | "slur", "" | "it") => row("articulation", quoted("slurred")),
        ("both", "") => row("articulation", quoted("both")),
        ("as", "written") => row("articulation", quoted("as written")),
        ("bend", "" | "it") => row("bend", "true".to_owned()),
        ("bend", note) => row("bend", number(note.strip_prefix("note ").unwrap_or(note))?),
        ("times", n) if !n.is_empty() => row("times", number(n)?),
        (n, "times") => row("times", number(n)?),
        ("leave", "out" | "it out") => row("leave_out", "true".to_owned()),
        ("softer" | "louder", "") => row("loudness", quoted(first)),
        ("drone", value) if !value.is_empty() => row("drone", quoted(value)),
        ("guide", value) if !value.is_empty() => row("guide", quoted(value)),
        ("stop", after) if !after.is_empty() => {
            let name = after.strip_prefix("after ").unwrap_or(after);
            row(
                "stop_after",
                match Valves::parse(name) {
                    Some(valves) => quoted(&valves.to_string()),
                    None => number(name)?,
                },
            )
        }
        ("half_steps", list) if !list.is_empty() => row("half_steps", numbers(list)?),
        ("half", list) if list.starts_with("steps ") => row("half_steps", numbers(&list[6..])?),
        ("tubes", list) if !list.is_empty() => {
            let tubes: Vec<String> = parts(list).map(quoted).collect();
            row("tubes", format!("[{}]", tubes.join(", ")))
        }
        ("words", words) if !words.is_empty() => row("words", quoted(words)),
        _ => Err(match nearest(first, WORDS) {
            Some("longer") => "say which: rest longer, between longer".to_owned(),
            Some(meant) if meant != first => format!("did you mean {meant}?"),
            _ => format!("marks are {VOCABULARY}"),
        }),
    }
}

fn parts(list: &str) -> impl Iterator<Item = &str> {
    list.split([',', ' ']).filter(|part| !part.is_empty())
}

fn numbers(list: &str) -> Result<String, String> {
    let numbers = parts(list).map(number).collect::<Result<Vec<_>, _>>()?;
    Ok(format!("[{}]", numbers.join(", ")))
}

/// A number as TOML takes it; anything else is none.
fn number(text: &str) -> Result<String, String> {
    let unsigned = text.strip_prefix('-').unwrap_or(text);
    let plain = |digits: &str| !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit());
    let (whole, part) = unsigned.split_once('.').unwrap_or((unsigned, "0"));
    let leading_zero = whole.len() > 1 && whole.starts_with('0');
    if plain(whole) && plain(part) && !leading_zero {
        Ok(text.to_owned())
    } else {
        Err(format!("“{text}” is no number"))
    }
}

/// A text as TOML writes it.
pub fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => {
                out.push('\\');
                out.push(c);
            }
            c if c.is_control() => out.push_str(&format!("\\u{:04X}", u32::from(c))),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// True for the date of a day: 2026-11-25.
pub fn is_date(text: &str) -> bool {
    reader::is_date(text)
}
