//! The tone of every family: loudness, headroom, brightness, attack, and what a small loudspeaker leaves of it.

use leadpipe::brass::{Family, INSTRUMENTS};
use leadpipe::score::{Take, unroll};
use leadpipe::synth::spectrum::Timbre;
use leadpipe::synth::{Engine, Life};
use leadpipe::timeline::{Approach, Held, LineSound, Onset, Tone, rise_seconds};

use crate::by_hand::*;
use crate::measure::*;

const RATE: f64 = 48_000.0;

/// MIDI numbers of the lowest and the highest sounding note of a family's instruments.
fn compass(family: Family) -> std::ops::RangeInclusive<u8> {
    let of_family = || INSTRUMENTS.iter().filter(move |i| i.family == family);
    let low = of_family().map(|i| i.sounding(i.lowest).number()).min();
    let high = of_family().map(|i| i.sounding(i.highest).number()).max();
    let number = |n: Option<i32>| u8::try_from(n.expect("an instrument")).expect("a MIDI note");
    number(low)..=number(high)
}

fn note(family: Family, midi: f64, end: u64, db: f64) -> Tone {
    Tone {
        family,
        rise: (RATE * rise_seconds(family, midi_hz(midi), db, Onset::Tongue)) as u64,
        seed: (midi * 100.0) as u64,
        ..tone(0, end, midi_hz(midi), db)
    }
}

/// Amplitudes of the partials of a note held without drift and noise.
fn profile(engine: &Engine, family: Family, midi: u8, db: f64) -> Vec<f64> {
    let x = guide(engine, vec![note(family, f64::from(midi), 90_000, db)]);
    partials(
        &x[15_000..15_000 + 65_536],
        RATE,
        midi_hz(f64::from(midi)),
        80,
    )
}

fn centroid_hz(engine: &Engine, family: Family, midi: u8, db: f64) -> f64 {
    centroid(&profile(engine, family, midi, db)) * midi_hz(f64::from(midi))
}

#[test]
fn every_family_is_in_tune_to_a_cent_over_its_compass() {
    let engine = Engine::new(44_100);
    for family in Family::ALL {
        for midi in compass(family).step_by(3) {
            let hz = midi_hz(f64::from(midi));
            let x = guide(&engine, vec![note(family, f64::from(midi), 88_200, -5.0)]);
            let off = cents(hz, pitch(&x[13_000..85_000], 44_100.0, hz));
            assert!(off.abs() < 1.0, "{family:?} {midi}: {off:+.3} cents");
        }
    }
}

/// The same bar as the trumpet's: −17.8 LUFS held at mf, by an independent R 128 meter.
#[test]
fn every_family_is_as_loud_as_the_trumpet() {
    let engine = Engine::new(48_000);
    for family in Family::ALL {
        let mut range = (0.0f64, -99.0f64);
        for midi in compass(family).step_by(4) {
            let x = guide(&engine, vec![note(family, f64::from(midi), 240_000, -5.0)]);
            let lufs = loudness(&x[9_600..192_000], 48_000);
            range = (range.0.min(lufs), range.1.max(lufs));
            assert!((lufs + 17.8).abs() < 0.8, "{family:?} {midi}: {lufs:.2}");
        }
        println!("{family:?}: {:.1} to {:.1} LUFS at mf", range.0, range.1);
    }
}

/// With the drone (0.050) and an accented click (0.279) nothing may pass −1 dBTP, 0.891: what `balance.rs` asserts of the
/// trumpet.
#[test]
fn no_family_needs_more_headroom_than_is_there() {
    let engine = Engine::new(44_100);
    let mut above = vec![];
    for family in Family::ALL {
        let mut meter = ebur128::EbuR128::new(1, 44_100, ebur128::Mode::TRUE_PEAK).expect("meter");
        for midi in compass(family) {
            let mut one = note(family, f64::from(midi), 30_000, 4.0);
            one.accented = true;
            meter
                .add_frames_f32(&guide(&engine, vec![one]))
                .expect("frames");
        }
        let highest = meter.true_peak(0).expect("a peak");
        println!("{family:?}: {highest:.3}");
        if highest >= 0.562 {
            above.push((family, highest));
        }
    }
    assert!(above.is_empty(), "{above:?}");
}

/// What `tests/recordings` judges is what is heard: the row's curve, within 1 dB.
#[test]
fn a_row_is_what_sounds() {
    let engine = Engine::with(48_000, Life::Off);
    for family in Family::ALL {
        for midi in compass(family).step_by(9) {
            let hz = midi_hz(f64::from(midi));
            let apart: Vec<f64> = (1..=80)
                .take_while(|k| f64::from(*k) * hz < 14_000.0)
                .zip(profile(&engine, family, midi, 0.0))
                .map(|(k, a)| {
                    let level = Timbre::Horn(family).level_db(f64::from(k) * hz, hz, 1.0);
                    (level, db(a) - level)
                })
                .filter(|(level, _)| *level > -45.0)
                .map(|(_, apart)| apart)
                .collect();
            let mean = apart.iter().sum::<f64>() / apart.len() as f64;
            let most = apart.iter().fold(0.0f64, |m, a| m.max((a - mean).abs()));
            assert!(most < 1.0, "{family:?} {midi}: {most:.2} dB");
        }
    }
}

/// A drone on a tuba's own B-flat 1 would be lost on a phone: whatever the instrument, a tonic sounds from B-flat 2 to
/// A3, where `drone_db` is level. A pitch that is named sounds as named, down to E1, as loud as any.
#[test]
fn the_drone_of_a_tuba_is_heard_on_a_phone() {
    let text = |drone: &str| {
        format!(
            "format = 1\ntitle = \"Low\"\npurpose = \"low\"\ninstrument = \"tuba\"\ncomfortable_top = \"Bb2\"\ntempo = 72\nmeter = \"4/4\"\n\
             [[line]]\nname = \"Low\"\npurpose = \"low\"\ndrone = \"{drone}\"\nnotes = \"Bb1:whole | Ab1:whole\"\n"
        )
    };
    let drone = |named: &str| {
        let routine = leadpipe::routine::read(&text(named)).expect("a routine");
        let score = unroll(&routine, &Take::default()).expect("a score");
        score.lines[0].passes[0].drone[0].number()
    };
    assert_eq!(drone("tonic"), 46);
    assert_eq!(drone("Bb1"), 34);
    let engine = Engine::new(48_000);
    for midi in [28.0, 34.0, 39.0, 46.0] {
        let hz = midi_hz(midi);
        let held = Held {
            frame: 0,
            end: 240_000,
            hz: vec![hz],
            fade: 0,
        };
        let line = LineSound {
            drone: vec![held],
            ..LineSound::default()
        };
        let x = perform(&engine, &unit(240_000, line)).drone;
        let lufs = loudness(&x[9_600..230_000], 48_000);
        let heard = share_between(&x[20_000..20_000 + 131_072], RATE, 300.0, 3_000.0);
        println!(
            "drone {hz:.1} Hz: {lufs:.1} LUFS, {:.1} dB above 300 Hz",
            5.0 * db(heard)
        );
        assert!(
            (lufs + 34.5).abs() < 0.5 && heard > 0.3,
            "{hz}: {lufs:.2} {heard:.2}"
        );
    }
}

/// At every sixth half step and loud, where tables hold the most.
#[test]
fn nothing_but_partials_sounds_in_any_family() {
    for rate in RATES {
        let engine = Engine::with(rate, Life::Off);
        for family in Family::ALL {
            let mut worst = f64::MIN;
            for midi in compass(family).step_by(6) {
                for db in [-13.0, 4.0] {
                    let midi = f64::from(midi) + 0.25;
                    let x = guide(&engine, vec![note(family, midi, 160_000, db)]);
                    let steady = &x[10_000..10_000 + 131_072];
                    worst = worst.max(inharmonic_db(steady, f64::from(rate), midi_hz(midi)));
                }
            }
            println!("{family:?} at {rate}: {worst:.1} dB");
            assert!(worst < -80.0, "{family:?} at {rate}: {worst:.1} dB");
        }
    }
}

/// As `tone.rs` asserts of the trumpet.
#[test]
fn every_partial_grows_with_loudness_and_the_tone_brightens() {
    let engine = Engine::with(48_000, Life::Off);
    for family in Family::ALL {
        for midi in compass(family).step_by(7) {
            let profiles: Vec<Vec<f64>> = (MARKS.iter())
                .map(|db| profile(&engine, family, midi, *db))
                .collect();
            for pair in profiles.windows(2) {
                let brighter = centroid(&pair[1]) / centroid(&pair[0]);
                assert!(brighter > 1.004, "{family:?} {midi}: {brighter:.3}");
                for (k, (louder, softer)) in (1..=3).zip(pair[1].iter().zip(&pair[0])) {
                    let growth = db(louder / softer);
                    // Near fortissimo the level saturates while the tone brightens, and the fundamental of a low
                    // trombone stands still.
                    assert!(growth > -0.2, "{family:?} {midi} partial {k}: {growth:.2}");
                }
            }
        }
    }
}

/// From bright to dark at one pitch, and by how much they brighten from p to ff: the order of the brassiness of their
/// bores (Myers, Gilbert, Pyle and Campbell, 2007, from memory), in which trumpet and trombone are too near each
/// other to be told apart, and so are flugelhorn and tenor horn.
#[test]
fn families_stand_in_the_order_of_their_bores() {
    use Family::*;
    let engine = Engine::with(48_000, Life::Off);
    for midi in [53, 58] {
        let bright = |family| centroid_hz(&engine, family, midi, -5.0);
        let growth = |family| {
            let [soft, loud] = [-13.0, 4.0].map(|db| centroid_hz(&engine, family, midi, db));
            (loud / soft).log2()
        };
        for family in Family::ALL {
            println!(
                "{family:?} {midi}: {:.0} Hz at mf, {:.2} octaves",
                bright(family),
                growth(family)
            );
        }
        for pair in [Trumpet, Cornet, Flugelhorn, TenorHorn, Euphonium, Tuba].windows(2) {
            assert!(
                bright(pair[0]) > 1.1 * bright(pair[1]),
                "{pair:?} at {midi}"
            );
        }
        assert!(bright(Trombone) > 1.1 * bright(Horn) && bright(Horn) > 1.1 * bright(Euphonium));
        for pair in [Trumpet, Cornet, Flugelhorn, Euphonium, Tuba].windows(2) {
            assert!(growth(pair[0]) > growth(pair[1]), "{pair:?} at {midi}");
        }
        for pair in [Trombone, Horn, TenorHorn, Euphonium].windows(2) {
            assert!(growth(pair[0]) > growth(pair[1]), "{pair:?} at {midi}");
        }
    }
}

/// The times in which each family comes to full sound on the notes that it plays most (Meyer, Acoustics and the
/// Performance of Music; from memory). Full sound is 95 % of the steady level over two periods.
#[test]
fn attacks_take_the_times_of_their_families() {
    let engine = Engine::with(48_000, Life::Off);
    for (family, midi, times) in [
        (Family::Trumpet, 65, 15.0..40.0),
        (Family::Horn, 53, 30.0..80.0),
        (Family::Trombone, 50, 30.0..60.0),
        (Family::Euphonium, 50, 40.0..70.0),
        (Family::Tuba, 41, 50.0..90.0),
    ] {
        let x = guide(&engine, vec![note(family, f64::from(midi), 60_000, -5.0)]);
        let period = RATE / midi_hz(f64::from(midi));
        let window = (2.0 * period).round() as usize;
        let full = rms(&x[20_000..50_000]);
        let at = (window..20_000).find(|end| rms(&x[end - window..*end]) > 0.95 * full);
        let ms = at.expect("it rises") as f64 / 48.0;
        println!("{family:?}: {ms:.0} ms");
        assert!(times.contains(&ms), "{family:?}: {ms:.0} ms");
    }
}

/// A phone's loudspeaker gives back little below 300 Hz: what a high-pass of fourth order leaves of low notes. The ear
/// takes the pitch from neighbouring partials, so at least four must be left within 20 dB of the strongest.
#[test]
fn a_phone_leaves_enough_of_low_notes_to_hear_their_pitch() {
    let engine = Engine::with(48_000, Life::Off);
    for (family, midi) in [
        (Family::Tuba, 34),
        (Family::Tuba, 41),
        (Family::Euphonium, 46),
        (Family::Trombone, 46),
        (Family::Horn, 41),
    ] {
        let hz = midi_hz(f64::from(midi));
        let all = profile(&engine, family, midi, -5.0);
        let power = |levels: &[f64]| levels.iter().map(|a| a * a).sum::<f64>();
        let left: Vec<f64> = (1..)
            .zip(&all)
            .map(|(k, a)| a / (1.0 + (300.0 / (f64::from(k) * hz)).powi(8)).sqrt())
            .collect();
        let strongest = left.iter().fold(0.0f64, |m, a| m.max(*a));
        let heard: Vec<usize> = (0..left.len())
            .filter(|k| db(left[*k] / strongest) > -20.0)
            .collect();
        let (first, last) = (heard[0], heard[heard.len() - 1]);
        println!(
            "{family:?} {hz:.0} Hz: {:.1} dB left, partials {} to {} within 20 dB",
            0.5 * db(power(&left) / power(&all)),
            first + 1,
            last + 1
        );
        assert!(
            heard.len() >= 4 && last - first + 1 == heard.len(),
            "{family:?}: {heard:?}"
        );
    }
}

/// Low notes slur without a click or a hole, in their own time.
#[test]
fn a_tuba_slurs_without_clicks_or_holes() {
    let engine = Engine::with(48_000, Life::Off);
    for (glide, approach) in [(1_240, 0), (2_470, 1)].map(|(glide, kind)| {
        let approach = match kind {
            0 => Approach::Valves { glide, dip_db: 2.5 },
            _ => Approach::Lips { glide, dip_db: 4.5 },
        };
        (glide, approach)
    }) {
        let one = then(
            note(Family::Tuba, 34.0, 144_000, -5.0),
            72_000,
            midi_hz(41.0),
            approach,
        );
        let x = guide(&engine, vec![one]);
        let steady = largest_step(&x[20_000..60_000]).max(largest_step(&x[90_000..130_000]));
        let join = largest_step(&x[72_000 - glide as usize..72_000 + glide as usize]);
        assert!(join < 1.1 * steady, "{approach:?}: {join} of {steady}");
        let deepest = levels(&x[40_000..110_000], 1_650, 100)
            .into_iter()
            .fold(f64::MAX, |m, (_, level)| m.min(level));
        assert!(db(deepest / rms(&x[20_000..60_000])) > -9.0, "{approach:?}");
    }
}
