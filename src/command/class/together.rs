//! The routines of players who play together: arranged once for the group, a part for each instrument.

use super::library::{Found, Library};
use crate::brass::Instrument;
use crate::carry::CarryRule;
use crate::class::{ClassList, Group, Listed, Player};
use crate::command::console::Console;
use crate::command::edition::{self, LoadedEdition};
use crate::command::show;
use crate::command::source::{CarriedTo, SourceText};
use crate::group::{Arranged, GroupError, arrange};
use crate::problem::{Problem, Text};
use crate::routine::Routine;
use crate::words::{list, tell};
use std::collections::HashMap;
use std::sync::Arc;

/// The parts of all groups that play together.
#[derive(Default)]
pub struct Parts {
    /// By the player's place in the list.
    by_player: HashMap<usize, Found<Arc<LoadedEdition>>>,
}

impl Parts {
    /// Arranges the routine of every group that plays together. Problems are shown.
    pub fn arrange(console: &mut Console, list: &ClassList, library: &mut Library<'_>) -> Self {
        let mut parts = Self::default();
        for (index, group) in list.groups.iter().enumerate() {
            let players = players(list, index);
            if !group.together || players.is_empty() {
                continue;
            }
            match of_group(console, group, &players, library) {
                Ok(of_players) => {
                    let numbers = players.iter().map(|(number, _)| *number);
                    let found = of_players.into_iter().map(Ok);
                    parts.by_player.extend(numbers.zip(found));
                }
                Err(why) => {
                    let all = players
                        .iter()
                        .map(|(number, _)| (*number, Err(why.clone())));
                    parts.by_player.extend(all);
                }
            }
        }
        parts
    }

    /// The part of the player at this place in the list; `None` for one who does not play together with others.
    pub fn of(&self, player: usize) -> Option<Found<Arc<LoadedEdition>>> {
        self.by_player.get(&player).cloned()
    }
}

/// The players of a group, with their places in the list.
pub fn players(list: &ClassList, group: usize) -> Vec<(usize, &Player)> {
    let listed = list.players.iter().enumerate();
    let of_group = listed.filter_map(|(number, listed)| match listed {
        Listed::Player(player) if player.group == Some(group) => Some((number, player)),
        _ => None,
    });
    of_group.collect()
}

/// The part of each player; those with the same instrument share one.
fn of_group(
    console: &mut Console,
    group: &Group,
    players: &[(usize, &Player)],
    library: &mut Library<'_>,
) -> Found<Vec<Arc<LoadedEdition>>> {
    let (source, routine) = library.routine_as_written(console, &players[0].1.routine)?;
    let mut instruments: Vec<&'static Instrument> = vec![];
    let mut part_of = vec![];
    for (_, player) in players {
        let instrument = player.instrument.unwrap_or(routine.instrument);
        let there = instruments.iter().position(|i| i.name == instrument.name);
        part_of.push(there.unwrap_or(instruments.len()));
        if there.is_none() {
            instruments.push(instrument);
        }
    }
    let arranged = match arrange(&source.text, &instruments) {
        Ok(arranged) => arranged,
        Err(GroupError::Unreadable(faults)) => {
            let problems: Vec<Problem> = faults
                .into_iter()
                .map(|f| f.in_text(Text::Routine))
                .collect();
            show::problems(console, &source, &problems);
            return Err(tell::routine_faulty());
        }
        Err(GroupError::Unplayable { player, problem }) => {
            console.complain(
                tell::cannot_be_played_by(
                    &group.name,
                    &source.name,
                    instruments[player].named_in_words(),
                    &problem.message,
                ),
                problem.hint.clone(),
            );
            return Err(tell::group_cannot());
        }
    };
    tell(console, group, &routine, &instruments, &arranged);
    let mut parts = vec![];
    for (text, instrument) in arranged.parts.into_iter().zip(&instruments) {
        parts.push(part(console, &source, &routine, text, instrument)?);
    }
    Ok(part_of
        .into_iter()
        .map(|part| Arc::clone(&parts[part]))
        .collect())
}

fn part(
    console: &mut Console,
    source: &SourceText,
    routine: &Routine,
    text: String,
    instrument: &'static Instrument,
) -> Found<Arc<LoadedEdition>> {
    let carried = CarriedTo {
        instrument,
        rule: Some(CarryRule::Concert),
    };
    let source = SourceText {
        name: format!("{}, for the {}", source.name, instrument.name),
        text,
        carried: (instrument.name != routine.instrument.name).then_some(carried),
        ..source.clone()
    };
    let read = edition::read_routine(console, &source).ok_or(tell::routine_faulty())?;
    let laid = LoadedEdition::lay(console, source, read, None, false);
    laid.map(Arc::new).ok_or(tell::routine_faulty())
}

/// Says which lines are played in turn, and who rests in a line.
fn tell(
    console: &mut Console,
    group: &Group,
    routine: &Routine,
    instruments: &[&'static Instrument],
    arranged: &Arranged,
) {
    let the = |player: &usize| format!("the {}", instruments[*player].name);
    for (index, line) in routine.lines.iter().enumerate() {
        let turns: Vec<String> = (arranged.turns.iter())
            .filter(|turn| turn.line == index)
            .map(|turn| {
                let names: Vec<String> = turn.players.iter().map(the).collect();
                list::and(&names.iter().map(String::as_str).collect::<Vec<_>>())
            })
            .collect();
        if turns.len() > 1 {
            console.say(tell::played_in_turn(
                &group.name,
                index + 1,
                &line.name,
                turns.join(", then "),
            ));
        }
        if turns.is_empty() {
            console.say(tell::nobody_can_play(&group.name, index + 1, &line.name));
            continue;
        }
        for resting in arranged
            .resting
            .iter()
            .filter(|resting| resting.line == index)
        {
            let hint = resting.problem.hint.as_ref();
            let hint = hint.map_or(String::new(), |hint| format!(" ({hint})"));
            console.say(tell::rests_in_line(
                &group.name,
                the(&resting.player),
                index + 1,
                &line.name,
                &resting.problem.message,
                &hint,
            ));
        }
    }
}
