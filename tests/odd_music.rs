//! Music that is written seldom and means something all the same, worked out by hand.

use leadpipe::routine::{self, Guide};
use leadpipe::score::{Take, unroll};
use leadpipe::timeline::{Content, LineSound, Settings, compile};

const RATE: u64 = 44_100;

/// What the lines sound like at 60 clicks a minute, count-in of one bar.
fn lines(bodies: &[&str], guide: Guide) -> Vec<LineSound> {
    let mut text =
        "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in C\"\ncomfortable_top = \"G4\"\n\
                    tempo = 60\n"
            .to_owned();
    for body in bodies {
        text += &format!("[[line]]\nname = \"L\"\ncount_in = 1\n{body}\n");
    }
    let routine = routine::read(&text).unwrap_or_else(|f| panic!("{text}\n{f:#?}"));
    let take = Take {
        guide,
        ..Take::default()
    };
    let score = unroll(&routine, &take).expect("it unrolls");
    let timeline = compile(&score, &Settings::default());
    timeline
        .units
        .into_iter()
        .filter_map(|unit| match unit.content {
            Content::Line(line) => Some(line),
            Content::Rest(_) => None,
        })
        .collect()
}

fn line(body: &str) -> LineSound {
    lines(&[body], Guide::Together).remove(0)
}

/// Starts of the notes of each tone, in twelfths of a second.
fn starts(sound: &LineSound) -> Vec<Vec<u64>> {
    let twelfth = RATE / 12;
    sound
        .tones
        .iter()
        .map(|tone| {
            tone.steps
                .iter()
                .map(|step| {
                    assert_eq!(step.frame % twelfth, 0);
                    step.frame / twelfth
                })
                .collect()
        })
        .collect()
}

#[test]
fn a_slur_crosses_bar_lines_and_holds_triplets_and_ties() {
    let sound = line(
        "notes = \"C4:half slur( E4:half | tie:half triplet( F4:quarter E4:quarter D4:quarter ) | E4:half ) C4:half\"",
    );
    // Count-in to 4 s; C4; E4 tied over the bar line from 6 s to 10 s; three in two seconds; E4 at 12 s.
    assert_eq!(
        starts(&sound),
        [vec![48], vec![72, 120, 128, 136, 144], vec![168]]
    );
}

#[test]
fn a_triplet_holds_slurs_of_its_own() {
    let sound = line(
        "notes = \"triplet( slur( C4:half E4:half ) G4:half ) triplet( slur( C4:half E4:half G4:half ) )\"",
    );
    assert_eq!(starts(&sound), [vec![48, 64], vec![80], vec![96, 112, 128]]);
}

#[test]
fn a_long_tie_is_one_note() {
    let sound =
        line("notes = \"C4:whole | tie:whole | tie:half tie:half | tie:quarter\"\nmeter = \"4/4\"");
    assert_eq!(starts(&sound), [vec![48]]);
    // Three bars and a beat from 4 s on; what is left of its bar is rest.
    assert_eq!(sound.tones[0].end, 17 * RATE);
    assert_eq!(sound.clicks.len(), 4 + 16);
}

/// Loudness leads evenly in dB from the tie's moment, not from the note's.
#[test]
fn a_crescendo_begins_in_the_middle_of_a_tied_note() {
    let sound = line("notes = \"p C4:half cresc tie:half | tie:whole f | C4:whole\"");
    let levels: Vec<(u64, f64)> = sound.tones[0]
        .levels
        .iter()
        .map(|l| (l.frame, l.db))
        .collect();
    let (soft, loud) = (levels[0].1, levels[levels.len() - 1].1);
    assert!(loud > soft + 5.0);
    assert_eq!(levels.len(), 3);
    assert_eq!(levels[0], (sound.tones[0].frame, soft));
    assert_eq!(levels[1], (6 * RATE, soft));
    // It gets there with the note, whose air stops a little before its written end.
    assert_eq!(levels[2], (sound.tones[0].end, loud));
    assert!((12 * RATE - sound.tones[0].end) < RATE / 20);
    let second = &sound.tones[1].levels;
    assert_eq!((second.len(), second[0].db), (1, loud));
}

/// Every pass starts at mf, whatever the one before ended at.
#[test]
fn every_pass_starts_at_the_same_loudness() {
    let sound = line("notes = \"C4:half pp C4:half\"\ntimes = 3");
    let db: Vec<f64> = sound.tones.iter().map(|t| t.levels[0].db).collect();
    assert_eq!(db.len(), 6);
    assert!(db[0] > db[1]);
    assert_eq!(db, [db[0], db[1], db[0], db[1], db[0], db[1]]);
}

#[test]
fn a_line_can_have_a_guide_of_its_own_but_not_in_a_take_without() {
    let bodies = [
        "notes = \"C4:whole\"",
        "notes = \"C4:whole\"\nguide = \"echo\"",
        "notes = \"C4:whole\"\nguide = \"off\"",
        "notes = \"C4:whole\"\nguide = \"together\"",
    ];
    let of = |guide| -> Vec<(usize, usize)> {
        lines(&bodies, guide)
            .iter()
            .map(|l| (l.tones.len(), l.clicks.len()))
            .collect()
    };
    // Four clicks in, four played, and in echo four more for the pupil.
    assert_eq!(of(Guide::Together), [(1, 8), (1, 12), (0, 8), (1, 8)]);
    assert_eq!(of(Guide::Echo), [(1, 12), (1, 12), (0, 8), (1, 8)]);
    assert_eq!(of(Guide::Off), [(0, 8); 4]);
}

#[test]
fn beat_one_is_accented_in_every_meter() {
    for (meter, notes, clicks) in [
        ("12/8", "C4:whole.", 4),
        ("6/8", "C4:half.", 2),
        ("9/8", "C4:whole tie:eighth", 3),
        ("3/8", "C4:quarter.", 3),
        ("2/2", "C4:whole", 2),
        ("1/4", "C4:quarter", 1),
        ("5/4", "C4:whole tie:quarter", 5),
    ] {
        let sound = line(&format!("notes = \"{notes}\"\nmeter = \"{meter}\""));
        // A click a second whatever the meter; a bar in and a bar played.
        let expected: Vec<(u64, bool)> = (0..2 * clicks)
            .map(|n| (n * RATE, n % clicks == 0))
            .collect();
        let found: Vec<(u64, bool)> = sound.clicks.iter().map(|c| (c.frame, c.accented)).collect();
        assert_eq!(found, expected, "{meter}");
        assert_eq!(sound.tones[0].steps[0].frame, clicks * RATE, "{meter}");
    }
}
