//! How tracks are rendered, whatever their content.

use super::file_kind::FileKinds;
use super::formats::{Bits, Channels, SampleFormat};
use super::part::TrackPart;
use crate::synth::Balance;

/// How a batch is rendered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RenderSettings {
    /// Frames a second.
    pub sample_rate: u32,
    /// Width of a sample.
    pub bits: Bits,
    /// The kinds of file to write.
    pub kinds: FileKinds,
    /// The gain of each voice.
    pub balance: Balance,
    /// True to write the mix in stereo, the guide on the left, click and drone on the right.
    pub spread: bool,
    /// True to also write guide, drone and click as files of their own.
    pub stems: bool,
    /// True to render even what is up to date.
    pub force: bool,
    /// True to read every existing file and compare it with its record.
    pub verify: bool,
    /// Number of threads; `None` for one on each core.
    pub threads: Option<usize>,
}

impl RenderSettings {
    /// Mono mixes in WAV files with calibrated gains, no stems, only what changed, on every core.
    pub const fn new(sample_rate: u32, bits: Bits) -> Self {
        Self {
            sample_rate,
            bits,
            kinds: FileKinds::WAV,
            balance: Balance::CALIBRATED,
            spread: false,
            stems: false,
            force: false,
            verify: false,
            threads: None,
        }
    }

    /// The format of the file of a part.
    pub fn format(&self, part: TrackPart) -> SampleFormat {
        SampleFormat {
            sample_rate: self.sample_rate,
            bits: self.bits,
            channels: if self.spread && part == TrackPart::Mix {
                Channels::Stereo
            } else {
                Channels::Mono
            },
        }
    }
}
