//! Threads that read files, so that a slow disk holds up one client and not all.

use std::sync::mpsc::{self, Receiver, Sender};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;
use tokio::sync::oneshot;

type Job = Box<dyn FnOnce() + Send>;

/// The threads. They end when this is dropped, each after the job it is at.
///
/// The runtime has such threads, too, but panics where the system gives none.
#[derive(Debug)]
pub struct Readers {
    /// `None` if there is no thread.
    jobs: Option<Sender<Job>>,
}

impl Readers {
    /// Starts this many threads, or as many as the system gives.
    pub fn start(most: usize) -> Self {
        let (jobs, waiting) = mpsc::channel();
        let waiting = Arc::new(Mutex::new(waiting));
        let start = |_: &usize| {
            let waiting = Arc::clone(&waiting);
            thread::Builder::new().spawn(move || work(&waiting)).is_ok()
        };
        let started = (0..most).filter(start).count();
        Self {
            jobs: (started > 0).then_some(jobs),
        }
    }

    /// Has a thread do `job`; the result comes later. Without a thread it is done at once.
    pub fn run<T: Send + 'static>(
        &self,
        job: impl FnOnce() -> T + Send + 'static,
    ) -> oneshot::Receiver<T> {
        let (give, result) = oneshot::channel();
        let job = move || {
            // Whoever asked may have left.
            let _ = give.send(job());
        };
        match &self.jobs {
            Some(jobs) => {
                // The threads live as long as this. If it failed nevertheless, the receiver would tell.
                let _ = jobs.send(Box::new(job));
            }
            None => job(),
        }
        result
    }
}

fn work(waiting: &Mutex<Receiver<Job>>) {
    loop {
        let next = waiting
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .recv();
        match next {
            Ok(job) => job(),
            Err(_) => return,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn jobs_are_done_with_threads_and_without() {
        for most in [0, 1, 3] {
            let readers = Readers::start(most);
            let results: Vec<_> = (0..20).map(|n| readers.run(move || n * n)).collect();
            for (n, result) in results.into_iter().enumerate() {
                assert_eq!(result.blocking_recv(), Ok(n * n));
            }
        }
    }
}
