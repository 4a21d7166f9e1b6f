//! What each target does with the bytes that it gets: reads them as leadpipe does, and holds what comes out to what is
//! promised. `tests/found_inputs.rs` runs the same functions on all inputs that were ever found to break a promise.

mod files;
mod music;
mod requests;
mod shared;
mod texts;

/// What a target does with an input.
pub type Entry = fn(&[u8]);

/// Every target by its name.
pub const ALL: [(&str, Entry); 17] = [
    ("routine", texts::routine),
    ("notes", texts::notes),
    ("pencil", texts::pencil),
    ("marks", texts::marks),
    ("class", texts::class),
    ("options", texts::options),
    ("musicxml", music::musicxml),
    ("mxl", music::mxl),
    ("midi", music::midi),
    ("abc", music::abc),
    ("engine", requests::engine),
    ("record", files::record),
    ("wav", files::wav),
    ("packed", files::packed),
    ("share-path", shared::path),
    ("share-fields", shared::fields),
    ("share", shared::bytes),
];
