//! Threads to work with: as many as wanted, or as many as the system gives.

use rayon::{ThreadPool, ThreadPoolBuilder};
use std::cell::OnceCell;
use std::num::NonZero;
use std::thread::available_parallelism;

thread_local! {
    /// A pool of this thread alone. A thread can join one pool only, so it is kept.
    static ALONE: OnceCell<Option<ThreadPool>> = const { OnceCell::new() };
}

/// Runs `work` in a pool of this many threads; `None` for one per core.
///
/// Where the system gives fewer, they do the work, and this thread alone if it gives none. The result is the same.
/// rayon's own pool is never used: it panics without a thread.
pub fn with<T: Send>(threads: Option<usize>, work: impl FnOnce() -> T + Send) -> T {
    let cores = || available_parallelism().map_or(1, NonZero::get);
    let mut threads = threads.unwrap_or_else(cores);
    while threads > 0 {
        if let Ok(pool) = ThreadPoolBuilder::new().num_threads(threads).build() {
            return pool.install(work);
        }
        threads /= 2;
    }
    ALONE.with(|alone| match alone.get_or_init(this_thread) {
        Some(pool) => pool.install(work),
        // This thread works in a pool already.
        None => work(),
    })
}

fn this_thread() -> Option<ThreadPool> {
    let alone = ThreadPoolBuilder::new().num_threads(1).use_current_thread();
    alone.build().ok()
}
