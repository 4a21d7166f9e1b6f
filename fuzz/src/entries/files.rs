//! Files that leadpipe wrote, and that somebody may have changed.

use leadpipe::handout::owner;
use leadpipe::render::files::written as journal;
use leadpipe::render::formats::{flac, mp3};
use leadpipe::render::list;
use leadpipe::render::reuse::kept::Kept;
use leadpipe::render::reuse::record::Record;
use leadpipe::render::{Bits, Channels, FileKind, SampleFormat, TrackPart};
use std::fs;
use std::io::{self, Cursor};
use std::path::PathBuf;
use tempfile::TempDir;

thread_local! {
    /// In memory where there is such a place; one for each thread of the tests.
    static FOLDER: TempDir = {
        let memory = PathBuf::from("/dev/shm");
        let place = if memory.is_dir() { memory } else { std::env::temp_dir() };
        let folder = tempfile::tempdir_in(place).expect("a folder can be made");
        fs::create_dir(folder.path().join(".leadpipe")).expect("a folder can be made");
        fs::write(folder.path().join("t.wav"), "ours").expect("a file can be written");
        folder
    };
}

fn written(name: &str, bytes: &[u8]) -> (PathBuf, PathBuf) {
    FOLDER.with(|folder| {
        let path = folder.path().join(name);
        fs::write(&path, bytes).expect("a file can be written");
        (folder.path().to_owned(), path)
    })
}

/// A record of a track, of a folder's owner, or of what was written.
pub fn record(bytes: &[u8]) {
    written(".leadpipe/player", bytes);
    written(".leadpipe/written", bytes);
    let (folder, _) = written(".leadpipe/t.json", bytes);
    owner::of(&folder).expect("it can be read");
    journal::standing(&folder, "t.wav").expect("it can be read");
    if let Some(record) = Record::load(&folder, "t").expect("it can be read") {
        assert!(record.lines() as u64 <= bytes.len() as u64);
        for kind in FileKind::ALL {
            record.file(TrackPart::Mix, kind);
        }
        list::of_folder(&folder).expect("it can be read");
    }
}

/// A WAV file that frames are copied from. The first bytes say which frames.
pub fn wav(bytes: &[u8]) {
    let Some(([first @ .., last], file)) = bytes.split_first_chunk::<9>() else {
        return;
    };
    let (first_frame, frames) = (u64::from_le_bytes(*first), u64::from(*last));
    let (_, path) = written("a.wav", file);
    for (bits, channels) in [
        (Bits::Sixteen, Channels::Mono),
        (Bits::TwentyFour, Channels::Stereo),
    ] {
        let format = SampleFormat {
            sample_rate: 44_100,
            bits,
            channels,
        };
        let Ok(mut kept) = Kept::open(&path, format) else {
            continue;
        };
        if kept.holds(first_frame, frames) {
            let mut all = 0;
            let read = kept.read::<io::Error>(first_frame, frames, |bytes| {
                all += bytes.len() as u64;
                Ok(())
            });
            assert!(all <= file.len() as u64);
            assert!(read.is_err() || all == frames * format.frame_bytes());
        }
    }
}

/// A FLAC or MP3 file whose sound is copied.
pub fn packed(bytes: &[u8]) {
    if let Ok(head) = flac::read_head(&mut Cursor::new(bytes)) {
        assert_eq!(head.len(), 34);
    }
    let mut file = Cursor::new(bytes);
    if mp3::skip_tags(&mut file).is_ok() {
        assert!(file.position() >= 10);
    }
}
