//! A scenario whose undisturbed outcome is known.

use crate::fault;
use crate::folder::{self, Files};
use crate::process::{self, Ended};
use crate::scenario::Scenario;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::Duration;
use tempfile::TempDir;

/// A scenario, what is there before its command, and what is there after it.
pub struct Prepared {
    pub scenario: Scenario,
    /// The folder to copy before every run.
    pub template: PathBuf,
    pub old: Files,
    pub new: Files,
    /// What a second run of the command exits with, when the first has done everything.
    pub exit_again: i32,
    /// And the files that it leaves.
    pub new_again: Files,
    /// How long the command takes.
    pub took: Duration,
    /// How many calls of each kind it makes.
    pub calls: BTreeMap<String, usize>,
    _kept: TempDir,
}

impl Prepared {
    /// Fills a folder and runs the command twice, undisturbed.
    pub fn new(scenario: Scenario) -> Self {
        let kept = tempfile::tempdir().unwrap();
        let (template, work) = (kept.path().join("template"), kept.path().join("work"));
        for (name, text) in &scenario.files {
            folder::fill(&template, name, text.as_bytes());
        }
        for command in &scenario.before {
            well(&template, command, kept.path());
        }
        for (from, to) in &scenario.renamed {
            fs::rename(template.join(from), template.join(to)).unwrap();
        }
        for (name, text) in &scenario.changed {
            folder::fill(&template, name, text.as_bytes());
        }
        let old = folder::files(&template);
        folder::copy(&template, &work);
        let first = well(&work, &scenario.command, kept.path());
        let new = folder::files(&work);
        let mut again = process::leadpipe(&work, &scenario.command);
        let again = process::run(&mut again, kept.path());
        Self {
            template: template.clone(),
            old,
            new,
            exit_again: again.code().expect("it exits"),
            new_again: folder::files(&work),
            took: first.took,
            calls: calls(&scenario, &template, &work, kept.path()),
            scenario,
            _kept: kept,
        }
    }
}

/// Runs a command that nothing disturbs.
fn well(folder: &Path, command: &[&str], beside: &Path) -> Ended {
    let ended = process::run(&mut process::leadpipe(folder, command), beside);
    assert_eq!(ended.code(), Some(0), "{command:?}: {}", ended.stderr);
    ended
}

fn calls(
    scenario: &Scenario,
    template: &Path,
    work: &Path,
    beside: &Path,
) -> BTreeMap<String, usize> {
    let Some(shim) = fault::shim() else {
        return BTreeMap::new();
    };
    folder::copy(template, work);
    let log = beside.join("log");
    let mut command = process::leadpipe(work, &scenario.command);
    fault::preload(&mut command, shim, work, &log, None);
    process::run(&mut command, beside);
    fault::read(&log).calls
}
