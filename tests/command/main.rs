//! The command line: exact words, exit codes, and what is left behind.

use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

#[path = "../measure/mod.rs"]
mod measure;

mod broken_files;
mod carrying;
mod checking;
mod choosing;
mod class;
mod class_folders;
#[cfg(unix)]
mod class_killed;
mod class_report;
mod class_together;
mod class_with_faults;
#[cfg(feature = "exchange")]
mod exchanging;
mod handing_out;
mod left_out_marks;
mod mixing;
mod own_files;
mod pencilling;
mod reading;
mod rendering;
mod slips;
// Without the back ends there is only SVG, which `tests/sheet` looks at.
#[cfg(all(feature = "pdf", feature = "png"))]
mod sheets;
#[cfg(unix)]
mod stopping;
mod tones;
mod usage;

/// Two short lines that the checker has nothing to say against.
const ROUTINE: &str = include_str!("short.toml");

/// One run of the program in a folder of its own.
struct Test {
    folder: TempDir,
    arguments: Vec<String>,
    stdin: Vec<u8>,
    stdout: Option<String>,
    stderr: Option<String>,
    exit: i32,
}

impl Test {
    fn new(arguments: &[&str]) -> Self {
        Self::within(tempfile::tempdir().unwrap(), arguments)
    }

    /// The same in a folder of an earlier run.
    fn within(folder: TempDir, arguments: &[&str]) -> Self {
        Self {
            folder,
            arguments: arguments.iter().map(|a| (*a).to_owned()).collect(),
            stdin: vec![],
            stdout: None,
            stderr: None,
            exit: 0,
        }
    }

    fn file(self, name: &str, content: impl AsRef<[u8]>) -> Self {
        let path = self.folder.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, content).unwrap();
        self
    }

    fn stdin(mut self, content: impl Into<Vec<u8>>) -> Self {
        self.stdin = content.into();
        self
    }

    fn stdout(mut self, text: &str) -> Self {
        self.stdout = Some(text.to_owned());
        self
    }

    fn stderr(mut self, text: &str) -> Self {
        self.stderr = Some(text.to_owned());
        self
    }

    fn exit(mut self, code: i32) -> Self {
        self.exit = code;
        self
    }

    /// Runs it and holds what came out against what was expected.
    fn run(self) -> Ran {
        let output = command(self.folder.path())
            .args(&self.arguments)
            .write_stdin(self.stdin)
            .output()
            .unwrap();
        let stdout = String::from_utf8(output.stdout).unwrap();
        let stderr = String::from_utf8(output.stderr).unwrap();
        if let Some(expected) = &self.stdout {
            assert_eq!(&stdout, expected, "stdout; stderr was:\n{stderr}");
        }
        if let Some(expected) = &self.stderr {
            assert_eq!(&stderr, expected, "stderr");
        }
        assert_eq!(output.status.code(), Some(self.exit), "{stdout}\n{stderr}");
        Ran {
            folder: self.folder,
            stdout,
            stderr,
        }
    }
}

/// What came of a run.
struct Ran {
    folder: TempDir,
    stdout: String,
    stderr: String,
}

impl Ran {
    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }

    /// Among other things it said this.
    fn says(&self, words: &str) {
        assert!(self.stderr.contains(words), "{}", self.stderr);
    }
}

fn command(folder: &Path) -> assert_cmd::Command {
    let mut command = assert_cmd::Command::new(env!("CARGO_BIN_EXE_leadpipe"));
    command
        .current_dir(folder)
        .env_remove("NO_COLOR")
        .env_remove("CLICOLOR_FORCE");
    command
}

/// Names in a folder, sorted; none if there is no such folder.
fn names(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else {
        return vec![];
    };
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

/// The same without leadpipe's own folder.
fn written(folder: &Path) -> Vec<String> {
    let names = names(folder).into_iter();
    names.filter(|name| name != ".leadpipe").collect()
}
