//! What a teacher types by mistake, and what is said of it: at the place itself, in a musician's words, with what would be
//! right. Each slip is one change to a small routine that has no fault.

use super::Test;
use serde_json::Value;

const ROUTINE: &str = r#"format = 1
title = "Slips"
instrument = "trumpet in B-flat"
comfortable_top = "G4"
tempo = 72
meter = "4/4"

[[line]]
name = "One"
notes = "C4:half D4:half | E4:whole"
"#;

const NOTES: &str = r#"notes = "C4:half D4:half | E4:whole""#;

/// What `check` says of a routine, each fault as "place: message / hint".
fn said(routine: &str) -> Vec<String> {
    let ran = Test::new(&["check", "slip.toml", "--json"])
        .file("slip.toml", routine)
        .exit(1)
        .run();
    let json: Value = serde_json::from_str(&ran.stdout).unwrap();
    let of = |key: &str| json[key].as_array().cloned().unwrap_or_default();
    let all = [of("faults"), of("findings")].concat();
    all.iter()
        .map(|fault| {
            let byte = |at: usize| fault["bytes"][at].as_u64().unwrap() as usize;
            format!(
                "{}: {} / {}",
                &routine[byte(0)..byte(1)],
                fault["message"].as_str().unwrap(),
                fault["hint"].as_str().unwrap()
            )
        })
        .collect()
}

#[test]
fn every_slip_is_told_at_its_place_with_what_would_be_right() {
    Test::new(&["check", "slip.toml"])
        .file("slip.toml", ROUTINE)
        .run();
    let mut wrong = vec![];
    for (from, to, expected) in SLIPS {
        assert!(ROUTINE.contains(from), "{from}");
        let said = said(&ROUTINE.replacen(from, to, 1));
        if said != *expected {
            wrong.push(format!(
                "{to}\n  said: {said:#?}\n  expected: {expected:#?}"
            ));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} slips:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

/// A length carries over from note to note, across bar lines, slurs and rests, until another one is written. What `each`
/// says goes first, as it always has.
#[test]
fn a_length_carries_over_within_a_line() {
    let with = |rows: &str| ROUTINE.replace(NOTES, rows);
    let carried = with("notes = \"C4:quarter D4 slur( E4 F4 | G4 ) rest E4:half | D4 C4\"");
    let written = with(
        "notes = \"C4:quarter D4:quarter slur( E4:quarter F4:quarter | G4:quarter ) rest:quarter \
         E4:half | D4:half C4:half\"",
    );
    let each = with("each = \"quarter\"\nnotes = \"C4:half D4 E4 | F4 E4 D4 C4\"");
    let as_before = with(
        "notes = \"C4:half D4:quarter E4:quarter | F4:quarter E4:quarter D4:quarter C4:quarter\"",
    );
    for (a, b) in [(carried, written), (each, as_before)] {
        let melody = |text: &str| {
            let routine = leadpipe::routine::read(text).unwrap();
            let events = routine.lines[0].melody.events.clone();
            let events = events.into_iter();
            events
                .map(|e| (e.start, e.length, e.kind, e.slurred))
                .collect::<Vec<_>>()
        };
        assert_eq!(melody(&a), melody(&b));
    }
    // A tie names its own length, and hands none on.
    assert_eq!(
        said(&with(
            "notes = \"C4:half tie:quarter D4:quarter | E4:half tie D4\""
        )),
        ["tie: tie has no length / a tie names its own length: tie:quarter"]
    );
}

/// The rows that are changed, what they are changed to, and what is said: place, message and hint.
type Slip = (&'static str, &'static str, &'static [&'static str]);

const SLIPS: &[Slip] = &[
    (
        NOTES,
        "notes = \"do4:half re4:half | E4:whole\"",
        &[
            "do4:half: do4 is C4 here / write C4: do re mi fa sol la si are C D E F G A B, and C4 is the C on the first ledger line below",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half(>) D4:half | E4:whole\"",
        &["(>): (>) is no mark for a note / write (accent)"],
    ),
    (
        NOTES,
        "notes = \"C4:half(.) D4:half | E4:whole\"",
        &["(.): (.) is no mark for a note / write (staccato)"],
    ),
    (
        NOTES,
        "notes = \"C4:half(-) D4:half | E4:whole\"",
        &["(-): (-) is no mark for a note / held to the full and tongued softly is (legato)"],
    ),
    (
        NOTES,
        "notes = \"C4 half D4:half | E4:whole\"",
        &["C4 half: a colon joins a note and its length, without blanks / write C4:half"],
    ),
    (
        NOTES,
        "notes = \"tie( D4:half ) C4:half | E4:whole\"",
        &[
            "tie(: tie( is not known / a tie stands after its note and lengthens it: D4:whole tie:half; notes of different pitch are joined by slur( … )",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half tie( C4:half ) | E4:whole\"",
        &[
            "tie(: tie( is not known / a tie stands after its note and lengthens it: D4:whole tie:half; notes of different pitch are joined by slur( … )",
        ],
    ),
    (
        NOTES,
        "notes = \"D:half C4:half | E4:whole\"",
        &[
            "D:half: D does not say in which octave / write D4 (just below the staff) or D5 (fourth-line D)",
        ],
    ),
    (
        NOTES,
        "notes = \"H4:half C4:half | B4:whole\"",
        &[
            "H4:half: H is the German name of B / write B4; the German B is Bb here",
            "B4:whole: B4: B natural or B-flat? other notes of this file have German names / here B4 is B natural, the German H; where the German B is meant write Bb4",
        ],
    ),
    (
        NOTES,
        "notes = \"Fis4:half C4:half | B4:whole\"",
        &[
            "Fis4:half: Fis4 is a German name / write F#4: is is #, es or s is b, H is B",
            "B4:whole: B4: B natural or B-flat? other notes of this file have German names / here B4 is B natural, the German H; where the German B is meant write Bb4",
        ],
    ),
    (
        NOTES,
        "notes = \"Es4:half As4:half | B4:whole\"",
        &[
            "Es4:half: Es4 is a German name / write Eb4: is is #, es or s is b, H is B",
            "B4:whole: B4: B natural or B-flat? other notes of this file have German names / here B4 is B natural, the German H; where the German B is meant write Bb4",
        ],
    ),
    (
        NOTES,
        "notes = \"c4:half d4:half | e4:whole\"",
        &["c4:half: pitches are written with a capital letter / write C4"],
    ),
    (
        NOTES,
        "notes = \"C4:half, D4:half | E4:whole\"",
        &[
            ",: notes are parted by blanks, not by commas / leave the commas out; where a breath is meant write the word breath",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:haf D4:half | E4:whole\"",
        &["haf: haf is no note value / write C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4:q D4:q E4:half | E4:whole\"",
        &[
            "q: q is no note value / write C4:quarter",
            "q: q is no note value / write D4:quarter",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:1/2 D4:half | E4:whole\"",
        &["1/2: 1/2 is no note value / write C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4/half D4:half | E4:whole\"",
        &["C4/half: C4/half is not understood / a colon joins a note and its length: C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4-half D4:half | E4:whole\"",
        &["C4-half: C4-half is not understood / a colon joins a note and its length: C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half. D4:half | E4:whole\"",
        &["|: bar 1 is one beat too long / a bar of 4/4 holds 4 quarters; this one holds 5 beats"],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:quarter | E4:whole\"",
        &[
            "|: bar 1 is one beat short / a bar of 4/4 holds 4 quarters; this one holds 3 beats; a pickup is written as a whole bar that begins with rests",
        ],
    ),
    (
        NOTES,
        "notes = \"slur(C4:half D4:half | E4:whole\"",
        &["slur(: this slur is never closed / put a ) after its last note"],
    ),
    (
        NOTES,
        "notes = \"slur C4:half D4:half | E4:whole\"",
        &["slur: slur is not understood / its bracket stands right after it: slur( … )"],
    ),
    (
        NOTES,
        "notes = \"(C4:half D4:half) | E4:whole\"",
        &["(: a bracket that opens nothing / say what it is: slur( … ) or triplet( … )"],
    ),
    (
        NOTES,
        "notes = \"slur( slur( C4:half D4:half ) | E4:whole )\"",
        &["slur(: a slur inside a slur / close the first one with ) before you open another"],
    ),
    (
        NOTES,
        "notes = \"triplet( C4:eighth D4:eighth ) | E4:whole\"",
        &[
            "triplet( C4:eighth D4:eighth ): this triplet is not full / a triplet is three in the time of two: triplet( C4:eighth D4:eighth E4:eighth )",
            "|: bar 1 is 3 1/3 beats short / a bar of 4/4 holds 4 quarters; this one holds 2/3 of a beat; a pickup is written as a whole bar that begins with rests",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half r:half | E4:whole\"",
        &["r:half: r:half is not understood / write rest:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half pause:half | E4:whole\"",
        &["pause:half: pause:half is not understood / write rest:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half breathe D4:half | E4:whole\"",
        &["breathe: breathe is not understood / write breath"],
    ),
    (
        NOTES,
        "notes = \"C4:half breath:half | E4:whole\"",
        &[
            "breath:half: a breath has no length: its time is taken from the note before it / write breath; silence is written rest:half",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half crescendo D4:half | E4:whole\"",
        &["crescendo: crescendo is not understood / write cresc"],
    ),
    (
        NOTES,
        "notes = \"cresc C4:half D4:half | E4:whole\"",
        &[
            "cresc: this leads to no dynamic / put the dynamic it leads to after its notes: cresc C4:half E4:half f",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half MF D4:half | E4:whole\"",
        &["MF: MF is not understood / write mf"],
    ),
    (
        NOTES,
        "notes = \"C4:half ppp D4:half | E4:whole\"",
        &["ppp: ppp is not understood / did you mean pp?"],
    ),
    (
        NOTES,
        "notes = \"C4:half [12] D4:half | E4:whole\"",
        &["[12]: [12] is no fingering / write [1-2]"],
    ),
    (
        NOTES,
        "notes = \"C4:half (1-2) D4:half | E4:whole\"",
        &["(1-2): (1-2) is no mark for a note / a fingering stands in square brackets: [1-2]"],
    ),
    (
        NOTES,
        "notes = \"C4:half(bent) D4:half | E4:whole\"",
        &["(bent): (bent) is no mark for a note / did you mean (bend)?"],
    ),
    (
        NOTES,
        "notes = \"G4:half(bend) D4:half | E4:whole\"",
        &[
            "G4:half(bend): a bend is lipped down from a note, and follows nothing / put the note it starts from right before it, half a step higher",
        ],
    ),
    (
        NOTES,
        "notes = \"G4:half E4:half(bend) | E4:whole\"",
        &[
            "E4:half(bend): “One”: E4, the 2nd note, is bent down from G4 by a minor third: further than the half step that a lip bends / bend G4 to F#4, or leave `(bend)` out and finger the note",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half:D4:half | E4:whole\"",
        &["half:D4:half: half:D4:half is no note value / a blank parts two notes: C4:half D4:half"],
    ),
    (
        NOTES,
        "notes = \"C7:half D4:half | E4:whole\"",
        &["C7:half: C7 lies above the trumpet in B-flat / notes from F#3 to C6 are dealt with"],
    ),
    (
        NOTES,
        "notes = \"C2:half D4:half | E4:whole\"",
        &[
            "C2:half: C2 lies below the trumpet in B-flat, among the pedal tones / its lowest note is F#3; pedal tones are not dealt with",
        ],
    ),
    (
        NOTES,
        "notes = \"C4#:half D4:half | E4:whole\"",
        &["C4#:half: the octave stands after the accidental / write C#4"],
    ),
    (
        NOTES,
        "notes = \"C4:half (stacc) D4:half | E4:whole\"",
        &["(stacc): (stacc) is no mark for a note / did you mean (staccato)?"],
    ),
    (
        NOTES,
        "notes = \"|: C4:half D4:half :| E4:whole\"",
        &[
            ":: : is not understood / a bar line is a single |; a repeat is times = 2 on the line",
            ":: : is not understood / a bar line is a single |; a repeat is times = 2 on the line",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:dotted-half D4:quarter | E4:whole\"",
        &[
            "dotted-half: dotted-half is no note value / a dot is a full stop after the value: C4:half.",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half.. D4:eighth | E4:whole\"",
        &[
            "half..: half.. is no note value / there are no double dots; tie the rest on: C4:half. tie:…",
        ],
    ),
    (
        NOTES,
        "notes = \"C 4:half D4:half | E4:whole\"",
        &[
            "C: C does not say in which octave / write C4 (first ledger line below), C5 (third-space C) or C6 (second ledger line above)",
            "4:half: 4:half is not understood / a note is its pitch and its length: G4:half",
        ],
    ),
    (
        NOTES,
        "notes = \"C4: half D4:half | E4:whole\"",
        &["C4: half: a colon joins a note and its length, without blanks / write C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4 :half D4:half | E4:whole\"",
        &["C4 :half: a colon joins a note and its length, without blanks / write C4:half"],
    ),
    (
        NOTES,
        "notes = \"C4 D4 E4 F4 | G4:whole\"",
        &[
            "C4: C4 has no length / write C4:quarter, and the notes after it that name no length are quarters, too",
        ],
    ),
    (
        NOTES,
        "notes = \"fa#4:half sib4:half | E4:whole\"",
        &[
            "fa#4:half: fa#4 is F#4 here / write F#4: do re mi fa sol la si are C D E F G A B, and C4 is the C on the first ledger line below",
        ],
    ),
    (
        NOTES,
        "notes = \"rest D4:half | E4:whole\"",
        &[
            "rest: rest has no length / write rest:quarter, and the notes after it that name no length are quarters, too",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half~ C4:half | E4:whole\"",
        &["half~: half~ is no note value / two notes are tied by the word tie: C4:half tie:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half_D4:half | E4:whole\"",
        &["half_D4:half: half_D4:half is no note value / a blank parts two notes: C4:half D4:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half staccato D4:half | E4:whole\"",
        &[
            "staccato: staccato is not understood / it stands in round brackets after its note: G4:half(staccato)",
        ],
    ),
    (
        NOTES,
        "notes = \"tongue C4:half D4:half | E4:whole\"",
        &["tongue: tongue is not understood / what stands in no slur( … ) is tongued"],
    ),
    (
        NOTES,
        "notes = \"C4:half x2 | E4:whole\"",
        &["x2: x2 is not understood / a repeat is times = 2, in a row of its own under the line"],
    ),
    (
        NOTES,
        "notes = \"C4:quarter. D4:quarter. | E4:half. tie:quarter\"\nmeter = \"6/8\"",
        &[
            "E4:half.: bar 2 is two eighths too long / a bar of 6/8 holds 6 eighths; this one holds 8 eighths",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:quarter. D4:quarter. E4:quarter | E4:half.\"\nmeter = \"6/8\"",
        &[
            "|: bar 1 is two eighths too long / a bar of 6/8 holds 6 eighths; this one holds 8 eighths",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:quarter. D4:quarter. E4:eighth | E4:half.\"\nmeter = \"6/8\"",
        &[
            "|: bar 1 is one eighth too long / a bar of 6/8 holds 6 eighths; this one holds 7 eighths",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:quarter. D4:quarter | E4:half.\"\nmeter = \"6/8\"",
        &[
            "|: bar 1 is one eighth short / a bar of 6/8 holds 6 eighths; this one holds 5 eighths; a pickup is written as a whole bar that begins with rests",
        ],
    ),
    (
        NOTES,
        "notes = \"breathe:half out:half\"\non = \"air\"",
        &[
            "breathe:half: breathe does not say whether it goes in or out / write in:half or out:half",
        ],
    ),
    (
        NOTES,
        "notes = \"breath:half out:half\"\non = \"air\"",
        &["breath:half: breath does not say whether it goes in or out / write in:half or out:half"],
    ),
    (
        NOTES,
        "notes = \"inhale:half out:half\"\non = \"air\"",
        &["inhale:half: inhale:half is not understood / write in:half"],
    ),
    (
        NOTES,
        "notes = \"C4:half out:half\"\non = \"air\"",
        &[
            "C4:half: C4 is a note, and this is a breathing line / it holds in, out, hold and rest, each with its length: in:whole out:whole",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nhalf_steps = 0, -1",
        &["0, -1: a list stands in square brackets / write half_steps = [0, -1]"],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nhalf_steps = [0, -1",
        &[
            "[0, -1: this list is not closed / it ends with a square bracket: half_steps = [0, -1, -2]",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\ntubes = [\"0\"]",
        &[
            "tubes: tubes move a line that is written as on the open horn / write its notes as open = \"…\", with notes of the open horn",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nrest = 2 bars",
        &["2 bars: words stand in straight quotes / write rest = \"2 bars\""],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nrest = \"same as played\"",
        &[
            "\"same as played\": rest cannot be \"same as played\" / it can be \"same\" (as long as it took to play), \"2 bars\", \"8 beats\", \"20 s\" or \"none\"; an hour is the most",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nrepeat = 2",
        &["repeat: repeat is not known here / write times = 2"],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\nslurred = true",
        &["slurred: slurred is not known here / write articulation = \"slurred\""],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\"\narticulation = \"slur\"",
        &["\"slur\": articulation cannot be \"slur\" / did you mean \"slurred\"?"],
    ),
    (
        "tempo = 72",
        "tempo = 60 bpm",
        &["60 bpm: a tempo is a number alone, in clicks a minute / write tempo = 60"],
    ),
    (
        "tempo = 72",
        "tempo = \"60\"",
        &[
            "\"60\": tempo is a number of clicks a minute, from 20 to 300 / write the number alone, without quotes: tempo = 60",
        ],
    ),
    (
        "tempo = 72",
        "tempo = \"60 bpm\"",
        &[
            "\"60 bpm\": tempo is a number of clicks a minute, from 20 to 300 / write the number alone, without quotes: tempo = 60",
        ],
    ),
    (
        "tempo = 72",
        "Tempo = 72",
        &["Tempo: Tempo is not known here / did you mean tempo?"],
    ),
    (
        "tempo = 72",
        "tempo: 72",
        &[
            "tempo: 72: this row is not understood / an equals sign parts a name from its value: tempo = 72",
        ],
    ),
    (
        "tempo = 72",
        "tempo = 72,5",
        &["72,5: a number has a point, not a comma / write tempo = 72.5"],
    ),
    (
        "tempo = 72",
        "tempo = quarter = 60",
        &["quarter = 60: a tempo is a number alone, in clicks a minute / write tempo = 60"],
    ),
    (
        "tempo = 72",
        "tempo = 600",
        &[
            "600: tempo is a number of clicks a minute, from 20 to 300 / for instance tempo = 72, without quotes",
        ],
    ),
    (
        "tempo = 72",
        "tempo = fast",
        &["fast: a tempo is a number alone, in clicks a minute / write tempo = 72"],
    ),
    (
        "tempo = 72",
        "tempo = 60bpm",
        &["60bpm: a tempo is a number alone, in clicks a minute / write tempo = 60"],
    ),
    (
        "meter = \"4/4\"",
        "meter = 4/4",
        &["4/4: words stand in straight quotes / write meter = \"4/4\""],
    ),
    (
        "meter = \"4/4\"",
        "meter = \"C\"",
        &["\"C\": C is no meter leadpipe can click / write meter = \"4/4\""],
    ),
    (
        "meter = \"4/4\"",
        "time = \"4/4\"",
        &["time: time is not known here / write meter = \"4/4\""],
    ),
    (
        "title = \"Slips\"",
        "title = Slips",
        &["Slips: words stand in straight quotes / write title = \"Slips\""],
    ),
    (
        "title = \"Slips\"",
        "Title = \"Slips\"",
        &["Title: Title is not known here / did you mean title?"],
    ),
    (
        "title = \"Slips\"",
        "title = “Slips”",
        &["“Slips”: curly quotes / write straight ones: \"Slips\""],
    ),
    (
        "instrument = \"trumpet in B-flat\"",
        "instrument = \"trombone\"",
        &[
            "\"trombone\": trombone is no instrument leadpipe knows / it knows trumpet in B-flat, trumpet in C, cornet and flugelhorn",
        ],
    ),
    (
        "comfortable_top = \"G4\"",
        "comfortable_top = \"A4\"",
        &[
            "\"A4\": A4 is not among the open notes that part the levels / comfortable_top is one of C4, G4, C5, E5 or G5",
        ],
    ),
    (
        "comfortable_top = \"G4\"",
        "comfortable_top = G4",
        &["G4: words stand in straight quotes / write comfortable_top = \"G4\""],
    ),
    (
        "[[line]]",
        "[line]",
        &[
            "[line]: a line is opened by [[line]], with two brackets on each side / write [[line]] in a row of its own",
        ],
    ),
    (
        "[[line]]",
        "line",
        &["line: this row is not understood / a line is opened by [[line]] in a row of its own"],
    ),
    (
        NOTES,
        "note = \"C4:half D4:half | E4:whole\"",
        &["note: note is not known here / did you mean notes?"],
    ),
    (
        "name = \"One\"",
        "name One",
        &[
            "name One: this row is not understood / an equals sign parts a name from its value: name = \"One\"",
        ],
    ),
    (
        "format = 1\n",
        "",
        &[
            "title = \"Slips\": this file does not say which format it is in / write format = 1 as its first line",
        ],
    ),
    (
        "tempo = 72\n",
        "",
        &[
            "format = 1: this routine has no tempo / write tempo = 72 at its head: clicks a minute, one click a beat",
        ],
    ),
    (
        NOTES,
        "notes = \"\"\"\nC4:half D4:half |\nE4:whole\n\n[[line]]\nname = \"Two\"\nnotes = \"C4:half D4:half\"\nrest = \"same\"\n\n[[line]]\nname = \"Three\"\nnotes = \"\"\"\nC4:half D4:half |\nE4:whole\"\"\"",
        &[
            "\"\"\": the text that these quotes open is never closed: \"\"\" / write \"\"\" once more, after its last word; one quote does not close it",
        ],
    ),
    (
        NOTES,
        "notes = \"\"\"\nC4:half D4:half |\nE4:whole",
        &[
            "\"\"\": the text that these quotes open is never closed: \"\"\" / write \"\"\" once more, after its last word; one quote does not close it",
        ],
    ),
    (
        NOTES,
        "notes = \"\"\"\nC4:half D4:half |\nE4:whole\"\n\n[[line]]\nname = \"Two\"\nnotes = \"C4:half D4:half\"",
        &[
            "\"\"\": the text that these quotes open is never closed: \"\"\" / write \"\"\" once more, after its last word; one quote does not close it",
        ],
    ),
    (
        NOTES,
        "notes = \"\nC4:half D4:half |\nE4:whole\"\n\n[[line]]\nname = \"Two\"\nnotes = \"C4:half D4:half\"",
        &[
            "\": a text over several rows stands in three quotes / open it with notes = \"\"\" and close it with \"\"\"",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | E4:whole\n\n[[line]]\nname = \"Two\"\nnotes = \"C4:half D4:half\"",
        &[
            "notes = \"C4:half D4:half | E4:whole: this text is not closed where it should be / it starts and ends with one straight quote, in one row: \"…\"",
        ],
    ),
    (
        NOTES,
        "notes = \"C4:half D4:half | Fis4:whole\"\n\n[[line]]\nname = \"Two\"\nnotes = \"B4:half D4:half\"\n\n[[line]]\nname = \"Two2\"\nnotes = \"B4:half B3:half\"",
        &[
            "Fis4:whole: Fis4 is a German name / write F#4: is is #, es or s is b, H is B",
            "B4:half: B4: B natural or B-flat? other notes of this file have German names / here B4 is B natural, the German H; where the German B is meant write Bb4",
        ],
    ),
];
