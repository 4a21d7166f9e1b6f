//! MP3 files, encoded by LAME, with ID3 tags before the sound.
//!
//! LAME's own tag, the first frame of the stream, tells players how many frames of padding the encoder added
//! before and after the sound, so that they can skip them. It is written again at the end, when that is known.

use super::labels::Labels;
use super::pcm::{Channels, SampleFormat};
use super::{chapters, cover};
use crate::timeline::Cue;
use id3::frame::{self, Chapter, Comment, Picture, PictureType, TableOfContents};
use id3::{Content, Encoder as TagEncoder, Tag, TagLike, Version};
use mp3lame_encoder::{
    Bitrate, Builder, Encoder, FlushGap, InterleavedPcm, Mode, MonoPcm, Quality, VbrMode,
};
use std::io::{self, Read, Seek, SeekFrom, Write};

/// Frames of sound handed to LAME at once: four of its own frames.
const AT_ONCE: usize = 4 * 1152;

/// The most bytes that LAME's last frames and its tag take.
const LAST_BYTES: usize = 7200;

/// An MP3 file being written to a sink that it borrows.
pub struct Mp3<'s, W: Write + Seek> {
    sink: &'s mut W,
    encoder: Encoder,
    format: SampleFormat,
    waiting: Vec<i32>,
    encoded: Vec<u8>,
    /// Offset of LAME's tag.
    tag_at: u64,
}

impl<'s, W: Write + Seek> Mp3<'s, W> {
    /// Writes the tags.
    pub fn begin(
        sink: &'s mut W,
        format: SampleFormat,
        labels: &Labels,
        cues: &[Cue],
        frames: u64,
    ) -> io::Result<Self> {
        let tags = tags(labels, format, cues, frames)?;
        sink.write_all(&tags)?;
        Ok(Self {
            sink,
            encoder: encoder(format)?,
            format,
            waiting: Vec::with_capacity(AT_ONCE * format.channels.number()),
            encoded: Vec::new(),
            tag_at: tags.len() as u64,
        })
    }

    /// Writes interleaved samples.
    pub fn write(&mut self, mut steps: &[i32]) -> io::Result<()> {
        let full = AT_ONCE * self.format.channels.number();
        while !steps.is_empty() {
            let room = full - self.waiting.len();
            let (now, later) = steps.split_at(room.min(steps.len()));
            self.waiting.extend_from_slice(now);
            steps = later;
            if self.waiting.len() == full {
                self.encode()?;
            }
        }
        Ok(())
    }

    /// Encodes the buffered samples.
    fn encode(&mut self) -> io::Result<()> {
        // LAME takes 32-bit integers, full scale at their limits.
        let up = 32 - u32::from(self.format.bits.number());
        for step in &mut self.waiting {
            *step <<= up;
        }
        let frames = self.waiting.len() / self.format.channels.number();
        self.encoded.clear();
        self.encoded
            .reserve(mp3lame_encoder::max_required_buffer_size(frames));
        match self.format.channels {
            Channels::Mono => self
                .encoder
                .encode_to_vec(MonoPcm(&self.waiting), &mut self.encoded),
            Channels::Stereo => self
                .encoder
                .encode_to_vec(InterleavedPcm(&self.waiting), &mut self.encoded),
        }
        .map_err(io::Error::other)?;
        self.waiting.clear();
        self.sink.write_all(&self.encoded)
    }

    /// Writes the last frames and the final LAME tag.
    pub fn end(mut self) -> io::Result<()> {
        if !self.waiting.is_empty() {
            self.encode()?;
        }
        self.encoded.clear();
        self.encoded.reserve(LAST_BYTES);
        self.encoder
            .flush_to_vec::<FlushGap>(&mut self.encoded)
            .map_err(io::Error::other)?;
        self.sink.write_all(&self.encoded)?;
        self.encoded.clear();
        self.encoded.reserve(LAST_BYTES);
        self.encoder
            .lame_tag_encode_to_vec(&mut self.encoded)
            .ok_or_else(|| io::Error::other("the MP3 encoder gave no tag"))?;
        self.sink.seek(SeekFrom::Start(self.tag_at))?;
        self.sink.write_all(&self.encoded)
    }
}

/// Writes the tags only: the sound is copied from another file.
pub fn write_tags(
    sink: &mut impl Write,
    format: SampleFormat,
    labels: &Labels,
    cues: &[Cue],
    frames: u64,
) -> io::Result<()> {
    sink.write_all(&tags(labels, format, cues, frames)?)
}

/// Moves to the first frame of a file written here, LAME's tag. From there on, all files with this sound are
/// identical, because nothing depends on the tags before it.
pub fn skip_tags(file: &mut (impl Read + Seek)) -> io::Result<()> {
    let mut head = [0; 10];
    file.read_exact(&mut head)?;
    let [b'I', b'D', b'3', 3, _, _, size @ ..] = head else {
        return Err(io::ErrorKind::InvalidData.into());
    };
    // Seven bits to a byte (ID3 2.3, 3.1).
    let size = size
        .iter()
        .fold(0, |size, byte| size << 7 | i64::from(byte & 0x7f));
    file.seek(SeekFrom::Current(size)).map(drop)
}

/// Constant bit rate, and so a single quality or better: only then does every player find a line by its time.
/// With a variable rate a jump is off by seconds (decisions/2026-11-25-mp3-constant-bit-rate.md).
fn encoder(format: SampleFormat) -> io::Result<Encoder> {
    let build = || {
        let builder = Builder::new()
            .ok_or(mp3lame_encoder::BuildError::NoMem)?
            .with_sample_rate(format.sample_rate)?
            .with_output_sample_rate(std::num::NonZeroU32::new(format.sample_rate))?
            .with_num_channels(format.channels.number() as u8)?
            .with_quality(Quality::Ok)?
            .with_to_write_vbr_tag(true)?;
        let builder = match format.channels {
            Channels::Mono => builder.with_mode(Mode::Mono)?,
            // The guide on one side and click and drone on the other stay separate.
            Channels::Stereo => builder.with_mode(Mode::Stereo)?,
        };
        let bitrate = match format.channels {
            Channels::Mono => Bitrate::Kbps96,
            Channels::Stereo => Bitrate::Kbps192,
        };
        builder
            .with_vbr_mode(VbrMode::Off)?
            .with_brate(bitrate)?
            .build()
    };
    build().map_err(io::Error::other)
}

/// ID3 2.3, which older players also read.
fn tags(labels: &Labels, format: SampleFormat, cues: &[Cue], frames: u64) -> io::Result<Vec<u8>> {
    let milliseconds = |frame| {
        let time = chapters::milliseconds(frame, format.sample_rate);
        u32::try_from(time).map_err(io::Error::other)
    };
    let mut tag = Tag::new();
    tag.set_title(&labels.take);
    tag.set_album(&labels.routine);
    tag.set_artist("leadpipe");
    tag.set_track(labels.number);
    tag.set_total_tracks(labels.of);
    tag.set_duration(milliseconds(frames)?);
    tag.set_text("TBPM", whole(&labels.tempo));
    tag.add_frame(Comment {
        lang: "eng".to_owned(),
        description: String::new(),
        text: labels.caution.clone(),
    });
    tag.add_frame(Picture {
        mime_type: "image/png".to_owned(),
        picture_type: PictureType::CoverFront,
        description: String::new(),
        data: cover::png(labels)?,
    });
    let names: Vec<String> = (1..=cues.len()).map(|n| format!("line{n}")).collect();
    if !cues.is_empty() {
        tag.add_frame(TableOfContents {
            element_id: "lines".to_owned(),
            top_level: true,
            ordered: true,
            elements: names.clone(),
            frames: vec![],
        });
    }
    for (cue, name) in cues.iter().zip(names) {
        let title = frame::Frame::with_content("TIT2", Content::Text(cue.label.clone()));
        tag.add_frame(Chapter {
            element_id: name,
            start_time: milliseconds(cue.frame)?,
            end_time: milliseconds(cue.frame + cue.frames)?,
            // Not given: players use the times.
            start_offset: u32::MAX,
            end_offset: u32::MAX,
            frames: vec![title],
        });
    }
    let mut bytes = Vec::new();
    TagEncoder::new()
        .version(Version::Id3v23)
        .encode(&tag, &mut bytes)
        .map_err(io::Error::other)?;
    Ok(bytes)
}

/// Clicks a minute rounded to a whole number, as the tag requires.
fn whole(tempo: &str) -> String {
    let clicks: f64 = tempo.parse().unwrap_or(0.0);
    format!("{clicks:.0}")
}
