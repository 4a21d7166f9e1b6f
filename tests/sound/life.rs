//! What makes a held note live: how it starts, its unrest and its breath, how it ends.

use leadpipe::synth::{Engine, Life};
use leadpipe::timeline::{Onset, Source};

use crate::by_hand::*;
use crate::measure::*;

const RATE: f64 = 48_000.0;

/// A frequency near that of a MIDI note whose period is a whole number of frames, and that number: so
/// windows of whole periods hold whole periods of every partial.
fn whole_period(midi: u8) -> (f64, usize) {
    let period = (RATE / midi_hz(f64::from(midi))).round();
    (RATE / period, period as usize)
}

/// Frame at which a rising course first passes `level`, between frames by a straight line.
fn passes(course: &[f64], level: f64) -> f64 {
    let i = course
        .iter()
        .position(|x| *x > level)
        .expect("it rises so far");
    match i.checked_sub(1) {
        None => 0.0,
        Some(before) => before as f64 + (level - course[before]) / (course[i] - course[before]),
    }
}

/// RMS over two periods that end at each frame.
fn rms_course(x: &[f32], window: usize) -> Vec<f64> {
    let mut power = 0.0;
    (0..x.len())
        .map(|i| {
            power += f64::from(x[i]).powi(2);
            if i >= window {
                power -= f64::from(x[i - window]).powi(2);
            }
            (power.max(0.0) / window as f64).sqrt()
        })
        .collect()
}

/// Amplitude of partial `k` at a frame, through a Blackman-Harris window of five periods that end there, in which no
/// other partial shows.
fn partial_at(x: &[f32], period: usize, k: usize) -> impl Fn(usize) -> f64 {
    let turn = |i: usize| std::f64::consts::TAU * i as f64;
    let turned: Vec<(f64, f64)> = (x.iter().enumerate())
        .map(|(i, v)| {
            let (sin, cos) = (turn(k * i % period) / period as f64).sin_cos();
            (f64::from(*v) * cos, f64::from(*v) * sin)
        })
        .collect();
    let n = 5 * period;
    let window: Vec<f64> = (0..n)
        .map(|i| {
            let t = turn(i) / n as f64;
            0.35875 - 0.48829 * t.cos() + 0.14128 * (2.0 * t).cos() - 0.01168 * (3.0 * t).cos()
        })
        .collect();
    move |end| {
        let from = (end + 1).saturating_sub(n);
        let part = turned[from..=end].iter().rev().zip(&window);
        let (re, im) = part.fold((0.0, 0.0), |(re, im), ((c, s), w)| (re + c * w, im + s * w));
        f64::hypot(re, im)
    }
}

/// Luce and Clark (1965): attacks of 14–85 ms over all winds and strings; recorded trumpets 8–53 ms,
/// shorter the higher the note. Low partials come first (Risset 1965); recorded, each 0.5–1.9 ms after the
/// one below.
#[test]
fn attacks_are_quick_and_low_partials_come_first() {
    let engine = Engine::with(48_000, Life::Off);
    let (mut least, mut most) = (f64::MAX, f64::MIN);
    for mark in MARKS {
        let mut lower: Option<f64> = None;
        for midi in GUIDE.step_by(2) {
            let (hz, period) = whole_period(midi);
            let x = &guide(&engine, vec![tone(0, 30_000, hz, mark)])[..15_000];
            let level = rms_course(x, 2 * period);
            let ms =
                (passes(&level, 0.9 * level[14_000]) - passes(&level, 0.1 * level[14_000])) / 48.0;
            assert!((8.0..30.0).contains(&ms), "MIDI {midi} {mark}: {ms:.1} ms");
            assert!(
                lower.is_none_or(|lower| ms < lower + 0.4),
                "MIDI {midi} {mark}: {ms:.1} ms after {lower:?}"
            );
            lower = Some(ms);

            let partials = (1..=8).map(|k| partial_at(&x[..9_600], period, k));
            let partials: Vec<_> = partials.map(|at| (at(9_595), at)).collect();
            let loudest = partials.iter().fold(0.0, |m: f64, (full, _)| m.max(*full));
            let halves: Vec<f64> = partials
                .iter()
                .take_while(|(full, _)| db(full / loudest) > -45.0)
                .map(|(full, at)| {
                    // Every fifth frame, as far as it takes to get there.
                    let mut course = vec![];
                    while course.last().is_none_or(|level| *level <= 0.5 * full) {
                        course.push(at(5 * course.len()));
                    }
                    5.0 * passes(&course, 0.5 * full) / 48.0
                })
                .collect();
            for pair in halves.windows(2) {
                let later = pair[1] - pair[0];
                (least, most) = (least.min(later), most.max(later));
                assert!(
                    (0.3..2.2).contains(&later),
                    "MIDI {midi} {mark}: {later:.2} ms in {halves:.1?}"
                );
            }
            let mean = (halves[halves.len() - 1] - halves[0]) / (halves.len() - 1) as f64;
            assert!(
                (0.5..2.0).contains(&mean),
                "MIDI {midi} {mark}: {mean:.2} ms a partial, {halves:.1?}"
            );
        }
    }
    println!("each partial {least:.2} to {most:.2} ms after the one below");
}

/// Every way of starting stays within 8 to 50 ms, and their order is that of their names.
#[test]
fn air_starts_slowest_and_an_accent_quickest() {
    let engine = Engine::with(48_000, Life::Off);
    let (mut least, mut most) = (f64::MAX, f64::MIN);
    for midi in GUIDE.step_by(4) {
        let (hz, period) = whole_period(midi);
        let rise = |onset, accented| {
            let mut one = tone(0, 60_000, hz, -5.0);
            one.accented = accented;
            let x = guide(&engine, vec![started(one, onset)]);
            let level = rms_course(&x[..30_000], 2 * period);
            (passes(&level, 0.9 * level[28_000]) - passes(&level, 0.1 * level[28_000])) / 48.0
        };
        let order = [
            rise(Onset::Tongue, true),
            rise(Onset::Tongue, false),
            rise(Onset::Ku, false),
            rise(Onset::Air, false),
        ];
        (least, most) = (least.min(order[0]), most.max(order[3]));
        assert!(order.is_sorted(), "MIDI {midi}: {order:.1?}");
        assert!(
            order[0] >= 8.0 && order[3] <= 50.0,
            "MIDI {midi}: {order:.1?}"
        );
        assert!(order[3] > 1.5 * order[1], "MIDI {midi}: {order:.1?}");
    }
    println!("attacks of every kind {least:.1} to {most:.1} ms");
}

/// Recorded trumpets: harmonics 27–37 dB above the noise.
#[test]
fn noise_lies_27_to_37_db_below_the_harmonics() {
    let engine = Engine::new(48_000);
    let (mut least, mut most) = (f64::MAX, f64::MIN);
    for midi in GUIDE.step_by(4) {
        for mark in MARKS {
            let hz = midi_hz(f64::from(midi));
            let x = guide(&engine, vec![tone(0, 96_000, hz, mark)]);
            let ratio = harmonics_over_noise_db(&x[14_400..84_000], RATE, hz);
            (least, most) = (least.min(ratio), most.max(ratio));
            assert!(
                (27.0..37.0).contains(&ratio),
                "MIDI {midi} {mark}: {ratio:.1}"
            );
        }
    }
    println!("noise {least:.1} to {most:.1} dB below the harmonics");
}

/// A breath before the tone: at the start the share of noise is larger than it will be, and it is larger
/// with a consonant than with the air alone. Soft, where no partial reaches the band of the consonant.
#[test]
fn a_breath_comes_first_and_consonants_differ() {
    let engine = Engine::new(48_000);
    let mut heard = |onset| {
        let mut sum = 0.0;
        for seed in 0..12 {
            let mut one = tone(0, 48_000, 349.228, -18.0);
            one.seed = seed;
            let x = guide(&engine, vec![started(one, onset)]);
            let early = share_between(&x[..480], RATE, 5_000.0, 12_000.0);
            let steady = share_between(&x[24_000..24_480], RATE, 5_000.0, 12_000.0);
            assert!(
                early > 2.0 * steady,
                "{onset:?} {seed}: {early:e} {steady:e}"
            );
            sum += x[..480]
                .windows(2)
                .map(|w| f64::from(w[1] - w[0]).powi(2))
                .sum::<f64>();
        }
        sum
    };
    let [tongue, ku, air] = [Onset::Tongue, Onset::Ku, Onset::Air].map(&mut heard);
    assert!(
        tongue > 1.5 * ku && ku > 1.5 * air,
        "{tongue:e} {ku:e} {air:e}"
    );
}

/// Risset (1965): small, quick, quasi-random. A vibrato would be one component of many cents; no component
/// of this drift reaches 2.5 cents, and no single one is most of it.
#[test]
fn drift_is_no_vibrato() {
    let engine = Engine::new(48_000);
    for seed in 0..6 {
        let mut one = tone(0, 480_000, 466.164, -5.0);
        one.seed = seed;
        let x = guide(&engine, vec![one]);
        let track = pitch_track(&x[4_800..460_000], RATE, 466.164, 2_400, 960);
        let off: Vec<f64> = track.iter().map(|(_, hz)| cents(466.164, *hz)).collect();
        let power = off.iter().map(|o| o * o).sum::<f64>() / off.len() as f64;
        let strongest = (5..100).fold(0.0, |m: f64, tenths| {
            let (mut re, mut im) = (0.0, 0.0);
            for (i, o) in off.iter().enumerate() {
                let angle = std::f64::consts::TAU * f64::from(tenths) / 10.0 * i as f64 / 50.0;
                re += o * angle.cos();
                im += o * angle.sin();
            }
            m.max(2.0 * f64::hypot(re, im) / off.len() as f64)
        });
        assert!(
            strongest < 2.5 && strongest * strongest / 2.0 < 0.5 * power,
            "seed {seed}: {strongest:.2} cents of {:.2} rms",
            power.sqrt()
        );
    }
}

/// Upper partials go first, at any dynamic.
#[test]
fn a_release_darkens_as_it_fades() {
    let engine = Engine::with(48_000, Life::Off);
    for midi in GUIDE.step_by(4) {
        for mark in MARKS {
            let hz = midi_hz(f64::from(midi));
            let mut one = tone(0, 60_000, hz, mark);
            one.release = 12_000;
            let x = guide(&engine, vec![one]);
            let window = (10.0 * RATE / hz) as usize;
            let at = |share: f64| {
                let middle = 48_000 + (share * 12_000.0) as usize;
                let part = &x[middle - window / 2..middle + window / 2];
                (centroid(&partials(part, RATE, hz, 20)), db(rms(part)))
            };
            let course = [at(-0.2), at(0.3), at(0.5), at(0.7)];
            for pair in course.windows(2) {
                assert!(
                    pair[1].0 < 0.995 * pair[0].0 && pair[1].1 < pair[0].1,
                    "MIDI {midi} {mark}: {course:.2?}"
                );
            }
        }
    }
}

/// The mouthpiece alone: a buzz, which is a pitch with its partials, breathier than the horn, and without
/// the horn's formant.
#[test]
fn a_mouthpiece_buzzes() {
    let engine = Engine::new(48_000);
    for midi in [58, 65, 70] {
        let hz = midi_hz(f64::from(midi));
        let [horn, buzz] = [Source::Horn, Source::Mouthpiece].map(|source| {
            let mut one = tone(0, 96_000, hz, -5.0);
            one.source = source;
            let x = guide(&engine, vec![one]);
            let part = &x[14_400..84_000];
            (
                harmonics_over_noise_db(part, RATE, hz),
                partials(part, RATE, hz, 12),
                db(rms(part)),
            )
        });
        assert!(
            buzz.0 > 20.0 && buzz.0 < horn.0 - 2.0,
            "{} {}",
            buzz.0,
            horn.0
        );
        assert!(buzz.2 < horn.2 - 2.0);
        assert!(
            buzz.1
                .iter()
                .filter(|a| db(**a / buzz.1[0]) > -30.0)
                .count()
                > 4
        );
        // Its middle lies below the horn's.
        let middle = |p: &[f64]| centroid(p) * hz;
        assert!(middle(&buzz.1) < 0.95 * middle(&horn.1), "MIDI {midi}");
    }
}
