//! What is reported: one line of text for each voice of each unit, and for each whole track.

use std::fmt::Write;

use leadpipe::routine;
use leadpipe::score::{Take, unroll};
use leadpipe::synth::{Block, Engine};
use leadpipe::timeline::{Settings, Timeline, Unit, compile};

use crate::LINES;
use crate::hash::Fnv;

const VOICES: [&str; 4] = ["mix", "guide", "drone", "click"];

/// The report at both sample rates, for a take moved by `key` half steps.
///
/// # Panics
/// If the core refuses the routine: then there is nothing to compare.
pub fn report(key: i32) -> String {
    let routine = routine::read(LINES).expect("the routine is read");
    let take = Take {
        key,
        ..Take::default()
    };
    let score = unroll(&routine, &take).expect("the routine is unrolled");
    let mut text = String::new();
    for sample_rate in [44_100, 48_000] {
        let timeline = compile(
            &score,
            &Settings {
                sample_rate,
                signs: true,
            },
        );
        add(&mut text, &timeline).expect("a string grows");
    }
    text
}

fn add(text: &mut String, timeline: &Timeline) -> std::fmt::Result {
    let rate = timeline.sample_rate;
    // Debug prints the shortest text that reads back as the same f64: equal texts, equal bits.
    let mut hash = Fnv::new();
    hash.bytes(format!("{timeline:?}").as_bytes());
    writeln!(text, "{rate} timeline {}", hash.finish())?;
    let engine = Engine::new(rate);
    let mut track = VOICES.map(|_| Fnv::new());
    for (number, unit) in timeline.units.iter().enumerate() {
        let units = perform(&engine, unit, &mut track);
        for (voice, (raw, sixteen)) in VOICES.iter().zip(units) {
            writeln!(
                text,
                "{rate} unit {number} {voice} f32 {} 16-bit {} sounding {}",
                raw.finish(),
                sixteen.finish(),
                raw.sounding()
            )?;
        }
    }
    for (voice, hash) in VOICES.iter().zip(track) {
        writeln!(text, "{rate} track {voice} 16-bit {}", hash.finish())?;
    }
    Ok(())
}

/// Each voice's frames as they are and as they stand in a file; the latter also go into the track's.
fn perform(engine: &Engine, unit: &Unit, track: &mut [Fnv; 4]) -> [(Fnv, Fnv); 4] {
    let mut hashes = VOICES.map(|_| (Fnv::new(), Fnv::new()));
    let mut performance = engine.perform(unit);
    let mut block = Block::SILENT;
    loop {
        let n = performance.next_block(&mut block);
        if n == 0 {
            return hashes;
        }
        for i in 0..n {
            let frames = [block.mix(i), block.guide[i], block.drone[i], block.click[i]];
            for ((frame, (raw, sixteen)), track) in frames.iter().zip(&mut hashes).zip(&mut *track)
            {
                raw.value(frame.to_bits().to_le_bytes(), *frame == 0.0);
                let step = in_sixteen_bits(*frame);
                sixteen.value(step.to_le_bytes(), step == 0);
                track.value(step.to_le_bytes(), step == 0);
            }
        }
    }
}

/// Nearest step, halves to even, written plainly: `leadpipe render` has a quicker way of its own.
fn in_sixteen_bits(frame: f32) -> i16 {
    (frame * 32_768.0)
        .round_ties_even()
        .clamp(-32_768.0, 32_767.0) as i16
}
