//! One run of the program that ends within a bound, whatever happens.

use std::ffi::OsString;
use std::fs::{self, File};
use std::path::Path;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::time::{Duration, Instant};

/// Longer than any command here takes on a machine that is busy with other things.
const BOUND: Duration = Duration::from_secs(40);

/// How a run ended.
#[derive(Debug)]
pub struct Ended {
    /// `None` if it had to be ended.
    pub status: Option<ExitStatus>,
    pub stderr: String,
    pub took: Duration,
}

impl Ended {
    /// The exit code, if it exited by itself.
    pub fn code(&self) -> Option<i32> {
        self.status?.code()
    }
}

/// The program to test.
pub fn program() -> OsString {
    std::env::var_os("LEADPIPE_PROGRAM").unwrap_or_else(|| env!("CARGO_BIN_EXE_leadpipe").into())
}

/// The program in this folder with these arguments.
pub fn leadpipe(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(program());
    command
        .args(arguments)
        .current_dir(folder)
        .env_remove("CLICOLOR_FORCE")
        .env("RUST_BACKTRACE", "0")
        .stdin(Stdio::null());
    command
}

/// Runs it to its end. What it says goes through files in `beside`, so that nobody has to read along.
pub fn run(command: &mut Command, beside: &Path) -> Ended {
    let said = beside.join("said");
    command
        .stdout(File::create(beside.join("data")).unwrap())
        .stderr(File::create(&said).unwrap());
    let began = Instant::now();
    let mut child = command.spawn().unwrap();
    let status = wait(&mut child, BOUND);
    Ended {
        status,
        took: began.elapsed(),
        stderr: String::from_utf8_lossy(&fs::read(said).unwrap()).into_owned(),
    }
}

/// Waits until it has ended, or ends it.
pub fn wait(child: &mut Child, bound: Duration) -> Option<ExitStatus> {
    let began = Instant::now();
    loop {
        if let Some(status) = child.try_wait().unwrap() {
            return Some(status);
        }
        if began.elapsed() > bound {
            child.kill().unwrap();
            child.wait().unwrap();
            return None;
        }
        // A run takes some milliseconds, or something is wrong.
        let pause = if began.elapsed() < Duration::from_secs(1) {
            1
        } else {
            20
        };
        std::thread::sleep(Duration::from_millis(pause));
    }
}

/// Does the same on each core, each time with a folder of its own.
pub fn in_parallel(work: impl Fn(&Path) + Sync) {
    std::thread::scope(|scope| {
        let cores = std::thread::available_parallelism().map_or(1, usize::from);
        for _ in 0..cores {
            scope.spawn(|| work(tempfile::tempdir().unwrap().path()));
        }
    });
}

/// How small a part of the sample is taken: a fourth, for `LEADPIPE_SAMPLE=1` all of it.
pub fn part_of_sample() -> usize {
    let part = std::env::var("LEADPIPE_SAMPLE").ok();
    part.map_or(4, |part| part.parse().expect("a part is a number from 1"))
}
