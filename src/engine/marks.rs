//! A pencil's marks in words, each with its place.

use super::answer::{In, ProblemAnswer};
use super::request::MarkRequest;
use crate::pencil::{Change, Mark, Pencil, edit, hand, lay, spoken, words};
use crate::routine::{Routine, note_names};
use serde::Serialize;

/// A mark.
#[derive(Debug, Serialize)]
pub struct MarkAnswer {
    index: usize,
    of: Of,
    words: String,
    kind: &'static str,
    typed: String,
    note: Option<usize>,
}

/// What a mark belongs to.
#[derive(Debug, Serialize)]
#[serde(untagged)]
enum Of {
    Line(usize),
    Whole(()),
    Nowhere(&'static str),
}

/// The marks of a pencil in the order of its text.
pub fn answer(pencil: &Pencil, teacher: &Routine) -> Vec<MarkAnswer> {
    let one = |(index, mark): (usize, &Mark)| MarkAnswer {
        index,
        of: match lay::find_line(&mark.target, teacher) {
            Ok(Some(line)) => Of::Line(line),
            Ok(None) => Of::Whole(()),
            Err(_) => Of::Nowhere("nowhere"),
        },
        words: words::change(teacher.words_in, &mark.change),
        kind: mark.change.kind(),
        typed: spoken::typed(&mark.change),
        note: match mark.change {
            Change::BreathAfter(note) | Change::Bend(Some(note)) | Change::Finger(Some(note)) => {
                Some(note)
            }
            _ => None,
        },
    };
    pencil.marks.iter().enumerate().map(one).collect()
}

/// A pencil's text with one mark added or taken back.
#[derive(Debug, Serialize)]
pub struct Changed {
    ok: bool,
    pencil: String,
}

/// Writes a mark into a pencil, or takes one back.
pub fn change(request: &MarkRequest, teacher: &Routine) -> Result<Changed, Vec<ProblemAnswer>> {
    let text = match &request.pencil {
        Some(text) => text.clone(),
        None => {
            let empty = edit::empty(request.player.as_deref());
            note_names::rewritten(&empty, teacher.names)
        }
    };
    // Stands where the command line names the file.
    const SHOWN: &str = "the pencil";
    let line = match request.of {
        Some(of) if of >= teacher.lines.len() => {
            let message = format!("there is no line {} in “{}”", of + 1, teacher.title);
            return Err(ProblemAnswer::new(In::Request, message).into());
        }
        of => of,
    };
    let date = request.date.as_deref();
    if date.is_some_and(|date| !spoken::is_date(date)) {
        let right = "a day is written year, month, day: 2026-11-25".to_owned();
        return Err(ProblemAnswer::new(In::Request, "that is no day")
            .with_hint(right)
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
        }),
        Err(refused) => Err(ProblemAnswer::problems(
            teacher.words_in,
            In::Request,
            &text,
            &refused.problems(),
        )),
    }
}
