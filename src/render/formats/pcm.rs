//! Samples in files: width, channels, and their bytes.

use crate::synth::steps::{to_sixteen, to_twenty_four};

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

/// Rate, width and channels of the frames in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SampleFormat {
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

impl SampleFormat {
    /// Bytes of a frame.
    pub fn frame_bytes(self) -> u64 {
        (self.bits.bytes() * self.channels.number()) as u64
    }
}

/// The samples rounded to the integer steps of a file of this width.
pub fn steps(samples: &[f32], bits: Bits, to: &mut [i32]) {
    let pairs = to.iter_mut().zip(samples);
    match bits {
        Bits::Sixteen => pairs.for_each(|(to, sample)| *to = to_sixteen(*sample).into()),
        Bits::TwentyFour => pairs.for_each(|(to, sample)| *to = to_twenty_four(*sample)),
    }
}

/// The integer steps encoded in these bytes of a file of this width.
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

/// Appends `steps` encoded for a file of this width.
pub fn bytes_of(steps: &[i32], bits: Bits, to: &mut Vec<u8>) {
    for step in steps {
        to.extend_from_slice(&step.to_le_bytes()[..bits.bytes()]);
    }
}

/// Shifted left and right again to extend the sign.
fn from_twenty_four([low, middle, high]: [u8; 3]) -> i32 {
    i32::from_le_bytes([0, low, middle, high]) >> 8
}
