//! WAV files, streamed.

use super::cue_chunks;
use super::pcm::{Bits, SampleFormat, from_twenty_four};
use crate::synth::steps::{to_sixteen, to_twenty_four};
use crate::timeline::Cue;
use std::io::{self, Cursor, Seek, Write};

/// Frames rounded at once.
const AT_ONCE: usize = 64;

/// The bytes before the first frame of a file of `frames` frames and a tail of `tail` bytes.
///
/// The WAV writer fills in the two sizes when it is done; knowing them in advance lets the file be hashed while
/// it is written.
pub fn head(format: SampleFormat, frames: u64, tail: usize) -> io::Result<Vec<u8>> {
    let mut sink = Cursor::new(Vec::new());
    hound::WavWriter::new(&mut sink, spec(format))
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
pub fn tail(format: SampleFormat, frames: u64, cues: &[Cue]) -> Vec<u8> {
    let odd = !(frames * format.frame_bytes()).is_multiple_of(2);
    let mut tail = vec![0; usize::from(odd)];
    cue_chunks::append(&mut tail, cues);
    tail
}

/// RIFF sizes have 32 bits: enough for eight hours in the widest format.
fn size(bytes: u64) -> io::Result<u32> {
    u32::try_from(bytes).map_err(|_| io::Error::other("a WAV file cannot be longer than 4 GiB"))
}

/// A WAV file being written to a sink that it borrows.
pub struct Wave<'s, W: Write + Seek> {
    writer: hound::WavWriter<&'s mut W>,
    format: SampleFormat,
}

impl<'s, W: Write + Seek> Wave<'s, W> {
    /// Writes the head.
    pub fn begin(sink: &'s mut W, format: SampleFormat) -> io::Result<Self> {
        let writer = hound::WavWriter::new(sink, spec(format)).map_err(plain)?;
        Ok(Self { writer, format })
    }

    /// Writes interleaved samples, full scale at ±1. Each is rounded to the nearest step, without dither, and
    /// clipped at full scale.
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

    /// Writes frames that are already encoded in this format.
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

    /// Fills in the sizes and returns the bytes to the sink.
    pub fn end(self) -> io::Result<()> {
        self.writer.finalize().map_err(plain)
    }
}

fn spec(format: SampleFormat) -> hound::WavSpec {
    hound::WavSpec {
        channels: format.channels.number() as u16,
        sample_rate: format.sample_rate,
        bits_per_sample: format.bits.number(),
        sample_format: hound::SampleFormat::Int,
    }
}

fn plain(error: hound::Error) -> io::Error {
    match error {
        hound::Error::IoError(e) => e,
        other => io::Error::other(other),
    }
}

#[cfg(test)]
mod tests {
    use super::super::pcm::{Channels, bytes_of, steps_of};
    use super::*;

    #[test]
    fn the_head_foretold_is_the_head_written() {
        for bits in [Bits::Sixteen, Bits::TwentyFour] {
            let format = SampleFormat {
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
