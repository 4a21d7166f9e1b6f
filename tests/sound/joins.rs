//! How the guide’s notes follow one another, and how they end.

use leadpipe::synth::{Engine, Life};
use leadpipe::timeline::{Approach, LevelPoint, Onset, Source};

use crate::by_hand::*;
use crate::measure::*;

/// JASA 58:S132 (1975): silence is the strongest cue of detachment.
#[test]
fn tongued_notes_are_parted_by_silence() {
    for rate in RATES {
        let engine = Engine::new(rate);
        let r = f64::from(rate);
        let second = u64::from(rate);
        // The air stops in 20 ms and stays away for 20.
        let mut first = tone(0, second - (0.02 * r) as u64, 440.0, -5.0);
        first.release = (0.02 * r) as u64;
        let x = guide(&engine, vec![first, tone(second, 2 * second, 440.0, -5.0)]);
        let steady = rms(&x[rate as usize / 2..rate as usize * 3 / 4]);
        let gap = &x[(0.982 * r) as usize..rate as usize];
        assert!(peak(gap) < SILENCE && db(rms(gap) / steady) < -20.0);
    }
}

#[test]
fn every_tone_is_over_at_its_end() {
    let engine = Engine::new(48_000);
    for onset in [Onset::Tongue, Onset::Ku, Onset::Air] {
        for source in [Source::Horn, Source::Mouthpiece] {
            for (length, release) in [(900, 400), (2_400, 960), (30_001, 3_360), (33, 10)] {
                let mut one = tone(1_003, 1_003 + length, 233.082, 4.0);
                (one.onset, one.source, one.release, one.accented) = (onset, source, release, true);
                let x = guide(&engine, vec![one]);
                assert_eq!(peak(&x[..1_003]), 0.0);
                assert_eq!(peak(&x[1_003 + length as usize..]), 0.0);
                assert!(
                    length < 900 || peak(&x) > 0.05,
                    "{onset:?} {source:?} {length}"
                );
            }
        }
    }
}

/// Dips in dB of the level around a slur: over valves, over partials a fourth and an octave apart.
#[test]
fn slurs_dip_but_never_fall_silent() {
    let engine = Engine::with(48_000, Life::Off);
    let dip = |hz: f64, approach| {
        let one = then(tone(0, 96_000, 349.228, -5.0), 48_000, hz, approach);
        let x = guide(&engine, vec![one]);
        let track = levels(&x[38_000..58_000], 288, 48);
        let least = track.iter().fold(f64::MAX, |m, (_, level)| m.min(*level));
        let steady = rms(&x[30_000..38_000]).min(rms(&x[60_000..68_000]));
        db(least / steady)
    };
    let valve = dip(
        329.628,
        Approach::Valves {
            glide: 576,
            dip_db: 2.5,
        },
    );
    let fourth = dip(
        466.164,
        Approach::Lips {
            glide: 2_160,
            dip_db: 4.5,
        },
    );
    let octave = dip(
        698.456,
        Approach::Lips {
            glide: 3_360,
            dip_db: 8.0,
        },
    );
    assert!((-4.0..-1.5).contains(&valve), "{valve}");
    assert!(
        fourth < valve - 1.0 && octave < fourth - 1.0,
        "{valve} {fourth} {octave}"
    );
    assert!(octave > -14.0, "{octave}");
}

/// A bend is one line from pitch to pitch, and darker below.
#[test]
fn a_bend_is_continuous_and_darkens() {
    let engine = Engine::with(48_000, Life::Off);
    let bend = Approach::Bend {
        glide: 14_400,
        cents_off: -100.0,
    };
    let x = guide(
        &engine,
        vec![then(tone(0, 144_000, 392.0, -5.0), 48_000, 369.994, bend)],
    );
    let track = pitch_track(&x[40_000..80_000], 48_000.0, 380.0, 1_440, 240);
    // The ear places the note in the middle of the way: on the beat, within 5 ms.
    let half_way = (392.0f64 * 369.994).sqrt();
    let crossed = track
        .iter()
        .find(|(_, hz)| *hz < half_way)
        .expect("it gets there")
        .0
        + 40_000;
    assert!((47_760..=48_240).contains(&crossed), "{crossed}");
    for pair in track.windows(2) {
        let step = cents(pair[0].1, pair[1].1);
        assert!((-9.0..1.0).contains(&step), "{step}");
    }
    let before = partials(&x[20_000..36_384], 48_000.0, 392.0, 30);
    let after = partials(&x[90_000..106_384], 48_000.0, 369.994, 30);
    assert!(centroid(&after) < 0.85 * centroid(&before));
    assert!(db(rms(&x[90_000..106_384]) / rms(&x[20_000..36_384])) < -1.5);
}

/// No join steps further from frame to frame than the steady tone does, and none splashes above the
/// highest partials.
#[test]
fn no_join_clicks() {
    for rate in RATES {
        let engine = Engine::with(rate, Life::Off);
        let s = u64::from(rate);
        let valves = Approach::Valves {
            glide: s / 80,
            dip_db: 2.5,
        };
        let lips = Approach::Lips {
            glide: s * 7 / 100,
            dip_db: 8.0,
        };
        let bend = |cents_off| Approach::Bend {
            glide: s * 3 / 10,
            cents_off,
        };
        let mut one = tone(101, 6 * s, 466.164, 0.0);
        one.accented = true;
        for (i, (hz, approach)) in [
            (440.0, valves),
            (466.164, valves),
            (233.082, lips),
            (466.164, lips),
            (440.0, bend(-100.0)),
            (466.164, bend(0.0)),
        ]
        .into_iter()
        .enumerate()
        {
            one = then(one, s * (i as u64 + 1) * 3 / 4, hz, approach);
        }
        one.levels = vec![
            LevelPoint {
                frame: 101,
                db: -13.0,
            },
            LevelPoint {
                frame: 5 * s,
                db: -13.0,
            },
            LevelPoint {
                frame: 5 * s,
                db: 0.0,
            },
        ];
        let x = guide(&engine, vec![one]);
        let steady =
            largest_step(&x[(5.3 * f64::from(rate)) as usize..(5.8 * f64::from(rate)) as usize]);
        assert!(
            largest_step(&x) < 1.1 * steady,
            "{} {steady}",
            largest_step(&x)
        );
        // High-passed at 17.5 kHz, in windows of 3 ms: nothing of ours lies there.
        let splash = above_17_5_khz(&x, f64::from(rate));
        let worst = levels(&splash, 144, 72)
            .into_iter()
            .fold(0.0f64, |m, (_, level)| m.max(level));
        assert!(db(worst / rms(&x)) < -80.0, "{:.1}", db(worst / rms(&x)));
    }
}

/// A steep linear-phase high-pass.
fn above_17_5_khz(x: &[f32], rate: f64) -> Vec<f32> {
    use std::f64::consts::PI;
    const HALF: i32 = 96;
    let taps: Vec<f64> = (-HALF..=HALF)
        .map(|i| {
            let t = f64::from(i) * PI;
            let w = 2.0 * 17_500.0 / rate;
            let sinc = if i == 0 { 1.0 - w } else { -(t * w).sin() / t };
            let p = t / f64::from(HALF);
            sinc * (0.42 + 0.5 * p.cos() + 0.08 * (2.0 * p).cos())
        })
        .collect();
    x.windows(taps.len())
        .map(|w| {
            w.iter()
                .zip(&taps)
                .map(|(v, t)| f64::from(*v) * t)
                .sum::<f64>() as f32
        })
        .collect()
}

/// Whatever a timeline may ask for, however crowded: finite, within full scale, over at its end.
#[test]
fn crowded_tones_stay_whole() {
    let engine = Engine::new(44_100);
    let mut state = 1u64;
    let mut random = |most: u64| {
        // Knuth's MMIX generator: any will do.
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % (most + 1)
    };
    for _ in 0..300 {
        let start = random(500);
        let length = 1 + random(20_000);
        let mut one = tone(
            start,
            start + length,
            80.0 + random(2_000) as f64,
            4.0 - random(30) as f64,
        );
        one.accented = random(1) == 1;
        one.release = random(6_000);
        one.source = [Source::Horn, Source::Mouthpiece][random(1) as usize];
        one.onset = [Onset::Tongue, Onset::Ku, Onset::Air][random(2) as usize];
        let mut at = start;
        for _ in 0..random(6) {
            at += random(3_000);
            let (glide, dip_db) = (random(4_000), random(9) as f64);
            let approach = match random(2) {
                0 => Approach::Valves { glide, dip_db },
                1 => Approach::Lips { glide, dip_db },
                _ => Approach::Bend {
                    glide,
                    cents_off: -100.0,
                },
            };
            one = then(one, at, 80.0 + random(2_000) as f64, approach);
            one.levels.push(LevelPoint {
                frame: at,
                db: -20.0 + random(24) as f64,
            });
        }
        let end = one.end as usize;
        let x = guide(&engine, vec![one]);
        assert!(x.iter().all(|v| v.is_finite()) && peak(&x) < 0.6);
        assert_eq!(peak(&x[end..]), 0.0);
    }
}
