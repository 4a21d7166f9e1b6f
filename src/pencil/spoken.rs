//! Marks as they are typed: `slower`, `breath after 4`, `rest 2 bars`.

use super::lay::BOTH;
use super::mark::{Change, RestChange, Stop, TempoChange};
use super::reader;
use crate::brass::Tube;
use crate::routine::suggest::nearest;
use crate::routine::{Articulation, Drone, RestLength};
use crate::words::{Words, count, tell};

/// A mark as a row of the file: its kind and its value in TOML.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Row {
    /// The name of the entry.
    pub kind: &'static str,
    /// Its value, quotes included where it has some.
    pub value: String,
}

/// Examples of every mark, shown to somebody who typed something else.
pub const VOCABULARY: &str = "slower, faster, tempo 85%, tempo 60, rest longer, rest shorter, rest 2 bars, \
     between longer, breath after 4, tongued, slurred, both, bend, bend 2, finger 2, times 5, leave out, softer, louder, \
     drone off, guide echo, stop after 1-2, half steps 0,-1, tubes 0,2,1, words \"…\"";

/// The words that a mark may begin with.
const WORDS: [&str; 24] = [
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
    "finger",
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

/// What one would type for a change.
pub fn typed(change: &Change) -> String {
    let rest = |what: &str, change: &RestChange| match change {
        RestChange::Longer => format!("{what} longer"),
        RestChange::Shorter => format!("{what} shorter"),
        RestChange::Percent(part) => format!("{what} {part}%"),
        RestChange::To(length) => match length {
            RestLength::None => format!("{what} none"),
            RestLength::Same => format!("{what} same"),
            RestLength::Bars(n) => format!("{what} {}", count::bars(*n)),
            RestLength::Beats(n) => format!("{what} {}", count::beats(*n)),
            RestLength::Seconds(n) => format!("{what} {n} s"),
        },
    };
    let listed = |names: Vec<String>| names.join(",");
    match change {
        Change::Tempo(TempoChange::Slower) => "slower".to_owned(),
        Change::Tempo(TempoChange::Faster) => "faster".to_owned(),
        Change::Tempo(TempoChange::Percent(part)) => format!("tempo {part}%"),
        Change::Tempo(TempoChange::Clicks(clicks)) => format!("tempo {clicks}"),
        Change::Rest(change) => rest("rest", change),
        Change::Between(change) => rest("between", change),
        Change::BreathAfter(note) => format!("breath after {note}"),
        Change::Articulation(list) if list[..] == BOTH => "both".to_owned(),
        Change::Articulation(list) => {
            let words = Articulation::WORDS.iter();
            let words = words.filter(|(_, a)| list.contains(a));
            listed(words.map(|(word, _)| (*word).to_owned()).collect())
        }
        Change::Bend(None) => "bend".to_owned(),
        Change::Bend(Some(note)) => format!("bend {note}"),
        Change::Finger(None) => "finger".to_owned(),
        Change::Finger(Some(note)) => format!("finger {note}"),
        Change::Times(times) => format!("times {times}"),
        Change::LeaveOut => "leave out".to_owned(),
        Change::Louder(true) => "louder".to_owned(),
        Change::Louder(false) => "softer".to_owned(),
        Change::Drone(Drone::Off) => "drone off".to_owned(),
        Change::Drone(Drone::Tonic) => "drone tonic".to_owned(),
        Change::Drone(Drone::TonicAndFifth) => "drone tonic and fifth".to_owned(),
        Change::Drone(Drone::Pitch(pitch)) => format!("drone {pitch}"),
        Change::Guide(guide) => format!("guide {}", guide.word()),
        Change::StopAfter(Stop::HalfStep(step)) => format!("stop after {step}"),
        Change::StopAfter(Stop::Tube(tube)) => format!("stop after {tube}"),
        Change::HalfSteps(steps) => {
            format!(
                "half steps {}",
                listed(steps.iter().map(i32::to_string).collect())
            )
        }
        Change::Tubes(tubes) => {
            format!(
                "tubes {}",
                listed(tubes.iter().map(Tube::to_string).collect())
            )
        }
        Change::Words(words) => format!("words {words}"),
    }
}

/// Reads a mark. Its value is checked by the reader of the file.
///
/// # Errors
/// A hint that says what would be right.
pub fn parse(said: &str) -> Result<Row, Words> {
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
        ("bend" | "finger", _) => {
            let kind = if first == "bend" { "bend" } else { "finger" };
            match rest {
                "" | "it" => row(kind, "true".to_owned()),
                note => row(kind, number(note.strip_prefix("note ").unwrap_or(note))?),
            }
        }
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
                match Tube::parse(name) {
                    Some(tube) => quoted(&tube.to_string()),
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
            Some("longer") => tell::say_which(),
            Some(meant) if meant != first => tell::did_you_mean(meant),
            _ => tell::marks_are_words(VOCABULARY),
        }),
    }
}

fn parts(list: &str) -> impl Iterator<Item = &str> {
    list.split([',', ' ']).filter(|part| !part.is_empty())
}

fn numbers(list: &str) -> Result<String, Words> {
    let numbers = parts(list).map(number).collect::<Result<Vec<_>, _>>()?;
    Ok(format!("[{}]", numbers.join(", ")))
}

/// A number in TOML's syntax, or an error.
fn number(text: &str) -> Result<String, Words> {
    let unsigned = text.strip_prefix('-').unwrap_or(text);
    let plain = |digits: &str| !digits.is_empty() && digits.bytes().all(|b| b.is_ascii_digit());
    let (whole, part) = unsigned.split_once('.').unwrap_or((unsigned, "0"));
    let leading_zero = whole.len() > 1 && whole.starts_with('0');
    if plain(whole) && plain(part) && !leading_zero {
        Ok(text.to_owned())
    } else {
        Err(tell::no_number(text))
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

#[cfg(test)]
mod tests {
    use super::*;

    /// What is typed for a mark is read as that mark.
    #[test]
    fn what_is_typed_is_what_was_marked() {
        for said in [
            "slower",
            "faster",
            "tempo 70%",
            "tempo 60",
            "rest longer",
            "rest shorter",
            "rest 150%",
            "rest 2 bars",
            "rest 20 s",
            "rest same",
            "rest none",
            "between longer",
            "between 4 beats",
            "breath after 4",
            "tongued",
            "slurred",
            "both",
            "as written",
            "bend",
            "bend 2",
            "finger",
            "finger 2",
            "times 5",
            "leave out",
            "softer",
            "louder",
            "drone off",
            "drone tonic",
            "drone tonic and fifth",
            "drone Bb3",
            "guide echo",
            "stop after 1-2",
            "stop after -2",
            "half steps 0,-1,-2",
            "tubes 0,2,1-3",
            "words Like a bell.",
        ] {
            let row = parse(said).expect("it is a mark");
            let text = format!(
                "format = 1\n[[mark]]\nline = 1\n{} = {}\n",
                row.kind, row.value
            );
            let marks = reader::read(&text).pencil.expect("it is a pencil").marks;
            let again = parse(&typed(&marks[0].change)).expect("it is typed so");
            assert_eq!((again.kind, again.value), (row.kind, row.value), "{said}");
        }
    }
}
