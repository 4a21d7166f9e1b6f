//! `tone`: held notes, their names and their pitch.

use super::measure::{cents, pitch};
use super::{Test, written};
use std::fs;

#[test]
fn files_have_the_names_of_their_notes_and_sound_as_named() {
    let ran = Test::new(&[
        "tone", "A4", "bb3", "A#3", "C6", "--out", "to", "--rate", "48000", "--bits", "24",
    ])
    .stderr("")
    .run();
    assert_eq!(
        ran.stdout.replace('\\', "/"),
        "\
Note             Sounds       Hz  Length    Size
to/tone-Bb3.wav  Bb3      233.08    0:02  0.3 MB
to/tone-A4.wav   A4       440.00    0:02  0.3 MB
to/tone-C6.wav   C6      1046.50    0:02  0.3 MB
"
    );
    assert_eq!(
        written(&ran.path("to")),
        ["tone-A4.wav", "tone-Bb3.wav", "tone-C6.wav"]
    );
    for (name, hz) in [("Bb3", 233.082), ("A4", 440.0), ("C6", 1046.502)] {
        let reader = hound::WavReader::open(ran.path(&format!("to/tone-{name}.wav")));
        let mut reader = reader.expect("a WAV file");
        let spec = reader.spec();
        assert_eq!(
            (spec.channels, spec.sample_rate, spec.bits_per_sample),
            (1, 48_000, 24)
        );
        let frames: Vec<f64> = (reader.samples::<i32>())
            .map(|frame| f64::from(frame.expect("a frame")) / 8_388_608.0)
            .collect();
        assert_eq!(frames.len(), 96_000);
        // As loud as the guide at mf, from its first frames to its last.
        let power = |part: &[f64]| part.iter().map(|x| x * x).sum::<f64>() / part.len() as f64;
        let rms = power(&frames[9_600..86_400]).sqrt();
        assert!((0.107..0.125).contains(&rms), "{rms}");
        assert!(power(&frames[1_000..2_000]).sqrt() > 0.3 * rms);
        assert!(frames[95_999].abs() < 1e-3);
        let part: Vec<f32> = frames[9_600..86_400].iter().map(|x| *x as f32).collect();
        let off = cents(hz, pitch(&part, 48_000.0, hz));
        assert!(off.abs() < 1.0, "{name}: {off:.2} cents");
    }
}

#[test]
fn louder_marks_are_louder_and_the_same_note_is_the_same_file() {
    let mut folder = tempfile::tempdir().unwrap();
    let mut last = 0.0;
    for mark in ["pp", "p", "mp", "mf", "f", "ff"] {
        let arguments = [
            "tone",
            "F4",
            "--dynamic",
            mark,
            "--seconds",
            "1.25",
            "--out",
            ".",
        ];
        let ran = Test::within(folder, &arguments).stderr("").run();
        let bytes = fs::read(ran.path("tone-F4.wav")).unwrap();
        assert_eq!(bytes.len(), 44 + 2 * 55_125);
        let power: f64 = bytes[44..]
            .chunks(2)
            .map(|b| f64::from(i16::from_le_bytes([b[0], b[1]])))
            .map(|step| step * step)
            .sum();
        assert!(power > 1.5 * last, "{mark}");
        last = power;
        // In its own place: one file, and the same again.
        let ran = Test::within(ran.folder, &arguments).run();
        assert_eq!(written(ran.folder.path()), ["tone-F4.wav"]);
        assert!(fs::read(ran.path("tone-F4.wav")).unwrap() == bytes);
        folder = ran.folder;
    }
}

#[test]
fn what_cannot_be_is_said_in_plain_words() {
    Test::new(&["tone", "C4", "C7"])
        .stdout("")
        .stderr(
            "\
error: C7 is out of the guide's reach
 |
 = help: it sounds from E3 to C6, concert pitch
",
        )
        .exit(2)
        .run();
    Test::new(&["tone", "h4"])
        .stdout("")
        .stderr(
            "\
error: “h4” is not a note
 |
 = help: the note called H in German is B here: B4
",
        )
        .exit(2)
        .run();
    let ran = Test::new(&["tone", "A4", "--out", "here"])
        .file("here", "a file")
        .stdout("")
        .stderr(
            "\
error: here is a file, so nothing can be put into it
 |
 = help: name another folder with --out
",
        )
        .exit(1)
        .run();
    assert_eq!(ran.read("here"), "a file");
    let ran = Test::new(&["tone", "A4", "--out", "."])
        .file("tone-A4.wav/inside", "a folder in the way")
        .stdout("")
        .exit(1)
        .run();
    assert!(ran.stderr.contains("a folder called"), "{}", ran.stderr);
    assert_eq!(written(ran.folder.path()), ["tone-A4.wav"]);
}
