//! How the sources hang together: what uses what, how long files and functions are, and what decides that tracks are
//! rendered again.

mod graph;
mod revisions;
mod sizes;
mod source;
mod uses;

use std::path::Path;

/// The folder of the project.
fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}
