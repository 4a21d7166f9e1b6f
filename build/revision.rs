//! Hashes of sources, and of the very versions of crates, that tell whether what was made earlier would be made
//! the same way now.

use std::{fs, path::Path};

/// A revision: sources and crates that decide something together.
pub struct Revision {
    /// The name it goes by.
    pub name: &'static str,
    /// Folders and files. `src` stands for the core alone, which is all that is not named in [`NOT_CORE`].
    pub sources: &'static [&'static str],
    /// Crates; with them goes all that they depend on, and which of their features are on.
    pub crates: &'static [&'static str],
}

/// What turns a timeline into samples. Everything before it (a routine, its marks, its score) decides a track through
/// the timeline alone, of which a record holds a hash; so it may change without a track being rendered again.
pub const SOUND: Revision = Revision {
    name: "SOUND",
    sources: &["src/synth", "src/brass/family.rs"],
    crates: &["fundsp", "libm"],
};

/// What packs the sound: encoders, and what they write beside it.
pub const ENCODER: Revision = Revision {
    name: "ENCODER",
    sources: &["src/render/formats"],
    crates: &[
        "ab_glyph",
        "dejavu",
        "flacenc",
        "id3",
        "mp3lame-encoder",
        "png",
    ],
};

/// All that the page's engine is made from: what it says counts as much as how it sounds.
pub const CORE: Revision = Revision {
    name: "CORE",
    sources: &["build", "build.rs", "src"],
    crates: &[
        "fundsp",
        "libm",
        "num-bigint",
        "num-integer",
        "num-rational",
        "num-traits",
        "serde",
        "serde_json",
        "strsim",
        "toml",
    ],
};

/// All of them.
pub const ALL: [Revision; 3] = [SOUND, ENCODER, CORE];

/// What of `src` is not the core. A new module is core unless it is named here.
pub const NOT_CORE: [&str; 8] = [
    "src/command",
    "src/desk",
    "src/exchange",
    "src/handout",
    "src/main.rs",
    "src/print",
    "src/render",
    "src/workshop",
];

impl Revision {
    /// The hash, of the sources below `root`.
    pub fn hash(&self, root: &Path) -> u64 {
        let mut hash = Fnv(0xcbf2_9ce4_8422_2325);
        for file in self.files(root) {
            // Line ends are left out, for they differ between checkouts.
            let bytes = fs::read(root.join(&file)).expect("the sources are readable");
            hash.add(file.bytes());
            hash.add(bytes.into_iter().filter(|b| *b != b'\r'));
        }
        let manifest =
            fs::read_to_string(root.join("Cargo.toml")).expect("the manifest is readable");
        for line in manifest.lines() {
            let name = line.split([' ', '=']).next().unwrap_or_default();
            if self.crates.contains(&name) {
                hash.add(line.bytes());
            }
        }
        // Without one leadpipe is a library in somebody else's build, whose lock file is out of reach.
        if let Ok(lock) = fs::read_to_string(root.join("Cargo.lock")) {
            hash_versions(&lock, self.crates, &mut hash);
        }
        hash.0
    }

    /// Its source files below `root`, by their paths from there, in a fixed order.
    pub fn files(&self, root: &Path) -> Vec<String> {
        let mut files = vec![];
        for source in self.sources {
            collect(root, source, &mut files);
        }
        files
    }
}

fn collect(root: &Path, name: &str, files: &mut Vec<String>) {
    let path = root.join(name);
    if NOT_CORE.contains(&name) {
        return;
    }
    if !path.is_dir() {
        if [".rs", ".ftl"].iter().any(|end| name.ends_with(end)) {
            files.push(name.to_owned());
        }
        return;
    }
    let entries = fs::read_dir(path).expect("the sources are readable");
    let mut inside: Vec<String> = entries
        .map(|entry| {
            let entry = entry.expect("the sources are readable");
            format!("{name}/{}", entry.file_name().to_string_lossy())
        })
        .collect();
    inside.sort();
    for name in inside {
        collect(root, &name, files);
    }
}

/// Name, version and checksum of every one of these crates and of all that it depends on, in the order of
/// the lock file.
fn hash_versions(lock: &str, crates: &[&'static str], hash: &mut Fnv) {
    let packages: Vec<Package<'_>> = lock.split("[[package]]").skip(1).map(package).collect();
    let mut wanted: Vec<&str> = crates.to_vec();
    let mut next = 0;
    while next < wanted.len() {
        let of_that_name = packages.iter().filter(|p| p.name == wanted[next]);
        let needed: Vec<&str> = of_that_name.flat_map(|p| p.needs.clone()).collect();
        for name in needed {
            if !wanted.contains(&name) {
                wanted.push(name);
            }
        }
        next += 1;
    }
    for name in crates {
        assert!(
            packages.iter().any(|p| p.name == *name),
            "{name} is in Cargo.lock"
        );
    }
    for package in packages.iter().filter(|p| wanted.contains(&p.name)) {
        for text in [package.name, package.version, package.checksum] {
            hash.add(text.bytes());
        }
    }
}

/// One entry of a lock file.
struct Package<'l> {
    name: &'l str,
    version: &'l str,
    checksum: &'l str,
    /// Names of what it depends on; where there are several versions of one, all of them count.
    needs: Vec<&'l str>,
}

fn package(entry: &str) -> Package<'_> {
    let value = |key: &str| {
        let line = entry.lines().find_map(|l| l.strip_prefix(key));
        line.map_or("", |value| value.trim_matches([' ', '=', '"']))
    };
    let needs = entry
        .lines()
        .filter_map(|line| line.strip_prefix(" \""))
        .filter_map(|name| name.split([' ', '"']).next());
    Package {
        name: value("name"),
        version: value("version"),
        checksum: value("checksum"),
        needs: needs.collect(),
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
