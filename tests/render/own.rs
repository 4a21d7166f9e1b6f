//! Whose a file is: ours by its record, or somebody else’s.

use crate::{PLAIN, again, files, folder, made, render, three_lines, track};
use leadpipe::render::reuse::record::FOLDER;
use leadpipe::render::{RenderSettings, batch};
use std::fs;
use std::sync::atomic::AtomicBool;

#[test]
fn somebody_elses_file_keeps_its_place_and_no_other_track_from_theirs() {
    let at = folder();
    let tracks = [
        track("t", three_lines(247.0, 500)),
        track("u", three_lines(300.0, 500)),
        track("v", three_lines(350.0, 500)),
    ];
    render(at.path(), PLAIN, &tracks[1..2]);
    fs::write(at.path().join("t.wav"), "mine").unwrap();
    let mut cut = fs::read(at.path().join("u.wav")).unwrap();
    cut.truncate(cut.len() / 2);
    fs::write(at.path().join("u.wav"), &cut).unwrap();
    let run = |settings: &RenderSettings| {
        batch::render(&tracks, at.path(), settings, &AtomicBool::new(false), &())
    };
    let end = run(&PLAIN);
    let said = end.failure.unwrap().to_string();
    for part in [
        "t.wav was not written by leadpipe",
        "u.wav was changed after leadpipe wrote it",
        "they stay as they are",
    ] {
        assert!(said.contains(part), "{said}");
    }
    assert_eq!(fs::read(at.path().join("t.wav")).unwrap(), b"mine");
    assert!(fs::read(at.path().join("u.wav")).unwrap() == cut);
    assert_eq!(end.finished.len(), 1);
    assert_eq!(end.finished[0].track, 2);
    let end = run(&RenderSettings {
        force: true,
        ..PLAIN
    });
    assert!(end.failure.is_none());
    let fresh = folder();
    render(fresh.path(), PLAIN, &tracks);
    assert!(files(at.path()) == files(fresh.path()));
}

/// A folder that an earlier version of leadpipe wrote has records of its tracks only.
#[test]
fn a_track_with_a_record_is_ours() {
    let at = folder();
    render(at.path(), PLAIN, &[track("t", three_lines(247.0, 500))]);
    fs::remove_file(at.path().join(FOLDER).join("written")).unwrap();
    let changed = [track("t", three_lines(300.0, 500))];
    assert_eq!(made(at.path(), PLAIN, &changed), [again(1, 3)]);
}

/// A run can be killed between giving a track its name and recording it.
#[test]
fn a_track_whose_record_is_older_is_ours() {
    let at = folder();
    render(at.path(), PLAIN, &[track("t", three_lines(247.0, 500))]);
    let record = at.path().join(FOLDER).join("t.json");
    let old = fs::read(&record).unwrap();
    render(at.path(), PLAIN, &[track("t", three_lines(300.0, 500))]);
    fs::write(&record, old).unwrap();
    let changed = [track("t", three_lines(350.0, 500))];
    made(at.path(), PLAIN, &changed);
    fs::remove_file(&record).unwrap();
    made(at.path(), PLAIN, &[track("t", three_lines(400.0, 500))]);
}

#[test]
fn a_record_that_cannot_be_read_is_as_good_as_none() {
    let at = folder();
    let tracks = [track("t", three_lines(247.0, 500))];
    render(at.path(), PLAIN, &tracks);
    let record = at.path().join(FOLDER).join("t.json");
    let broken: [fn(&str) -> String; 6] = [
        |_| String::new(),
        |_| "{".to_owned(),
        |good| good.replace("\"layout\": 3", "\"layout\": 4"),
        |good| good.replace("\"t.wav\"", "\"../t.wav\""),
        |good| good.replace("\"first_frame\": ", "\"first_frame\": 99999999999"),
        |good| good[..good.len() / 2].to_owned(),
    ];
    for broken in broken {
        let good = fs::read_to_string(&record).unwrap();
        assert_ne!(broken(&good), good);
        fs::write(&record, broken(&good)).unwrap();
        let mut changed = three_lines(247.0, 500);
        changed.cues[0].label.push('!');
        let changed = [track("t", changed)];
        assert_eq!(made(at.path(), PLAIN, &changed), [again(3, 3)]);
        render(at.path(), PLAIN, &tracks);
    }
}
