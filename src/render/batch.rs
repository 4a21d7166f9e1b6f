//! Many tracks into one folder, in parallel.

use super::cut_short;
use super::failure::RenderFailure;
use super::file_kind::FileKinds;
use super::part::Part;
use super::record;
use super::shelf::Shelf;
use super::track::{self, Finished, Shared, Track};
use super::wave::{Bits, Channels, Format};
use crate::synth::{Balance, Engine};
use blake3::Hash;
use rayon::iter::{IntoParallelRefIterator, ParallelIterator};
use rayon::{ScopeFifo, ThreadPool, ThreadPoolBuilder};
use std::fs;
use std::io::ErrorKind;
use std::path::Path;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Mutex, OnceLock};

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
    /// Places, among the tracks that are rendered with it, of those that are to be done before, for it copies from
    /// them. They stand before it.
    pub after: Vec<usize>,
    /// Lines that it takes from the shelf.
    pub takes: &'p [Hash],
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
        after: vec![],
        takes: &[],
    });
    let placed: Vec<Placed<'_, '_>> = placed.collect();
    let cleared = match prepare(folder) {
        Ok(cleared) => cleared,
        Err(failure) => return End::before(failure, 0),
    };
    let run = Run {
        settings,
        engine: &LazyEngine::new(settings.sample_rate),
        shelf: None,
        stop,
        watch,
    };
    End {
        cleared,
        ..run.render(&placed)
    }
}

/// What the tracks of a run have in common.
#[derive(Clone, Copy)]
pub struct Run<'a> {
    /// How they are rendered.
    pub settings: &'a Settings,
    /// What renders them.
    pub engine: &'a LazyEngine,
    /// Lines that several of them need, where they are not read back from WAV files.
    pub shelf: Option<&'a Shelf>,
    /// Becomes true when the run is to end.
    pub stop: &'a AtomicBool,
    /// Is told how it gets on.
    pub watch: &'a dyn Watch,
}

impl Run<'_> {
    /// For each track of which it is known how it sounds what there is to say of it if it is there already and
    /// nothing has to be done.
    ///
    /// # Errors
    /// Where the run is stopped, or the system grants no threads.
    pub fn unchanged(
        &self,
        tracks: &[Placed<'_, '_>],
    ) -> Result<Vec<Option<Finished>>, RenderFailure> {
        let stopped = || self.stop.load(Ordering::Relaxed);
        self.pool(tracks)?.install(|| {
            let looked = tracks.par_iter().map(|placed| {
                let there =
                    track::unchanged(&self.shared(placed, &stopped), placed.number, placed.track)?;
                if let Some(finished) = &there {
                    self.watch.ended(placed.number, finished);
                }
                Ok(there)
            });
            looked.collect()
        })
    }

    /// Renders tracks into the folders they go to, which have been made with [`prepare`]. Names must differ within a
    /// folder.
    ///
    /// # Panics
    /// Where a track is to come after one that does not stand before it.
    pub fn render(&self, tracks: &[Placed<'_, '_>]) -> End {
        let failed = AtomicBool::new(false);
        let stopped = || self.stop.load(Ordering::Relaxed) || failed.load(Ordering::Relaxed);
        let pool = match self.pool(tracks) {
            Ok(pool) => pool,
            Err(failure) => return End::before(failure, 0),
        };
        let queue = Queue {
            run: self,
            tracks,
            waiting: tracks
                .iter()
                .map(|placed| AtomicUsize::new(placed.after.len()))
                .collect(),
            next: followers(tracks),
            failed: &failed,
            stopped: &stopped,
            results: Mutex::new((Vec::new(), None)),
        };
        // The longest first, so that no thread begins it when the others are already done.
        let free = |number: &usize| tracks[*number].after.is_empty();
        let mut order: Vec<usize> = (0..tracks.len()).filter(free).collect();
        order.sort_by_key(|number| std::cmp::Reverse(tracks[*number].track.frames));
        pool.scope_fifo(|scope| {
            for number in order {
                let queue = &queue;
                scope.spawn_fifo(move |scope| queue.work(scope, number));
            }
        });
        let (mut finished, failure) = queue
            .results
            .into_inner()
            .expect("a thread that panics ends the batch with it");
        finished.sort_by_key(|f: &Finished| f.track);
        End {
            finished,
            cleared: 0,
            failure,
        }
    }

    fn shared<'s>(
        &'s self,
        placed: &Placed<'s, '_>,
        stopped: &'s (dyn Fn() -> bool + Sync),
    ) -> Shared<'s> {
        Shared {
            folder: placed.folder,
            settings: self.settings,
            engine: self.engine,
            shelf: self.shelf,
            stopped,
            watch: self.watch,
        }
    }

    fn pool(&self, tracks: &[Placed<'_, '_>]) -> Result<ThreadPool, RenderFailure> {
        let pool = ThreadPoolBuilder::new()
            .num_threads(self.settings.threads.unwrap_or(0))
            .build();
        pool.map_err(|error| {
            let folder = tracks.first().map_or(Path::new("."), |track| track.folder);
            RenderFailure::at(folder)(std::io::Error::other(error))
        })
    }
}

/// For each track those that come after it.
fn followers(tracks: &[Placed<'_, '_>]) -> Vec<Vec<usize>> {
    let mut next = vec![Vec::new(); tracks.len()];
    for (number, placed) in tracks.iter().enumerate() {
        for before in &placed.after {
            assert!(*before < number, "tracks come after those they copy from");
            next[*before].push(number);
        }
    }
    next
}

/// Tracks being rendered, each when those it copies from are done.
struct Queue<'q, 'p, 't> {
    run: &'q Run<'q>,
    tracks: &'q [Placed<'p, 't>],
    /// How many each is still waiting for.
    waiting: Vec<AtomicUsize>,
    next: Vec<Vec<usize>>,
    failed: &'q AtomicBool,
    stopped: &'q (dyn Fn() -> bool + Sync),
    results: Mutex<(Vec<Finished>, Option<RenderFailure>)>,
}

impl Queue<'_, '_, '_> {
    fn work<'s>(&'s self, scope: &ScopeFifo<'s>, number: usize) {
        let placed = &self.tracks[number];
        let shared = self.run.shared(placed, self.stopped);
        let result = track::render(&shared, placed.number, placed.track);
        if let Some(shelf) = self.run.shelf {
            shelf.done_with(placed.takes);
        }
        {
            let mut results = self
                .results
                .lock()
                .expect("a thread that panics ends the batch with it");
            match result {
                Ok(finished) => {
                    self.run.watch.ended(placed.number, &finished);
                    results.0.push(finished);
                }
                Err(failure) => {
                    // The first failure is the cause; that others stopped is its effect.
                    self.failed.store(true, Ordering::Relaxed);
                    results.1.get_or_insert(failure);
                }
            }
        }
        for next in &self.next[number] {
            if self.waiting[*next].fetch_sub(1, Ordering::AcqRel) == 1 {
                scope.spawn_fifo(move |scope| self.work(scope, *next));
            }
        }
    }
}

impl End {
    /// The end of a batch that could not be begun.
    pub(super) fn before(failure: RenderFailure, cleared: usize) -> Self {
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
