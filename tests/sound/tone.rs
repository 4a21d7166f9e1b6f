//! One note of the guide, held: pitch, partials, brightness.

use leadpipe::synth::{Engine, Life};
use leadpipe::timeline::{Approach, Held, LevelPoint, LineSound, Source};

use crate::by_hand::*;
use crate::measure::*;

/// The half step from E3 to C6 in cents off, with drift and noise as they are heard.
#[test]
fn guide_is_in_tune_to_a_cent_at_every_half_step() {
    let mut worst = 0.0f64;
    for rate in RATES {
        let engine = Engine::new(rate);
        let r = f64::from(rate);
        for midi in GUIDE {
            let hz = midi_hz(f64::from(midi));
            let end = (1.5 * r) as u64;
            let mut tone = tone(77, end, hz, -5.0);
            tone.seed = u64::from(midi) * 7919;
            let x = guide(&engine, vec![tone]);
            let steady = &x[(0.1 * r) as usize..end as usize - 3_000];
            let off = cents(hz, pitch(steady, r, hz));
            worst = worst.max(off.abs());
            assert!(off.abs() < 1.0, "MIDI {midi} at {rate}: {off:+.3} cents");
        }
    }
    println!("worst guide pitch: {worst:.3} cents");
}

/// Whoever listens to a part of a note hears it in tune as well: the middle half, short notes too.
#[test]
fn the_middle_of_a_note_is_in_tune_to_a_cent() {
    let engine = Engine::new(48_000);
    let mut worst = 0.0f64;
    for seconds in [0.4, 0.6, 1.0, 1.5, 2.0] {
        let frames = (seconds * 48_000.0) as usize;
        for midi in GUIDE {
            for seed in 0..4u64 {
                let hz = midi_hz(f64::from(midi));
                let mut tone = tone(0, frames as u64, hz, -5.0);
                tone.seed = seed * 131 + u64::from(midi);
                let x = guide(&engine, vec![tone]);
                let off = cents(hz, pitch(&x[frames / 4..frames * 3 / 4], 48_000.0, hz));
                worst = worst.max(off.abs());
                assert!(
                    off.abs() < 1.0,
                    "MIDI {midi}, {seconds} s, seed {seed}: {off:+.3} cents"
                );
            }
        }
    }
    println!("worst middle of a note: {worst:.3} cents");
}

/// Drift is small: it never leaves ±9 cents in windows of 30 ms, and it is there.
#[test]
fn drift_never_leaves_nine_cents() {
    let engine = Engine::new(48_000);
    for seed in 0..12 {
        let mut tone = tone(0, 144_000, 466.164, 0.0);
        tone.seed = seed;
        let x = guide(&engine, vec![tone]);
        let track = pitch_track(&x[4_800..138_000], 48_000.0, 466.164, 2_880, 960);
        let off: Vec<f64> = track.iter().map(|(_, hz)| cents(466.164, *hz)).collect();
        let largest = off.iter().fold(0.0f64, |m, o| m.max(o.abs()));
        let spread = (off.iter().map(|o| o * o).sum::<f64>() / off.len() as f64).sqrt();
        assert!(largest < 9.0, "seed {seed}: {largest}");
        assert!((0.8..4.0).contains(&spread), "seed {seed}: {spread}");
    }
}

#[test]
fn slurred_and_lipped_notes_are_in_tune_too() {
    let engine = Engine::new(48_000);
    let valves = Approach::Valves {
        glide: 576,
        dip_db: 2.5,
    };
    let lips = Approach::Lips {
        glide: 2_500,
        dip_db: 5.5,
    };
    let bend = |cents_off| Approach::Bend {
        glide: 14_400,
        cents_off,
    };
    let notes = [
        (349.228, Approach::Start),
        (329.628, valves),
        (349.228, valves),
        (523.251, lips),
        (349.228, lips),
        (329.628, bend(-100.0)),
        (349.228, bend(0.0)),
    ];
    for (source, seed) in [
        (Source::Horn, 3),
        (Source::Horn, 4),
        (Source::Mouthpiece, 5),
    ] {
        let mut one = tone(0, 7 * 48_000, 349.228, -5.0);
        (one.source, one.seed) = (source, seed);
        for (i, (hz, approach)) in notes.iter().enumerate().skip(1) {
            one = then(one, i as u64 * 48_000, *hz, *approach);
        }
        let x = guide(&engine, vec![one]);
        for (i, (hz, _)) in notes.iter().enumerate() {
            let steady = &x[i * 48_000 + 14_400..(i + 1) * 48_000 - 3_000];
            let off = cents(*hz, pitch(steady, 48_000.0, *hz));
            assert!(off.abs() < 1.0, "{source:?} note {i}: {off:+.3} cents");
        }
    }
}

/// Aliasing and table noise with drift and noise off, at every pitch and dynamic.
#[test]
fn nothing_but_partials_sounds_above_minus_80_db() {
    let mut worst = f64::MIN;
    for rate in RATES {
        let engine = Engine::with(rate, Life::Off);
        let r = f64::from(rate);
        for midi in GUIDE {
            // Between anchors and between frames: an eighth tone sharp.
            let hz = midi_hz(f64::from(midi) + 0.25);
            for (i, db) in MARKS.into_iter().enumerate() {
                let source = if i == 2 {
                    Source::Mouthpiece
                } else {
                    Source::Horn
                };
                let mut tone = tone(0, 80_000, hz, db);
                tone.source = source;
                let x = guide(&engine, vec![tone]);
                let floor = inharmonic_db(&x[6_000..6_000 + 65_536], r, hz);
                worst = worst.max(floor);
                assert!(
                    floor < -80.0,
                    "MIDI {midi} {db} dB {source:?} at {rate}: {floor:.1} dB"
                );
            }
        }
        for midi in 40..=84u8 {
            let hz = midi_hz(f64::from(midi) + 0.25);
            let held = Held {
                frame: 0,
                end: 75_000,
                hz: vec![hz],
                fade: 0,
            };
            let line = LineSound {
                drone: vec![held],
                ..LineSound::default()
            };
            let x = perform(&engine, &unit(75_000, line)).drone;
            let floor = inharmonic_db(&x[6_000..6_000 + 65_536], r, hz);
            assert!(floor < -80.0, "drone {midi} at {rate}: {floor:.1} dB");
        }
    }
    println!("worst inharmonic component: {worst:.1} dB");
}

/// Risset, JASA 38:912 (1965), and Beauchamp (1975): the spectrum is richer when louder, and every partial
/// grows, the higher the faster. Fletcher and Tarnopolsky, JASA 105:874 (1999): its envelope is fixed in
/// frequency, so a higher note has fewer strong partials.
#[test]
fn brightness_rises_with_loudness_and_falls_with_pitch() {
    let engine = Engine::with(48_000, Life::Off);
    let mut last_pitch: Option<f64> = None;
    for midi in GUIDE {
        let hz = midi_hz(f64::from(midi));
        let profiles: Vec<Vec<f64>> = MARKS
            .iter()
            .map(|db| {
                partials(
                    &guide(&engine, vec![tone(0, 40_000, hz, *db)])[4_000..36_768],
                    48_000.0,
                    hz,
                    40,
                )
            })
            .collect();
        for pair in profiles.windows(2) {
            assert!(
                centroid(&pair[1]) > centroid(&pair[0]) * 1.02,
                "MIDI {midi}"
            );
            let growth = |k: usize| db(pair[1][k - 1] / pair[0][k - 1]);
            assert!(growth(1) > 0.0, "MIDI {midi}: partial 1 {:.2}", growth(1));
            for k in 1..5 {
                assert!(growth(k + 1) > growth(k) - 0.15, "MIDI {midi} partial {k}");
            }
        }
        let mf = centroid(&profiles[3]);
        assert!(
            last_pitch.is_none_or(|last| mf < last * 1.01),
            "MIDI {midi}"
        );
        last_pitch = Some(mf);
    }
}

/// Inside a crescendo and a diminuendo too.
#[test]
fn crescendo_and_diminuendo_change_brightness_as_well_as_level() {
    let engine = Engine::new(48_000);
    for (from, to) in [(-13.0, 0.0), (0.0, -13.0)] {
        for hz in [174.614, 349.228, 698.456] {
            let mut one = tone(0, 192_000, hz, from);
            one.levels.push(LevelPoint {
                frame: 190_000,
                db: to,
            });
            let x = guide(&engine, vec![one]);
            let at = |from: usize| {
                let part = &x[from..from + 16_384];
                (centroid(&partials(part, 48_000.0, hz, 30)), db(rms(part)))
            };
            let course = [at(10_000), at(60_000), at(115_000), at(165_000)];
            for pair in course.windows(2) {
                let (soft, loud) = if to > from {
                    (pair[0], pair[1])
                } else {
                    (pair[1], pair[0])
                };
                assert!(
                    loud.0 > 1.04 * soft.0 && loud.1 > soft.1 + 2.0,
                    "{hz} Hz from {from}: {course:.2?}"
                );
            }
        }
    }
}
