//! Every input that fuzzing ever found to break a promise (`fuzz/found`), through the same functions.
#![cfg(all(
    feature = "exchange",
    feature = "engine",
    feature = "flac",
    feature = "mp3",
    feature = "share"
))]

#[path = "../fuzz/src/entries/mod.rs"]
mod entries;

use std::fs;
use std::path::Path;

#[test]
fn what_was_found_once_is_read() {
    let all = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/found");
    let mut read = 0;
    for entry in fs::read_dir(&all).unwrap() {
        let folder = entry.unwrap();
        let name = folder.file_name().into_string().unwrap();
        let target = entries::ALL.iter().find(|(target, _)| *target == name);
        let (_, target) = target.unwrap_or_else(|| panic!("there is no target {name}"));
        for input in fs::read_dir(folder.path()).unwrap() {
            let path = input.unwrap().path();
            println!("{}", path.display());
            target(&fs::read(path).unwrap());
            read += 1;
        }
    }
    assert!(read > 0, "there are inputs in {}", all.display());
}
