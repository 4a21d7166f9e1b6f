//! The batch: the same files whatever the threads, only what changed, and nothing broken left behind.

use leadpipe::render::files::passing;
use leadpipe::render::reuse::record::FOLDER;
use leadpipe::render::{
    Bits, Finished, Labels, RenderFailure, RenderSettings, Track, TrackOutcome, Watch, batch,
};
use leadpipe::timeline::{
    Approach, Click, Content, Cue, Held, LevelPoint, LineSound, Onset, RestSound, Sign, Source,
    Step, Timeline, Tone, Unit,
};
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use tempfile::TempDir;

const RATE: u32 = 44_100;

/// A line that sounds: clicks, a drone and one tone at `hz`.
fn line(hz: f64, seconds: u64) -> Content {
    let end = seconds * u64::from(RATE);
    Content::Line(LineSound {
        clicks: (0..seconds)
            .map(|s| Click {
                frame: s * u64::from(RATE),
                accented: s % 4 == 0,
            })
            .collect(),
        drone: vec![Held {
            frame: 0,
            end,
            hz: vec![hz / 2.0],
            fade: 10_000,
        }],
        tones: vec![Tone {
            frame: 20_000,
            end: end - 20_000,
            onset: Onset::Tongue,
            accented: false,
            release: 2000,
            source: Source::Horn,
            steps: vec![Step {
                frame: 20_000,
                hz,
                approach: Approach::Start,
            }],
            levels: vec![LevelPoint {
                frame: 20_000,
                db: -6.0,
            }],
            seed: 7,
        }],
        swells: vec![],
    })
}

fn rest(signs: &[(u64, Sign)]) -> Content {
    Content::Rest(RestSound {
        signs: signs.to_vec(),
    })
}

fn timeline(contents: Vec<(u64, Content)>) -> Timeline {
    let mut units = Vec::new();
    let mut cues = Vec::new();
    let mut frame = 0;
    for (frames, content) in contents {
        if matches!(content, Content::Line(_)) {
            cues.push(Cue {
                frame,
                frames: frames - 5000,
                label: format!("{} line", cues.len() + 1),
            });
        }
        units.push(Unit {
            first_frame: frame,
            frames,
            content,
        });
        frame += frames;
    }
    Timeline {
        sample_rate: RATE,
        frames: frame,
        units,
        cues,
    }
}

/// Three lines, the second at `hz`, after a first rest of `before` frames.
fn three_lines(hz: f64, before: u64) -> Timeline {
    let second = u64::from(RATE);
    timeline(vec![
        (before, rest(&[])),
        (4 * second, line(220.0, 4)),
        (
            9 * second + 17,
            rest(&[(3000, Sign::HornDown), (90_000, Sign::HornUp)]),
        ),
        (3 * second + 5, line(hz, 3)),
        (second, rest(&[])),
        (5 * second + 11, line(330.0, 5)),
    ])
}

fn track(name: &str, timeline: Timeline) -> Track<'static> {
    Track {
        name: name.to_owned(),
        labels: Labels::default(),
        origin: None,
        frames: timeline.frames,
        like: vec![],
        twin: None,
        fingerprint: None,
        timeline: Box::new(move || timeline.clone()),
    }
}

const PLAIN: RenderSettings = RenderSettings {
    threads: Some(1),
    ..RenderSettings::new(RATE, Bits::Sixteen)
};

fn render(folder: &Path, settings: RenderSettings, tracks: &[Track<'_>]) -> Vec<Finished> {
    let end = batch::render(tracks, folder, &settings, &AtomicBool::new(false), &());
    assert!(end.failure.is_none(), "{:?}", end.failure);
    end.finished
}

fn made(folder: &Path, settings: RenderSettings, tracks: &[Track<'_>]) -> Vec<TrackOutcome> {
    let finished = render(folder, settings, tracks);
    finished.iter().map(|f| f.made).collect()
}

/// Names and bytes of all files but records, which hold times.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    fs::read_dir(folder)
        .unwrap()
        .map(Result::unwrap)
        .filter(|entry| entry.file_type().unwrap().is_file())
        .map(|entry| {
            let name = entry.file_name().into_string().unwrap();
            (name, fs::read(entry.path()).unwrap())
        })
        .collect()
}

fn folder() -> TempDir {
    tempfile::tempdir().unwrap()
}

fn again(rendered: usize, lines: usize) -> TrackOutcome {
    TrackOutcome::Again {
        rendered,
        lines,
        altered: false,
    }
}

#[test]
fn one_thread_and_four_write_the_same_bytes() {
    let tracks = || {
        (0..6)
            .map(|n| track(&format!("t{n}"), three_lines(200.0 + f64::from(n), 500)))
            .collect::<Vec<_>>()
    };
    let (one, four) = (folder(), folder());
    let settings = |threads| RenderSettings {
        stems: true,
        threads: Some(threads),
        ..PLAIN
    };
    render(one.path(), settings(1), &tracks());
    render(four.path(), settings(4), &tracks());
    let files_of_one = files(one.path());
    assert_eq!(files_of_one.len(), 24);
    assert!(files_of_one == files(four.path()));
}

#[test]
fn the_sound_is_not_silence_and_stems_add_up_to_the_track() {
    let at = folder();
    let settings = RenderSettings {
        stems: true,
        ..PLAIN
    };
    render(at.path(), settings, &[track("t", three_lines(247.0, 500))]);
    let frames = |name: &str| -> Vec<i32> {
        let reader = hound::WavReader::open(at.path().join(name)).unwrap();
        reader.into_samples().map(Result::unwrap).collect()
    };
    let mix = frames("t.wav");
    let stems = [
        frames("t guide.wav"),
        frames("t drone.wav"),
        frames("t click.wav"),
    ];
    assert!(mix.iter().any(|frame| frame.abs() > 1000));
    for (i, frame) in mix.iter().enumerate() {
        let sum: i32 = stems.iter().map(|stem| stem[i]).sum();
        // Half a step of rounding in each of four files.
        assert!((frame - sum).abs() <= 2, "frame {i}: {frame} and {sum}");
    }
}

#[test]
fn a_second_run_renders_nothing() {
    let at = folder();
    let tracks = [
        track("a", three_lines(247.0, 500)),
        track("b", three_lines(262.0, 500)),
    ];
    assert_eq!(
        made(at.path(), PLAIN, &tracks),
        [TrackOutcome::New, TrackOutcome::New]
    );
    let before = files(at.path());
    let time = |name| {
        let metadata = fs::metadata(at.path().join(name)).unwrap();
        metadata.modified().unwrap()
    };
    let times = (time("a.wav"), time("b.wav"));
    let verify = RenderSettings {
        verify: true,
        ..PLAIN
    };
    for settings in [PLAIN, verify] {
        let unchanged = [TrackOutcome::Unchanged, TrackOutcome::Unchanged];
        assert_eq!(made(at.path(), settings, &tracks), unchanged);
    }
    assert_eq!((time("a.wav"), time("b.wav")), times);
    assert!(files(at.path()) == before);
    let force = RenderSettings {
        force: true,
        ..PLAIN
    };
    assert_eq!(made(at.path(), force, &tracks), [again(3, 3), again(3, 3)]);
    assert!(files(at.path()) == before);
}

#[test]
fn one_changed_line_is_rendered_and_the_others_are_copied() {
    for bits in [Bits::Sixteen, Bits::TwentyFour] {
        let settings = RenderSettings {
            bits,
            stems: true,
            ..PLAIN
        };
        let (at, fresh) = (folder(), folder());
        render(at.path(), settings, &[track("t", three_lines(247.0, 500))]);
        // Another second line, and everything after the first rest moved by an odd number of frames.
        let changed = [track("t", three_lines(248.0, 613))];
        assert_eq!(made(at.path(), settings, &changed), [again(1, 3)]);
        render(fresh.path(), settings, &changed);
        assert!(files(at.path()) == files(fresh.path()));
        assert_eq!(
            made(at.path(), settings, &changed),
            [TrackOutcome::Unchanged]
        );
    }
}

#[test]
fn another_label_alone_copies_every_line() {
    let at = folder();
    render(at.path(), PLAIN, &[track("t", three_lines(247.0, 500))]);
    let mut relabelled = three_lines(247.0, 500);
    relabelled.cues[1].label = "2 another name".to_owned();
    assert_eq!(
        made(at.path(), PLAIN, &[track("t", relabelled)]),
        [again(0, 3)]
    );
    let file = fs::read(at.path().join("t.wav")).unwrap();
    assert!(file.windows(14).any(|w| w == b"2 another name"));
}

#[test]
fn another_format_renders_everything() {
    let at = folder();
    let tracks = [track("t", three_lines(247.0, 500))];
    render(at.path(), PLAIN, &tracks);
    let wide = RenderSettings {
        bits: Bits::TwentyFour,
        ..PLAIN
    };
    assert_eq!(made(at.path(), wide, &tracks), [again(3, 3)]);
}

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

#[test]
fn stems_once_asked_for_are_kept_in_step() {
    let at = folder();
    let stems = RenderSettings {
        stems: true,
        ..PLAIN
    };
    render(at.path(), stems, &[track("t", three_lines(247.0, 500))]);
    let changed = [track("t", three_lines(248.0, 500))];
    render(at.path(), PLAIN, &changed);
    let fresh = folder();
    render(fresh.path(), stems, &changed);
    assert!(files(at.path()) == files(fresh.path()));
}

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
