//! Pure intervals, and how fast equal-tempered ones beat against a drone.

use crate::{near, written};
use leadpipe::music::{Tuning, interval};

/// Half steps, ratio, pure minus equal in cents (computed: 1200·log2(p/q) − 100·h).
const PURE: [(u8, (u32, u32), f64); 10] = [
    (1, (16, 15), 11.73),
    (2, (9, 8), 3.91),
    (3, (6, 5), 15.64),
    (4, (5, 4), -13.69),
    (5, (4, 3), -1.96),
    (7, (3, 2), 1.96),
    (8, (8, 5), 13.69),
    (9, (5, 3), -15.64),
    (10, (16, 9), -3.91),
    (11, (15, 8), -11.73),
];

/// Over a drone on Bb3 = 233.082 Hz, beats a second of equal-tempered intervals (computed:
/// |q·f_note − p·f_drone|).
const BEATS: [(u8, (u32, u32), f64); 4] = [
    (7, (3, 2), 0.789),
    (4, (5, 4), 9.250),
    (3, (6, 5), 12.578),
    (5, (4, 3), 1.053),
];

#[test]
fn pure_intervals_lie_where_their_ratios_put_them() {
    for (half_steps, (p, q), cents) in PURE {
        assert_eq!(interval::just_ratio(half_steps), (p, q));
        let pure = interval::cents(f64::from(p), f64::from(q));
        near(pure - 100.0 * f64::from(half_steps), cents, 0.006);
    }
    // The seventh of the harmonic series is another one than 16/9.
    near(interval::cents(7.0, 4.0) - 1000.0, -31.17, 0.006);
    assert_eq!(interval::just_ratio(0), (1, 1));
    assert_eq!(interval::just_ratio(12), (1, 1));
}

#[test]
fn equal_tempered_intervals_beat_over_b_flat_3() {
    let drone = written("Bb3").sounding(0);
    let hz = |half_steps: i32| Tuning::ISO_16.hz(drone.moved(half_steps));
    for (half_steps, ratio, beats) in BEATS {
        let found = interval::beats_hz(hz(i32::from(half_steps)), hz(0), ratio);
        near(found, beats, 0.0006);
    }
}

/// A unison five cents off beats at 0.674 Hz on Bb3 (computed).
#[test]
fn a_unison_five_cents_off_beats_slowly() {
    let drone = Tuning::ISO_16.hz(written("Bb3").sounding(0));
    let note = drone * libm::exp2(5.0 / 1200.0);
    near(interval::beats_hz(note, drone, (1, 1)), 0.674, 0.0006);
}
