//! What decides that tracks are rendered again: what turns a timeline into samples, and nothing else.

#[path = "../../build/revision.rs"]
mod revision;

use crate::root;
use crate::source::{self, Source};
use crate::uses::Library;
use quote::ToTokens;
use revision::{NOT_CORE, SOUND};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use syn::Item;

/// What a timeline is made of. A record holds a hash of every field of it.
const MODEL: &str = "src/timeline/model.rs";

/// The files that decide how a timeline sounds use each other and its model, so nothing that is not hashed can change
/// what they do.
#[test]
fn what_sounds_uses_only_what_is_hashed() {
    let sounding: BTreeSet<String> = SOUND.files(root()).into_iter().collect();
    assert!(sounding.contains("src/synth/horn.rs"));
    let sources = source::all();
    let library = Library::new(&sources);
    for source in sources.values().filter(|s| sounding.contains(&s.file)) {
        for used in library.used_by(source) {
            assert!(
                sounding.contains(used) || used == MODEL,
                "{} uses {used}, which is not part of the sound's revision",
                source.file
            );
        }
    }
}

/// They use no crate whose version is not hashed.
#[test]
fn what_sounds_uses_only_crates_that_are_hashed() {
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    let (_, after) = manifest.split_once("[dependencies]").unwrap();
    let (section, _) = after.split_once("\n[").unwrap();
    let named = section.lines().filter_map(|line| line.split_once(" = "));
    let all: Vec<&str> = named.map(|(name, _)| name.trim()).collect();
    assert!(all.contains(&"libm") && all.contains(&"toml"));
    for file in SOUND.files(root()) {
        let text = fs::read_to_string(root().join(&file)).unwrap();
        for name in &all {
            let used = text.contains(&format!("{}::", name.replace('-', "_")));
            assert!(!used || SOUND.crates.contains(name), "{file} uses {name}");
        }
    }
}

/// The model of a timeline does nothing: it is data, every field of which a fingerprint takes.
#[test]
fn a_fingerprint_takes_every_field_of_a_timeline() {
    let model = source::read(MODEL);
    let fingerprint = source::read("src/render/reuse/fingerprint.rs");
    let text = tokens(&fingerprint);
    assert!(!text.contains(".."), "a field may be left out");
    assert!(!text.contains("_ =>"), "a kind may be left out");
    for item in &model.items {
        match item {
            Item::Struct(item) => {
                let name = item.ident.to_string();
                // Taken apart by name, so that a field that is added does not compile until it is hashed.
                assert!(text.contains(&format!("{name} {{")), "{name}");
                for field in item.fields.iter().filter_map(|f| f.ident.as_ref()) {
                    assert!(text.contains(&field.to_string()), "{name}.{field}");
                }
            }
            Item::Enum(item) => {
                for variant in &item.variants {
                    let name = format!("{} :: {}", item.ident, variant.ident);
                    assert!(text.contains(&name), "{name}");
                }
            }
            Item::Use(_) => {}
            other => panic!("it is no data: {}", other.to_token_stream()),
        }
    }
}

fn tokens(source: &Source) -> String {
    let items = source.items.iter();
    items.map(|i| i.to_token_stream().to_string()).collect()
}

/// Whatever is changed outside of what sounds, tracks are not rendered again; whatever is changed inside, they are.
#[test]
fn a_better_sentence_renders_nothing_again() {
    let copy = tempfile::tempdir().unwrap();
    for part in ["Cargo.toml", "Cargo.lock", "build.rs", "build", "src"] {
        copy_all(&root().join(part), &copy.path().join(part));
    }
    let hashes = |root: &Path| revision::ALL.map(|revision| revision.hash(root));
    assert_eq!(hashes(copy.path()), hashes(root()));
    let change = |file: &str| {
        let path = copy.path().join(file);
        let text = fs::read_to_string(&path).unwrap();
        fs::write(path, text + "// another word\n").unwrap();
    };
    for (file, changed) in [
        ("src/routine/resolve.rs", &["CORE"][..]),
        ("src/pencil/words.rs", &["CORE"]),
        ("src/score/spoken.rs", &["CORE"]),
        ("src/brass/caution.rs", &["CORE"]),
        ("src/timeline/tones.rs", &["CORE"]),
        ("src/volume.rs", &["CORE"]),
        ("src/command/render.rs", &[]),
        ("src/render/batch.rs", &[]),
        ("src/render/formats/cover.rs", &["ENCODER"]),
        ("src/brass/family.rs", &["SOUND", "CORE"]),
        ("src/synth/levels.rs", &["SOUND", "CORE"]),
        ("src/synth/steps.rs", &["SOUND", "CORE"]),
    ] {
        let before = hashes(copy.path());
        change(file);
        let pairs = before.iter().zip(hashes(copy.path()));
        let other = pairs.map(|(before, after)| *before != after);
        let names = revision::ALL.iter().zip(other).filter(|(_, other)| *other);
        let names: Vec<&str> = names.map(|(revision, _)| revision.name).collect();
        assert_eq!(names, changed, "{file}");
    }
}

fn copy_all(from: &Path, to: &Path) {
    if !from.is_dir() {
        fs::copy(from, to).unwrap();
        return;
    }
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        copy_all(&entry.path(), &to.join(entry.file_name()));
    }
}

/// What `.ci/engine` takes for the core, by which it knows that the page's engine is out of date, is what the build does.
#[test]
fn the_pages_engine_is_made_from_the_whole_core() {
    let script = fs::read_to_string(root().join(".ci/engine")).unwrap();
    let words = script.split_whitespace().collect::<Vec<_>>();
    let left_out = words.windows(2).filter(|pair| pair[0] == "-path");
    let left_out: BTreeSet<&str> = left_out
        .map(|pair| pair[1].trim_matches('\'').trim_end_matches("/*"))
        .collect();
    assert_eq!(left_out, NOT_CORE.into_iter().collect());
    let whole = words
        .windows(5)
        .any(|w| w[..4] == ["find", "build", "build.rs", "src"]);
    assert!(whole, "{left_out:?}");
}
