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

/// What a handout holds beside its tracks, in the order of names.
pub fn beside(tracks: &[&str]) -> Vec<String> {
    let mut names = vec![
        ".leadpipe",
        "index.html",
        "leadpipe-192.png",
        "leadpipe-512.png",
        "leadpipe-worker.js",
        "leadpipe.webmanifest",
        "practice.m3u8",
    ];
    if cfg!(feature = "pdf") {
        names.push("sheet.pdf");
    }
    names.extend(tracks);
    names.into_iter().map(str::to_owned).collect()
}

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
    assert_eq!(names(&ran.path("anna")), beside(&[&slow, &fast]));
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
    let files = beside(&[&slow, &fast]);
    let files = files.iter().filter(|name| !name.starts_with('.'));
    let files: Vec<String> = files.map(|name| format!("anna/{name}")).collect();
    let times = || files.iter().map(|name| time(name)).collect::<Vec<_>>();
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
        &format!("<audio controls preload=\"none\" src=\"{track}\" aria-labelledby=\"take1\">"),
        "<h3>1. Away</h3>",
        "<h3>2. Home</h3>\n<p class=\"purpose\">For: a soft end</p>\n<p>Let it ring.</p>",
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
    ran.says("was not written by leadpipe, so it stays as it is");
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
    let track = format!("short anna 060 key-0 together.{KIND}");
    assert_eq!(names(&ran.path("anna")), beside(&[&track]));
    // The line that is left out stands there as on paper: crossed out, and nothing to play.
    let page = ran.read("anna/index.html");
    let line = |number: usize| {
        let lines = page.split("<li data-line=").skip(number);
        lines.map(str::to_owned).next().expect("it is there")
    };
    assert!(
        line(1).contains("1. Away") && line(1).contains("<p class=\"pencilled\">leave it out</p>")
    );
    assert!(line(1).contains("Not played here.") && !line(1).contains("class=\"jump\""));
    assert!(line(2).contains("2. Home") && line(2).contains("class=\"jump\""));
    assert!(page.contains("<h1>Anna: Short</h1>"));
    // Tags and list name the player too.
    let list = ran.read("anna/practice.m3u8");
    assert!(list.to_lowercase().contains("anna, 60 clicks"), "{list}");
}

/// The values of an attribute, in order.
fn values<'p>(page: &'p str, attribute: &str) -> Vec<&'p str> {
    let begin = format!(" {attribute}=\"");
    let parts = page.split(&begin).skip(1);
    parts.map(|rest| rest.split('"').next().unwrap()).collect()
}

/// Every line is engraved in two widths, each system says in words what stands on it, and no two things on the
/// page have one name.
#[test]
fn every_line_is_engraved_on_the_page() {
    let ran = handed_out(ROUTINE, &["--tempo", "100%,80%"]);
    let page = ran.read("anna/index.html");
    let (page, _) = page
        .split_once("<script type=\"application/wasm\"")
        .unwrap();
    assert_eq!(page.matches("<svg class=\"strip narrow\"").count(), 2);
    assert_eq!(page.matches("<svg class=\"strip wide\"").count(), 2);
    let said = values(page, "aria-label");
    let first = "Line 1, Away: 4 4 time";
    assert!(
        said.iter().filter(|words| words.starts_with(first)).count() >= 2,
        "{said:?}"
    );
    let mut ids = values(page, "id");
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), all, "{ids:?}");
    for glyph in values(page, "href")
        .iter()
        .filter_map(|href| href.strip_prefix('#'))
    {
        assert!(ids.contains(&glyph), "{glyph}");
    }
    // In the page's own ink, light or dark.
    let music = page
        .split("<svg class=\"strip")
        .nth(1)
        .unwrap()
        .split("</svg>")
        .next()
        .unwrap();
    assert!(music.contains("currentColor") && !music.contains("#000"));
}

#[test]
fn takes_in_two_keys_have_their_own_music() {
    let ran = handed_out(ROUTINE, &["--key", "0,-2"]);
    let page = ran.read("anna/index.html");
    assert_eq!(page.matches("data-key=\"0\"").count(), 2);
    assert_eq!(page.matches("data-key=\"-2\"").count(), 2);
    assert!(page.contains("<p class=\"soft key\">2 half steps down</p>"));
    if cfg!(feature = "pdf") {
        assert!(page.contains("<a href=\"sheet.pdf\">The sheet</a>"));
        assert!(
            page.contains("<a href=\"sheet%20key-down-2.pdf\">The sheet 2 half steps down</a>")
        );
        assert!(
            ran.stderr.contains("Sheets to print, one for each key: "),
            "{}",
            ran.stderr
        );
    }
}

#[cfg(feature = "pdf")]
#[test]
fn the_sheet_lies_beside_the_tracks() {
    let ran = handed_out(ROUTINE, &["--paper", "letter"]);
    let sheet = fs::read(ran.path("anna/sheet.pdf")).unwrap();
    assert!(sheet.starts_with(b"%PDF-"));
    let pages = lopdf::Document::load_mem(&sheet).unwrap();
    let (_, first) = pages.get_pages().into_iter().next().unwrap();
    let size = pages
        .get_dictionary(first)
        .unwrap()
        .get(b"MediaBox")
        .unwrap();
    let size: Vec<f32> = size
        .as_array()
        .unwrap()
        .iter()
        .map(|n| n.as_float().unwrap())
        .collect();
    // ANSI/ASME Y14.1, size A: 8.5 by 11 inches of 72 points.
    assert_eq!(size, [0.0, 0.0, 612.0, 792.0]);
    // Phones keep it with the page.
    let worker = ran.read("anna/leadpipe-worker.js");
    assert!(worker.contains("sheets: [\"sheet.pdf\"]"), "{worker}");
    // A newer one takes its place, on phones too, but nobody else's.
    let arguments = ["handout", "a.toml", "--out", "anna"];
    let ran = Test::within(ran.folder, &arguments).run();
    assert_ne!(fs::read(ran.path("anna/sheet.pdf")).unwrap(), sheet);
    assert_ne!(ran.read("anna/leadpipe-worker.js"), worker);
    let ran = Test::within(ran.folder, &arguments)
        .file("anna/sheet.pdf", "%PDF-1.7 mine")
        .exit(1)
        .run();
    ran.says("was changed after leadpipe wrote it, so it stays as it is");
    assert_eq!(ran.read("anna/sheet.pdf"), "%PDF-1.7 mine");
}

/// What a teacher notes beside the lines for himself is not handed out.
#[test]
fn comments_stay_with_the_teacher() {
    let routine = format!("# Anna is shy.\n{ROUTINE}# More next week.\n");
    let page = handed_out(&routine, &[]).read("anna/index.html");
    assert!(!page.contains("is shy") && !page.contains("next week"));
    assert!(
        page.contains("slur("),
        "the routine itself is there, for the engine"
    );
}

/// What is known to be what would be written is not made again: so a page of the same length and time stays, whatever it holds.
#[cfg(unix)]
#[test]
fn a_second_handout_makes_only_what_may_differ() {
    let ran = handed_out(ROUTINE, &[]);
    let again = |more: &[&str]| {
        let arguments = ["handout", "a.toml", "--out", "anna"];
        let mut command = super::command(ran.folder.path());
        command.args(arguments).args(more).output().unwrap()
    };
    let page = ran.path("anna/index.html");
    let (made, time) = (
        fs::read(&page).unwrap(),
        fs::metadata(&page).unwrap().modified().unwrap(),
    );
    let put = |time| {
        fs::write(&page, vec![b'-'; made.len()]).unwrap();
        fs::File::options()
            .append(true)
            .open(&page)
            .unwrap()
            .set_modified(time)
            .unwrap();
    };
    put(time);
    let second = again(&[]);
    assert!(second.status.success());
    assert_eq!(fs::read(&page).unwrap()[0], b'-', "it is not made");
    let said = |output: &std::process::Output| String::from_utf8(output.stderr.clone()).unwrap();
    assert!(said(&second).contains("The page is"));
    if cfg!(feature = "pdf") {
        assert!(
            said(&second).contains("The sheet to print is"),
            "{}",
            said(&second)
        );
    }
    // Another routine, and no file is trusted.
    fs::write(ran.path("a.toml"), format!("{ROUTINE}\n# another word\n")).unwrap();
    assert!(again(&[]).status.success());
    assert_eq!(
        fs::read(&page).unwrap()[0],
        b'<',
        "the routine is another text"
    );
    // Another time, and it is somebody's own.
    put(time + std::time::Duration::from_secs(60));
    let refused = again(&[]);
    assert!(!refused.status.success());
    assert!(
        said(&refused).contains("was changed after leadpipe wrote it"),
        "{}",
        said(&refused)
    );
    assert!(again(&["--force"]).status.success());
    assert_eq!(fs::read(&page).unwrap()[0], b'<');
}
