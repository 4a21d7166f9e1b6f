//! How loud the routines that ship with the program are, by an independent R 128 meter.

use leadpipe::presets;
use leadpipe::score::Take;
use leadpipe::synth::{Block, Engine};

use crate::rendered::*;

/// AES TD1008 (2021): −16 LUFS for a music track; EBU R 128 (2020): true peak at most −1 dBTP.
#[test]
fn built_in_routines_read_minus_16_lufs_on_two_loudspeakers() {
    let engine = Engine::new(RATE);
    // One for each level: every track of every routine would take five times as long and sound no other way.
    for preset in presets::usual() {
        let mode = ebur128::Mode::I | ebur128::Mode::TRUE_PEAK;
        let mut meter = ebur128::EbuR128::new(1, RATE, mode).unwrap();
        // One channel on both loudspeakers counts twice.
        meter.set_channel(0, ebur128::Channel::DualMono).unwrap();
        let mut block = Block::SILENT;
        for unit in &timeline(preset.text, &Take::default()).units {
            let mut performance = engine.perform(unit);
            loop {
                let n = performance.next_block(&mut block);
                if n == 0 {
                    break;
                }
                let mix: Vec<f32> = (0..n).map(|i| block.mix(i)).collect();
                meter.add_frames_f32(&mix).unwrap();
            }
        }
        let loudness = meter.loudness_global().unwrap();
        let peak = 20.0 * meter.true_peak(0).unwrap().log10();
        println!("{}: {loudness:.2} LUFS, {peak:.2} dBTP", preset.name);
        // Mostly mf, with soft stretches; a third of first-sounds is p, and all of it low.
        let softest = if preset.name == "first-sounds" {
            -18.5
        } else {
            -17.1
        };
        assert!(
            (softest..=-15.0).contains(&loudness),
            "{}: {loudness:.2} LUFS",
            preset.name
        );
        assert!(peak <= -1.0, "{}: {peak:.2} dBTP", preset.name);
    }
}
