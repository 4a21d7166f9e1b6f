//! Who plays a line together with whom.

use super::model::{GroupError, RestingPlayer, Turn};
use crate::brass::Instrument;
use crate::carry::{CarryError, CarryRule, carry_every, places_of_lines};
use crate::problem::Problem;
use crate::routine::Routine;
use std::ops::Range;

/// A text with the places of its lines, and why some of them cannot be played.
pub struct CarriedText {
    pub text: String,
    pub lines: Vec<Range<usize>>,
    pub unfit: Vec<Option<Problem>>,
}

/// A routine carried to one player's instrument by both rules.
pub struct CarriedPart {
    pub concert: CarriedText,
    pub partials: CarriedText,
}

impl CarriedPart {
    pub fn of(
        text: &str,
        to: &'static Instrument,
        count: usize,
        player: usize,
    ) -> Result<Self, GroupError> {
        let of_rule = |rule| {
            let every = carry_every(text, to, rule)?;
            let mut unfit = vec![None; count];
            for line in every.left_out {
                unfit[line.number - 1] = Some(line.problem);
            }
            Ok(CarriedText {
                lines: places_of_lines(&every.text, count)?,
                text: every.text,
                unfit,
            })
        };
        let both = of_rule(CarryRule::Concert)
            .and_then(|concert| of_rule(CarryRule::Partials).map(|partials| (concert, partials)));
        match both {
            Ok((concert, partials)) => Ok(Self { concert, partials }),
            Err(error) => Err(refused(error, player)),
        }
    }

    pub fn by(&self, rule: CarryRule) -> &CarriedText {
        match rule {
            CarryRule::Partials => &self.partials,
            CarryRule::Concert => &self.concert,
        }
    }
}

fn refused(error: CarryError, player: usize) -> GroupError {
    match error {
        CarryError::Unreadable(faults) => GroupError::Unreadable(faults),
        CarryError::Untouchable(problem) => GroupError::Unplayable { player, problem },
        CarryError::NothingLeft(_) => unreachable!("every line is kept in the text"),
    }
}

/// The lines of the common clock, and who rests in a line because it cannot be played.
pub fn of(
    routine: &Routine,
    instruments: &[&'static Instrument],
    carried: &[CarriedPart],
) -> (Vec<Turn>, Vec<RestingPlayer>) {
    let mut turns = vec![];
    let mut resting = vec![];
    for line in 0..routine.lines.len() {
        if !routine.lines[line].on.has_pitches() {
            turns.push(Turn {
                line,
                players: (0..instruments.len()).collect(),
                rule: CarryRule::Concert,
            });
            continue;
        }
        let fits = |player: &usize, rule| carried[*player].by(rule).unfit[line].is_none();
        let players = 0..instruments.len();
        let (together, others): (Vec<usize>, Vec<usize>) =
            players.partition(|player| fits(player, CarryRule::Concert));
        if !together.is_empty() {
            turns.push(Turn {
                line,
                players: together,
                rule: CarryRule::Concert,
            });
        }
        let (alone, never): (Vec<usize>, Vec<usize>) =
            (others.into_iter()).partition(|player| fits(player, CarryRule::Partials));
        for players in by_horn(&alone, instruments) {
            turns.push(Turn {
                line,
                players,
                rule: CarryRule::Partials,
            });
        }
        for player in never {
            let problem = carried[player].partials.unfit[line].clone();
            if let Some(problem) = problem {
                resting.push(RestingPlayer {
                    player,
                    line,
                    problem,
                });
            }
        }
    }
    (turns, resting)
}

/// The players in groups with open horns of the same name, in the order of the first of each.
fn by_horn(players: &[usize], instruments: &[&'static Instrument]) -> Vec<Vec<usize>> {
    let open = |player: usize| {
        let instrument = instruments[player];
        let sounding = instrument.sounding(instrument.second_partial);
        sounding.number().rem_euclid(12)
    };
    let mut groups: Vec<Vec<usize>> = vec![];
    for player in players {
        match groups
            .iter_mut()
            .find(|group| open(group[0]) == open(*player))
        {
            Some(group) => group.push(*player),
            None => groups.push(vec![*player]),
        }
    }
    groups
}
