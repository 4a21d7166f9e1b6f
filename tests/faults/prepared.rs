//! A scenario whose undisturbed outcome is known.

use crate::fault;
use crate::folder::{self, Files};
use crate::process::{self, Ended};
use crate::scenario::{self, Scenario};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError, Weak};
use std::time::Duration;
use tempfile::TempDir;

/// A scenario, what is there before its command, and what is there after it.
pub struct Prepared {
    pub scenario: Scenario,
    /// The folder to copy before every run.
    pub template: PathBuf,
    pub old: Files,
    pub new: Files,
    /// What the command says.
    pub said: String,
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
        let mut command = process::leadpipe(&work, &scenario.command);
        let log = kept.path().join("log");
        if let Some(shim) = fault::shim() {
            fault::preload(&mut command, shim, &work, &log, None);
        }
        let first = process::run(&mut command, kept.path());
        let exit = first.code().expect("it exits");
        assert_eq!(exit, scenario.exit, "{}: {}", scenario.name, first.stderr);
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
            said: first.stderr,
            calls: fault::read(&log).calls,
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

/// All scenarios, prepared once for the tests that run at the same time.
pub fn all() -> Arc<Vec<Prepared>> {
    static SHARED: Mutex<Weak<Vec<Prepared>>> = Mutex::new(Weak::new());
    // Not even a test that failed spoils it.
    let mut shared = SHARED.lock().unwrap_or_else(PoisonError::into_inner);
    shared.upgrade().unwrap_or_else(|| {
        let prepared = Arc::new(prepare());
        *shared = Arc::downgrade(&prepared);
        prepared
    })
}

fn prepare() -> Vec<Prepared> {
    let waiting = Mutex::new(scenario::all().into_iter().enumerate());
    let done = Mutex::new(Vec::new());
    process::in_parallel(|_| {
        loop {
            // The lock is not held while one is prepared.
            let next = waiting.lock().unwrap().next();
            let Some((number, scenario)) = next else {
                return;
            };
            let prepared = Prepared::new(scenario);
            done.lock().unwrap().push((number, prepared));
        }
    });
    let mut done = done.into_inner().unwrap();
    done.sort_by_key(|(number, _)| *number);
    done.into_iter().map(|(_, prepared)| prepared).collect()
}
