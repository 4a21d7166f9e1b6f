//! Edits, and what they give.

/// One change of a routine's text. Lines are counted from 0. Signs are the notes, rests, ties, breaths in and out and holds
/// of a line, counted from 0 in the order in which they are written.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "engine", derive(serde::Deserialize))]
#[cfg_attr(
    feature = "engine",
    serde(tag = "kind", rename_all = "camelCase", deny_unknown_fields)
)]
pub enum Edit {
    /// Sets an entry of a line, or of the head if there is no line.
    Set {
        /// The line.
        line: Option<usize>,
        /// The entry's name.
        key: String,
        /// Its value.
        value: Value,
    },
    /// Removes an entry of a line, or of the head if there is no line.
    Remove {
        /// The line.
        line: Option<usize>,
        /// The entry's name.
        key: String,
    },
    /// Adds a line so that it gets this number.
    AddLine {
        /// Its number.
        at: usize,
        /// Its name.
        name: String,
        /// Its notes.
        notes: String,
    },
    /// Removes a line with the comment right above it.
    RemoveLine {
        /// The line.
        line: usize,
    },
    /// Moves a line so that it gets the number `to`.
    MoveLine {
        /// The line.
        line: usize,
        /// Its new number.
        to: usize,
    },
    /// Writes a line once more, behind itself.
    DuplicateLine {
        /// The line.
        line: usize,
    },
    /// Writes notes before the sign `at`, or behind the last.
    Insert {
        /// The line.
        line: usize,
        /// The number that the first new sign gets.
        at: usize,
        /// The notes.
        notes: String,
    },
    /// Deletes signs, with the ties behind them.
    Delete {
        /// The line.
        line: usize,
        /// The first sign.
        first: usize,
        /// The last sign.
        last: usize,
    },
    /// Moves the pitches of notes.
    Move {
        /// The line.
        line: usize,
        /// The first sign.
        first: usize,
        /// The last sign.
        last: usize,
        /// How far.
        by: Distance,
    },
    /// Writes notes with another accidental.
    Accidental {
        /// The line.
        line: usize,
        /// The first sign.
        first: usize,
        /// The last sign.
        last: usize,
        /// Half steps that the letter is altered by: -1 is a flat, 1 a sharp.
        alter: i8,
    },
    /// Gives signs another length.
    Length {
        /// The line.
        line: usize,
        /// The first sign.
        first: usize,
        /// The last sign.
        last: usize,
        /// The length, as in the notes: "half", dotted "half.".
        length: String,
    },
    /// Puts signs under a slur or into a triplet.
    Group {
        /// The line.
        line: usize,
        /// The first sign.
        first: usize,
        /// The last sign.
        last: usize,
        /// "slur" or "triplet".
        group: String,
    },
    /// Takes away the slur or triplet that a sign is in.
    Ungroup {
        /// The line.
        line: usize,
        /// The sign.
        at: usize,
        /// "slur" or "triplet".
        group: String,
    },
    /// Writes `(accent)`, `(bend)` or another mark at notes, or takes it away.
    Mark {
        /// The line.
        line: usize,
        /// The first sign.
        first: usize,
        /// The last sign.
        last: usize,
        /// The mark's word.
        mark: String,
        /// False takes it away.
        on: bool,
    },
    /// Writes a fingering at a note, or takes it away.
    Finger {
        /// The line.
        line: usize,
        /// The sign.
        at: usize,
        /// The fingering: "1-2"; none takes it away.
        fingering: Option<String>,
    },
    /// Writes a dynamic right before a sign, outside of the slurs and triplets that begin there, or takes it away.
    Dynamic {
        /// The line.
        line: usize,
        /// The sign.
        at: usize,
        /// The dynamic: "mf", "cresc"; none takes it away.
        dynamic: Option<String>,
    },
    /// Writes `breath` behind a note, with its ties and outside of what ends there, or takes it away.
    Breath {
        /// The line.
        line: usize,
        /// The sign.
        at: usize,
        /// False takes it away.
        on: bool,
    },
    /// Writes a bar line behind a sign, with its ties and outside of what ends there, or takes it away.
    Bar {
        /// The line.
        line: usize,
        /// The sign.
        at: usize,
        /// False takes it away.
        on: bool,
    },
}

/// How far a pitch is moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "engine", derive(serde::Deserialize))]
#[cfg_attr(feature = "engine", serde(rename_all = "camelCase"))]
pub enum Distance {
    /// Steps of the staff; the key of the line decides the accidental.
    Steps(i32),
    /// Half steps.
    HalfSteps(i32),
    /// Octaves.
    Octaves(i32),
}

/// The value of an entry.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "engine", derive(serde::Deserialize))]
#[cfg_attr(feature = "engine", serde(untagged))]
pub enum Value {
    /// A whole number.
    Whole(i64),
    /// Another number.
    Number(f64),
    /// A text.
    Text(String),
    /// A list.
    List(Vec<Value>),
}

impl Value {
    /// As it is written in the file; a number that is none as zero.
    pub fn written(&self) -> String {
        match self {
            Value::Whole(number) => number.to_string(),
            Value::Number(number) if number.is_finite() => format!("{number:?}"),
            Value::Number(_) => "0".to_owned(),
            Value::Text(text) => quoted(text),
            Value::List(values) => {
                let values: Vec<String> = values.iter().map(Value::written).collect();
                format!("[{}]", values.join(", "))
            }
        }
    }
}

/// A text in straight quotes.
pub fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\t' => out.push_str("\\t"),
            c if c.is_control() => out.push_str(&format!("\\u{:04X}", u32::from(c))),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// The bytes `start..end` of a text are replaced.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Splice {
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
    /// What stands there afterwards.
    pub with: String,
}

/// Signs of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Selection {
    /// The line.
    pub line: usize,
    /// The first and the last sign; none if the whole line is meant.
    pub signs: Option<(usize, usize)>,
}

/// A sign of a line's notes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SignPlace {
    /// Its number, from 0.
    pub at: usize,
    /// Its word without the length: "G4", "rest".
    pub head: String,
    /// Its bytes in the text, with marks and fingering.
    pub place: std::ops::Range<usize>,
}

impl SignPlace {
    /// True for what players count as a note: a pitch, or a breath in or out.
    pub fn is_note(&self) -> bool {
        !matches!(&*self.head, "rest" | "tie" | "hold")
    }
}

/// What an edit gives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edited {
    /// The new text.
    pub text: String,
    /// What is replaced in the old text; in order, without overlaps.
    pub splices: Vec<Splice>,
    /// What is replaced in the new text to get the old one back.
    pub inverse: Vec<Splice>,
    /// What is selected afterwards.
    pub selection: Option<Selection>,
}
