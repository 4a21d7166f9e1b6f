//! A folder of files: filled, copied, looked at.

use std::collections::BTreeMap;
use std::fs::{self, File, FileTimes};
use std::path::Path;

/// Every file below a folder by its path from there.
pub type Files = BTreeMap<String, Vec<u8>>;

/// Reads all of it.
pub fn files(folder: &Path) -> Files {
    let mut found = Files::new();
    add(&mut found, folder, "");
    found
}

fn add(found: &mut Files, folder: &Path, before: &str) {
    for entry in fs::read_dir(folder).unwrap() {
        let entry = entry.unwrap();
        let name = format!("{before}{}", entry.file_name().to_str().unwrap());
        if entry.file_type().unwrap().is_dir() {
            add(found, &entry.path(), &format!("{name}/"));
        } else {
            found.insert(name, fs::read(entry.path()).unwrap());
        }
    }
}

/// Empties `to` and copies all of `from` there. Files keep their times, by which records know them.
pub fn copy(from: &Path, to: &Path) {
    if to.exists() {
        fs::remove_dir_all(to).unwrap();
    }
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let copied = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy(&entry.path(), &copied);
        } else {
            fs::copy(entry.path(), &copied).unwrap();
            let metadata = entry.metadata().unwrap();
            let times = FileTimes::new().set_modified(metadata.modified().unwrap());
            File::options()
                .append(true)
                .open(&copied)
                .and_then(|file| file.set_times(times))
                .unwrap();
        }
    }
}

/// Writes a file and the folders above it.
pub fn fill(folder: &Path, name: &str, content: &[u8]) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, content).unwrap();
}

/// True for a name that only a file has that is being written.
pub fn is_temporary(path: &str) -> bool {
    let name = path.rsplit('/').next().unwrap();
    name.starts_with(".leadpipe-") || name.ends_with(".part") || name.ends_with(".tmp")
}

/// True for a record of leadpipe's own. It names times of files, so its bytes differ from run to run.
pub fn is_record(path: &str) -> bool {
    path.split('/').any(|name| name == ".leadpipe")
}
