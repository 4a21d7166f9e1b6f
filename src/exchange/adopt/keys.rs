//! The keys of a piece: which one every bar is in, which one a line gets, and what a line cannot say of them.

use super::losses::Losses;
use super::patterns::{Pattern, PatternWalk};
use super::tune::Tune;
use crate::brass::Instrument;
use crate::exchange::piece::{ImportedPiece, KeySign};
use crate::music::Key;
use crate::music::key::Mode;

/// The key of every measure, as the player of the chosen instrument reads it; `None` where no key is named.
pub(super) struct Keys {
    of_measures: Vec<Option<Key>>,
}

impl Keys {
    pub(super) fn of(piece: &ImportedPiece) -> Self {
        let mut key = None;
        let of_measures = piece.measures.iter().map(|measure| {
            match measure.key {
                Some(KeySign::In(named)) => key = Some(named),
                Some(KeySign::Unnamed) => key = None,
                None => {}
            }
            key
        });
        let mut of_measures: Vec<Option<Key>> = of_measures.collect();
        // Beside keys, a signature without sharps or flats is one too.
        if of_measures.iter().any(Option::is_some) {
            for key in &mut of_measures {
                *key = key.or(Key::new(0, Mode::Major));
            }
        }
        Self { of_measures }
    }

    /// The key of a measure.
    pub(super) fn at(&self, measure: usize) -> Option<Key> {
        self.of_measures.get(measure).copied().flatten()
    }

    /// Moves all keys with their notes.
    pub(super) fn move_by(&mut self, half_steps: i32) {
        for key in self.of_measures.iter_mut().flatten() {
            *key = key.moved(half_steps);
        }
    }

    /// Reports changes of key inside a line that do not come from its pattern.
    pub(super) fn changes_inside(
        &self,
        tune: &Tune,
        pattern: &Pattern,
        instrument: &Instrument,
        losses: &mut Losses,
    ) {
        let Some(key) = tune.key else { return };
        let mut reported = None;
        for event in tune.events.iter().filter(|event| event.pitch().is_some()) {
            let bars = tune.bars.partition_point(|bar| bar.start <= event.start());
            let pass = bars.saturating_sub(1) / (pattern.bars + pattern.between).max(1);
            let there = self.at(event.measure);
            if there == Some(key.moved(moves_by(pattern, pass, instrument))) {
                reported = None;
            } else if there != reported {
                reported = there;
                if let Some(there) = there {
                    let what = format!(
                        "the key changes to {there} inside the line: the signature stays, and sharps and flats stand at \
                         their notes"
                    );
                    losses.lose(Some(event.measure), what);
                }
            }
        }
    }
}

/// By how many half steps a pass lies from the first.
fn moves_by(pattern: &Pattern, pass: usize, instrument: &Instrument) -> i32 {
    let place = pass / (pattern.times * pattern.articulations.len().max(1)).max(1);
    match &pattern.walk {
        PatternWalk::Stays => 0,
        PatternWalk::HalfSteps(moves) => moves.get(place).copied().unwrap_or(0),
        PatternWalk::Tubes(tubes) => {
            let down = |at: usize| tubes.get(at).map_or(0, |v| instrument.tube_half_steps(*v));
            down(0) - down(place)
        }
    }
}

/// The key that most lines are in; the first of several.
pub(super) fn most(tunes: &[Tune]) -> Option<Key> {
    let keys: Vec<Key> = tunes.iter().filter_map(|tune| tune.key).collect();
    let count = |key: &Key| keys.iter().filter(|other| *other == key).count();
    let most = keys.iter().map(count).max()?;
    keys.iter().find(|key| count(key) == most).copied()
}
