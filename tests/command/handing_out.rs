//! `handout`: the folder, its page and its list, and what is refused.

use super::{ROUTINE, Test, names};
use std::fs;

/// What this build writes where nothing is said.
pub(super) const KIND: &str = if cfg!(feature = "mp3") {
    "mp3"
} else if cfg!(feature = "flac") {
    "flac"
} else {
    "wav"
};

fn handed_out(routine: &str, more: &[&str]) -> super::Ran {
    let mut arguments = vec!["handout", "a.toml", "--out", "anna"];
    arguments.extend(more);
    Test::new(&arguments).file("a.toml", routine).run()
}

#[test]
fn a_folder_holds_tracks_a_list_and_a_page() {
    let ran = handed_out(ROUTINE, &["--tempo", "100%,80%"]);
    let tracks = ["short 048 key-0 together", "short 060 key-0 together"];
    let [slow, fast] = tracks.map(|name| format!("{name}.{KIND}"));
    assert_eq!(
        names(&ran.path("anna")),
        [".leadpipe", "index.html", "practice.m3u8", &slow, &fast]
    );
    assert_eq!(
        ran.read("anna/practice.m3u8"),
        format!(
            "#EXTM3U\n#EXTINF:21,Short, 48 clicks a minute\n{slow}\n\
             #EXTINF:17,Short, 60 clicks a minute\n{fast}\n"
        )
    );
    let page = ran.path("anna/index.html").display().to_string();
    let page = page.rsplit("anna").next().unwrap();
    assert!(
        ran.stderr
            .contains(&format!("The page is anna{page}: open it in a browser.\n"))
    );

    let time = |name: &str| fs::metadata(ran.path(name)).unwrap().modified().unwrap();
    let times = || ["anna/index.html", "anna/practice.m3u8"].map(time);
    let before = times();
    let arguments = ["handout", "a.toml", "--out", "anna", "--tempo", "80%,100%"];
    let output = super::command(ran.folder.path())
        .args(arguments)
        .output()
        .unwrap();
    assert!(output.status.success());
    assert!(
        String::from_utf8(output.stderr)
            .unwrap()
            .starts_with("2 tracks unchanged.\n")
    );
    assert_eq!(times(), before);
}

#[test]
fn a_page_says_all_there_is_to_say_of_every_line() {
    let routine = ROUTINE
        .replace(
            "name = \"Home\"",
            "name = \"Home\"\npurpose = \"a soft end\"\nsay = \"Let it ring.\"",
        )
        .replace(
            "meter = \"4/4\"",
            "meter = \"4/4\"\npurpose = \"two lines\"",
        );
    let ran = handed_out(&routine, &["--tempo", "100%,80%"]);
    let page = ran.read("anna/index.html");
    let track = format!("short%20048%20key-0%20together.{KIND}");
    for said in [
        "<h1>Short</h1>",
        "<p>two lines</p>",
        "<h2 id=\"take1\">48 clicks a minute</h2>",
        "<h2 id=\"take2\">60 clicks a minute</h2>",
        &format!("<audio controls preload=\"metadata\" src=\"{track}\" aria-labelledby=\"take1\">"),
        "<h3>1. Away</h3>",
        "<h3>2. Home</h3>\n<p>For: a soft end</p>\n<p>Let it ring.</p>",
        // Half a second, then two bars of four seconds with the count-in; a bar of rest is lengthened to the
        // count-in and half a second.
        &format!("<a class=\"jump\" href=\"{track}#t=0.500\" data-start=\"0.500\">"),
        "<p class=\"soft\">Lasts 0:08. Then rest for 0:05.</p>",
        "<p class=\"soft\">Lasts 0:08. Then you have done it.</p>",
        "Stop at once for pain, numbness, dizziness, or a cut or swollen lip",
        "with new braces or after dental work",
        "href=\"practice.m3u8\"",
    ] {
        assert!(page.contains(said), "{said}\n{page}");
    }
}

/// The places a browser jumps to are those of the chunks in a WAV file.
#[test]
fn lines_begin_where_the_cue_points_are() {
    let ran = handed_out(ROUTINE, &["--format", "wav", "--tempo", "77.7"]);
    let page = ran.read("anna/index.html");
    let starts: Vec<f64> = page
        .split("data-start=\"")
        .skip(1)
        .map(|rest| rest.split('"').next().unwrap().parse().unwrap())
        .collect();
    let file = fs::read(ran.path("anna/short 077.7 key-0 together.wav")).unwrap();
    let at = file.windows(4).rposition(|w| w == b"cue ").unwrap();
    let number = |at: usize| u32::from_le_bytes(file[at..at + 4].try_into().unwrap());
    assert_eq!(number(at + 8) as usize, starts.len());
    for (i, start) in starts.iter().enumerate() {
        let frame = number(at + 12 + 24 * i + 20);
        assert!(
            (f64::from(frame) / 44_100.0 - start).abs() < 0.001,
            "{frame} and {start}"
        );
    }
}

#[test]
fn texts_of_a_routine_never_become_part_of_the_page() {
    let hostile = "<b onclick=x>\\\"'&</title><script>alert(1)</script>\\u202e";
    let routine = ROUTINE
        .replace(
            "title = \"Short\"",
            &format!("title = \"{hostile}\"\npurpose = \"{hostile}\""),
        )
        .replace(
            "name = \"Away\"",
            &format!("name = \"{hostile}\"\npurpose = \"{hostile}\"\nsay = \"{hostile}\""),
        );
    let plain = handed_out(
        &ROUTINE
            .replace(
                "name = \"Away\"",
                "name = \"Away\"\npurpose = \"p\"\nsay = \"s\"",
            )
            .replace("meter", "purpose = \"p\"\nmeter"),
        &[],
    );
    let ran = handed_out(&routine, &[]);
    let (plain, page) = (plain.read("anna/index.html"), ran.read("anna/index.html"));
    assert!(
        page.contains("&lt;b onclick=x&gt;&quot;&#39;&amp;&lt;/title&gt;"),
        "{page}"
    );
    assert!(!page.contains("<b ") && !page.contains('\u{202e}'));
    // As many tags as the same page with harmless texts.
    for mark in ['<', '>', '"'] {
        let count = |page: &str| page.matches(mark).count();
        assert_eq!(count(&page), count(&plain), "{mark}");
    }
}

#[test]
fn a_page_of_somebody_elses_stays_as_it_is() {
    let ran = Test::new(&["handout", "a.toml", "--out", "site"])
        .file("a.toml", ROUTINE)
        .file("site/index.html", "<h1>mine</h1>")
        .exit(1)
        .run();
    assert!(
        ran.stderr
            .contains("was not made by leadpipe, so it stays as it is"),
        "{}",
        ran.stderr
    );
    assert_eq!(ran.read("site/index.html"), "<h1>mine</h1>");
}

#[test]
fn a_routine_with_errors_makes_no_page() {
    let ran = Test::new(&["handout", "a.toml", "--out", "anna"])
        .file("a.toml", ROUTINE.replace("C4:half", "C4:hlaf"))
        .stdout("")
        .exit(1)
        .run();
    assert!(
        ran.stderr
            .ends_with("error: the routine was not rendered, and no page was made\n")
    );
    assert_eq!(names(&ran.path("anna")), [""; 0]);
    Test::new(&["handout", "a.toml"])
        .file("a.toml", ROUTINE)
        .exit(2)
        .run();
}

#[test]
fn tracks_of_earlier_handouts_are_told_of() {
    let ran = handed_out(ROUTINE, &["--tempo", "100%,80%"]);
    let again = Test::within(ran.folder, &["handout", "a.toml", "--out", "anna"]).run();
    assert!(
        again
            .stderr
            .contains("1 other track of earlier runs in this folder: not on the page.\n"),
        "{}",
        again.stderr
    );
    assert_eq!(again.read("anna/practice.m3u8").lines().count(), 3);
}

#[test]
fn a_format_is_refused_in_words() {
    let ran = Test::new(&["render", "a.toml", "--format", "wav,ogg"])
        .file("a.toml", ROUTINE)
        .exit(2)
        .run();
    assert!(
        ran.stderr.contains("a format is wav, flac or mp3"),
        "{}",
        ran.stderr
    );
    let ran =
        Test::new(&["render", "a.toml", "--format", "mp3", "--out", "to"]).file("a.toml", ROUTINE);
    if cfg!(feature = "mp3") {
        ran.run();
    } else {
        let said = ran.exit(2).run().stderr;
        assert!(said.contains("built without mp3 files"), "{said}");
    }
}

/// The track and the page are the pupil's version: one line is left out, and names say whose it is.
#[test]
fn a_pencil_is_laid_over_what_is_handed_out() {
    let pencil = "format = 1\nplayer = \"Anna\"\n\n[[mark]]\nline = \"Away\"\nleave_out = true\n";
    let ran = Test::new(&[
        "handout",
        "a.toml",
        "--pencil",
        "anna.pencil.toml",
        "--out",
        "anna",
    ])
    .file("a.toml", ROUTINE)
    .file("anna.pencil.toml", pencil)
    .run();
    assert_eq!(
        names(&ran.path("anna")),
        [
            ".leadpipe".to_owned(),
            "index.html".to_owned(),
            "practice.m3u8".to_owned(),
            format!("short anna 060 key-0 together.{KIND}"),
        ]
    );
    let page = ran.read("anna/index.html");
    assert!(page.contains("Home") && !page.contains("Away"));
    // Tags and list name the player too.
    let list = ran.read("anna/practice.m3u8");
    assert!(list.to_lowercase().contains("anna, 60 clicks"), "{list}");
}
