//! ABC: what the standard 2.1 says of each sign, and what is told of those that are not kept.

use super::adopted;
use leadpipe::exchange::abc;
use leadpipe::problem::Problem;
use leadpipe::routine;

fn tune(head: &str, music: &str) -> (Vec<String>, Vec<String>) {
    let text = format!("X:1\nT:A tune\n{head}\n{music}\n");
    let piece = abc::read(&text, None).unwrap_or_else(|refusal| panic!("{refusal:?}"));
    let made = adopted(&piece);
    assert!(routine::read(&made.text).is_ok(), "{}", made.text);
    let rows = made.text.lines().filter(|row| {
        ["notes", "times", "tempo", "meter"]
            .iter()
            .any(|key| row.starts_with(key))
    });
    let plain = |row: &str| row.split("  #").next().unwrap_or_default().to_owned();
    let losses = made.losses.iter().map(|loss| match loss.split_once(": ") {
        Some((_, what)) => what.to_owned(),
        None => loss.clone(),
    });
    (rows.map(plain).collect(), losses.collect())
}

/// The notes of a tune in eighths and four quarters, in C.
fn notes(music: &str) -> String {
    let (rows, losses) = tune("M:4/4\nL:1/8\nK:C", music);
    assert_eq!(losses, [""; 0], "{music}");
    let all: Vec<&str> = rows
        .iter()
        .filter_map(|row| row.strip_prefix("notes = "))
        .collect();
    all.join(" ").replace('"', "")
}

#[test]
fn letters_octaves_and_lengths() {
    assert_eq!(
        notes("C D2 ^F _B, z3 |"),
        "mf C4 D4:quarter F#4 Bb3 rest:quarter."
    );
    assert_eq!(
        notes("c6 d/ e/ x |"),
        "mf C5:half. D5:sixteenth E5:sixteenth rest:eighth"
    );
    assert_eq!(
        notes("f3/2 g/ z6 | C8 |"),
        "mf F5:eighth. G5:sixteenth rest:half. | C4:whole"
    );
    assert_eq!(
        notes("C' B, C/C/ z z2 z2|"),
        notes("c B, C1/2 C1/2 z z2 z2|")
    );
}

#[test]
fn broken_rhythms_are_dotted() {
    assert_eq!(
        notes("C>D E<F G2 A2|"),
        "mf C4:eighth. D4:sixteenth E4:sixteenth F4:eighth. G4:quarter A4:quarter"
    );
    assert_eq!(notes("C2>>D2 G4|"), notes("C7/2 D/ G4|"));
}

#[test]
fn accidentals_hold_for_a_bar_and_ties_go_over_it() {
    assert_eq!(notes("^F4 F4 | F8 |"), "mf F#4:half F#4:half | F4:whole");
    assert_eq!(notes("^F4 =F4 | F8 |"), "mf F#4:half F4:half | F4:whole");
    // Those of another octave, too.
    assert_eq!(notes("^F4 f4 | f8 |"), "mf F#4:half F#5:half | F5:whole");
    assert_eq!(notes("^F8- | F4 G4 |"), "mf F#4:whole | tie:half G4:half");
    assert_eq!(notes("C4 D4- | D4 E4 |"), "mf C4 D4 | tie E4");
}

#[test]
fn keys_sharpen_and_flatten_and_are_the_routines() {
    let (rows, losses) = tune("M:4/4\nL:1/4\nK:Bb", "B E =E G |");
    assert_eq!(
        rows,
        [
            "tempo = 72",
            "meter = \"4/4\"",
            "notes = \"mf Bb4 Eb4 E4 G4\""
        ]
    );
    assert_eq!(losses, [""; 0]);
    let text = "X:1\nM:4/4\nL:1/4\nK:F#m\nF G A B |\n";
    let made = adopted(&abc::read(text, None).unwrap());
    assert!(
        made.text.contains("key = \"F-sharp minor\""),
        "{}",
        made.text
    );
    let (_, losses) = tune("M:4/4\nL:1/4\nK:D dor", "D E F G |");
    assert_eq!(
        losses,
        ["a key that is neither major nor minor is the major key of its signature"]
    );
}

#[test]
fn triplets_and_slurs() {
    assert_eq!(
        notes("(3CDE F2 (G2 A2)|"),
        "mf triplet( C4:eighth D4:eighth E4:eighth ) F4:quarter slur( G4:quarter A4:quarter )"
    );
    assert_eq!(
        notes("(3C2D2E2 (F4|G8) |"),
        "mf triplet( C4 D4 E4 ) slur( F4:half | G4:whole )"
    );
}

#[test]
fn repeats_and_endings() {
    assert_eq!(notes("|:C8|D8:|E8|"), "mf C4:whole | D4:whole mf E4:whole");
    assert_eq!(notes("C8|1 D8:|2 E8|]"), "mf C4 | D4 | C4 | E4");
    // Back to the last double bar, as the standard has it.
    let (rows, _) = tune("M:4/4\nL:1/8\nK:C", "C8|D8||E8|F8:|");
    assert_eq!(
        rows[2..],
        [
            "notes = \"mf C4:whole | D4:whole\"",
            "notes = \"mf E4:whole | F4:whole\"",
            "times = 2"
        ]
    );
}

#[test]
fn tempo_meter_and_rests_of_bars() {
    let (rows, losses) = tune("M:6/8\nL:1/8\nQ:3/8=60\nK:C", "C3 D3 | Z2 | E6 |]");
    assert_eq!(
        rows,
        [
            "tempo = 60",
            "meter = \"6/8\"",
            "notes = \"mf C4:quarter. D4:quarter. | rest | rest | E4\""
        ]
    );
    assert_eq!(losses, [""; 0]);
}

#[test]
fn signs_that_are_kept_and_signs_that_are_told() {
    assert_eq!(
        notes(".C4 !accent!D4|!f!C4 !tenuto!D4 !breath!|"),
        "mf C4(staccato) D4(accent) | f C4 D4(legato) breath"
    );
    for (music, lost) in [
        ("{g}C8|", "grace notes are left out"),
        ("\"Am\"C8|", "chord symbols are left out"),
        ("TC8|", "trills, turns and other ornaments are left out"),
        ("uC8|", "bowings and other signs of technique are left out"),
        ("HC8|", "a fermata is not kept, for the click goes on"),
        ("[CE]8|", "of notes at once only the highest is kept"),
        ("C8|\nw:la", "words under the notes are left out"),
        ("C4 D4 & E8|", "second voices in a bar are left out"),
        ("C8|\n[V:2] D8|", "voices other than the first are left out"),
    ] {
        assert_eq!(tune("M:4/4\nL:1/8\nK:C", music).1, [lost], "{music}");
    }
}

#[test]
fn words_and_parts_are_kept() {
    let text = "X:1\nM:4/4\nL:1/8\nK:C\nP:A\n\"^softly\"C8|\nP:B\nD8|\n";
    let made = adopted(&abc::read(text, None).unwrap());
    assert!(made.text.contains("name = \"A\""), "{}", made.text);
    assert!(made.text.contains("say = \"softly\""), "{}", made.text);
    assert!(made.text.contains("name = \"B\""), "{}", made.text);
}

#[test]
fn several_tunes_are_listed_and_chosen() {
    let book = "% a book\n\nX:1\nT:First\nK:C\nC8|\n\nfree text\n\nX:7\nT:Second\nK:C\nD8|\n";
    let refusal = abc::read(book, None).unwrap_err();
    assert_eq!(refusal.message, "it holds several tunes: 1 First; 7 Second");
    assert_eq!(
        refusal.hint.as_deref(),
        Some("choose with --part, by number or title: --part 1")
    );
    let title = |wanted| abc::read(book, Some(wanted)).map(|piece| piece.title.unwrap());
    assert_eq!(title("7").unwrap(), "Second");
    assert_eq!(title("first").unwrap(), "First");
    let missing: Problem = title("2").unwrap_err();
    assert_eq!(missing.message, "there is no tune “2” in it");
}

#[test]
fn a_tune_without_notes_or_of_endless_bars_is_refused() {
    let refused = |music: &str| {
        let text = format!("X:1\nM:4/4\nK:C\n{music}\n");
        abc::read(&text, None).map(|_| ()).unwrap_err().message
    };
    assert_eq!(refused("z8|"), "there is no note in it");
    assert_eq!(
        refused("CZ99999|Z99999|"),
        "it has more than 20000 bars, which no warm-up needs"
    );
    assert_eq!(
        refused(&"C/".repeat(110_000)),
        "it has more than 100,000 notes and signs, which no warm-up needs"
    );
}
