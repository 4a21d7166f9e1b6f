//! WAV files: from frames to bytes, streamed.

use super::cue_chunks;
use crate::synth::steps::{to_sixteen, to_twenty_four};
use crate::timeline::Cue;
use std::io::{self, Cursor, Seek, Write};

/// Frames rounded in one go.
const AT_ONCE: usize = 64;

/// Width of a sample.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Bits {
    /// 16 bits.
    Sixteen,
    /// 24 bits.
    TwentyFour,
}

impl Bits {
    /// 16 or 24.
    pub fn number(self) -> u16 {
        match self {
            Bits::Sixteen => 16,
            Bits::TwentyFour => 24,
        }
    }

    /// Bytes of a sample.
    pub fn bytes(self) -> usize {
        usize::from(self.number() / 8)
    }
}

/// How frames are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Format {
    /// Frames a second.
    pub sample_rate: u32,
    /// Width of a sample.
    pub bits: Bits,
    /// Samples of a frame: one, or left and right.
    pub channels: Channels,
}

/// One channel or two.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Channels {
    /// One.
    Mono,
    /// Left and right.
    Stereo,
}

impl Channels {
    /// 1 or 2.
    pub fn number(self) -> usize {
        match self {
            Channels::Mono => 1,
            Channels::Stereo => 2,
        }
    }
}

impl Format {
    /// Bytes of a frame.
    pub fn frame_bytes(self) -> u64 {
        (self.bits.bytes() * self.channels.number()) as u64
    }

    fn spec(self) -> hound::WavSpec {
        hound::WavSpec {
            channels: self.channels.number() as u16,
            sample_rate: self.sample_rate,
            bits_per_sample: self.bits.number(),
            sample_format: hound::SampleFormat::Int,
        }
    }
}

/// The bytes before the first frame of a file of `frames` frames and a tail of `tail` bytes.
///
/// The WAV writer fills the two sizes in when it is done; knowing them before lets the file be hashed
/// while it is written.
pub fn head(format: Format, frames: u64, tail: usize) -> io::Result<Vec<u8>> {
    let mut sink = Cursor::new(Vec::new());
    hound::WavWriter::new(&mut sink, format.spec())
        .and_then(hound::WavWriter::finalize)
        .map_err(plain)?;
    let mut head = sink.into_inner();
    let data = size(frames * format.frame_bytes())?;
    let riff = size(head.len() as u64 - 8 + u64::from(data) + tail as u64)?;
    let end = head.len();
    head[4..8].copy_from_slice(&riff.to_le_bytes());
    head[end - 4..].copy_from_slice(&data.to_le_bytes());
    Ok(head)
}

/// The bytes after the last frame: padding to an even length, then the cue chunks.
pub fn tail(format: Format, frames: u64, cues: &[Cue]) -> Vec<u8> {
    let odd = !(frames * format.frame_bytes()).is_multiple_of(2);
    let mut tail = vec![0; usize::from(odd)];
    cue_chunks::append(&mut tail, cues);
    tail
}

/// RIFF counts in 32 bits: four hours at the widest format fit twice.
fn size(bytes: u64) -> io::Result<u32> {
    u32::try_from(bytes).map_err(|_| io::Error::other("a WAV file cannot be longer than 4 GiB"))
}

/// A WAV file being written to a sink that it borrows.
pub struct Wave<'s, W: Write + Seek> {
    writer: hound::WavWriter<&'s mut W>,
    format: Format,
}

impl<'s, W: Write + Seek> Wave<'s, W> {
    /// Writes the head.
    pub fn begin(sink: &'s mut W, format: Format) -> io::Result<Self> {
        let writer = hound::WavWriter::new(sink, format.spec()).map_err(plain)?;
        Ok(Self { writer, format })
    }

    /// Writes samples, those of a frame side by side, full scale at ±1: each rounded to the nearest step, without dither; what is
    /// beyond full scale stays there.
    pub fn write(&mut self, samples: &[f32]) -> io::Result<()> {
        match self.format.bits {
            Bits::Sixteen => {
                let mut to = self.writer.get_i16_writer(samples.len() as u32);
                let mut steps = [0; AT_ONCE];
                for samples in samples.chunks(AT_ONCE) {
                    for (step, sample) in steps.iter_mut().zip(samples) {
                        *step = to_sixteen(*sample);
                    }
                    for step in &steps[..samples.len()] {
                        to.write_sample(*step);
                    }
                }
                to.flush().map_err(plain)
            }
            Bits::TwentyFour => samples.iter().try_for_each(|sample| {
                self.writer
                    .write_sample(to_twenty_four(*sample))
                    .map_err(plain)
            }),
        }
    }

    /// Writes `count` frames of silence.
    pub fn silence(&mut self, count: usize) -> io::Result<()> {
        let count = count * self.format.channels.number();
        match self.format.bits {
            Bits::Sixteen => {
                let mut to = self.writer.get_i16_writer(count as u32);
                for _ in 0..count {
                    to.write_sample(0i16);
                }
                to.flush().map_err(plain)
            }
            Bits::TwentyFour => {
                (0..count).try_for_each(|_| self.writer.write_sample(0i32).map_err(plain))
            }
        }
    }

    /// Writes frames as they stand in another file of this format.
    pub fn write_encoded(&mut self, bytes: &[u8]) -> io::Result<()> {
        match self.format.bits {
            Bits::Sixteen => {
                let (frames, _) = bytes.as_chunks::<2>();
                let mut to = self.writer.get_i16_writer(frames.len() as u32);
                for frame in frames {
                    to.write_sample(i16::from_le_bytes(*frame));
                }
                to.flush().map_err(plain)
            }
            Bits::TwentyFour => {
                let (frames, _) = bytes.as_chunks::<3>();
                frames.iter().try_for_each(|frame| {
                    let frame = from_twenty_four(*frame);
                    self.writer.write_sample(frame).map_err(plain)
                })
            }
        }
    }

    /// Fills in the sizes as far as the last frame and hands the bytes on to the sink.
    pub fn end(self) -> io::Result<()> {
        self.writer.finalize().map_err(plain)
    }
}

/// The steps of `samples`, exactly those that a file of this width holds.
pub fn steps(samples: &[f32], bits: Bits, to: &mut [i32]) {
    let pairs = to.iter_mut().zip(samples);
    match bits {
        Bits::Sixteen => pairs.for_each(|(to, sample)| *to = to_sixteen(*sample).into()),
        Bits::TwentyFour => pairs.for_each(|(to, sample)| *to = to_twenty_four(*sample)),
    }
}

/// The steps that stand in these bytes of a file of this width.
pub fn steps_of(bytes: &[u8], bits: Bits, to: &mut Vec<i32>) {
    to.clear();
    match bits {
        Bits::Sixteen => {
            let (samples, _) = bytes.as_chunks::<2>();
            to.extend(samples.iter().map(|b| i32::from(i16::from_le_bytes(*b))));
        }
        Bits::TwentyFour => {
            let (samples, _) = bytes.as_chunks::<3>();
            to.extend(samples.iter().map(|b| from_twenty_four(*b)));
        }
    }
}

/// Appends the bytes of `steps` as they stand in a file of this width.
pub fn bytes_of(steps: &[i32], bits: Bits, to: &mut Vec<u8>) {
    for step in steps {
        to.extend_from_slice(&step.to_le_bytes()[..bits.bytes()]);
    }
}

/// The top byte carries the sign: shifted there and back.
fn from_twenty_four([low, middle, high]: [u8; 3]) -> i32 {
    i32::from_le_bytes([0, low, middle, high]) >> 8
}

fn plain(error: hound::Error) -> io::Error {
    match error {
        hound::Error::IoError(e) => e,
        other => io::Error::other(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_head_foretold_is_the_head_written() {
        for bits in [Bits::Sixteen, Bits::TwentyFour] {
            let format = Format {
                sample_rate: 44_100,
                bits,
                channels: Channels::Mono,
            };
            let frames = [0.25f32, -0.5, 0.125];
            let mut sink = Cursor::new(Vec::new());
            let mut wave = Wave::begin(&mut sink, format).unwrap();
            wave.write(&frames).unwrap();
            wave.end().unwrap();
            let written = sink.into_inner();
            let foretold = head(format, 3, 0).unwrap();
            assert_eq!(written[..foretold.len()], foretold);
            assert_eq!(written.len(), foretold.len() + 3 * bits.bytes());

            let mut again = Cursor::new(Vec::new());
            let mut wave = Wave::begin(&mut again, format).unwrap();
            wave.write_encoded(&written[foretold.len()..]).unwrap();
            wave.end().unwrap();
            assert_eq!(again.into_inner(), written);

            let (mut there, mut back) = (vec![], vec![]);
            steps_of(&written[foretold.len()..], bits, &mut there);
            bytes_of(&there, bits, &mut back);
            assert_eq!(back, written[foretold.len()..]);
        }
    }
}
