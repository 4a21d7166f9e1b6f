//! How a note starts, held against 29 recorded notes of five sets, measured in the same way by
//! `tests/recordings/starts.py`.

use leadpipe::synth::{Engine, Life};
use leadpipe::timeline::Onset;

use crate::by_hand::*;
use crate::measure::*;

const RATE: f64 = 48_000.0;
/// Seeds over which what is left to chance is averaged.
const SEEDS: u64 = 6;

/// RMS over two periods that end at each frame.
fn level(x: &[f32], hz: f64) -> Vec<f64> {
    let window = (2.0 * RATE / hz) as usize;
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

/// dB of what lies between the partials over the whole, in the first eight periods through a Hann window, up to 10 kHz. A
/// partial that only grows stays within two eighths of the way to the next.
fn off_harmonic_db(x: &[f32], hz: f64) -> f64 {
    let steady = rms(&x[7_200..16_800]);
    let first = level(x, hz).iter().position(|l| *l > 0.05 * steady);
    let first = first
        .expect("it sounds")
        .saturating_sub((RATE / hz / 2.0) as usize);
    let n = (8.0 * RATE / hz).round() as usize;
    let (mut off, mut whole) = (0.0, 0.0);
    // Sixteen lines from one partial to the next.
    for line in 8..(16.0 * 10_000.0 / hz) as usize {
        let turn = std::f64::consts::TAU * line as f64 / 16.0 * hz / RATE;
        let (mut re, mut im) = (0.0, 0.0);
        for (i, v) in x[first..first + n].iter().enumerate() {
            let hann = 0.5 - 0.5 * (std::f64::consts::TAU * i as f64 / n as f64).cos();
            let (sin, cos) = (turn * i as f64).sin_cos();
            re += hann * f64::from(*v) * cos;
            im += hann * f64::from(*v) * sin;
        }
        let place = line as f64 / 16.0;
        whole += re * re + im * im;
        if (place - place.round()).abs() > 0.3 {
            off += re * re + im * im;
        }
    }
    10.0 * (off / whole).log10()
}

fn note(seed: u64, hz: f64, mark: f64) -> leadpipe::timeline::Tone {
    let mut one = tone(0, 30_000, hz, mark);
    one.seed = seed;
    one
}

/// Recorded: the middle half of the notes −10 to −15 dB, all of them −6 to −26. The guide was −30 to −35, and is held to the
/// cleaner part: what is to be imitated speaks well.
#[test]
fn the_first_periods_are_as_unclean_as_recorded_ones() {
    let engine = Engine::new(48_000);
    let mut all = vec![];
    for midi in GUIDE.step_by(4) {
        let hz = midi_hz(f64::from(midi));
        let by_mark = MARKS.map(|mark| {
            let of = |seed| off_harmonic_db(&guide(&engine, vec![note(seed, hz, mark)]), hz);
            (1..=SEEDS).map(of).sum::<f64>() / SEEDS as f64
        });
        println!("MIDI {midi}: {by_mark:.1?} dB");
        all.push((midi, by_mark));
    }
    for (midi, by_mark) in all {
        assert!(
            by_mark.iter().all(|db| (-20.5..-11.0).contains(db)),
            "MIDI {midi}: {by_mark:.1?}"
        );
        // The louder, the more: of each mark to the second after it.
        for marks in by_mark.windows(3) {
            assert!(marks[2] > marks[0], "MIDI {midi}: {by_mark:.1?}");
        }
        assert!(by_mark[5] > by_mark[0] + 1.0, "MIDI {midi}: {by_mark:.1?}");
    }
}

/// Recorded: the middle half 0.6 to 2.0 dB, median 1.4. A horn that is blown as loud as it goes has no room for it.
#[test]
fn a_note_overshoots() {
    let engine = Engine::with(48_000, Life::Off);
    for midi in GUIDE.step_by(4) {
        let hz = midi_hz(f64::from(midi));
        for mark in MARKS {
            let course = level(&guide(&engine, vec![tone(0, 30_000, hz, mark)]), hz);
            let most = course[..7_200].iter().fold(0.0, |m: f64, l| m.max(*l));
            let over = db(most / course[20_000]);
            let wanted = if mark > 3.0 { 0.15..1.0 } else { 1.0..1.8 };
            assert!(wanted.contains(&over), "MIDI {midi} {mark}: {over:.2} dB");
        }
    }
}

/// Recorded: 11 to 36 ms from 10 to 90 % in the middle half, 8 to 20 in well-spoken notes, shorter the higher the note.
#[test]
fn loud_notes_speak_sooner() {
    let engine = Engine::with(48_000, Life::Off);
    let mut usual = vec![];
    for midi in GUIDE.step_by(2) {
        let hz = midi_hz(f64::from(midi));
        let by_mark = MARKS.map(|mark| {
            let course = level(&guide(&engine, vec![tone(0, 30_000, hz, mark)]), hz);
            let passes = |share: f64| {
                let over = |l: &f64| *l > share * course[20_000];
                course.iter().position(over).expect("it rises") as f64 / 48.0
            };
            passes(0.9) - passes(0.1)
        });
        println!("MIDI {midi}: {by_mark:.1?} ms");
        usual.push((midi, by_mark));
    }
    for (midi, by_mark) in &usual {
        let (first, last) = (by_mark[0], by_mark[4]);
        assert!(
            first > 1.1 * last && last > 7.5 && first < 24.0,
            "MIDI {midi}: {by_mark:.1?}"
        );
    }
    let all: Vec<f64> = usual.iter().flat_map(|(_, ms)| *ms).collect();
    let within = all.iter().filter(|ms| (8.0..20.0).contains(*ms)).count();
    assert!(within * 10 > all.len() * 8, "{within} of {}", all.len());
}

/// Frequency over periods 2 to 4, by the lag at which they are most like what follows.
fn first_hz(x: &[f32], hz: f64) -> f64 {
    let period = (RATE / hz) as usize;
    let likeness = |lag: usize| {
        let (a, b) = (&x[period..3 * period], &x[period + lag..3 * period + lag]);
        let both: f64 = a
            .iter()
            .zip(b)
            .map(|(a, b)| f64::from(*a) * f64::from(*b))
            .sum();
        both / (rms(a) * rms(b))
    };
    let lags = period * 9 / 10..period * 11 / 10;
    let best = lags.max_by(|a, b| likeness(*a).total_cmp(&likeness(*b)));
    let best = best.expect("there are lags");
    let [before, here, after] = [best - 1, best, best + 1].map(likeness);
    RATE / (best as f64 + 0.5 * (before - after) / (before - 2.0 * here + after))
}

/// A scoop from below, deeper the louder, gone before the note is steady; with a softer start, less.
#[test]
fn a_note_scoops_into_its_pitch() {
    let engine = Engine::new(48_000);
    let bare = Engine::with(48_000, Life::Off);
    for hz in [164.814, 233.082, 349.228] {
        let early = |mark, onset| {
            let one = |seed| vec![started(note(seed, hz, mark), onset)];
            let heard = |engine, seed| first_hz(&guide(engine, one(seed)), hz);
            // What the rise alone does to the measurement falls out.
            let of = |seed| cents(heard(&bare, seed), heard(&engine, seed));
            // The noise of the start misleads a measurement now and then.
            let mut all: Vec<f64> = (1..=3 * SEEDS).map(of).collect();
            all.sort_by(f64::total_cmp);
            all[all.len() / 2]
        };
        let (soft, loud) = (early(-13.0, Onset::Tongue), early(0.0, Onset::Tongue));
        let air = early(0.0, Onset::Air);
        println!("{hz}: p {soft:.1}, f {loud:.1}, by air {air:.1} cents");
        assert!(loud < -4.0 && loud < soft - 2.0, "{hz}: {soft} {loud}");
        assert!(air > loud + 2.0, "{hz}: {air} {loud}");
    }
}

/// Held: its level moves by 1 to 2 dB, and no quicker than 8 Hz.
#[test]
fn a_held_note_breathes_by_a_decibel_or_two() {
    let engine = Engine::new(48_000);
    let (mut least, mut most) = (f64::MAX, f64::MIN);
    for seed in 1..=12 {
        let mut one = tone(0, 240_000, 349.228, -5.0);
        one.seed = seed;
        let x = guide(&engine, vec![one]);
        // Over a sixteenth of a second, so that noise and what is quicker than 8 Hz do not show.
        let course: Vec<f64> = levels(&x[14_400..220_000], 3_000, 480)
            .iter()
            .map(|(_, l)| db(*l))
            .collect();
        let top = course.iter().copied().fold(f64::MIN, f64::max);
        let low = course.iter().copied().fold(f64::MAX, f64::min);
        (least, most) = (least.min(top - low), most.max(top - low));
    }
    println!("ripple {least:.2} to {most:.2} dB");
    assert!(least > 1.0 && most < 2.0, "{least} {most}");
}
