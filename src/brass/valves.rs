//! Valve combinations, and how much tube they add.

use std::fmt;

/// Which of three valves are pressed. The open horn is the empty set, written `0`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Valves(u8);

impl Valves {
    /// No valve pressed.
    pub const OPEN: Valves = Valves(0);

    /// Every combination, shortest tube first. 1-2 and 3 have the same length; 1-2 comes first, because 3 is
    /// only an alternate.
    pub const ALL: [Valves; 8] = [
        Valves(0b000),
        Valves(0b010),
        Valves(0b001),
        Valves(0b011),
        Valves(0b100),
        Valves(0b110),
        Valves(0b101),
        Valves(0b111),
    ];

    /// The combination of these valves, each 1–3.
    pub const fn of(numbers: &[u8]) -> Valves {
        let mut bits = 0;
        let mut i = 0;
        while i < numbers.len() {
            bits |= 1 << (numbers[i] - 1);
            i += 1;
        }
        Valves(bits)
    }

    /// Reads `0`, `2`, `1-3`, `1-2-3`: rising numbers separated by hyphens.
    pub fn parse(text: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|v| v.to_string() == text)
    }

    /// Numbers of the pressed valves, 1–3, in rising order.
    pub fn numbers(self) -> impl Iterator<Item = u8> {
        (1..=3u8).filter(move |n| self.0 & (1 << (n - 1)) != 0)
    }

    /// Where one plays with it, in a sentence: "on 1-3", "on the open horn".
    pub fn on_horn(self) -> String {
        if self.is_open() {
            "on the open horn".to_owned()
        } else {
            format!("on {self}")
        }
    }

    /// True if no valve is pressed.
    pub fn is_open(self) -> bool {
        self.0 == 0
    }

    /// One bit for each valve, valve 1 in the lowest.
    pub fn bits(self) -> u8 {
        self.0
    }
}

impl fmt::Display for Valves {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_open() {
            return f.write_str("0");
        }
        let numbers: Vec<String> = self.numbers().map(|n| n.to_string()).collect();
        f.write_str(&numbers.join("-"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn combinations_print_as_they_are_read() {
        for valves in Valves::ALL {
            assert_eq!(Valves::parse(&valves.to_string()), Some(valves));
        }
        for text in ["", "4", "2-1", "12", "1-", "0-1", "1-1"] {
            assert_eq!(Valves::parse(text), None, "{text}");
        }
    }
}
