//! What happens to files when a run is stopped, killed or may not write; and what the streams are told.

use super::{ROUTINE, Ran, Test, command, names};
use std::collections::BTreeMap;
use std::fs;
use std::io::Read;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// A routine whose tracks take a while.
fn long() -> String {
    ROUTINE.replace("tempo = 60", "tempo = 20").replace(
        "name = \"Home\"",
        "name = \"Home\"\ntimes = 100\nbetween = \"60 s\"",
    )
}

fn shell(folder: &Path, script: &str) -> std::process::Output {
    Command::new("sh")
        .args(["-c", script])
        .current_dir(folder)
        .env("LEADPIPE", env!("CARGO_BIN_EXE_leadpipe"))
        .output()
        .unwrap()
}

/// Starts a render of four long tracks and waits until one has begun to grow.
fn start(folder: &Path) -> Child {
    fs::write(folder.join("long.toml"), long()).unwrap();
    let render = ["render", "long.toml", "--out", "to", "--force"];
    grow(
        folder,
        &[&render[..], &["--key", "0,-1,-2,-3", "--threads", "2"]].concat(),
    )
}

/// Starts a run that puts files into `to` and waits until one has begun to grow.
fn grow(folder: &Path, arguments: &[&str]) -> Child {
    let child = Command::new(env!("CARGO_BIN_EXE_leadpipe"))
        .args(arguments)
        .current_dir(folder)
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let begun = Instant::now();
    while !parts(folder).iter().any(|bytes| *bytes > 1 << 20) {
        assert!(begun.elapsed() < Duration::from_secs(20), "nothing grows");
        std::thread::sleep(Duration::from_millis(2));
    }
    child
}

/// Lengths of unfinished files.
fn parts(folder: &Path) -> Vec<u64> {
    let to = folder.join("to");
    names(&to)
        .iter()
        .filter(|name| name.ends_with(".part"))
        .filter_map(|name| fs::metadata(to.join(name)).ok())
        .map(|metadata| metadata.len())
        .collect()
}

/// Bytes of every track there.
fn tracks(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let to = folder.join("to");
    let tracks = names(&to).into_iter().filter(|name| name.ends_with(".wav"));
    tracks
        .map(|name| (name.clone(), fs::read(to.join(name)).unwrap()))
        .collect()
}

/// Renders four short tracks.
const EARLIER: [&str; 6] = [
    "render",
    "earlier.toml",
    "--out",
    "to",
    "--key",
    "0,-1,-2,-3",
];

/// A folder with four short tracks of the same names as the long ones.
fn with_earlier_tracks() -> Ran {
    let earlier = ROUTINE.replace("tempo = 60", "tempo = 20");
    let ran = Test::new(&EARLIER).file("earlier.toml", earlier).run();
    assert_eq!(tracks(ran.folder.path()).len(), 4);
    ran
}

/// What was there is there as it was, though new tracks of the same names were on the way; and the same
/// command as at first finds nothing to do.
fn assert_unharmed(folder: TempDir, before: &BTreeMap<String, Vec<u8>>) -> Ran {
    assert!(&tracks(folder.path()) == before);
    let ran = Test::within(folder, &EARLIER).run();
    assert!(
        ran.stderr.ends_with("4 tracks unchanged.\n"),
        "{}",
        ran.stderr
    );
    assert!(&tracks(ran.folder.path()) == before);
    ran
}

#[test]
fn ctrl_c_ends_it_and_leaves_nothing_unfinished() {
    let folder = with_earlier_tracks().folder;
    let before = tracks(folder.path());
    let mut child = start(folder.path());
    let id = child.id().to_string();
    assert!(
        Command::new("kill")
            .args(["-INT", &id])
            .status()
            .unwrap()
            .success()
    );
    let status = child.wait().unwrap();
    assert_eq!(status.code(), Some(130));
    let mut said = String::new();
    child.stderr.unwrap().read_to_string(&mut said).unwrap();
    assert!(
        said.ends_with("Stopped; unfinished tracks were taken away.\n"),
        "{said}"
    );
    assert_eq!(parts(folder.path()), [0; 0]);
    assert_unharmed(folder, &before);
}

#[test]
fn ctrl_c_leaves_no_unfinished_note() {
    let folder = tempfile::tempdir().unwrap();
    let pitches = ["E3", "F3", "G3", "A3", "B3", "C4", "D4", "E4", "F4", "G4"];
    let options = ["--seconds", "600", "--out", "to"];
    let arguments = [&["tone"][..], &pitches, &options].concat();
    let mut child = grow(folder.path(), &arguments);
    let id = child.id().to_string();
    let killed = Command::new("kill").args(["-INT", &id]).status().unwrap();
    assert!(killed.success());
    assert_eq!(child.wait().unwrap().code(), Some(130));
    assert_eq!(parts(folder.path()), [0; 0]);
    assert!(names(&folder.path().join("to")).len() < pitches.len());
    for (name, bytes) in tracks(folder.path()) {
        let riff = u32::from_le_bytes(bytes[4..8].try_into().unwrap());
        assert_eq!(riff as usize + 8, bytes.len(), "{name} is whole");
    }
}

#[test]
fn a_killed_render_leaves_no_broken_track_and_the_next_clears_up() {
    let folder = with_earlier_tracks().folder;
    let before = tracks(folder.path());
    let mut child = start(folder.path());
    child.kill().unwrap();
    child.wait().unwrap();
    assert!(!parts(folder.path()).is_empty(), "it was killed midway");
    let ran = assert_unharmed(folder, &before);
    assert!(ran.stderr.contains("Cleared away "), "{}", ran.stderr);
    assert_eq!(parts(ran.folder.path()), [0; 0]);
}

#[test]
fn another_runs_live_files_are_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let mut child = start(folder.path());
    let ran = Test::within(folder, &["render", "a.toml", "--out", "to"])
        .file("a.toml", ROUTINE)
        .run();
    assert!(!ran.stderr.contains("Cleared"), "{}", ran.stderr);
    assert!(child.try_wait().unwrap().is_some() || !parts(ran.folder.path()).is_empty());
    child.kill().unwrap();
    child.wait().unwrap();
}

/// As on a full disk: a write fails midway. The system would end the program, if it did not say that it knows of this.
#[test]
fn a_file_that_cannot_grow_harms_nothing() {
    let ran = Test::new(&["render", "a.toml", "--out", "to"])
        .file("a.toml", ROUTINE)
        .run();
    let track = ran.path("to/short 060 key-0 together.wav");
    let before = fs::read(&track).unwrap();
    let script = "ulimit -f 1000; \"$LEADPIPE\" render a.toml --force --out to";
    let output = shell(ran.folder.path(), script);
    assert_eq!(output.status.code(), Some(1));
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(
        said.ends_with(
            "error: to/short 060 key-0 together.wav could not be written: it is larger than a \
             file may be here\n"
        ),
        "{said}"
    );
    assert!(fs::read(&track).unwrap() == before);
    assert_eq!(parts(ran.folder.path()), [0; 0]);
    // The record still holds: nothing is rendered again.
    let again = Test::within(ran.folder, &["render", "a.toml", "--out", "to"]).run();
    assert!(
        again.stderr.ends_with("1 track unchanged.\n"),
        "{}",
        again.stderr
    );
}

#[test]
fn a_folder_that_may_not_be_written_to_is_named() {
    use std::os::unix::fs::PermissionsExt;
    let test = Test::new(&["render", "a.toml", "--out", "to"])
        .file("a.toml", ROUTINE)
        .file("to/mine", "mine");
    let to = test.folder.path().join("to");
    fs::set_permissions(&to, fs::Permissions::from_mode(0o555)).unwrap();
    // Who may do everything may write here, too.
    if fs::write(to.join("probe"), "").is_ok() {
        return;
    }
    let ran = test.stdout("").exit(1).run();
    assert!(
        ran.stderr.contains(
            "could not be written: this folder may not be written to\n |\n = help: name a \
             folder of your own with --out\n"
        ),
        "{}",
        ran.stderr
    );
    assert_eq!(names(&to), ["mine"]);
    fs::set_permissions(&to, fs::Permissions::from_mode(0o755)).unwrap();
}

#[test]
fn a_reader_that_has_seen_enough_is_no_error() {
    let folder = tempfile::tempdir().unwrap();
    for command in ["completions zsh", "render --help", "--version"] {
        let script = format!("{{ sleep 0.2; \"$LEADPIPE\" {command}; echo exit $? >&2; }} | :");
        let said = String::from_utf8(shell(folder.path(), &script).stderr).unwrap();
        assert_eq!(said, "exit 0\n", "{command}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn output_that_cannot_be_written_is_an_error() {
    let folder = tempfile::tempdir().unwrap();
    for command in [
        "choose G4",
        "list",
        "",
        "help",
        "help render",
        "--help",
        "-h",
        "--version",
        "render --help",
        "completions zsh",
    ] {
        let output = shell(
            folder.path(),
            &format!("\"$LEADPIPE\" {command} >/dev/full"),
        );
        let said = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(1), "{command}: {said}");
        assert!(
            said.starts_with("error: the output could not be written: "),
            "{command}: {said}"
        );
    }
}

#[test]
fn colour_is_shown_only_where_it_is_wanted() {
    let text = ROUTINE.replace("( C4:half", "( C4:hlaf");
    let coloured = |variable: &[(&str, &str)]| {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("a.toml"), &text).unwrap();
        let mut command = command(folder.path());
        let variables = variable.iter().copied();
        let output = command.args(["check", "a.toml"]).envs(variables).output();
        output.unwrap().stderr.contains(&0x1b)
    };
    assert!(!coloured(&[]));
    assert!(coloured(&[("CLICOLOR_FORCE", "1")]));
    assert!(!coloured(&[("NO_COLOR", "1")]));
}
