//! Hashes what decides how a take sounds into `LEADPIPE_ENGINE_REVISION`, so that a record of rendered
//! takes knows when it is out of date: the core's sources, and the very versions of the crates that
//! calculate for it. What decides how the sound is packed goes into `LEADPIPE_ENCODER_REVISION` in the same
//! way.
//!
//! Also picks what the printed sheet needs of two fonts: outlines of music glyphs and widths of letters.

#[path = "build/letters.rs"]
mod letters;
#[path = "build/outlines.rs"]
mod outlines;

use std::{env, fs, path::Path};

const SOUND: [&str; 6] = [
    "src/music",
    "src/brass",
    "src/routine",
    "src/score",
    "src/timeline",
    "src/synth",
];

/// What lies in there but is only said, never played: how long a breath lasts, words of caution, which
/// routine to start with, how takes and volumes are put in words. A better sentence must not make every pupil's tracks be rendered again.
const SILENT: [&str; 5] = [
    "src/brass/breath.rs",
    "src/brass/caution.rs",
    "src/brass/choose.rs",
    "src/score/spoken.rs",
    "src/synth/volume.rs",
];

/// The crates whose results become frames; with them goes all that they depend on. Those that only read
/// text or write files are left out.
const CALCULATING: [&str; 4] = ["fundsp", "libm", "num-integer", "num-rational"];

/// What packs the sound: encoders, and what they write beside it.
const PACKED: [&str; 5] = [
    "src/render/chapters.rs",
    "src/render/cover.rs",
    "src/render/flac.rs",
    "src/render/mp3.rs",
    "Cargo.toml",
];

/// The crates that do so, with all that they depend on.
const PACKING: [&str; 6] = [
    "ab_glyph",
    "dejavu",
    "flacenc",
    "id3",
    "mp3lame-encoder",
    "png",
];

fn main() {
    println!("cargo:rerun-if-changed=Cargo.lock");
    // Without one leadpipe is a library in somebody else's build, whose lock file is out of reach.
    let lock = fs::read_to_string("Cargo.lock").ok();
    for (name, places, crates) in [
        ("ENGINE", &SOUND[..], &CALCULATING[..]),
        ("ENCODER", &PACKED, &PACKING),
    ] {
        let mut hash = Fnv(0xcbf2_9ce4_8422_2325);
        for place in places {
            println!("cargo:rerun-if-changed={place}");
            hash_tree(Path::new(place), &mut hash);
        }
        if name == "ENGINE" {
            println!("cargo:rerun-if-changed=Cargo.toml");
            let manifest = fs::read_to_string("Cargo.toml").expect("the manifest is readable");
            hash_features(&manifest, &mut hash);
        }
        if let Some(lock) = &lock {
            hash_versions(lock, crates, &mut hash);
        }
        println!("cargo:rustc-env=LEADPIPE_{name}_REVISION={:016x}", hash.0);
    }
    pick_glyphs_and_letters();
}

/// Which features of the calculating crates are on, as the manifest says. What else stands there (the
/// sheet's crates, those that read and write files) is not heard.
fn hash_features(manifest: &str, hash: &mut Fnv) {
    let of_calculating = manifest.lines().filter(|line| {
        let name = line.split([' ', '=']).next().unwrap_or_default();
        CALCULATING.contains(&name) || name == "num-traits" || name == "num-bigint"
    });
    for line in of_calculating {
        hash.add(line.bytes());
    }
}

/// Writes `glyphs.rs`, `letters.rs` and the faces of the text font to where cargo wants made files.
fn pick_glyphs_and_letters() {
    for source in ["build.rs", "build"] {
        println!("cargo:rerun-if-changed={source}");
    }
    let folder = env::var_os("OUT_DIR").expect("cargo names a folder");
    let put = |name: &str, content: &[u8]| {
        fs::write(Path::new(&folder).join(name), content)
            .expect("cargo's folder can be written to");
    };
    let fonts = verovioxide_data::resource_dir();
    let text_of = |path: &str| {
        let file = fonts
            .get_file(path)
            .unwrap_or_else(|| panic!("{path} is there"));
        file.contents_utf8().expect("it is text").to_owned()
    };
    let list = text_of("Bravura.xml");
    let glyphs = outlines::table(&list, |code| text_of(&format!("Bravura/{code}.xml")));
    put("glyphs.rs", glyphs.as_bytes());
    let (letters, faces) = letters::tables(typst_assets::fonts());
    put("letters.rs", letters.as_bytes());
    for (name, data) in faces {
        put(&name, data);
    }
}

/// Names and contents in a fixed order; line ends are left out, for they differ between checkouts.
fn hash_tree(path: &Path, hash: &mut Fnv) {
    let name = path.to_string_lossy().replace('\\', "/");
    if path.is_dir() {
        let entries = fs::read_dir(path).expect("the sources are readable");
        let mut inside: Vec<_> = entries
            .map(|e| e.expect("the sources are readable").path())
            .collect();
        inside.sort();
        for entry in inside {
            hash_tree(&entry, hash);
        }
    } else if !SILENT.contains(&name.as_str()) {
        hash.add(name.bytes());
        hash.add(
            fs::read(path)
                .expect("the sources are readable")
                .into_iter()
                .filter(|b| *b != b'\r'),
        );
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
