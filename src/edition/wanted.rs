//! Which takes are wanted.

use crate::music::Tuning;
use crate::routine::Guide;
use crate::score::{Take, TakeTempo};

/// Every combination of these tempos, keys and guide modes.
#[derive(Clone, Debug, PartialEq)]
pub struct Wanted {
    /// Tempos.
    pub tempos: Vec<TakeTempo>,
    /// Half steps that lines with pitches are moved by.
    pub keys: Vec<i32>,
    /// Guide modes.
    pub guides: Vec<Guide>,
    /// The tuning of all takes.
    pub tuning: Tuning,
}

impl Default for Wanted {
    /// One take, as written.
    fn default() -> Self {
        let take = Take::default();
        Self {
            tempos: vec![take.tempo],
            keys: vec![take.key],
            guides: vec![take.guide],
            tuning: take.tuning,
        }
    }
}

impl Wanted {
    /// The takes in order: by tempo, then key, then guide mode.
    pub fn takes(&self) -> Vec<Take> {
        let mut takes = Vec::new();
        for &tempo in &self.tempos {
            for &key in &self.keys {
                takes.extend(self.guides.iter().map(|&guide| Take {
                    tempo,
                    key,
                    guide,
                    tuning: self.tuning,
                }));
            }
        }
        takes
    }
}
