//! Reads a pencil.

use super::bounds::{LEAST_PART, MOST_MARKS, MOST_NOTE, MOST_PART};
use super::mark::{Change, KINDS, Mark, Pencil, RestChange, Stop, Target, TempoChange};
use crate::brass::Tube;
use crate::music::{Decimal, NoteNames, Tempo, tempo};
use crate::routine::bounds::{FURTHEST_MOVE, MOST_LINES, MOST_TIMES};
use crate::routine::broken_row::Dialect;
use crate::routine::fields::{Entry, Fields, whole_number};
use crate::routine::line_reader::{measured, read_articulations, read_drone};
use crate::routine::walk_reader::{read_half_steps, read_tubes};
use crate::routine::{Articulation, Fault, Guide, On, RestLength, Span, Walk, document};
use crate::words::{Words, tell};
use toml::de::DeValue;

const HEAD_KEYS: [&str; 4] = ["format", "player", "names", "mark"];

/// Keys for the line of a mark and its date.
const PLACE_KEYS: [&str; 2] = ["line", "date"];

const MARK_KEYS: [&str; KINDS.len() + 2] = {
    let mut keys = [""; KINDS.len() + 2];
    let mut i = 0;
    while i < keys.len() {
        keys[i] = if i < 2 { PLACE_KEYS[i] } else { KINDS[i - 2] };
        i += 1;
    }
    keys
};

const PENCIL: Dialect = Dialect {
    file: "pencil",
    opens: "[[mark]]",
    table: "a mark",
    keys: [&HEAD_KEYS, &MARK_KEYS],
};

/// The result of reading a pencil.
#[derive(Clone, Debug)]
pub struct Read {
    /// The valid marks; `None` if the file as a whole is not understood.
    pub pencil: Option<Pencil>,
    /// Every fault, sorted by its place.
    pub faults: Vec<Fault>,
}

/// Reads the text of a pencil. A `[[mark]]` with a fault is left out as a whole.
pub fn read(text: &str) -> Read {
    let (pencil, faults) = document::read(text, &PENCIL, read_head);
    Read { pencil, faults }
}

fn read_head(
    mut head: Fields<'_, '_>,
    toml_is_valid: bool,
    faults: &mut Vec<Fault>,
) -> Option<Pencil> {
    if head.table.is_empty() {
        if toml_is_valid {
            faults.push(Fault::new(head.at, tell::no_pencil_here()).hint(tell::pencil_begins()));
        }
        return None;
    }
    head.unknown((&MARK_KEYS, tell::to_a_mark()));
    document::format(&mut head);
    let format = head.get("format").and_then(|e| whole_number(e.value));
    let _ = head.choice("names", &NoteNames::WORDS);
    let player = head.text("player", "Anna").map(|(name, _)| name);
    let mut pencil = Pencil {
        player,
        marks: Vec::new(),
    };
    read_marks(&mut head, &mut pencil.marks);
    faults.append(&mut head.faults);
    (format == Some(1)).then_some(pencil)
}

fn read_marks(head: &mut Fields<'_, '_>, marks: &mut Vec<Mark>) {
    let Some(entry) = head.get("mark") else {
        return;
    };
    let DeValue::Array(array) = entry.value else {
        head.wrong(entry, tell::mark_opened_twice(), tell::mark_own_row());
        return;
    };
    for (number, item) in array.iter().enumerate() {
        let span = Span::from(item.span());
        let DeValue::Table(table) = item.get_ref() else {
            head.faults
                .push(Fault::new(span, tell::mark_opened()).hint(tell::mark_own_row()));
            continue;
        };
        let fields = Fields {
            source: head.source,
            table,
            at: span,
            known: &MARK_KEYS,
            broken: head.broken,
            names: head.names,
            faults: Vec::new(),
        };
        let (mut found, mut faults) = read_mark(fields, number);
        head.faults.append(&mut faults);
        marks.append(&mut found);
    }
    if marks.len() > MOST_MARKS {
        head.wrong(
            entry,
            tell::too_many_marks(marks.len(), MOST_MARKS),
            tell::rub_out_old(),
        );
        marks.truncate(MOST_MARKS);
    }
}

/// The marks of one table, or none of them if anything in it is wrong.
fn read_mark(mut fields: Fields<'_, '_>, table: usize) -> (Vec<Mark>, Vec<Fault>) {
    fields.unknown((&HEAD_KEYS[..2], tell::to_head_of_file()));
    let (target, target_span) = read_target(&mut fields);
    let date = read_date(&mut fields);
    let mut changes: Vec<(Change, Span)> = Vec::new();
    for kind in KINDS {
        if let Some(entry) = fields.get(kind) {
            let found = read_change(&mut fields, kind, entry);
            changes.extend(found.into_iter().map(|change| (change, entry.span)));
        }
    }
    let says_nothing = KINDS.iter().all(|kind| fields.get(kind).is_none());
    if says_nothing && fields.faults.is_empty() && !fields.broken {
        fields
            .faults
            .push(Fault::new(fields.at, tell::mark_changes_nothing()).hint(tell::say_what()));
    }
    if let Some(target) = &target {
        for (change, span) in &changes {
            if *target == Target::Whole && change.needs_line() {
                let kind = change.kind();
                fields.faults.push(
                    Fault::new(*span, tell::nothing_of_whole(kind)).hint(tell::name_line_for_it()),
                );
            }
        }
    }
    changes.sort_by_key(|(_, span)| span.start);
    let marks = match target {
        Some(target) if fields.faults.is_empty() => changes
            .into_iter()
            .map(|(change, span)| Mark {
                target: target.clone(),
                date: date.clone(),
                change,
                span,
                target_span,
                table,
            })
            .collect(),
        _ => Vec::new(),
    };
    (marks, fields.faults)
}

fn read_target(fields: &mut Fields<'_, '_>) -> (Option<Target>, Span) {
    let Some(entry) = fields.get("line") else {
        return (Some(Target::Whole), fields.at);
    };
    let target = match entry.value {
        DeValue::String(_) => fields
            .text("line", "Long tone and neighbour")
            .map(|(name, _)| Target::Name(name)),
        value => {
            let number = whole_number(value).filter(|n| (1..=MOST_LINES as i64).contains(n));
            if number.is_none() {
                fields.wrong(
                    entry,
                    tell::line_named_so(MOST_LINES),
                    tell::for_instance_line(),
                );
            }
            number.map(|n| Target::Number(n as usize))
        }
    };
    (target, entry.span)
}

fn read_date(fields: &mut Fields<'_, '_>) -> Option<String> {
    let entry = fields.get("date")?;
    let text = match entry.value {
        DeValue::Datetime(date) => date.to_string(),
        DeValue::String(text) => text.trim().to_owned(),
        _ => String::new(),
    };
    if is_date(&text) {
        return Some(text);
    }
    fields.wrong(entry, tell::date_written(), tell::for_instance_date());
    None
}

/// True for the date of a day: 2026-11-25.
pub fn is_date(text: &str) -> bool {
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts[..] else {
        return false;
    };
    let number = |text: &str, digits: usize| {
        let all = text.len() == digits && text.bytes().all(|b| b.is_ascii_digit());
        all.then(|| text.parse::<u32>().ok()).flatten()
    };
    let (Some(year), Some(month), Some(day)) = (number(year, 4), number(month, 2), number(day, 2))
    else {
        return false;
    };
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let days = match month {
        2 => 28 + u32::from(leap),
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    };
    (1..=days).contains(&day)
}

fn read_change(fields: &mut Fields<'_, '_>, kind: &str, entry: Entry<'_, '_>) -> Vec<Change> {
    let one = |change: Option<Change>| change.into_iter().collect();
    match kind {
        "tempo" => one(read_tempo(fields, entry).map(Change::Tempo)),
        "rest" => one(read_rest(fields, "rest", entry).map(Change::Rest)),
        "between" => one(read_rest(fields, "between", entry).map(Change::Between)),
        "breath_after" => read_breaths(fields),
        "articulation" => {
            let before = fields.faults.len();
            let found = read_articulation(fields, entry);
            one((fields.faults.len() == before).then_some(Change::Articulation(found)))
        }
        "bend" => one(read_note(fields, entry, (kind, tell::bend_hint())).map(Change::Bend)),
        "finger" => one(read_note(fields, entry, (kind, tell::finger_hint())).map(Change::Finger)),
        "times" => one(fields
            .whole("times", 1, MOST_TIMES)
            .map(|n| Change::Times(n as u32))),
        "leave_out" => one(match entry.value {
            DeValue::Boolean(true) => Some(Change::LeaveOut),
            _ => {
                fields.wrong(entry, tell::leave_out_true(), tell::write_leave_out());
                None
            }
        }),
        "loudness" => one(fields
            .choice("loudness", &[("softer", false), ("louder", true)])
            .map(Change::Louder)),
        "drone" => {
            let before = fields.faults.len();
            let drone = read_drone(fields, On::Horn);
            one((fields.faults.len() == before).then_some(Change::Drone(drone)))
        }
        "guide" => one(fields.choice("guide", &Guide::WORDS).map(Change::Guide)),
        "stop_after" => one(read_stop(fields, entry)),
        "half_steps" => {
            let before = fields.faults.len();
            let (walk, _) = read_half_steps(fields);
            one(match walk {
                Walk::HalfSteps(moves) if fields.faults.len() == before => {
                    Some(Change::HalfSteps(moves))
                }
                _ => None,
            })
        }
        "tubes" => {
            let before = fields.faults.len();
            let (walk, _) = read_tubes(fields, None);
            one(match walk {
                Walk::Tubes(tubes) if fields.faults.len() == before => Some(Change::Tubes(tubes)),
                _ => None,
            })
        }
        _ => one(fields
            .text("words", "Think of the dog next door")
            .map(|(words, _)| Change::Words(words))),
    }
}

/// `"both"` is once slurred, once tongued; everything else as in a routine.
fn read_articulation(fields: &mut Fields<'_, '_>, entry: Entry<'_, '_>) -> Vec<Articulation> {
    if let DeValue::String(text) = entry.value
        && text.trim() == "both"
    {
        return vec![Articulation::Slurred, Articulation::Tongued];
    }
    read_articulations(fields, On::Horn)
}

/// A percentage like `85%`. `None` without a percent sign, an error if it is out of bounds or not a number.
pub(super) fn percent(text: &str) -> Option<Result<Decimal, Words>> {
    let number = text.trim().strip_suffix('%')?.trim_end();
    let bounds = Decimal::from_integer(LEAST_PART)..=Decimal::from_integer(MOST_PART);
    Some(
        Decimal::parse(number)
            .ok()
            .filter(|d| bounds.contains(d))
            .ok_or_else(|| tell::percent_from(LEAST_PART, MOST_PART)),
    )
}

/// Reads a tempo that is given in words. The error says what would be right.
pub(super) fn tempo_change(text: &str) -> Result<TempoChange, Words> {
    match text.trim() {
        "slower" => Ok(TempoChange::Slower),
        "faster" => Ok(TempoChange::Faster),
        text => match percent(text) {
            Some(part) => part.map(TempoChange::Percent),
            None => Err(tell::tempo_mark_can_be()),
        },
    }
}

/// Reads a rest that is given in words. The error says what would be right.
pub(super) fn rest_change(text: &str) -> Result<RestChange, Words> {
    match text.trim() {
        "longer" => Ok(RestChange::Longer),
        "shorter" => Ok(RestChange::Shorter),
        "same" => Ok(RestChange::To(RestLength::Same)),
        "none" => Ok(RestChange::To(RestLength::None)),
        text => match percent(text) {
            Some(part) => part.map(RestChange::Percent),
            None => measured(text)
                .map(RestChange::To)
                .ok_or_else(tell::rest_mark_can_be),
        },
    }
}

/// Reads clicks a minute and checks their bounds.
pub(super) fn clicks(text: &str) -> Result<TempoChange, Words> {
    let clicks = Decimal::parse(&text.replace('_', "")).ok();
    clicks
        .filter(|clicks| Tempo::from_decimal(*clicks).is_ok())
        .map(TempoChange::Clicks)
        .ok_or_else(|| tell::clicks_from(tempo::SLOWEST, tempo::FASTEST))
}

fn read_tempo(fields: &mut Fields<'_, '_>, entry: Entry<'_, '_>) -> Option<TempoChange> {
    let written = &fields.source[entry.span.start..entry.span.end];
    let (shown, found) = match entry.value {
        DeValue::String(text) => (text.to_string(), tempo_change(text)),
        DeValue::Integer(_) | DeValue::Float(_) => (written.to_owned(), clicks(written)),
        _ => (written.to_owned(), Err(tell::tempo_mark_can_be())),
    };
    found
        .map_err(|hint| fields.wrong(entry, tell::tempo_cannot_be(&shown), hint))
        .ok()
}

fn read_rest(fields: &mut Fields<'_, '_>, key: &str, entry: Entry<'_, '_>) -> Option<RestChange> {
    let (placed, span) = fields.placed(key, "longer")?;
    rest_change(&placed.text)
        .map_err(|hint| {
            let shown = placed.text.trim();
            debug_assert_eq!(span, entry.span);
            fields.wrong(entry, tell::mark_cannot_be(key, shown), hint);
        })
        .ok()
}

fn read_breaths(fields: &mut Fields<'_, '_>) -> Vec<Change> {
    let Some((entries, span)) = fields.list("breath_after") else {
        return Vec::new();
    };
    if entries.is_empty() || entries.len() > MOST_MARKS {
        fields
            .faults
            .push(Fault::new(span, tell::breath_names_no_note()).hint(tell::count_from_one()));
        return Vec::new();
    }
    let mut found = Vec::new();
    for entry in entries {
        match whole_number(entry.value).filter(|n| (1..=MOST_NOTE).contains(n)) {
            Some(n) => found.push(Change::BreathAfter(n as usize)),
            None => fields.wrong(entry, tell::breath_is_number(), tell::count_ties_as_one()),
        }
    }
    found
}

/// `Some(None)` for every note that can be meant, `Some(Some(n))` for one.
fn read_note(
    fields: &mut Fields<'_, '_>,
    entry: Entry<'_, '_>,
    (kind, hint): (&str, Words),
) -> Option<Option<usize>> {
    if let DeValue::Boolean(true) = entry.value {
        return Some(None);
    }
    let number = whole_number(entry.value).filter(|n| (1..=MOST_NOTE).contains(n));
    if number.is_none() {
        fields.wrong(entry, tell::true_or_number(kind), hint);
    }
    number.map(|n| Some(n as usize))
}

/// Reads the name of a tube.
pub(super) fn stop(text: &str) -> Option<Stop> {
    Tube::parse(text).map(Stop::Tube)
}

fn read_stop(fields: &mut Fields<'_, '_>, entry: Entry<'_, '_>) -> Option<Change> {
    let found = match entry.value {
        DeValue::String(text) => stop(text.trim()),
        value => whole_number(value)
            .filter(|n| n.abs() <= FURTHEST_MOVE)
            .map(|n| Stop::HalfStep(n as i32)),
    };
    if found.is_none() {
        fields.wrong(entry, tell::stop_after_names(), tell::stop_as_listed());
    }
    found.map(Change::StopAfter)
}
