//! Clicks, drone and tones of the timeline, to the frame.

use super::{RATE, compile, lines, routine_at};
use leadpipe::score::Take;
use leadpipe::timeline::Approach;

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
