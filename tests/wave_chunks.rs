//! WAV files as written, read by a parser that knows nothing of the writer.
//!
//! Written from the description of the format alone (Multimedia Programming Interface and Data
//! Specifications 1.0, August 1991: RIFF, `fmt `, `cue `, `LIST adtl`, `labl`, `ltxt`; and of 1999 for
//! the extensible `fmt `).

use leadpipe::render::{Bits, Labels, RenderSettings, Track, batch};
use leadpipe::timeline::{Click, Content, Cue, LineSound, RestSound, Timeline, Unit};
use std::collections::HashMap;
use std::fs;
use std::sync::atomic::AtomicBool;

/// One `name size body` with its offset in the file.
struct Chunk<'a> {
    name: [u8; 4],
    body: &'a [u8],
    offset: usize,
}

/// The chunks that fill `bytes`, each padded to an even length.
fn chunks(bytes: &[u8], first_offset: usize) -> Vec<Chunk<'_>> {
    let mut found = Vec::new();
    let mut at = 0;
    while at < bytes.len() {
        let name = bytes[at..at + 4].try_into().unwrap();
        let size = u32_at(bytes, at + 4) as usize;
        found.push(Chunk {
            name,
            body: &bytes[at + 8..at + 8 + size],
            offset: first_offset + at + 8,
        });
        at += 8 + size + size % 2;
    }
    assert_eq!(at, bytes.len(), "the last chunk is padded, too");
    found
}

fn u16_at(bytes: &[u8], at: usize) -> u16 {
    u16::from_le_bytes(bytes[at..at + 2].try_into().unwrap())
}

fn u32_at(bytes: &[u8], at: usize) -> u32 {
    u32::from_le_bytes(bytes[at..at + 4].try_into().unwrap())
}

#[derive(Debug, PartialEq)]
struct Point {
    frame: u32,
    label: String,
    length: u32,
}

struct Parsed {
    rate: u32,
    bits: u16,
    data: Vec<u8>,
    points: Vec<Point>,
}

fn parse(file: &[u8]) -> Parsed {
    assert_eq!(&file[..4], b"RIFF");
    assert_eq!(u32_at(file, 4) as usize, file.len() - 8);
    assert_eq!(&file[8..12], b"WAVE");
    let all = chunks(&file[12..], 12);
    let named = |name: &[u8; 4]| {
        let mut found = all.iter().filter(|c| &c.name == name);
        let chunk = found.next().unwrap_or_else(|| panic!("no {name:?}"));
        assert!(found.next().is_none(), "{name:?} once only");
        chunk
    };
    assert_eq!(&all[0].name, b"fmt ", "the format comes first");

    let format = named(b"fmt ").body;
    let bits = u16_at(format, 14);
    match u16_at(format, 0) {
        1 => assert_eq!(format.len(), 16),
        0xfffe => {
            assert_eq!(format.len(), 40);
            assert_eq!(u16_at(format, 16), 22);
            assert_eq!(u16_at(format, 18), bits, "all bits are used");
            assert_eq!(u16_at(format, 24), 1, "whole numbers");
        }
        other => panic!("unknown format {other}"),
    }
    let rate = u32_at(format, 4);
    assert_eq!(u16_at(format, 2), 1, "one channel");
    assert_eq!(u16_at(format, 12), bits / 8, "bytes of a frame");
    assert_eq!(u32_at(format, 8), rate * u32::from(bits / 8));

    let data = named(b"data");
    assert!(data.offset.is_multiple_of(2));
    let frames = data.body.len() as u32 / u32::from(bits / 8);

    let list = named(b"LIST").body;
    assert_eq!(&list[..4], b"adtl");
    let mut labels = HashMap::new();
    let mut lengths = HashMap::new();
    for chunk in chunks(&list[4..], 0) {
        let id = u32_at(chunk.body, 0);
        match &chunk.name {
            b"labl" => {
                let text = chunk.body[4..].strip_suffix(&[0]).unwrap();
                let text = String::from_utf8(text.to_vec()).unwrap();
                assert_eq!(labels.insert(id, text), None);
            }
            b"ltxt" => {
                assert_eq!(chunk.body.len(), 20);
                assert_eq!(&chunk.body[8..12], b"rgn ");
                assert_eq!(lengths.insert(id, u32_at(chunk.body, 4)), None);
            }
            other => panic!("unexpected {other:?}"),
        }
    }

    let cue = named(b"cue ").body;
    let count = u32_at(cue, 0) as usize;
    assert_eq!(cue.len(), 4 + 24 * count);
    let points = cue[4..]
        .chunks(24)
        .map(|point| {
            let id = u32_at(point, 0);
            let frame = u32_at(point, 20);
            assert_eq!(&point[8..12], b"data");
            assert_eq!((u32_at(point, 12), u32_at(point, 16)), (0, 0));
            assert_eq!(u32_at(point, 4), frame, "played in the order of the file");
            let length = lengths.remove(&id).unwrap();
            assert!(frame + length <= frames);
            Point {
                frame,
                label: labels.remove(&id).unwrap(),
                length,
            }
        })
        .collect();
    assert!(labels.is_empty() && lengths.is_empty());
    Parsed {
        rate,
        bits,
        data: data.body.to_vec(),
        points,
    }
}

fn timeline(rate: u32, last: u64) -> Timeline {
    let rest = |first_frame, frames| Unit {
        first_frame,
        frames,
        content: Content::Rest(RestSound::default()),
    };
    let line = |first_frame, frames| Unit {
        first_frame,
        frames,
        content: Content::Line(LineSound {
            clicks: vec![Click {
                frame: 100,
                accented: true,
            }],
            ..LineSound::default()
        }),
    };
    let cue = |frame, frames, label: &str| Cue {
        frame,
        frames,
        label: label.to_owned(),
    };
    Timeline {
        sample_rate: rate,
        frames: 30_000 + last,
        units: vec![
            rest(0, 1000),
            line(1000, 9000),
            rest(10_000, 20_000),
            line(30_000, last),
        ],
        cues: vec![
            cue(1000, 8800, "1 Long tones"),
            cue(30_000, last - 300, "2 Übung für Anfänger ♯"),
        ],
    }
}

fn rendered(rate: u32, bits: Bits, last: u64) -> Vec<u8> {
    let folder = tempfile::tempdir().unwrap();
    let track = Track {
        name: "track".to_owned(),
        labels: Labels::default(),
        origin: None,
        frames: 0,
        like: vec![],
        twin: None,
        fingerprint: None,
        timeline: Box::new(move || timeline(rate, last)),
    };
    let settings = RenderSettings {
        threads: Some(1),
        ..RenderSettings::new(rate, bits)
    };
    let stop = AtomicBool::new(false);
    let end = batch::render(&[track], folder.path(), &settings, &stop, &());
    assert!(end.failure.is_none(), "{:?}", end.failure);
    fs::read(folder.path().join("track.wav")).unwrap()
}

#[test]
fn every_chunk_is_where_the_format_wants_it() {
    for (rate, bits, last) in [
        (44_100, Bits::Sixteen, 5000),
        (44_100, Bits::TwentyFour, 5000),
        (48_000, Bits::TwentyFour, 5001),
        (48_000, Bits::Sixteen, 5001),
    ] {
        let parsed = parse(&rendered(rate, bits, last));
        assert_eq!((parsed.rate, parsed.bits), (rate, bits.number()));
        let frame_bytes = usize::from(bits.number() / 8);
        assert_eq!(parsed.data.len(), (30_000 + last as usize) * frame_bytes);
        let first_points = [
            ("1 Long tones", 1000, 8800),
            ("2 Übung für Anfänger ♯", 30_000, last as u32 - 300),
        ];
        let points: Vec<Point> = first_points
            .map(|(label, frame, length)| Point {
                frame,
                label: label.to_owned(),
                length,
            })
            .into();
        assert_eq!(parsed.points, points);
        let silent = &parsed.data[10_000 * frame_bytes..30_000 * frame_bytes];
        assert!(silent.iter().all(|byte| *byte == 0), "a rest is silent");
    }
}

/// A second reader: the crate that wrote the frames passes over the chunks after them.
#[test]
fn the_frames_are_found_by_another_reader() {
    for bits in [Bits::Sixteen, Bits::TwentyFour] {
        let file = rendered(44_100, bits, 5001);
        let reader = hound::WavReader::new(&file[..]).unwrap();
        assert_eq!(reader.duration(), 35_001);
        assert_eq!(reader.spec().channels, 1);
        assert_eq!(reader.into_samples::<i32>().count(), 35_001);
    }
}
