//! The WAV chunks that let an editor or a player jump to a line: `cue ` and `LIST adtl`.
//!
//! Every number has 32 bits, little-endian, unless said otherwise; every chunk is padded to an even length.
//! Texts are UTF-8.

use crate::timeline::Cue;

/// Appends both chunks, or nothing if there are no cues.
pub fn append(to: &mut Vec<u8>, cues: &[Cue]) {
    if cues.is_empty() {
        return;
    }
    let mut points = number(cues.len());
    let mut list = b"adtl".to_vec();
    for (id, cue) in (1u32..).zip(cues) {
        let frame = frames(cue.frame);
        // Number, position in the play order, chunk, start of chunk and of block, frame.
        points.extend(id.to_le_bytes());
        points.extend(frame.to_le_bytes());
        points.extend(b"data");
        points.extend([0; 8]);
        points.extend(frame.to_le_bytes());

        let mut label = id.to_le_bytes().to_vec();
        label.extend(cue.label.bytes().filter(|byte| *byte != 0));
        label.push(0);
        chunk(&mut list, b"labl", &label);

        // The length of the region and its type; country, language, dialect and code page (16 bits each) are
        // zero.
        let mut region = id.to_le_bytes().to_vec();
        region.extend(frames(cue.frames).to_le_bytes());
        region.extend(b"rgn ");
        region.extend([0; 8]);
        chunk(&mut list, b"ltxt", &region);
    }
    chunk(to, b"cue ", &points);
    chunk(to, b"LIST", &list);
}

fn chunk(to: &mut Vec<u8>, name: &[u8; 4], body: &[u8]) {
    to.extend(name);
    to.extend(number(body.len()));
    to.extend(body);
    if body.len() % 2 == 1 {
        to.push(0);
    }
}

fn number(n: usize) -> Vec<u8> {
    u32::try_from(n)
        .expect("a routine file of one mebibyte holds fewer lines and letters than 32 bits count")
        .to_le_bytes()
        .to_vec()
}

fn frames(n: u64) -> u32 {
    u32::try_from(n).expect("four hours are fewer frames than 32 bits count")
}
