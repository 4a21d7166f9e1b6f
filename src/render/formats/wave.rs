//! WAV files, streamed.

use super::cue_chunks;
use super::pcm::{Bits, SampleFormat};
use crate::synth::steps::{to_sixteen, to_twenty_four};
use crate::timeline::Cue;
use std::io::{self, Cursor, Write};

/// Frames rounded at once.
const AT_ONCE: usize = 64;

/// The bytes before the first frame of a file of `frames` frames and a tail of `tail` bytes.
///
/// Knowing the two sizes in advance lets the file be hashed while it is written.
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

/// Silence, written in one piece.
static SILENCE: [u8; 1 << 15] = [0; 1 << 15];

/// The frames of a WAV file being written to a sink that it borrows, after a head without sizes.
///
/// The head is hound's; the frames go to the sink in blocks, because hound takes them one sample at a time.
pub struct Wave<'s, W: Write> {
    sink: &'s mut W,
    format: SampleFormat,
}

impl<'s, W: Write> Wave<'s, W> {
    /// Writes a head. The final one, with its sizes, is written over it when the file is complete.
    pub fn begin(sink: &'s mut W, format: SampleFormat) -> io::Result<Self> {
        sink.write_all(&head(format, 0, 0)?)?;
        Ok(Self { sink, format })
    }

    /// Writes interleaved samples, full scale at ±1. Each is rounded to the nearest step, without dither, and
    /// clipped at full scale.
    pub fn write(&mut self, samples: &[f32]) -> io::Result<()> {
        match self.format.bits {
            Bits::Sixteen => self.encode(samples, |sample| to_sixteen(sample).to_le_bytes()),
            Bits::TwentyFour => self.encode(samples, |sample| {
                let [low, middle, high, _] = to_twenty_four(sample).to_le_bytes();
                [low, middle, high]
            }),
        }
    }

    #[inline(always)]
    fn encode<const N: usize>(
        &mut self,
        samples: &[f32],
        bytes: impl Fn(f32) -> [u8; N],
    ) -> io::Result<()> {
        for samples in samples.chunks(AT_ONCE) {
            let mut to = [[0; N]; AT_ONCE];
            let to = &mut to[..samples.len()];
            for (to, sample) in to.iter_mut().zip(samples) {
                *to = bytes(*sample);
            }
            self.sink.write_all(to.as_flattened())?;
        }
        Ok(())
    }

    /// Writes `count` frames of silence.
    pub fn silence(&mut self, count: usize) -> io::Result<()> {
        let mut left = count * self.format.frame_bytes() as usize;
        while left > 0 {
            let now = left.min(SILENCE.len());
            self.sink.write_all(&SILENCE[..now])?;
            left -= now;
        }
        Ok(())
    }

    /// Writes frames that are already encoded in this format.
    pub fn write_encoded(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.sink.write_all(bytes)
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

    /// The file as hound writes it, sample by sample.
    fn by_hound(format: SampleFormat, steps: &[i32]) -> Vec<u8> {
        let mut sink = Cursor::new(Vec::new());
        let mut writer = hound::WavWriter::new(&mut sink, spec(format)).unwrap();
        for step in steps {
            writer.write_sample(*step).unwrap();
        }
        writer.finalize().unwrap();
        sink.into_inner()
    }

    #[test]
    fn head_and_frames_are_those_that_hound_writes() {
        // More frames than are rounded at once, and both beyond full scale.
        let samples: Vec<f32> = (-80..90).map(|i| i as f32 / 64.0).collect();
        for bits in [Bits::Sixteen, Bits::TwentyFour] {
            let format = SampleFormat {
                sample_rate: 44_100,
                bits,
                channels: Channels::Mono,
            };
            let mut sink = Cursor::new(Vec::new());
            let mut wave = Wave::begin(&mut sink, format).unwrap();
            wave.write(&samples).unwrap();
            wave.silence(30).unwrap();
            let mut written = sink.into_inner();
            let foretold = head(format, samples.len() as u64 + 30, 0).unwrap();
            written[..foretold.len()].copy_from_slice(&foretold);

            let rounded = samples.iter().map(|sample| match bits {
                Bits::Sixteen => i32::from(to_sixteen(*sample)),
                Bits::TwentyFour => to_twenty_four(*sample),
            });
            let steps: Vec<i32> = rounded.chain([0; 30]).collect();
            assert_eq!(written, by_hound(format, &steps));

            let mut again = Cursor::new(Vec::new());
            let mut wave = Wave::begin(&mut again, format).unwrap();
            wave.write_encoded(&written[foretold.len()..]).unwrap();
            assert_eq!(
                again.into_inner()[foretold.len()..],
                written[foretold.len()..]
            );

            let (mut there, mut back) = (vec![], vec![]);
            steps_of(&written[foretold.len()..], bits, &mut there);
            bytes_of(&there, bits, &mut back);
            assert_eq!((there, &back[..]), (steps, &written[foretold.len()..]));
        }
    }
}
