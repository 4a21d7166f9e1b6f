//! The harmonic series of each length of tube, and its distance from equal temperament.

use super::{instrument::Instrument, valves::Valves};
use crate::music::WrittenPitch;

/// Half steps of partial `n` above the second, to the nearest half step: 12·log2(n/2), rounded.
fn half_steps_above_second(n: u8) -> i32 {
    libm::round(12.0 * libm::log2(f64::from(n) / 2.0)) as i32
}

/// Cents of partial `n` from the nearest note of equal temperament, the second partial in tune.
pub fn cents(n: u8) -> f64 {
    1200.0 * libm::log2(f64::from(n) / 2.0) - 100.0 * f64::from(half_steps_above_second(n))
}

/// The written pitch of partial `n` on a tube, spelt as in the fingering chart.
/// `n` is at least 2. Partial 7 is given the name of the nearest note.
pub fn written(instrument: &Instrument, valves: Valves, n: u8) -> WrittenPitch {
    let number = instrument.second_partial.number() + half_steps_above_second(n)
        - instrument.tube_half_steps(valves);
    WrittenPitch::from_number(number)
}

/// All supported partials of a tube with their pitches, from the second upwards.
pub fn of_tube(
    instrument: &Instrument,
    valves: Valves,
) -> impl Iterator<Item = (u8, WrittenPitch)> + '_ {
    (2..=instrument.highest_partial).map(move |n| (n, written(instrument, valves, n)))
}

/// The partial of this tube that sounds the written pitch, partial 7 included.
pub fn on_tube(instrument: &Instrument, valves: Valves, pitch: WrittenPitch) -> Option<u8> {
    of_tube(instrument, valves)
        .find(|(_, p)| p.number() == pitch.number())
        .map(|(n, _)| n)
}

/// How sharp a combination of valves is in cents, if each valve alone is exact: a valve adds the length
/// that the open horn needs, and a horn made longer by another valve needs more.
///
/// With valves of 1 and 2 half steps the sum of lengths is 1 + Σ(2^(h/12) − 1).
pub fn combination_cents(instrument: &Instrument, valves: Valves) -> f64 {
    let added: f64 = valves
        .numbers()
        .map(|n| {
            let half_steps = f64::from(instrument.valve_half_steps[usize::from(n) - 1]);
            libm::exp2(half_steps / 12.0) - 1.0
        })
        .sum();
    100.0 * f64::from(instrument.tube_half_steps(valves)) - 1200.0 * libm::log2(1.0 + added)
}
