//! What the page asks of the engine and what it gets: the same session that runs in WebAssembly, natively.
#![cfg(all(feature = "workshop", feature = "cli"))]

mod declared;
mod heard;
mod marked;
mod opened;
mod refused;

use leadpipe::engine::Session;
use serde_json::{Value, json};

/// One line of four quarters at 60, then one of two tubes.
pub const ROUTINE: &str = r#"format = 1
title = "Two lines"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
tempo = 60
meter = "4/4"

[[line]]
name = "Four"
notes = "mf C4:quarter slur( D4:quarter E4:quarter ) rest:quarter"
half_steps = [0, -1]
between = "none"
rest = "12 s"

[[line]]
name = "Tubes"
purpose = "easy slurs"
open = "slur( C4:half G4:half ) breath | C4:whole"
tubes = ["0", "1-2"]
"#;

/// The answer to a request.
pub fn ask(session: &mut Session, request: Value) -> Value {
    serde_json::from_str(&session.ask(&request.to_string())).expect("answers are JSON")
}

/// A session in which [`ROUTINE`] is open, and the answer.
pub fn open(request: Value) -> (Session, Value) {
    let mut session = Session::new();
    let mut whole = json!({ "do": "open", "routine": ROUTINE });
    for (key, value) in request.as_object().expect("an object") {
        whole[key] = value.clone();
    }
    let opened = ask(&mut session, whole);
    (session, opened)
}
