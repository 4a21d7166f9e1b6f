//! Lengths: of notes, of groups, of the unit.

use crate::exchange::piece::on_grid;
use crate::music::Whole;

/// A multiplier after a note: `3`, `/2`, `3/2`, `/`, `//`. The rest of the text, and over and under.
pub(super) fn multiplier(text: &str) -> (&str, i128, i128) {
    let (rest, over) = number(text);
    let over = over.unwrap_or(1);
    let slashes = rest.len() - rest.trim_start_matches('/').len();
    let (after, under) = number(&rest[slashes..]);
    let under = match (slashes, under) {
        (0, _) => return (rest, over, 1),
        (1, Some(under)) => under,
        // Each slash halves, and so does the last with a number after it divide.
        (n, under) => {
            let halves = n - usize::from(under.is_some());
            under.unwrap_or(1).saturating_mul(1 << halves.min(16))
        }
    };
    (after, over, under.max(1))
}

/// A number of at most five digits; more say nothing in music.
pub(super) fn number(text: &str) -> (&str, Option<i128>) {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    let digits = &text[..end.min(5)];
    (&text[end..], digits.parse().ok())
}

/// `over/under` of whole notes.
pub(super) fn fraction(text: &str) -> Option<Whole> {
    let (over, under) = text.trim().split_once('/')?;
    let (over, under) = (over.trim().parse().ok()?, under.trim().parse().ok()?);
    let fits = (1..=4096).contains(&over) && (1..=4096).contains(&under);
    fits.then(|| on_grid(over, under))?
}

/// How the next notes of a group are shortened.
#[derive(Clone, Copy, Debug)]
pub(super) struct Group {
    pub over: i128,
    pub under: i128,
    /// How many of its notes are to come.
    pub left: i128,
}

impl Group {
    /// `(3`, `(3:2`, `(3:2:3` after the bracket: so many notes in the time of so many, for the next so many. The rest of
    /// the text.
    pub fn of(text: &str, compound: bool) -> Option<(&str, Self)> {
        let (rest, notes) = number(text);
        let notes = notes.filter(|notes| (2..=64).contains(notes))?;
        let more = |text: &'_ str| -> (usize, Option<i128>) {
            match text.strip_prefix(':') {
                Some(after) => {
                    let (rest, number) = number(after);
                    (text.len() - rest.len(), number)
                }
                None => (0, None),
            }
        };
        let (taken, time) = more(rest);
        let rest = &rest[taken..];
        let (taken, count) = more(rest);
        let rest = &rest[taken..];
        let time = time.filter(|time| *time > 0).unwrap_or(match notes {
            3 | 6 => 2,
            2 | 4 | 8 => 3,
            _ if compound => 3,
            _ => 2,
        });
        let left = count.filter(|count| *count > 0).unwrap_or(notes);
        Some((
            rest,
            Self {
                over: time,
                under: notes,
                left,
            },
        ))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn multipliers() {
        for (text, wanted) in [
            ("3 ", (" ", 3, 1)),
            ("/2a", ("a", 1, 2)),
            ("3/2", ("", 3, 2)),
            ("/", ("", 1, 2)),
            ("//", ("", 1, 4)),
            ("a", ("a", 1, 1)),
        ] {
            assert_eq!(multiplier(text), wanted, "{text}");
        }
    }

    #[test]
    fn groups() {
        let of = |text, compound| {
            let (_, group) = Group::of(text, compound).unwrap();
            (group.under, group.over, group.left)
        };
        assert_eq!(of("3abc", false), (3, 2, 3));
        assert_eq!(of("2ab", true), (2, 3, 2));
        assert_eq!(of("5:4:5a", true), (5, 4, 5));
        assert_eq!(of("3::2ab", false), (3, 2, 2));
        assert_eq!(of("7a", true), (7, 3, 7));
        assert!(Group::of("ab", false).is_none());
    }
}
