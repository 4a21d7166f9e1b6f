//! Many tracks into one folder, in parallel.

use super::cut_short;
use super::failure::RenderFailure;
use super::part::Part;
use super::record;
use super::track::{self, Finished, Shared, Track};
use super::wave::{Bits, Channels, Format};
use crate::synth::{Balance, Engine};
use rayon::ThreadPoolBuilder;
use std::fs;
use std::io::ErrorKind;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, OnceLock};

/// How a batch is rendered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Frames a second.
    pub sample_rate: u32,
    /// Width of a sample.
    pub bits: Bits,
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
    /// Mono mixes as calibrated, without stems, of what changed, on every core.
    pub const fn new(sample_rate: u32, bits: Bits) -> Self {
        Self {
            sample_rate,
            bits,
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

/// Is told how a batch gets on, from all of its threads. Tracks go by their number in the batch.
pub trait Watch: Sync {
    /// A track of this many frames is begun.
    fn began(&self, track: usize, frames: u64);
    /// This many more of its frames are done.
    fn moved(&self, track: usize, frames: u64);
    /// It is done.
    fn ended(&self, track: usize, finished: &Finished);
}

/// Nobody watches.
impl Watch for () {
    fn began(&self, _: usize, _: u64) {}
    fn moved(&self, _: usize, _: u64) {}
    fn ended(&self, _: usize, _: &Finished) {}
}

/// How a batch ended.
#[derive(Debug)]
pub struct End {
    /// The tracks that were finished, in order.
    pub finished: Vec<Finished>,
    /// Unfinished files of earlier runs that were cleared away.
    pub cleared: usize,
    /// Why the others were not.
    pub failure: Option<RenderFailure>,
}

/// An engine that is built when the first line has to be rendered: where nothing changed, its tables would be half of
/// all the work.
pub struct LazyEngine {
    sample_rate: u32,
    engine: OnceLock<Engine>,
}

impl LazyEngine {
    /// An engine for tracks of this rate.
    pub const fn new(sample_rate: u32) -> Self {
        Self {
            sample_rate,
            engine: OnceLock::new(),
        }
    }

    /// The engine.
    pub fn get(&self) -> &Engine {
        self.engine.get_or_init(|| Engine::new(self.sample_rate))
    }
}

/// A track and the folder it goes to.
pub struct Placed<'p, 't> {
    /// The number that the watch and [`Finished`] know it by.
    pub number: usize,
    /// Where it goes.
    pub folder: &'p Path,
    /// The track.
    pub track: &'p Track<'t>,
}

/// Renders `tracks` into `folder`. Their names must differ even where case does not count.
///
/// The files are the same whatever the number of threads. When `stop` becomes true, or a file cannot
/// be written, no further track is begun, those being rendered leave nothing behind, and those finished
/// stay.
pub fn render(
    tracks: &[Track<'_>],
    folder: &Path,
    settings: &Settings,
    stop: &AtomicBool,
    watch: &dyn Watch,
) -> End {
    let placed = tracks.iter().enumerate().map(|(number, track)| Placed {
        number,
        folder,
        track,
    });
    let placed: Vec<Placed<'_, '_>> = placed.collect();
    let cleared = match prepare(folder) {
        Ok(cleared) => cleared,
        Err(failure) => return End::before(failure, 0),
    };
    let end = render_placed(
        &placed,
        settings,
        &LazyEngine::new(settings.sample_rate),
        stop,
        watch,
    );
    End { cleared, ..end }
}

/// Renders tracks into the folders they go to, which have been made with [`prepare`]. Names must differ within a
/// folder.
pub fn render_placed(
    tracks: &[Placed<'_, '_>],
    settings: &Settings,
    engine: &LazyEngine,
    stop: &AtomicBool,
    watch: &dyn Watch,
) -> End {
    let failed = AtomicBool::new(false);
    let stopped = || stop.load(Ordering::Relaxed) || failed.load(Ordering::Relaxed);
    let pool = ThreadPoolBuilder::new()
        .num_threads(settings.threads.unwrap_or(0))
        .build();
    let pool = match pool {
        Ok(pool) => pool,
        Err(error) => {
            let folder = tracks.first().map_or(Path::new("."), |track| track.folder);
            let error = std::io::Error::other(error);
            return End::before(RenderFailure::at(folder)(error), 0);
        }
    };

    // The longest first, so that no thread begins it when the others are already done.
    let mut order: Vec<&Placed<'_, '_>> = tracks.iter().collect();
    order.sort_by_key(|placed| std::cmp::Reverse(placed.track.frames));
    let results = Mutex::new((Vec::new(), None));
    pool.scope_fifo(|scope| {
        for placed in order {
            let shared = Shared {
                folder: placed.folder,
                settings,
                engine,
                stopped: &stopped,
                watch,
            };
            let (failed, results) = (&failed, &results);
            scope.spawn_fifo(move |_| {
                let result = track::render(&shared, placed.number, placed.track);
                let mut results = results
                    .lock()
                    .expect("a thread that panics ends the batch with it");
                match result {
                    Ok(finished) => {
                        shared.watch.ended(placed.number, &finished);
                        results.0.push(finished);
                    }
                    Err(failure) => {
                        // The first failure is the cause; that others stopped is its effect.
                        failed.store(true, Ordering::Relaxed);
                        results.1.get_or_insert(failure);
                    }
                }
            });
        }
    });
    let (mut finished, failure) = results
        .into_inner()
        .expect("a thread that panics ends the batch with it");
    finished.sort_by_key(|f: &Finished| f.track);
    End {
        finished,
        cleared: 0,
        failure,
    }
}

impl End {
    fn before(failure: RenderFailure, cleared: usize) -> Self {
        Self {
            finished: vec![],
            cleared,
            failure: Some(failure),
        }
    }
}

/// Makes the folder where there is none, and clears away what killed runs left in it; says how many files.
pub fn prepare(folder: &Path) -> Result<usize, RenderFailure> {
    if let Err(error) = fs::create_dir_all(folder) {
        return Err(match error.kind() {
            ErrorKind::AlreadyExists | ErrorKind::NotADirectory => {
                let file = folder.ancestors().find(|part| part.is_file());
                RenderFailure::NotAFolder(file.unwrap_or(folder).to_owned())
            }
            _ => RenderFailure::at(folder)(error),
        });
    }
    Ok(cut_short::clear(folder) + cut_short::clear(&folder.join(record::FOLDER)))
}
