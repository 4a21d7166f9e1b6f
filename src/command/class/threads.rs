//! Work on all players at once.

use rayon::ThreadPoolBuilder;

/// Does this with as many threads as are asked for, none for as many as the machine has cores.
pub fn with<T: Send>(threads: Option<usize>, work: impl FnOnce() -> T + Send) -> T {
    match ThreadPoolBuilder::new()
        .num_threads(threads.unwrap_or(0))
        .build()
    {
        Ok(pool) => pool.install(work),
        // Where the system grants no threads of our own, its usual ones do.
        Err(_) => work(),
    }
}
