//! Sound that several tracks of one run share: the files are those that each track alone would have.

use super::*;
use leadpipe::render::batch::{BatchTrack, Run};
use leadpipe::render::reuse::fingerprint::Fingerprint;
use leadpipe::render::reuse::shelf::Shelf;
use leadpipe::render::{FileKinds, LazyEngine, TrackOutcome, files};
use leadpipe::timeline::Content;
use std::collections::HashMap;
use std::path::PathBuf;

const PACKED: FileKinds = FileKinds::NONE.with(FileKind::Flac).with(FileKind::Mp3);

/// The track `name` of a player, with a cover, a title and a number of its own.
fn of_player(name: &str, number: u32, timeline: Timeline) -> Track<'static> {
    let mut labels = planned::labels(&routine(), Some(name), &Take::default(), number, 12);
    // Much longer than the others', so that the sound begins elsewhere.
    labels.caution = labels.caution.repeat(number as usize);
    Track {
        name: name.to_owned(),
        labels,
        like: vec![],
        twin: None,
        fingerprint: None,
        origin: None,
        frames: timeline.frames,
        timeline: Box::new(move || timeline.clone()),
    }
}

fn twin_of(folder: &Path, name: &str, track: Track<'static>) -> Track<'static> {
    Track {
        twin: Some((folder.to_owned(), name.to_owned())),
        ..track
    }
}

fn packed(finished: &Finished) -> Vec<Option<bool>> {
    finished.files.iter().map(|file| file.packed).collect()
}

/// In every format and with stems, a file with copied sound is byte for byte the one that is packed for its own
/// labels: its lengths, checks and gaps are right because they are the same.
#[test]
fn a_twin_is_packed_once_and_labelled_twice() {
    for (rate, bits, spread) in [
        (44_100, Bits::Sixteen, false),
        (48_000, Bits::TwentyFour, true),
    ] {
        let settings = RenderSettings {
            sample_rate: rate,
            bits,
            spread,
            stems: true,
            kinds: PACKED,
            ..ALL
        };
        let (first, second, alone) = (
            tempfile::tempdir().unwrap(),
            tempfile::tempdir().unwrap(),
            tempfile::tempdir().unwrap(),
        );
        // Words of a line are no sound.
        let mut renamed = timeline(rate);
        renamed.cues[1].label += ", slowly";
        let anna = of_player("anna", 1, timeline(rate));
        let made = render(first.path(), settings, &[anna]);
        assert_eq!(packed(&made[0]), [Some(true); 8]);
        let ben = || of_player("ben", 12, renamed.clone());
        let copied = twin_of(first.path(), "anna", ben());
        let made = render(second.path(), settings, &[copied]);
        assert_eq!(packed(&made[0]), [Some(false); 8]);
        assert_eq!(
            (made[0].made, made[0].rendered, made[0].lines),
            (TrackOutcome::New, 0, 3)
        );
        let made = render(alone.path(), settings, &[ben()]);
        assert_eq!(
            (packed(&made[0]), made[0].rendered),
            (vec![Some(true); 8], 3)
        );
        assert!(
            files(second.path()) == files(alone.path()),
            "{rate} {bits:?}"
        );

        // Read by other people's decoders.
        for part in ["", " guide", " drone", " click"] {
            let of = |folder: &Path, name: &str, ending: &str| {
                folder.join(format!("{name}{part}.{ending}"))
            };
            let flac = |folder: &Path, name: &str| decoded::flac(&of(folder, name, "flac"));
            let mp3 = |folder: &Path, name: &str| decoded::mp3(&of(folder, name, "mp3"));
            assert!(flac(first.path(), "anna") == flac(second.path(), "ben"));
            assert!(mp3(first.path(), "anna") == mp3(second.path(), "ben"));
        }
        let tag = id3v2::read(&fs::read(second.path().join("ben.mp3")).unwrap());
        assert_eq!(tag.text("TALB"), "Übung № 1 & more, ben");
        assert_eq!(tag.text("TRCK"), "12/12");
        assert_eq!(tag.chapters[1].title, "2 Quiet “air”, slowly");

        // A second run finds everything as it should be.
        let again = twin_of(first.path(), "anna", ben());
        assert_eq!(
            render(second.path(), settings, &[again])[0].made,
            TrackOutcome::Unchanged
        );
    }
}

#[test]
fn a_twin_that_is_not_what_it_should_be_is_not_copied() {
    let settings = RenderSettings {
        kinds: PACKED,
        verify: true,
        ..ALL
    };
    let first = tempfile::tempdir().unwrap();
    render(
        first.path(),
        settings,
        &[of_player("anna", 1, timeline(RATE))],
    );
    let copied = |name: &str, settings: RenderSettings, timeline: Timeline| {
        let second = tempfile::tempdir().unwrap();
        let track = twin_of(first.path(), name, of_player("ben", 2, timeline));
        packed(&render(second.path(), settings, &[track])[0])
    };
    assert_eq!(copied("anna", settings, timeline(RATE)), [Some(false); 2]);
    assert_eq!(copied("nobody", settings, timeline(RATE)), [Some(true); 2]);
    // Another sound, by one click.
    let mut other = timeline(RATE);
    let clicks = other
        .units
        .iter_mut()
        .find_map(|unit| match &mut unit.content {
            Content::Line(line) => Some(&mut line.clicks),
            Content::Rest(_) => None,
        });
    clicks.unwrap().pop();
    assert_eq!(copied("anna", settings, other), [Some(true); 2]);
    let wider = RenderSettings {
        bits: Bits::TwentyFour,
        ..settings
    };
    assert_eq!(copied("anna", wider, timeline(RATE)), [Some(true); 2]);
    // Damaged without a trace in its length and time.
    let path = first.path().join("anna.mp3");
    let time = fs::metadata(&path).unwrap().modified().unwrap();
    let mut bytes = fs::read(&path).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 1;
    fs::write(&path, bytes).unwrap();
    let file = fs::File::options().write(true).open(&path).unwrap();
    file.set_modified(time).unwrap();
    assert_eq!(
        copied("anna", settings, timeline(RATE)),
        [Some(false), Some(true)]
    );
    fs::remove_file(first.path().join("anna.flac")).unwrap();
    assert_eq!(copied("anna", settings, timeline(RATE)), [Some(true); 2]);
}

/// Three tracks of which two have lines of the others: each line is rendered once, every file is as if rendered alone,
/// and the shelf is empty in the end.
#[test]
fn lines_on_the_shelf_are_as_if_rendered() {
    for (bits, spread, stems) in [
        (Bits::Sixteen, false, false),
        (Bits::TwentyFour, true, true),
    ] {
        let settings = RenderSettings {
            bits,
            spread,
            stems,
            kinds: PACKED,
            threads: Some(3),
            ..ALL
        };
        // The whole, the lines from the second on, and the last.
        let from = |first: usize| {
            let mut part = timeline(RATE);
            let mut at = 0;
            part.units.drain(..first);
            for unit in &mut part.units {
                unit.first_frame = at;
                at += unit.frames;
            }
            part.frames = at;
            part.cues.clear();
            part
        };
        let timelines = [from(0), from(2), from(4)];
        let lines: Vec<blake3::Hash> = {
            let print = Fingerprint::of(&timelines[0]);
            let units = timelines[0].units.iter().zip(print.units);
            let lines = units.filter(|(unit, _)| matches!(unit.content, Content::Line(_)));
            lines.map(|(_, hash)| hash).collect()
        };
        assert_eq!(lines.len(), 3);
        let named = ["a", "b", "c"].into_iter().zip(&timelines);
        let tracks: Vec<Track<'_>> = named.map(|(n, t)| of_player(n, 1, t.clone())).collect();
        let (out, alone) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
        let folders: Vec<PathBuf> = (0..3).map(|n| out.path().join(n.to_string())).collect();
        for folder in &folders {
            files::prepare(folder).unwrap();
        }
        let placed = |(number, track)| BatchTrack {
            number,
            folder: &folders[number],
            track,
            after: [vec![], vec![0], vec![0]][number].clone(),
            shelf_lines: [&[][..], &lines[1..], &lines[2..]][number],
        };
        let placed: Vec<BatchTrack<'_, '_>> = tracks.iter().enumerate().map(placed).collect();
        let shelf = Shelf::new(HashMap::from([(lines[1], 1), (lines[2], 2)]));
        let end = Run {
            settings: &settings,
            engine: &LazyEngine::new(RATE),
            shelf: Some(&shelf),
            stop: &AtomicBool::new(false),
            watch: &(),
        }
        .render(&placed);
        assert!(end.failure.is_none(), "{:?}", end.failure);
        let rendered: Vec<usize> = end.finished.iter().map(|f| f.rendered).collect();
        assert_eq!(rendered, [3, 0, 0]);
        render(alone.path(), settings, &tracks);
        let together: BTreeMap<String, Vec<u8>> =
            folders.iter().flat_map(|folder| files(folder)).collect();
        assert!(together == files(alone.path()), "{bits:?}");
    }
}
