//! Many tracks into one folder, in parallel.

use super::failure::RenderFailure;
use super::files;
use super::finished::Finished;
use super::lazy_engine::LazyEngine;
use super::render_track;
use super::reuse::shelf::Shelf;
use super::settings::RenderSettings;
use super::shared::Shared;
use super::threads;
use super::track::Track;
use super::watch::Watch;
use blake3::Hash;
use rayon::ScopeFifo;
use rayon::iter::{IntoParallelRefIterator, ParallelIterator};
use std::path::Path;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// How a batch ended.
#[derive(Debug)]
pub struct End {
    /// The tracks that were finished, in order.
    pub finished: Vec<Finished>,
    /// Number of unfinished files of earlier runs that were removed.
    pub cleared: usize,
    /// Why the other tracks were not finished.
    pub failure: Option<RenderFailure>,
}

/// A track and the folder it goes to.
pub struct BatchTrack<'p, 't> {
    /// The number that identifies it in [`Watch`] and [`Finished`].
    pub number: usize,
    /// The folder it is written to.
    pub folder: &'p Path,
    /// The track.
    pub track: &'p Track<'t>,
    /// Indices of the tracks that it copies from and that must be finished before it. They are smaller than its
    /// own index.
    pub after: Vec<usize>,
    /// Lines that it copies from the shelf.
    pub shelf_lines: &'p [Hash],
}

/// Renders `tracks` into `folder`. Their names must differ even when case is ignored.
///
/// The files do not depend on the number of threads. When `stop` becomes true or a file cannot be written, no
/// further track is started, unfinished tracks leave no files, and finished tracks stay. A track is left out if
/// somebody's own file is in its way.
pub fn render(
    tracks: &[Track<'_>],
    folder: &Path,
    settings: &RenderSettings,
    stop: &AtomicBool,
    watch: &dyn Watch,
) -> End {
    let placed = tracks.iter().enumerate().map(|(number, track)| BatchTrack {
        number,
        folder,
        track,
        after: vec![],
        shelf_lines: &[],
    });
    let placed: Vec<BatchTrack<'_, '_>> = placed.collect();
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

/// What the tracks of a run share.
#[derive(Clone, Copy)]
pub struct Run<'a> {
    /// How the tracks are rendered.
    pub settings: &'a RenderSettings,
    /// The engine that renders them.
    pub engine: &'a LazyEngine,
    /// The shelf for lines that several tracks need, if they are not read back from WAV files.
    pub shelf: Option<&'a Shelf>,
    /// Becomes true when the run is to stop.
    pub stop: &'a AtomicBool,
    /// Receives progress reports.
    pub watch: &'a dyn Watch,
}

impl Run<'_> {
    /// For each track, its result if its sound is known and its files are up to date, so that nothing has to be
    /// done.
    ///
    /// # Errors
    /// If the run is stopped.
    pub fn unchanged(
        &self,
        tracks: &[BatchTrack<'_, '_>],
    ) -> Result<Vec<Option<Finished>>, RenderFailure> {
        let stopped = || self.stop.load(Ordering::Relaxed);
        threads::with(self.settings.threads, || {
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

    /// Renders each track into its folder, which [`files::prepare`] has created. Names must be unique within a
    /// folder.
    ///
    /// # Panics
    /// If a track copies from a track that does not precede it.
    pub fn render(&self, tracks: &[BatchTrack<'_, '_>]) -> End {
        let failed = AtomicBool::new(false);
        let stopped = || self.stop.load(Ordering::Relaxed) || failed.load(Ordering::Relaxed);
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
        // The longest first, so that no thread starts it when the others are already done.
        let free = |number: &usize| tracks[*number].after.is_empty();
        let mut order: Vec<usize> = (0..tracks.len()).filter(free).collect();
        order.sort_by_key(|number| std::cmp::Reverse(tracks[*number].track.frames));
        let all = || {
            rayon::scope_fifo(|scope| {
                for number in order {
                    let queue = &queue;
                    scope.spawn_fifo(move |scope| queue.work(scope, number));
                }
            });
        };
        threads::with(self.settings.threads, all);
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
        placed: &BatchTrack<'s, '_>,
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
}

/// For each track, those that wait for it.
fn followers(tracks: &[BatchTrack<'_, '_>]) -> Vec<Vec<usize>> {
    let mut next = vec![Vec::new(); tracks.len()];
    for (number, placed) in tracks.iter().enumerate() {
        for before in &placed.after {
            assert!(*before < number, "tracks come after those they copy from");
            next[*before].push(number);
        }
    }
    next
}

/// Tracks being rendered, each after those it copies from.
struct Queue<'q, 'p, 't> {
    run: &'q Run<'q>,
    tracks: &'q [BatchTrack<'p, 't>],
    /// How many tracks each is still waiting for.
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
            shelf.done_with(placed.shelf_lines);
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
                    // What ends the run is the cause; the others stopped because of it.
                    if !failure.is_of_one() {
                        self.failed.store(true, Ordering::Relaxed);
                    }
                    results.1 = Some(match results.1.take() {
                        Some(first) => first.and(failure),
                        None => failure,
                    });
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
    /// The result of a batch that could not start.
    pub(super) fn before(failure: RenderFailure, cleared: usize) -> Self {
        Self {
            finished: vec![],
            cleared,
            failure: Some(failure),
        }
    }
}
