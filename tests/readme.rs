//! README.md does not drift: its commands run, in its order and in one folder, its routines are read,
//! and its bounds are the program's.

use leadpipe::music::{meter, tempo};
use leadpipe::routine::{self, bounds};
use leadpipe::{check, score};
use std::env;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

fn readme() -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    fs::read_to_string(path).expect("README.md is there")
}

/// A fenced block of the page.
struct Block {
    language: String,
    text: String,
    /// Marked as one that the test cannot run.
    not_run: bool,
}

fn blocks() -> Vec<Block> {
    let mut blocks: Vec<Block> = vec![];
    let mut inside = false;
    let mut before = String::new();
    for line in readme().lines() {
        if let Some(language) = line.strip_prefix("```") {
            inside = !inside;
            if inside {
                blocks.push(Block {
                    language: language.to_owned(),
                    text: String::new(),
                    not_run: before.starts_with("<!-- not run: "),
                });
            }
        } else if inside {
            let block = blocks.last_mut().expect("a block is open");
            block.text.push_str(line);
            block.text.push('\n');
        }
        line.clone_into(&mut before);
    }
    assert!(!inside, "a block is not closed");
    blocks
}

fn of(language: &str) -> Vec<Block> {
    let all = blocks().into_iter();
    let found: Vec<Block> = all.filter(|block| block.language == language).collect();
    assert!(!found.is_empty(), "no block of {language}");
    found
}

/// Names of tracks in a folder, and all of them removed: they are large.
fn take_tracks(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else {
        return vec![];
    };
    let mut names = vec![];
    for path in entries.map(|entry| entry.expect("it is listed").path()) {
        if path.extension().is_some_and(|e| e == "wav") {
            names.extend(path.file_name().and_then(|n| n.to_str()).map(str::to_owned));
            fs::remove_file(path).expect("it can be removed");
        }
    }
    names
}

#[cfg(unix)]
#[test]
fn its_commands_run_in_their_order() {
    let folder = tempfile::tempdir().expect("there is a folder");
    let program = PathBuf::from(env!("CARGO_BIN_EXE_leadpipe"));
    let mut paths = vec![program.parent().expect("it is in a folder").to_owned()];
    paths.extend(env::split_paths(&env::var_os("PATH").unwrap_or_default()));
    let mut tracks = vec![];
    for block in of("sh").iter().filter(|block| !block.not_run) {
        // The same program, already built.
        let script = block.text.replace("cargo run --release --", "leadpipe");
        let output = Command::new("sh")
            .args(["-e", "-c", &script])
            .current_dir(folder.path())
            .env(
                "PATH",
                env::join_paths(&paths).expect("paths can be joined"),
            )
            .output()
            .expect("there is a shell");
        let stderr = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{script}\n{stderr}");
        assert!(!stderr.contains("warning"), "{script}\n{stderr}");
        tracks.extend(take_tracks(&folder.path().join("output")));
    }
    // The tracks that the page names are among those that were made.
    let named = of("text").into_iter().flat_map(|block| {
        let lines: Vec<String> = block.text.lines().map(|l| l.trim().to_owned()).collect();
        lines
    });
    let named: Vec<String> = named.filter(|line| line.ends_with(".wav")).collect();
    assert!(!named.is_empty());
    for name in named {
        assert!(tracks.contains(&name), "{name} is not in {tracks:?}");
    }
}

#[test]
fn its_routines_are_read_and_can_be_played() {
    for block in of("toml") {
        // Some show a single line: what stands at the head of the first one goes before it.
        let head = "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\n\
                    comfortable_top = \"G4\"\ntempo = 72\n";
        let text = if block.text.starts_with("format = 1") {
            block.text
        } else {
            format!("{head}{}", block.text)
        };
        let routine = routine::read(&text).unwrap_or_else(|f| panic!("{text}\n{f:#?}"));
        let score = score::unroll(&routine, &score::Take::default()).expect("it unrolls");
        let report = check::check(&score, &check::Options::default());
        assert!(!report.has_errors(), "{text}\n{:#?}", report.findings);
    }
}

/// The last two cells of the row of a table whose first cell begins so.
fn row(of: &str) -> (String, String) {
    let page = readme();
    let (_, section) = page.split_once("### How much fits").expect("it is there");
    let row = section
        .lines()
        .find(|line| line.starts_with(&format!("| {of}")))
        .unwrap_or_else(|| panic!("no row for {of}"));
    let cells: Vec<&str> = row.trim_matches('|').split('|').map(str::trim).collect();
    (cells[1].to_owned(), cells[2].to_owned())
}

#[test]
fn its_bounds_are_the_programs() {
    let most = |of: &str, most: i64| {
        let (_, cell) = row(of);
        let number = cell.split_whitespace().next().unwrap_or_default();
        assert_eq!(number, most.to_string(), "{of}");
    };
    most("a file", bounds::LARGEST_FILE as i64 >> 20);
    most("lines |", bounds::MOST_LINES as i64);
    most("tempo,", tempo::FASTEST);
    assert_eq!(row("tempo,").0, tempo::SLOWEST.to_string());
    most("half steps or tubes", bounds::MOST_STEPS as i64);
    most("a half step", bounds::FURTHEST_MOVE);
    most("`times`", bounds::MOST_TIMES);
    most("`count_in`", bounds::MOST_COUNT_IN);
    most("a rest", bounds::LONGEST_REST);
    most("beats in a bar", i64::from(meter::MOST_BEATS));
    most("a title", bounds::LONGEST_TEXT as i64);
    most("a take", score::unroll::LONGEST_TAKE / 3600);
}

#[test]
fn its_pictures_and_pages_are_there() {
    let page = readme();
    let links: Vec<&str> = page
        .split("](")
        .skip(1)
        .filter_map(|after| after.split_once(')'))
        .map(|(link, _)| link)
        .filter(|link| !link.starts_with("https://"))
        .collect();
    assert!(links.len() > 3, "{links:?}");
    for link in links {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(link);
        assert!(path.is_file(), "{link}");
    }
}
