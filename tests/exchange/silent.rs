//! What was once changed without a word: second endings, ties that are only drawn, chords that name no voice, signs that
//! stand for other bars, repeats inside a bar, words, and everything on the page that is not kept.

use super::documents::{direction, measure, note, note_with, notes, opening, score};
use super::{adopt_xml, adopted};
use leadpipe::exchange::musicxml;

/// The rows of a routine that say its notes, and what was lost.
fn read(measures: &str) -> (Vec<String>, Vec<String>) {
    let adopted = adopt_xml(&score(measures)).unwrap();
    assert!(
        leadpipe::routine::read(&adopted.text).is_ok(),
        "{}",
        adopted.text
    );
    let rows = adopted.text.lines().skip_while(|row| *row != "[[line]]");
    let rows = rows.filter(|row| !row.is_empty() && *row != "[[line]]");
    let plain = |row: &str| !row.starts_with("name") && !row.starts_with("each");
    let rows = rows.filter(|row| plain(row)).map(str::to_owned).collect();
    (rows, adopted.losses)
}

fn bar_line(place: &str, inside: &str) -> String {
    format!("<barline location=\"{place}\">{inside}</barline>")
}

fn bars(contents: &[String]) -> String {
    let numbered = (1..).zip(contents);
    let all = numbered.map(|(number, content)| match number {
        1 => measure(number, &(opening(4, 4) + content)),
        _ => measure(number, content),
    });
    all.collect()
}

/// What is said of one bar of whole notes with something in it.
fn lost(inside: &str) -> Vec<String> {
    let (_, losses) = read(&bars(&[inside.to_owned() + &note("C4 whole")]));
    let plain = |loss: String| match loss.split_once("”, bar 1: ") {
        Some((_, what)) => what.to_owned(),
        None => loss,
    };
    losses.into_iter().map(plain).collect()
}

const NONE: [&str; 0] = [];

#[test]
fn a_second_ending_is_played_if_the_first_has_no_beginning() {
    let back = "<ending number=\"1\" type=\"stop\"/><repeat direction=\"backward\"/>";
    let second = "<ending number=\"2\" type=\"start\"/>";
    let over = "<ending number=\"2\" type=\"stop\"/>";
    let forward = "<repeat direction=\"forward\"/>";
    let (rows, losses) = read(&bars(&[
        bar_line("left", forward) + &note("C4 whole"),
        note("D4 whole") + &bar_line("right", back),
        bar_line("left", second) + &note("E4 whole") + &bar_line("right", over),
        note("F4 whole"),
    ]));
    assert_eq!(rows[0], "notes = \"mf C4 | D4 | C4 | E4\"");
    assert_eq!(rows.last().unwrap(), "notes = \"mf F4:whole\"");
    assert_eq!(
        losses,
        [
            "line 1 “Bars 1 to 3”, bar 2: its ending has a bracket that begins nowhere: it is taken for this bar alone"
        ]
    );
}

#[test]
fn bars_that_nothing_leads_to_are_told() {
    let (_, losses) = read(&bars(&[
        note("C4 whole") + &direction("<words>Fine</words>"),
        note("D4 whole") + &direction("<words>D.C. al Fine</words>"),
        note("E4 whole"),
    ]));
    assert_eq!(
        losses,
        ["bar 3: it is not played: no repeat, ending or jump leads to it"]
    );
}

#[test]
fn ties_that_are_only_drawn_are_held() {
    let tied = |kind: &str| format!("<notations><tied type=\"{kind}\"/></notations>");
    let (rows, losses) = read(&bars(&[
        note_with("C4 whole", &tied("start")),
        note_with("C4 half", &tied("stop")) + &note("D4 half"),
    ]));
    assert_eq!(rows, ["notes = \"mf C4:whole | tie:half D4:half\""]);
    assert_eq!(losses, NONE);
}

#[test]
fn notes_of_a_chord_need_name_no_voice() {
    let in_chord = "<note><chord/><pitch><step>G</step><octave>4</octave></pitch><duration>48</duration><type>whole</type>\
                    </note>";
    let second = note("C4 whole").replace("<voice>1<", "<voice>2<");
    let back = "<backup><duration>48</duration></backup>";
    let measures = measure(
        1,
        &(opening(4, 4) + &note("C5 whole") + back + &second + in_chord),
    );
    let text = score(&measures);
    for (part, pitch) in [("1", "C5"), ("2", "G4")] {
        let piece = musicxml::read(&text, Some(part)).unwrap();
        let adopted = adopted(&piece);
        assert!(
            adopted.text.contains(&format!("mf {pitch}:whole")),
            "{}",
            adopted.text
        );
    }
}

#[test]
fn a_sign_for_the_bar_before_is_that_bar() {
    let again = |kind: &str, content: &str| {
        format!(
            "<attributes><measure-style><measure-repeat type=\"{kind}\">{content}</measure-repeat></measure-style>\
             </attributes>"
        )
    };
    let silence = "<forward><duration>48</duration></forward>";
    let (rows, losses) = read(&bars(&[
        notes("C4 half, D4 half"),
        again("start", "1") + silence,
        silence.to_owned(),
        again("stop", "") + &note("E4 whole"),
    ]));
    assert_eq!(rows, ["notes = \"mf C4 D4 | C4 D4 | C4 D4 | E4:whole\""]);
    assert_eq!(losses, NONE);
}

#[test]
fn slashes_are_no_notes() {
    let slash = "<notehead>slash</notehead>";
    let (rows, losses) = read(&bars(&[
        notes("C4 whole"),
        note_with("B4 half", slash) + &note("D4 half"),
    ]));
    assert_eq!(rows, ["notes = \"mf C4:whole | rest:half D4:half\""]);
    assert_eq!(
        losses,
        ["line 1 “Bars 1 to 2”, bar 2: notes without a pitch are rests"]
    );
}

#[test]
fn a_repeat_inside_a_bar_repeats_what_stands_before_it() {
    let (rows, losses) = read(&bars(&[
        notes("C4 whole"),
        note("D4 half")
            + &bar_line("middle", "<repeat direction=\"backward\"/>")
            + &note("E4 half"),
        notes("F4 whole"),
    ]));
    let joined: Vec<&String> = rows.iter().filter(|row| row.starts_with("notes")).collect();
    assert_eq!(
        joined,
        [
            "notes = \"mf C4:whole D4:half C4:whole D4:half\"",
            "notes = \"mf rest:half E4:half | F4:whole\""
        ]
    );
    assert_eq!(
        losses,
        [
            "line 1 “Bars 1 to 2”, bar 1: not all of its 4 bars are full: they are written without bar lines"
        ]
    );
}

#[test]
fn words_that_begin_with_rest_are_kept() {
    let words = |text: &str| direction(&format!("<words>{text}</words>"));
    let (rows, losses) = read(&bars(&[
        words("rest the elbows") + &note("C4 whole"),
        note("D4 whole") + &words("rest assured"),
    ]));
    assert!(
        rows.contains(&"say = \"rest the elbows\"".to_owned()),
        "{rows:?}"
    );
    assert_eq!(losses, NONE);
    let text = adopt_xml(&score(&bars(&[
        note("C4 whole"),
        words("rest assured") + &note("D4 whole"),
    ])));
    assert!(text.unwrap().text.contains("# Bar 2: rest assured"));
}

#[test]
fn dynamics_may_stand_at_a_note() {
    let loud = "<notations><dynamics><f/></dynamics></notations>";
    let (rows, losses) = read(&bars(&[note_with("C4 whole", loud)]));
    assert_eq!(rows, ["notes = \"f C4:whole\""]);
    assert_eq!(losses, NONE);
}

#[test]
fn signs_that_are_not_kept_are_told() {
    let key =
        |fifths: &str| format!("<attributes><key><fifths>{fifths}</fifths></key></attributes>");
    assert_eq!(lost(&key("0")), NONE);
    // It is the key of the routine.
    assert_eq!(lost(&key("-2")), NONE);
    let clef = "<attributes><clef><sign>F</sign><line>4</line></clef></attributes>";
    assert_eq!(
        lost(clef),
        ["the bass clef is not kept: the part of this instrument is written in treble clef"]
    );
    let swing = "<sound><swing><first>2</first><second>1</second></swing></sound>";
    assert_eq!(lost(swing), ["swing is not kept: the notes are even"]);
    assert_eq!(lost("<sound><swing><straight/></swing></sound>"), NONE);
    for word in ["rit.", "poco accel.", "rallentando"] {
        assert_eq!(
            lost(&direction(&format!("<words>{word}</words>"))),
            ["the tempo does not change little by little here (rit., accel.): it stays"]
        );
    }
}

#[test]
fn names_and_text_around_the_music_are_told() {
    let around = "<identification><creator type=\"composer\">A. Person</creator><rights>All</rights></identification>\
                  <credit><credit-words>A. Person</credit-words></credit>";
    let text = |around: &str| {
        let text = score(&bars(&[note("C4 whole")]));
        let text = text.replace("<part-list>", &format!("{around}<part-list>"));
        adopt_xml(&text).unwrap().losses
    };
    let names = [
        "the names of composer, arranger and poet are not kept",
        "the note of who has the rights is not kept",
    ];
    assert_eq!(text(around), names);
    let more = format!("{around}<credit><credit-words>For Monday</credit-words></credit>");
    assert_eq!(
        text(&more)[2..],
        ["text on the page around the music is not kept"]
    );
}

#[test]
fn notes_that_overlap_are_told() {
    let back = "<backup><duration>24</duration></backup>";
    let (_, losses) = read(&bars(&[note("C4 whole") + back + &note("D4 half")]));
    assert_eq!(
        losses,
        ["line 1 “Bar 1”, bar 1: of notes that overlap one is cut where the other begins or ends"]
    );
}

#[test]
fn a_rest_alone_in_a_bar_keeps_its_length() {
    let rest = "<note><rest/><duration>12</duration><voice>1</voice></note>";
    let (rows, losses) = read(&bars(&[
        rest.to_owned(),
        notes("C4 half., D4 quarter"),
        notes("E4 whole"),
    ]));
    assert_eq!(rows, ["notes = \"mf C4:half. D4:quarter | E4:whole\""]);
    assert_eq!(losses, NONE);
    // Between notes it is as long as it says, and the bars are then not full.
    let (rows, losses) = read(&bars(&[
        notes("C4 whole"),
        rest.to_owned(),
        notes("E4 whole"),
    ]));
    assert_eq!(rows, ["notes = \"mf C4:whole rest:quarter E4:whole\""]);
    assert_eq!(losses.len(), 1, "{losses:?}");
    // A whole rest stands for a bar of any length.
    let whole = "<note><rest measure=\"yes\"/><duration>48</duration><voice>1</voice></note>";
    let three = measure(1, &(opening(3, 4) + &notes("C4 half.")))
        + &measure(2, whole)
        + &measure(3, &notes("D4 quarter, E4 half"));
    let (rows, losses) = read(&three);
    assert_eq!(
        (rows[0].as_str(), losses.len()),
        (
            "notes = \"mf C4:half. | rest:half. | D4:quarter E4:half\"",
            0
        )
    );
}

#[test]
fn a_group_in_a_group_lasts_as_long_as_it_says() {
    // Three sixteenths in the time of two, within three eighths in the time of two: each is one thirty-sixth of a whole
    // note, and says of itself only the inner group.
    let opening = opening(2, 4).replace("<divisions>12<", "<divisions>36<");
    let inner = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration><voice>1</voice><type>16th</type>\
                 <time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification></note>";
    let outer = inner
        .replace("<duration>4<", "<duration>12<")
        .replace("16th", "eighth");
    let half = "<note><pitch><step>D</step><octave>4</octave></pitch><duration>36</duration><voice>1</voice><type>quarter\
                </type></note>";
    let content = opening + &inner.repeat(3) + &outer.repeat(2) + half;
    let piece = musicxml::read(&score(&measure(1, &content)), None).unwrap();
    let symbols = &piece.measures[0].symbols;
    let lengths: Vec<String> = symbols.iter().map(|s| s.length.to_string()).collect();
    assert_eq!(lengths, ["1/36", "1/36", "1/36", "1/12", "1/12", "1/4"]);
}

#[test]
fn a_tie_over_a_change_of_meter_is_held() {
    let time = "<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>";
    let (rows, losses) = read(&bars(&[
        note_with("C4 whole", "<tie type=\"start\"/>"),
        time.to_owned() + &note_with("C4 quarter", "<tie type=\"stop\"/>") + &note("D4 half"),
    ]));
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    assert_eq!(
        rows,
        [
            "notes = \"mf C4:whole | tie:quarter\"",
            "rest = \"none\"",
            "meter = \"3/4\"",
            "notes = \"mf rest:quarter D4:half\"",
        ]
    );
    assert_eq!(losses.len(), 1);
    assert!(losses[0].ends_with(
        "a note tied over a change of meter or tempo is held to its end before the change"
    ));
}

#[test]
fn a_percussion_part_is_refused() {
    let drum = "<note><unpitched><display-step>C</display-step><display-octave>5</display-octave></unpitched><duration>48\
                </duration><voice>1</voice></note>";
    let refusal = adopt_xml(&score(&bars(&[drum.to_owned()]))).unwrap_err();
    assert_eq!(
        refusal.message,
        "Trumpet is a percussion part: its notes have no pitch, and a brass instrument has nothing to play in it"
    );
}

#[test]
fn a_rest_that_is_not_printed_is_time() {
    let hidden = "<note print-object=\"no\"><rest/><duration>12</duration><voice>1</voice></note>";
    let (rows, losses) = read(&bars(&[
        notes("C4 whole"),
        note("D4 half.") + hidden,
        notes("E4 whole"),
    ]));
    assert_eq!(
        rows,
        ["notes = \"mf C4:whole | D4:half. rest:quarter | E4:whole\""]
    );
    assert_eq!(losses, NONE);
}

/// Five sixteenths in the time of four.
fn group_of_five() -> String {
    let one = |duration: u32| {
        format!(
            "<note><pitch><step>D</step><octave>4</octave></pitch><duration>{duration}</duration><voice>1</voice>\
             <type>16th</type><time-modification><actual-notes>5</actual-notes><normal-notes>4</normal-notes>\
             </time-modification></note>"
        )
    };
    [2, 3, 2, 3, 2].map(one).concat()
}

#[test]
fn every_bar_whose_notes_are_moved_is_named() {
    let (_, losses) = read(&bars(&[
        note("C4 whole"),
        note("C4 half.") + &group_of_five(),
        note("C4 whole"),
        group_of_five() + &note("C4 half."),
    ]));
    assert_eq!(
        losses,
        [
            "line 1 “Bars 1 to 4”, bar 1: notes shorter than a sixteenth: all of it is written twice as long, and played \
             twice as fast",
            "line 1 “Bars 1 to 4”, bars 2 and 4: uneven groups of notes are moved to the nearest sixteenths"
        ]
    );
}

#[test]
fn notes_that_are_too_short_are_named() {
    // Of a whole note one part in 512.
    let short = "<note><pitch><step>D</step><octave>4</octave></pitch><duration>0.094</duration><voice>1</voice></note>";
    let shorter = "<note><pitch><step>E</step><octave>4</octave></pitch><duration>11.906</duration><voice>1</voice></note>";
    let (_, losses) = read(&bars(&[
        note("C4 whole"),
        short.to_owned() + shorter + &note("C4 half."),
    ]));
    assert_eq!(
        losses,
        [
            "line 1 “Bars 1 to 2”, bar 2: uneven groups of notes are moved to the nearest sixteenths",
            "line 1 “Bars 1 to 2”, bar 2: notes too short for a sixteenth are left out",
        ]
    );
}
