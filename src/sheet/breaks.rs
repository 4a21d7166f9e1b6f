//! Where lines of music break: at bars, evenly, and between passes rather than inside one.

/// A bar as breaking sees it.
#[derive(Clone, Copy, Debug)]
pub struct Width {
    /// Its least width.
    pub least: f64,
    /// The width its values ask for.
    pub natural: f64,
    /// True if a pass ends with it.
    pub closes_pass: bool,
}

/// Cost of a break inside a pass, in units of the square of the part of a line that is stretched.
const INSIDE_PASS: f64 = 0.12;
/// Cost of every system, so that there are few.
const SYSTEM: f64 = 0.25;

/// Breaks bars into systems: the number of bars of each. `room` is the width for bars in the first
/// system and in the others. A bar that is wider than its room stands alone.
pub fn systems(bars: &[Width], room: (f64, f64)) -> Vec<usize> {
    // best[i]: cost of everything from bar i on, and how many bars the first system of it takes.
    let mut best: Vec<(f64, usize)> = vec![(0.0, 0); bars.len() + 1];
    for from in (0..bars.len()).rev() {
        let room = if from == 0 { room.0 } else { room.1 };
        let (mut least, mut natural) = (0.0, 0.0);
        let mut found: Option<(f64, usize)> = None;
        for (index, bar) in bars.iter().enumerate().skip(from) {
            least += bar.least;
            natural += bar.natural;
            if least > room && index > from {
                break;
            }
            let last = index + 1 == bars.len();
            let off = (room - natural) / room;
            // The last system may be short without cost; compressing any system has a cost.
            let uneven = if last && off > 0.0 { 0.0 } else { off * off };
            let inside = if bar.closes_pass || last {
                0.0
            } else {
                INSIDE_PASS
            };
            let cost = uneven + inside + SYSTEM + best[index + 1].0;
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
            least: natural * 0.7,
            natural,
            closes_pass,
        };
        widths.iter().map(bar).collect()
    }

    #[test]
    fn what_fits_is_one_system() {
        assert_eq!(
            systems(&bars(&[(20.0, false), (20.0, true)]), (90.0, 95.0)),
            [2]
        );
    }

    #[test]
    fn systems_are_even_and_break_between_passes() {
        let six = [(22.0, false), (22.0, true)].repeat(3);
        assert_eq!(systems(&bars(&six), (90.0, 95.0)), [4, 2]);
        let wide = [(200.0, false), (10.0, true)];
        assert_eq!(systems(&bars(&wide), (90.0, 95.0)), [1, 1]);
    }
}
