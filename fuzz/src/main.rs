//! One program for all targets, so that it is linked once: `LEADPIPE_TARGET` names the target. `.ci/fuzz` runs it.
#![no_main]

mod entries;

use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static ENTRY: LazyLock<entries::Entry> = LazyLock::new(|| {
    let wanted = std::env::var("LEADPIPE_TARGET").unwrap_or_default();
    let found = entries::ALL.iter().find(|(name, _)| *name == wanted);
    let names: Vec<&str> = entries::ALL.iter().map(|(name, _)| *name).collect();
    found
        .unwrap_or_else(|| panic!("LEADPIPE_TARGET is one of {}", names.join(", ")))
        .1
});

fuzz_target!(|bytes: &[u8]| ENTRY(bytes));
