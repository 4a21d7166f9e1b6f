//! A reader of ID3 tags, written from their descriptions alone: ID3 tag version 2.3.0 (1999) and the chapter
//! frame addendum (2005).

/// What a tag says.
#[derive(Debug, Default)]
pub struct Tag {
    /// Text frames by name.
    pub texts: Vec<(String, String)>,
    pub comment: String,
    /// Kind of picture, and its bytes.
    pub pictures: Vec<(String, u8, Vec<u8>)>,
    /// Names of chapters in order, as the table of contents lists them.
    pub contents: Vec<String>,
    pub chapters: Vec<Chapter>,
}

#[derive(Debug, PartialEq)]
pub struct Chapter {
    pub name: String,
    pub start_ms: u32,
    pub end_ms: u32,
    pub title: String,
}

impl Tag {
    pub fn text(&self, name: &str) -> &str {
        let found = self.texts.iter().find(|(n, _)| n == name);
        found.map_or("", |(_, text)| text)
    }
}

pub fn read(file: &[u8]) -> Tag {
    assert_eq!(&file[..5], b"ID3\x03\x00");
    assert_eq!(file[5], 0, "neither unsynchronised nor extended");
    // Seven bits of each byte count.
    let size = file[6..10].iter().fold(0, |n, byte| {
        assert!(*byte < 0x80);
        n << 7 | usize::from(*byte)
    });
    let mut tag = Tag::default();
    for (name, body) in frames(&file[10..10 + size]) {
        match name.as_str() {
            "APIC" => {
                let (mime, rest) = latin(&body[1..]);
                let kind = rest[0];
                let (_, data) = text(body[0], &rest[1..]);
                tag.pictures.push((mime, kind, data.to_vec()));
            }
            "COMM" => {
                let (_, said) = text(body[0], &body[4..]);
                tag.comment = text(body[0], said).0;
            }
            "CTOC" => {
                let (_, rest) = latin(body);
                assert_eq!(rest[0], 0b11, "of the whole file, and in order");
                let mut rest = &rest[2..];
                for _ in 0..body[body.len() - rest.len() - 1] {
                    let (name, after) = latin(rest);
                    tag.contents.push(name);
                    rest = after;
                }
                assert_eq!(rest, b"");
            }
            "CHAP" => tag.chapters.push(chapter(body)),
            _ if name.starts_with('T') => {
                let text = text(body[0], &body[1..]).0;
                tag.texts.push((name, text));
            }
            _ => panic!("{name} is not expected"),
        }
    }
    tag
}

fn chapter(body: &[u8]) -> Chapter {
    let (name, rest) = latin(body);
    let number = |i: usize| u32::from_be_bytes(rest[4 * i..4 * i + 4].try_into().unwrap());
    assert_eq!(
        [number(2), number(3)],
        [u32::MAX; 2],
        "bytes are not counted"
    );
    let inside = frames(&rest[16..]);
    let title = inside.iter().find(|(name, _)| name == "TIT2").unwrap();
    Chapter {
        name,
        start_ms: number(0),
        end_ms: number(1),
        title: text(title.1[0], &title.1[1..]).0,
    }
}

/// Names and bodies, up to the padding.
fn frames(mut bytes: &[u8]) -> Vec<(String, &[u8])> {
    let mut frames = vec![];
    while bytes.len() > 10 && bytes[0] != 0 {
        let name = String::from_utf8(bytes[..4].to_vec()).unwrap();
        // In this version all eight bits count.
        let size = u32::from_be_bytes(bytes[4..8].try_into().unwrap()) as usize;
        frames.push((name, &bytes[10..10 + size]));
        bytes = &bytes[10 + size..];
    }
    frames
}

/// A text of one byte a letter up to a zero, and what follows it.
fn latin(bytes: &[u8]) -> (String, &[u8]) {
    let end = bytes.iter().position(|b| *b == 0).unwrap();
    let letters = bytes[..end].iter().map(|b| char::from(*b));
    (letters.collect(), &bytes[end + 1..])
}

/// A text in the encoding named, up to a zero or the end, and what follows it.
fn text(encoding: u8, bytes: &[u8]) -> (String, &[u8]) {
    match encoding {
        0 => {
            let end = bytes.iter().position(|b| *b == 0).unwrap_or(bytes.len());
            let letters = bytes[..end].iter().map(|b| char::from(*b));
            (letters.collect(), &bytes[(end + 1).min(bytes.len())..])
        }
        1 => {
            let units: Vec<[u8; 2]> = bytes.as_chunks().0.to_vec();
            let end = units
                .iter()
                .position(|u| *u == [0, 0])
                .unwrap_or(units.len());
            let low_first = units[0] == [0xff, 0xfe];
            assert!(low_first || units[0] == [0xfe, 0xff], "marked");
            let read = if low_first {
                u16::from_le_bytes
            } else {
                u16::from_be_bytes
            };
            let letters: Vec<u16> = units[1..end].iter().map(|u| read(*u)).collect();
            let rest = &bytes[(2 * end + 2).min(bytes.len())..];
            (String::from_utf16(&letters).unwrap(), rest)
        }
        other => panic!("encoding {other}"),
    }
}
