//! Writes a routine as the text of its file, the way a teacher would.

use super::language::Notes;
use crate::music::{Key, Meter, WrittenPitch};
use std::fmt::Write;

/// The head of a routine.
pub(super) struct Head {
    /// The source it was adopted from.
    pub source: String,
    pub title: String,
    pub purpose: Option<String>,
    pub instrument: &'static str,
    pub comfortable_top: WrittenPitch,
    pub reach: Option<WrittenPitch>,
    /// True if comfortable top and reach were guessed.
    pub guessed: bool,
    /// Clicks a minute, and a note about it.
    pub tempo: String,
    pub tempo_guessed: bool,
    pub meter: Meter,
    pub key: Option<Key>,
}

/// A line of a routine.
pub(super) struct TomlLine {
    pub name: String,
    pub purpose: Option<String>,
    pub say: Option<String>,
    /// Notes to the teacher, one for each row.
    pub comments: Vec<String>,
    /// `mouthpiece` or `air`.
    pub on: Option<&'static str>,
    /// The notes, and whether they are for the open horn.
    pub notes: Notes,
    pub open: bool,
    /// `half_steps = [0, -1]`, `tubes = ["0", "2"]`.
    pub walk: Option<String>,
    pub times: usize,
    pub articulation: Option<String>,
    pub between: Option<String>,
    pub rest: Option<String>,
    pub tempo: Option<String>,
    pub meter: Option<Meter>,
    pub key: Option<Key>,
    pub guide: Option<&'static str>,
}

/// The text of a routine file.
pub(super) fn text(head: &Head, lines: &[TomlLine]) -> String {
    let mut text = String::new();
    comment(&format!("Adopted from {}.", head.source), &mut text);
    text.push_str("#\n");
    comment(
        "Everything after a # is a note for you; leadpipe does not read it.",
        &mut text,
    );
    text.push_str("\nformat = 1\n");
    entry("title", &head.title, &mut text);
    if let Some(purpose) = &head.purpose {
        entry("purpose", purpose, &mut text);
    }
    entry("instrument", head.instrument, &mut text);
    let guessed = |known: &'static str, guess: &'static str| {
        if head.guessed { guess } else { known }
    };
    let top = guessed(
        "the highest open note that is easy",
        "a guess: most of the playing lies at or below it",
    );
    noted(
        "comfortable_top",
        &quoted(&head.comfortable_top.to_string()),
        top,
        &mut text,
    );
    if let Some(reach) = head.reach {
        let what = guessed("goes this far", "a guess: the highest note there is");
        noted("reach", &quoted(&reach.to_string()), what, &mut text);
    }
    let of_tempo = if head.tempo_guessed {
        "a guess: no tempo was written"
    } else {
        "clicks a minute, one click a beat"
    };
    noted("tempo", &head.tempo, of_tempo, &mut text);
    entry("meter", &head.meter.to_string(), &mut text);
    if let Some(key) = head.key {
        entry("key", &key.to_string(), &mut text);
    }
    for line in lines {
        text.push('\n');
        self::line(line, &mut text);
    }
    text
}

fn line(line: &TomlLine, text: &mut String) {
    for words in &line.comments {
        comment(words, text);
    }
    text.push_str("[[line]]\n");
    entry("name", &line.name, text);
    if let Some(purpose) = &line.purpose {
        entry("purpose", purpose, text);
    }
    if let Some(say) = &line.say {
        entry("say", say, text);
    }
    if let Some(on) = line.on {
        entry("on", on, text);
    }
    if let Some(meter) = line.meter {
        entry("meter", &meter.to_string(), text);
    }
    if let Some(key) = line.key {
        entry("key", &key.to_string(), text);
    }
    if let Some(tempo) = &line.tempo {
        let _ = writeln!(text, "tempo = {tempo}");
    }
    if let Some(each) = line.notes.each {
        entry("each", &each.to_string(), text);
    }
    let key = if line.open { "open" } else { "notes" };
    match line.notes.rows.as_slice() {
        [row] => entry(key, row, text),
        rows => {
            let _ = writeln!(text, "{key} = \"\"\"\n{}\"\"\"", rows.join("\n"));
        }
    }
    if let Some(walk) = &line.walk {
        let _ = writeln!(text, "{walk}");
    }
    if line.times > 1 {
        let _ = writeln!(text, "times = {}", line.times);
    }
    if let Some(articulation) = &line.articulation {
        let _ = writeln!(text, "articulation = {articulation}");
    }
    let rests = [("between", &line.between), ("rest", &line.rest)];
    for (key, words) in rests {
        if let Some(words) = words {
            entry(key, words, text);
        }
    }
    if let Some(guide) = line.guide {
        entry("guide", guide, text);
    }
}

fn entry(key: &str, value: &str, text: &mut String) {
    let _ = writeln!(text, "{key} = {}", quoted(value));
}

/// An entry with a note after it.
fn noted(key: &str, value: &str, note: &str, text: &mut String) {
    let _ = writeln!(text, "{key} = {value}  # {note}");
}

/// A comment; any line ends in it are replaced.
fn comment(words: &str, text: &mut String) {
    let _ = writeln!(text, "# {}", plain(words));
}

/// Text in one row without control characters, at most as long as a routine allows.
pub(super) fn plain(text: &str) -> String {
    let text: String = text
        .chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    let words: Vec<&str> = text.split_whitespace().collect();
    words
        .join(" ")
        .chars()
        .take(crate::routine::bounds::LONGEST_TEXT)
        .collect()
}

/// A basic string of TOML 1.0.
pub(super) fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for c in text.chars() {
        match c {
            '"' => quoted.push_str("\\\""),
            '\\' => quoted.push_str("\\\\"),
            c if c.is_control() => {
                let _ = write!(quoted, "\\u{:04X}", u32::from(c));
            }
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}
