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
        "list",
        "new",
        "render",
        "tone",
        "completions",
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
        &["completions", "abacus"],
    ] {
        let ran = Test::new(arguments).stdout("").exit(2).run();
        assert!(ran.stderr.starts_with("error: "), "{}", ran.stderr);
        assert_eq!(names(ran.folder.path()), [""; 0]);
    }
}

#[test]
fn a_value_that_cannot_be_is_explained() {
    let ran = Test::new(&["render", "--tempo", "0.85"]).exit(2).run();
    assert!(
        ran.stderr.starts_with(
            "error: invalid value '0.85' for '--tempo <LIST>': tempos go from 20 to 300 clicks a \
             minute; a part of what is written ends in %: 85%\n"
        ),
        "{}",
        ran.stderr
    );
}

#[test]
fn completions_name_the_commands() {
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let ran = Test::new(&["completions", shell]).stderr("").run();
        assert!(ran.stdout.contains("completions") && ran.stdout.contains("tempo"));
    }
}
