//! What is written of what the routine says: accidentals, ties, beams, rests, triplets, ledger lines.

use super::{glyphs, of_kind, routine_of, texts, unroll};
use leadpipe::sheet::page::{DrawnKind, Page};
use leadpipe::sheet::{SheetFingerings, SheetOptions, SheetPasses, strip};

fn strip_with(line: &str, options: SheetOptions) -> Page {
    strip(&unroll(&routine_of(&[line])), 0, &options, None, 500.0)
}

fn strip_of(line: &str) -> Page {
    strip_with(line, SheetOptions::default())
}

#[test]
fn an_accidental_holds_to_the_bar_line_and_is_undone_once_after_it() {
    let line =
        "notes = \"F#4:quarter F#4:quarter F4:quarter F#4:quarter | F4:half F4:half | F4:whole\"";
    assert_eq!(
        glyphs(&strip_of(line), DrawnKind::Accidental),
        [
            "accidentalSharp",
            "accidentalNatural",
            "accidentalSharp",
            "accidentalNatural"
        ]
    );
    // Tied over the bar line it needs none; struck again there it does.
    let line = "notes = \"Bb4:whole tie:half Bb4:half | B4:whole\"";
    let line = line.replace("Bb4:whole tie:half", "Bb4:whole | tie:half");
    assert_eq!(
        glyphs(&strip_of(&line), DrawnKind::Accidental),
        ["accidentalFlat", "accidentalFlat", "accidentalNatural"]
    );
}

#[test]
fn what_crosses_a_bar_line_is_tied_and_what_cannot_be_one_note_is_split() {
    let page = strip_of("notes = \"C4:half. D4:half. E4:half.\"");
    assert_eq!(of_kind(&page, DrawnKind::Tie).len(), 2);
    // Three quarters, then D as quarter and half, then E as half and quarter, then rests.
    assert_eq!(
        glyphs(&page, DrawnKind::Head),
        [
            "noteheadHalf",
            "noteheadBlack",
            "noteheadHalf",
            "noteheadHalf",
            "noteheadBlack"
        ]
    );
    // The teacher's own ties stay as they were written.
    let page = strip_of("notes = \"C4:quarter tie:eighth D4:eighth C4:half\"");
    assert_eq!(of_kind(&page, DrawnKind::Tie).len(), 1);
    assert_eq!(of_kind(&page, DrawnKind::Head).len(), 4);
}

/// Beams of the outermost level a strip has: each joins a group, and their number is known.
fn beams(line: &str) -> usize {
    of_kind(&strip_of(line), DrawnKind::Beam).len()
}

#[test]
fn beams_join_the_notes_of_a_beat() {
    let eighths = |meter: &str, count: usize| {
        let notes = vec!["C4"; count].join(" ");
        beams(&format!(
            "meter = \"{meter}\"\neach = \"eighth\"\nnotes = \"{notes}\""
        ))
    };
    assert_eq!(eighths("4/4", 8), 4);
    assert_eq!(eighths("3/4", 6), 3);
    assert_eq!(eighths("2/2", 8), 2);
    assert_eq!(eighths("6/8", 6), 2);
    assert_eq!(eighths("12/8", 12), 4);
    assert_eq!(eighths("3/8", 3), 1);
    assert_eq!(eighths("5/8", 5), 2);
    assert_eq!(eighths("7/8", 7), 3);
    // One primary beam, and a stub for the sixteenth.
    assert_eq!(beams("notes = \"C4:eighth. D4:sixteenth rest:half.\""), 2);
    // A rest parts them, and one alone has a flag.
    let page = strip_of("each = \"eighth\"\nnotes = \"C4 rest C4 C4\"");
    assert_eq!(
        (
            of_kind(&page, DrawnKind::Beam).len(),
            of_kind(&page, DrawnKind::Flag).len()
        ),
        (1, 1)
    );
}

#[test]
fn ledger_lines_reach_to_the_note() {
    for (pitch, lines) in [
        ("D4", 0),
        ("C4", 1),
        ("B3", 1),
        ("A3", 2),
        ("F#3", 3),
        ("G5", 0),
        ("A5", 1),
        ("C6", 2),
    ] {
        let page = strip_of(&format!("notes = \"{pitch}:whole\""));
        assert_eq!(
            of_kind(&page, DrawnKind::LedgerLine).len(),
            lines,
            "{pitch}"
        );
    }
}

#[test]
fn rests_and_triplets() {
    let page = strip_of("notes = \"C4:whole | rest:whole | rest:quarter C4:quarter rest:half\"");
    assert_eq!(
        glyphs(&page, DrawnKind::Rest),
        ["restWhole", "restQuarter", "restHalf"]
    );
    let page = strip_of("meter = \"3/4\"\nnotes = \"C4:half. | rest:half.\"");
    assert_eq!(glyphs(&page, DrawnKind::Rest), ["restWhole"]);
    let page = strip_of("notes = \"triplet( C4:quarter D4:quarter rest:quarter ) C4:half\"");
    assert_eq!(glyphs(&page, DrawnKind::Bracket), ["tuplet3"]);
    assert_eq!(glyphs(&page, DrawnKind::Rest), ["restQuarter"]);
}

#[test]
fn slurs_follow_the_passes_articulation() {
    let slurs = |line: &str| of_kind(&strip_of(line), DrawnKind::Slur).len();
    assert_eq!(
        slurs("notes = \"slur( C4:half D4:half ) slur( E4:half F4:half )\""),
        2
    );
    // A breath breaks it.
    assert_eq!(
        slurs("notes = \"slur( C4:half D4:half breath E4:half F4:half )\""),
        2
    );
    assert_eq!(
        slurs("notes = \"C4:half D4:half\"\narticulation = \"slurred\""),
        1
    );
    assert_eq!(
        slurs("notes = \"slur( C4:half D4:half )\"\narticulation = \"tongued\""),
        0
    );
    let both = "notes = \"C4:half E4:half\"\narticulation = [\"slurred\", \"tongued\"]";
    assert_eq!(
        texts(&strip_of(both), DrawnKind::Words),
        ["slurred, then tongued"]
    );
}

#[test]
fn fingerings_are_shown_as_asked() {
    let shown = |line: &str, fingerings| {
        let options = SheetOptions {
            fingerings,
            ..SheetOptions::default()
        };
        texts(&strip_with(line, options), DrawnKind::Fingering)
    };
    let line = "notes = \"C4:quarter F#4:quarter F#4:quarter G4:quarter[1-3]\"";
    assert_eq!(shown(line, SheetFingerings::All), ["0", "2", "1-3"]);
    assert_eq!(shown(line, SheetFingerings::Unusual), ["2", "1-3"]);
    assert_eq!(shown(line, SheetFingerings::None), ["1-3"]);
    // The level of these routines is the second, so that the usual ones are known.
    assert_eq!(shown(line, SheetFingerings::ByLevel), ["2", "1-3"]);
    // A tube says it for all its notes; a bend stays on the valves before it.
    let tubes = "open = \"C4:half G4:half\"\ntubes = [\"1-2\"]";
    assert!(shown(tubes, SheetFingerings::All).is_empty());
    assert_eq!(texts(&strip_of(tubes), DrawnKind::Words), ["on 1-2"]);
    let bend = "notes = \"G4:half F#4:half(bend)\"";
    assert_eq!(shown(bend, SheetFingerings::None), ["0"]);
    assert_eq!(texts(&strip_of(bend), DrawnKind::Words), ["bend"]);
}

#[test]
fn the_slide_goes_out_for_the_low_notes_of_the_long_tubes() {
    let words = |line: &str| texts(&strip_of(line), DrawnKind::Words);
    for (pitch, out) in [
        ("D4", true),
        ("C#4", true),
        ("G3", true),
        ("F#3", true),
        ("E4", false),
        ("G4", false),
    ] {
        let shown = words(&format!("notes = \"{pitch}:whole\""));
        assert_eq!(
            shown.contains(&"third slide out".to_owned()),
            out,
            "{pitch}"
        );
    }
}

#[test]
fn long_walks_are_written_at_both_ends_or_in_full() {
    let line =
        "open = \"C4:half G4:half\"\ntubes = [\"0\", \"2\", \"1\", \"1-2\", \"2-3\"]\ntimes = 5";
    let page = strip_of(line);
    assert_eq!(of_kind(&page, DrawnKind::Head).len(), 4);
    let words = texts(&page, DrawnKind::Words).join(" ");
    assert!(
        words.starts_with("on the open horn, 5 times each then on 2 from B3, on 1 from Bb3"),
        "{words}"
    );
    let all = SheetOptions {
        passes: SheetPasses::All,
        ..SheetOptions::default()
    };
    assert_eq!(of_kind(&strip_with(line, all), DrawnKind::Head).len(), 10);
}

#[test]
fn dynamics_hairpins_breaths_and_the_way_a_note_is_held() {
    let page = strip_of(
        "notes = \"p cresc C4:half D4:half | f E4:half breath dim F4:half | pp G4:whole\"",
    );
    assert_eq!(
        glyphs(&page, DrawnKind::Dynamic),
        ["dynamicPiano", "dynamicForte", "dynamicPP"]
    );
    // Two strokes each.
    assert_eq!(of_kind(&page, DrawnKind::Hairpin).len(), 4);
    assert_eq!(of_kind(&page, DrawnKind::BreathMark).len(), 1);
    let line = page
        .blocks
        .iter()
        .flat_map(|b| &b.marks)
        .filter(|m| m.kind == DrawnKind::Dynamic);
    let heights: Vec<f64> = line
        .map(|m| match m.shape {
            leadpipe::sheet::page::Shape::Glyph { at, .. } => at.1,
            _ => panic!("dynamics are glyphs"),
        })
        .collect();
    assert!(heights.windows(2).all(|h| h[0] == h[1]), "{heights:?}");
    // What a pass starts with unsaid is not written.
    assert!(glyphs(&strip_of("notes = \"C4:whole\""), DrawnKind::Dynamic).is_empty());
    let held = strip_of(
        "notes = \"C4:quarter(staccato) C5:quarter(staccato) C4:quarter(legato) C5:quarter(accent)\"",
    );
    assert_eq!(
        glyphs(&held, DrawnKind::Articulation),
        [
            "articStaccatoBelow",
            "articStaccatoAbove",
            "articTenutoBelow",
            "articAccentAbove"
        ]
    );
}

#[test]
fn breathing_stands_on_one_line_and_the_mouthpiece_says_so() {
    let page =
        strip_of("on = \"air\"\nnotes = \"in:half out:half | hold:whole | tie:half rest:half\"");
    assert_eq!(of_kind(&page, DrawnKind::StaffLine).len(), 1);
    assert_eq!(texts(&page, DrawnKind::Words), ["in", "out", "hold"]);
    assert!(of_kind(&page, DrawnKind::Clef).is_empty());
    let page = strip_of("on = \"mouthpiece\"\nnotes = \"C#4:whole\"");
    assert_eq!(texts(&page, DrawnKind::Words), ["mouthpiece alone"]);
    assert!(of_kind(&page, DrawnKind::Fingering).is_empty());
}

#[test]
fn an_echo_says_to_listen_first() {
    let page = strip_of("notes = \"C4:whole\"\nguide = \"echo\"");
    assert_eq!(texts(&page, DrawnKind::Words), ["listen first, then play"]);
}

#[test]
fn a_walk_that_comes_back_says_so() {
    let page = strip_of("notes = \"E4:whole\"\nhalf_steps = [0, 2, 0]\narticulation = \"tongued\"");
    assert_eq!(
        texts(&page, DrawnKind::Words),
        ["tongued", "2 half steps up", "as at first"]
    );
}

#[test]
fn heads_are_numbered_as_in_the_score() {
    let page = strip_of("notes = \"C4:whole | tie:half D4:half\"\nhalf_steps = [0, -1]");
    let heads: Vec<_> = page
        .blocks
        .iter()
        .flat_map(|b| &b.notes)
        .map(|n| (n.pass, n.note, n.head, n.step))
        .collect();
    assert_eq!(
        heads,
        [
            (0, 0, 0, -2),
            (0, 0, 1, -2),
            (0, 1, 0, -1),
            (1, 0, 0, -3),
            (1, 0, 1, -3),
            (1, 1, 0, -2)
        ]
    );
}

#[test]
fn the_meter_and_the_tempo_stand_at_the_beginning() {
    let page = strip_of("meter = \"12/8\"\ntempo = 60.5\nnotes = \"C4:half. tie:half.\"");
    assert_eq!(glyphs(&page, DrawnKind::Meter).len(), 3);
    assert_eq!(texts(&page, DrawnKind::Tempo), ["= 60.5"]);
    assert_eq!(
        glyphs(&page, DrawnKind::Tempo),
        ["metNoteQuarterUp", "metAugmentationDot"]
    );
}

/// A line at several tempos is printed once, with all of them over it.
#[test]
fn several_tempos_stand_over_one_line() {
    let routine = routine_of(&[
        "notes = \"C4:whole\"\ntempo = [80, 96, 112]",
        "notes = \"C4:whole\"",
    ]);
    let sheet = leadpipe::sheet::engrave(&unroll(&routine), &SheetOptions::default());
    let said: Vec<String> = sheet
        .pages
        .iter()
        .flat_map(|page| texts(page, DrawnKind::Tempo))
        .collect();
    assert_eq!(
        said.iter().filter(|t| *t == "= 80, 96, 112").count(),
        1,
        "{said:?}"
    );
    let words: Vec<String> = sheet
        .pages
        .iter()
        .flat_map(|page| texts(page, DrawnKind::Text))
        .collect();
    let words = words.join(" ");
    assert!(
        words.contains("Once at each tempo; between them rest"),
        "{words}"
    );
}
