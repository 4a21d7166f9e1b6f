//! `class`, killed: what is there is whole, and the next run completes it.

use super::ROUTINE;
use super::class::{LIST, again, class, files};
use std::fs;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Killed again and again at any moment: whatever is there under its name is whole, and in the end all of it is.
#[test]
fn a_killed_class_leaves_whole_files_and_the_next_run_completes_it() {
    for format in [&[][..], &["--format", "wav"]] {
        killed(format);
    }
}

fn killed(format: &[&str]) {
    let list = LIST
        .replace("48]", "48, 52, 56, 64]")
        .replace("[\"100%\"]\n", "[\"100%\", 40, 44]\n");
    // Long enough to be killed midway. Packing takes ten times as long as writing frames as they are.
    let times = if format.is_empty() { 1 } else { 8 };
    let home = format!("name = \"Home\"\ntimes = {times}");
    let long = ROUTINE.replace("name = \"Home\"", &home);
    let begun = Instant::now();
    let ran = class(format)
        .file("lists/tuesday.toml", &list)
        .file("lists/a.toml", &long)
        .run();
    let lasts = begun.elapsed();
    let whole = files(&ran.path("to"));
    fs::rename(ran.path("to"), ran.path("whole")).unwrap();
    let mut random = 0x2545_f491_4f6c_dd1d_u64;
    let (mut midway, mut kept) = (0, 0);
    for _ in 0..10 {
        let arguments = [
            "class",
            "lists/tuesday.toml",
            "--out",
            "to",
            "--threads",
            "2",
        ];
        let mut child = Command::new(env!("CARGO_BIN_EXE_leadpipe"))
            .args([&arguments[..], format].concat())
            .current_dir(ran.folder.path())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        random = random
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        // Some time within the first three quarters of what all of it takes.
        let part = f64::from((random >> 33) as u32 % 1000) / 1000.0;
        std::thread::sleep(Duration::from_millis(5) + lasts.mul_f64(0.75 * part));
        child.kill().unwrap();
        child.wait().unwrap();
        let there = files(&ran.path("to"));
        for (name, bytes) in &there {
            let passing = name.contains(".leadpipe-");
            assert!(passing || whole[name] == *bytes, "{name} is not whole");
            kept += usize::from(!passing);
        }
        let unfinished = whole.keys().any(|name| !there.contains_key(name));
        midway += usize::from(unfinished);
        if !unfinished {
            // It goes on from nothing.
            fs::remove_dir_all(ran.path("to")).unwrap();
        }
    }
    assert!(midway > 0, "it was killed before it was done");
    assert!(kept > 0, "and after it had begun");
    let ran = again(ran, format).run();
    assert!(files(&ran.path("to")) == whole);
}
