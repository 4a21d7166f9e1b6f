//! Frames on their way from the voices.

/// Frames in a block.
pub const BLOCK: usize = 64;

/// Frames from one point of a tone's course to the next while nothing quick happens.
pub(super) const CONTROL_FRAMES: u64 = BLOCK as u64;

/// Up to 64 frames of the three voices. Their sum is the track ([`Block::mix`]).
#[derive(Clone, Debug)]
pub struct Block {
    /// Guide tone.
    pub guide: [f32; BLOCK],
    /// Drone.
    pub drone: [f32; BLOCK],
    /// Clicks and signs.
    pub click: [f32; BLOCK],
    /// False where all three are silent: nothing but zeros.
    pub sounding: bool,
}

impl Block {
    /// Silence.
    pub const SILENT: Block = Block {
        guide: [0.0; BLOCK],
        drone: [0.0; BLOCK],
        click: [0.0; BLOCK],
        sounding: false,
    };
}
