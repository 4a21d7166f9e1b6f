//! Writes a mark that somebody types into a pencil, or takes it back: the new text, or why that is impossible.

use super::lay::{find_line, lay};
use super::mark::{Change, Mark, Target};
use super::spoken::{self, Row};
use super::{edit, reader, words};
use crate::problem::{Problem, Text};
use crate::routine::{Routine, note_names};
use crate::words::{Language, Words, say, tell};

/// A pencil after one mark was added or removed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// Its text.
    pub text: String,
    /// What was done: "3 Slurs on one tube: slower (85 % of the tempo)."
    pub said: Words,
}

/// Why a mark could not be written or taken back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refused {
    /// The text is not understood, so nothing is written into it: it may not be a pencil at all. Marks that do not fit
    /// the routine are no reason to refuse.
    NotUnderstood(Vec<Problem>),
    /// It is a mark, but not one that this line or this pencil can take.
    Unfit(Problem),
    /// It is not a mark, or names no line of this routine: a mistake in what was typed.
    NotAMark(Problem),
}

impl Refused {
    fn unfit(message: impl Into<Words>, hint: impl Into<Words>) -> Self {
        Self::Unfit(Problem::error(message).hint(hint))
    }

    fn not_a_mark(message: impl Into<Words>, hint: impl Into<Words>) -> Self {
        Self::NotAMark(Problem::error(message).hint(hint))
    }

    /// Everything that is wrong.
    pub fn problems(self) -> Vec<Problem> {
        match self {
            Self::NotUnderstood(problems) => problems,
            Self::Unfit(problem) | Self::NotAMark(problem) => vec![problem],
        }
    }
}

/// The lines that somebody names: by number or name, as numbers in a row (`2,4`, `2-4`), or as `all`, which is the whole
/// routine (none). Each once, in the order in which they are named.
///
/// # Errors
/// Where there is no such line.
pub fn lines(named: &str, routine: &Routine) -> Result<Vec<Option<usize>>, Refused> {
    let Some(numbers) = numbers(named) else {
        return Ok(vec![line(named, routine)?]);
    };
    let mut lines = Vec::new();
    for (first, last) in numbers {
        if first > last {
            return Err(Refused::not_a_mark(
                tell::names_no_lines(first, last),
                tell::smaller_first(last, first),
            ));
        }
        // The last of them is looked up first: a slip in it must not be counted up to.
        line(&last.to_string(), routine)?;
        for number in first..=last {
            let line = line(&number.to_string(), routine)?;
            if !lines.contains(&line) {
                lines.push(line);
            }
        }
    }
    Ok(lines)
}

/// `2,4-6` as first and last numbers; none for what is not written like that.
fn numbers(named: &str) -> Option<Vec<(usize, usize)>> {
    let number = |text: &str| text.trim().parse::<usize>().ok();
    let parts = named
        .split(',')
        .map(|part| match part.split_once(['-', '–']) {
            Some((first, last)) => Some((number(first)?, number(last)?)),
            None => number(part).map(|one| (one, one)),
        });
    parts.collect()
}

/// The line that somebody names by its number, by its name, or as `all`: its index, none for the whole routine.
fn line(named: &str, routine: &Routine) -> Result<Option<usize>, Refused> {
    let target = match named.trim() {
        "all" => Target::Whole,
        text => match text.parse() {
            Ok(number) => Target::Number(number),
            Err(_) => Target::Name(text.to_owned()),
        },
    };
    find_line(&target, routine).map_err(Refused::NotAMark)
}

/// Reads a mark as it is typed: `slower`, `breath after 4`.
///
/// # Errors
/// If it is not a mark.
pub fn row(said: &str) -> Result<Row, Refused> {
    spoken::parse(said).map_err(|hint| {
        let message = if said.is_empty() {
            tell::no_mark_to_make()
        } else {
            tell::is_not_a_mark(said)
        };
        Refused::not_a_mark(message, hint)
    })
}

/// Adds a mark on a line, `None` for the whole routine, to the text of a pencil. It replaces a mark of the same kind on
/// that line.
///
/// # Errors
/// If it is not a mark, does not fit the routine, or contradicts a mark that is already there.
pub fn write(
    text: &str,
    routine: &Routine,
    line: Option<usize>,
    row: &Row,
    date: Option<&str>,
) -> Result<Written, Refused> {
    understood(text)?;
    let new = meant(text, row)?;
    let heading = Words::of(|language| heading(language, line, routine));
    let there = marks_at(text, line, routine);
    let other = there.iter().find(|mark| mark.change.conflicts(&new));
    let mut without = text.to_owned();
    if let Some(other) = other {
        let words = change(&other.change);
        let message = tell::marked_already(&heading, &words);
        if other.change == new {
            return Err(Refused::unfit(message, tell::say_how_much()));
        }
        let erased = edit::erase(text, other).filter(|_| other.change.kind() == new.kind());
        without = erased.ok_or_else(|| {
            let hint = tell::take_that_back_first(change(&new));
            Refused::unfit(message, hint)
        })?;
    }
    let named = line.map(|index| named(index, routine));
    let after = edit::add(&without, named.as_deref(), row, date);
    // Only faults that this mark adds count. Older ones are reported when the pencil is used.
    let known = what_is_wrong(text, routine);
    let added = what_is_wrong(&after, routine);
    if let Some((message, hint)) = added.into_iter().find(|fault| !known.contains(fault)) {
        let problem = Problem::error(message);
        return Err(Refused::Unfit(match hint {
            Some(hint) => problem.hint(hint),
            None => problem,
        }));
    }
    let marks = reader::read(&after).pencil.unwrap_or_default().marks;
    let mark = marks.last().map_or_else(
        || change(&new),
        |old| Words::of(|language| words::mark(language, old)),
    );
    let instead = other.map(|other| tell::in_place_of(change(&other.change)));
    Ok(Written {
        said: tell::marked(&heading, &mark, instead.unwrap_or_default()),
        text: after,
    })
}

/// Removes a mark on a line, `None` for the whole routine, from the text of a pencil called `shown`.
///
/// # Errors
/// If there is no such mark, or it is written in a form that cannot be removed safely.
pub fn take_back(
    text: &str,
    shown: &str,
    routine: &Routine,
    line: Option<usize>,
    row: &Row,
) -> Result<Written, Refused> {
    understood(text)?;
    let meant = meant(text, row)?;
    let at_line = marks_at(text, line, routine);
    let Some(mark) = at_line.iter().rev().find(|mark| mark.change == meant) else {
        let there: Vec<Words> = at_line.iter().map(|m| change(&m.change)).collect();
        return Err(Refused::unfit(
            tell::has_not_this_mark(
                Words::of(|language| heading(language, line, routine)),
                change(&meant),
            ),
            if there.is_empty() {
                tell::has_no_marks()
            } else {
                tell::is_marked(Words::joined(&there, "; "))
            },
        ));
    };
    erase(text, shown, routine, mark)
}

/// Removes the mark with this index from the text of a pencil called `shown`.
///
/// # Errors
/// If there is no such mark, or it is written in a form that cannot be removed safely.
pub fn take_back_at(
    text: &str,
    shown: &str,
    routine: &Routine,
    index: usize,
) -> Result<Written, Refused> {
    understood(text)?;
    let marks = reader::read(text).pencil.unwrap_or_default().marks;
    let Some(mark) = marks.get(index) else {
        return Err(Refused::not_a_mark(
            tell::has_no_mark(shown, index + 1),
            tell::it_has_so_many(marks.len()),
        ));
    };
    erase(text, shown, routine, mark)
}

/// What a mark changes, in words.
fn change(change: &Change) -> Words {
    Words::of(|language| words::change(language, change))
}

fn erase(text: &str, shown: &str, routine: &Routine, mark: &Mark) -> Result<Written, Refused> {
    let after = edit::erase(text, mark)
        .ok_or_else(|| Refused::unfit(tell::not_of_its_own(shown), tell::take_out_by_hand()))?;
    let line = find_line(&mark.target, routine);
    let heading = Words::of(|language| match &line {
        Ok(line) => heading(language, *line, routine),
        Err(_) => say::no_line_of_the_routine(language).to_owned(),
    });
    Ok(Written {
        text: after,
        said: tell::taken_back(&heading, change(&mark.change)),
    })
}

fn understood(text: &str) -> Result<(), Refused> {
    let faults = reader::read(text).faults;
    if faults.is_empty() {
        Ok(())
    } else {
        let faults = faults.into_iter();
        let problems = faults.map(|fault| fault.in_text(Text::Pencil));
        Err(Refused::NotUnderstood(problems.collect()))
    }
}

/// The marks on a line, or on the whole routine.
fn marks_at(text: &str, line: Option<usize>, routine: &Routine) -> Vec<Mark> {
    let mut marks = reader::read(text).pencil.unwrap_or_default().marks;
    marks.retain(|mark| find_line(&mark.target, routine) == Ok(line));
    marks
}

/// The change that a row means.
fn meant(text: &str, row: &Row) -> Result<Change, Refused> {
    let names = note_names::of(text).word();
    let head = format!("format = 1\nnames = \"{names}\"\n");
    let alone = edit::add(&head, Some("1"), row, None);
    let read = reader::read(&alone);
    let mark = read.pencil.and_then(|p| p.marks.into_iter().next());
    mark.map(|mark| mark.change).ok_or_else(|| {
        let fault = read.faults.into_iter().next();
        let (message, hint) = fault
            .map(|f| (f.message, f.hint.unwrap_or_default()))
            .unwrap_or_default();
        Refused::not_a_mark(message, hint)
    })
}

/// How a new mark names a line: by its name, so that the mark stays with it when the teacher inserts a line before
/// it, or by its number if another line has the same name.
fn named(index: usize, routine: &Routine) -> String {
    let name = &routine.lines[index].name;
    let target = Target::Name(name.clone());
    if find_line(&target, routine) == Ok(Some(index)) {
        spoken::quoted(name)
    } else {
        (index + 1).to_string()
    }
}

/// The heading of a line, `None` for the whole routine: "3 Slurs on one tube".
pub fn heading(language: Language, line: Option<usize>, routine: &Routine) -> String {
    match line {
        Some(index) => format!("{} {}", index + 1, routine.lines[index].name),
        None => say::the_whole_routine(language).to_owned(),
    }
}

/// The marks under the heading of their line, in order of the routine; marks without a line come last.
pub fn by_line<'m>(
    language: Language,
    marks: &'m [Mark],
    routine: &Routine,
) -> Vec<(String, Vec<&'m Mark>)> {
    let place = |mark: &Mark| find_line(&mark.target, routine);
    let mut found = Vec::new();
    let lines = std::iter::once(None).chain((0..routine.lines.len()).map(Some));
    for line in lines {
        let at: Vec<&Mark> = marks.iter().filter(|m| place(m) == Ok(line)).collect();
        if !at.is_empty() {
            found.push((heading(language, line, routine), at));
        }
    }
    let nowhere: Vec<&Mark> = marks.iter().filter(|m| place(m).is_err()).collect();
    if !nowhere.is_empty() {
        found.push((say::no_line_of_the_routine(language).to_owned(), nowhere));
    }
    found
}

/// Message and hint of everything that is wrong with a pencil.
fn what_is_wrong(text: &str, routine: &Routine) -> Vec<(Words, Option<Words>)> {
    let read = reader::read(text);
    let laid = read.pencil.as_ref().map(|p| lay(p, routine).faults);
    let faults = read.faults.into_iter().chain(laid.into_iter().flatten());
    faults.map(|fault| (fault.message, fault.hint)).collect()
}
