//! Writes out repeats, endings and jumps.

use crate::exchange::piece::{Loss, Measure};
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
    let mut order = once_through(measures)?;
    let jumps = measures.iter().enumerate();
    let jumps: Vec<usize> = jumps
        .filter(|(_, m)| m.repeat.da_capo || m.repeat.dal_segno)
        .map(|(index, _)| index)
        .collect();
    let [jump] = jumps.as_slice() else {
        for jump in jumps {
            losses.push(Loss {
                measure: Some(jump),
                what: "one of several jumps (D.C., D.S.) is not followed".into(),
            });
        }
        return Ok(order);
    };
    let to = if measures[*jump].repeat.dal_segno {
        measures.iter().position(|m| m.repeat.segno)
    } else {
        Some(0)
    };
    let Some(to) = to.filter(|to| to <= jump) else {
        losses.push(Loss {
            measure: Some(*jump),
            what: "the sign that it jumps back to is not there: it goes straight on".into(),
        });
        return Ok(order);
    };
    // First to the jump, with repeats; then from the sign without repeats, and on after the jump.
    if let Some(place) = order.iter().rposition(|index| index == jump) {
        order.truncate(place + 1);
    }
    order.extend(again(measures, to, *jump));
    bounded(order)
}

fn bounded(order: Vec<usize>) -> Result<Vec<usize>, Problem> {
    if order.len() > MOST {
        return Err(Problem::error(format!(
            "with its repeats written out it has more than {MOST} bars, which no warm-up needs"
        )));
    }
    Ok(order)
}

/// With repeats and endings, without jumps.
fn once_through(measures: &[Measure]) -> Result<Vec<usize>, Problem> {
    let mut order = vec![];
    let (mut from, mut time) = (0, 1);
    let mut index = 0;
    let ends = Ends::of(measures);
    while let Some(measure) = measures.get(index) {
        let repeat = &measure.repeat;
        if repeat.begins && index != from {
            (from, time) = (index, 1);
        }
        if let Some(numbers) = &repeat.ending
            && !numbers.is_empty()
            && !numbers.contains(&time)
        {
            index = ends.after(index);
            let next = measures.get(index).and_then(|m| m.repeat.ending.as_ref());
            if next.is_none() {
                (from, time) = (index, 1);
            }
            continue;
        }
        order.push(index);
        if order.len() > MOST {
            return bounded(order);
        }
        if let Some(times) = repeat.times {
            if time < endings(measures, &ends, from, index).unwrap_or(times) {
                time += 1;
                index = from;
                continue;
            }
            (from, time) = (index + 1, 1);
        } else if repeat.ending_over {
            // The last ending has no repeat.
            (from, time) = (index + 1, 1);
        }
        index += 1;
    }
    Ok(order)
}

/// For each measure, the one after the ending that begins at it.
struct Ends(Vec<usize>);

impl Ends {
    fn of(measures: &[Measure]) -> Self {
        let mut over = None;
        let mut after: Vec<usize> = (0..measures.len())
            .rev()
            .map(|index| {
                if measures[index].repeat.ending_over {
                    over = Some(index + 1);
                }
                over.unwrap_or(index + 1)
            })
            .collect();
        after.reverse();
        Self(after)
    }

    fn after(&self, index: usize) -> usize {
        self.0[index]
    }
}

/// The most endings that follow one another; a repeat is played as many times at most.
const MOST_ENDINGS: usize = 100;

/// How many times a repeat that returns from `to` is played, by the numbers of its endings.
fn endings(measures: &[Measure], ends: &Ends, from: usize, to: usize) -> Option<u32> {
    let inside = measures[from..=to]
        .iter()
        .filter_map(|m| m.repeat.ending.as_ref());
    let mut most = inside.flatten().copied().max()?;
    // Endings that follow right after this one.
    let mut next = to + 1;
    for _ in 0..MOST_ENDINGS {
        let Some(numbers) = measures.get(next).and_then(|m| m.repeat.ending.as_ref()) else {
            break;
        };
        most = most.max(numbers.iter().copied().max().unwrap_or(0));
        next = ends.after(next);
    }
    // An ending for the last time alone says nothing about the times before it.
    Some(most.clamp(2, 100))
}

/// The order from `to` after a jump at `jump`: last endings only, to *Fine* or through the coda.
fn again(measures: &[Measure], to: usize, jump: usize) -> Vec<usize> {
    let has_fine = measures[..=jump].iter().skip(to).any(|m| m.repeat.fine);
    let coda = measures
        .iter()
        .enumerate()
        .filter(|(index, m)| *index > to && m.repeat.coda)
        .map(|(index, _)| index)
        .next_back();
    let ends = Ends::of(measures);
    let mut order = vec![];
    let mut index = to;
    while let Some(measure) = measures.get(index) {
        if measure.repeat.ending.is_some() {
            let after = ends.after(index);
            let another = measures
                .get(after)
                .is_some_and(|m| m.repeat.ending.is_some());
            if another {
                index = after;
                continue;
            }
        }
        order.push(index);
        if has_fine && measure.repeat.fine {
            return order;
        }
        match coda {
            Some(coda) if measure.repeat.to_coda && coda > index => index = coda,
            _ => index += 1,
        }
        // Without *Fine* or a coda it ends where it jumped, followed by what stands after that.
        if order.len() > measures.len() {
            break;
        }
    }
    order
}

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
                        "coda" => repeat.coda = true,
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
}
