//! What is made of music that was not written here: each rule of the note language's, told in MusicXML.

use super::adopt_xml;
use super::documents::{direction, measure, note, note_with, notes, opening, score};
use leadpipe::routine::{self, Routine};

/// The rows of the routine that say something of lines, and what was lost.
fn read(measures: &str) -> (Vec<String>, Vec<String>) {
    let adopted = adopt_xml(&score(measures)).unwrap();
    let rows = adopted.text.lines().skip_while(|row| *row != "[[line]]");
    let rows = rows
        .filter(|row| !row.is_empty() && *row != "[[line]]")
        .map(str::to_owned)
        .collect();
    understood(&adopted.text);
    (rows, adopted.losses)
}

fn understood(text: &str) -> Routine {
    routine::read(text).unwrap_or_else(|faults| panic!("{text}\n{faults:#?}"))
}

/// The notes of a piece of one bar in four.
fn bar(content: &str) -> String {
    let (rows, losses) = read(&measure(1, &format!("{}{content}", opening(4, 4))));
    assert_eq!(losses, [""; 0]);
    rows.last().cloned().unwrap_or_default()
}

const NONE: [&str; 0] = [];

#[test]
fn pitches_values_and_rests() {
    assert_eq!(
        bar(&notes("F#4 quarter, Bb3 eighth., rest 16th, C5 half")),
        "notes = \"mf F#4:quarter Bb3:eighth. rest:sixteenth C5:half\""
    );
    // A double sharp is spelt as the player knows it.
    assert_eq!(bar(&notes("F##4 whole")), "notes = \"mf G4:whole\"");
    // The value that most notes have is said once.
    let quarters = "C4 quarter, D4 quarter, E4 quarter, F4 quarter";
    let (rows, _) = read(&measure(1, &(opening(4, 4) + &notes(quarters))));
    assert_eq!(
        rows,
        [
            "name = \"Bar 1\"",
            "each = \"quarter\"",
            "notes = \"mf C4 D4 E4 F4\""
        ]
    );
}

#[test]
fn ties_are_one_note_and_slurs_join_across_bars() {
    let start = "<notations><slur type=\"start\" number=\"1\"/></notations>";
    let stop = "<notations><slur type=\"stop\" number=\"1\"/></notations>";
    let measures = measure(
        1,
        &(opening(4, 4)
            + &note_with("C4 half", start)
            + &note_with("D4 half", "<tie type=\"start\"/>")),
    ) + &measure(
        2,
        &(note_with("D4 quarter", "<tie type=\"stop\"/>")
            + &note_with("E4 quarter", stop)
            + &note("E4 half")),
    );
    let (rows, losses) = read(&measures);
    assert_eq!(losses, NONE);
    assert_eq!(
        rows[1..],
        [
            "each = \"half\"",
            "notes = \"mf slur( C4 D4 | tie:quarter E4:quarter ) E4\""
        ]
    );
}

#[test]
fn two_slurs_that_meet_are_one_and_two_that_do_not_are_two() {
    let slur = |signs: &str| format!("<notations>{signs}</notations>");
    let (start, stop) = ("<slur type=\"start\"/>", "<slur type=\"stop\"/>");
    let meeting = note_with("C4 quarter", &slur(start))
        + &note_with("D4 quarter", &slur(&format!("{stop}{start}")))
        + &note_with("E4 quarter", &slur(stop))
        + &note("F4 quarter");
    assert_eq!(bar(&meeting), "notes = \"mf slur( C4 D4 E4 ) F4\"");
    let apart = note_with("C4 quarter", &slur(start))
        + &note_with("D4 quarter", &slur(stop))
        + &note_with("E4 quarter", &slur(start))
        + &note_with("F4 quarter", &slur(stop));
    assert_eq!(bar(&apart), "notes = \"mf slur( C4 D4 ) slur( E4 F4 )\"");
}

fn triplet(pitch: &str) -> String {
    format!(
        "<note><pitch><step>{}</step><octave>{}</octave></pitch><duration>4</duration><voice>1</voice>\
         <type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes>\
         </time-modification></note>",
        &pitch[..1],
        &pitch[1..]
    )
}

#[test]
fn triplets_are_three_in_the_time_of_two() {
    let content =
        triplet("C4") + &triplet("D4") + &triplet("E4") + &note("F4 quarter") + &note("G4 half");
    assert_eq!(
        bar(&content),
        "notes = \"mf triplet( C4 D4 E4 ) F4:quarter G4:half\""
    );
}

#[test]
fn signs_at_notes() {
    let sign = |kind: &str, name: &str| format!("<notations><{kind}>{name}</{kind}></notations>");
    let content = note_with(
        "G4 quarter",
        &sign("technical", "<fingering>1-3</fingering>"),
    ) + &note_with(
        "E4 quarter",
        &sign("technical", "<fingering>12</fingering>"),
    ) + &note_with(
        "C4 quarter",
        &sign("articulations", "<staccato/><breath-mark/>"),
    ) + &note_with("C4 quarter", &sign("articulations", "<accent/>"));
    // 1-2 is what everybody plays on E4: it need not be said.
    assert_eq!(
        bar(&content),
        "notes = \"mf G4[1-3] E4 C4(staccato) breath C4(accent)\""
    );
}

#[test]
fn a_wedge_leads_to_the_dynamic_at_its_end_or_one_step_on() {
    let wedge = |kind: &str| direction(&format!("<wedge type=\"{kind}\"/>"));
    let loud = direction("<dynamics><f/></dynamics>");
    let content = wedge("crescendo") + &note("C4 half") + &wedge("stop") + &loud + &note("D4 half");
    assert_eq!(bar(&content), "notes = \"mf cresc C4:half f D4:half\"");
    // A long tone that swells: the wedges meet inside the note.
    let offset = |kind: &str, offset: u32| {
        format!(
            "<direction><direction-type><wedge type=\"{kind}\"/></direction-type><offset>{offset}</offset></direction>"
        )
    };
    let swell = wedge("crescendo")
        + &offset("stop", 24)
        + &offset("diminuendo", 24)
        + &note("C4 whole")
        + &wedge("stop");
    let (rows, losses) = read(&measure(1, &(opening(4, 4) + &swell)));
    assert_eq!(rows[1], "notes = \"mf cresc C4:half f dim tie:half mf\"");
    assert_eq!(
        losses,
        [
            "line 1 “Bar 1”, bar 1: a wedge that leads to no dynamic leads one step louder",
            "line 1 “Bar 1”, bar 1: a wedge that leads to no dynamic leads one step softer",
        ]
    );
}

#[test]
fn a_wedge_that_comes_to_stand_beside_its_end_is_left_out() {
    // Marks far behind their notes: the dynamic that is first in the file is the last to find a place.
    let mark = |kind: &str, offset: i32| {
        format!(
            "<direction><direction-type>{kind}</direction-type><offset>{offset}</offset></direction>"
        )
    };
    let note = |duration: u32| {
        format!(
            "<note><pitch><step>C</step><octave>4</octave></pitch><duration>{duration}</duration></note>"
        )
    };
    let opening = opening(4, 4).replace("<divisions>12<", "<divisions>24<");
    let first = opening
        + &note(3)
        + &mark("<dynamics><ff/></dynamics>", 56)
        + &mark("<dynamics><p/></dynamics>", 44);
    let wedge = mark("<wedge type=\"crescendo\"/>", -3);
    let second = note(16) + &note(3) + &note(36) + &wedge + &note(32);
    let (rows, losses) = read(&(measure(1, &first) + &measure(2, &second)));
    assert!(!rows.iter().any(|row| row.contains("cresc")), "{rows:?}");
    assert!(
        losses
            .iter()
            .any(|loss| loss.ends_with("a wedge that leads nowhere is left out"))
    );
}

#[test]
fn a_pickup_is_a_bar_that_begins_with_rests() {
    let measures = measure(0, &(opening(3, 4) + &note("G4 quarter")))
        + &measure(1, &notes("C5 half, B4 quarter"))
        + &measure(2, &notes("C5 half"));
    let (rows, losses) = read(&measures);
    assert_eq!(losses, NONE);
    assert_eq!(
        rows[1..],
        [
            "each = \"half\"",
            "notes = \"mf rest G4:quarter | C5 B4:quarter | C5\""
        ]
    );
}

#[test]
fn repeats_and_endings_are_written_out_and_begin_lines() {
    let bar_line =
        |place: &str, inside: &str| format!("<barline location=\"{place}\">{inside}</barline>");
    let measures = measure(
        1,
        &(opening(4, 4)
            + &bar_line("left", "<repeat direction=\"forward\"/>")
            + &notes("C4 half, D4 half")),
    ) + &measure(
        2,
        &(bar_line("left", "<ending number=\"1\" type=\"start\"/>")
            + &note("E4 whole")
            + &bar_line(
                "right",
                "<ending number=\"1\" type=\"stop\"/><repeat direction=\"backward\"/>",
            )),
    ) + &measure(
        3,
        &(bar_line("left", "<ending number=\"2\" type=\"start\"/>")
            + &note("F4 whole")
            + &bar_line("right", "<ending number=\"2\" type=\"stop\"/>")),
    ) + &measure(4, &note("G4 whole"));
    let (rows, losses) = read(&measures);
    assert_eq!(losses, NONE);
    assert_eq!(
        rows,
        [
            "name = \"Bars 1 to 3\"",
            "each = \"half\"",
            "notes = \"mf C4 D4 | E4:whole | C4 D4 | F4:whole\"",
            "name = \"Bar 4\"",
            "notes = \"mf G4:whole\"",
        ]
    );
}

#[test]
fn lines_begin_at_marks_and_double_bars_or_else_at_systems() {
    let one = |more: &str| format!("{more}{}", note("C4 whole"));
    let double = "<barline location=\"right\"><bar-style>light-light</bar-style></barline>";
    let mark = direction("<rehearsal>Long tones</rehearsal>");
    let system = "<print new-system=\"yes\"/>";
    let names = |measures: &str| -> Vec<String> {
        let (rows, losses) = read(measures);
        assert_eq!(losses, NONE);
        rows.into_iter().filter(|r| r.starts_with("name")).collect()
    };
    let measures = measure(1, &(opening(4, 4) + &one("")))
        + &measure(2, &(one(system) + double))
        + &measure(3, &one(""))
        + &measure(4, &one(&mark));
    assert_eq!(
        names(&measures),
        [
            "name = \"Bars 1 to 2\"",
            "name = \"Bar 3\"",
            "name = \"Long tones\""
        ]
    );
    let measures =
        measure(1, &(opening(4, 4) + &one(""))) + &measure(2, &one(system)) + &measure(3, &one(""));
    assert_eq!(
        names(&measures),
        ["name = \"Bar 1\"", "name = \"Bars 2 to 3\""]
    );
    // Not where a tie goes over the end of a system.
    let measures = measure(
        1,
        &(opening(4, 4) + &note_with("C4 whole", "<tie type=\"start\"/>")),
    ) + &measure(
        2,
        &(system.to_owned() + &note_with("C4 whole", "<tie type=\"stop\"/>")),
    );
    assert_eq!(names(&measures), ["name = \"Bars 1 to 2\""]);
}

#[test]
fn one_pattern_lower_and_lower_is_written_once() {
    let measures = measure(1, &(opening(4, 4) + &notes("G4 half, F#4 half")))
        + &measure(2, &note("rest whole"))
        + &measure(3, &notes("F#4 half, F4 half"))
        + &measure(4, &note("rest whole"))
        + &measure(5, &notes("F4 half, E4 half"));
    let (rows, losses) = read(&measures);
    assert_eq!(losses, NONE);
    // The rests between are as long as what is played: that is what a routine does anyway.
    assert_eq!(
        rows[1..],
        [
            "notes = \"mf G4:half F#4:half\"",
            "half_steps = [0, -1, -2]"
        ]
    );
}

#[test]
fn open_notes_lowered_by_tubes_are_a_line_on_tubes() {
    let on = |tube: &str, low: &str, high: &str| {
        let with =
            format!("<notations><technical><fingering>{tube}</fingering></technical></notations>");
        note_with(&format!("{high} half"), &with) + &note_with(&format!("{low} half"), &with)
    };
    let measures = measure(1, &(opening(4, 4) + &on("0", "G4", "C5")))
        + &measure(2, &on("2", "F#4", "B4"))
        + &measure(3, &on("1-3", "D4", "G4"));
    let (rows, losses) = read(&measures);
    assert_eq!(losses, NONE);
    assert_eq!(
        rows[1..],
        [
            "open = \"mf C5:half G4:half\"",
            "tubes = [\"0\", \"2\", \"1-3\"]",
            "between = \"none\""
        ]
    );
    // Without the fingerings G4 on 1-3 would be G4 on the open horn, and the line one of half steps.
    let plain = measures.replace("<fingering>1-3</fingering>", "");
    let (rows, _) = read(&plain);
    assert_eq!(
        rows[1..],
        [
            "notes = \"mf C5:half G4:half\"",
            "half_steps = [0, -1, -5]",
            "between = \"none\""
        ]
    );
}

/// A fourth valve sounds C4, and a trumpet has none: found by the test of wild numbers.
#[test]
fn fingerings_of_another_instrument_are_lost_and_told() {
    let with = |tube: &str| {
        format!("<notations><technical><fingering>{tube}</fingering></technical></notations>")
    };
    for tube in ["4", "2-4", "7", "1-2-3-4"] {
        for pitch in ["C4", "G4", "B3", "F#3"] {
            let measures = measure(
                1,
                &(opening(4, 4) + &note_with(&format!("{pitch} whole"), &with(tube))),
            );
            let (rows, losses) = read(&measures);
            assert!(
                rows.iter().all(|row| !row.contains('[')),
                "{tube}: {rows:?}"
            );
            assert!(
                losses.iter().any(|loss| loss.contains("fingering")),
                "{tube}: {losses:?}"
            );
        }
    }
}

#[test]
fn slurred_and_then_tongued_is_said_in_words() {
    let start = "<notations><slur type=\"start\"/></notations>";
    let stop = "<notations><slur type=\"stop\"/></notations>";
    let measures = measure(
        1,
        &(opening(4, 4) + &note_with("C4 half", start) + &note_with("E4 half", stop)),
    ) + &measure(2, &notes("C4 half, E4 half"));
    let (rows, losses) = read(&measures);
    assert_eq!(losses, NONE);
    assert_eq!(
        rows[1..],
        [
            "notes = \"mf C4:half E4:half\"",
            "articulation = [\"slurred\", \"tongued\"]",
            "between = \"none\""
        ]
    );
}

#[test]
fn shorter_notes_than_sixteenths_make_the_line_longer() {
    let short = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>3</duration><voice>1</voice>\
                 <type>32nd</type></note>";
    let opening = opening(2, 4).replace("<divisions>12<", "<divisions>24<");
    let content = opening + &short.repeat(8) + &note("C4 half");
    // A half note of 24 divisions is a quarter here.
    let content = content.replace("<type>half</type>", "<type>quarter</type>");
    let (rows, losses) = read(&measure(1, &content));
    assert_eq!(
        rows,
        [
            "name = \"Bar 1\"",
            "each = \"sixteenth\"",
            "notes = \"mf C4 C4 C4 C4 C4 C4 C4 C4 C4:half\""
        ]
    );
    assert_eq!(
        losses,
        [
            "line 1 “Bar 1”, bar 1: notes shorter than a sixteenth: all of it is written twice as long, and played \
             twice as fast"
        ]
    );
}

#[test]
fn what_cannot_be_kept_is_told_with_its_bars() {
    let grace =
        "<note><grace/><pitch><step>D</step><octave>4</octave></pitch><voice>1</voice></note>";
    let trill = "<notations><ornaments><trill-mark/></ornaments></notations>";
    let word = "<lyric><text>la</text></lyric>";
    let chord = "<note><chord/><pitch><step>E</step><octave>4</octave></pitch><duration>48</duration>\
                 <voice>1</voice><type>whole</type></note>";
    let measures = measure(1, &(opening(4, 4) + grace + &note_with("C4 whole", trill)))
        + &measure(2, &(grace.to_owned() + &note_with("C4 whole", word)))
        + &measure(3, &(note("C4 whole") + chord));
    let (rows, losses) = read(&measures);
    assert_eq!(rows[1], "notes = \"mf C4:whole | C4:whole | E4:whole\"");
    assert_eq!(
        losses,
        [
            "line 1 “Bars 1 to 3”, bars 1 and 2: grace notes are left out",
            "line 1 “Bars 1 to 3”, bar 1: trills, turns and other ornaments are left out",
            "line 1 “Bars 1 to 3”, bar 2: words under the notes are left out",
            "line 1 “Bars 1 to 3”, bar 3: of notes at once only the highest is kept",
        ]
    );
}

#[test]
fn text_from_a_file_cannot_break_out_of_its_place() {
    let evil = "a\" ]]&#10;[[line]]\\u0022";
    let measures = measure(
        1,
        &(opening(4, 4)
            + &direction(&format!("<rehearsal>{evil}</rehearsal>"))
            + &direction(&format!("<words>{evil}</words>"))
            + &note("C4 whole")),
    ) + &measure(
        2,
        &(direction(&format!("<words>{evil}</words>")) + &note("C4 half") + &note("D4 half")),
    );
    let adopted = adopt_xml(&score(&measures)).unwrap();
    let read = understood(&adopted.text);
    assert_eq!(read.lines.len(), 1);
    assert_eq!(read.lines[0].name, "a\" ]] [[line]]\\u0022");
    assert_eq!(read.lines[0].say.as_deref(), Some("a\" ]] [[line]]\\u0022"));
    assert!(adopted.text.contains("# Bar 2: a\" ]] [[line]]\\u0022\n"));
}

#[test]
fn a_part_for_another_instrument_sounds_as_before() {
    // Written C4 on a trumpet in C sounds as D4 written for one in B-flat.
    let in_c = opening(4, 4).replace("<chromatic>-2</chromatic>", "<chromatic>0</chromatic>");
    let (rows, _) = read(&measure(1, &(in_c + &note("C4 whole"))));
    assert_eq!(rows[1], "notes = \"mf D4:whole\"");
    // Too high by an octave: it is taken down, all of it, and told.
    let (rows, losses) = read(&measure(1, &(opening(4, 4) + &notes("E6 half, C5 half"))));
    assert_eq!(
        (rows[1].as_str(), losses.len()),
        ("notes = \"mf E5:half C4:half\"", 0)
    );
}

#[test]
fn music_for_several_is_refused_until_one_is_chosen() {
    let second = note("E4 whole").replace("<voice>1<", "<voice>2<");
    let measures = measure(
        1,
        &(opening(4, 4) + &note("C5 whole") + "<backup><duration>48</duration></backup>" + &second),
    );
    let text = score(&measures);
    let refusal = adopt_xml(&text).unwrap_err();
    assert_eq!(
        refusal.message,
        "it is music for more than one, and a routine is for one player: 1 Trumpet, first voice; 2 Trumpet, second voice"
    );
    assert_eq!(
        refusal.hint.as_deref(),
        Some("choose with --part, by number or name: --part 1")
    );
    for (part, note) in [("1", "C5"), ("2", "E4"), ("trumpet, second VOICE", "E4")] {
        let piece = leadpipe::exchange::musicxml::read(&text, Some(part)).unwrap();
        let adopted = super::adopted(&piece);
        assert!(
            adopted
                .text
                .contains(&format!("notes = \"mf {note}:whole\"")),
            "{part}"
        );
    }
    let refusal = leadpipe::exchange::musicxml::read(&text, Some("3")).unwrap_err();
    assert_eq!(refusal.message, "there is no part “3” in it");
}
