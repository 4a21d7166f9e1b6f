//! The measuring code itself, against signals whose properties are known by construction.

mod measure;

use measure::*;
use std::f64::consts::TAU;

fn sines(rate: f64, seconds: f64, parts: &[(f64, f64)]) -> Vec<f32> {
    (0..(rate * seconds) as usize)
        .map(|i| {
            let t = i as f64 / rate;
            parts
                .iter()
                .map(|(hz, a)| a * (TAU * hz * t + 0.3).sin())
                .sum::<f64>() as f32
        })
        .collect()
}

#[test]
fn pitch_is_read_to_a_fiftieth_of_a_cent() {
    for near in [82.4, 164.8, 440.0, 1046.5] {
        for off in [-30.0, -1.0, 0.0, 0.1, 7.3, 30.0] {
            let hz: f64 = near * f64::exp2(off / 1200.0);
            let x = sines(
                44_100.0,
                0.8,
                &[(hz, 0.2), (2.0 * hz, 0.4), (3.0 * hz, 0.3)],
            );
            assert!(
                (cents(near, pitch(&x, 44_100.0, near)) - off).abs() < 0.02,
                "{near} {off}"
            );
        }
    }
}

#[test]
fn levels_and_stray_components_are_read() {
    let x = sines(
        48_000.0,
        1.365_333_4,
        &[(440.0, 0.5), (880.0, 0.25), (1000.0, 0.5e-4)],
    );
    assert_eq!(x.len(), 65_536);
    let p = partials(&x, 48_000.0, 440.0, 4);
    // A line between two bins reads up to 0.83 dB low (Harris 1978).
    assert!((0.0..0.84).contains(&-db(p[0] / 0.5)) && (0.0..0.84).contains(&-db(p[1] / 0.25)));
    assert!((inharmonic_db(&x, 48_000.0, 440.0) + 80.0).abs() < 0.9);
    let clean = sines(48_000.0, 1.365_333_4, &[(440.0, 0.5), (880.0, 0.25)]);
    assert!(inharmonic_db(&clean, 48_000.0, 440.0) < -90.0);
    assert!((rms(&x) - (0.125f64 + 0.03125).sqrt()).abs() < 1e-3);
    assert!(share_between(&x, 48_000.0, 800.0, 1000.0) > 0.19);
    // White noise 30 dB below two partials; of its power 9/24 lies below 9 kHz.
    let mut state = 1u64;
    let noisy: Vec<f32> = sines(48_000.0, 2.0, &[(440.0, 0.5), (880.0, 0.25)])
        .into_iter()
        .map(|x| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let even = (state >> 40) as f32 / (1 << 23) as f32 - 1.0;
            x + 0.02165 * even
        })
        .collect();
    let ratio = harmonics_over_noise_db(&noisy, 48_000.0, 440.0);
    assert!((ratio - 30.0 - 4.26).abs() < 0.7, "{ratio}");
}
