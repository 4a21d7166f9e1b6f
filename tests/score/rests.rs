//! When lines start, and how long is rested: after a line, between passes, in echo.

use super::{RATE, compile, lines, rests, routine_at, seconds, unroll};
use leadpipe::music::Whole;
use leadpipe::routine::Guide;
use leadpipe::score::Take;
use leadpipe::timeline::{self, Settings, Sign};

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
