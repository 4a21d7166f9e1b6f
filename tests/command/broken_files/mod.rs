//! Files with slips in them: every word of what is said, and where it points.
//!
//! Each case is the short routine with one piece of it replaced.

use super::{ROUTINE, Test};

mod names;
mod notes;
mod rows;

/// `check` of the short routine with `to` in place of the first `from` says exactly this, and the file
/// stays as it is.
fn told(from: &str, to: &str, stderr: &str) {
    assert!(ROUTINE.contains(from), "{from}");
    let text = ROUTINE.replacen(from, to, 1);
    let ran = Test::new(&["check", "a.toml"])
        .file("a.toml", &text)
        .stdout("")
        .stderr(stderr)
        .exit(1)
        .run();
    assert_eq!(ran.read("a.toml"), text);
}
