//! The loudness meter that other tests read, against the signals of its own standards.

use crate::near;

/// A stereo sine of 1 kHz: pairs of level in dBFS (peak) and seconds, one after the other, at 48 kHz; what
/// the meter reads over all of it, in LUFS.
fn reads(steps: &[(f64, f64)]) -> f64 {
    const RATE: u32 = 48_000;
    let mut meter = ebur128::EbuR128::new(2, RATE, ebur128::Mode::I).unwrap();
    let mut frame = 0u64;
    for (level, seconds) in steps {
        let amplitude = 10f64.powf(level / 20.0);
        let frames = (seconds * f64::from(RATE)).round() as u64;
        let sine: Vec<f64> = (frame..frame + frames)
            .flat_map(|i| {
                let turn = std::f64::consts::TAU * 1000.0 * i as f64 / f64::from(RATE);
                [amplitude * turn.sin(); 2]
            })
            .collect();
        meter.add_frames_f64(&sine).unwrap();
        frame += frames;
    }
    meter.loudness_global().unwrap()
}

/// EBU Tech 3341, minimum requirements, signals 1 to 5: level in dBFS and seconds of each part, what is to
/// be read, within 0.1 LU (seen).
#[test]
fn the_meter_reads_the_signals_of_ebu_tech_3341() {
    near(reads(&[(-23.0, 20.0)]), -23.0, 0.1);
    near(reads(&[(-33.0, 20.0)]), -33.0, 0.1);
    near(
        reads(&[(-36.0, 10.0), (-23.0, 60.0), (-36.0, 10.0)]),
        -23.0,
        0.1,
    );
    near(
        reads(&[
            (-72.0, 10.0),
            (-36.0, 10.0),
            (-23.0, 60.0),
            (-36.0, 10.0),
            (-72.0, 10.0),
        ]),
        -23.0,
        0.1,
    );
    near(
        reads(&[(-26.0, 20.0), (-20.0, 20.1), (-26.0, 20.0)]),
        -23.0,
        0.1,
    );
}

/// ITU-R BS.1770-5: a sine of 997 Hz at 0 dBFS in one channel reads −3.01 LKFS (seen).
#[test]
fn a_full_sine_in_one_channel_reads_minus_3() {
    let mut meter = ebur128::EbuR128::new(1, 48_000, ebur128::Mode::I).unwrap();
    let sine: Vec<f64> = (0..480_000)
        .map(|i| (std::f64::consts::TAU * 997.0 * f64::from(i) / 48_000.0).sin())
        .collect();
    meter.add_frames_f64(&sine).unwrap();
    near(meter.loudness_global().unwrap(), -3.01, 0.01);
}
