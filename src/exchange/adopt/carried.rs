//! Ties over a change of meter or tempo: a line has one of each, so that the note is held to its end in the line
//! before the change, and the line after it begins with a rest.

use super::course::{PlayedMeasure, Timing};
use super::losses::Losses;
use super::sections::Section;
use super::tune::{Tune, TuneBar, TuneEvent, TuneEventKind};
use crate::music::Whole;
use num_traits::{Signed, Zero};

/// Carries such ties over. A line that was nothing but the end of a note becomes part of the one before.
pub(super) fn over(
    course: &[PlayedMeasure],
    tunes: &mut Vec<Tune>,
    sections: &mut Vec<Section>,
    losses: &mut Losses,
) {
    let mut index = 1;
    while index < tunes.len() {
        let (before, after) = tunes.split_at_mut(index);
        let (before, after) = (&mut before[index - 1], &mut after[0]);
        let start = sections[index - 1].places.start;
        let bar = match course.get(start).map(|played| played.meter) {
            Some(Timing::In(meter)) => meter.bar(),
            _ => Whole::from_integer(1),
        };
        if sections[index].tied && hold(before, after, bar) {
            let what =
                "a note tied over a change of meter or tempo is held to its end before the change";
            losses.lose(Some(after.events[0].measure), what);
        }
        if sections[index].tied && after.events.iter().all(TuneEvent::is_rest) {
            (before.rest, before.rest_bars) = (after.rest.take(), after.rest_bars);
            before.goes_on = after.goes_on;
            sections[index - 1].places.end = sections[index].places.end;
            sections.remove(index);
            tunes.remove(index);
        } else {
            index += 1;
        }
    }
}

/// Lengthens the last note of a tune by the first one of the next; false if these are not one.
fn hold(before: &mut Tune, after: &mut Tune, bar: Whole) -> bool {
    let (Some(last), Some(first)) = (before.events.last_mut(), after.events.first_mut()) else {
        return false;
    };
    let same = last.pitch().zip(first.pitch());
    if same.is_none_or(|(a, b)| a.number() != b.number()) || !first.start().is_zero() {
        return false;
    }
    let (from, tail) = (last.end(), first.end());
    last.heads.push((from, tail));
    last.breath |= first.breath;
    *first = TuneEvent {
        kind: TuneEventKind::Rest,
        heads: vec![(Whole::zero(), tail)],
        joined: false,
        style: None,
        breath: false,
        tube: None,
        ..first.clone()
    };
    if let Some(next) = after.events.get_mut(1) {
        next.joined = false;
    }
    lengthen(&mut before.bars, tail, bar);
    true
}

/// Fills the last bar and adds others for music that is so much longer.
fn lengthen(bars: &mut Vec<TuneBar>, mut by: Whole, full: Whole) {
    while by.is_positive() {
        let Some(last) = bars.last_mut() else {
            return;
        };
        // Bars that are longer than the meter says are written without bar lines.
        let more = by.min((full - last.length).max(Whole::zero()));
        last.length += more;
        by -= more;
        if by.is_positive() {
            let start = last.start + last.length;
            bars.push(TuneBar {
                start,
                length: Whole::zero(),
                silent: false,
                rest: None,
            });
        }
    }
}
