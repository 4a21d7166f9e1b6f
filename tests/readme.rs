//! README.md does not drift: its commands run, in its order and in one folder, its routines are read,
//! and its bounds are the program's.

use leadpipe::music::{meter, tempo};
use leadpipe::pencil::{self, spoken};
use leadpipe::routine::{self, bounds};
use leadpipe::{check, class, score};
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
    /// The file it is to be saved as, where a command of the page reads it.
    file: Option<String>,
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
                    file: before
                        .strip_prefix("<!-- file: ")
                        .and_then(|rest| rest.strip_suffix(" -->"))
                        .map(str::to_owned),
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
    for block in blocks() {
        if let Some(file) = block.file {
            fs::write(folder.path().join(file), block.text).expect("it can be written");
        }
    }
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
    for block in of("toml").into_iter().filter(|block| block.file.is_none()) {
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

#[test]
fn its_pencils_and_class_lists_are_read() {
    let second_steps = include_str!("../presets/second-steps.toml");
    let routine = routine::read(second_steps).expect("it is a routine");
    let files = of("toml").into_iter().filter(|block| block.file.is_some());
    let (lists, pencils): (Vec<Block>, Vec<Block>) =
        files.partition(|block| block.text.contains("[[player]]"));
    assert!(!lists.is_empty() && !pencils.is_empty());
    for block in pencils {
        let read = pencil::read(&block.text);
        assert!(read.faults.is_empty(), "{:#?}", read.faults);
        let laid = pencil::lay(&read.pencil.expect("it is read"), &routine);
        assert!(laid.faults.is_empty(), "{:#?}", laid.faults);
    }
    for block in lists {
        let read = class::read(&block.text);
        assert!(read.faults.is_empty(), "{:#?}", read.faults);
    }
}

/// Every row of the table of marks: what is typed becomes what stands in the file.
#[test]
fn its_marks_are_understood() {
    let page = readme();
    let (_, section) = page
        .split_once("| you type | in the file |")
        .expect("it is there");
    let rows = section
        .lines()
        .skip(2)
        .take_while(|line| line.starts_with('|'));
    let mut tried = 0;
    for row in rows {
        let cells: Vec<&str> = row.trim_matches('|').split('|').collect();
        let code = |cell: &str| -> Vec<String> {
            let parts = cell.split('`').skip(1).step_by(2);
            parts.map(str::to_owned).collect()
        };
        let said = code(cells[0]);
        let written = code(cells[1]);
        assert!(!said.is_empty() && !written.is_empty(), "{row}");
        let rows: Vec<String> = said
            .iter()
            .map(|said| spoken::parse(said).unwrap_or_else(|why| panic!("{said}: {why}")))
            .map(|row| format!("{} = {}", row.kind, row.value))
            .collect();
        for written in &written {
            assert!(rows.contains(written), "{written} in {rows:?}");
            let text = format!("format = 1\n[[mark]]\nline = 1\n{written}\n");
            assert!(pencil::read(&text).faults.is_empty(), "{written}");
            tried += 1;
        }
    }
    assert!(tried > 15, "{tried}");
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
    most("tempos of a line", bounds::MOST_TEMPOS as i64);
    most("a half step", bounds::FURTHEST_MOVE);
    most("`times`", bounds::MOST_TIMES);
    most("`count_in`", bounds::MOST_COUNT_IN);
    most("a rest", bounds::LONGEST_REST);
    most("beats in a bar", i64::from(meter::MOST_BEATS));
    most("a title", bounds::LONGEST_TEXT as i64);
    most("a take", score::unroll::LONGEST_TAKE / 3600);
    most("marks of", pencil::bounds::MOST_MARKS as i64);
    most("a part of", pencil::bounds::MOST_PART);
    assert_eq!(row("a part of").0, pencil::bounds::LEAST_PART.to_string());
    most("players of", class::bounds::MOST_PLAYERS as i64);
    most("tempos, keys", class::bounds::MOST_OF_EACH as i64);
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
    // A heading's anchor: small letters, blanks as hyphens, other signs left out.
    let anchor = |heading: &str| -> String {
        let letters = heading.trim_start_matches('#').trim().chars();
        let kept = letters.filter(|c| c.is_alphanumeric() || matches!(c, ' ' | '-'));
        kept.flat_map(char::to_lowercase)
            .map(|c| if c == ' ' { '-' } else { c })
            .collect()
    };
    for link in links {
        if let Some(wanted) = link.strip_prefix('#') {
            let headings = page.lines().filter(|line| line.starts_with('#'));
            assert!(headings.map(anchor).any(|a| a == wanted), "{link}");
            continue;
        }
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(link);
        assert!(path.is_file(), "{link}");
    }
}
