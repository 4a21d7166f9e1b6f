//! The three voices together: how strong each is, and their sum.

use super::block::Block;

/// Linear gains on the voices as they are calibrated in [`super::levels`]. None is above 1, so that a
/// track can never clip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance {
    /// Of the guide.
    pub guide: f32,
    /// Of the drone.
    pub drone: f32,
    /// Of click and signs.
    pub click: f32,
}

impl Balance {
    /// As calibrated.
    pub const CALIBRATED: Balance = Balance {
        guide: 1.0,
        drone: 1.0,
        click: 1.0,
    };

    /// Makes the voices of a block so strong. Stems are taken after it, so that they sum to the mix.
    pub fn apply(&self, block: &mut Block) {
        let voices = [
            (&mut block.guide, self.guide),
            (&mut block.drone, self.drone),
            (&mut block.click, self.click),
        ];
        for (frames, gain) in voices {
            if gain != 1.0 {
                frames.iter_mut().for_each(|frame| *frame *= gain);
            }
        }
    }
}

impl Default for Balance {
    fn default() -> Self {
        Self::CALIBRATED
    }
}

/// What of a block is heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heard {
    /// All voices, one sample a frame.
    Mix,
    /// All voices, two samples a frame: [`Block::spread`].
    Spread,
    /// The guide alone.
    Guide,
    /// The drone alone.
    Drone,
    /// Clicks and signs alone.
    Click,
}

impl Block {
    /// Its first samples, as many as `samples` holds.
    pub fn take(&self, heard: Heard, samples: &mut [f32]) {
        match heard {
            Heard::Mix => self.mixed(samples),
            Heard::Spread => {
                let (frames, _) = samples.as_chunks_mut();
                for (i, frame) in frames.iter_mut().enumerate() {
                    *frame = self.spread(i);
                }
            }
            Heard::Guide => samples.copy_from_slice(&self.guide[..samples.len()]),
            Heard::Drone => samples.copy_from_slice(&self.drone[..samples.len()]),
            Heard::Click => samples.copy_from_slice(&self.click[..samples.len()]),
        }
    }

    /// The sum of the voices at its first frames, as many as `samples` holds: as [`Block::mix`], all at once.
    fn mixed(&self, samples: &mut [f32]) {
        let n = samples.len();
        let (guide, drone, click) = (&self.guide[..n], &self.drone[..n], &self.click[..n]);
        for i in 0..n {
            samples[i] = guide[i] + drone[i] + click[i];
        }
    }

    /// The sum of the voices at a frame of the block.
    pub fn mix(&self, i: usize) -> f32 {
        self.guide[i] + self.drone[i] + self.click[i]
    }

    /// Left and right at a frame of the block, the voices spread: the guide on the left, click and drone
    /// on the right. The sides sum to [`Block::mix`].
    pub fn spread(&self, i: usize) -> [f32; 2] {
        [self.guide[i], self.drone[i] + self.click[i]]
    }
}
