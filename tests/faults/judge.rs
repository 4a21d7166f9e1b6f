//! What must hold after a run that something went wrong in, and after the next.

use crate::folder::{self, Files};
use crate::prepared::Prepared;
use crate::process::{self, Ended};
use std::path::Path;

/// Files as they are: every one of the old is there, old or new, and whatever else is there is new or temporary.
pub fn files(prepared: &Prepared, work: &Path) -> Result<(), String> {
    let there = folder::files(work);
    for path in prepared.old.keys() {
        if prepared.new.contains_key(path) && !there.contains_key(path) {
            return Err(format!("{path} is lost"));
        }
    }
    for (path, bytes) in &there {
        if folder::is_temporary(path) {
            continue;
        }
        let (old, new) = (prepared.old.get(path), prepared.new.get(path));
        if old.is_none() && new.is_none() {
            return Err(format!("{path} should not be there"));
        }
        if !folder::is_record(path) && Some(bytes) != old && Some(bytes) != new {
            let length = bytes.len();
            return Err(format!("{path} is neither old nor new, {length} bytes"));
        }
    }
    Ok(())
}

/// How it ended: within the bound, without a panic, and with success only if everything is written.
pub fn ending(
    prepared: &Prepared,
    work: &Path,
    ended: &Ended,
    failed: &[String],
) -> Result<(), String> {
    let said = &ended.stderr;
    if ended.status.is_none() {
        return Err(format!("it did not end; it said {said}"));
    }
    if said.contains("panicked") || said.contains("RUST_BACKTRACE") {
        return Err(format!("a panic: {said}"));
    }
    match ended.code() {
        None => Err(format!("it was ended by a signal; it said {said}")),
        Some(0) => same(&prepared.new, &folder::files(work), false)
            .map_err(|what| format!("it exits with 0, but {what}; it said {said}")),
        Some(1 | 2) if !said.contains("error: ") => {
            Err(format!("no message with its exit code; it said {said:?}"))
        }
        Some(1 | 2)
            if !failed
                .iter()
                .any(|failed| names(prepared, work, said, failed)) =>
        {
            Err(format!("the message does not name {failed:?}: {said}"))
        }
        Some(1 | 2) => Ok(()),
        Some(code) => Err(format!("exit code {code}; it said {said}")),
    }
}

/// The same command again, undisturbed: it completes, and leaves what it leaves without the fault.
pub fn rerun(prepared: &Prepared, work: &Path, beside: &Path) -> Result<(), String> {
    let mut command = process::leadpipe(work, &prepared.scenario.command);
    let ended = process::run(&mut command, beside);
    let there = folder::files(work);
    let first = same(&prepared.new, &there, true);
    let first = first.and_then(|()| match ended.code() {
        Some(0) => Ok(()),
        code => Err(format!("it exits with {code:?}")),
    });
    let Err(what) = first else {
        return Ok(());
    };
    // It may have done all of its work the first time.
    if ended.code() == Some(prepared.exit_again) && same(&prepared.new_again, &there, true).is_ok()
    {
        return Ok(());
    }
    let said = &ended.stderr;
    Err(format!("the next run: {what}; it said {said}"))
}

/// True if these are the expected files; with `clean`, no temporary file may be there. Of records only the names count.
fn same(expected: &Files, there: &Files, clean: bool) -> Result<(), String> {
    for (path, bytes) in expected {
        match there.get(path) {
            None => return Err(format!("{path} is missing")),
            Some(other) if other != bytes && !folder::is_record(path) => {
                return Err(format!("{path} is not as it should be"));
            }
            Some(_) => {}
        }
    }
    let more = there.keys().filter(|path| !expected.contains_key(*path));
    let mut more = more.filter(|path| clean || !folder::is_temporary(path));
    more.next()
        .map_or(Ok(()), |path| Err(format!("{path} is left over")))
}

/// True if a message names the file whose call failed: itself, a folder above it, or, if the file is temporary, one
/// beside it.
fn names(prepared: &Prepared, work: &Path, said: &str, failed: &str) -> bool {
    let failed = failed.trim_end_matches(" (deleted)");
    let path = Path::new(failed);
    let path = path.strip_prefix(work).unwrap_or(path);
    let path = path.to_str().unwrap();
    let Some((folder, name)) = path.rsplit_once('/').or(Some(("", path))) else {
        return true;
    };
    if failed == "a thread" || said.contains(name) && !name.is_empty() {
        return true;
    }
    if failed == "the standard output" {
        return said.contains("the output could not be written");
    }
    // Folders, the test's own excepted: that is where the user is.
    let mut above = folder;
    while !above.is_empty() {
        if said.contains(&format!("{above}/")) || said.contains(&format!("{above} ")) {
            return true;
        }
        above = above.rsplit_once('/').map_or("", |(above, _)| above);
    }
    let beside = prepared
        .new
        .keys()
        .filter_map(|other| match other.rsplit_once('/') {
            Some((beside, name)) => (beside == folder).then_some(name),
            None => folder.is_empty().then_some(other.as_str()),
        });
    let mut beside = beside;
    folder.is_empty()
        && (folder::is_temporary(name) || name.is_empty())
        && beside.any(|other| said.contains(other))
}
