//! Hashes the sources that decide what a take sounds like into `LEADPIPE_ENGINE_REVISION`, so that a
//! record of rendered takes knows when it is out of date.

use std::{fs, path::Path};

const SOUND: [&str; 7] = [
    "src/music",
    "src/brass",
    "src/routine",
    "src/score",
    "src/timeline",
    "src/synth",
    "Cargo.toml",
];

fn main() {
    let mut hash = Fnv(0xcbf2_9ce4_8422_2325);
    for place in SOUND {
        println!("cargo:rerun-if-changed={place}");
        hash_tree(Path::new(place), &mut hash);
    }
    println!("cargo:rustc-env=LEADPIPE_ENGINE_REVISION={:016x}", hash.0);
}

/// Names and contents in a fixed order; line ends are left out, for they differ between checkouts.
fn hash_tree(path: &Path, hash: &mut Fnv) {
    if path.is_dir() {
        let entries = fs::read_dir(path).expect("the sources are readable");
        let mut inside: Vec<_> = entries
            .map(|e| e.expect("the sources are readable").path())
            .collect();
        inside.sort();
        for entry in inside {
            hash_tree(&entry, hash);
        }
    } else {
        hash.add(path.to_string_lossy().replace('\\', "/").bytes());
        hash.add(
            fs::read(path)
                .expect("the sources are readable")
                .into_iter()
                .filter(|b| *b != b'\r'),
        );
    }
}

/// The 64-bit FNV-1a hash.
struct Fnv(u64);

impl Fnv {
    fn add(&mut self, bytes: impl Iterator<Item = u8>) {
        for byte in bytes {
            self.0 = (self.0 ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3);
        }
    }
}
