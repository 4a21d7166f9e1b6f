//! Working on all players in parallel.

use rayon::ThreadPoolBuilder;

/// Runs `work` in a pool of this many threads; `None` for one per core.
pub fn with<T: Send>(threads: Option<usize>, work: impl FnOnce() -> T + Send) -> T {
    match ThreadPoolBuilder::new()
        .num_threads(threads.unwrap_or(0))
        .build()
    {
        Ok(pool) => pool.install(work),
        // Without a pool of our own the global one is used.
        Err(_) => work(),
    }
}
