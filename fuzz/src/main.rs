//! One program for all targets, so that it is linked once: `LEADPIPE_TARGET` names the target. `.ci/fuzz` runs it.
#![no_main]

mod entries;

use libfuzzer_sys::fuzz_target;
use std::fs;
use std::sync::LazyLock;
use std::time::Duration;

/// The most processor time of an input. The clock of a busy machine is no judge.
const MOST: Duration = Duration::from_secs(1);

static ENTRY: LazyLock<entries::Entry> = LazyLock::new(|| {
    let wanted = std::env::var("LEADPIPE_TARGET").unwrap_or_default();
    let found = entries::ALL.iter().find(|(name, _)| *name == wanted);
    let names: Vec<&str> = entries::ALL.iter().map(|(name, _)| *name).collect();
    found
        .unwrap_or_else(|| panic!("LEADPIPE_TARGET is one of {}", names.join(", ")))
        .1
});

/// What this thread has used, where the system says it.
fn processor_time() -> Option<Duration> {
    let text = fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    let nanoseconds = text.split(' ').next()?.parse().ok()?;
    Some(Duration::from_nanos(nanoseconds))
}

fuzz_target!(|bytes: &[u8]| {
    let before = processor_time();
    ENTRY(bytes);
    if let (Some(before), Some(after)) = (before, processor_time()) {
        assert!(after - before <= MOST, "it took {:?}", after - before);
    }
});
