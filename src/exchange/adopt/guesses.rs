//! Guesses for what a routine needs and a file does not say: the comfortable top and the reach.

use super::tune::{Tune, TuneEventKind};
use crate::brass::{Instrument, Level};
use crate::music::{Whole, WrittenPitch};
use num_traits::Zero;

/// The share of the playing time that must lie at or below the comfortable top: the checker allows 15 % above
/// it.
const EASY: (i64, i64) = (85, 100);

/// The comfortable top, and the reach if that is higher.
pub(super) fn comfort(
    tunes: &[Tune],
    instrument: &Instrument,
) -> (WrittenPitch, Option<WrittenPitch>) {
    let mut played: Vec<(WrittenPitch, Whole)> = vec![];
    for event in tunes.iter().flat_map(|t| &t.events) {
        if let TuneEventKind::Note(pitch) = event.kind {
            played.push((pitch, event.end() - event.start()));
        }
    }
    let all: Whole = played.iter().map(|(_, length)| *length).sum();
    let below = |top: WrittenPitch| -> Whole {
        let inside = played.iter().filter(|(p, _)| p.number() <= top.number());
        inside.map(|(_, length)| *length).sum()
    };
    let tops: Vec<WrittenPitch> = Level::all().map(|l| l.open_top(instrument)).collect();
    let enough = all * Whole::new(EASY.0, EASY.1);
    let top = tops.iter().copied().find(|top| below(*top) >= enough);
    let top = top.unwrap_or(tops[tops.len() - 1]);
    let highest = played.iter().map(|(p, _)| *p).max_by_key(|p| p.number());
    let reach = highest.filter(|p| p.number() > top.number() && !all.is_zero());
    (top, reach)
}
