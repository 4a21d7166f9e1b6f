//! Files that were damaged or taken away.

use crate::{PLAIN, files, folder, made, render, three_lines, track};
use leadpipe::render::{RenderSettings, TrackOutcome};
use std::fs::{self, File};
use std::path::Path;

/// Damage that keeps size and time is only seen by reading.
fn damage(path: &Path) {
    let mut bytes = fs::read(path).unwrap();
    let time = fs::metadata(path).unwrap().modified().unwrap();
    bytes[60_000] ^= 1;
    fs::write(path, bytes).unwrap();
    let file = File::options().write(true).open(path).unwrap();
    file.set_modified(time).unwrap();
}

#[test]
fn verifying_finds_damage_that_keeps_size_and_time() {
    let at = folder();
    let tracks = [track("t", three_lines(247.0, 500))];
    render(at.path(), PLAIN, &tracks);
    let before = files(at.path());
    damage(&at.path().join("t.wav"));
    assert_eq!(made(at.path(), PLAIN, &tracks), [TrackOutcome::Unchanged]);
    let verify = RenderSettings {
        verify: true,
        ..PLAIN
    };
    let repaired = TrackOutcome::Again {
        rendered: 3,
        lines: 3,
        altered: true,
    };
    assert_eq!(made(at.path(), verify, &tracks), [repaired]);
    assert!(files(at.path()) == before);
}

#[test]
fn a_track_that_was_taken_away_is_rendered_again() {
    let at = folder();
    let tracks = [track("t", three_lines(247.0, 500))];
    render(at.path(), PLAIN, &tracks);
    let before = files(at.path());
    fs::remove_file(at.path().join("t.wav")).unwrap();
    assert_eq!(made(at.path(), PLAIN, &tracks), [TrackOutcome::New]);
    assert!(files(at.path()) == before);
    // A crash of the system can leave an empty file, which nobody misses.
    fs::write(at.path().join("t.wav"), "").unwrap();
    let replaced = TrackOutcome::Again {
        rendered: 3,
        lines: 3,
        altered: true,
    };
    assert_eq!(made(at.path(), PLAIN, &tracks), [replaced]);
    assert!(files(at.path()) == before);
}
