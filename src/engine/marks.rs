//! A pencil's marks in words, each with its place.

use super::answer::{In, Said};
use crate::pencil::hand::{self, NOWHERE};
use crate::pencil::spoken::{self, VOCABULARY};
use crate::pencil::{self, Change, Mark, Pencil, edit, lay, words};
use crate::routine::Routine;
use serde::Serialize;

use super::request::{MarkRequest, MarksRequest};

/// A mark.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct MarkInWords {
    index: usize,
    of: Of,
    heading: String,
    words: String,
    kind: &'static str,
    typed: String,
    note: Option<usize>,
    date: Option<String>,
}

/// What a mark stands at.
#[derive(Debug, Serialize)]
#[serde(untagged)]
enum Of {
    Line(usize),
    Whole(()),
    Nowhere(&'static str),
}

/// The marks of a pencil in the order of its text.
pub fn in_words(pencil: &Pencil, teacher: &Routine) -> Vec<MarkInWords> {
    let one = |(index, mark): (usize, &Mark)| {
        let (of, heading) = match lay::find_line(&mark.target, teacher) {
            Ok(Some(line)) => (Of::Line(line), hand::heading(Some(line), teacher)),
            Ok(None) => (Of::Whole(()), hand::heading(None, teacher)),
            Err(_) => (Of::Nowhere("nowhere"), NOWHERE.to_owned()),
        };
        MarkInWords {
            index,
            of,
            heading,
            words: words::change(&mark.change),
            kind: mark.change.kind(),
            typed: spoken::typed(&mark.change),
            note: match mark.change {
                Change::BreathAfter(note) | Change::Bend(Some(note)) => Some(note),
                _ => None,
            },
            date: mark.date.clone(),
        }
    };
    pencil.marks.iter().enumerate().map(one).collect()
}

/// What a pencil says.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct ReadOut {
    ok: bool,
    player: Option<String>,
    marks: Vec<MarkInWords>,
    faults: Vec<Said>,
    vocabulary: &'static str,
}

/// Reads a pencil out, without applying it.
pub fn read_out(request: &MarksRequest, teacher: &Routine) -> ReadOut {
    let text = &request.pencil;
    let read = pencil::read(text);
    let mut faults = read.faults;
    if let Some(pencil) = &read.pencil {
        faults.extend(pencil::lay(pencil, teacher).faults);
    }
    faults.sort_by_key(|f| (f.span.start, f.span.end));
    let pencil = read.pencil.unwrap_or_default();
    ReadOut {
        ok: true,
        marks: in_words(&pencil, teacher),
        player: pencil.player,
        faults: Said::faults(In::Pencil, text, &faults),
        vocabulary: VOCABULARY,
    }
}

/// A pencil with a mark more or less.
#[derive(Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub struct Changed {
    ok: bool,
    pencil: String,
    said: String,
}

/// Writes a mark into a pencil, or takes one back.
pub fn change(request: &MarkRequest, teacher: &Routine) -> Result<Changed, Vec<Said>> {
    let text = match &request.pencil {
        Some(text) => text.clone(),
        None => edit::empty(request.player.as_deref()),
    };
    // What a mark stands in is called so where a command line would say its file's name.
    const SHOWN: &str = "the pencil";
    let line = match request.of {
        Some(of) if of >= teacher.lines.len() => {
            let message = format!("there is no line {} in “{}”", of + 1, teacher.title);
            return Err(Said::of(In::Request, message).into());
        }
        of => of,
    };
    let date = request.date.as_deref();
    if date.is_some_and(|date| !spoken::is_date(date)) {
        let right = "a day is written year, month, day: 2026-11-25".to_owned();
        return Err(Said::of(In::Request, "that is no day")
            .with_hint(Some(right))
            .into());
    }
    let row = || hand::row(request.mark.as_deref().unwrap_or_default());
    let changed = match (request.erase, request.index) {
        (true, Some(index)) => hand::take_back_at(&text, SHOWN, teacher, index),
        (true, None) => row().and_then(|row| hand::take_back(&text, SHOWN, teacher, line, &row)),
        (false, _) => row().and_then(|row| hand::write(&text, teacher, line, &row, date)),
    };
    match changed {
        Ok(written) => Ok(Changed {
            ok: true,
            pencil: written.text,
            said: written.said,
        }),
        Err(refused) => Err(Said::refused(&text, refused)),
    }
}
