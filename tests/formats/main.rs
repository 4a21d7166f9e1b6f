//! FLAC and MP3 files, read back by other people's decoders and by a reader of ID3 tags written here from its
//! description: the sound is that of the WAV file, and labels and chapters say what they should.
#![cfg(all(feature = "flac", feature = "mp3"))]

mod again;
mod decoded;
mod flac;
mod id3v2;
mod lists;
mod mp3;
mod shared;

use leadpipe::render::planned;
use leadpipe::render::{Bits, FileKind, Finished, RenderSettings, Track, batch};
use leadpipe::routine::{self, Routine};
use leadpipe::score::{Take, unroll};
use leadpipe::timeline::compile::{self, compile};
use leadpipe::timeline::{Cue, Timeline};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::atomic::AtomicBool;

const RATE: u32 = 44_100;

/// Three lines, the last a little longer than a whole number of blocks and frames of any encoder.
const ROUTINE: &str = "\
format = 1
title = \"Übung № 1 & more\"
instrument = \"trumpet in B-flat\"
comfortable_top = \"G4\"
tempo = 97

[[line]]
name = \"Away\"
notes = \"p slur( C4:half E4:half )\"
rest = \"8 s\"

[[line]]
name = \"Quiet “air”\"
on = \"air\"
notes = \"in:half out:half\"
rest = \"7.3 s\"

[[line]]
name = \"Home\"
tempo = 71.3
notes = \"f C4:quarter D4:quarter E4:quarter G4:quarter | C4:quarter\"
";

/// What the files in a folder hold, by name.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = fs::read_dir(folder).unwrap().map(Result::unwrap);
    let files = entries.filter(|entry| entry.path().is_file());
    let read = files.map(|entry| {
        let name = entry.file_name().into_string().unwrap();
        (name, fs::read(entry.path()).unwrap())
    });
    read.collect()
}

fn routine() -> Routine {
    routine::read(ROUTINE).expect("it is whole")
}

fn timeline(sample_rate: u32) -> Timeline {
    let routine = routine();
    let score = unroll(&routine, &Take::default()).expect("it unrolls");
    compile(
        &score,
        &compile::Settings {
            sample_rate,
            signs: true,
        },
    )
}

fn cues(sample_rate: u32) -> Vec<Cue> {
    timeline(sample_rate).cues
}

/// The track `t`, second of three.
fn track(sample_rate: u32) -> Track<'static> {
    let timeline = timeline(sample_rate);
    Track {
        name: "t".to_owned(),
        labels: planned::labels(&routine(), None, &Take::default(), 2, 3),
        like: vec![],
        twin: None,
        fingerprint: None,
        origin: None,
        frames: timeline.frames,
        timeline: Box::new(move || timeline.clone()),
    }
}

const ALL: RenderSettings = {
    let mut settings = RenderSettings::new(RATE, Bits::Sixteen);
    settings.kinds = settings.kinds.with(FileKind::Flac).with(FileKind::Mp3);
    settings
};

fn render(folder: &Path, settings: RenderSettings, tracks: &[Track<'_>]) -> Vec<Finished> {
    let end = batch::render(tracks, folder, &settings, &AtomicBool::new(false), &());
    assert!(end.failure.is_none(), "{:?}", end.failure);
    end.finished
}
