//! The folder of leadpipe's own files inside a folder that it writes into.

/// Its name.
pub const OWN: &str = ".leadpipe";
