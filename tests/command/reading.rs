//! Files that never end, that nobody writes, or that the system does not give: bounded, and told as what they are.
#![cfg(unix)]

use super::{ROUTINE, command};
use std::fs;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

/// Commands that read a file `x` of somebody's.
const READING: [&[&str]; 12] = [
    &["check", "x"],
    &["check", "a.toml", "--pencil", "x"],
    &["render", "x", "--out", "to"],
    &["render", "a.toml", "--pencil", "x", "--out", "to"],
    &["handout", "x", "--out", "to"],
    &["handout", "a.toml", "--pencil", "x", "--out", "to"],
    &["class", "x", "--out", "to"],
    &["class", "class.toml", "--out", "to"],
    &["sheet", "x", "--out", "to"],
    &["pencil", "a.toml", "x", "1", "slower"],
    &["pencil", "a.toml", "x", "--show"],
    &["pencil", "x", "p.toml", "1", "slower"],
];

#[cfg(feature = "exchange")]
const EXCHANGING: [&[&str]; 2] = [
    &["adopt", "x"],
    &["export", "x", "--to", "midi", "--out", "to"],
];
#[cfg(not(feature = "exchange"))]
const EXCHANGING: [&[&str]; 0] = [];

const CLASS: &str =
    "format = 1\n[[player]]\nname = \"Anna\"\nroutine = \"a.toml\"\npencil = \"x\"\n";

fn all() -> impl Iterator<Item = &'static [&'static str]> {
    READING.into_iter().chain(EXCHANGING)
}

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a.toml"), ROUTINE).unwrap();
    fs::write(folder.path().join("class.toml"), CLASS).unwrap();
    folder
}

fn start(folder: &Path, arguments: &[&str]) -> Child {
    Command::new(env!("CARGO_BIN_EXE_leadpipe"))
        .args(arguments)
        .current_dir(folder)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// True once the process sleeps in the system call that opens the pipe.
fn waits(child: &Child) -> bool {
    let stat = fs::read_to_string(format!("/proc/{}/wchan", child.id()));
    stat.is_ok_and(|call| call.contains("fifo") || call.contains("pipe"))
}

/// Ends the process by force if the test fails.
struct Guarded(Child);

impl Drop for Guarded {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// The signals that end a program. What is started in the background of a shell ignores Ctrl-C, and so does what it starts.
fn signals() -> Vec<&'static str> {
    const INT: u64 = 1 << 1;
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let ignored = status.lines().find_map(|row| row.strip_prefix("SigIgn:"));
    let ignored = ignored.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok());
    match ignored {
        Some(mask) if mask & INT != 0 => vec!["-TERM"],
        _ => vec!["-TERM", "-INT"],
    }
}

#[test]
fn a_pipe_that_nobody_writes_ends_at_the_first_signal() {
    for arguments in all() {
        for signal in signals() {
            let folder = folder();
            let made = Command::new("mkfifo").arg(folder.path().join("x")).status();
            assert!(made.unwrap().success());
            let mut child = Guarded(start(folder.path(), arguments));
            let begun = Instant::now();
            // Where the system does not tell what a process waits for, it has had its time.
            while !waits(&child.0) && begun.elapsed() < Duration::from_millis(300) {
                sleep(Duration::from_millis(5));
            }
            assert_eq!(child.0.try_wait().unwrap(), None, "{arguments:?} waits");
            let id = child.0.id().to_string();
            let killed = Command::new("kill").args([signal, &id]).status();
            assert!(killed.unwrap().success());
            let killed = Instant::now();
            while child.0.try_wait().unwrap().is_none() {
                assert!(
                    killed.elapsed() < Duration::from_secs(10),
                    "{arguments:?} goes on after {signal}"
                );
                sleep(Duration::from_millis(5));
            }
        }
    }
}

#[test]
fn a_file_without_end_is_too_large() {
    for arguments in all() {
        let folder = folder();
        std::os::unix::fs::symlink("/dev/zero", folder.path().join("x")).unwrap();
        let ran = command(folder.path())
            .args(arguments)
            .timeout(Duration::from_secs(20))
            .output()
            .unwrap();
        let said = String::from_utf8(ran.stderr).unwrap();
        assert!(said.contains("x is larger than "), "{arguments:?}: {said}");
        assert!(!folder.path().join("to").exists(), "{arguments:?}");
    }
}

/// Reading the memory of a process at its first byte is an error of the device.
#[cfg(target_os = "linux")]
#[test]
fn an_error_of_the_device_is_no_fault_of_the_text() {
    for arguments in all() {
        let folder = folder();
        std::os::unix::fs::symlink("/proc/self/mem", folder.path().join("x")).unwrap();
        let ran = command(folder.path()).args(arguments).output().unwrap();
        let said = String::from_utf8(ran.stderr).unwrap();
        assert!(
            said.contains("x cannot be read: input/output error\n"),
            "{arguments:?}: {said}"
        );
    }
}
