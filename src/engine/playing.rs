//! Playing a unit, a few frames at each call.

use crate::synth::steps::to_sixteen;
use crate::synth::{BLOCK, Balance, Block, Engine, Performance};
use crate::timeline::Unit;
use self_cell::self_cell;
use std::rc::Rc;

/// What a performance borrows.
struct Read {
    engine: Rc<Engine>,
    unit: Unit,
}

self_cell!(
    struct Performing {
        owner: Read,
        #[not_covariant]
        dependent: Performance,
    }
);

/// A unit that is being played.
pub struct Playing {
    performing: Performing,
    balance: Balance,
    block: Block,
    left: u64,
}

impl Playing {
    /// Starts at the last whole block at or before `from`.
    pub fn begin(engine: Rc<Engine>, unit: Unit, from: u64, balance: Balance) -> Self {
        let left = unit.frames;
        let read = Read { engine, unit };
        let mut playing = Self {
            performing: Performing::new(read, |read| read.engine.perform(&read.unit)),
            balance,
            block: Block::SILENT,
            left,
        };
        for _ in 0..from / BLOCK as u64 {
            if playing.next() == 0 {
                break;
            }
        }
        playing
    }

    /// Frames that are left.
    pub fn left(&self) -> u64 {
        self.left
    }

    /// Fills the block and returns how many frames it holds.
    fn next(&mut self) -> usize {
        let block = &mut self.block;
        let frames = self
            .performing
            .with_dependent_mut(|_, performance| performance.next_block(block));
        self.balance.apply(block);
        self.left -= frames as u64;
        frames
    }

    /// Passes whole blocks to `each` until there were `frames` frames or the unit ends. Returns the number of frames.
    fn blocks(&mut self, frames: usize, mut each: impl FnMut(&Block, usize)) -> usize {
        let mut given = 0;
        while given < frames {
            let n = self.next();
            if n == 0 {
                break;
            }
            each(&self.block, n);
            given += n;
        }
        given
    }

    /// Renders the next frames of guide, click and drone, each from the start of its list.
    pub fn fill(&mut self, frames: usize, stems: &mut [Vec<f32>; 3]) -> usize {
        stems.iter_mut().for_each(Vec::clear);
        let [guide, click, drone] = stems;
        self.blocks(frames, |block, n| {
            guide.extend_from_slice(&block.guide[..n]);
            click.extend_from_slice(&block.click[..n]);
            drone.extend_from_slice(&block.drone[..n]);
        })
    }

    /// Renders the next frames of the mix as the samples of a 16-bit WAV file.
    pub fn mix(&mut self, frames: usize, steps: &mut Vec<i16>) -> usize {
        steps.clear();
        self.blocks(frames, |block, n| {
            steps.extend((0..n).map(|i| to_sixteen(block.mix(i))));
        })
    }
}
