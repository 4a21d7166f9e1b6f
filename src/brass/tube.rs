//! Lengths of tube, by what the player does for them: valves, a slide's position, a thumb.

use std::fmt;

/// How a player makes a length of tube: which valves are pressed, or in which position the slide stands, and what the thumb
/// does. What it means in half steps is the instrument's: `2` is the second valve of a trumpet and the second position of a
/// trombone.
///
/// Written `0`, `2`, `1-2`, `2-4` for valves; `4` and `2+` (a little shorter than the second position) for a slide; `T1` for
/// the first position with the attachment; `T12` for valves 1 and 2 on the B-flat side of a horn, `T0` for that side open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Tube(u16);

/// The highest number: the seventh position of a slide.
const MOST: u8 = 7;
const RAISED: u16 = 1 << 7;
const THUMB: u16 = 1 << 8;

impl Tube {
    /// Nothing pressed.
    pub const OPEN: Tube = Tube(0);

    /// The valves or the position with these numbers, each 1–7.
    pub const fn of(numbers: &[u8]) -> Tube {
        let mut bits = 0;
        let mut i = 0;
        while i < numbers.len() {
            bits |= 1 << (numbers[i] - 1);
            i += 1;
        }
        Tube(bits)
    }

    /// The same with the slide a little shorter, for the flat seventh partial.
    pub const fn raised(self) -> Tube {
        Tube(self.0 | RAISED)
    }

    /// The same with the thumb.
    pub const fn with_thumb(self) -> Tube {
        Tube(self.0 | THUMB)
    }

    /// Reads `0`, `2`, `1-3`, `2+`, `T1`, `T12` and `T1-2`: rising numbers, joined by hyphens where there is no thumb.
    pub fn parse(text: &str) -> Option<Self> {
        let (thumb, rest) = match text.strip_prefix('T') {
            Some(rest) => (THUMB, rest),
            None => (0, text),
        };
        let (raised, rest) = match rest.strip_suffix('+') {
            Some(rest) => (RAISED, rest),
            None => (0, rest),
        };
        let open = rest == "0" || (rest.is_empty() && thumb > 0);
        let numbers = if open {
            vec![]
        } else {
            numbers(rest, thumb > 0)?
        };
        if raised > 0 && numbers.len() != 1 {
            return None;
        }
        Some(Tube(Tube::of(&numbers).0 | thumb | raised))
    }

    /// Numbers of the pressed valves, or of the position, in rising order.
    pub fn numbers(self) -> impl Iterator<Item = u8> {
        (1..=MOST).filter(move |n| self.0 & (1 << (n - 1)) != 0)
    }

    /// True if nothing is pressed.
    pub fn is_open(self) -> bool {
        self.0 == 0
    }

    /// True if the thumb takes part.
    pub fn has_thumb(self) -> bool {
        self.0 & THUMB != 0
    }

    /// True for a slide that stands a little shorter than its position.
    pub fn is_raised(self) -> bool {
        self.0 & RAISED != 0
    }

    /// One bit for each number, 1 in the lowest, then one for a raised slide and one for the thumb.
    pub fn bits(self) -> u16 {
        self.0
    }
}

/// Rising numbers from 1 to 7: `1-2`, and `12` where they may stand together.
fn numbers(text: &str, together: bool) -> Option<Vec<u8>> {
    let digit = |text: &str| match text.as_bytes() {
        [digit @ b'1'..=b'7'] => Some(digit - b'0'),
        _ => None,
    };
    let numbers: Option<Vec<u8>> = if together && !text.contains('-') {
        text.chars().map(|c| digit(&c.to_string())).collect()
    } else {
        text.split('-').map(digit).collect()
    };
    numbers.filter(|n| n.is_sorted_by(|a, b| a < b))
}

impl fmt::Display for Tube {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let thumb = self.has_thumb();
        if thumb {
            f.write_str("T")?;
        }
        let numbers: Vec<String> = self.numbers().map(|n| n.to_string()).collect();
        if numbers.is_empty() {
            f.write_str("0")?;
        }
        f.write_str(&numbers.join(if thumb { "" } else { "-" }))?;
        if self.is_raised() {
            f.write_str("+")?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tubes_print_as_they_are_read() {
        for text in [
            "0", "2", "1", "1-2", "3", "2-3", "1-3", "1-2-3", "4", "2-4", "1-2-3-4", "7", "2+",
            "T0", "T1", "T12", "T123", "T7",
        ] {
            assert_eq!(Tube::parse(text).unwrap().to_string(), text);
        }
        for (text, read) in [("T", "T0"), ("T1-2", "T12"), ("T0", "T0")] {
            assert_eq!(Tube::parse(text).unwrap().to_string(), read);
        }
        for text in [
            "", "8", "2-1", "12", "1-", "0-1", "1-1", "T21", "+", "1-2+", "t1", "T8", "0+", "-",
        ] {
            assert_eq!(Tube::parse(text), None, "{text}");
        }
    }

    #[test]
    fn a_thumb_and_a_raised_slide_make_another_tube() {
        let two = Tube::of(&[2]);
        assert_ne!(two, two.raised());
        assert_ne!(Tube::OPEN, Tube::OPEN.with_thumb());
        assert!(!Tube::OPEN.with_thumb().is_open());
        assert_eq!(two.raised().numbers().collect::<Vec<_>>(), [2]);
    }
}
