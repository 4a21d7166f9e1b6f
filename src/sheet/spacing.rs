//! The distances between notes: by value, and never so small that anything touches.

use crate::music::Whole;
use crate::notation::written::WrittenSymbol;

/// The room around one symbol, in staff spaces from the left edge of its head.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Extent {
    /// What sticks out to the left: accidentals, ledger lines.
    pub left: f64,
    /// What sticks out to the right: head, dot, flag.
    pub right: f64,
    /// Left and right edge of its fingering.
    pub fingering: Option<(f64, f64)>,
    /// A breath mark stands after it.
    pub breath: bool,
}

/// The distances of one bar: from its bar line to the first symbol, from symbol to symbol, from the last
/// one to the next bar line.
#[derive(Clone, Debug, PartialEq)]
pub struct Distances {
    /// The distances that suit the values.
    pub natural: Vec<f64>,
    /// The least that keeps things apart.
    pub least: Vec<f64>,
}

/// The least part of its natural distances to which music is pressed: below it, groups of notes are no longer read at a glance.
pub const FLOOR: f64 = 0.85;

const SHORTEST: f64 = 2.1;
/// How much wider a note of double the length stands.
const GROWTH: f64 = 1.36;
const APART: f64 = 0.4;
/// How much more there is between things that are not pressed.
const AT_EASE: f64 = 0.4;
/// The least between two fingerings.
pub const FINGERINGS_APART: f64 = 0.6;
const AFTER_BAR_LINE: f64 = 0.9;
const BREATH: f64 = 1.3;

/// The distance that a length asks for: 2.1 spaces a sixteenth, about a third more each time it doubles.
fn natural(length: Whole) -> f64 {
    let sixteenths = 16.0 * *length.numer() as f64 / *length.denom() as f64;
    SHORTEST * libm::pow(GROWTH, libm::log2(sixteenths))
}

/// The distances of a bar, or of a part of one.
pub fn of_bar(symbols: &[WrittenSymbol], extents: &[Extent]) -> Distances {
    let mut distances = Distances {
        natural: vec![],
        least: vec![],
    };
    // Where the last fingering ended, from the first symbol on, at the least distances.
    let mut at = 0.0;
    let mut fingered_to = f64::NEG_INFINITY;
    for (index, extent) in extents.iter().enumerate() {
        let (wish, mut least) = match index.checked_sub(1) {
            None => {
                let first = AFTER_BAR_LINE + extent.left;
                (first, first)
            }
            Some(before) => {
                let breath = if extents[before].breath { BREATH } else { 0.0 };
                let least = extents[before].right + APART + extent.left + breath;
                (natural(symbols[before].length).max(least + AT_EASE), least)
            }
        };
        if let Some((left, right)) = extent.fingering {
            let short = fingered_to + FINGERINGS_APART - (at + least + left);
            least += short.max(0.0);
            fingered_to = at + least + right;
        }
        at += least;
        distances.natural.push(wish.max(least));
        distances.least.push(least);
    }
    if let (Some(symbol), Some(extent)) = (symbols.last(), extents.last()) {
        let breath = if extent.breath { BREATH } else { 0.0 };
        let fingered = extent
            .fingering
            .map_or(0.0, |f| f.1 + FINGERINGS_APART / 2.0);
        let least = (extent.right + 0.7 + breath).max(fingered);
        distances.natural.push(natural(symbol.length).max(least));
        distances.least.push(least);
    }
    distances
}

impl Distances {
    /// The width pressed as far as it may be.
    pub fn pressed_width(&self) -> f64 {
        stretched_width(self, FLOOR)
    }

    /// Room for the bar line at its end, which stands inside the last distance.
    pub fn make_room_for_bar_line(&mut self, width: f64) {
        let last = [self.natural.last_mut(), self.least.last_mut()];
        for distance in last.into_iter().flatten() {
            *distance += width;
        }
    }

    /// The width asked for.
    pub fn natural_width(&self) -> f64 {
        self.natural.iter().sum()
    }
}

/// By how much all natural distances must be stretched or pressed together so that bars fill `width`;
/// distances at their least give no more.
pub fn stretch_to(bars: &[&Distances], width: f64) -> f64 {
    let at = |factor: f64| -> f64 { bars.iter().map(|bar| stretched_width(bar, factor)).sum() };
    let (mut low, mut high) = (0.0, 1.0);
    while at(high) < width && high < 1024.0 {
        high *= 2.0;
    }
    // Sixty halvings leave an error of less than a thousandth of a line's width.
    for _ in 0..60 {
        let middle = (low + high) / 2.0;
        if at(middle) < width {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

fn stretched_width(bar: &Distances, factor: f64) -> f64 {
    stretched(bar, factor).sum()
}

/// The distances of a bar at a stretch. The first one, after the bar line, keeps its size.
pub fn stretched(bar: &Distances, factor: f64) -> impl Iterator<Item = f64> + '_ {
    let pairs = bar.natural.iter().zip(&bar.least).enumerate();
    pairs.map(move |(index, (natural, least))| {
        if index == 0 {
            *natural
        } else {
            (natural * factor).max(*least)
        }
    })
}
