//! Files of one unit each, without cue points or a record: they are quickly made again.

use super::failure::RenderFailure;
use super::files::{self, Growing, Replace};
use super::formats::SampleFormat;
use super::formats::wave::{self, Wave};
use crate::synth::{Block, Engine};
use crate::timeline::Unit;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};

/// Writes the guide of each unit to the file of that name in `folder`, and returns the size of each in bytes. A file
/// appears only when it is complete; files finished before a failure stay.
///
/// # Errors
/// If the folder or a file cannot be written, somebody's own file is in the way of one, or `stop` became true.
pub fn write_guides(
    units: &[(String, Unit)],
    folder: &Path,
    format: SampleFormat,
    replace: Replace,
    stop: &AtomicBool,
) -> Result<Vec<u64>, RenderFailure> {
    files::prepare(folder)?;
    replace.allows_all(folder, units.iter().map(|(name, _)| name.as_str()))?;
    let engine = Engine::new(format.sample_rate);
    units
        .iter()
        .map(|(name, unit)| write_guide(&engine, unit, &folder.join(name), format, replace, stop))
        .collect()
}

fn write_guide(
    engine: &Engine,
    unit: &Unit,
    path: &Path,
    format: SampleFormat,
    replace: Replace,
    stop: &AtomicBool,
) -> Result<u64, RenderFailure> {
    let at = || RenderFailure::at(path);
    let folder = path.parent().unwrap_or(Path::new("."));
    let tail = wave::tail(format, unit.frames, &[]);
    let head = wave::head(format, unit.frames, tail.len()).map_err(at())?;
    let mut file = Growing::begin(folder, head).map_err(at())?;
    let mut wave = Wave::begin(file.sink(), format).map_err(at())?;
    let mut performance = engine.perform(unit);
    let mut block = Block::SILENT;
    loop {
        if stop.load(Ordering::Relaxed) {
            return Err(RenderFailure::Stopped);
        }
        let n = performance.next_block(&mut block);
        if n == 0 {
            break;
        }
        wave.write(&block.guide[..n]).map_err(at())?;
    }
    file.complete(&tail).map_err(at())?;
    Ok(file.finish(path, replace)?.bytes)
}
