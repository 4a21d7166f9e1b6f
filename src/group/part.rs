//! The text of one player's part.

use super::model::{GroupError, Turn};
use super::turns::{CarriedPart, CarriedText};
use crate::brass::Instrument;
use crate::music::NoteValue;
use crate::notation::value;
use crate::problem::Problem;
use crate::routine::bounds::MOST_TIMES;
use crate::routine::{self, Line, Routine, Walk};
use crate::words::{list, say};
use std::fmt::Write;
use toml::de::DeTable;

/// The text of a player's part: the head, and each turn as it is played, or as a rest that is as long.
pub fn text(
    routine: &Routine,
    source: &str,
    instruments: &[&'static Instrument],
    player: usize,
    carried: &CarriedPart,
    turns: &[Turn],
) -> Result<String, GroupError> {
    let refused = |problem| GroupError::Unplayable { player, problem };
    if !turns.iter().any(|turn| turn.players.contains(&player)) {
        let instrument = instruments[player].name;
        let why = format!("there is no line in it that the {instrument} can play at its level");
        return Err(refused(Problem::error(why)));
    }
    let (root, _) = DeTable::parse_recoverable(source);
    let tables = root
        .get_ref()
        .get("line")
        .and_then(|lines| lines.get_ref().as_array());
    let table = |line: usize| tables?.get(line)?.get_ref().as_table();
    let head = carried.concert.lines.first().map_or(0, |first| first.start);
    let mut text = carried.concert.text[..head].to_owned();
    for turn in turns {
        let line = &routine.lines[turn.line];
        if turn.players.contains(&player) {
            text.push_str(&played(carried, turn, line));
        } else {
            let others: Vec<&Instrument> = turn.players.iter().map(|n| instruments[*n]).collect();
            let rest = resting(routine, line, source, table(turn.line), &others);
            text.push_str(&rest.map_err(refused)?);
        }
        if !text.ends_with("\n\n") {
            text.push_str(if text.ends_with('\n') { "\n" } else { "\n\n" });
        }
    }
    let text = format!("{}\n", text.trim_end());
    match routine::read(&text) {
        Ok(_) => Ok(text),
        Err(faults) => {
            let fault = faults.first().map_or("", |fault| &*fault.message);
            let why = format!(
                "it cannot be written for the {}: {fault}",
                instruments[player].name
            );
            Err(refused(Problem::error(why)))
        }
    }
}

/// A turn as the player plays it. Where it was not carried as the head was, it says its key itself.
fn played(carried: &CarriedPart, turn: &Turn, line: &Line) -> String {
    let of = carried.by(turn.rule);
    let mut block = of.text[of.lines[turn.line].clone()].to_owned();
    let (key, of_head) = (head_key(of), head_key(&carried.concert));
    if let (true, None, Some(key)) = (key != of_head, line.key, key) {
        let after = block.find("[[line]]").map(|at| at + "[[line]]".len());
        let row = after.and_then(|at| block[at..].find('\n').map(|end| at + end + 1));
        if let Some(row) = row {
            block.insert_str(row, &format!("key = \"{key}\"\n"));
        }
    }
    block
}

/// The key in the head of a text.
fn head_key(of: &CarriedText) -> Option<String> {
    let (root, _) = DeTable::parse_recoverable(&of.text);
    let key = root.get_ref().get("key")?.get_ref().as_str()?;
    Some(key.to_owned())
}

/// What stands in a line of rest as in the line that the others play.
const KEPT: [&str; 9] = [
    "name", "purpose", "between", "rest", "tempo", "meter", "count_in", "click", "guide",
];

/// A turn of others: as many bars of rest, as many times.
fn resting(
    routine: &Routine,
    line: &Line,
    source: &str,
    table: Option<&DeTable<'_>>,
    others: &[&Instrument],
) -> Result<String, Problem> {
    let mut text = "[[line]]\n".to_owned();
    for key in KEPT {
        if let Some(value) = table.and_then(|table| table.get(key)) {
            // Writing to a string cannot fail.
            let _ = writeln!(text, "{key} = {}", &source[value.span()]);
        }
    }
    let language = routine.words_in;
    let mut names: Vec<String> = vec![];
    for other in others {
        let name = other.name_in(language);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let say = say::count_while_they_play(language, list::and_in(language, &names));
    let _ = writeln!(text, "say = \"{say}\"");
    let _ = writeln!(text, "on = \"rest\"");
    let walk = match &line.walk {
        Walk::HalfSteps(moves) => moves.len(),
        Walk::Tubes(tubes) => tubes.len(),
    };
    let times = walk * line.times as usize * line.articulations.len();
    if times > MOST_TIMES as usize {
        let why = format!(
            "“{}” is played {times} times, and a line of rest is counted {MOST_TIMES} times at most",
            line.name
        );
        return Err(Problem::error(why).hint("divide it into two lines"));
    }
    let bar = line.meter_in(routine).bar();
    let bars = (line.melody.length / bar).ceil().to_integer().max(1);
    let rests: Vec<String> = value::notes(bar).into_iter().map(written).collect();
    let bars = vec![rests.join(" "); usize::try_from(bars).unwrap_or(1)];
    let _ = writeln!(text, "notes = \"{}\"", bars.join(" | "));
    if times > 1 {
        let _ = writeln!(text, "times = {times}");
    }
    Ok(text)
}

/// A rest in the note language.
fn written(value: value::Value) -> String {
    let dotted = if value.dotted { "." } else { "" };
    let name = NoteValue::named(value.division);
    format!("rest:{name}{dotted}")
}
