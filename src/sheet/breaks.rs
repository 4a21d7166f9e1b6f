//! Where lines of music break: at bars, evenly, and between passes rather than inside one.

use super::sizes::Sizes;

/// A bar as breaking sees it.
#[derive(Clone, Copy, Debug)]
pub struct Width {
    /// Its width pressed as far as it may be.
    pub pressed: f64,
    /// The width its values ask for.
    pub natural: f64,
    /// True if a pass ends with it.
    pub closes_pass: bool,
}

/// Cost of a break inside a pass, in units of the square of the part of a line that is stretched.
const INSIDE_PASS: f64 = 0.25;
/// How much more pressing costs than stretching: one system more costs less than pressing as far as may be.
const PRESSING: f64 = 12.0;
/// What a short last system costs of what another would.
const SHORT_END: f64 = 0.5;
/// Cost of every system, so that there are few.
const SYSTEM: f64 = 0.25;
/// The same where pages are few.
const TIGHT_SYSTEM: f64 = 2.0;

/// Breaks bars into systems: the number of bars of each. `room` is the width for bars in the first
/// system and in the others. A bar that is wider than its room stands alone.
pub fn systems(bars: &[Width], room: (f64, f64), sizes: &Sizes) -> Vec<usize> {
    let system = if sizes.tight { TIGHT_SYSTEM } else { SYSTEM };
    // best[i]: cost of everything from bar i on, and how many bars the first system of it takes.
    let mut best: Vec<(f64, usize)> = vec![(0.0, 0); bars.len() + 1];
    for from in (0..bars.len()).rev() {
        let room = if from == 0 { room.0 } else { room.1 };
        let (mut pressed, mut natural) = (0.0, 0.0);
        let mut found: Option<(f64, usize)> = None;
        for (index, bar) in bars.iter().enumerate().skip(from) {
            pressed += bar.pressed;
            natural += bar.natural;
            if pressed > room && index > from {
                break;
            }
            let last = index + 1 == bars.len();
            let off = (room - natural) / room;
            // The last system may be short at little cost; pressing any system has one.
            let uneven = match off < 0.0 {
                true => PRESSING * off * off,
                // A line that fits one system is as wide as it is.
                false if last && from == 0 => 0.0,
                false if last => SHORT_END * sizes.evenness * off * off,
                false => sizes.evenness * off * off,
            };
            let inside = if bar.closes_pass || last {
                0.0
            } else {
                INSIDE_PASS
            };
            let cost = uneven + inside + system + best[index + 1].0;
            if found.is_none_or(|(other, _)| cost < other) {
                found = Some((cost, index + 1 - from));
            }
        }
        best[from] = found.unwrap_or((0.0, 1));
    }
    let mut systems = vec![];
    let mut from = 0;
    while from < bars.len() {
        systems.push(best[from].1);
        from += best[from].1;
    }
    systems
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bars(widths: &[(f64, bool)]) -> Vec<Width> {
        let bar = |&(natural, closes_pass): &(f64, bool)| Width {
            pressed: natural * 0.85,
            natural,
            closes_pass,
        };
        widths.iter().map(bar).collect()
    }

    fn broken(widths: &[(f64, bool)], room: (f64, f64)) -> Vec<usize> {
        systems(&bars(widths), room, &Sizes::NORMAL)
    }

    #[test]
    fn what_fits_is_one_system() {
        assert_eq!(broken(&[(20.0, false), (20.0, true)], (90.0, 95.0)), [2]);
    }

    #[test]
    fn pressing_costs_more_than_stretching() {
        // Four bars would have to be pressed by a seventh; three are stretched by as much.
        let eight = [(26.0, true)].repeat(8);
        assert_eq!(broken(&eight, (90.0, 90.0)), [3, 3, 2]);
        // Nothing is pressed further than it may be, even if that saves a system.
        let five = [(22.0, true)].repeat(5);
        assert_eq!(broken(&five, (90.0, 90.0)), [3, 2]);
    }

    #[test]
    fn systems_are_even_and_break_between_passes() {
        let six = [(22.0, false), (22.0, true)].repeat(3);
        assert_eq!(broken(&six, (90.0, 95.0)), [4, 2]);
        // Not four and one.
        let five = [(11.0, false), (11.0, true)].repeat(5);
        assert_eq!(broken(&five, (90.0, 95.0)), [6, 4]);
        let wide = [(200.0, false), (10.0, true)];
        assert_eq!(broken(&wide, (90.0, 95.0)), [1, 1]);
    }
}
