//! The list of a folder.

use super::*;
use leadpipe::render::files::Replace;
use leadpipe::render::list;
use std::fs;

fn write(folder: &Path) {
    let entries = list::of_folder(folder).unwrap();
    list::write(folder, &entries, Replace::Own).unwrap();
}

#[test]
fn a_list_names_every_track_of_its_folder_once_in_the_order_of_practice() {
    let at = tempfile::tempdir().unwrap();
    let named = |name: &str, take: &str| {
        let mut track = track(RATE);
        track.name = name.to_owned();
        track.labels.take = take.to_owned();
        track
    };
    let settings = RenderSettings { stems: true, ..ALL };
    render(
        at.path(),
        settings,
        &[named("t 072", "72"), named("t 050", "50")],
    );
    let wav = RenderSettings::new(RATE, Bits::Sixteen);
    render(at.path(), wav, &[named("t 100", "100")]);
    fs::write(at.path().join("t 999.wav"), "not ours").unwrap();
    write(at.path());
    let seconds = (timeline(RATE).frames as f64 / f64::from(RATE)).round();
    let text = fs::read_to_string(at.path().join(list::NAME)).unwrap();
    let expected = [
        ("50", "t 050.mp3"),
        ("72", "t 072.mp3"),
        ("100", "t 100.wav"),
    ]
    .map(|(take, file)| format!("#EXTINF:{seconds},Übung № 1 & more, {take}\n{file}\n"));
    assert_eq!(text, format!("#EXTM3U\n{}", expected.concat()));

    let time = || {
        fs::metadata(at.path().join(list::NAME))
            .unwrap()
            .modified()
            .unwrap()
    };
    let before = time();
    write(at.path());
    assert_eq!(time(), before, "nothing changed, nothing is written");
    fs::remove_file(at.path().join("t 050.mp3")).unwrap();
    fs::remove_file(at.path().join("t 100.wav")).unwrap();
    let files: Vec<String> = list::of_folder(at.path())
        .unwrap()
        .into_iter()
        .map(|e| e.file)
        .collect();
    assert_eq!(files, ["t 050.flac", "t 072.mp3"]);
}

/// Another title alone changes no file but the record, and so the list.
#[test]
fn another_title_is_listed() {
    let at = tempfile::tempdir().unwrap();
    let wav = RenderSettings::new(RATE, Bits::Sixteen);
    render(at.path(), wav, &[track(RATE)]);
    let mut other = track(RATE);
    other.labels.routine = "Übung".to_owned();
    let finished = render(at.path(), wav, &[other]);
    assert_eq!(finished[0].made, leadpipe::render::TrackOutcome::Unchanged);
    assert_eq!(
        list::of_folder(at.path()).unwrap()[0].title,
        "Übung, 97 clicks a minute"
    );
}

/// A list without it would look complete.
#[cfg(unix)]
#[test]
fn a_record_that_cannot_be_read_is_no_missing_track() {
    let at = tempfile::tempdir().unwrap();
    let wav = RenderSettings::new(RATE, Bits::Sixteen);
    render(at.path(), wav, &[track(RATE)]);
    let record = at.path().join(".leadpipe/t.json");
    assert!(record.is_file());
    fs::remove_file(&record).unwrap();
    // Reading a folder fails, whoever asks.
    fs::create_dir(&record).unwrap();
    let said = list::of_folder(at.path()).unwrap_err().to_string();
    assert!(said.contains("t.json could not be read"), "{said}");
}
