//! How notes are joined as a routine asks for it, from its text to its sound.

use leadpipe::routine;
use leadpipe::score::{Take, unroll};
use leadpipe::synth::{Engine, Life};
use leadpipe::timeline::{Content, LineSound, Settings, compile};

use crate::by_hand::*;
use crate::measure::*;

const RATE: usize = 48_000;

/// The only line of a routine at a tempo, and its guide.
fn line(life: Life, tempo: u32, notes: &str) -> (LineSound, Vec<f32>) {
    let text = format!(
        "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G5\"\n\
         tempo = {tempo}\n[[line]]\nname = \"L\"\nnotes = \"{notes}\"\n"
    );
    let routine = routine::read(&text).expect("a routine");
    let score = unroll(&routine, &Take::default()).expect("a score");
    let settings = Settings {
        sample_rate: RATE as u32,
        signs: false,
    };
    let mut timeline = compile(&score, &settings);
    let unit = timeline
        .units
        .iter_mut()
        .find(|unit| matches!(unit.content, Content::Line(_)))
        .expect("a line");
    let guide = perform(&Engine::with(RATE as u32, life), unit).guide;
    let Content::Line(line) = unit.content.clone() else {
        unreachable!("it was looked for")
    };
    (line, guide)
}

/// Frames of silence, below −80 dBFS, before the frame at which a tone starts.
fn silence_before(x: &[f32], frame: u64) -> usize {
    x[..frame as usize]
        .iter()
        .rev()
        .take_while(|v| f64::from(v.abs()) < SILENCE)
        .count()
}

/// The gap before the second of two tongued notes in ms, and how far the level falls in it, in dB.
fn gap(tempo: u32, first: &str, second: &str) -> (f64, f64) {
    let (line, x) = line(Life::Off, tempo, &format!("{first} {second}"));
    let [one, two] = &line.tones[..] else {
        panic!("two tones");
    };
    let silent = silence_before(&x, two.frame);
    let steady = rms(&x[(one.frame + (one.end - one.frame) / 2) as usize..][..2_000]);
    let least = levels(
        &x[one.end as usize - 4_000..two.frame as usize + 2_000],
        240,
        24,
    )
    .iter()
    .fold(f64::MAX, |m, (_, level)| m.min(*level));
    (silent as f64 / 48.0, db(least / steady))
}

/// JASA 58:S132 (1975): silence is the strongest cue of detachment. Its length goes by articulation and by
/// the note's own length.
#[test]
fn gaps_go_by_articulation_and_length() {
    let plain = gap(72, "G4:quarter", "G4:quarter");
    let legato = gap(72, "G4:quarter(legato)", "G4:quarter");
    let staccato = gap(72, "G4:quarter(staccato)", "G4:quarter");
    assert!(
        legato.0 < 0.8 * plain.0 && plain.0 < 0.2 * staccato.0,
        "{legato:.1?} {plain:.1?} {staccato:.1?}"
    );
    let quick = gap(140, "G4:sixteenth", "G4:sixteenth");
    assert!(quick.0 < 0.8 * plain.0, "{quick:.1?} {plain:.1?}");
    for (silent, fall) in [plain, legato, staccato, quick] {
        assert!(
            silent >= 9.0 && fall < -20.0,
            "{silent:.1} ms, {fall:.1} dB"
        );
    }
    // Whatever the next note starts with, the air stops before it.
    for second in ["G4:quarter(ku)", "G4:quarter(air)", "G4:quarter(accent)"] {
        let (silent, fall) = gap(72, "G4:quarter", second);
        assert!(silent >= 15.0 && fall < -20.0, "{second}: {silent:.1} ms");
    }
}

/// Milliseconds from 10 to 90 % of the way between two notes, by the turn of phase of the first partial over
/// four periods, and the depth of the dip in dB against the softer of the two.
fn slur(from: &str, to: &str) -> (f64, f64) {
    let (line, x) = line(Life::Off, 60, &format!("slur( {from}:whole {to}:whole )"));
    let [tone] = &line.tones[..] else {
        panic!("one tone");
    };
    let (low, high) = (tone.steps[0].hz, tone.steps[1].hz);
    let middle = tone.steps[1].frame as usize;
    let shape = (4.0 * RATE as f64 / low.min(high)) as usize;
    let phase = |at: usize| {
        let (mut re, mut im) = (0.0f64, 0.0f64);
        for i in 0..shape {
            let hann = 0.5 - 0.5 * (std::f64::consts::TAU * (i as f64 + 0.5) / shape as f64).cos();
            let angle = std::f64::consts::TAU * low * (at + i) as f64 / RATE as f64;
            re += hann * f64::from(x[at - shape / 2 + i]) * angle.cos();
            im -= hann * f64::from(x[at - shape / 2 + i]) * angle.sin();
        }
        im.atan2(re)
    };
    const HOP: usize = 24;
    let course: Vec<f64> = (0..400)
        .map(|i| middle - 200 * HOP + i * HOP)
        .map(|at| {
            let turn = phase(at + HOP) - phase(at);
            let turn = turn - std::f64::consts::TAU * (turn / std::f64::consts::TAU).round();
            let hz = low + turn / std::f64::consts::TAU * RATE as f64 / HOP as f64;
            cents(low, hz) / cents(low, high)
        })
        .collect();
    let last_below = |share: f64| {
        course
            .iter()
            .rposition(|x| *x < share)
            .expect("it starts low")
    };
    let ms = (last_below(0.9) - last_below(0.1)) as f64 * HOP as f64 / 48.0;
    let period = (RATE as f64 / low.min(high)) as usize;
    let least = levels(&x[middle - 8_000..middle + 8_000], 2 * period, 24)
        .iter()
        .fold(f64::MAX, |m, (_, level)| m.min(*level));
    let steady =
        rms(&x[middle - 30_000..middle - 12_000]).min(rms(&x[middle + 12_000..middle + 30_000]));
    (ms, db(least / steady))
}

/// Over valves: one stroke of a few to 15 ms. On one tube: through the boundary between two slots in
/// 30–80 ms, longer and deeper the wider the leap. No slur is silent; every one dips less than a tongue.
#[test]
fn slurs_over_valves_cross_quickly_and_on_one_tube_glide() {
    let valve = slur("C5", "B4");
    let third = slur("C5", "E5");
    let fourth = slur("G4", "C5");
    let octave = slur("C4", "C5");
    let all = [valve, third, fourth, octave];
    assert!(valve.0 < 15.0, "{all:.1?}");
    // From 10 to 90 % a smooth glide takes about half of its whole length.
    assert!(
        valve.0 < 0.7 * third.0 && third.0 > 15.0 && octave.0 < 80.0,
        "{all:.1?}"
    );
    assert!(third.0 < fourth.0 && fourth.0 < octave.0, "{all:.1?}");
    assert!(
        valve.1 > third.1 && third.1 > fourth.1 && fourth.1 > octave.1,
        "{all:.1?}"
    );
    assert!(
        all.iter().all(|(_, dip)| (-12.0..-1.0).contains(dip)),
        "{all:.1?}"
    );
    let tongued = gap(60, "G4:whole", "C5:whole").1;
    assert!(
        all.iter().all(|(_, dip)| *dip > tongued + 8.0),
        "{tongued:.1}"
    );
    // Their lengths as decided.
    for (from, to, least, most) in [
        ("C5", "B4", 3, 15),
        ("G4", "C5", 30, 80),
        ("C4", "C5", 30, 80),
    ] {
        let (line, _) = line(Life::Off, 60, &format!("slur( {from}:whole {to}:whole )"));
        let glide = match line.tones[0].steps[1].approach {
            leadpipe::timeline::Approach::Valves { glide, .. }
            | leadpipe::timeline::Approach::Lips { glide, .. } => glide / 48,
            other => panic!("{other:?}"),
        };
        assert!((least..=most).contains(&glide), "{from} {to}: {glide} ms");
    }
}

/// A listener places a note where its sound has half its height: within 5 ms of the beat, whatever its pitch, loudness and
/// start.
#[test]
fn the_middle_of_the_rise_is_on_the_beat() {
    let (mut least, mut most) = (f64::MAX, f64::MIN);
    for mark in ["pp", "p", "mp", "mf", "f", "ff"] {
        for note in ["G3", "C4", "G4", "C5", "E5", "G5", "C6"] {
            for start in ["", "(ku)", "(air)", "(accent)"] {
                let notes = format!("{mark} C4:quarter {note}:quarter{start}");
                let (line, x) = line(Life::On, 60, &notes);
                let step = &line.tones[1].steps[0];
                let (beat, period) = (step.frame as usize, (RATE as f64 / step.hz) as usize);
                let steady = rms(&x[beat + 12_000..beat + 24_000]);
                let course = levels(&x[beat - 3_000..beat + 6_000], 2 * period, 12);
                let (at, _) = course
                    .iter()
                    .find(|(at, level)| *at > 2_000 && *level > 0.5 * steady)
                    .expect("it rises");
                let ms = (*at as f64 - 3_000.0) / 48.0;
                (least, most) = (least.min(ms), most.max(ms));
                assert!(ms.abs() < 5.0, "{mark} {note}{start}: {ms:+.1} ms");
            }
        }
    }
    println!("the middle of a rise is {least:+.1} to {most:+.1} ms from its beat");
}

/// An accent is louder and brighter at first, and the same note after.
#[test]
fn an_accent_is_louder_and_brighter_at_first() {
    let (plain, x) = line(Life::Off, 60, "G4:whole");
    let (_, accented) = line(Life::Off, 60, "G4:whole(accent)");
    let hz = plain.tones[0].steps[0].hz;
    let start = plain.tones[0].frame as usize;
    let look = |x: &[f32], at: usize| {
        let part = &x[start + at..start + at + 1_440];
        (rms(part), centroid(&partials(part, 48_000.0, hz, 20)))
    };
    let (first, first_accented) = (look(&x, 960), look(&accented, 960));
    assert!(db(first_accented.0 / first.0) > 1.0 && first_accented.1 > 1.05 * first.1);
    let (later, later_accented) = (look(&x, 24_000), look(&accented, 24_000));
    assert!(db(later_accented.0 / later.0).abs() < 0.05);
    assert!((later_accented.1 / later.1 - 1.0).abs() < 0.01);
}

/// Inside a slur the tongue is not there to accent a note: the air pushes it, and nothing parts it from the
/// note before; a crescendo under it goes on.
#[test]
fn an_accent_inside_a_slur_is_a_push_of_the_air() {
    let joined = |mark: &str| {
        let notes = format!("p cresc slur( G4:half A4:half{mark} G4:half ) f C5:half");
        line(Life::Off, 60, &notes)
    };
    let ((plain, x), (accented, y)) = (joined(""), joined("(accent)"));
    assert_eq!(plain.tones.len(), accented.tones.len());
    let start = plain.tones[0].steps[1].frame as usize;
    let look = |x: &[f32], ms: usize| {
        let at = start + 48 * ms;
        rms(&x[at..at + 960])
    };
    let louder: Vec<f64> = [10, 30, 60, 200, 1_000]
        .iter()
        .map(|ms| db(look(&y, *ms) / look(&x, *ms)))
        .collect();
    assert!(
        louder[0] > 1.0 && louder[1] > 1.0 && louder[1] < 2.6,
        "{louder:?}"
    );
    assert!(louder[2] > 0.3 && louder[2] < louder[1], "{louder:?}");
    assert!(
        louder[3].abs() < 0.05 && louder[4].abs() < 0.05,
        "{louder:?}"
    );
    // Before it they are the same bits.
    assert!(x[..start - 2_000] == y[..start - 2_000]);
    assert!(largest_step(&y) < 1.05 * largest_step(&x));
}

/// A bend and its return are one line from pitch to pitch, darker and softer below.
#[test]
fn a_bend_is_one_line_and_darker() {
    let (line, x) = line(Life::Off, 60, "slur( G4:half F#4:half(bend) | G4:whole )");
    let [tone] = &line.tones[..] else {
        panic!("one tone");
    };
    let [top, low, back] = &tone.steps[..] else {
        panic!("three notes");
    };
    let look = |frame: u64, hz: f64| {
        let part = &x[frame as usize..][..16_384];
        (centroid(&partials(part, 48_000.0, hz, 30)) * hz, rms(part))
    };
    let [first, bent, last] = [
        look(top.frame + 24_000, top.hz),
        look(low.frame + 40_000, low.hz),
        look(back.frame + 40_000, back.hz),
    ];
    assert!(bent.0 < 0.85 * first.0 && db(bent.1 / first.1) < -1.5);
    assert!((last.0 / first.0 - 1.0).abs() < 0.02 && db(last.1 / first.1).abs() < 0.1);
    let steps = pitch_track(
        &x[top.frame as usize + 30_000..back.frame as usize + 30_000],
        48_000.0,
        0.5 * (top.hz + low.hz),
        1_440,
        240,
    );
    for pair in steps.windows(2) {
        assert!(cents(pair[0].1, pair[1].1).abs() < 9.0);
    }
}

/// Every kind of start, join and end of one line, and no click: no step from frame to frame beyond what
/// the loudest steady tone has.
#[test]
fn no_articulation_clicks() {
    let notes = "f C5:quarter E5:quarter(staccato) G4:quarter(legato) C5:quarter(accent) | \
                 C5:quarter(ku) C5:quarter(air) slur( C5:quarter B4:quarter ) | \
                 slur( C4:half C5:half ) | G4:half F#4:half(bend) | pp C5:half ff C5:half | \
                 slur( C5:eighth D5:eighth(accent) E5:eighth D5:eighth ) C5:half";
    let (line, x) = line(Life::Off, 100, notes);
    let loudest = line
        .tones
        .iter()
        .filter(|tone| tone.levels[0].db == 4.0)
        .map(|tone| largest_step(&x[tone.frame as usize + 8_000..tone.end as usize - 6_000]))
        .fold(0.0, f64::max);
    assert!(loudest > 0.0);
    assert!(
        largest_step(&x) < 1.05 * loudest,
        "{} {loudest}",
        largest_step(&x)
    );
}

/// Breathing is noise: nothing in it stands out as a pitch would.
#[test]
fn air_lines_sound_like_breath() {
    let text = "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G5\"\n\
                tempo = 60\n[[line]]\nname = \"L\"\non = \"air\"\nnotes = \"in:whole out:whole\"\n";
    let routine = routine::read(text).expect("a routine");
    let score = unroll(&routine, &Take::default()).expect("a score");
    let settings = Settings {
        sample_rate: RATE as u32,
        signs: false,
    };
    let timeline = compile(&score, &settings);
    let unit = &timeline.units[1];
    let Content::Line(line) = &unit.content else {
        panic!("a line");
    };
    let x = perform(&Engine::new(RATE as u32), unit).guide;
    assert_eq!((line.swells.len(), line.tones.len()), (2, 0));
    for swell in &line.swells {
        let middle = (swell.frame + swell.end) as usize / 2;
        let spectrum = spectrum(&x[middle - 16_384..middle + 16_384]);
        // From 300 Hz to 3.8 kHz, in bands of a sixth of an octave: the strongest line of each against its
        // mean. Noise gives some 10 dB, a partial 25 and more.
        let mut low = 300.0;
        while low < 3_800.0 {
            let bin = |hz: f64| (hz * 32_768.0 / 48_000.0) as usize;
            let band = &spectrum[bin(low)..bin(low * 1.1225)];
            let mean = (band.iter().map(|a| a * a).sum::<f64>() / band.len() as f64).sqrt();
            let most = band.iter().fold(0.0, |m: f64, a| m.max(*a));
            assert!(
                db(most / mean) < 13.0,
                "{low:.0} Hz: {:.1}",
                db(most / mean)
            );
            low *= 1.1225;
        }
    }
}
