//! Stopped and hindered batches, temporary files, permissions and records.

use crate::{PLAIN, files, folder, render, three_lines, track};
use leadpipe::render::files::passing;
use leadpipe::render::reuse::record::FOLDER;
use leadpipe::render::{Finished, RenderFailure, RenderSettings, Watch, batch};
use std::fs::{self, File};
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};

#[test]
fn leftovers_are_cleared_and_live_files_of_another_run_are_not() {
    let at = folder();
    let (live, live_path) = passing::create(at.path()).unwrap();
    let (dead, dead_path) = passing::create(at.path()).unwrap();
    drop(dead);
    fs::create_dir(at.path().join(FOLDER)).unwrap();
    let (dead_record, dead_record_path) = passing::create(&at.path().join(FOLDER)).unwrap();
    drop(dead_record);
    let tracks = [track("t", three_lines(247.0, 500))];
    let end = batch::render(&tracks, at.path(), &PLAIN, &AtomicBool::new(false), &());
    assert!(end.failure.is_none());
    assert_eq!(end.cleared, 2);
    assert!(live_path.exists() && !dead_path.exists() && !dead_record_path.exists());
    drop(live);
}

/// Asks for a stop as soon as the first track has got somewhere.
struct StopEarly(AtomicBool);

impl Watch for StopEarly {
    fn began(&self, _: usize, _: u64) {}
    fn moved(&self, _: usize, _: u64) {
        self.0.store(true, Ordering::Relaxed);
    }
    fn ended(&self, _: usize, _: &Finished) {}
}

#[test]
fn a_stopped_batch_leaves_what_was_there_and_nothing_else() {
    let at = folder();
    render(at.path(), PLAIN, &[track("t", three_lines(247.0, 500))]);
    let before = files(at.path());
    let watch = StopEarly(AtomicBool::new(false));
    let changed = [
        track("t", three_lines(300.0, 500)),
        track("u", three_lines(300.0, 500)),
    ];
    let settings = RenderSettings {
        force: true,
        ..PLAIN
    };
    let end = batch::render(&changed, at.path(), &settings, &watch.0, &watch);
    assert!(matches!(end.failure, Some(RenderFailure::Stopped)));
    assert_eq!(end.finished, []);
    assert!(files(at.path()) == before);
}

#[test]
fn what_stands_in_the_way_is_named_and_not_harmed() {
    let at = folder();
    let tracks = [track("t", three_lines(247.0, 500))];
    let stop = AtomicBool::new(false);
    let failure = |folder: &Path| {
        let end = batch::render(&tracks, folder, &PLAIN, &stop, &());
        assert_eq!(end.finished, []);
        end.failure.unwrap()
    };
    let file = at.path().join("file");
    fs::write(&file, "mine").unwrap();
    for below in ["", "tracks", "more/tracks"] {
        match failure(&file.join(below)) {
            RenderFailure::NotAFolder(path) => assert_eq!(path, file),
            other => panic!("{other:?}"),
        }
    }
    let in_the_way = at.path().join("t.wav");
    fs::create_dir(&in_the_way).unwrap();
    fs::write(in_the_way.join("inside"), "mine").unwrap();
    match failure(at.path()) {
        RenderFailure::FolderInTheWay(path) => assert_eq!(path, in_the_way),
        other => panic!("{other:?}"),
    }
    assert_eq!(fs::read_to_string(&file).unwrap(), "mine");
    assert!(in_the_way.join("inside").exists());
    assert_eq!(files(at.path()).len(), 1);
}

#[cfg(unix)]
#[test]
fn tracks_have_ordinary_permissions() {
    use std::os::unix::fs::PermissionsExt;
    let at = folder();
    render(at.path(), PLAIN, &[track("t", three_lines(247.0, 500))]);
    let ordinary = at.path().join("ordinary");
    File::create(&ordinary).unwrap();
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode();
    assert_eq!(mode(&at.path().join("t.wav")), mode(&ordinary));
    let record = at.path().join(FOLDER).join("t.json");
    assert_eq!(mode(&record), mode(&ordinary));
}

/// The record's hashes are those of the files as anybody would take them.
#[test]
fn records_tell_the_truth() {
    let at = folder();
    let settings = RenderSettings {
        stems: true,
        ..PLAIN
    };
    render(at.path(), settings, &[track("t", three_lines(247.0, 501))]);
    let record = fs::read(at.path().join(FOLDER).join("t.json")).unwrap();
    let record: serde_json::Value = serde_json::from_slice(&record).unwrap();
    assert_eq!(record["engine"], leadpipe::SOUND_REVISION);
    let listed = record["files"].as_array().unwrap();
    assert_eq!(listed.len(), 4);
    for file in listed {
        let bytes = fs::read(at.path().join(file["name"].as_str().unwrap())).unwrap();
        assert_eq!(file["bytes"], bytes.len());
        assert_eq!(file["blake3"], blake3::hash(&bytes).to_hex().to_string());
    }
}
