//! How a unit of the timeline sounds.

use crate::timeline::Unit;

/// Frames in a block.
pub const BLOCK: usize = 64;

/// What all takes of one sample rate share: tables and calibrated sounds. Made once a batch.
#[derive(Debug)]
pub struct Engine {
    sample_rate: u32,
}

impl Engine {
    /// An engine for `sample_rate` frames a second.
    pub fn new(sample_rate: u32) -> Self {
        Self { sample_rate }
    }
    /// Frames a second.
    pub fn sample_rate(&self) -> u32 {
        self.sample_rate
    }
    /// Starts a unit from its first frame.
    pub fn perform<'a>(&'a self, unit: &'a Unit) -> Performance<'a> {
        Performance {
            engine: self,
            unit,
            frame: 0,
        }
    }
}

/// A unit being performed, block by block.
#[derive(Debug)]
pub struct Performance<'a> {
    engine: &'a Engine,
    unit: &'a Unit,
    frame: u64,
}

/// Up to 64 frames of the three voices. Their sum is the track.
#[derive(Clone, Debug)]
pub struct Block {
    /// Guide tone.
    pub guide: [f32; BLOCK],
    /// Drone.
    pub drone: [f32; BLOCK],
    /// Clicks and signs.
    pub click: [f32; BLOCK],
}

impl Block {
    /// Silence.
    pub const SILENT: Block = Block {
        guide: [0.0; BLOCK],
        drone: [0.0; BLOCK],
        click: [0.0; BLOCK],
    };
    /// The sum of the voices at a frame of the block.
    pub fn mix(&self, i: usize) -> f32 {
        self.guide[i] + self.drone[i] + self.click[i]
    }
}

impl Performance<'_> {
    /// Fills `block` with the next frames of the unit and returns how many there are: 64, fewer at its
    /// end, 0 when it is over. Frames beyond are silence.
    pub fn next_block(&mut self, block: &mut Block) -> usize {
        let _ = self.engine;
        *block = Block::SILENT;
        let n = (self.unit.frames - self.frame).min(BLOCK as u64);
        self.frame += n;
        n as usize
    }
}
