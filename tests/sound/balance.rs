//! How loud the voices are, by an independent R 128 meter.

use leadpipe::synth::Engine;
use leadpipe::timeline::{Approach, Click, Held, LineSound, Unit};

use crate::by_hand::*;
use crate::measure::*;

/// ITU-R BS.1770-5, by an independent meter: the balance that `levels.rs` promises.
#[test]
fn levels_are_as_documented() {
    for rate in RATES {
        let engine = Engine::new(rate);
        let s = u64::from(rate);
        for midi in GUIDE.step_by(4) {
            let x = guide(
                &engine,
                vec![tone(0, 5 * s, midi_hz(f64::from(midi)), -5.0)],
            );
            let lufs = loudness(&x[rate as usize / 5..4 * rate as usize], rate);
            assert!((lufs + 17.8).abs() < 0.6, "guide {midi}: {lufs:.2}");
        }
        for hz in [
            vec![82.407],
            vec![116.541],
            vec![233.082],
            vec![466.164],
            vec![1046.502],
            vec![116.541, 174.614],
        ] {
            let held = Held {
                frame: 0,
                end: 5 * s,
                hz: hz.clone(),
                fade: 3_000,
            };
            let x = perform(
                &engine,
                &unit(
                    5 * s,
                    LineSound {
                        drone: vec![held],
                        ..LineSound::default()
                    },
                ),
            );
            let lufs = loudness(&x.drone[rate as usize / 5..4 * rate as usize], rate);
            assert!((lufs + 34.5).abs() < 0.5, "drone {hz:?}: {lufs:.2}");
        }
    }
}

/// A routine as they mostly are: a count-in, passes of eight beats at mf with a breath, as long again with
/// click and drone alone, a silent rest between lines, a soft last line. Played on both loudspeakers it
/// reads −16 LUFS ±1, which in one channel is −19.
#[test]
fn a_typical_routine_reads_minus_16_lufs_on_two_loudspeakers() {
    for (rate, tempo, between) in [
        (44_100, 72, 8),
        (48_000, 60, 8),
        (44_100, 100, 4),
        (44_100, 80, 0),
        (44_100, 140, 8),
        (44_100, 120, 12),
    ] {
        let engine = Engine::new(rate);
        let beat = u64::from(rate) * 60 / tempo;
        let mut meter = ebur128::EbuR128::new(1, rate, ebur128::Mode::I).expect("a meter");
        let mut guide_alone = ebur128::EbuR128::new(1, rate, ebur128::Mode::I).expect("a meter");
        for (line, (hz, db)) in [
            (233.082, -5.0),
            (349.228, -5.0),
            (261.626, -5.0),
            (466.164, -5.0),
            (293.665, -5.0),
            (233.082, -13.0),
        ]
        .into_iter()
        .enumerate()
        {
            let line = typical_line(beat, between, hz, db, line as u64);
            let x = perform(&engine, &line);
            meter.add_frames_f32(&x.mix()).expect("frames");
            guide_alone.add_frames_f32(&x.guide).expect("frames");
            let rest = vec![0.0; 12 * beat as usize];
            meter.add_frames_f32(&rest).expect("frames");
            guide_alone.add_frames_f32(&rest).expect("frames");
        }
        let lufs = meter.loudness_global().expect("loudness");
        println!(
            "{tempo} a minute, {between} beats between: {lufs:.2} LUFS in one channel, guide {:.2}",
            guide_alone.loudness_global().expect("loudness")
        );
        assert!((lufs + 19.0).abs() < 1.0, "{tempo} {between}: {lufs:.2}");
    }
}

fn typical_line(beat: u64, between: u64, hz: f64, db: f64, seed: u64) -> Unit {
    let pass = 8 + between;
    let passes = 4;
    let end = (4 + passes * pass - between) * beat;
    let mut line = LineSound::default();
    for i in 0..=end / beat {
        line.clicks.push(Click {
            frame: i * beat,
            accented: i % 4 == 0,
        });
    }
    line.clicks.pop();
    line.drone = vec![Held {
        frame: 0,
        end: end + beat / 2,
        hz: vec![hz / 2.0],
        fade: beat / 2,
    }];
    for i in 0..passes {
        let start = (4 + i * pass) * beat;
        let valves = Approach::Valves {
            glide: beat / 60,
            dip_db: 2.5,
        };
        let mut slurred = tone(start, start + 4 * beat - beat / 2, hz, db);
        slurred.seed = seed * 100 + i;
        slurred = then(slurred, start + beat, hz * 0.943_874, valves);
        slurred = then(slurred, start + 2 * beat, hz, valves);
        line.tones.push(slurred);
        for n in 4..8 {
            let at = start + n * beat;
            let mut tongued = tone(at, at + beat - beat / 20, hz, db);
            (tongued.release, tongued.seed) = (beat / 40, seed * 100 + 10 * n + i);
            line.tones.push(tongued);
        }
    }
    unit(end + beat / 2, line)
}

/// Everything at its loudest at once, at every pitch: the peaks of the voices added up stay below −1 dBTP.
#[test]
fn the_worst_peaks_together_stay_below_minus_one_decibel() {
    let engine = Engine::new(44_100);
    let mut meter = ebur128::EbuR128::new(1, 44_100, ebur128::Mode::TRUE_PEAK).expect("a meter");
    let mut loudest = 0.0f64;
    for midi in 50..=86u8 {
        for seed in 0..4 {
            let mut one = tone(0, 30_000, midi_hz(f64::from(midi)), 4.0);
            (one.accented, one.seed) = (true, seed);
            let x = guide(&engine, vec![one]);
            meter.add_frames_f32(&x).expect("frames");
            loudest = loudest.max(peak(&x));
        }
    }
    let guide_true_peak = meter.true_peak(0).expect("a peak");
    let mut drone_peak = 0.0f64;
    for midi in 40..=84u8 {
        let hz = midi_hz(f64::from(midi));
        let held = Held {
            frame: 0,
            end: 30_000,
            hz: vec![hz, 1.5 * hz],
            fade: 3_000,
        };
        let x = perform(
            &engine,
            &unit(
                30_000,
                LineSound {
                    drone: vec![held],
                    ..LineSound::default()
                },
            ),
        );
        drone_peak = drone_peak.max(peak(&x.drone));
    }
    let clicks = vec![Click {
        frame: 0,
        accented: true,
    }];
    let x = perform(
        &engine,
        &unit(
            5_000,
            LineSound {
                clicks,
                ..LineSound::default()
            },
        ),
    );
    let mut meter = ebur128::EbuR128::new(1, 44_100, ebur128::Mode::TRUE_PEAK).expect("a meter");
    meter.add_frames_f32(&x.click).expect("frames");
    let click_peak = meter.true_peak(0).expect("a peak").max(peak(&x.click));
    let worst = guide_true_peak.max(loudest) + drone_peak + click_peak;
    println!(
        "guide {loudest:.3} (true {guide_true_peak:.3}) drone {drone_peak:.3} click {click_peak:.3}: {worst:.3}"
    );
    assert!(worst < 0.891, "{worst}");
}
