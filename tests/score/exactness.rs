//! Lengths and moments stay exact, whatever the tempos and the notes.

use super::{compile, lines, routine_at, seconds, unroll};
use leadpipe::score::Take;
use leadpipe::timeline::Content;
use proptest::prelude::*;

#[test]
fn line_starts_are_exact_however_many_prime_tempos_come_before() {
    let primes = [61, 67, 71, 73, 79, 83, 89, 97, 101, 103, 107, 109, 113];
    let bodies: Vec<String> = primes
        .iter()
        .map(|p| format!("notes = \"G4:whole\"\ntempo = {p}.001"))
        .collect();
    let bodies: Vec<&str> = bodies.iter().map(String::as_str).collect();
    let routine = routine_at("60", &bodies);
    let score = unroll(&routine);
    // Four clicks in, four played, four of rest which hold the next count-in or are lengthened to it
    // and half a second: summed in floating point as an independent check.
    let click = |i: usize| 60.0 / (f64::from(primes[i]) + 0.001);
    let mut start = 0.5;
    for (i, line) in score.lines.iter().enumerate() {
        assert!(
            (seconds(&line.start) - start).abs() < 1e-9,
            "line {}",
            i + 1
        );
        if i + 1 < primes.len() {
            let rest = (4.0 * click(i)).max(4.0 * click(i + 1) + 0.5);
            start += 8.0 * click(i) + rest - 4.0 * click(i + 1);
        }
    }
}

fn some_line() -> impl Strategy<Value = String> {
    let notes = prop::sample::select(vec![
        "slur( G4:half F#4:half | G4:whole ) breath | A4:quarter G4:quarter (staccato) rest:half",
        "p C4:quarter cresc D4:quarter tie:eighth E4:eighth f F4:quarter | G4:whole",
        "triplet( C4:quarter E4:quarter G4:quarter ) slur( E4:quarter Eb4:quarter (bend) )",
    ]);
    let rest = prop::sample::select(vec!["same", "none", "2 bars", "3 beats", "7.25 s"]);
    let guide = prop::sample::select(vec!["together", "echo", "off"]);
    (notes, rest, rest_again(), guide, 20u32..=300, 1u32..4, 1u32..3).prop_map(
        |(notes, rest, between, guide, tempo, times, count_in)| {
            format!(
                "notes = \"{notes}\"\nrest = \"{rest}\"\nbetween = \"{between}\"\nguide = \"{guide}\"\n\
                 tempo = {tempo}\ntimes = {times}\ncount_in = {count_in}\nhalf_steps = [0, -2]"
            )
        },
    )
}

fn rest_again() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec!["same", "none", "1 bar", "5 beats", "3 s"])
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn units_follow_one_another_and_nothing_in_them_overlaps(lines_of in prop::collection::vec(some_line(), 1..5)) {
        let bodies: Vec<&str> = lines_of.iter().map(String::as_str).collect();
        let routine = routine_at("72", &bodies);
        let timeline = compile(&routine, &Take::default());
        let mut now = 0;
        for unit in &timeline.units {
            prop_assert_eq!(unit.first_frame, now);
            now += unit.frames;
            if let Content::Line(sound) = &unit.content {
                prop_assert!(sound.clicks.windows(2).all(|w| w[0].frame < w[1].frame));
                prop_assert!(sound.drone.windows(2).all(|w| w[0].end == w[1].frame));
                prop_assert!(sound.tones.windows(2).all(|w| w[0].end <= w[1].frame));
                for tone in &sound.tones {
                    prop_assert!(tone.end <= unit.frames && tone.release < tone.end - tone.frame);
                    prop_assert!(tone.steps.windows(2).all(|w| w[0].frame < w[1].frame));
                    prop_assert!(tone.levels.windows(2).all(|w| w[0].frame <= w[1].frame));
                    prop_assert_eq!(tone.levels[0].frame, tone.frame);
                }
            }
        }
        prop_assert_eq!(now, timeline.frames);
    }

    #[test]
    fn lengths_add_up(lines_of in prop::collection::vec(some_line(), 1..5)) {
        let bodies: Vec<&str> = lines_of.iter().map(String::as_str).collect();
        let routine = routine_at("72", &bodies);
        let score = unroll(&routine);
        for pair in score.lines.windows(2) {
            let count_in = pair[1].seconds(pair[1].count_in);
            let rest = pair[0].rest.expect("a line follows");
            prop_assert!(rest.seconds >= count_in + num_rational::Ratio::new(1, 2));
            let to = seconds(&pair[0].start)
                + ratio(pair[0].total_seconds() + rest.seconds - count_in);
            prop_assert!((seconds(&pair[1].start) - to).abs() < 1e-9);
        }
        for line in &score.lines {
            for pair in line.passes.windows(2) {
                prop_assert_eq!(pair[0].end() + pair[0].between, pair[1].start);
                prop_assert!((pair[1].start / line.meter.bar()).is_integer());
            }
        }
    }

    #[test]
    fn one_changed_line_changes_no_other_lines_sound(lines_of in prop::collection::vec(some_line(), 2..5), changed in 0usize..5, to in some_line()) {
        // After a rest of nothing the next line's "same" counts what was played before it, as it says.
        prop_assume!(!lines_of.iter().chain([&to]).any(|l| l.contains("rest = \"none\"")));
        let changed = changed % lines_of.len();
        let mut other = lines_of.clone();
        other[changed] = to;
        let compiled = |of: &[String]| {
            let bodies: Vec<&str> = of.iter().map(String::as_str).collect();
            compile(&routine_at("72", &bodies), &Take::default())
        };
        let (before, after) = (compiled(&lines_of), compiled(&other));
        for (i, (a, b)) in lines(&before).iter().zip(lines(&after)).enumerate() {
            if i != changed {
                prop_assert_eq!(a.1, b.1, "line {}", i + 1);
            }
        }
    }
}

fn ratio(r: leadpipe::music::Seconds) -> f64 {
    *r.numer() as f64 / *r.denom() as f64
}
