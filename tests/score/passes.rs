//! Which passes there are, how their notes are joined, and what a take changes.

use super::{compile, routine_at, seconds, unroll};
use leadpipe::brass::Tube;
use leadpipe::music::Decimal;
use leadpipe::score::{self, Joined, NoticeKind, Played, Take, TakeFault, TakeTempo};

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
    let notices: Vec<&str> = score.notices.iter().map(|n| &*n.message).collect();
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
