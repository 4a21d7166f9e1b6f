//! Part of a class, for one of several machines.

/// Every n-th player: `2/5` is the 2nd, 7th, 12th … of the list.
///
/// Split by position in the list, so that the sizes of the parts differ by at most one, whatever the names. A
/// player is in one part only, so no two parts write the same file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shard {
    part: usize,
    of: usize,
}

/// The maximum number of parts, one for each player.
pub const MOST_PARTS: usize = super::bounds::MOST_PLAYERS;

impl Shard {
    /// Reads `2/5`.
    pub fn parse(text: &str) -> Option<Self> {
        let (part, of) = text.trim().split_once('/')?;
        let number = |text: &str| {
            let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
            digits.then(|| text.parse().ok()).flatten()
        };
        let (part, of): (usize, usize) = (number(part)?, number(of)?);
        ((1..=MOST_PARTS).contains(&of) && (1..=of).contains(&part)).then_some(Self { part, of })
    }

    /// True if the part includes the player at this index of the list, from 0.
    pub fn holds(self, index: usize) -> bool {
        index % self.of == self.part - 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_are_all_of_a_list_and_share_nobody() {
        let parts: Vec<Shard> = (1..=5)
            .map(|n| Shard::parse(&format!("{n}/5")).unwrap())
            .collect();
        for index in 0..43 {
            assert_eq!(parts.iter().filter(|p| p.holds(index)).count(), 1);
        }
        for text in [
            "", "1", "0/5", "6/5", "1/0", "1/1001", "-1/5", "1/5/2", "a/b",
        ] {
            assert_eq!(Shard::parse(text), None, "{text}");
        }
    }
}
