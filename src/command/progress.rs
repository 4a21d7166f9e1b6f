//! The progress of a batch: one bar for all of it and one for each track being rendered.

use crate::render::{Finished, Watch};
use crate::words::{Language, duration, tell};
use indicatif::{MultiProgress, ProgressBar, ProgressDrawTarget, ProgressState, ProgressStyle};
use std::collections::HashMap;
use std::fmt::Write;
use std::sync::Mutex;
use std::sync::mpsc::{self, RecvTimeoutError, Sender};
use std::time::Duration;

/// The bars, on standard error; nothing is shown if that is not a terminal.
pub struct Bars {
    all: MultiProgress,
    batch: ProgressBar,
    /// Ends the ticking when it is dropped.
    _ticks: Option<Sender<()>>,
    names: Vec<String>,
    running: Mutex<HashMap<usize, ProgressBar>>,
}

impl Bars {
    /// Bars for tracks of these names and lengths in frames.
    pub fn new(language: Language, tracks: impl Iterator<Item = (String, u64)>) -> Self {
        let (names, frames): (Vec<String>, Vec<u64>) = tracks.unzip();
        let all = MultiProgress::with_draw_target(ProgressDrawTarget::stderr_with_hz(8));
        let batch = all.add(ProgressBar::new(frames.iter().sum()).with_style(style()));
        batch.set_message(
            tell::all_tracks(names.len())
                .in_language(language)
                .to_owned(),
        );
        Self {
            _ticks: ticks(&all, &batch),
            all,
            batch,
            names,
            running: Mutex::default(),
        }
    }

    /// Removes the bars from the screen.
    pub fn clear(&self) {
        self.batch.finish_and_clear();
        // A failure affects only the display.
        let _ = self.all.clear();
    }

    fn running(&self) -> std::sync::MutexGuard<'_, HashMap<usize, ProgressBar>> {
        self.running
            .lock()
            .expect("nothing in these few lines panics while it is held")
    }
}

/// Draws the bar of all again and again, so that the time left moves when no track does.
///
/// Not with the bar's own steady tick, which panics where the system gives no thread: then the bar moves with the tracks.
fn ticks(all: &MultiProgress, batch: &ProgressBar) -> Option<Sender<()>> {
    if all.is_hidden() {
        return None;
    }
    let (end, ended) = mpsc::channel();
    let batch = batch.clone();
    let tick = move || {
        while ended.recv_timeout(Duration::from_millis(250)) == Err(RecvTimeoutError::Timeout) {
            batch.tick();
        }
    };
    let thread = std::thread::Builder::new().spawn(tick);
    thread.is_ok().then_some(end)
}

fn style() -> ProgressStyle {
    ProgressStyle::with_template("[{bar:24}] {percent:>3}%  {left:>7} left  {msg}")
        .expect("a test draws it")
        .progress_chars("=> ")
        .with_key("left", |state: &ProgressState, to: &mut dyn Write| {
            let _ = to.write_str(&duration(state.eta().as_secs_f64()));
        })
}

impl Watch for Bars {
    fn began(&self, track: usize, frames: u64) {
        let bar = self.all.add(ProgressBar::new(frames).with_style(style()));
        bar.set_message(self.names[track].clone());
        self.running().insert(track, bar);
    }

    fn moved(&self, track: usize, frames: u64) {
        self.batch.inc(frames);
        if let Some(bar) = self.running().get(&track) {
            bar.inc(frames);
        }
    }

    fn ended(&self, track: usize, _finished: &Finished) {
        if let Some(bar) = self.running().remove(&track) {
            // The bar of an unchanged track has not moved.
            self.batch
                .inc(bar.length().unwrap_or(0).saturating_sub(bar.position()));
            bar.finish_and_clear();
            self.all.remove(&bar);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_bars_can_be_drawn() {
        let _ = style();
    }
}
