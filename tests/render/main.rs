//! The batch: the same files whatever the threads, only what changed, and nothing broken left behind.

use leadpipe::brass::Family;
use leadpipe::render::{Bits, Finished, Labels, RenderSettings, Track, TrackOutcome, batch};
use leadpipe::timeline::{
    Approach, Click, Content, Cue, Held, LevelPoint, LineSound, Onset, RestSound, Sign, Source,
    Step, Timeline, Tone, Unit,
};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::atomic::AtomicBool;
use tempfile::TempDir;

mod changed;
mod damage;
mod leftovers;
mod own;
mod same_bytes;

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
            rise: 1_100,
            onset: Onset::Tongue,
            accented: false,
            release: 2000,
            source: Source::Horn,
            family: Family::Trumpet,
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
        company: vec![],
        softer_db: 0.0,
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
