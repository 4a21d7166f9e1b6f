//! A mark of a player's pencil, taken into the routine's text.

use super::model::{Edit, Value};
use super::{apply, signs_in};
use crate::music::WrittenPitch;
use crate::pencil::{Change, Laid, Mark, Pencil, RestChange, Target, lay};
use crate::problem::{Problem, Text};
use crate::routine::notes::{Item, ItemKind};
use crate::routine::{self, Line, Routine, Walk};
use toml::de::{DeTable, DeValue};

/// The text of a routine with one mark of a pencil written into it, so that it is played as with the mark. `pencil_text` is
/// what the pencil was read from, `index` the mark's number in it.
///
/// # Errors
/// If the routine cannot be read, the mark does not fit, or a routine has no words for it.
pub fn take_mark(
    text: &str,
    pencil: &Pencil,
    pencil_text: &str,
    index: usize,
) -> Result<String, Problem> {
    let first = |mut faults: Vec<routine::Fault>| faults.swap_remove(0).in_text(Text::Routine);
    let routine = routine::read(text).map_err(first)?;
    let mark = pencil
        .marks
        .get(index)
        .ok_or_else(|| Problem::error("there is no such mark"))?;
    let alone = Pencil {
        player: None,
        marks: vec![mark.clone()],
    };
    let laid = lay(&alone, &routine);
    if let Some(fault) = laid.faults.first() {
        return Err(fault.clone().in_text(Text::Pencil));
    }
    let taking = Taking {
        text,
        routine: &routine,
        laid: &laid,
        mark,
        written: pencil_text.get(mark.span.start..mark.span.end),
    };
    if mark.change == Change::LeaveOut {
        counted_behind(pencil, index, taking.line()?)?;
    }
    let mut now = text.to_owned();
    for edit in taking.edits()? {
        now = apply(&now, &edit)?.text;
    }
    Ok(now)
}

/// That no other mark names a line behind one that goes by its number.
fn counted_behind(pencil: &Pencil, index: usize, line: usize) -> Result<(), Problem> {
    let others = pencil.marks.iter().enumerate();
    let mut others = others.filter(|(number, _)| *number != index);
    let behind = |(_, mark): (usize, &Mark)| matches!(mark.target, Target::Number(n) if n > line);
    match others.any(behind) {
        true => Err(
            Problem::error("other marks count the lines, and this one takes a line away")
                .hint("take or leave the marks on it and on later lines first"),
        ),
        false => Ok(()),
    }
}

struct Taking<'t> {
    text: &'t str,
    routine: &'t Routine,
    laid: &'t Laid,
    mark: &'t Mark,
    /// Its value as it is written in the pencil.
    written: Option<&'t str>,
}

impl Taking<'_> {
    /// The line that it is made on.
    fn line(&self) -> Result<usize, Problem> {
        let line = lay::find_line(&self.mark.target, self.routine)?;
        line.ok_or_else(|| self.wordless())
    }

    /// The lines that it changes, as they were and as they are with it.
    fn changed(&self) -> Vec<(usize, &Line, &Line)> {
        let lines = self.laid.lines.iter().zip(&self.laid.routine.lines);
        let changed = lines.filter(|(laid, _)| !laid.marks.is_empty());
        changed
            .map(|(laid, line)| (laid.of, &self.routine.lines[laid.of], line))
            .collect()
    }

    fn edits(&self) -> Result<Vec<Edit>, Problem> {
        let of_line = |key: &str, value: Value| {
            let changed = self.changed().into_iter();
            let edits = changed.map(|(line, _, _)| set(Some(line), key, value.clone()));
            edits.collect::<Vec<Edit>>()
        };
        Ok(match &self.mark.change {
            Change::LeaveOut => vec![Edit::RemoveLine { line: self.line()? }],
            Change::Tempo(_) => self.tempos(),
            Change::Words(words) => {
                let line = lay::find_line(&self.mark.target, self.routine)?;
                vec![set(line, "words", Value::Text(words.clone()))]
            }
            Change::Rest(RestChange::To(_)) => of_line("rest", self.value()?),
            Change::Between(RestChange::To(_)) => of_line("between", self.value()?),
            Change::Articulation(_) => of_line("articulation", self.value()?),
            Change::Drone(_) => of_line("drone", self.value()?),
            Change::Guide(_) => of_line("guide", self.value()?),
            Change::Times(times) => of_line("times", Value::Whole(i64::from(*times))),
            Change::StopAfter(_) | Change::HalfSteps(_) | Change::Tubes(_) => self.walks(),
            Change::BreathAfter(number) => {
                let line = self.line()?;
                let at = self.note(line, *number)?;
                vec![Edit::Breath { line, at, on: true }]
            }
            Change::Bend(_) | Change::Finger(_) => self.bends()?,
            Change::Rest(_) | Change::Between(_) | Change::Louder(_) => {
                return Err(self.wordless());
            }
        })
    }

    fn wordless(&self) -> Problem {
        Problem::error(
            "a routine has no words for this mark: it says more or less of what is there",
        )
        .hint("write what you want into the line, and then leave the mark out")
    }

    /// The value as it is written in the pencil: a routine writes it in the same way.
    fn value(&self) -> Result<Value, Problem> {
        let row = format!("value = {}", self.written.unwrap_or_default());
        let table = DeTable::parse(&row).map_err(|_| self.wordless())?;
        let value = table.get_ref().get("value");
        value
            .and_then(|value| plain(value.get_ref()))
            .ok_or_else(|| self.wordless())
    }

    fn tempos(&self) -> Vec<Edit> {
        let number = |tempo: &crate::music::Tempo| {
            let text = tempo.to_string();
            match (text.parse::<i64>(), text.parse::<f64>()) {
                (Ok(whole), _) => Value::Whole(whole),
                (_, Ok(number)) => Value::Number(number),
                _ => Value::Text(text),
            }
        };
        let mut edits = vec![];
        if self.laid.routine.tempo != self.routine.tempo {
            edits.push(set(None, "tempo", number(&self.laid.routine.tempo)));
        }
        let lines = self.laid.lines.iter().zip(&self.laid.routine.lines);
        for (laid, line) in lines {
            if line.tempos == self.routine.lines[laid.of].tempos {
                continue;
            }
            let value = match &line.tempos[..] {
                [one] => number(one),
                all => Value::List(all.iter().map(number).collect()),
            };
            edits.push(set(Some(laid.of), "tempo", value));
        }
        edits
    }

    fn walks(&self) -> Vec<Edit> {
        let changed = self.changed().into_iter();
        let edits = changed.map(|(of, _, line)| match &line.walk {
            Walk::HalfSteps(steps) => {
                let steps = steps.iter().map(|step| Value::Whole(i64::from(*step)));
                set(Some(of), "half_steps", Value::List(steps.collect()))
            }
            Walk::Tubes(tubes) => {
                let tubes = tubes.iter().map(|tube| Value::Text(tube.to_string()));
                set(Some(of), "tubes", Value::List(tubes.collect()))
            }
        });
        edits.collect()
    }

    /// The sign of a note, counted from 1 as players count.
    fn note(&self, line: usize, number: usize) -> Result<usize, Problem> {
        let signs = signs_in(self.text, line)?.into_iter();
        let mut notes = signs.filter(|sign| WrittenPitch::parse(&sign.head).is_some());
        let found = number.checked_sub(1).and_then(|n| notes.nth(n));
        let found = found.ok_or_else(|| Problem::error("there is no such note"))?;
        Ok(found.at)
    }

    /// Every note that is bent with the mark and was not, or the other way round.
    fn bends(&self) -> Result<Vec<Edit>, Problem> {
        let mut edits = vec![];
        for (line, before, after) in self.changed() {
            let bent = |line: &Line| {
                let mut found = vec![];
                bent_in(&line.phrase.items, &mut found);
                found
            };
            let pairs = bent(before).into_iter().zip(bent(after)).enumerate();
            for (index, (_, on)) in pairs.filter(|(_, (was, is))| was != is) {
                let at = self.note(line, index + 1)?;
                edits.push(Edit::Mark {
                    line,
                    first: at,
                    last: at,
                    mark: "bend".to_owned(),
                    on,
                });
            }
        }
        Ok(edits)
    }
}

/// For each note in order, whether it is bent.
fn bent_in(items: &[Item], found: &mut Vec<bool>) {
    for item in items {
        match &item.kind {
            ItemKind::Slur(inside) | ItemKind::Triplet(inside) => bent_in(inside, found),
            ItemKind::Note(note) => found.push(note.bend),
            _ => {}
        }
    }
}

fn set(line: Option<usize>, key: &str, value: Value) -> Edit {
    Edit::Set {
        line,
        key: key.to_owned(),
        value,
    }
}

/// A value of a text as that of an entry.
fn plain(value: &DeValue<'_>) -> Option<Value> {
    Some(match value {
        DeValue::String(text) => Value::Text(text.to_string()),
        DeValue::Integer(number) => Value::Whole(number.as_str().parse().ok()?),
        DeValue::Float(number) => Value::Number(number.as_str().parse().ok()?),
        DeValue::Array(list) => {
            let values = list.iter().map(|one| plain(one.get_ref()));
            Value::List(values.collect::<Option<Vec<Value>>>()?)
        }
        _ => return None,
    })
}
