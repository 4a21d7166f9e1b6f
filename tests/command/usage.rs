//! Help, completions and wrong usage.

use super::{Test, names};

#[test]
fn alone_it_says_what_it_is_for_and_three_commands() {
    let ran = Test::new(&[]).stderr("").run();
    assert!(ran.stdout.starts_with("leadpipe makes play-along tracks"));
    let commands = ran.stdout.lines().filter(|l| l.starts_with("  leadpipe "));
    assert_eq!(commands.count(), 3);
}

#[test]
fn every_command_has_help_with_examples() {
    for name in [
        "check",
        "choose",
        "chart",
        "class",
        "desk",
        "list",
        "new",
        "pencil",
        "render",
        "sheet",
        "tone",
        "completions",
        #[cfg(feature = "exchange")]
        "adopt",
        #[cfg(feature = "exchange")]
        "export",
    ] {
        let ran = Test::new(&[name, "--help"]).stderr("").run();
        assert!(
            ran.stdout
                .contains(&format!("Examples:\n  leadpipe {name}")),
            "{name}"
        );
    }
    Test::new(&["--version"])
        .stdout(concat!("leadpipe ", env!("CARGO_PKG_VERSION"), "\n"))
        .stderr("")
        .run();
}

#[test]
fn wrong_usage_exits_with_two() {
    for arguments in [
        &["rneder"][..],
        &["check"],
        &["check", "second-steps", "--tempo", "0.85"],
        &["check", "second-steps", "--tempo", "61,2"],
        &["check", "second-steps", "--key", "F"],
        &["check", "second-steps", "--age", "12"],
        &["render", "--guide", "loud"],
        &["render", "--rate", "96000"],
        &["render", "--bits", "8"],
        &["render", "--signs", "maybe"],
        &["render", "--threads", "0"],
        &["render", "--no-such-option"],
        &["choose"],
        &["tone"],
        &["tone", "A4", "--dynamic", "loud"],
        &["tone", "A4", "--seconds", "0.5"],
        &["tone", "A4", "--seconds", "long"],
        &["tone", "A4", "--rate", "96000"],
        &["tone", "C7"],
        &["class"],
        &["class", "none.toml", "--shard", "6/5"],
        &["pencil", "second-steps"],
        &[
            "render",
            "first-steps",
            "second-steps",
            "--pencil",
            "none.toml",
        ],
        &["completions", "abacus"],
        &["export", "second-steps"],
        &["export", "second-steps", "--to", "pdf"],
        &["adopt"],
        &["adopt", "none.musicxml"],
        &["adopt", "none.musicxml", "--instrument", "kazoo"],
    ] {
        let ran = Test::new(arguments).stdout("").exit(2).run();
        assert!(ran.stderr.starts_with("error: "), "{}", ran.stderr);
        assert_eq!(names(ran.folder.path()), [""; 0]);
    }
}

#[test]
fn what_is_wrong_with_the_words_of_a_command_is_told_and_what_would_be_right() {
    const BOUNDS: &str = "tempos go from 20 to 300 clicks a minute; a percentage of the written tempo ends \
                          in % (85%); two tempos are separated by a comma";
    const TEMPO: &str = "write clicks a minute (72) or a percentage of the written tempo (85%)";
    const KEY: &str = "a key is a number of half steps up or down (-2), at most 24, or a name: \"B-flat major\", Bb";
    const THREADS: &str = "threads are a whole number from 1 to 1024";
    for (arguments, message, hint) in [
        (
            &["rendr"][..],
            "there is no command called rendr",
            "did you mean render?",
        ),
        (
            &["abacus"],
            "there is no command called abacus",
            "leadpipe --help shows the commands",
        ),
        (
            &["check"],
            "a routine is missing",
            "write leadpipe check <ROUTINE>",
        ),
        (
            &["choose"],
            "a note is missing",
            "write leadpipe choose <NOTE>",
        ),
        (&["new"], "a name is missing", "write leadpipe new <NAME>"),
        (
            &["check", "a", "b"],
            "“b” is one thing too many here",
            "leadpipe check --help shows what there is",
        ),
        (
            &["render", "--stem"],
            "there is no option --stem here",
            "did you mean --stems?",
        ),
        (
            &["render", "--xyzzy"],
            "there is no option --xyzzy here",
            "leadpipe render --help shows what there is",
        ),
        (
            &["render", "--tempo"],
            "--tempo says nothing",
            "write it right after the option",
        ),
        (&["render", "--tempo", ""], "--tempo says nothing", TEMPO),
        (
            &["render", "--tempo", "100%,"],
            "--tempo says nothing",
            TEMPO,
        ),
        (
            &["render", "--tempo", "70%%"],
            "--tempo cannot be “70%%”",
            TEMPO,
        ),
        (
            &["render", "--tempo", "fast"],
            "--tempo cannot be “fast”",
            TEMPO,
        ),
        (
            &["render", "--tempo", "NaN"],
            "--tempo cannot be “NaN”",
            TEMPO,
        ),
        (
            &["render", "--tempo", "1e9"],
            "--tempo cannot be “1e9”",
            TEMPO,
        ),
        (
            &["render", "--tempo", "0.85"],
            "--tempo cannot be “0.85”",
            BOUNDS,
        ),
        (
            &["check", "a", "--tempo", "-5"],
            "--tempo cannot be “-5”",
            BOUNDS,
        ),
        (
            &["render", "--tempo", "61,5"],
            "--tempo cannot be “5”",
            BOUNDS,
        ),
        (
            &["render", "--tempo", "61.2345"],
            "--tempo cannot be “61.2345”",
            "a tempo has at most three decimals; round it",
        ),
        (&["render", "--key", "99"], "--key cannot be “99”", KEY),
        (&["render", "--key", "0,,1"], "--key says nothing", KEY),
        (
            &["render", "--bits", "12"],
            "--bits cannot be “12”",
            "the width is 16 or 24",
        ),
        (
            &["render", "--rate", "96000"],
            "--rate cannot be “96000”",
            "the rate is 44100 or 48000",
        ),
        (
            &["render", "--guide", "loud"],
            "--guide cannot be “loud”",
            "the guide is together, echo or off",
        ),
        (
            &["render", "--signs", "yes"],
            "--signs cannot be “yes”",
            "signs are on or off",
        ),
        (
            &["render", "--threads", "0"],
            "--threads cannot be “0”",
            THREADS,
        ),
        (
            &["render", "--threads", "many"],
            "--threads cannot be “many”",
            THREADS,
        ),
        (
            &["render", ""],
            "the name of a routine is empty",
            "leadpipe list shows the built-in routines",
        ),
        (
            &["check", "a", "--age", "5"],
            "--age cannot be “5”",
            "an age is 8-10, 11-13, 14-16 or adult",
        ),
        (
            &["completions", "abacus"],
            "shell cannot be “abacus”",
            "it can be bash, elvish, fish, powershell, zsh",
        ),
    ] {
        let ran = Test::new(arguments)
            .stdout("")
            .stderr(&format!("error: {message}\n |\n = help: {hint}\n"))
            .exit(2)
            .run();
        assert_eq!(names(ran.folder.path()), [""; 0]);
    }
}

#[test]
fn completions_name_the_commands() {
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let ran = Test::new(&["completions", shell]).stderr("").run();
        assert!(ran.stdout.contains("completions") && ran.stdout.contains("tempo"));
    }
}
