//! Many tracks into one folder, in parallel.

use super::failure::RenderFailure;
use super::files;
use super::finished::Finished;
use super::lazy_engine::LazyEngine;
use super::render_track;
use super::reuse::shelf::Shelf;
use super::settings::Settings;
use super::shared::Shared;
use super::track::Track;
use super::watch::Watch;
use blake3::Hash;
use rayon::iter::{IntoParallelRefIterator, ParallelIterator};
use rayon::{ScopeFifo, ThreadPool, ThreadPoolBuilder};
use std::path::Path;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

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
    let cleared = match files::prepare(folder) {
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
                let there = render_track::unchanged(
                    &self.shared(placed, &stopped),
                    placed.number,
                    placed.track,
                )?;
                if let Some(finished) = &there {
                    self.watch.ended(placed.number, finished);
                }
                Ok(there)
            });
            looked.collect()
        })
    }

    /// Renders tracks into the folders they go to, which have been made with [`files::prepare`]. Names must differ within a
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
        let result = render_track::render(&shared, placed.number, placed.track);
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
