//! What is written again, and what is not.

use super::*;
use leadpipe::render::{FileKinds, TrackOutcome};

/// Endings of the files of the only track that were written.
fn written(finished: &[Finished]) -> Vec<String> {
    let files = finished[0].files.iter().filter(|file| file.written);
    let ending = |path: &Path| path.extension().unwrap().to_str().unwrap().to_owned();
    files.map(|file| ending(&file.path)).collect()
}

const WAV: RenderSettings = RenderSettings {
    kinds: FileKinds::WAV,
    ..ALL
};

const MP3: RenderSettings = RenderSettings {
    kinds: FileKinds::NONE.with(FileKind::Mp3),
    ..ALL
};

#[test]
fn the_same_bytes_come_of_every_run_and_a_second_one_writes_nothing() {
    let (one, two) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let settings = |threads| RenderSettings {
        stems: true,
        threads: Some(threads),
        ..ALL
    };
    render(one.path(), settings(1), &[track(RATE)]);
    let finished = render(two.path(), settings(4), &[track(RATE)]);
    assert_eq!(finished[0].files.len(), 12);
    assert!(files(one.path()) == files(two.path()));
    for verify in [false, true] {
        let settings = RenderSettings {
            verify,
            ..settings(2)
        };
        let finished = render(one.path(), settings, &[track(RATE)]);
        assert_eq!(finished[0].made, TrackOutcome::Unchanged);
        assert_eq!(written(&finished), [""; 0]);
    }
}

#[test]
fn a_kind_of_file_that_is_added_is_made_from_what_is_there() {
    let (at, fresh) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    render(at.path(), WAV, &[track(RATE)]);
    let time = |name: &str| {
        fs::metadata(at.path().join(name))
            .unwrap()
            .modified()
            .unwrap()
    };
    let before = time("t.wav");
    let finished = render(at.path(), ALL, &[track(RATE)]);
    assert_eq!(written(&finished), ["flac", "mp3"]);
    let made = TrackOutcome::Again {
        rendered: 0,
        lines: 3,
        altered: false,
    };
    assert_eq!(finished[0].made, made);
    assert_eq!(time("t.wav"), before);
    render(fresh.path(), ALL, &[track(RATE)]);
    assert!(files(at.path()) == files(fresh.path()));
}

#[test]
fn other_kinds_that_are_there_are_kept_in_step() {
    let (at, fresh) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    render(at.path(), ALL, &[track(RATE)]);
    let changed = |folder: &Path, settings| {
        let mut timeline = timeline(RATE);
        timeline.cues[1].label.push('!');
        let track = Track {
            timeline: Box::new(move || timeline.clone()),
            ..track(RATE)
        };
        render(folder, settings, &[track])
    };
    assert_eq!(written(&changed(at.path(), MP3)), ["wav", "flac", "mp3"]);
    changed(fresh.path(), ALL);
    assert!(files(at.path()) == files(fresh.path()));
    assert_eq!(written(&changed(at.path(), MP3)), [""; 0]);
}

#[test]
fn another_label_writes_only_what_holds_it() {
    let at = tempfile::tempdir().unwrap();
    render(at.path(), ALL, &[track(RATE)]);
    let mut other = track(RATE);
    other.labels.number = 1;
    assert_eq!(written(&render(at.path(), ALL, &[other])), ["flac", "mp3"]);
    let tag = id3v2::read(&fs::read(at.path().join("t.mp3")).unwrap());
    assert_eq!(tag.text("TRCK"), "1/3");
}

#[test]
fn damage_is_found_and_mended_in_every_kind() {
    let at = tempfile::tempdir().unwrap();
    render(at.path(), ALL, &[track(RATE)]);
    let before = files(at.path());
    let verify = RenderSettings {
        verify: true,
        ..ALL
    };
    for ending in ["wav", "flac", "mp3"] {
        let path = at.path().join(format!("t.{ending}"));
        let mut bytes = fs::read(&path).unwrap();
        let time = fs::metadata(&path).unwrap().modified().unwrap();
        let middle = bytes.len() / 2;
        bytes[middle] ^= 1;
        fs::write(&path, bytes).unwrap();
        let file = fs::File::options().write(true).open(&path).unwrap();
        file.set_modified(time).unwrap();
        assert_eq!(written(&render(at.path(), ALL, &[track(RATE)])), [""; 0]);
        assert_eq!(
            written(&render(at.path(), verify, &[track(RATE)])),
            [ending]
        );
        assert!(files(at.path()) == before, "{ending}");
    }
}

#[test]
fn a_stop_leaves_nothing_of_any_kind() {
    let at = tempfile::tempdir().unwrap();
    render(at.path(), MP3, &[track(RATE)]);
    let before = files(at.path());
    let settings = RenderSettings { force: true, ..ALL };
    let end = batch::render(
        &[track(RATE)],
        at.path(),
        &settings,
        &AtomicBool::new(true),
        &(),
    );
    assert!(end.failure.is_some());
    assert!(files(at.path()) == before);
}
