//! Which tracks share sound, what each copies from which, and which must be finished first.
//!
//! Tracks with exactly the same sound are twins: one of them is rendered and encoded, the others copy its files
//! with their own labels. Of other tracks, lines with the same sound are shared: each line is rendered with the
//! first track that has it and copied by the others.

use blake3::Hash;
use std::collections::{BTreeSet, HashMap};

/// Hashes of a track's sound.
pub struct Sounding<'a> {
    /// Of all of it.
    pub whole: Hash,
    /// Of each line.
    pub lines: &'a [Hash],
    /// True if the track is up to date and nothing has to be done.
    pub there: bool,
}

/// What a track copies.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Copies {
    /// The track whose twin it is.
    pub twin: Option<usize>,
    /// Tracks that have some of its lines.
    pub like: Vec<usize>,
    /// Tracks that must be finished before it; all of them have smaller numbers.
    pub after: Vec<usize>,
    /// Lines that it copies from the shelf.
    pub shelf_lines: Vec<Hash>,
}

/// What every track copies.
pub struct SharingPlan {
    /// In the order of the tracks.
    pub copies: Vec<Copies>,
    /// Lines to store on the shelf, and how many tracks copy each.
    pub shelved: HashMap<Hash, usize>,
}

impl SharingPlan {
    /// A plan for these tracks. Lines are read `from_files` if every track has a file with its frames
    /// unencoded; otherwise the track that renders a line stores it on the shelf.
    pub fn new(tracks: &[Sounding<'_>], from_files: bool) -> Self {
        let mut first: HashMap<Hash, usize> = HashMap::new();
        let mut makers: HashMap<Hash, usize> = HashMap::new();
        // Copying from an existing track is better than from one that has yet to be rendered.
        let there = || (0..).zip(tracks).filter(|(_, track)| track.there);
        for (number, track) in there() {
            first.entry(track.whole).or_insert(number);
            for line in track.lines.iter().filter(|_| from_files) {
                makers.entry(*line).or_insert(number);
            }
        }
        let mut plan = Self {
            copies: vec![Copies::default(); tracks.len()],
            shelved: HashMap::new(),
        };
        for (number, track) in (0..).zip(tracks).filter(|(_, track)| !track.there) {
            let copies = &mut plan.copies[number];
            let twin = *first.entry(track.whole).or_insert(number);
            let (mut like, mut shelf_lines) = (BTreeSet::new(), BTreeSet::new());
            if twin != number {
                copies.twin = Some(twin);
                like.insert(twin);
            } else {
                for line in track.lines {
                    let maker = *makers.entry(*line).or_insert(number);
                    if maker != number {
                        like.insert(maker);
                        shelf_lines.insert(*line.as_bytes());
                    }
                }
            }
            let after = like.iter().filter(|other| !tracks[**other].there);
            copies.after = after.copied().collect();
            copies.like = like.into_iter().filter(|_| from_files).collect();
            if !from_files {
                copies.shelf_lines = shelf_lines.into_iter().map(Hash::from_bytes).collect();
                for line in &copies.shelf_lines {
                    *plan.shelved.entry(*line).or_default() += 1;
                }
            }
        }
        plan
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hash(name: u8) -> Hash {
        blake3::hash(&[name])
    }

    /// A plan for tracks with these lines; the flag says whether a track is up to date.
    fn plan(tracks: &[(&str, bool)], from_files: bool) -> SharingPlan {
        let lines: Vec<Vec<Hash>> = tracks
            .iter()
            .map(|(names, _)| names.bytes().map(hash).collect())
            .collect();
        let tracks: Vec<Sounding<'_>> = tracks
            .iter()
            .zip(&lines)
            .map(|((names, there), lines)| Sounding {
                whole: blake3::hash(names.as_bytes()),
                lines,
                there: *there,
            })
            .collect();
        SharingPlan::new(&tracks, from_files)
    }

    fn taken(names: &str) -> Vec<Hash> {
        let mut hashes: Vec<Hash> = names.bytes().map(hash).collect();
        hashes.sort_by_key(|hash| *hash.as_bytes());
        hashes
    }

    #[test]
    fn every_line_is_made_once_and_copied_later() {
        let tracks = ["abc", "abc", "axc", "def", "xye", ""].map(|names| (names, false));
        let plan = plan(&tracks, true);
        let like: Vec<Vec<usize>> = plan.copies.iter().map(|c| c.like.clone()).collect();
        assert_eq!(like, [vec![], vec![0], vec![0], vec![], vec![2, 3], vec![]]);
        for copies in &plan.copies {
            assert_eq!(copies.after, copies.like);
            assert!(copies.shelf_lines.is_empty());
        }
        let twins: Vec<Option<usize>> = plan.copies.iter().map(|c| c.twin).collect();
        assert_eq!(twins, [None, Some(0), None, None, None, None]);
        assert!(plan.shelved.is_empty());
    }

    #[test]
    fn without_files_to_copy_from_lines_are_shelved_for_those_that_are_no_twins() {
        let tracks = ["abc", "abc", "axc", "axx"].map(|names| (names, false));
        let plan = plan(&tracks, false);
        let of = |twin, after: &[usize], shelf_lines: &str| Copies {
            twin,
            like: vec![],
            after: after.to_vec(),
            shelf_lines: taken(shelf_lines),
        };
        assert_eq!(
            plan.copies,
            [
                of(None, &[], ""),
                of(Some(0), &[0], ""),
                of(None, &[0], "ac"),
                of(None, &[0, 2], "ax"),
            ]
        );
        let shelved = HashMap::from([(hash(b'a'), 2), (hash(b'c'), 1), (hash(b'x'), 1)]);
        assert_eq!(plan.shelved, shelved);
    }

    #[test]
    fn what_is_there_is_copied_without_waiting() {
        let tracks = [("abx", false), ("abc", false), ("abc", true)];
        let with_files = plan(&tracks, true);
        assert_eq!(with_files.copies[0].like, [2]);
        assert_eq!(with_files.copies[0].after, [0; 0]);
        let without = plan(&tracks, false);
        assert_eq!(
            without.copies[0],
            Copies::default(),
            "nothing to read lines from"
        );
        let twin = Copies {
            twin: Some(2),
            ..Copies::default()
        };
        assert_eq!(without.copies[1], twin);
        assert_eq!(without.copies[2], Copies::default());
    }
}
