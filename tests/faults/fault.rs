//! Which call fails and how, and the shim that makes it fail.

use std::collections::BTreeMap;
use std::fmt;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

/// The kinds of call that the shim knows, and the errors that each may meet.
pub const KINDS: [(&str, &[Error]); 18] = [
    ("open", &[EIO, EACCES, EMFILE, ENOSPC, INTERRUPTED]),
    ("read", &[EIO, INTERRUPTED, HALF]),
    ("write", &[ENOSPC, EIO, INTERRUPTED, HALF]),
    ("seek", &[EIO]),
    ("close", &[EIO, ENOSPC]),
    ("sync", &[EIO, ENOSPC]),
    ("rename", &[EIO, EACCES]),
    ("link", &[EPERM, EIO]),
    ("unlink", &[EIO, EACCES]),
    ("mkdir", &[ENOSPC, EACCES]),
    ("stat", &[EIO, EACCES]),
    ("chmod", &[EPERM, EIO]),
    ("chown", &[EPERM]),
    ("lock", &[ENOLCK, INTERRUPTED]),
    ("list", &[EIO]),
    ("truncate", &[EIO]),
    ("thread", &[EAGAIN]),
    ("output", &[ENOSPC, EIO]),
];

/// An error of the system, as Linux numbers them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Error {
    name: &'static str,
    number: i32,
    /// False for what is tried again: for ever would be no error but a standstill.
    lasts: bool,
}

const fn lasting(name: &'static str, number: i32) -> Error {
    let lasts = true;
    Error {
        name,
        number,
        lasts,
    }
}

const fn passing(name: &'static str, number: i32) -> Error {
    let lasts = false;
    Error {
        name,
        number,
        lasts,
    }
}

const EPERM: Error = lasting("EPERM", 1);
const INTERRUPTED: Error = passing("EINTR", 4);
const EIO: Error = lasting("EIO", 5);
const EAGAIN: Error = lasting("EAGAIN", 11);
const EACCES: Error = lasting("EACCES", 13);
const EMFILE: Error = lasting("EMFILE", 24);
const ENOSPC: Error = lasting("ENOSPC", 28);
const ENOLCK: Error = lasting("ENOLCK", 37);
/// No error: half of what was asked for is done.
const HALF: Error = passing("half", 0);

/// The `nth` call of a kind fails, alone or with all after it.
#[derive(Clone, Copy, Debug)]
pub struct Fault {
    pub kind: &'static str,
    pub nth: usize,
    pub error: Error,
    pub forever: bool,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { kind, nth, .. } = self;
        let from = if self.forever {
            " and all after it"
        } else {
            ""
        };
        write!(f, "{kind} {nth}{from}: {}", self.error.name)
    }
}

/// Every way in which the `nth` call of a kind can fail.
pub fn ways(kind: &'static str, errors: &[Error], nth: usize) -> Vec<Fault> {
    let fault = |error, forever| Fault {
        kind,
        nth,
        error,
        forever,
    };
    errors
        .iter()
        .flat_map(|error| {
            let forever = error.lasts.then(|| fault(*error, true));
            [Some(fault(*error, false)), forever]
        })
        .flatten()
        .collect()
}

/// The shim, compiled once; `None` where there is no C compiler.
pub fn shim() -> Option<&'static Path> {
    static SHIM: OnceLock<Option<PathBuf>> = OnceLock::new();
    let compile = || {
        let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/faults/shim.c");
        let to = Path::new(env!("CARGO_TARGET_TMPDIR"));
        let shim = to.join(format!("shim-{}.so", std::process::id()));
        let compiled = Command::new("cc")
            .args(["-shared", "-fPIC", "-O1", "-o"])
            .args([&shim, &source])
            .args(["-ldl", "-lpthread"])
            .output();
        let Ok(output) = compiled else {
            println!("not checked: failing calls, because there is no C compiler");
            return None;
        };
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "the shim does not compile: {said}");
        Some(shim)
    };
    SHIM.get_or_init(compile).as_deref()
}

/// Has the shim in this command, below this folder; with no fault it only counts.
pub fn preload(
    command: &mut Command,
    shim: &Path,
    below: &Path,
    log: &Path,
    fault: Option<&Fault>,
) {
    command
        .env("LD_PRELOAD", shim)
        .env("FAULT_BELOW", below)
        .env("FAULT_LOG", log)
        .env("FAULT_KIND", fault.map_or("none", |fault| fault.kind));
    if let Some(fault) = fault {
        command
            .env("FAULT_NTH", fault.nth.to_string())
            .env("FAULT_ERRNO", fault.error.number.to_string())
            .env("FAULT_FOREVER", if fault.forever { "1" } else { "0" });
    }
}

/// What the shim wrote down.
#[derive(Debug, Default)]
pub struct Log {
    /// Files whose calls failed, the first first.
    pub failed: Vec<String>,
    /// How many calls of each kind there were, if the program came to its end.
    pub calls: BTreeMap<String, usize>,
    /// True if it tried without end.
    pub endless: bool,
}

/// Reads what the shim wrote down.
pub fn read(log: &Path) -> Log {
    let text = std::fs::read(log).unwrap_or_default();
    let mut read = Log::default();
    for line in String::from_utf8_lossy(&text).lines() {
        match line.split_once(' ') {
            Some(("failed", rest)) => {
                let path = rest.split_once(' ').map_or("", |(_, path)| path);
                read.failed.push(path.to_owned());
            }
            Some(("calls", rest)) => {
                let (kind, count) = rest.split_once(' ').expect("a kind and a number");
                read.calls.insert(kind.to_owned(), count.parse().unwrap());
            }
            _ => read.endless |= line == "endless",
        }
    }
    read
}
