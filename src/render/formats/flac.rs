//! FLAC files (RFC 9639) with the same samples as the WAV file, streamed.
//!
//! All blocks have one size. The stream head is written again at the end, when the sizes of the frames and the
//! MD5 of the samples are known.

use super::cover;
use super::labels::Labels;
use super::pcm::{Bits, SampleFormat};
use crate::timeline::Cue;
use flacenc::bitsink::ByteSink;
use flacenc::component::{BitRepr, StreamInfo};
use flacenc::config;
use flacenc::encode_fixed_size_frame;
use flacenc::error::{Verified, Verify};
use flacenc::source::{Context, Fill, FrameBuf};
use std::io::{self, Read, Seek, SeekFrom, Write};

/// Frames of sound in a block, as the specification recommends for 44,100 frames a second.
const BLOCK: usize = 4096;

/// Largest size of a metadata block in bytes (24 bits).
const LARGEST_METADATA: usize = (1 << 24) - 1;

/// Offset of the stream head, after the file's magic number and the header of its block.
const HEAD_AT: u64 = 8;

/// Size of the stream head in bytes (RFC 9639, 8.2).
const HEAD_BYTES: u64 = 34;

/// A FLAC file being written to a sink that it borrows.
pub struct Flac<'s, W: Write + Seek> {
    sink: &'s mut W,
    config: Verified<config::Encoder>,
    info: StreamInfo,
    samples: Context,
    block: FrameBuf,
    waiting: Vec<i32>,
    channels: usize,
    blocks: usize,
    smallest: usize,
    largest: usize,
}

impl<'s, W: Write + Seek> Flac<'s, W> {
    /// Writes everything that precedes the sound.
    pub fn begin(
        sink: &'s mut W,
        format: SampleFormat,
        labels: &Labels,
        cues: &[Cue],
    ) -> io::Result<Self> {
        let channels = format.channels.number();
        let bits = usize::from(format.bits.number());
        let mut config = config::Encoder::default();
        // The batch already uses all threads.
        config.multithread = false;
        config.block_size = BLOCK;
        // In 16 bits linear prediction took two thirds of the time for an eighth of the size; in 24 bits, where the lowest bits
        // are finer than what fixed predictors leave over, it is worth a third (decisions/2026-11-28-packing-for-speed.md).
        config.subframe_coding.use_lpc = format.bits == Bits::TwentyFour;
        // The guide on one side and click and drone on the other have nothing in common.
        config.stereo_coding.use_leftside = false;
        config.stereo_coding.use_rightside = false;
        config.stereo_coding.use_midside = false;
        let config = config
            .into_verified()
            .map_err(|(_, error)| refused(error))?;
        let info = StreamInfo::new(format.sample_rate as usize, channels, bits).map_err(refused)?;
        let this = Self {
            sink,
            config,
            info,
            samples: Context::new(bits, channels),
            block: FrameBuf::with_size(channels, BLOCK).map_err(refused)?,
            waiting: Vec::with_capacity(BLOCK * channels),
            channels,
            blocks: 0,
            smallest: usize::MAX,
            largest: 0,
        };
        let head = this.head()?;
        write_metadata(this.sink, format, labels, cues, &head)?;
        Ok(this)
    }

    /// Writes interleaved samples.
    pub fn write(&mut self, mut steps: &[i32]) -> io::Result<()> {
        while !steps.is_empty() {
            let room = BLOCK * self.channels - self.waiting.len();
            let (now, later) = steps.split_at(room.min(steps.len()));
            self.waiting.extend_from_slice(now);
            steps = later;
            if self.waiting.len() == BLOCK * self.channels {
                self.encode()?;
            }
        }
        Ok(())
    }

    /// Encodes the buffered samples as a block.
    fn encode(&mut self) -> io::Result<()> {
        let frames = self.waiting.len() / self.channels;
        if frames != self.block.size() {
            // Only the last block is shorter.
            self.block.resize(frames);
        }
        self.block
            .fill_interleaved(&self.waiting)
            .map_err(refused)?;
        self.samples
            .fill_interleaved(&self.waiting)
            .map_err(refused)?;
        self.waiting.clear();
        let frame = encode_fixed_size_frame(&self.config, &self.block, self.blocks, &self.info)
            .map_err(refused)?;
        let mut bits = ByteSink::with_capacity(frame.count_bits());
        frame.write(&mut bits).map_err(refused)?;
        let bytes = bits.as_slice();
        self.sink.write_all(bytes)?;
        self.blocks += 1;
        self.smallest = self.smallest.min(bytes.len());
        self.largest = self.largest.max(bytes.len());
        Ok(())
    }

    /// Writes the last block and the final stream head.
    pub fn end(mut self) -> io::Result<()> {
        if !self.waiting.is_empty() {
            self.encode()?;
        }
        if self.blocks > 0 {
            self.info
                .set_frame_sizes(self.smallest, self.largest)
                .map_err(refused)?;
        }
        self.info.set_total_samples(self.samples.total_samples());
        self.info.set_md5_digest(&self.samples.md5_digest());
        let head = self.head()?;
        self.sink.seek(SeekFrom::Start(HEAD_AT))?;
        self.sink.write_all(&head)
    }

    fn head(&self) -> io::Result<Vec<u8>> {
        let mut info = self.info.clone();
        // Both bounds cover all blocks except the last.
        info.set_block_sizes(BLOCK, BLOCK).map_err(refused)?;
        let mut bits = ByteSink::new();
        info.write(&mut bits).map_err(refused)?;
        Ok(bits.as_slice().to_vec())
    }
}

/// Writes everything that precedes the sound, with the head of a complete stream.
pub fn write_metadata(
    sink: &mut impl Write,
    format: SampleFormat,
    labels: &Labels,
    cues: &[Cue],
    head: &[u8],
) -> io::Result<()> {
    let comment = comment(labels, format, cues)?;
    let picture = picture(&cover::png(labels)?)?;
    sink.write_all(b"fLaC")?;
    metadata(sink, 0, false, head)?;
    metadata(sink, 4, false, &comment)?;
    metadata(sink, 6, true, &picture)
}

/// The stream head of a file written here; afterwards the file is at its first block of sound.
pub fn read_head(file: &mut (impl Read + Seek)) -> io::Result<Vec<u8>> {
    let invalid = || io::Error::from(io::ErrorKind::InvalidData);
    let mut mark = [0; 4];
    file.read_exact(&mut mark)?;
    if mark != *b"fLaC" {
        return Err(invalid());
    }
    let mut head = None;
    loop {
        let mut before = [0; 4];
        file.read_exact(&mut before)?;
        let [kind, length @ ..] = before;
        let length = length
            .iter()
            .fold(0, |length, byte| length << 8 | u64::from(*byte));
        if kind & 0x7f == 0 && length == HEAD_BYTES {
            let mut body = vec![0; HEAD_BYTES as usize];
            file.read_exact(&mut body)?;
            head = Some(body);
        } else {
            file.seek(SeekFrom::Current(length as i64))?;
        }
        if kind & 0x80 != 0 {
            return head.ok_or_else(invalid);
        }
    }
}

fn metadata(to: &mut impl Write, kind: u8, last: bool, body: &[u8]) -> io::Result<()> {
    if body.len() > LARGEST_METADATA {
        return Err(io::Error::other(
            "there is more to say of it than a FLAC file can hold",
        ));
    }
    let [_, length @ ..] = (body.len() as u32).to_be_bytes();
    to.write_all(&[if last { kind | 0x80 } else { kind }])?;
    to.write_all(&length)?;
    to.write_all(body)
}

/// Names and values, each text with its length before it, little-endian.
fn comment(labels: &Labels, format: SampleFormat, cues: &[Cue]) -> io::Result<Vec<u8>> {
    let mut entries = vec![
        format!("TITLE={}", labels.take),
        format!("ALBUM={}", labels.routine),
        "ARTIST=leadpipe".to_owned(),
        format!("TRACKNUMBER={}", labels.number),
        format!("TRACKTOTAL={}", labels.of),
        format!("BPM={}", labels.tempo),
        format!("COMMENT={}", labels.caution),
    ];
    for (number, cue) in (1..).zip(cues) {
        let milliseconds = super::chapters::milliseconds(cue.frame, format.sample_rate);
        let (seconds, rest) = (milliseconds / 1000, milliseconds % 1000);
        let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
        entries.push(format!(
            "CHAPTER{number:03}={hours:02}:{minutes:02}:{seconds:02}.{rest:03}"
        ));
        entries.push(format!("CHAPTER{number:03}NAME={}", cue.label));
    }
    let mut body = Vec::new();
    text(&mut body, "leadpipe", u32::to_le_bytes)?;
    body.extend(length(entries.len())?.to_le_bytes());
    for entry in entries {
        text(&mut body, &entry, u32::to_le_bytes)?;
    }
    Ok(body)
}

/// The front cover, a PNG; numbers are big-endian here.
fn picture(png: &[u8]) -> io::Result<Vec<u8>> {
    const FRONT: u32 = 3;
    let mut body = FRONT.to_be_bytes().to_vec();
    text(&mut body, "image/png", u32::to_be_bytes)?;
    text(&mut body, "", u32::to_be_bytes)?;
    for number in [
        cover::SIDE,
        cover::SIDE,
        cover::BITS_A_PIXEL,
        cover::COLOURS,
    ] {
        body.extend(number.to_be_bytes());
    }
    body.extend(length(png.len())?.to_be_bytes());
    body.extend(png);
    Ok(body)
}

fn text(to: &mut Vec<u8>, text: &str, bytes: fn(u32) -> [u8; 4]) -> io::Result<()> {
    to.extend(bytes(length(text.len())?));
    to.extend(text.as_bytes());
    Ok(())
}

fn length(n: usize) -> io::Result<u32> {
    u32::try_from(n).map_err(refused)
}

/// The encoder's errors are not `Send`, so only their text is kept.
fn refused(error: impl std::fmt::Display) -> io::Error {
    io::Error::other(error.to_string())
}
