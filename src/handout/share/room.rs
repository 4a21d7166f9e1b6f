//! The open connections, and which one gives way when there are too many.
//!
//! A connection never waits for a place. When all are taken, a newcomer gets the place of one that has the weaker claim: of
//! the address with the most connections, as long as the newcomer's address has fewer; else the one at rest for longest,
//! if that is at least [`REST_TIME`]. So a few addresses cannot keep strangers out, and neither can many that only hold
//! connections. A browser whose connection is closed at rest opens another one, and a player requests the rest by range.

use std::net::IpAddr;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};
use tokio::task::{AbortHandle, Id};

/// The most connections at once.
pub const MOST_CONNECTIONS: usize = 128;
/// The most connections from one address; a browser opens six.
pub const MOST_OF_ONE: usize = 24;
/// How long a connection may rest, without its client taking bytes, before it gives way to another when all places are taken.
pub const REST_TIME: Duration = Duration::from_secs(1);

/// The open connections.
#[derive(Default)]
pub struct Room(Vec<Held>);

struct Held {
    from: IpAddr,
    progress: Progress,
    task: AbortHandle,
}

/// When a connection last got anywhere: when it was opened, or when its client last took bytes. What a client sends is no
/// progress, so that a request that never ends is no claim to a place.
#[derive(Clone)]
pub struct Progress(Arc<Mutex<Instant>>);

impl Progress {
    /// Of a connection that is opened now.
    pub fn new() -> Self {
        Self(Arc::new(Mutex::new(Instant::now())))
    }

    /// The client took some bytes.
    pub fn made(&self) {
        *self.0.lock().unwrap_or_else(PoisonError::into_inner) = Instant::now();
    }

    fn rest(&self) -> Duration {
        self.0
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .elapsed()
    }
}

impl Room {
    /// Makes a place for a connection from this address, if need be by ending another one; false if it gets none.
    pub fn admits(&mut self, from: IpAddr) -> bool {
        let own = self.of(from);
        if own >= MOST_OF_ONE {
            return false;
        }
        if self.0.len() < MOST_CONNECTIONS {
            return true;
        }
        let Some(weakest) = self.gives_way(own) else {
            return false;
        };
        self.0.swap_remove(weakest).task.abort();
        true
    }

    /// Keeps the place of an admitted connection until [`Room::release`].
    pub fn keep(&mut self, from: IpAddr, progress: Progress, task: AbortHandle) {
        self.0.push(Held {
            from,
            progress,
            task,
        });
    }

    /// The connection with this task has ended.
    pub fn release(&mut self, task: Id) {
        self.0.retain(|held| held.task.id() != task);
    }

    fn of(&self, from: IpAddr) -> usize {
        self.0.iter().filter(|held| held.from == from).count()
    }

    /// The connection that gives way to a newcomer whose address already has `own`.
    fn gives_way(&self, own: usize) -> Option<usize> {
        let claims = self.0.iter().enumerate();
        let claims: Vec<(usize, Duration, usize)> = claims
            .map(|(place, held)| (self.of(held.from), held.progress.rest(), place))
            .collect();
        let greedy = claims.iter().filter(|(number, _, _)| *number > own + 1);
        let resting = claims.iter().filter(|(_, rest, _)| *rest >= REST_TIME);
        greedy
            .max()
            .or_else(|| resting.max_by_key(|(_, rest, _)| *rest))
            .map(|(_, _, place)| *place)
    }
}
