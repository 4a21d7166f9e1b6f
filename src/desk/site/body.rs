//! Reads the body of a request, with a bound on its size and on its time.

use crate::routine::bounds::LARGEST_FILE;
use hyper::body::{Body, Incoming};
use std::future::poll_fn;
use std::pin::Pin;
use std::time::Duration;

/// Two texts as JSON, in which a character takes at most six bytes.
const MOST: usize = 12 * LARGEST_FILE + 1024;
/// How long a browser on the same computer may take to send it.
const TIME: Duration = Duration::from_secs(20);

/// All of a body; `None` if it is too large, too slow or broken off.
pub async fn whole(body: Incoming) -> Option<Vec<u8>> {
    tokio::time::timeout(TIME, gathered(body)).await.ok()?
}

async fn gathered(mut body: Incoming) -> Option<Vec<u8>> {
    let mut bytes = vec![];
    while let Some(frame) = poll_fn(|context| Pin::new(&mut body).poll_frame(context)).await {
        if let Ok(piece) = frame.ok()?.into_data() {
            bytes.extend_from_slice(&piece);
        }
        if bytes.len() > MOST {
            return None;
        }
    }
    Some(bytes)
}
