//! Requests to the page's engine.

use leadpipe::engine::Session;
use serde_json::Value;

/// Frames of a performance that are rendered.
const FRAMES: usize = 256;

/// Requests, one a row, to one session: every answer is JSON that says whether it went well, and what was begun plays.
pub fn engine(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else {
        return;
    };
    let mut session = Session::new();
    for request in text.lines().take(8) {
        let answer: Value = serde_json::from_str(&session.ask(request)).expect("an answer is JSON");
        let well = answer["ok"].as_bool().expect("an answer says ok");
        if let Some(performance) = answer["performance"].as_u64().filter(|_| well) {
            let performance = u32::try_from(performance).expect("few are begun");
            let mut steps = vec![];
            let frames = session.mix(performance, FRAMES, &mut steps);
            assert!(frames <= FRAMES.next_multiple_of(64));
        }
    }
}
