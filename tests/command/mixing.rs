//! `render --volume`, `--spread`, `--a4`, `--temperament`: what the files hold.

use super::{ROUTINE, Ran, Test, names};

/// The samples of a track in `to`, channel by channel, read by hound.
fn read(ran: &Ran, name: &str) -> Vec<Vec<i32>> {
    let mut reader = hound::WavReader::open(ran.path("to").join(name)).unwrap();
    let channels = usize::from(reader.spec().channels);
    let mut read = vec![vec![]; channels];
    for (i, sample) in reader.samples::<i32>().enumerate() {
        read[i % channels].push(sample.unwrap());
    }
    read
}

fn mono(ran: &Ran, name: &str) -> Vec<i32> {
    let mut channels = read(ran, name);
    assert_eq!(channels.len(), 1, "{name}");
    channels.remove(0)
}

fn peak(samples: &[i32]) -> i32 {
    samples.iter().map(|s| s.abs()).max().unwrap()
}

fn render(more: &[&str]) -> Ran {
    let arguments = ["render", "a.toml", "--stems", "--out", "to"];
    Test::new(&[&arguments, more].concat())
        .file("a.toml", ROUTINE)
        .run()
}

const TRACK: &str = "short 060 key-0 together";

#[test]
fn volumes_hold_for_stems_and_mix_alike() {
    let (plain, softer) = (render(&[]), render(&["--volume", "click=-6dB,drone=off"]));
    let part = |ran: &Ran, part: &str| mono(ran, &format!("{TRACK} {part}.wav"));
    assert_eq!(peak(&part(&softer, "drone")), 0);
    assert_eq!(part(&softer, "guide"), part(&plain, "guide"));
    // 6 dB are a factor of 0.501; each sample is rounded.
    let clicks = part(&plain, "click")
        .into_iter()
        .zip(part(&softer, "click"));
    for (before, after) in clicks {
        assert!((f64::from(before) * 0.501_187 - f64::from(after)).abs() <= 1.01);
    }
    let mix = mono(&softer, &format!("{TRACK}.wav"));
    let (guide, click) = (part(&softer, "guide"), part(&softer, "click"));
    for (i, mix) in mix.iter().enumerate() {
        assert!((guide[i] + click[i] - mix).abs() <= 2, "frame {i}");
    }
}

#[test]
fn spread_parts_the_voices_and_says_so_in_the_file() {
    let ran = render(&["--spread"]);
    let sides = read(&ran, &format!("{TRACK}.wav"));
    let [left, right] = &sides[..] else {
        panic!("{} channels", sides.len());
    };
    let part = |part: &str| mono(&ran, &format!("{TRACK} {part}.wav"));
    assert_eq!(*left, part("guide"));
    let (drone, click) = (part("drone"), part("click"));
    for (i, right) in right.iter().enumerate() {
        assert!((drone[i] + click[i] - right).abs() <= 1, "frame {i}");
    }
    assert!(peak(left) > 1000 && peak(right) > 1000);
}

/// What a track sounds like depends on them, so it is rendered again; lines are not copied from a file
/// that was balanced otherwise.
#[test]
fn another_balance_renders_again() {
    let ran = render(&["--volume", "click=-6"]);
    let before = mono(&ran, &format!("{TRACK}.wav"));
    for (more, again) in [
        (&["--volume", "click=-6"][..], "1 track unchanged.\n"),
        (
            &["--volume", "click=-9"],
            "1 track rendered again: 2 of 2 lines.\n",
        ),
        (&["--spread"], "1 track rendered again: 2 of 2 lines.\n"),
    ] {
        let arguments = [&["render", "a.toml", "--out", "to"], more].concat();
        let other = Test::within(render(&["--volume", "click=-6"]).folder, &arguments).run();
        assert!(other.stderr.ends_with(again), "{more:?}: {}", other.stderr);
    }
    assert!(peak(&before) > 1000);
}

#[test]
fn tunings_are_takes_of_their_own() {
    let ran = render(&["--a4", "442", "--temperament", "just"]);
    let ran = Test::within(ran.folder, &["render", "a.toml", "--out", "to"]).run();
    let tracks = names(&ran.path("to"));
    assert!(tracks.contains(&format!("{TRACK}.wav")), "{tracks:?}");
    assert!(
        tracks.contains(&format!("{TRACK} a4-442 just.wav")),
        "{tracks:?}"
    );
    assert!(ran.stderr.ends_with("1 track rendered.\n"));
}

#[test]
fn what_cannot_be_is_said_in_plain_words() {
    for (arguments, words) in [
        (
            ["--volume", "click=+3dB"],
            "voices can be made softer, not louder: make the others softer and turn the volume up",
        ),
        (
            ["--volume", "horn=off"],
            "write click=-6dB or drone=off; the voices are guide, drone and click",
        ),
        (
            ["--volume", "click=off,click=-3"],
            "the volume of the click is named twice",
        ),
        (["--a4", "300"], "A4 is from 380 to 480 hertz: 442"),
        (
            ["--temperament", "pure"],
            "the temperament is equal, just or horn",
        ),
    ] {
        let ran = Test::new(&[&["render", "a.toml", "--out", "to"], &arguments[..]].concat())
            .file("a.toml", ROUTINE)
            .stdout("")
            .exit(2)
            .run();
        assert!(ran.stderr.contains(words), "{}", ran.stderr);
        assert_eq!(names(&ran.path("to")), [""; 0]);
    }
}
