//! What goes with the guide: drone, click, signs, and the breathing of air lines.

use leadpipe::synth::{CLICK_PEAK_FRAMES, Engine, SIGN_SECONDS};
use leadpipe::timeline::{Click, Content, Held, LineSound, RestSound, Sign, Swell, Unit};

use crate::by_hand::*;
use crate::measure::*;

#[test]
fn drone_is_in_tune_to_a_cent_over_its_range() {
    let mut worst = 0.0f64;
    for rate in RATES {
        let engine = Engine::new(rate);
        let r = f64::from(rate);
        // E2 to C6.
        for midi in 40..=84u8 {
            let hz = midi_hz(f64::from(midi));
            let held = Held {
                frame: 0,
                end: rate.into(),
                hz: vec![hz],
                fade: 3_000,
            };
            let line = LineSound {
                drone: vec![held],
                ..LineSound::default()
            };
            let x = perform(&engine, &unit(rate.into(), line)).drone;
            let steady = &x[(0.15 * r) as usize..rate as usize - 3_000];
            let off = cents(hz, pitch(steady, r, hz));
            worst = worst.max(off.abs());
            assert!(off.abs() < 0.1, "MIDI {midi} at {rate}: {off:+.4} cents");
            // A phone's speaker gives little below 400 Hz.
            assert!(
                share_between(steady, r, 400.0, 4_000.0) > 0.4,
                "MIDI {midi}"
            );
        }
    }
    println!("worst drone pitch: {worst:.4} cents");
}

#[test]
fn the_drone_moves_without_a_click_and_ends_on_time() {
    for rate in RATES {
        let engine = Engine::new(rate);
        let s = u64::from(rate);
        let held = |frame, end, hz: &[f64], fade| Held {
            frame,
            end,
            hz: hz.to_vec(),
            fade,
        };
        let fade = s * 3 / 10;
        let drone = vec![
            held(500, 2 * s, &[233.082], 0),
            held(2 * s, 3 * s, &[233.082], 0),
            held(3 * s, 4 * s, &[207.652, 311.127], 0),
            held(4 * s, 6 * s, &[116.541], fade),
        ];
        let x = perform(
            &engine,
            &unit(
                6 * s + 1_000,
                LineSound {
                    drone,
                    ..LineSound::default()
                },
            ),
        )
        .drone;
        assert_eq!(peak(&x[..500]), 0.0);
        assert_eq!(peak(&x[6 * rate as usize..]), 0.0);
        assert!(x[6 * rate as usize - 1].abs() < SILENCE as f32);
        // Where the same pitch goes on, not a frame changes: both seconds are the same periodic sound.
        let near = 2 * rate as usize;
        assert!((rms(&x[near - 4_000..near]) / rms(&x[near..near + 4_000]) - 1.0).abs() < 0.02);
        // No step at any join larger than where it is steady.
        let steady = [(1.0, 1.9), (3.3, 3.9), (4.5, 5.5)].map(|(a, b)| {
            largest_step(&x[(a * f64::from(rate)) as usize..(b * f64::from(rate)) as usize])
        });
        // Two pitches meet peak to peak now and then, not always in those stretches.
        let steady = steady.into_iter().fold(0.0, f64::max);
        assert!(
            largest_step(&x) <= 1.2 * steady,
            "{} {steady}",
            largest_step(&x)
        );
        // Never a hole: between the beginning and the fade every 50 ms sound.
        let sounding = &x[10_000..6 * rate as usize - fade as usize];
        let level = rms(sounding);
        for (_, l) in levels(sounding, rate as usize / 20, 500) {
            assert!(db(l / level) > -7.0);
        }
    }
}

#[test]
fn clicks_stand_at_their_frames() {
    for rate in RATES {
        let engine = Engine::new(rate);
        let frames = [0u64, 63, 22_050, 44_101, 70_007, 100_000];
        let clicks: Vec<Click> = frames
            .iter()
            .enumerate()
            .map(|(i, f)| Click {
                frame: *f,
                accented: i % 2 == 0,
            })
            .collect();
        let clicks: Vec<Click> = clicks.into_iter().filter(|c| c.frame != 63).collect();
        let line = LineSound {
            clicks: clicks.clone(),
            ..LineSound::default()
        };
        let x = perform(&engine, &unit(110_000, line)).click;
        for click in &clicks {
            let start = click.frame as usize;
            let found = onset(&x, start.saturating_sub(2_000), 1e-6).expect("a click");
            assert_eq!(found, start);
            let sound = &x[start..start + (0.04 * f64::from(rate)) as usize];
            let largest =
                (0..sound.len()).max_by(|a, b| sound[*a].abs().total_cmp(&sound[*b].abs()));
            assert!(largest.expect("a click") < CLICK_PEAK_FRAMES);
            // Its two bands (`heard_through.rs`), and nothing beside them.
            let share = |low, high| share_between(sound, f64::from(rate), low, high);
            assert!(share(2_000.0, 5_000.0) + share(6_000.0, 8_000.0) > 0.9);
            assert_eq!(
                peak(&x[start + sound.len()..(start + 5_000).min(x.len())]),
                0.0
            );
        }
        let of = |c: &Click| peak(&x[c.frame as usize..c.frame as usize + 1_500]);
        assert!(db(of(&clicks[0]) / of(&clicks[2])) > 3.0);
    }
}

#[test]
fn a_click_does_not_run_past_its_unit() {
    let engine = Engine::new(48_000);
    let line = LineSound {
        clicks: vec![Click {
            frame: 4_000,
            accented: true,
        }],
        ..LineSound::default()
    };
    let x = perform(&engine, &unit(4_200, line)).click;
    assert_eq!(onset(&x, 0, 1e-6), Some(4_000));
    assert!(x[4_199].abs() < 2e-3);
}

#[test]
fn signs_fall_and_rise() {
    for rate in RATES {
        let engine = Engine::new(rate);
        let r = f64::from(rate);
        let signs = vec![(1_000, Sign::HornDown), (100_000, Sign::HornUp)];
        let rest = Unit {
            first_frame: 0,
            frames: 200_000,
            content: Content::Rest(RestSound { signs }),
        };
        let x = perform(&engine, &rest);
        assert_eq!(peak(&x.guide) + peak(&x.drone), 0.0);
        for (start, first, second) in [(1_000, 659.255, 493.883), (100_000, 493.883, 659.255)] {
            let strength = |from: f64, hz: f64| {
                let from = start + (from * r) as usize;
                partials(&x.click[from..from + (0.15 * r) as usize], r, hz, 1)[0]
            };
            assert!(strength(0.0, first) > 3.0 * strength(0.0, second));
            assert!(strength(0.3, second) > 1.5 * strength(0.3, first));
            let end = start + (SIGN_SECONDS * r) as usize;
            assert_eq!(peak(&x.click[end..(end + 20_000).min(x.click.len())]), 0.0);
        }
    }
}

#[test]
fn breaths_grow_and_fade_and_breathing_in_is_brighter() {
    let engine = Engine::new(48_000);
    let swells = vec![
        Swell {
            frame: 0,
            end: 96_000,
            inward: true,
            seed: 1,
        },
        Swell {
            frame: 96_000,
            end: 192_000,
            inward: false,
            seed: 2,
        },
    ];
    let x = perform(
        &engine,
        &unit(
            200_000,
            LineSound {
                swells,
                ..LineSound::default()
            },
        ),
    )
    .guide;
    let level = |at: usize| rms(&x[at..at + 4_800]);
    assert!(level(50_000) > 5.0 * level(500) && level(50_000) > 5.0 * level(91_000));
    assert!(level(134_000) > 5.0 * level(97_000) && level(134_000) > 5.0 * level(187_000));
    assert_eq!(peak(&x[192_000..]), 0.0);
    let high = |from: usize| share_between(&x[from..from + 65_536], 48_000.0, 1_400.0, 24_000.0);
    assert!(
        high(15_000) > 0.6 && high(110_000) < 0.3,
        "{} {}",
        high(15_000),
        high(110_000)
    );
}
