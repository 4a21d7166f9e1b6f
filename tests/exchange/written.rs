//! What stands in an exported MusicXML file, element by element. That the whole is valid against the W3C's schema, and
//! that another library reads the same music in it, is tested by `.ci/exchange`.

use super::{built_in, line, routine, unroll};
use leadpipe::exchange::musicxml::{FingeredNotes, write};
use roxmltree::{Document, Node, ParsingOptions};

fn with_document<T>(text: &str, then: impl FnOnce(Node<'_, '_>) -> T) -> T {
    let options = ParsingOptions {
        allow_dtd: true,
        ..ParsingOptions::default()
    };
    let document = Document::parse_with_options(text, options).unwrap();
    then(document.root_element())
}

/// Texts of all elements of a name, or their attribute.
fn all(text: &str, element: &str, attribute: Option<&str>) -> Vec<String> {
    with_document(text, |root| {
        root.descendants()
            .filter(|n| n.has_tag_name(element))
            .map(|n| match attribute {
                Some(name) => n.attribute(name).unwrap_or("-").to_owned(),
                None => n.text().unwrap_or_default().to_owned(),
            })
            .collect()
    })
}

fn xml(text: &str) -> String {
    write(&unroll(&line(text)), FingeredNotes::Unusual)
}

#[test]
fn measures_are_full_in_every_built_in_routine() {
    for (name, text) in built_in() {
        let routine = routine(text);
        let text = write(&unroll(&routine), FingeredNotes::All);
        with_document(&text, |root| {
            let mut bar = 0;
            let mut divisions = 0;
            for measure in root.descendants().filter(|n| n.has_tag_name("measure")) {
                let number = |name: &str| -> Option<i64> {
                    let found = measure.descendants().find(|n| n.has_tag_name(name))?;
                    found.text()?.parse().ok()
                };
                divisions = number("divisions").unwrap_or(divisions);
                if let (Some(beats), Some(unit)) = (number("beats"), number("beat-type")) {
                    bar = 4 * divisions * beats / unit;
                }
                let durations = measure.descendants().filter(|n| n.has_tag_name("duration"));
                let sum: i64 = durations
                    .map(|n| n.text().unwrap().parse::<i64>().unwrap())
                    .sum();
                assert_eq!(
                    sum,
                    bar,
                    "{name}, measure {:?}",
                    measure.attribute("number")
                );
            }
        });
    }
}

#[test]
fn the_transposition_is_the_instruments() {
    let of = |instrument: &str| {
        let text = format!(
            "format = 1\ntitle = \"T\"\ninstrument = \"{instrument}\"\ncomfortable_top = \"G4\"\ntempo = 60\n\
             [[line]]\nname = \"L\"\nnotes = \"C4:whole\"\n"
        );
        let text = write(&unroll(&routine(&text)), FingeredNotes::Unusual);
        (all(&text, "diatonic", None), all(&text, "chromatic", None))
    };
    let one = |text: &str| vec![text.to_owned()];
    // An instrument in B-flat sounds a step of the staff, two half steps, lower.
    for instrument in ["trumpet in B-flat", "cornet", "flugelhorn"] {
        assert_eq!(of(instrument), (one("-1"), one("-2")), "{instrument}");
    }
    assert_eq!(of("trumpet in C"), (vec![], vec![]));
}

#[test]
fn fingerings_are_those_that_are_not_usual_or_all() {
    let tubes = "open = \"C5:half G4:half\"\ntubes = [\"1-3\", \"0\"]";
    // On 1-3 these are G4 and D4: G4 is an open note, D4 is played so anyway.
    assert_eq!(all(&xml(tubes), "fingering", None), ["1-3", "0"]);
    assert_eq!(
        all(&xml(tubes), "fingering", Some("alternate")),
        ["yes", "-"]
    );
    let text = write(&unroll(&line(tubes)), FingeredNotes::All);
    assert_eq!(all(&text, "fingering", None), ["1-3", "1-3", "0", "0"]);
    assert_eq!(
        all(&text, "fingering", Some("alternate")),
        ["yes", "-", "-", "-"]
    );
    let bent = "notes = \"slur( G4:half F#4:half(bend) )\"";
    assert_eq!(all(&xml(bent), "fingering", None), ["0"]);
    assert_eq!(all(&xml(bent), "brass-bend", None).len(), 1);
}

#[test]
fn signs_are_where_the_notes_are() {
    let text = xml(
        "notes = \"p cresc slur( C4:quarter D4:quarter ) f E4:quarter(accent) breath F4:quarter(staccato)\"",
    );
    assert_eq!(all(&text, "slur", Some("type")), ["start", "stop"]);
    assert_eq!(all(&text, "wedge", Some("type")), ["crescendo", "stop"]);
    for name in ["p", "f", "accent", "staccato"] {
        assert_eq!(all(&text, name, None).len(), 1, "{name}");
    }
    assert_eq!(all(&text, "breath-mark", None), ["comma"]);
    let text = xml("notes = \"triplet( C4:eighth D4:eighth E4:eighth ) F4:quarter tie:half\"");
    assert_eq!(all(&text, "actual-notes", None), ["3", "3", "3"]);
    assert_eq!(all(&text, "tuplet", Some("type")), ["start", "stop"]);
    assert_eq!(all(&text, "beam", None), ["begin", "continue", "end"]);
    assert_eq!(all(&text, "tie", Some("type")), ["start", "stop"]);
    assert_eq!(all(&text, "tied", Some("type")), ["start", "stop"]);
    assert_eq!(
        all(&text, "type", None),
        ["eighth", "eighth", "eighth", "quarter", "half"]
    );
}

#[test]
fn a_line_has_its_name_tempo_and_rests() {
    let text = "format = 1\ntitle = \"T\"\ninstrument = \"trumpet\"\ncomfortable_top = \"G4\"\ntempo = 60\n\
        [[line]]\nname = \"One & two\"\nsay = \"Easy.\"\npurpose = \"air\"\nnotes = \"C4:whole\"\nhalf_steps = [0, -1]\n\
        [[line]]\nname = \"Three\"\nmeter = \"6/8\"\ntempo = 61.5\nnotes = \"C4:half.\"\n";
    let text = write(&unroll(&routine(text)), FingeredNotes::Unusual);
    assert_eq!(all(&text, "rehearsal", None), ["One & two", "Three"]);
    assert_eq!(
        all(&text, "words", None),
        ["For: air", "Easy.", "rest", "rest"]
    );
    assert_eq!(all(&text, "beat-unit", None), ["quarter", "quarter"]);
    assert_eq!(all(&text, "beat-unit-dot", None).len(), 1);
    assert_eq!(all(&text, "per-minute", None), ["60", "61.5"]);
    // A dotted quarter is one and a half.
    assert_eq!(all(&text, "sound", Some("tempo")), ["60", "92.25"]);
    assert_eq!(
        all(&text, "bar-style", None),
        ["light-light", "light-heavy"]
    );
    // A bar, a bar of rest, a bar lower, a bar of rest; then one of six.
    assert_eq!(
        all(&text, "measure", Some("number")),
        ["1", "2", "3", "4", "5"]
    );
    assert_eq!(all(&text, "rest", Some("measure")), ["yes", "yes"]);
}

#[test]
fn breathing_is_written_without_pitch() {
    let text =
        xml("on = \"air\"\nnotes = \"in:half out:half | tie:half hold:quarter rest:quarter\"");
    assert_eq!(all(&text, "unpitched", None).len(), 4);
    assert_eq!(all(&text, "text", None), ["in", "out", "hold"]);
    assert_eq!(all(&text, "tie", Some("type")), ["start", "stop"]);
    assert_eq!(all(&text, "step", None), [""; 0]);
    assert_eq!(all(&text, "dynamics", None), [""; 0]);
}
