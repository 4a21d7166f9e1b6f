//! The score and the timeline: what a routine means in time, to the frame.
//!
//! Expected times are worked out by hand from the written meaning of the format (README.md, "What it
//! means in time"), never by calling the code that is tested.

use leadpipe::brass::Tube;
use leadpipe::music::{Decimal, Whole};
use leadpipe::routine::{self, Guide, Routine};
use leadpipe::score::{self, Joined, NoticeKind, Played, Score, Take, TakeFault, TakeTempo};
use leadpipe::timeline::{self, Approach, Content, LineSound, RestSound, Settings, Sign, Timeline};
use num_rational::BigRational;
use proptest::prelude::*;

const RATE: u32 = 44_100;

/// A routine at 60 clicks a minute, so that a click is a second.
fn routine_at(tempo: &str, lines: &[&str]) -> Routine {
    let mut text = format!(
        "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G4\"\n\
         tempo = {tempo}\n"
    );
    for (i, line) in lines.iter().enumerate() {
        text.push_str(&format!("[[line]]\nname = \"L{}\"\n{line}\n", i + 1));
    }
    routine::read(&text).unwrap_or_else(|f| panic!("{text}\n{f:#?}"))
}

fn unroll(routine: &Routine) -> Score<'_> {
    score::unroll(routine, &Take::default()).expect("it unrolls")
}

fn seconds(r: &BigRational) -> f64 {
    use num_traits::ToPrimitive;
    r.to_f64().expect("a number")
}

fn compile(routine: &Routine, take: &Take) -> Timeline {
    let score = score::unroll(routine, take).expect("it unrolls");
    timeline::compile(
        &score,
        &Settings {
            sample_rate: RATE,
            signs: true,
        },
    )
}

fn lines(timeline: &Timeline) -> Vec<(u64, &LineSound)> {
    let line = |u: &'_ timeline::Unit| match &u.content {
        Content::Line(_) => Some(u.first_frame),
        Content::Rest(_) => None,
    };
    timeline
        .units
        .iter()
        .filter_map(|u| match &u.content {
            Content::Line(sound) => Some((line(u)?, sound)),
            Content::Rest(_) => None,
        })
        .collect()
}

fn rests(timeline: &Timeline) -> Vec<(u64, u64, &RestSound)> {
    let rest = |u: &'_ timeline::Unit| (u.first_frame, u.frames);
    timeline
        .units
        .iter()
        .filter_map(|u| match &u.content {
            Content::Rest(sound) => Some((rest(u).0, rest(u).1, sound)),
            Content::Line(_) => None,
        })
        .collect()
}

#[test]
fn a_track_is_half_a_second_then_count_in_passes_rests_and_a_fade() {
    let routine = routine_at(
        "60",
        &[
            "notes = \"G4:whole\"",
            "notes = \"G4:whole\"\nmeter = \"3/4\"",
        ],
    );
    let score = unroll(&routine);
    // 0.5 s, four clicks in, four played, four of rest that hold the six of a 3/4 count-in? No: the
    // rest is lengthened to the count-in and half a second.
    assert_eq!(seconds(&score.lines[0].start), 0.5);
    let rest = score.lines[0].rest.expect("a line follows");
    assert_eq!(rest.seconds, num_rational::Ratio::new(13, 2));
    assert!(rest.asked.is_some());
    assert_eq!(seconds(&score.lines[1].start), 9.0);
    // Six clicks in, a whole note in 3/4 filled up to two bars, 0.3 s.
    assert!((seconds(&score.seconds) - (9.0 + 6.0 + 6.0 + 0.3)).abs() < 1e-12);
    assert!(score.lines[1].rest.is_none(), "no rest after the last line");
}

#[test]
fn the_count_in_is_the_end_of_the_rest() {
    let routine = routine_at(
        "60",
        &[
            "notes = \"G4:whole\"\nrest = \"20 s\"",
            "notes = \"G4:whole\"",
        ],
    );
    let score = unroll(&routine);
    assert_eq!(seconds(&score.lines[1].start), 0.5 + 8.0 + 20.0 - 4.0);
    let timeline = compile(&routine, &Take::default());
    let rest = rests(&timeline)[1];
    // From the end of the fade to the count-in.
    assert_eq!(rest.0, (8.8 * 44_100.0) as u64);
    assert_eq!(rest.0 + rest.1, (24.5 * 44_100.0) as u64);
    // Horn up six seconds before the first note at 28.5 s, which is 13.7 s into this stretch.
    assert_eq!(
        rest.2.signs,
        [
            (0, Sign::HornDown),
            ((13.7 * 44_100.0) as u64, Sign::HornUp)
        ]
    );
    let unsigned = timeline::compile(
        &score,
        &Settings {
            sample_rate: RATE,
            signs: false,
        },
    );
    assert!(rests(&unsigned).iter().all(|r| r.2.signs.is_empty()));
}

#[test]
fn short_rests_and_long_count_ins_carry_no_signs() {
    for (tempo, lines) in [
        // Eight seconds exactly are not more than eight.
        (
            "60",
            [
                "notes = \"G4:whole\"\nrest = \"8 s\"",
                "notes = \"G4:whole\"",
            ],
        ),
        // Six seconds before the first note is inside a count-in of eight.
        (
            "60",
            [
                "notes = \"G4:whole\"\nrest = \"30 s\"",
                "notes = \"G4:whole\"\ncount_in = 2",
            ],
        ),
    ] {
        let timeline = compile(&routine_at(tempo, &lines), &Take::default());
        assert!(
            rests(&timeline).iter().all(|r| r.2.signs.is_empty()),
            "{lines:?}"
        );
    }
}

#[test]
fn same_rests_as_long_as_was_played_since_the_last_rest() {
    let bars = |lines: &[&str]| -> Vec<i64> {
        let routine = routine_at("60", lines);
        let score = unroll(&routine);
        let in_bars = |s: leadpipe::music::Seconds| (s / 4).to_integer() as i64;
        score
            .lines
            .iter()
            .filter_map(|l| l.rest.map(|r| in_bars(r.seconds)))
            .collect()
    };
    let two = "notes = \"G4:whole | G4:whole\"";
    assert_eq!(bars(&[two, two]), [2]);
    // Between passes the same: only the last pass is owed at the end.
    assert_eq!(bars(&[&format!("{two}\ntimes = 3"), two]), [2]);
    // Without rests between, all three are.
    assert_eq!(
        bars(&[&format!("{two}\ntimes = 3\nbetween = \"none\""), two]),
        [6]
    );
    // "none" gives what the count-in needs, and what was played stays owed.
    assert_eq!(
        bars(&[&format!("{two}\nrest = \"none\""), two, two]),
        [1, 4]
    );
    // In echo the pupil's turns count, the listening does not.
    assert_eq!(bars(&[&format!("{two}\nguide = \"echo\""), two]), [2]);
}

#[test]
fn between_passes_a_rest_is_rounded_up_to_a_bar_line() {
    let between = |say: &str| -> Whole {
        let routine = routine_at(
            "60",
            &[&format!(
                "notes = \"G4:half\"\ntimes = 2\nbetween = \"{say}\""
            )],
        );
        let score = unroll(&routine);
        let (passes, last) = (&score.lines[0].passes, score.lines[0].length);
        assert_eq!(
            passes[0].length,
            Whole::from_integer(1),
            "filled up to the bar line"
        );
        assert_eq!(passes[1].start, passes[0].end() + passes[0].between);
        assert_eq!(last, passes[1].end());
        passes[0].between
    };
    for (say, bars) in [
        ("same", 1),
        ("none", 0),
        ("2 bars", 2),
        ("5 beats", 2),
        ("4.5 s", 2),
        ("4 s", 1),
    ] {
        assert_eq!(between(say), Whole::from_integer(bars), "{say}");
    }
}

#[test]
fn passes_come_step_by_step_then_times_then_articulation() {
    let routine = routine_at(
        "60",
        &[
            "open = \"C4:half G4:half\"\ntubes = [\"0\", \"1-2\"]\ntimes = 2\n\
           articulation = [\"slurred\", \"tongued\"]",
        ],
    );
    let score = unroll(&routine);
    let order: Vec<String> = score.lines[0]
        .passes
        .iter()
        .map(|p| {
            format!(
                "{} {} {:?}",
                p.tube.expect("on tubes"),
                p.repetition,
                p.articulation
            )
        })
        .collect();
    assert_eq!(
        order,
        [
            "0 1 Slurred",
            "0 1 Tongued",
            "0 2 Slurred",
            "0 2 Tongued",
            "1-2 1 Slurred",
            "1-2 1 Tongued",
            "1-2 2 Slurred",
            "1-2 2 Tongued"
        ]
    );
    let on_long_tube = &score.lines[0].passes[4];
    let Played::Pitch {
        written,
        tube,
        partial,
        sounding,
    } = on_long_tube.notes[1].played
    else {
        panic!("a note")
    };
    assert_eq!(written.to_string(), "E4");
    assert_eq!((tube, partial), (Some(Tube::of(&[1, 2])), Some(3)));
    assert_eq!(
        sounding.to_string(),
        "D4",
        "a trumpet in B-flat sounds a whole step lower"
    );
    assert_eq!(on_long_tube.notes[1].joined, Joined::Slurred);
    // The drone holds the tube's second partial, concert G, in the octave from B-flat 2 upwards.
    assert_eq!(on_long_tube.drone[0].to_string(), "G3");
}

#[test]
fn a_breath_takes_a_beat_within_bounds_and_never_half_the_note() {
    let breath = |tempo: &str, notes: &str| {
        let routine = routine_at(tempo, &[&format!("notes = \"{notes}\"")]);
        let score = unroll(&routine);
        let r = score.lines[0].passes[0].notes[0].breath.expect("a breath");
        *r.numer() as f64 / *r.denom() as f64
    };
    assert_eq!(breath("75", "G4:whole breath G4:whole"), 0.8);
    assert_eq!(breath("30", "G4:whole breath G4:whole"), 1.0);
    assert_eq!(breath("200", "G4:whole breath G4:whole"), 0.5);
    assert_eq!(breath("75", "G4:quarter breath G4:whole"), 0.4);
}

#[test]
fn a_take_moves_tempos_together_and_keys_but_not_tubes() {
    let routine = routine_at(
        "80",
        &["notes = \"G4:whole\"", "open = \"C4:whole\"\ntempo = 60"],
    );
    let at = |tempo, key| {
        score::unroll(
            &routine,
            &Take {
                tempo,
                key,
                ..Take::default()
            },
        )
    };
    let eighty = TakeTempo::Percent(Decimal::from_integer(80));
    let slower = at(eighty, 0).expect("it unrolls");
    assert_eq!(slower.lines[0].tempo.to_string(), "64");
    assert_eq!(slower.lines[1].tempo.to_string(), "48");
    let by_clicks = at(TakeTempo::Clicks(Decimal::from_integer(64)), 0).expect("it unrolls");
    assert_eq!(by_clicks.lines[1].tempo, slower.lines[1].tempo);
    assert_eq!(
        at(TakeTempo::Clicks(Decimal::from_integer(26)), 0).unwrap_err(),
        TakeFault::Tempo {
            line: Some(1),
            clicks: 19.5
        }
    );
    let lower = at(eighty, -2).expect("it unrolls");
    let written = |line: usize| match lower.lines[line].passes[0].notes[0].played {
        Played::Pitch { written, .. } => written.to_string(),
        _ => panic!("a note"),
    };
    assert_eq!((written(0), written(1)), ("F4".to_owned(), "C4".to_owned()));
}

#[test]
fn a_line_of_which_nothing_fits_is_left_out_with_one_notice() {
    let routine = routine_at(
        "60",
        &[
            "notes = \"C4:whole\"",
            "notes = \"A3:whole G#3:whole\"\nhalf_steps = [0, -1]",
        ],
    );
    let down = Take {
        key: -4,
        ..Take::default()
    };
    let score = score::unroll(&routine, &down).expect("it unrolls");
    assert_eq!(score.lines.len(), 1);
    let notices: Vec<&str> = score.notices.iter().map(|n| n.message.as_str()).collect();
    assert_eq!(
        notices,
        ["“L2” is left out: F3 lies below F#3, outside the trumpet in B-flat"]
    );
    assert_eq!(score.notices[0].kind, NoticeKind::LineLeftOut);
}

#[test]
fn a_pass_that_leaves_the_instrument_is_left_out_with_a_notice() {
    let routine = routine_at(
        "60",
        &[
            "notes = \"A3:whole\"\nhalf_steps = [0, -3, -4]",
            "notes = \"C4:whole\"",
        ],
    );
    let score = unroll(&routine);
    assert_eq!(score.lines[0].passes.len(), 2);
    assert_eq!(
        score.notices[0].kind,
        NoticeKind::PassLeftOut { walk_index: 2 }
    );
    assert_eq!(
        score.notices[0].message,
        "“L1” 4 half steps down is left out: F3 lies below F#3, outside the trumpet in B-flat"
    );
    let down = score::unroll(
        &routine,
        &Take {
            key: -4,
            ..Take::default()
        },
    )
    .expect("one line fits");
    assert_eq!(down.lines.len(), 1);
    assert_eq!(down.lines[0].index, 1);
    let out = score::unroll(
        &routine,
        &Take {
            key: -12,
            ..Take::default()
        },
    );
    assert_eq!(out.unwrap_err(), TakeFault::NothingFits);
}

#[test]
fn a_take_is_at_most_four_hours() {
    let line = format!("notes = \"{}\"\ntimes = 100", "G4:whole ".repeat(40));
    let routine = routine_at("60", &[&line]);
    assert!(matches!(
        score::unroll(&routine, &Take::default()),
        Err(TakeFault::TooLong { .. })
    ));
}

#[test]
fn articulation_joins_and_parts_as_it_says() {
    let joined = |notes: &str, say: &str| -> String {
        let routine = routine_at(
            "60",
            &[&format!(
                "each = \"quarter\"\nnotes = \"{notes}\"\narticulation = \"{say}\""
            )],
        );
        let score = unroll(&routine);
        let sign = |j: Joined| match j {
            Joined::Fresh(_) => '.',
            Joined::Slurred => '-',
            Joined::Bent => '~',
        };
        score.lines[0].passes[0]
            .notes
            .iter()
            .map(|n| sign(n.joined))
            .collect()
    };
    let notes = "G4 A4 A4 (air) breath G4 F4 (ku) rest E4 Eb4 (bend) E4";
    assert_eq!(joined(notes, "as written"), "......~.");
    assert_eq!(joined(notes, "slurred"), ".-..-.~-");
    assert_eq!(joined(notes, "tongued"), "......~.");
}

#[test]
fn frames_are_the_nearest_to_exact_seconds() {
    let routine = routine_at(
        "72",
        &["notes = \"slur( G4:half F#4:half | G4:whole )\"\nhalf_steps = [0, -1]"],
    );
    let timeline = compile(&routine, &Take::default());
    let (start, sound) = lines(&timeline)[0];
    assert_eq!(start, 22_050);
    for (n, click) in sound.clicks.iter().enumerate() {
        assert_eq!(
            click.frame,
            (n as f64 * 60.0 / 72.0 * 44_100.0 + 0.5).floor() as u64
        );
        assert_eq!(click.accented, n % 4 == 0);
    }
    // Count-in, two bars, two bars of rest, two bars.
    assert_eq!(sound.clicks.len(), 4 + 8 + 8 + 8);
    assert_eq!(sound.tones.len(), 2);
    let tone = &sound.tones[0];
    let beat = |n: f64| (n * 60.0 / 72.0 * 44_100.0 + 0.5).floor() as u64;
    // The middle of its rise is on the beat.
    assert!(tone.frame < beat(4.0) && beat(4.0) < tone.frame + tone.rise);
    assert_eq!(
        tone.steps.iter().map(|s| s.frame).collect::<Vec<_>>(),
        [beat(4.0), beat(6.0), beat(8.0)]
    );
    assert_eq!(tone.end, beat(12.0));
    assert!(matches!(tone.steps[1].approach, Approach::Valves { .. }));
    // Written G4 sounds concert F4.
    assert!((tone.steps[0].hz - 349.228).abs() < 0.001);
    assert_eq!(
        timeline.frames,
        22_050 + ((28.0 * 60.0 / 72.0 + 0.3) * 44_100.0 + 0.5) as u64
    );
}

#[test]
fn echo_leaves_the_same_time_free() {
    let routine = routine_at(
        "60",
        &["notes = \"G4:whole\"\ntimes = 2\nbetween = \"none\"\nguide = \"echo\""],
    );
    let timeline = compile(&routine, &Take::default());
    let sound = lines(&timeline)[0].1;
    let at: Vec<u64> = sound
        .tones
        .iter()
        .map(|t| t.steps[0].frame / u64::from(RATE))
        .collect();
    assert_eq!(at, [4, 12]);
    assert_eq!(sound.clicks.len(), 4 + 16);
    let off = compile(
        &routine,
        &Take {
            guide: Guide::Off,
            ..Take::default()
        },
    );
    assert!(lines(&off)[0].1.tones.is_empty());
    assert_eq!(
        lines(&off)[0].1.clicks.len(),
        4 + 8,
        "off wins over a line's own echo"
    );
}

#[test]
fn the_click_can_keep_to_the_count_ins() {
    let routine = routine_at(
        "60",
        &["notes = \"G4:whole\"\ntimes = 2\nbetween = \"3 bars\"\nclick = \"count-in\""],
    );
    let timeline = compile(&routine, &Take::default());
    let at: Vec<u64> = lines(&timeline)[0]
        .1
        .clicks
        .iter()
        .map(|c| c.frame / u64::from(RATE))
        .collect();
    assert_eq!(at, [0, 1, 2, 3, 16, 17, 18, 19]);
}

#[test]
fn the_drone_moves_where_a_pass_has_ended_and_fades_from_the_last_bar_line() {
    let routine = routine_at("60", &["open = \"C4:whole\"\ntubes = [\"0\", \"2\"]"]);
    let timeline = compile(&routine, &Take::default());
    let drone = &lines(&timeline)[0].1.drone;
    let spans: Vec<(u64, u64, u64)> = drone.iter().map(|h| (h.frame, h.end, h.fade)).collect();
    let s = u64::from(RATE);
    assert_eq!(spans, [(0, 8 * s, 0), (8 * s, 16 * s + 13_230, 13_230)]);
    assert!((drone[0].hz[0] - 116.541).abs() < 0.001, "concert B-flat 2");
    assert!(
        (drone[1].hz[0] - 220.0).abs() < 0.001,
        "concert A, in the octave from B-flat 2 upwards"
    );
}

#[test]
fn a_tongued_note_leaves_a_gap_and_a_slurred_one_none() {
    let routine = routine_at(
        "60",
        &["notes = \"G4:half G4:half slur( E4:half D4:half )\""],
    );
    let timeline = compile(&routine, &Take::default());
    let tones = &lines(&timeline)[0].1.tones;
    assert_eq!(tones.len(), 3);
    let gap = tones[1].frame - tones[0].end;
    assert!(
        (441..=1_764).contains(&gap),
        "{gap} frames of silence before a tongued note"
    );
    assert_eq!(tones[2].steps.len(), 2);
}

#[test]
fn the_same_partial_series_is_lipped_and_other_valves_are_pressed() {
    let routine = routine_at(
        "60",
        &[
            "notes = \"slur( C4:half G4:half | F#4:half G4:half ) | slur( G4:half F#4:half (bend) | G4:whole )\"",
        ],
    );
    let timeline = compile(&routine, &Take::default());
    let tones = &lines(&timeline)[0].1.tones;
    let kind = |a: &Approach| match a {
        Approach::Start => "start",
        Approach::Valves { .. } => "valves",
        Approach::Lips { .. } => "lips",
        Approach::Bend { .. } => "bend",
    };
    let kinds: Vec<&str> = tones
        .iter()
        .flat_map(|t| t.steps.iter().map(|s| kind(&s.approach)))
        .collect();
    assert_eq!(
        kinds,
        ["start", "lips", "valves", "valves", "start", "bend", "bend"]
    );
    let Approach::Bend { cents_off, .. } = tones[1].steps[1].approach else {
        panic!("a bend")
    };
    assert_eq!(cents_off, 100.0);
    let Approach::Bend { cents_off, .. } = tones[1].steps[2].approach else {
        panic!("back")
    };
    assert_eq!(cents_off, 0.0);
}

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

/// A line at several tempos is played once at each, with its own count-in; from one to the next it rests as between two
/// passes. A take's tempo moves all of them.
#[test]
fn a_line_at_several_tempos_is_played_once_at_each() {
    let routine = routine_at(
        "60",
        &[
            "notes = \"C4:whole\"\ntempo = [60, 120]\nhalf_steps = [0, -1]\nbetween = \"2 bars\"\nrest = \"20 s\"",
            "notes = \"C4:whole\"",
        ],
    );
    let score = unroll(&routine);
    let of: Vec<(usize, usize, String)> = score
        .lines
        .iter()
        .map(|l| (l.index, l.rung, l.tempo.to_string()))
        .collect();
    assert_eq!(
        of,
        [
            (0, 0, "60".to_owned()),
            (0, 1, "120".to_owned()),
            (1, 0, "60".to_owned())
        ]
    );
    assert_eq!(score.rungs(1).len(), 2);
    assert_eq!(score.rungs(2).len(), 1);
    let starts: Vec<f64> = score.lines.iter().map(|l| seconds(&l.start)).collect();
    // Half a second, a bar of count-in, a bar, two bars between, a bar; then two bars of rest, the end of which is a bar of
    // count-in at 120.
    assert_eq!(starts[0], 0.5);
    assert_eq!(starts[1], 0.5 + 20.0 + 8.0 - 2.0);
    // The same at 120, then twenty seconds of rest that end with a bar of count-in at 60.
    assert_eq!(starts[2], starts[1] + 10.0 + 20.0 - 4.0);
    let slower = Take {
        tempo: TakeTempo::Percent(Decimal::from_integer(50)),
        ..Take::default()
    };
    let slower = score::unroll(&routine, &slower).unwrap();
    assert_eq!(slower.lines[1].tempo.to_string(), "60");
    let timeline = compile(&routine, &Take::default());
    let labels: Vec<&str> = timeline.cues.iter().map(|cue| cue.label.as_str()).collect();
    assert_eq!(labels, ["1 L1, at 60", "1 L1, at 120", "2 L2"]);
}
