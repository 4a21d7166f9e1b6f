//! Notes and rests: written, deleted, moved, joined.

use super::entries::Change;
use super::model::{Distance, Edit, Selection, Splice};
use super::notes::{Kind, Notes};
use super::splices::splice;
use super::structure::Structure;
use crate::music::transposed::WrittenInterval;
use crate::music::{Key, NoteValue, WrittenPitch};
use crate::problem::Problem;

/// Changes the notes of a line.
pub fn change(structure: &Structure<'_>, edit: &Edit) -> Result<Change, Problem> {
    let (line, first, last) = place(edit);
    let notes = Notes::of(structure, line)?;
    let mut chosen = Some((first, last));
    let splices = match edit {
        Edit::Insert { notes: new, .. } => {
            let (splices, count) = insert(&notes, first, new)?;
            chosen = Some((first, first + count - 1));
            splices
        }
        Edit::Delete { .. } => {
            chosen = None;
            delete(&notes, first, last)?
        }
        Edit::Move { by, .. } => {
            let key = key(structure, line)?;
            each_pitch(&notes, first, last, |pitch| moved(pitch, *by, key))?
        }
        Edit::Accidental { alter, .. } => each_pitch(&notes, first, last, |pitch| {
            Some(WrittenPitch::new(pitch.letter(), *alter, pitch.octave()))
        })?,
        Edit::Length { length, .. } => lengthen(&notes, first, last, length)?,
        Edit::Group { group, .. } => join(&notes, first, last, group)?,
        Edit::Ungroup { group, .. } => part(&notes, first, group)?,
        Edit::Mark { mark, on, .. } => mark_all(&notes, first, last, mark, *on)?,
        Edit::Finger { fingering, .. } => finger(&notes, first, fingering.as_deref())?,
        _ => unreachable!("edits of notes alone come here"),
    };
    let selection = Selection {
        line,
        signs: chosen,
    };
    Ok((splices, Some(selection)))
}

/// The line and the signs of an edit of notes.
fn place(edit: &Edit) -> (usize, usize, usize) {
    match *edit {
        Edit::Insert { line, at, .. }
        | Edit::Ungroup { line, at, .. }
        | Edit::Finger { line, at, .. } => (line, at, at),
        Edit::Delete { line, first, last }
        | Edit::Move {
            line, first, last, ..
        }
        | Edit::Accidental {
            line, first, last, ..
        }
        | Edit::Length {
            line, first, last, ..
        }
        | Edit::Group {
            line, first, last, ..
        }
        | Edit::Mark {
            line, first, last, ..
        } => (line, first, last),
        _ => unreachable!("edits of notes alone come here"),
    }
}

/// Writes the length at the next sign that takes it over, so that it stays when what stands before it changes.
fn pin(notes: &Notes, from: usize) -> Option<Splice> {
    let next = (from..notes.signs.len()).find(|sign| notes.head(*sign) != "tie")?;
    if notes.has_each || notes.own_length(next).is_some() {
        return None;
    }
    let length = notes.carried_length(next)?;
    let end = notes.word_place(next).end;
    Some(splice(end..end, format!(":{length}")))
}

fn insert(notes: &Notes, at: usize, new: &str) -> Result<(Vec<Splice>, usize), Problem> {
    let new = new.split_whitespace().collect::<Vec<_>>().join(" ");
    let words: Vec<&str> = new.split(' ').collect();
    let understood = |word: &&str| {
        let (head, length) = word.split_once(':').unzip();
        let head = head.unwrap_or(word);
        (matches!(head, "rest" | "tie" | "in" | "out" | "hold")
            || WrittenPitch::parse(head).is_some())
            && length.is_none_or(|length| NoteValue::parse(length).is_some())
    };
    if let Some(wrong) = words.iter().find(|word| !understood(word)) {
        return Err(Problem::error(format!("“{wrong}” is no note"))
            .hint("a note is a letter, an octave and a length: G4:half; a rest is rest:half"));
    }
    if at > notes.signs.len() {
        notes.selected(at, at)?;
    }
    let mut splices = vec![];
    if at < notes.signs.len() {
        let start = notes.word_place(at).start;
        splices.push(splice(start..start, format!("{new} ")));
        splices.extend(pin(notes, at));
    } else if at > 0 {
        let end = notes.sign_place(at - 1).end;
        splices.push(splice(end..end, format!(" {new}")));
    } else {
        let start = notes.placed.whole().start;
        splices.push(splice(start..start, new.clone()));
    }
    Ok((splices, words.len()))
}

fn delete(notes: &Notes, first: usize, last: usize) -> Result<Vec<Splice>, Problem> {
    let chosen = notes.selected(first, last)?;
    let mut end = chosen.end;
    // A tie holds the note before it.
    while end < notes.signs.len() && notes.head(end) == "tie" {
        end += 1;
    }
    let gone = chosen.start..end;
    if gone.len() == notes.signs.len() {
        return Err(Problem::error("a line keeps at least one note or rest")
            .hint("remove the line instead"));
    }
    let mut splices = vec![];
    for sign in gone.clone() {
        splices.push(without_space(notes, notes.sign_place(sign)));
    }
    // A slur or triplet with nothing left in it goes too, and a slur over one note.
    for &(open, close) in &notes.closes {
        let inside = |sign: &usize| notes.signs[*sign].groups.contains(&open);
        let all = (0..notes.signs.len()).filter(inside);
        let (out, left): (Vec<usize>, Vec<usize>) = all.partition(|sign| gone.contains(sign));
        let slur = matches!(&notes.kinds[open].1, Kind::Open(word) if word == "slur");
        if !out.is_empty() && (left.is_empty() || slur && left.len() == 1) {
            splices.push(without_space(notes, notes.place(open)));
            splices.push(without_close(notes, close));
        }
    }
    splices.extend(pin(notes, end));
    Ok(splices)
}

/// Removes a place with the blank behind it.
fn without_space(notes: &Notes, place: std::ops::Range<usize>) -> Splice {
    let blank = notes.kinds.iter().enumerate().find_map(|(token, _)| {
        let start = notes.place(token).start;
        (start >= place.end).then_some(start)
    });
    match blank {
        Some(next) if next == place.end + 1 => splice(place.start..next, ""),
        _ => splice(place, ""),
    }
}

fn each_pitch(
    notes: &Notes,
    first: usize,
    last: usize,
    change: impl Fn(WrittenPitch) -> Option<WrittenPitch>,
) -> Result<Vec<Splice>, Problem> {
    let mut splices = vec![];
    for sign in notes.selected(first, last)? {
        let head = notes.head(sign);
        let Some(pitch) = WrittenPitch::parse(head) else {
            continue;
        };
        let there = change(pitch).filter(|pitch| WrittenPitch::parse(&pitch.to_string()).is_some());
        let there = there.ok_or_else(|| {
            Problem::error(format!("{pitch} cannot be moved there"))
                .hint("a note has one sharp or flat at most, and an octave from 0 to 9")
        })?;
        if there != pitch {
            let start = notes.word_place(sign).start;
            splices.push(splice(start..start + head.len(), there.to_string()));
        }
    }
    Ok(splices)
}

fn moved(pitch: WrittenPitch, by: Distance, key: Option<Key>) -> Option<WrittenPitch> {
    match by {
        Distance::Octaves(octaves) => {
            let octave = i32::from(pitch.octave()).checked_add(octaves)?;
            let octave = i8::try_from(octave).ok().filter(|o| (0..=9).contains(o))?;
            Some(WrittenPitch::new(pitch.letter(), pitch.alter(), octave))
        }
        Distance::HalfSteps(half_steps) => {
            let half_steps = (-60..=60).contains(&half_steps).then_some(half_steps)?;
            let there = pitch.transposed(WrittenInterval::of_half_steps(half_steps));
            match there.alter() {
                -1..=1 => Some(there),
                // Two sharps or flats cannot be written.
                _ => Some(WrittenPitch::from_number(pitch.number() + half_steps)),
            }
        }
        Distance::Steps(steps) => {
            let steps = (-40..=40).contains(&steps).then_some(steps)?;
            let index = "CDEFGAB".find(pitch.letter().name())? as i32 + steps;
            let octave = i32::from(pitch.octave()) + index.div_euclid(7);
            let name = "CDEFGAB".chars().nth(index.rem_euclid(7) as usize)?;
            let letter = WrittenPitch::parse(&format!("{name}4"))?.letter();
            let octave = i8::try_from(octave).ok().filter(|o| (0..=9).contains(o))?;
            let alter = key.map_or(0, |key| key.alter(letter));
            Some(WrittenPitch::new(letter, alter, octave))
        }
    }
}

/// The key of a line, or of the routine.
fn key(structure: &Structure<'_>, line: usize) -> Result<Option<Key>, Problem> {
    let text = |line| -> Result<Option<Key>, Problem> {
        let value = structure.table(line)?.get("key");
        let text = value.and_then(|value| value.get_ref().as_str());
        Ok(text.and_then(|text| Key::parse(text).ok()))
    };
    Ok(text(Some(line))?.or(text(None)?))
}

fn lengthen(
    notes: &Notes,
    first: usize,
    last: usize,
    length: &str,
) -> Result<Vec<Splice>, Problem> {
    if NoteValue::parse(length).is_none() {
        return Err(Problem::error(format!("“{length}” is no length")).hint(
            "it is whole, half, quarter, eighth or sixteenth, with a point if it is dotted: half.",
        ));
    }
    let chosen = notes.selected(first, last)?;
    let mut splices = vec![];
    for sign in chosen.clone() {
        let place = notes.word_place(sign);
        let start = place.start + notes.head(sign).len();
        splices.push(splice(start..place.end, format!(":{length}")));
    }
    splices.extend(pin(notes, chosen.end));
    Ok(splices)
}

fn joinable(group: &str) -> Result<(), Problem> {
    match group {
        "slur" | "triplet" => Ok(()),
        _ => Err(Problem::error(format!("notes are not joined by “{group}”"))
            .hint("they are joined by slur or triplet")),
    }
}

fn join(notes: &Notes, first: usize, last: usize, group: &str) -> Result<Vec<Splice>, Problem> {
    joinable(group)?;
    let chosen = notes.selected(first, last)?;
    let (from, to) = (&notes.signs[first], &notes.signs[last]);
    if group == "slur" && chosen.len() < 2 {
        return Err(
            Problem::error("a slur joins at least two notes").hint("select the note after it too")
        );
    }
    let same = chosen
        .clone()
        .all(|sign| notes.signs[sign].groups.starts_with(&from.groups));
    if !same || from.groups != to.groups {
        return Err(Problem::error(format!(
            "a {group} cannot begin inside another slur or triplet and end outside it"
        ))
        .hint("select all notes of that slur or triplet, or take it away first"));
    }
    let is_group =
        |token: &usize| matches!(&notes.kinds[*token].1, Kind::Open(word) if word == group);
    let mut around = chosen.flat_map(|sign| &notes.signs[sign].groups);
    if around.any(is_group) {
        return Err(
            Problem::error(format!("these notes have a {group} already"))
                .hint("take it away first"),
        );
    }
    let (start, end) = (notes.word_place(first).start, notes.sign_place(last).end);
    Ok(vec![
        splice(start..start, format!("{group}( ")),
        splice(end..end, " )"),
    ])
}

fn part(notes: &Notes, at: usize, group: &str) -> Result<Vec<Splice>, Problem> {
    joinable(group)?;
    notes.selected(at, at)?;
    let mut around = notes.signs[at].groups.iter().rev();
    let is_group =
        |token: &&usize| matches!(&notes.kinds[**token].1, Kind::Open(word) if word == group);
    let open = around.find(is_group).copied();
    let ends = open.and_then(|open| notes.closes.iter().find(|(one, _)| *one == open));
    let Some(&(open, close)) = ends else {
        return Err(Problem::error(format!("this note is in no {group}"))
            .hint(format!("select a note of the {group}")));
    };
    Ok(vec![
        without_space(notes, notes.place(open)),
        without_close(notes, close),
    ])
}

/// Removes a closing bracket; a blank before it goes with it.
fn without_close(notes: &Notes, close: usize) -> Splice {
    let end = notes.place(close);
    let before = notes.place(close - 1).end;
    let start = if before + 1 == end.start {
        before
    } else {
        end.start
    };
    splice(start..end.end, "")
}

fn mark_all(
    notes: &Notes,
    first: usize,
    last: usize,
    mark: &str,
    on: bool,
) -> Result<Vec<Splice>, Problem> {
    const MARKS: [&str; 6] = ["accent", "staccato", "legato", "bend", "air", "ku"];
    if !MARKS.contains(&mark) {
        return Err(Problem::error(format!("a note has no mark “{mark}”"))
            .hint(format!("it can be {}", crate::words::list::or(&MARKS))));
    }
    let mut splices = vec![];
    for sign in notes.selected(first, last)? {
        if WrittenPitch::parse(notes.head(sign)).is_none() {
            continue;
        }
        let tokens = notes.signs[sign].token + 1..notes.signs[sign].behind;
        let written = |token: &usize| notes.kinds[*token].1 == Kind::Mark(mark.to_owned());
        let found = tokens.clone().find(written);
        match (found, on) {
            (None, true) => {
                let end = notes.sign_place(sign).end;
                splices.push(splice(end..end, format!("({mark})")));
            }
            (Some(token), false) => splices.push(with_space_before(notes, token)),
            _ => {}
        }
    }
    Ok(splices)
}

/// Removes a mark or fingering with the blanks before it.
fn with_space_before(notes: &Notes, token: usize) -> Splice {
    splice(notes.place(token - 1).end..notes.place(token).end, "")
}

fn finger(notes: &Notes, at: usize, fingering: Option<&str>) -> Result<Vec<Splice>, Problem> {
    notes.selected(at, at)?;
    if WrittenPitch::parse(notes.head(at)).is_none() {
        return Err(Problem::error("only a note has a fingering").hint("select a note"));
    }
    let plain = |text: &str| {
        let allowed = |c: char| c.is_ascii_alphanumeric() || "-+#. ".contains(c);
        !text.is_empty() && text.chars().all(allowed)
    };
    if fingering.is_some_and(|text| !plain(text)) {
        return Err(Problem::error("that is no fingering")
            .hint("it is the valves from the mouthpiece on: 1-2; 0 is open"));
    }
    let sign = &notes.signs[at];
    let found = (sign.token + 1..sign.behind).find(|t| notes.kinds[*t].1 == Kind::Fingering);
    let end = notes.word_place(at).end;
    Ok(match (found, fingering) {
        (Some(token), Some(text)) => vec![splice(notes.place(token), format!("[{text}]"))],
        (Some(token), None) => vec![with_space_before(notes, token)],
        (None, Some(text)) => vec![splice(end..end, format!("[{text}]"))],
        (None, None) => vec![],
    })
}
