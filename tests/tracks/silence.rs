//! What is parted, what is joined, what is silent, and what is too loud.

use leadpipe::score::Take;

use crate::measure::*;
use crate::rendered::*;

/// Largest size of steps as a share of full scale.
fn loudest(steps: &[i16]) -> f64 {
    peak(&scaled(steps))
}

/// A note starts at most so many frames before its beat: the middle of its rise is on the beat.
const EARLY: usize = RATE as usize * 25 / 1000;

/// Frames of the silence (below −80 dBFS) that the note at `at` ends: the last one before the middle of its rise.
fn silence_before(sound: &[f32], at: usize) -> usize {
    // A wave that crosses zero is silent for less than this.
    let shortest = RATE as usize / 1000;
    let silent = |x: &f32| f64::from(x.abs()) < SILENCE;
    let mut run = 0;
    for (back, x) in sound[..at].iter().rev().enumerate() {
        match silent(x) {
            true => run += 1,
            false if run >= shortest => break,
            false if back > EARLY => return 0,
            false => run = 0,
        }
    }
    if run < shortest { 0 } else { run }
}

/// The lowest level around `at` against the mean one before and after it, dB, over windows of 15 ms: two
/// turns of the lowest note here and more.
fn dip_db(sound: &[f32], at: usize) -> f64 {
    let (window, reach) = (RATE as usize * 15 / 1000, RATE as usize / 10);
    let lowest = levels(&sound[at - reach..at + reach], window, window / 8)
        .iter()
        .map(|(_, level)| *level)
        .fold(f64::MAX, f64::min);
    let steady = |from: usize| rms(&sound[from..from + reach]);
    let around = (steady(at - 2 * reach) + steady(at + reach)) / 2.0;
    db(lowest / around)
}

#[test]
fn tongued_notes_are_parted_and_slurred_ones_are_not() {
    // One note a second from 4.5 s on; the slur holds a stroke of valves, a fourth and an octave on the lips.
    let line = "notes = \"G4:quarter G4:quarter A4:quarter G4:quarter (legato) | \
                slur( G4:quarter F#4:quarter C4:quarter F4:quarter | F4:quarter C4:quarter ) C5:half | \
                slur( C4:half C5:half )\"";
    let rendered = Rendered::of(&trumpet("60", &[line]), &Take::default());
    let guide = scaled(&rendered.guide);
    let note = |n: u64| frame(2 * n + 9, 2);
    // Between the notes; F4 to F4 and the C5 after the slur are tongued, and so is the first of the last.
    for tongued in [1, 2, 3, 4, 8, 10, 12] {
        let at = note(tongued);
        let gap = silence_before(&guide, at);
        // From 5 ms, which is heard as a gap (FACTS: silence is the first cue of detachment; how much is a
        // choice), to 45 ms, which is still a tongued line.
        let ms = gap as f64 * 1000.0 / f64::from(RATE);
        assert!(
            (5.0..45.0).contains(&ms),
            "note {tongued}: {ms:.1} ms of silence"
        );
        assert!(dip_db(&guide, at) < -20.0, "note {tongued}");
    }
    for slurred in [5, 6, 7, 9, 14] {
        let at = note(slurred);
        assert_eq!(silence_before(&guide, at), 0, "note {slurred}");
        let dip = dip_db(&guide, at);
        assert!(dip > -12.0, "note {slurred} dips by {dip:.1} dB");
    }
}

/// Where a pass follows the pass before without a rest, its first note is tongued like any other.
#[test]
fn passes_without_a_rest_between_them_are_parted_too() {
    let line = "notes = \"G4:half A4:half\"\ntimes = 3\nbetween = \"none\"";
    for articulation in ["as written", "slurred"] {
        let line = format!("{line}\narticulation = \"{articulation}\"");
        let rendered = Rendered::of(&trumpet("120", &[&line]), &Take::default());
        let guide = scaled(&rendered.guide);
        for pass in [1, 2] {
            let at = frame(5 + 4 * pass, 2);
            let dip = dip_db(&guide, at);
            assert!(
                dip < -20.0,
                "{articulation}, pass {}: {dip:.1} dB",
                pass + 1
            );
        }
    }
}

#[test]
fn it_is_silent_where_silence_is_due() {
    let lines = [
        "notes = \"G4:half rest:half | G4:whole breath | C4:quarter (staccato) rest:half.\"\nrest = \"8 beats\"",
        "on = \"air\"\nnotes = \"in:half hold:half | out:whole\"\nrest = \"same\"",
        "notes = \"C4:whole\"\ntimes = 2\nguide = \"echo\"\nbetween = \"2 bars\"\ndrone = \"off\"",
    ];
    let rendered = Rendered::of(&trumpet("120", &lines), &Take::default());
    let Rendered {
        mix,
        guide,
        drone,
        click,
        cues,
    } = &rendered;
    // At 120 a beat is half a second. Line 1: clicks from 0.5 s, notes from 2.5 s to 8.5 s; the rest of
    // 4 s ends in a count-in of 2 s; line 2 starts at 10.5 s, breathes from 12.5 s to 16.5 s; as long a
    // rest as was played, 4 s; line 3 starts at 18.5 s, plays and listens from 20.5 s.
    let starts = [frame(1, 2), frame(21, 2), frame(37, 2)];
    let ends = [frame(17, 2), frame(33, 2)];
    assert_eq!(
        cues.iter().map(|c| c.frame as usize).collect::<Vec<_>>(),
        starts
    );
    let fade = frame(3, 10);
    assert_eq!(loudest(&mix[..starts[0]]), 0.0, "before the first click");
    for (end, start) in [(ends[0], starts[1]), (ends[1], starts[2])] {
        assert!(
            loudest(&mix[end + fade..start]) < SILENCE,
            "the rest from {end}"
        );
    }
    let in_guide = |from: (u64, u64), to: (u64, u64)| {
        loudest(&guide[frame(from.0, from.1)..frame(to.0, to.1)])
    };
    // A note that follows starts a little before its beat.
    let silent = |from: (u64, u64), to: (u64, u64)| {
        loudest(&guide[frame(from.0, from.1)..frame(to.0, to.1) - EARLY])
    };
    for (from, to, what) in [
        ((0, 1), (5, 2), "count-in"),
        ((7, 2), (9, 2), "written rest"),
        // A breath takes a beat, and never less than half a second.
        ((6, 1), (13, 2), "breath"),
        ((27, 4), (17, 2), "after half of a staccato note"),
        ((17, 2), (25, 2), "rest and count-in"),
        // A breath held.
        ((27, 2), (29, 2), "hold"),
        ((45, 2), (49, 2), "the pupil's turn"),
        ((49, 2), (57, 2), "between the passes"),
    ] {
        assert!(silent(from, to) < SILENCE, "{what}: {}", silent(from, to));
    }
    for (from, to, what) in [
        ((5, 2), (7, 2), "a note"),
        ((9, 2), (6, 1), "a note before its breath"),
        ((13, 2), (27, 4), "a staccato note"),
        ((13, 1), (27, 2), "breathing in"),
        ((41, 2), (45, 2), "the guide's turn"),
        ((57, 2), (61, 2), "the guide's second turn"),
    ] {
        assert!(
            in_guide(from, to) > 10.0 * SILENCE,
            "{what}: {}",
            in_guide(from, to)
        );
    }
    // The drone holds from the first click to the last bar line, and is off where it says so.
    assert!(loudest(&drone[starts[0] + fade..ends[0]]) > 10.0 * SILENCE);
    assert_eq!(loudest(&drone[ends[0] + fade..]), 0.0);
    // The track ends 0.3 s after the last bar line, and what is left there has died away.
    let whole = mix.len();
    assert_eq!(whole, starts[2] + frame(65, 2) - frame(37, 2) + fade);
    assert!(loudest(&mix[whole - 10..]) < SILENCE);
    assert!(loudest(&click[whole - fade..]) < SILENCE);
}

/// The loudest that can be written, at every pitch and with every voice: true peak below −1 dBTP
/// (EBU R 128), no frame at full scale.
#[test]
fn nothing_reaches_full_scale() {
    let mut highest = 0.0f64;
    for (instrument, tempo) in [
        ("trumpet in B-flat", 300),
        ("trumpet in C", 97),
        ("cornet", 60),
    ] {
        // Up to F#3 and 29 half steps, so that the slur's G3 comes to C6.
        let moves: Vec<String> = (0..30).map(|n| n.to_string()).collect();
        let line = format!(
            "notes = \"ff slur( F#3:eighth G3:eighth ) F#3:quarter (accent) F#3:eighth (accent) \
             F#3:eighth (accent) F#3:quarter (accent)\"\nhalf_steps = [{}]\nbetween = \"none\"\n\
             drone = \"tonic and fifth\"\ntempo = {tempo}",
            moves.join(", ")
        );
        let high =
            "notes = \"ff C6:quarter (accent) C6:quarter (accent) C6:half (accent)\"\ntimes = 3";
        let high = high.to_owned();
        let rendered = Rendered::of(&text(instrument, "300", &[line, high]), &Take::default());
        for part in [
            &rendered.mix,
            &rendered.guide,
            &rendered.drone,
            &rendered.click,
        ] {
            let largest = part.iter().map(|s| s.unsigned_abs()).max().unwrap();
            assert!(largest < 32_767, "{instrument}: {largest}");
        }
        let mut meter = ebur128::EbuR128::new(1, RATE, ebur128::Mode::TRUE_PEAK).unwrap();
        meter.add_frames_i16(&rendered.mix).unwrap();
        highest = highest.max(meter.true_peak(0).unwrap());
    }
    println!("highest true peak {:.2} dBTP", db(highest));
    assert!(db(highest) < -1.0, "{:.2} dBTP", db(highest));
    assert!(highest > 0.4, "it is loud indeed");
}
