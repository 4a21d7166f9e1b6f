//! How tracks are rendered, whatever is in them.

use super::file_kind::FileKinds;
use super::formats::{Bits, Channels, Format};
use super::part::Part;
use crate::synth::Balance;

/// How a batch is rendered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Frames a second.
    pub sample_rate: u32,
    /// Width of a sample.
    pub bits: Bits,
    /// What each track is written as.
    pub kinds: FileKinds,
    /// How strong each voice is.
    pub balance: Balance,
    /// True to write the mix in stereo, the guide on the left, click and drone on the right.
    pub spread: bool,
    /// True to write guide, drone and click apart as well.
    pub stems: bool,
    /// True to render what is there already, too.
    pub force: bool,
    /// True to read every file that is there and compare it with its record.
    pub verify: bool,
    /// Threads; none for as many as the machine has cores.
    pub threads: Option<usize>,
}

impl Settings {
    /// Mono mixes in WAV files as calibrated, without stems, of what changed, on every core.
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

    /// How the file of a part is written.
    pub fn format(&self, part: Part) -> Format {
        Format {
            sample_rate: self.sample_rate,
            bits: self.bits,
            channels: if self.spread && part == Part::Mix {
                Channels::Stereo
            } else {
                Channels::Mono
            },
        }
    }
}
