//! Writes out repeats, endings and jumps.

use super::brackets;
use crate::exchange::piece::{Loss, Measure, Repeat, SymbolKind};
use crate::problem::Problem;

/// The most bars of a piece with its repeats written out.
const MOST: usize = 20_000;

/// Indices of the measures in the order in which they are played.
///
/// # Errors
/// If that gives more bars than any warm-up has.
pub(super) fn written_out(
    measures: &[Measure],
    losses: &mut Vec<Loss>,
) -> Result<Vec<usize>, Problem> {
    let repeats: Vec<Repeat> = brackets::whole(measures, losses);
    let mut player = Player {
        ends: Ends::of(&repeats),
        repeats: &repeats,
        jumped: vec![false; repeats.len()],
        order: vec![],
    };
    let mut way = player.once_through(0)?;
    while let Way::Jumps(from) = way {
        player.jumped[from] = true;
        let Some(to) = player.target(from) else {
            losses.push(Loss {
                measure: Some(from),
                what: "the sign that it jumps back to is not there: it goes straight on".into(),
            });
            way = player.once_through(from + 1)?;
            continue;
        };
        way = match player.again(to, from)? {
            Some(on) => player.once_through(on)?,
            None => Way::Ends,
        };
    }
    let order = player.order;
    unplayed(measures, &order, losses);
    Ok(order)
}

/// Tells of bars with notes that nothing leads to.
fn unplayed(measures: &[Measure], order: &[usize], losses: &mut Vec<Loss>) {
    let mut played = vec![false; measures.len()];
    for index in order {
        played[*index] = true;
    }
    for (index, measure) in measures.iter().enumerate() {
        let sounds = measure.symbols.iter().any(|s| s.what != SymbolKind::Rest);
        if sounds && !played[index] {
            losses.push(Loss {
                measure: Some(index),
                what: "it is not played: no repeat, ending or jump leads to it".into(),
            });
        }
    }
}

fn bounded(order: &[usize]) -> Result<(), Problem> {
    if order.len() > MOST {
        return Err(Problem::error(format!(
            "with its repeats written out it has more than {MOST} bars, which no warm-up needs"
        )));
    }
    Ok(())
}

/// How a stretch of music ends.
enum Way {
    /// With the last bar.
    Ends,
    /// With a jump back from this bar.
    Jumps(usize),
}

struct Player<'r> {
    repeats: &'r [Repeat],
    ends: Ends,
    /// The bars whose jump back has been made.
    jumped: Vec<bool>,
    order: Vec<usize>,
}

impl Player<'_> {
    fn push(&mut self, index: usize) -> Result<(), Problem> {
        self.order.push(index);
        bounded(&self.order)
    }

    /// From a bar on with repeats and endings, up to a jump that has not been made.
    fn once_through(&mut self, start: usize) -> Result<Way, Problem> {
        let (mut from, mut time) = (start, 1);
        let mut index = start;
        while let Some(repeat) = self.repeats.get(index) {
            if repeat.begins && index != from {
                (from, time) = (index, 1);
            }
            // A repeat cannot begin with an ending: where it seems to, it is played.
            if let Some(numbers) = &repeat.ending
                && (index != from || time > 1)
                && !numbers.is_empty()
                && !numbers.contains(&time)
            {
                index = self.ends.after(index);
                let next = self.repeats.get(index).and_then(|r| r.ending.as_ref());
                if next.is_none() {
                    (from, time) = (index, 1);
                }
                continue;
            }
            self.push(index)?;
            if let Some(times) = repeat.times {
                if time < self.endings(from, index).unwrap_or(times) {
                    time += 1;
                    index = from;
                    continue;
                }
                (from, time) = (index + 1, 1);
            } else if repeat.ending_over {
                // The last ending has no repeat.
                (from, time) = (index + 1, 1);
            }
            if (repeat.da_capo || repeat.dal_segno) && !self.jumped[index] {
                return Ok(Way::Jumps(index));
            }
            index += 1;
        }
        Ok(Way::Ends)
    }

    /// How many times a repeat that returns from `to` is played, by the numbers of its endings.
    fn endings(&self, from: usize, to: usize) -> Option<u32> {
        let inside = self.repeats[from..=to].iter();
        let mut most = inside
            .filter_map(|r| r.ending.as_ref())
            .flatten()
            .copied()
            .max()?;
        // Endings that follow right after this one.
        let mut next = to + 1;
        for _ in 0..MOST_ENDINGS {
            let Some(numbers) = self.repeats.get(next).and_then(|r| r.ending.as_ref()) else {
                break;
            };
            most = most.max(numbers.iter().copied().max().unwrap_or(0));
            next = self.ends.after(next);
        }
        // An ending for the last time alone says nothing about the times before it.
        Some(most.clamp(2, 100))
    }

    /// The bar that a jump goes back to: the first, or the last sign before it.
    fn target(&self, jump: usize) -> Option<usize> {
        if self.repeats[jump].dal_segno {
            self.repeats[..=jump].iter().rposition(|r| r.segno)
        } else {
            Some(0)
        }
    }

    /// From `to` after a jump at `jump`, without repeats and with last endings only, to *Fine* or the coda. The bar
    /// to go on from with repeats, if there is one.
    fn again(&mut self, to: usize, jump: usize) -> Result<Option<usize>, Problem> {
        let has_fine = self.repeats[to..=jump].iter().any(|r| r.fine);
        let leaves = |r: &Repeat| r.to_coda;
        let leaves = self.repeats[to..=jump].iter().any(leaves);
        let mut codas = self.repeats.iter().enumerate().skip(to + 1);
        let coda = codas.rfind(|(_, r)| r.coda).map(|(index, _)| index);
        let mut index = to;
        while index <= jump {
            let repeat = &self.repeats[index];
            if repeat.ending.is_some() {
                let after = self.ends.after(index);
                if self.repeats.get(after).is_some_and(|r| r.ending.is_some()) {
                    index = after;
                    continue;
                }
            }
            self.push(index)?;
            if has_fine && repeat.fine {
                return Ok(None);
            }
            match coda {
                Some(coda) if repeat.to_coda && coda > index => return Ok(Some(coda)),
                _ => index += 1,
            }
        }
        // Nothing says where to leave: a coda comes after the jump in any case.
        Ok(Some(match coda {
            Some(coda) if !leaves && coda > jump => coda,
            _ => jump + 1,
        }))
    }
}

/// For each measure, the one after the ending that begins at it.
struct Ends(Vec<usize>);

impl Ends {
    fn of(repeats: &[Repeat]) -> Self {
        let mut over = None;
        let mut after: Vec<usize> = (0..repeats.len())
            .rev()
            .map(|index| {
                if repeats[index].ending_over {
                    over = Some(index + 1);
                }
                over.unwrap_or(index + 1)
            })
            .collect();
        after.reverse();
        Self(after)
    }

    fn after(&self, index: usize) -> usize {
        self.0.get(index).copied().unwrap_or(index + 1)
    }
}

/// The most endings that follow one another; a repeat is played as many times at most.
const MOST_ENDINGS: usize = 100;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exchange::piece::Repeat;

    /// Measures from words: `|:`, `:|`, `[1`, `]` and so on, one list of words for each measure.
    fn played(measures: &[&str]) -> Vec<usize> {
        let measures: Vec<Measure> = measures
            .iter()
            .map(|words| {
                let mut repeat = Repeat::default();
                for word in words.split(' ') {
                    match word {
                        "|:" => repeat.begins = true,
                        ":|" => repeat.times = Some(2),
                        ":|3" => repeat.times = Some(3),
                        "[1" => repeat.ending = Some(vec![1]),
                        "[12" => repeat.ending = Some(vec![1, 2]),
                        "[2" => repeat.ending = Some(vec![2]),
                        "[3" => repeat.ending = Some(vec![3]),
                        "]" => repeat.ending_over = true,
                        "dc" => repeat.da_capo = true,
                        "ds" => repeat.dal_segno = true,
                        "segno" => repeat.segno = true,
                        "to" => repeat.to_coda = true,
                        "]1" => (repeat.ending_over, repeat.over) = (true, vec![1]),
                        "coda" => repeat.coda = true,
                        "late" => repeat.coda_late = true,
                        "fine" => repeat.fine = true,
                        _ => {}
                    }
                }
                Measure {
                    repeat,
                    ..Measure::default()
                }
            })
            .collect();
        written_out(&measures, &mut vec![]).unwrap()
    }

    #[test]
    fn repeats_go_back_to_where_they_began() {
        assert_eq!(played(&["", ":|", ""]), [0, 1, 0, 1, 2]);
        assert_eq!(played(&["", "|:", ":|", ""]), [0, 1, 2, 1, 2, 3]);
        assert_eq!(played(&["|: :|3", "|:", ":|"]), [0, 0, 0, 1, 2, 1, 2]);
        assert_eq!(played(&[":|", ":|"]), [0, 0, 1, 1]);
    }

    #[test]
    fn endings_are_taken_in_turn() {
        assert_eq!(played(&["|:", "[1 :| ]", "[2 ]", ""]), [0, 1, 0, 2, 3]);
        assert_eq!(
            played(&["|:", "[12 :| ]", "[3 ]", ""]),
            [0, 1, 0, 1, 0, 2, 3]
        );
        assert_eq!(
            played(&["", "[1", ":| ]", "[2", ":| ]", "", ":|"]),
            [0, 1, 2, 0, 3, 4, 5, 6, 5, 6]
        );
    }

    #[test]
    fn jumps_are_followed_once_and_without_repeats() {
        assert_eq!(played(&["", "fine", "dc"]), [0, 1, 2, 0, 1]);
        assert_eq!(played(&["", "segno", "fine", "ds"]), [0, 1, 2, 3, 1, 2]);
        assert_eq!(
            played(&["|:", ":|", "to", "dc", "coda", ""]),
            [0, 1, 0, 1, 2, 3, 0, 1, 2, 4, 5]
        );
        assert_eq!(played(&["ds", ""]), [0, 1]);
    }

    #[test]
    fn each_of_several_jumps_is_made_once() {
        assert_eq!(played(&["segno", "ds", "dc"]), [0, 1, 0, 1, 2, 0, 1, 2]);
        assert_eq!(
            played(&["", "segno", "fine", "ds", "", "segno", "ds"]),
            [0, 1, 2, 3, 1, 2]
        );
        // After the coda repeats are made again.
        assert_eq!(
            played(&["to", "dc", "coda |:", ":|"]),
            [0, 1, 0, 2, 3, 2, 3]
        );
    }

    #[test]
    fn the_first_of_two_signs_of_the_coda_is_where_one_leaves() {
        assert_eq!(
            played(&["", "coda late", "dc", "coda", ""]),
            [0, 1, 2, 0, 1, 3, 4]
        );
        assert_eq!(played(&["", "coda", "dc", "coda", ""]), [0, 1, 2, 0, 3, 4]);
    }

    #[test]
    fn an_ending_without_a_beginning_is_one_bar() {
        assert_eq!(played(&["|:", ":| ]1", "[2 ]", ""]), [0, 1, 0, 2, 3]);
        // A repeat may be nothing but its endings.
        assert_eq!(played(&["|: [1 :| ]", "[2 ]", ""]), [0, 1, 2]);
        // Nor does a second ending without a first vanish.
        assert_eq!(played(&["", ":|", "[2 ]", ""]), [0, 1, 0, 1, 2, 3]);
    }
}
