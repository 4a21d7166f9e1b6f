//! The sound of the voices, measured by code that shares nothing with the synthesis.

mod measure;

use leadpipe::synth::{Block, CLICK_PEAK_FRAMES, Engine, Life, SIGN_SECONDS};
use leadpipe::timeline::{
    Approach, Click, Content, Held, LevelPoint, LineSound, Onset, RestSound, Sign, Source, Step,
    Swell, Tone, Unit,
};
use measure::*;

const RATES: [u32; 2] = [44_100, 48_000];
/// The guide's compass, sounding: E3 to C6.
const GUIDE: std::ops::RangeInclusive<u8> = 52..=84;
/// dB against forte of pp, p, mp, mf, f, ff.
const MARKS: [f64; 6] = [-18.0, -13.0, -9.0, -5.0, 0.0, 4.0];
/// −80 dBFS.
const SILENCE: f64 = 1e-4;

struct Voices {
    guide: Vec<f32>,
    drone: Vec<f32>,
    click: Vec<f32>,
}

impl Voices {
    fn mix(&self) -> Vec<f32> {
        (0..self.guide.len())
            .map(|i| self.guide[i] + self.drone[i] + self.click[i])
            .collect()
    }
}

fn perform(engine: &Engine, unit: &Unit) -> Voices {
    let mut voices = Voices {
        guide: vec![],
        drone: vec![],
        click: vec![],
    };
    let mut performance = engine.perform(unit);
    let mut block = Block::SILENT;
    loop {
        let n = performance.next_block(&mut block);
        if n == 0 {
            break;
        }
        for (voice, part) in [
            (&mut voices.guide, &block.guide),
            (&mut voices.drone, &block.drone),
            (&mut voices.click, &block.click),
        ] {
            assert!(part[n..].iter().all(|x| *x == 0.0));
            assert!(block.sounding || part.iter().all(|x| *x == 0.0));
            voice.extend_from_slice(&part[..n]);
        }
    }
    assert_eq!(voices.guide.len() as u64, unit.frames);
    voices
}

fn unit(frames: u64, line: LineSound) -> Unit {
    Unit {
        first_frame: 0,
        frames,
        content: Content::Line(line),
    }
}

fn guide(engine: &Engine, tones: Vec<Tone>) -> Vec<f32> {
    let end = tones.iter().map(|t| t.end).max().unwrap_or(0) + 5_000;
    perform(
        engine,
        &unit(
            end,
            LineSound {
                tones,
                ..LineSound::default()
            },
        ),
    )
    .guide
}

/// One note, tongued.
fn tone(frame: u64, end: u64, hz: f64, db: f64) -> Tone {
    Tone {
        frame,
        end,
        onset: Onset::Tongue,
        accented: false,
        release: 3_000,
        source: Source::Horn,
        steps: vec![Step {
            frame,
            hz,
            approach: Approach::Start,
        }],
        levels: vec![LevelPoint { frame, db }],
        seed: frame ^ 0x5eed,
    }
}

fn then(mut tone: Tone, frame: u64, hz: f64, approach: Approach) -> Tone {
    tone.steps.push(Step {
        frame,
        hz,
        approach,
    });
    tone
}

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

/// Inside a crescendo too.
#[test]
fn a_crescendo_gets_brighter_as_well_as_louder() {
    let engine = Engine::new(48_000);
    let mut grows = tone(0, 192_000, 349.228, -13.0);
    grows.levels.push(LevelPoint {
        frame: 190_000,
        db: 0.0,
    });
    let x = guide(&engine, vec![grows]);
    let at = |from: usize| partials(&x[from..from + 16_384], 48_000.0, 349.228, 30);
    let (early, late) = (at(10_000), at(165_000));
    assert!(centroid(&late) > 1.25 * centroid(&early));
    assert!(db(rms(&x[165_000..181_384]) / rms(&x[10_000..26_384])) > 9.0);
}

/// Luce and Clark (1965): attacks of 14–85 ms over all winds and strings; recorded trumpets 8–53 ms. Low
/// partials come first (Risset 1965).
#[test]
fn attacks_are_quick_and_low_partials_come_first() {
    let engine = Engine::with(48_000, Life::Off);
    for midi in [52u8, 58, 65, 70, 77, 84] {
        let hz = midi_hz(f64::from(midi));
        let x = guide(&engine, vec![tone(6_000, 54_000, hz, 0.0)]);
        let window = (2.0 * 48_000.0 / hz).round() as usize;
        let steady = rms(&x[15_600..44_400]);
        let track = levels(&x[..15_600], window, 24);
        let reaches = |share: f64| {
            track
                .iter()
                .find(|(_, level)| *level > share * steady)
                .map_or(0, |(at, _)| *at)
        };
        let ms = (reaches(0.9) - reaches(0.1)) as f64 / 48.0;
        assert!((8.0..50.0).contains(&ms), "MIDI {midi}: {ms:.1} ms");
        // Demodulated partials: when each is at half of what it will be.
        let half = |k: usize| {
            let level = |at: usize| {
                let n = 2 * window;
                let (mut re, mut im) = (0.0, 0.0);
                for (i, v) in x[at..at + n].iter().enumerate() {
                    let angle = std::f64::consts::TAU * k as f64 * hz * (at + i) as f64 / 48_000.0;
                    let hann =
                        0.5 - 0.5 * (std::f64::consts::TAU * (i as f64 + 0.5) / n as f64).cos();
                    re += hann * f64::from(*v) * angle.cos();
                    im += hann * f64::from(*v) * angle.sin();
                }
                f64::hypot(re, im) / n as f64
            };
            let full = level(26_000);
            (2_000..15_000)
                .step_by(12)
                .find(|at| level(*at) > 0.5 * full)
                .expect("it sounds") as f64
                / 48.0
        };
        let halves: Vec<f64> = (1..=8).map(half).collect();
        let later = (halves[7] - halves[0]) / 7.0;
        assert!(
            (0.5..2.3).contains(&later),
            "MIDI {midi}: {later:.2} ms a partial, {halves:.1?}"
        );
    }
}

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
            // ISO 226: the ear is most sensitive between 2 and 5 kHz.
            assert!(share_between(sound, f64::from(rate), 2_000.0, 5_000.0) > 0.7);
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
            assert!((lufs + 18.6).abs() < 0.6, "guide {midi}: {lufs:.2}");
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
            assert!((lufs + 35.0).abs() < 0.5, "drone {hz:?}: {lufs:.2}");
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
    ] {
        let engine = Engine::new(rate);
        let beat = u64::from(rate) * 60 / tempo;
        let mut meter = ebur128::EbuR128::new(1, rate, ebur128::Mode::I).expect("a meter");
        let mut guide_alone = ebur128::EbuR128::new(1, rate, ebur128::Mode::I).expect("a meter");
        for (line, (hz, db)) in [
            (233.082, -5.0),
            (349.228, -5.0),
            (261.626, 0.0),
            (466.164, -5.0),
            (293.665, -9.0),
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

fn loudness(x: &[f32], rate: u32) -> f64 {
    let mut meter = ebur128::EbuR128::new(1, rate, ebur128::Mode::I).expect("a meter");
    meter.add_frames_f32(x).expect("frames");
    meter.loudness_global().expect("loudness")
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
    let click_peak = peak(&x.click);
    let worst = guide_true_peak.max(loudest) + drone_peak + click_peak;
    println!(
        "guide {loudest:.3} (true {guide_true_peak:.3}) drone {drone_peak:.3} click {click_peak:.3}: {worst:.3}"
    );
    assert!(worst < 0.891, "{worst}");
}

fn everything(s: u64) -> Unit {
    let valves = Approach::Valves {
        glide: s / 80,
        dip_db: 2.5,
    };
    unit(
        4 * s + 13,
        LineSound {
            clicks: (0..8)
                .map(|i| Click {
                    frame: i * s / 2,
                    accented: i % 4 == 0,
                })
                .collect(),
            drone: vec![
                Held {
                    frame: 0,
                    end: 2 * s,
                    hz: vec![116.541],
                    fade: 0,
                },
                Held {
                    frame: 2 * s,
                    end: 4 * s,
                    hz: vec![110.0, 164.814],
                    fade: s / 4,
                },
            ],
            tones: vec![
                then(tone(s + 5, 2 * s, 233.082, -5.0), s * 3 / 2, 220.0, valves),
                tone(2 * s, 3 * s, 220.0, 0.0),
            ],
            swells: vec![Swell {
                frame: 3 * s,
                end: 4 * s,
                inward: true,
                seed: 9,
            }],
        },
    )
}

#[test]
fn the_same_unit_gives_the_same_bits_whatever_came_before() {
    for rate in RATES {
        let one = everything(rate.into());
        let mut elsewhere = one.clone();
        elsewhere.first_frame = 123_457;
        let engine = Engine::new(rate);
        let first = perform(&engine, &one).mix();
        perform(
            &engine,
            &unit(
                3_000,
                LineSound {
                    tones: vec![tone(0, 2_000, 700.0, 4.0)],
                    ..LineSound::default()
                },
            ),
        );
        assert!(first == perform(&engine, &elsewhere).mix());
        assert!(first == perform(&Engine::new(rate), &one).mix());
        std::thread::scope(|scope| {
            let other = scope.spawn(|| perform(&engine, &one).mix());
            assert!(first == other.join().expect("a performance"));
        });
    }
}

#[test]
fn passing_over_silence_changes_nothing() {
    let engine = Engine::new(48_000);
    let mut sparse = everything(48_000);
    if let Content::Line(line) = &mut sparse.content {
        line.drone = vec![Held {
            frame: 30_000,
            end: 50_000,
            hz: vec![220.0],
            fade: 4_000,
        }];
        line.clicks = vec![Click {
            frame: 10_007,
            accented: false,
        }];
        line.swells.clear();
    }
    let whole = perform(&engine, &sparse).mix();
    let mut performance = engine.perform(&sparse);
    let (mut block, mut at, mut skipped) = (Block::SILENT, 0, 0);
    loop {
        let silent = performance.skip_silence() as usize;
        assert!(whole[at..at + silent].iter().all(|x| *x == 0.0));
        (at, skipped) = (at + silent, skipped + silent);
        let n = performance.next_block(&mut block);
        if n == 0 {
            break;
        }
        assert!(silent % 64 == 0 && (0..n).all(|i| block.mix(i) == whole[at + i]));
        at += n;
    }
    assert_eq!(at, whole.len());
    assert!(skipped > 60_000, "{skipped}");
}

#[test]
fn engines_and_performances_cross_threads() {
    fn crosses<T: Send>() {}
    fn shared<T: Send + Sync>() {}
    shared::<Engine>();
    crosses::<leadpipe::synth::Performance<'static>>();
}
