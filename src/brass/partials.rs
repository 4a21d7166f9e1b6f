//! The harmonic series of each length of tube, and its distance from equal temperament.

use super::{instrument::Instrument, tube::Tube};
use crate::music::WrittenPitch;

/// The partial that a slide can put in tune and valves cannot: 31 cents below the nearest note.
const SEVENTH: u8 = 7;

/// Partials so far from the nearest note that no tube is chosen for them: 49 cents flat, 41 sharp, 31 flat, and the
/// fifteenth, beside which the sixteenth lies on another tube.
const OUT_OF_TUNE: [u8; 5] = [SEVENTH, 11, 13, 14, 15];

/// Half steps of partial `n` above the second, to the nearest half step: 12·log2(n/2), rounded.
fn half_steps_above_second(n: u8) -> i32 {
    libm::round(12.0 * libm::log2(f64::from(n) / 2.0)) as i32
}

/// Cents of partial `n` from the nearest note of equal temperament, the second partial in tune.
pub fn cents(n: u8) -> f64 {
    1200.0 * libm::log2(f64::from(n) / 2.0) - 100.0 * f64::from(half_steps_above_second(n))
}

/// The written pitch of partial `n` on a tube, spelt as in the fingering chart.
/// `n` is at least 1. A partial that lies between two notes is given the name of the nearest one.
pub fn written(instrument: &Instrument, tube: Tube, n: u8) -> WrittenPitch {
    let number = instrument.second_partial.number() + half_steps_above_second(n)
        - instrument.tube_half_steps(tube);
    WrittenPitch::from_number(number)
}

/// All supported partials of a tube with their pitches, from the lowest upwards: the first only where it is a pedal tone,
/// and on a raised slide only the seventh.
pub fn of_tube(
    instrument: &Instrument,
    tube: Tube,
) -> impl Iterator<Item = (u8, WrittenPitch)> + '_ {
    let pedal = !tube.has_thumb() && instrument.tube_half_steps(tube) < instrument.pedals;
    let supported = move |n: &u8| match *n {
        1 => pedal && !tube.is_raised(),
        n => !tube.is_raised() || n == SEVENTH,
    };
    (1..=instrument.highest_partial)
        .filter(supported)
        .map(move |n| (n, written(instrument, tube, n)))
}

/// The notes of a tube that are in tune on it, with their partials.
pub fn usable(
    instrument: &Instrument,
    tube: Tube,
) -> impl Iterator<Item = (u8, WrittenPitch)> + '_ {
    of_tube(instrument, tube).filter(move |(n, _)| in_tune(tube, *n))
}

/// The partial of this tube that sounds the written pitch, in tune or not.
pub fn on_tube(instrument: &Instrument, tube: Tube, pitch: WrittenPitch) -> Option<u8> {
    of_tube(instrument, tube)
        .find(|(_, p)| p.number() == pitch.number())
        .map(|(n, _)| n)
}

/// True if partial `n` can be played in tune on this tube: a slide puts the seventh right where it is raised for it.
pub fn in_tune(tube: Tube, n: u8) -> bool {
    !OUT_OF_TUNE.contains(&n) || (tube.is_raised() && n == SEVENTH)
}

/// The next partial above `n` that valves play in tune.
pub fn next_in_tune(n: u8) -> u8 {
    let above = (n + 1..).find(|n| !OUT_OF_TUNE.contains(n));
    above.unwrap_or(n)
}

/// How sharp a combination of valves is in cents, if each valve alone is exact: a valve adds the length
/// that the open horn needs, and a horn made longer by another valve needs more. A slide has no combinations, and
/// compensation is left out.
///
/// With valves of 1 and 2 half steps the sum of lengths is 1 + Σ(2^(h/12) − 1).
pub fn combination_cents(instrument: &Instrument, tube: Tube) -> f64 {
    if instrument.has_slide() {
        return 0.0;
    }
    const VALVES: [i32; 4] = [2, 1, 3, 5];
    let valves = || tube.numbers().map(|n| VALVES[usize::from(n) - 1]);
    let half_steps: i32 = valves().sum();
    let added: f64 = valves()
        .map(|h| libm::exp2(f64::from(h) / 12.0) - 1.0)
        .sum();
    100.0 * f64::from(half_steps) - 1200.0 * libm::log2(1.0 + added)
}
