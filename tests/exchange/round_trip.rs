//! Out and in again: the routine comes back, but for what is listed here.

use super::{adopted_for, built_in, export, routine, unroll};
use leadpipe::exchange::{midi, musicxml};
use leadpipe::music::Whole;
use leadpipe::routine::{Melody, Routine};
use leadpipe::score::{Pass, Played, Score, ScoreLine};
use num_rational::BigRational;
use num_traits::Signed;

/// What of a line MusicXML has no place for: where the click and the drone sound, and how long one counts in. Comments
/// are lost too.
const LOST: [&str; 4] = ["tonic", "drone", "click", "count_in"];

/// The text without what is lost.
fn without(text: &str, keys: &[&str]) -> String {
    let of_key = |row: &str| {
        let key = row.split(['=', ' ']).next().unwrap_or_default();
        keys.contains(&key)
    };
    let kept = text.lines().filter(|row| !of_key(row));
    kept.map(|row| format!("{row}\n")).collect()
}

#[test]
fn every_built_in_routine_comes_back_from_musicxml() {
    for (name, text) in built_in() {
        let written = routine(text);
        for fingerings in [
            musicxml::FingeredNotes::Unusual,
            musicxml::FingeredNotes::All,
        ] {
            let file = musicxml::write(&unroll(&written), fingerings);
            let piece = musicxml::read(&file, None).unwrap();
            let back = adopted_for(&piece, written.instrument);
            assert_eq!(back.losses, [""; 0], "{name}");
            let read = routine(&back.text);
            let expected = at_each_tempo(routine(&without(text, &LOST)));
            assert_same_routine(&expected, &read, name);
            assert_same(&unroll(&expected), &unroll(&read), name);
            let lost = LOST
                .iter()
                .filter(|key| text.contains(&format!("\n{key} =")));
            assert!(lost.count() > 0, "{name} has something to lose");
        }
    }
}

/// A line at several tempos comes back as a line for each, with the rest between its tempos as the rest after it.
fn at_each_tempo(mut routine: Routine) -> Routine {
    let lines = std::mem::take(&mut routine.lines);
    for line in lines {
        let last = line.tempos.len().saturating_sub(1);
        for (rung, tempo) in line.tempos_in(&routine).into_iter().enumerate() {
            let mut one = line.clone();
            if last > 0 {
                one.tempos = vec![tempo];
            }
            if rung < last {
                one.rest = line.between;
            }
            // Lines of one name are numbered.
            if rung > 0 {
                one.name = format!("{} ({})", line.name, rung + 1);
            }
            routine.lines.push(one);
        }
    }
    routine
}

/// A line's keys that the built-in routines do not use.
#[test]
fn other_keys_come_back_too() {
    let text = "format = 1\ntitle = \"A \\\"title\\\" & <more>\"\ninstrument = \"flugelhorn\"\n\
        comfortable_top = \"C5\"\ntempo = 61.25\nmeter = \"3/4\"\n\
        [[line]]\nname = \"Triplets\"\nnotes = \"triplet( C4:eighth D4:eighth E4:eighth ) slur( triplet( F4:quarter \
        G4:quarter A4:quarter ) | G4:half. )\"\nrest = \"20 s\"\n\
        [[line]]\nname = \"Fingered\"\nnotes = \"E4:half.[3] | G4:half.[1-3]\"\nrest = \"8 beats\"\n\
        [[line]]\nname = \"Echoed\"\nguide = \"echo\"\nnotes = \"C4:half. | D4:half.\"\nrest = \"none\"\n\
        [[line]]\nname = \"Twice on each\"\nopen = \"C5:quarter G4:quarter C4:quarter\"\ntubes = [\"0\", \"1-3\", \"2\"]\n\
        times = 2\nbetween = \"none\"\nrest = \"1.5 bars\"\n\
        [[line]]\nname = \"Swell\"\nnotes = \"pp cresc C4:half. | tie:half. f dim | tie:half. p | D4:quarter(accent) \
        E4:quarter(air) F4:quarter(ku)\"\nbetween = \"2 bars\"\nhalf_steps = [0, 1]\nrest = \"4 bars\"\n\
        [[line]]\nname = \"Over the bar\"\nmeter = \"2/4\"\ntempo = 120\nnotes = \"C4:quarter D4:half | tie:quarter \
        E4:eighth(staccato) rest:eighth\"\n";
    // A note over a bar line is written as the bar has it.
    let text = text.replace("D4:half | tie:quarter", "D4:quarter | tie:half");
    let text = text.replace(
        "E4:eighth(staccato) rest:eighth",
        "| E4:eighth(staccato) rest:eighth",
    );
    let written = routine(&text);
    let piece = musicxml::read(&export(&written), None).unwrap();
    let choice = leadpipe::exchange::AdoptOptions {
        instrument: written.instrument,
        ..super::choice()
    };
    let back = leadpipe::exchange::adopt(&piece, &choice).unwrap();
    assert_eq!(back.losses, [""; 0]);
    let read = routine(&back.text);
    assert_same_routine(&written, &read, "other keys");
    assert_same(&unroll(&written), &unroll(&read), &back.text);
}

fn assert_same_routine(a: &Routine, b: &Routine, name: &str) {
    assert_eq!(a.title, b.title, "{name}");
    assert_eq!(a.purpose, b.purpose, "{name}");
    assert_eq!(a.instrument, b.instrument, "{name}");
    assert_eq!(a.comfortable_top, b.comfortable_top, "{name}");
    assert_eq!(a.reach, b.reach, "{name}");
    assert_eq!(a.lines.len(), b.lines.len(), "{name}");
    for (a, b) in a.lines.iter().zip(&b.lines) {
        let name = format!("{name}, {}", a.name);
        assert_eq!(
            (&a.name, &a.purpose, &a.say),
            (&b.name, &b.purpose, &b.say),
            "{name}"
        );
        assert_eq!((&a.walk, a.times), (&b.walk, b.times), "{name}");
        assert_eq!(a.articulations, b.articulations, "{name}");
        assert_same_loudness(&a.melody, &b.melody, &name);
    }
}

/// At every sixty-fourth of a pass.
fn assert_same_loudness(a: &Melody, b: &Melody, name: &str) {
    let count = (a.length * Whole::from_integer(64)).to_integer();
    for n in 0..count {
        let moment = Whole::new(n, 64);
        assert_eq!(a.level_db(moment), b.level_db(moment), "{name} at {moment}");
    }
}

/// Everything that a score says but where it stands in a file.
fn assert_same(a: &Score<'_>, b: &Score<'_>, name: &str) {
    assert_eq!(a.lines.len(), b.lines.len(), "{name}");
    for (line, (a, b)) in a.lines.iter().zip(&b.lines).enumerate() {
        let at = format!("line {} of {name}", line + 1);
        assert_eq!((a.on, a.tempo, a.meter), (b.on, b.tempo, b.meter), "{at}");
        assert_eq!((a.guide, a.count_in), (b.guide, b.count_in), "{at}");
        assert_eq!((&a.start, a.rest), (&b.start, b.rest), "{at}");
        assert_eq!((a.length, a.played), (b.length, b.played), "{at}");
        assert_eq!(a.passes.len(), b.passes.len(), "{at}");
        for (number, (a, b)) in a.passes.iter().zip(&b.passes).enumerate() {
            assert_same_pass(a, b, &format!("pass {number} of {at}"));
        }
    }
    assert_eq!(a.seconds, b.seconds, "{name}");
}

fn assert_same_pass(a: &Pass, b: &Pass, at: &str) {
    assert_eq!((a.half_steps, a.tube), (b.half_steps, b.tube), "{at}");
    assert_eq!(
        (a.walk_index, a.repetition),
        (b.walk_index, b.repetition),
        "{at}"
    );
    assert_eq!(a.articulation, b.articulation, "{at}");
    assert_eq!(
        (a.start, a.length, a.turn, a.between),
        (b.start, b.length, b.turn, b.between),
        "{at}"
    );
    assert_eq!((a.tonic, &a.drone), (b.tonic, &b.drone), "{at}");
    let plain = |pass: &Pass| -> Vec<_> {
        pass.notes
            .iter()
            .map(|n| {
                (
                    n.start, n.length, n.played, n.joined, n.leads_on, n.style, n.breath,
                )
            })
            .collect()
    };
    assert_eq!(plain(a), plain(b), "{at}");
}

/// Names, tempos, meters, pitches and times come back from MIDI, and rests; nothing else can.
#[test]
fn what_midi_can_hold_comes_back_from_it() {
    for (name, text) in built_in() {
        let written = routine(text);
        let score = unroll(&written);
        let piece = midi::read(&midi::write(&score), None).unwrap();
        let back = adopted_for(&piece, written.instrument);
        assert_eq!(back.losses, [""; 0], "{name}");
        let read = routine(&back.text);
        let again = unroll(&read);
        // Breathing has no pitch.
        let horn: Vec<&ScoreLine> = score.lines.iter().filter(|l| pitches(l) > 0).collect();
        assert_eq!(horn.len(), again.lines.len(), "{name}");
        for (a, b) in horn.iter().zip(&again.lines) {
            let (one, other) = (&written.lines[a.index], &read.lines[b.index]);
            let at = format!("{name}, {}", one.name);
            // A line at several tempos comes back as several lines, which are numbered.
            let numbered =
                one.tempos.len() > 1 && other.name.starts_with(&format!("{} (", one.name));
            assert!(one.name == other.name || numbered, "{at}: {}", other.name);
            assert_eq!((a.tempo, a.meter), (b.tempo, b.meter), "{at}");
            assert_eq!(notes(a), notes(b), "{at}");
        }
        // Silence at the end of the notes is a part of the rest now: lines begin when they did.
        let all: Vec<&ScoreLine> = again.lines.iter().collect();
        // A rest that is no number of bars comes back in tenths of a second.
        let near = |(a, b): (&BigRational, &BigRational)| {
            (a - b).abs() <= BigRational::new(1.into(), 20.into())
        };
        let (before, after) = (gaps(&horn), gaps(&all));
        assert_eq!(before.len(), after.len(), "{name}");
        assert!(
            before.iter().zip(&after).all(near),
            "{name}: {before:?} {after:?}"
        );
    }
}

/// From the beginning of each line to that of the next.
fn gaps(lines: &[&ScoreLine]) -> Vec<BigRational> {
    let pairs = lines.windows(2);
    pairs.map(|pair| &pair[1].start - &pair[0].start).collect()
}

fn pitches(line: &ScoreLine) -> usize {
    let notes = line.passes.iter().flat_map(|p| &p.notes);
    notes
        .filter(|n| matches!(n.played, Played::Pitch { .. }))
        .count()
}

/// Start and pitch of every note of a line, and its end where nothing is taken from it.
fn notes(line: &ScoreLine) -> Vec<(Whole, i32)> {
    let passes = line.passes.iter();
    passes
        .flat_map(|pass| {
            pass.notes.iter().filter_map(move |note| match note.played {
                Played::Pitch { sounding, .. } => {
                    Some((pass.start + note.start, sounding.number()))
                }
                Played::In | Played::Out => None,
            })
        })
        .collect()
}
