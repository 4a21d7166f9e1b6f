//! Files that are cut short or changed: refused in words or taken as they are, never a panic, and what is taken is
//! a routine that can be read.

use super::{built_in, choice, export, routine, unroll};
use leadpipe::exchange::{ImportedPiece, adopt, midi, musicxml};
use proptest::prelude::*;
use std::sync::OnceLock;

/// Contents of files.
type Files = Vec<Vec<u8>>;

/// Exported routines, as they are: MusicXML and MIDI.
fn files() -> &'static (Files, Files) {
    static FILES: OnceLock<(Files, Files)> = OnceLock::new();
    FILES.get_or_init(|| {
        let routines: Vec<_> = built_in().map(|(_, text)| routine(text)).collect();
        let xml = routines.iter().map(|r| export(r).into_bytes());
        let midi = routines.iter().map(|r| midi::write(&unroll(r)));
        (xml.collect(), midi.collect())
    })
}

/// Where it is taken, what comes of it is a routine without faults.
fn take(piece: Result<ImportedPiece, leadpipe::problem::Problem>) {
    let Ok(piece) = piece else { return };
    if let Ok(adopted) = adopt(&piece, &choice())
        && let Err(faults) = leadpipe::routine::read(&adopted.text)
    {
        panic!("{}\n{faults:#?}", adopted.text);
    }
}

fn xml(bytes: &[u8]) {
    if let Ok(text) = musicxml::text::decode(bytes) {
        take(musicxml::read(&text, None));
    }
}

/// Bytes changed: where, and to what.
fn changes() -> impl Strategy<Value = Vec<(prop::sample::Index, u8)>> {
    prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..8)
}

/// Digits changed to others: the file stays XML, and its numbers are wild.
fn digits() -> impl Strategy<Value = Vec<(prop::sample::Index, u8)>> {
    prop::collection::vec((any::<prop::sample::Index>(), b'0'..=b'9'), 1..40)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn musicxml_that_is_cut_or_changed(
        which in 0usize..6,
        cut in any::<prop::sample::Index>(),
        changes in changes(),
        whole in any::<bool>(),
    ) {
        let mut bytes = files().0[which].clone();
        for (at, byte) in changes {
            let at = at.index(bytes.len());
            bytes[at] = byte;
        }
        if !whole {
            bytes.truncate(cut.index(bytes.len()));
        }
        xml(&bytes);
    }

    #[test]
    fn musicxml_with_wild_numbers(which in 0usize..6, changes in digits()) {
        let mut bytes = files().0[which].clone();
        let places: Vec<usize> = (0..bytes.len()).filter(|i| bytes[*i].is_ascii_digit()).collect();
        for (at, digit) in changes {
            bytes[places[at.index(places.len())]] = digit;
        }
        xml(&bytes);
    }

    #[test]
    fn midi_that_is_cut_or_changed(
        which in 0usize..6,
        cut in any::<prop::sample::Index>(),
        changes in changes(),
        whole in any::<bool>(),
    ) {
        let mut bytes = files().1[which].clone();
        for (at, byte) in changes {
            let at = at.index(bytes.len());
            bytes[at] = byte;
        }
        if !whole {
            bytes.truncate(cut.index(bytes.len()));
        }
        take(midi::read(&bytes, None));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// Notes of any length and pitch, tied, slurred and marked at random, in bars that need not add up.
    #[test]
    fn any_music_becomes_a_routine_that_can_be_read(measures in prop::collection::vec(any_measure(), 1..8)) {
        let mut text = String::new();
        for (number, measure) in measures.iter().enumerate() {
            let opening = if number == 0 {
                super::documents::opening(4, 4).replace("<divisions>12<", "<divisions>24<")
            } else {
                String::new()
            };
            text += &super::documents::measure(number as u32 + 1, &(opening + measure));
        }
        take(musicxml::read(&super::documents::score(&text), None));
    }
}

/// A note with a length of its own, and perhaps signs.
fn any_note() -> impl Strategy<Value = String> {
    const SIGNS: [&str; 14] = [
        "",
        "",
        "",
        "<tie type=\"start\"/>",
        "<tie type=\"stop\"/>",
        "<tie type=\"stop\"/><tie type=\"start\"/>",
        "<notations><slur type=\"start\" number=\"1\"/></notations>",
        "<notations><slur type=\"stop\" number=\"1\"/></notations>",
        "<notations><slur type=\"stop\"/><slur type=\"start\"/></notations>",
        "<notations><articulations><breath-mark/></articulations></notations>",
        "<notations><technical><fingering>1-3</fingering></technical></notations>",
        "<notations><technical><brass-bend/></technical></notations>",
        "<notations><articulations><staccato/><accent/></articulations></notations>",
        "<notations><fermata/></notations>",
    ];
    let kinds = prop_oneof![
        6 => (0usize..7, 2i32..8, -2i32..3).prop_map(|(step, octave, alter)| {
            let step = b"CDEFGAB"[step] as char;
            format!("<pitch><step>{step}</step><alter>{alter}</alter><octave>{octave}</octave></pitch>")
        }),
        2 => Just("<rest/>".to_owned()),
        1 => Just("<unpitched/>".to_owned()),
    ];
    let lengths = prop_oneof![
        4 => prop::sample::select(vec![3u32, 6, 9, 12, 18, 24, 36, 48, 72, 96]),
        2 => prop::sample::select(vec![4u32, 8, 16, 32, 2]),
        1 => 1u32..200,
    ];
    let signs = prop::sample::select(SIGNS.to_vec());
    (kinds, lengths, signs).prop_map(|(kind, length, signs)| {
        format!("<note>{kind}<duration>{length}</duration>{signs}</note>")
    })
}

fn any_direction() -> impl Strategy<Value = String> {
    const KINDS: [&str; 9] = [
        "<dynamics><p/></dynamics>",
        "<dynamics><ff/></dynamics>",
        "<dynamics><sfz/></dynamics>",
        "<wedge type=\"crescendo\"/>",
        "<wedge type=\"diminuendo\"/>",
        "<wedge type=\"stop\"/>",
        "<words>rest</words>",
        "<words>cresc.</words>",
        "<rehearsal>A</rehearsal>",
    ];
    (prop::sample::select(KINDS.to_vec()), -20i32..60).prop_map(|(kind, offset)| {
        format!("<direction><direction-type>{kind}</direction-type><offset>{offset}</offset></direction>")
    })
}

fn any_measure() -> impl Strategy<Value = String> {
    const EDGES: [&str; 6] = [
        "",
        "",
        "<barline location=\"right\"><bar-style>light-light</bar-style></barline>",
        "<barline location=\"left\"><repeat direction=\"forward\"/></barline>",
        "<barline location=\"right\"><repeat direction=\"backward\"/></barline>",
        "<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>",
    ];
    let inside = prop_oneof![4 => any_note(), 1 => any_direction()];
    let content = prop::collection::vec(inside, 0..9);
    (content, prop::sample::select(EDGES.to_vec()))
        .prop_map(|(content, edge)| format!("{edge}{}", content.concat()))
}
