//! Commands that are killed at random moments.

use crate::folder;
use crate::judge;
use crate::prepared;
use crate::process;
use std::process::Stdio;
use std::time::Instant;

#[test]
fn a_sample_of_kills_loses_nothing() {
    run(100 / process::part_of_sample());
}

/// `cargo test --test faults -- --ignored --nocapture a_thousand_kills`
#[test]
#[ignore = "takes some minutes"]
fn a_thousand_kills_lose_nothing() {
    run(1000);
}

/// Numbers that look random and are the same for the same seed: SplitMix64.
struct Moments(u64);

impl Moments {
    fn new() -> Self {
        let seed = std::env::var("LEADPIPE_SEED").ok();
        let seed = seed.map_or(1, |seed| seed.parse().expect("a seed is a number"));
        println!("LEADPIPE_SEED={seed}");
        Self(seed)
    }

    /// From 0 to 1.
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (mixed ^ (mixed >> 31)) as f64 / u64::MAX as f64
    }
}

fn run(times: usize) {
    let began = Instant::now();
    let prepared = prepared::all();
    let mut moments = Moments::new();
    let kept = tempfile::tempdir().unwrap();
    let work = kept.path().join("work");
    let (mut midway, mut complaints) = (0, Vec::new());
    for number in 0..times {
        let prepared = &prepared[number % prepared.len()];
        folder::copy(&prepared.template, &work);
        let moment = prepared.took.mul_f64(moments.next());
        let mut child = process::leadpipe(&work, &prepared.scenario.command)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(moment);
        midway += usize::from(child.try_wait().unwrap().is_none());
        child.kill().unwrap();
        child.wait().unwrap();
        let holds = judge::files(prepared, &work);
        if let Err(what) = holds.and_then(|()| judge::rerun(prepared, &work, kept.path())) {
            let name = prepared.scenario.name;
            complaints.push(format!("{name}: kill {number} after {moment:?}: {what}"));
        }
    }
    println!(
        "{times} kills, {midway} of them midway, {} complaints, {:.0} s",
        complaints.len(),
        began.elapsed().as_secs_f64()
    );
    assert!(complaints.is_empty(), "{}", complaints.join("\n\n"));
    // Otherwise the machine is not as fast as it was when the commands were timed, and nothing was tested.
    assert!(midway > times / 4, "only {midway} were killed midway");
}
