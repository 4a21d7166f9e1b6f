//! Every call of every command is made to fail.

use crate::fault::{self, Fault};
use crate::folder;
use crate::judge;
use crate::prepared::{self, Prepared};
use crate::process;
use std::path::Path;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Instant;

/// In the whole sample, each so many-th failure, counted in every kind of call of every command from another place.
const STRIDE: usize = 47;

/// The same for commands that render sound, which takes a build of the tests half a second.
const STRIDE_OF_SOUND: usize = 149;

#[test]
fn a_sample_of_failing_calls_loses_nothing() {
    run(true);
}

/// `cargo test --test faults -- --ignored --nocapture every_failing_call`
#[test]
#[ignore = "makes thousands of runs"]
fn every_failing_call_loses_nothing() {
    run(false);
}

/// Makes calls fail on all cores and shows what does not hold.
fn run(sampled: bool) {
    let Some(shim) = fault::shim() else {
        return;
    };
    let began = Instant::now();
    let prepared = prepared::all();
    let parts: Vec<(usize, usize)> = (0..prepared.len())
        .flat_map(|scenario| (0..fault::KINDS.len()).map(move |kind| (scenario, kind)))
        .collect();
    let (next, runs) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let complaints: Mutex<Vec<String>> = Mutex::default();
    process::in_parallel(|beside| {
        while let Some((scenario, kind)) = parts.get(next.fetch_add(1, Ordering::Relaxed)) {
            let prepared = &prepared[*scenario];
            let meet = |fault: &Fault| {
                let (met, judged) = judged(prepared, shim, beside, fault);
                runs.fetch_add(1, Ordering::Relaxed);
                if let Err(what) = judged {
                    let complaint = format!("{}: {fault}: {what}", prepared.scenario.name);
                    println!("{complaint}\n");
                    complaints.lock().unwrap().push(complaint);
                }
                met
            };
            if sampled {
                some(prepared, *kind, scenario * 7 + kind * 13, meet);
            } else {
                every(*kind, meet);
            }
        }
    });
    let complaints = complaints.into_inner().unwrap();
    println!(
        "{} commands, {} runs with a failing call, {} complaints, {:.0} s",
        prepared.len(),
        runs.into_inner(),
        complaints.len(),
        began.elapsed().as_secs_f64()
    );
    assert!(complaints.is_empty(), "{}", complaints.join("\n\n"));
}

/// Every failure of a kind of call, until the command makes no further call of it.
fn every(kind: usize, meet: impl Fn(&Fault) -> bool) {
    let (kind, errors) = fault::KINDS[kind];
    for nth in 1.. {
        let ways = fault::ways(kind, errors, nth);
        if ways.iter().filter(|fault| meet(fault)).count() == 0 {
            return;
        }
    }
}

/// Each so many-th failure of a kind of call.
fn some(prepared: &Prepared, kind: usize, from: usize, meet: impl Fn(&Fault) -> bool) {
    let (kind, errors) = fault::KINDS[kind];
    let calls = prepared.calls.get(kind).copied().unwrap_or(0);
    let all: Vec<Fault> = (1..=calls)
        .flat_map(|nth| fault::ways(kind, errors, nth))
        .collect();
    let stride = if prepared.scenario.sounds() {
        STRIDE_OF_SOUND
    } else {
        STRIDE
    };
    let stride = stride * process::part_of_sample();
    for fault in all.iter().skip(from % stride).step_by(stride) {
        meet(fault);
    }
}

/// One run with a failing call: whether it met it, and whether all holds.
fn judged(
    prepared: &Prepared,
    shim: &Path,
    beside: &Path,
    fault: &Fault,
) -> (bool, Result<(), String>) {
    let (work, log) = (beside.join("work"), beside.join("log"));
    folder::copy(&prepared.template, &work);
    // A run that is ended at once writes none.
    let _ = std::fs::remove_file(&log);
    let mut command = process::leadpipe(&work, &prepared.scenario.command);
    fault::preload(&mut command, shim, &work, &log, Some(fault));
    let ended = process::run(&mut command, beside);
    let log = fault::read(&log);
    let Some(failed) = log.failed.first() else {
        return (false, Ok(()));
    };
    let holds = || {
        if log.endless {
            return Err(format!("it tries for ever: {failed}"));
        }
        judge::ending(prepared, &work, &ended, &log.failed)?;
        judge::files(prepared, &work)?;
        judge::rerun(prepared, &work, beside)
    };
    (true, holds().map_err(|what| format!("({failed}) {what}")))
}
