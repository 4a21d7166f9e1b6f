//! Which tracks have sound in common, and in which order they are to be rendered.
//!
//! The lines of a track are known by what they sound like. Each is rendered with the first track that has it; every
//! other track that has it comes in a later wave and copies it from there.

use blake3::Hash;
use std::collections::{BTreeSet, HashMap};

/// In what order tracks are rendered, and from where they copy.
pub struct Plan {
    /// Numbers of tracks; those of a wave need nothing of each other.
    pub waves: Vec<Vec<usize>>,
    /// For each track the numbers of those it copies from.
    pub like: Vec<Vec<usize>>,
}

impl Plan {
    /// A plan for tracks of these units.
    pub fn new(tracks: &[&[Hash]]) -> Self {
        let mut makers: HashMap<Hash, usize> = HashMap::new();
        let mut plan = Self {
            waves: Vec::new(),
            like: Vec::new(),
        };
        let mut wave_of: Vec<usize> = Vec::new();
        for (number, units) in tracks.iter().enumerate() {
            let mut like = BTreeSet::new();
            for unit in *units {
                let maker = *makers.entry(*unit).or_insert(number);
                if maker != number {
                    like.insert(maker);
                }
            }
            let wave = like.iter().map(|maker| wave_of[*maker] + 1).max();
            let wave = wave.unwrap_or(0);
            wave_of.push(wave);
            plan.waves
                .resize_with(plan.waves.len().max(wave + 1), Vec::new);
            plan.waves[wave].push(number);
            plan.like.push(like.into_iter().collect());
        }
        plan
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn units(names: &str) -> Vec<Hash> {
        names.bytes().map(|name| blake3::hash(&[name])).collect()
    }

    #[test]
    fn every_unit_is_made_once_and_copied_later() {
        let tracks = ["abc", "abc", "axc", "def", "xye", ""].map(units);
        let tracks: Vec<&[Hash]> = tracks.iter().map(Vec::as_slice).collect();
        let plan = Plan::new(&tracks);
        assert_eq!(plan.waves, [vec![0, 3, 5], vec![1, 2], vec![4]]);
        assert_eq!(
            plan.like,
            [vec![], vec![0], vec![0], vec![], vec![2, 3], vec![]]
        );
    }
}
