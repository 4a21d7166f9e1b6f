//! Files that a command writes at once.

use super::Failure;
use super::console::Console;
use crate::render::files::{self, Replace};
use std::path::Path;

/// Writes one file into a folder that is there.
pub fn put(folder: &Path, name: &str, bytes: &[u8], replace: Replace) -> Result<(), Failure> {
    files::prepare(folder)?;
    files::put_all(folder, [(name, bytes)], replace)?;
    Ok(())
}

/// Writes files with these names into a folder, all or none, and lists their paths on standard output.
pub fn put_listed(
    console: &mut Console,
    folder: &Path,
    files: &[(String, Vec<u8>)],
    replace: Replace,
) -> Result<(), Failure> {
    files::prepare(folder)?;
    let contents = files
        .iter()
        .map(|(name, bytes)| (name.as_str(), bytes.as_slice()));
    files::put_all(folder, contents, replace)?;
    let list = files
        .iter()
        .map(|(name, _)| format!("{}\n", folder.join(name).display()));
    console.data(&list.collect::<String>())?;
    Ok(())
}
