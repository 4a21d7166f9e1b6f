//! How the sources hang together: what decides that tracks are rendered again.

mod revisions;
mod source;
mod uses;

use std::path::Path;

/// The folder of the project.
fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}
