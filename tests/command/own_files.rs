//! Files that are somebody's own stay: what leadpipe did not write, and what was changed after it wrote it.

#[cfg(feature = "exchange")]
use super::Test;
use super::{ROUTINE, command, names};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Output;
use tempfile::TempDir;

/// Commands that write into the folder `out`, each with options that change what it writes.
const WRITING: &[(&[&str], &[&str])] = &[
    (
        &["render", "a.toml", "--stems"],
        &["--volume", "guide=-3dB"],
    ),
    (&["chart", "a.toml"], &["--key", "-1"]),
    (&["tone", "Bb4", "F4"], &["--dynamic", "f"]),
    #[cfg(feature = "pdf")]
    (
        &["sheet", "a.toml", "--format", "pdf,svg"],
        &["--fingerings", "none"],
    ),
    #[cfg(feature = "exchange")]
    (&["export", "a.toml", "--to", "musicxml,midi"], &[]),
    (
        &["handout", "a.toml", "--format", "wav"],
        &["--pencil", "p.toml"],
    ),
    (&["class", "list.toml", "--format", "wav"], &[]),
];

fn run(folder: &Path, arguments: &[&[&str]]) -> Output {
    let mut command = command(folder);
    for arguments in arguments {
        command.args(*arguments);
    }
    command.args(["--out", "out"]).output().unwrap()
}

fn prepared() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    let list =
        "format = 1\ntitle = \"Tuesday\"\n[[player]]\nname = \"Ada\"\nroutine = \"a.toml\"\n";
    let pencil = "format = 1\nplayer = \"Ada\"\n[[mark]]\nwords = \"Softly.\"\n";
    for (name, text) in [("a.toml", ROUTINE), ("list.toml", list), ("p.toml", pencil)] {
        fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

/// Every file under a folder but leadpipe's own.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    for name in names(folder) {
        let path = folder.join(&name);
        if path.is_dir() && name != ".leadpipe" {
            let within = files(&path).into_iter();
            found.extend(within.map(|(inner, bytes)| (format!("{name}/{inner}"), bytes)));
        } else if path.is_file() {
            found.insert(name, fs::read(&path).unwrap());
        }
    }
    found
}

/// All files of most commands, and some of those that make a whole folder.
fn sample<'n>(names: impl ExactSizeIterator<Item = &'n String>) -> Vec<&'n String> {
    let step = names.len().div_ceil(4);
    names.step_by(step).collect()
}

#[test]
fn no_command_replaces_what_leadpipe_did_not_write() {
    for (arguments, _) in WRITING {
        let fresh = prepared();
        assert!(run(fresh.path(), &[arguments]).status.success());
        let written = files(&fresh.path().join("out"));
        assert!(!written.is_empty(), "{arguments:?}");
        for name in sample(written.keys()) {
            let folder = prepared();
            let path = folder.path().join("out").join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(&path, "mine").unwrap();
            let output = run(folder.path(), &[arguments]);
            let said = String::from_utf8(output.stderr).unwrap();
            assert_eq!(
                output.status.code(),
                Some(1),
                "{arguments:?} {name}: {said}"
            );
            let refusal = format!("{name} was not written by leadpipe, so it stays as it is");
            assert!(
                said.replace('\\', "/").contains(&refusal),
                "{arguments:?}: {said}"
            );
            assert!(said.contains("--force"), "{said}");
            assert_eq!(fs::read(&path).unwrap(), b"mine", "{arguments:?} {name}");
        }
        // All of them at once, and with --force none.
        let folder = prepared();
        let out = folder.path().join("out");
        for name in written.keys() {
            let path = out.join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, "mine").unwrap();
        }
        assert_eq!(run(folder.path(), &[arguments]).status.code(), Some(1));
        let left = files(&out);
        assert!(left.values().all(|bytes| bytes == b"mine"), "{arguments:?}");
        let output = run(folder.path(), &[arguments, &["--force"]]);
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        assert!(files(&out) == written, "{arguments:?}");
    }
}

#[test]
fn no_command_replaces_what_was_changed_after_leadpipe_wrote_it() {
    for (arguments, others) in WRITING {
        let folder = prepared();
        let out = folder.path().join("out");
        assert!(run(folder.path(), &[arguments]).status.success());
        let written = files(&out);
        // What nobody changed is replaced.
        change(folder.path());
        assert!(
            run(folder.path(), &[arguments, others]).status.success(),
            "{arguments:?}"
        );
        let replaced = files(&out);
        let names = written.keys();
        let differing: Vec<&String> = names
            .filter(|name| replaced.contains_key(*name) && replaced[*name] != written[*name])
            .collect();
        assert!(!differing.is_empty(), "{arguments:?}");
        for name in sample(differing.iter().copied()) {
            let path = out.join(name);
            let mut changed = replaced[name].clone();
            changed.extend(b"mine");
            fs::write(&path, &changed).unwrap();
            fs::write(folder.path().join("a.toml"), ROUTINE).unwrap();
            let output = run(folder.path(), &[arguments]);
            let said = String::from_utf8(output.stderr).unwrap();
            assert_eq!(
                output.status.code(),
                Some(1),
                "{arguments:?} {name}: {said}"
            );
            let refusal =
                format!("{name} was changed after leadpipe wrote it, so it stays as it is");
            assert!(
                said.replace('\\', "/").contains(&refusal),
                "{arguments:?}: {said}"
            );
            assert!(fs::read(&path).unwrap() == changed, "{arguments:?} {name}");
            let output = run(folder.path(), &[arguments, &["--force"]]);
            assert!(output.status.success(), "{arguments:?} {name}: {output:?}");
            assert!(
                fs::read(&path).unwrap() == written[name],
                "{arguments:?} {name}"
            );
            change(folder.path());
            assert!(run(folder.path(), &[arguments, others]).status.success());
        }
    }
}

/// Another routine of the same title.
fn change(folder: &Path) {
    let changed = ROUTINE.replace("tempo = 60", "purpose = \"Later.\"\ntempo = 60");
    let changed = changed.replace("C4:half E4:half", "C4:half D4:half");
    assert!(changed.contains("Later.") && !changed.contains("E4"));
    fs::write(folder.join("a.toml"), changed).unwrap();
}

/// An edit that a notation program saved over the exported file.
#[cfg(feature = "exchange")]
#[test]
fn a_score_that_was_edited_is_not_exported_over() {
    let export = ["export", "a.toml", "--to", "musicxml"];
    let ran = Test::new(&export).file("a.toml", ROUTINE).run();
    let name = ran.stdout.trim().to_owned();
    let edited = ran.read(&name).replace("<step>E", "<step>F");
    let ran = Test::within(ran.folder, &export)
        .file(&name, &edited)
        .exit(1)
        .run();
    ran.says(&format!(
        "error: {name} was changed after leadpipe wrote it, so it stays as it is\n"
    ));
    ran.says("help: rename it or move it away, name another folder with --out, or replace it with --force\n");
    assert_eq!(ran.stdout, "");
    assert_eq!(ran.read(&name), edited);
}
