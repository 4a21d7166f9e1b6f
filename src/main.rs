//! Arguments in, message and exit code out.
fn main() {}
