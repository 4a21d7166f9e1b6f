//! MP3 files: aligned with the WAV files to the frame, labelled, and small.

use super::*;
use std::fs;

/// Frames of sound in one frame of MPEG-1 Layer III (ISO/IEC 11172-3).
const ENCODER_FRAME: u64 = 1152;

#[test]
fn the_sound_is_that_of_the_wav_file_and_in_step_with_it() {
    for (rate, spread) in [(44_100, false), (48_000, true)] {
        let at = tempfile::tempdir().unwrap();
        let settings = RenderSettings {
            sample_rate: rate,
            spread,
            stems: true,
            ..ALL
        };
        render(at.path(), settings, &[track(rate)]);
        for part in ["t", "t guide", "t drone", "t click"] {
            let file = |ending: &str| at.path().join(format!("{part}.{ending}"));
            let mp3 = decoded::mp3(&file("mp3"));
            let wav = decoded::wav(&file("wav"));
            assert_eq!(mp3.len(), wav.len(), "{part}: without gaps it is as long");
            let mp3: Vec<f64> = mp3.into_iter().map(f64::from).collect();
            let wav: Vec<f64> = wav.iter().map(|s| f64::from(*s) / 32_768.0).collect();
            // A lag of a single frame would be seen: the correlation is highest without one.
            let channels = if spread && part == "t" { 2 } else { 1 };
            let at_lag = |lag: usize| {
                let shifted = lag * channels;
                let after = decoded::correlation(&wav[shifted..], &mp3);
                after.max(decoded::correlation(&wav, &mp3[shifted..]))
            };
            let in_step = at_lag(0);
            assert!(in_step > 0.98, "{part}: samples correlate by {in_step}");
            assert!((1..=3).all(|lag| at_lag(lag) < in_step), "{part}");
            let alike = decoded::correlation(&decoded::envelope(&wav), &decoded::envelope(&mp3));
            println!("{rate} {part}: samples {in_step:.4}, envelope {alike:.5}");
            assert!(alike > 0.999, "{part}: envelopes correlate by {alike}");
        }
    }
}

#[test]
fn a_minute_takes_a_megabyte_or_less() {
    for spread in [false, true] {
        let at = tempfile::tempdir().unwrap();
        render(at.path(), RenderSettings { spread, ..ALL }, &[track(RATE)]);
        let bytes = fs::metadata(at.path().join("t.mp3")).unwrap().len();
        let minutes = timeline(RATE).frames as f64 / f64::from(RATE) / 60.0;
        let megabytes = bytes as f64 / 1e6 / minutes;
        println!("spread {spread}: {megabytes:.2} MB a minute");
        assert!(spread || megabytes <= 1.0, "{megabytes}");
    }
}

#[test]
fn tags_say_what_it_is() {
    let at = tempfile::tempdir().unwrap();
    let settings = RenderSettings { stems: true, ..ALL };
    render(at.path(), settings, &[track(RATE)]);
    let tag = id3v2::read(&fs::read(at.path().join("t.mp3")).unwrap());
    assert_eq!(tag.text("TALB"), "Übung № 1 & more");
    assert_eq!(tag.text("TIT2"), "97 clicks a minute");
    assert_eq!(tag.text("TRCK"), "2/3");
    assert_eq!(tag.text("TBPM"), "97");
    let seconds = timeline(RATE).frames as f64 / f64::from(RATE);
    let length: f64 = tag.text("TLEN").parse().unwrap();
    assert!((length / 1000.0 - seconds).abs() <= 0.000_5);
    assert!(tag.comment.contains("Stop at once for pain"));
    let [(mime, kind, picture)] = &tag.pictures[..] else {
        panic!("{} pictures", tag.pictures.len());
    };
    assert_eq!((mime.as_str(), *kind), ("image/png", 3));
    let decoder = png::Decoder::new(std::io::Cursor::new(picture));
    assert_eq!(decoder.read_info().unwrap().info().size(), (480, 480));
    let stem = id3v2::read(&fs::read(at.path().join("t click.mp3")).unwrap());
    assert_eq!(stem.text("TIT2"), "97 clicks a minute, click alone");
}

#[test]
fn each_chapter_starts_within_an_encoder_frame_of_its_lines_first_click() {
    for rate in [44_100, 48_000] {
        let at = tempfile::tempdir().unwrap();
        let settings = RenderSettings {
            sample_rate: rate,
            stems: true,
            ..ALL
        };
        render(at.path(), settings, &[track(rate)]);
        let tag = id3v2::read(&fs::read(at.path().join("t.mp3")).unwrap());
        let titles: Vec<&str> = tag.chapters.iter().map(|c| c.title.as_str()).collect();
        assert_eq!(titles, ["1 Away", "2 Quiet “air”", "3 Home"]);
        let names: Vec<&String> = tag.chapters.iter().map(|c| &c.name).collect();
        assert_eq!(tag.contents.iter().collect::<Vec<_>>(), names);

        // Heard in the click's own file: the first loud frame after two seconds of quiet, or at the front.
        let click = decoded::mp3(&at.path().join("t click.mp3"));
        let loud = 0.05;
        let clicks: Vec<u64> = (0..click.len() as u64)
            .filter(|i| click[*i as usize].abs() > loud)
            .collect();
        let quiet = u64::from(rate) * 2;
        let first = clicks.iter().take(1).copied();
        let later = clicks
            .windows(2)
            .filter(|w| w[1] - w[0] > quiet)
            .map(|w| w[1]);
        let heard: Vec<u64> = first.chain(later).collect();
        assert_eq!(heard.len(), 3, "{heard:?}");
        for (chapter, heard) in tag.chapters.iter().zip(heard) {
            let start = u64::from(chapter.start_ms) * u64::from(rate) / 1000;
            let off = start.abs_diff(heard);
            println!("{rate} {}: {off} frames off", chapter.title);
            assert!(off <= ENCODER_FRAME, "{}: {off} frames off", chapter.title);
            assert!(chapter.end_ms > chapter.start_ms);
        }
    }
}
