//! Limits: music larger than any warm-up is refused as that, what is long is adopted in reasonable time, and what comes of
//! it is a routine within its own limits. Time is not measured: where it grew with the square of the length, these tests
//! took minutes.

use super::documents::{direction, measure, note, note_with, opening, score};
use super::{adopt_xml, adopted};
use leadpipe::exchange::{midi, musicxml};
use leadpipe::routine;

/// A score with the opening in its first measure.
fn measures(count: u32, content: impl Fn(u32) -> String) -> String {
    let measures = (1..=count).map(|number| {
        let opening = if number == 1 {
            opening(4, 4)
        } else {
            String::new()
        };
        measure(number, &(opening + &content(number)))
    });
    score(&measures.collect::<String>())
}

/// A row of notes that never repeats.
fn step(number: u32) -> char {
    let number = u64::from(number);
    b"CDEFGAB"[(number * number * number / 7 % 7) as usize] as char
}

fn refusal(text: &str) -> String {
    match adopt_xml(text) {
        Ok(adopted) => panic!("{} lines", adopted.lines),
        Err(refusal) => refusal.to_string(),
    }
}

#[test]
fn twenty_thousand_bars_take_no_square_of_them() {
    let dynamics = ["p", "f", "mf"];
    let sign = |number: u32| match number % 5 {
        0 => direction("<wedge type=\"crescendo\"/>"),
        2 => direction(&format!(
            "<dynamics><{}/></dynamics>",
            dynamics[number as usize % 3]
        )),
        _ => String::new(),
    };
    let slurred = |number: u32| {
        ["start", "stop"].map(|kind| {
            let slur = format!("<notations><slur type=\"{kind}\"/><ornaments/></notations>");
            note_with(
                &format!("{}4 half", step(number * 2 + u32::from(kind == "stop"))),
                &slur,
            )
        })
    };
    for text in [
        measures(20_000, |number| {
            sign(number) + &note(&format!("{}4 whole", step(number)))
        }),
        measures(10_000, |number| slurred(number).concat()),
        measures(20_000, |_| note("C4 whole")),
    ] {
        let adopted = adopt_xml(&text).unwrap();
        assert!(routine::read(&adopted.text).is_ok());
    }
    // Triplets, entered by slurs from outside.
    let triplet = |number: u32, kind: &str| {
        format!(
            "<note><pitch><step>{}</step><octave>4</octave></pitch><duration>8</duration><notations>\
             <slur type=\"{kind}\"/></notations></note>",
            step(number)
        )
    };
    let kinds = ["start", "stop", "stop", "start", "start", "stop"];
    let bar = |number: u32| {
        (0..6)
            .map(|n| triplet(number * 6 + n, kinds[n as usize]))
            .collect()
    };
    let adopted = adopt_xml(&measures(5000, bar)).unwrap();
    assert!(routine::read(&adopted.text).is_ok());
}

#[test]
fn more_notes_than_a_warm_up_has_are_refused() {
    const TOO_MANY: &str = "it has more than 100,000 notes and signs, which no warm-up needs";
    let rests = "<note><rest/><duration>3</duration></note>".repeat(15);
    let full = |number: u32| note(&format!("{}4 16th", step(number))) + &rests;
    assert_eq!(refusal(&measures(6300, full)), TOO_MANY);
    // Few in the file, many with repeats.
    let repeat = "<barline><repeat direction=\"backward\" times=\"100\"/></barline>";
    let repeated = |number: u32| full(number).repeat(8) + repeat;
    assert_eq!(refusal(&measures(10, repeated)), TOO_MANY);
}

#[test]
fn a_routine_that_would_be_too_large_is_refused() {
    let words = |number: u32| -> String {
        let words = |n: u32| direction(&format!("<words>{number} and {n:04}</words>"));
        (0..3000).map(words).collect::<String>() + &note("C4 whole")
    };
    assert_eq!(
        refusal(&measures(20, words)),
        "as a routine it would be larger than 1 MiB, and a routine may not be"
    );
}

/// Two notes and so many bars of 4/4 between them, ninety-six ticks a quarter.
fn apart(bars: u32) -> Vec<u8> {
    let length = |ticks: u32| -> Vec<u8> {
        let groups = (0..4).rev().map(|n| (ticks >> (7 * n) & 0x7f) as u8 | 0x80);
        let mut bytes: Vec<u8> = groups.collect();
        bytes[3] &= 0x7f;
        bytes
    };
    let mut track = vec![];
    for (rest, key) in [(0, 60), (384 * bars, 62)] {
        track.extend(length(rest));
        track.extend([0x90, key, 64]);
        track.extend(length(384));
        track.extend([0x80, key, 0]);
    }
    track.extend([0, 0xff, 0x2f, 0]);
    let mut bytes = b"MThd\x00\x00\x00\x06\x00\x00\x00\x01\x00\x60MTrk".to_vec();
    bytes.extend((track.len() as u32).to_be_bytes());
    bytes.extend(track);
    bytes
}

#[test]
fn a_rest_longer_than_a_routine_may_hold_is_as_long_as_it_may_be() {
    let piece = midi::read(&apart(3749), None).unwrap();
    let long = adopted(&piece);
    assert!(
        long.text.contains("\nrest = \"3600 bars\"\n"),
        "{}",
        long.text
    );
    assert_eq!(
        long.losses,
        [
            "line 1 “Bar 1”, bar 3750: a rest of 3749 bars is 3600 bars here, the longest that a routine may hold"
        ]
    );
    assert!(routine::read(&long.text).is_ok());
    let piece = midi::read(&apart(3600), None).unwrap();
    assert_eq!(adopted(&piece).losses, [""; 0]);
}

#[test]
fn a_part_that_is_listed_often_is_one_part() {
    let part = format!(
        "<part id=\"a\">{}{}</part>",
        opening(4, 4),
        note("C4 whole")
    );
    let text = format!(
        "<score-timewise><part-list>{}</part-list>{}</score-timewise>",
        "<score-part id=\"a\"/>".repeat(1000),
        format!("<measure>{part}{part}</measure>").repeat(2)
    );
    let piece = musicxml::read(&text, None).unwrap();
    assert_eq!(piece.measures.len(), 2);
}
