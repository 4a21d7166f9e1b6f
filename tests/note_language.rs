//! The note language: what is written, in any of its spellings, prints in one spelling, and reads back
//! the same. The phrases are made here together with what they should print as.

use leadpipe::routine::notes::{Item, ItemKind, Phrase};
use leadpipe::routine::{self, Melody, Routine, Span};
use proptest::prelude::*;

/// A piece of a phrase: as a teacher may write it, and as it prints.
#[derive(Clone, Debug)]
struct Piece {
    written: String,
    plain: String,
}

impl Piece {
    fn same(text: impl Into<String>) -> Self {
        let plain = text.into();
        Self {
            written: plain.clone(),
            plain,
        }
    }

    /// Pieces one after the other, parted by `blanks` as written and by one blank in print.
    fn row(pieces: &[Piece], blanks: &str) -> Self {
        let join = |text: fn(&Piece) -> &str, by: &str| {
            pieces.iter().map(text).collect::<Vec<_>>().join(by)
        };
        Self {
            written: join(|p| &p.written, blanks),
            plain: join(|p| &p.plain, " "),
        }
    }

    fn within(self, word: &str, blank: &str) -> Self {
        Self {
            written: format!("{word}({blank}{}{blank})", self.written),
            plain: format!("{word}( {} )", self.plain),
        }
    }
}

fn pick(words: &'static [&'static str]) -> impl Strategy<Value = &'static str> {
    prop::sample::select(words)
}

fn blanks() -> impl Strategy<Value = &'static str> {
    pick(&[" ", "  ", "\t", "\n", " \u{a0}\n\t"])
}

fn value() -> impl Strategy<Value = String> {
    let name = pick(&["whole", "half", "quarter", "eighth", "sixteenth"]);
    (name, any::<bool>()).prop_map(|(v, dot)| if dot { format!("{v}.") } else { v.to_owned() })
}

/// A pitch inside every instrument's compass, with its sign as `#` and `b` or as ♯ and ♭.
fn pitch() -> impl Strategy<Value = Piece> {
    let plain = pick(&[
        "F#3", "Gb3", "G3", "Ab3", "B3", "B#3", "Cb4", "C4", "C#4", "Db4", "E#4", "Fb4", "F4",
        "A4", "Bb4", "C5", "D#5", "G5", "B5", "C6",
    ]);
    (plain, any::<bool>()).prop_map(|(plain, signs)| Piece {
        written: if signs {
            plain.replace('#', "♯").replace('b', "♭")
        } else {
            plain.to_owned()
        },
        plain: plain.to_owned(),
    })
}

/// A pitch, a value and marks: those in any order, with or without blanks before them.
fn marked(value: String) -> impl Strategy<Value = Piece> {
    let fingering = pick(&["", "[0]", "[2]", "[1-2]", "[1-2-3]"]);
    let style = pick(&["", "(staccato)", "(legato)", "(accent)"]);
    let attack = pick(&["", "(air)", "(ku)"]);
    let marks = (fingering, style, attack).prop_flat_map(|(fingering, style, attack)| {
        let in_order: Vec<&str> = [fingering, style, attack]
            .into_iter()
            .filter(|mark| !mark.is_empty())
            .collect();
        (Just(in_order.clone()), Just(in_order).prop_shuffle())
    });
    let after = |marks: &[&str], blank: &str| -> String {
        marks.iter().map(|mark| format!("{blank}{mark}")).collect()
    };
    (pitch(), marks, pick(&["", " ", "\n"])).prop_map(
        move |(pitch, (in_order, any_order), blank)| Piece {
            written: format!("{}:{value}{}", pitch.written, after(&any_order, blank)),
            plain: format!("{}:{value}{}", pitch.plain, after(&in_order, " ")),
        },
    )
}

fn note() -> impl Strategy<Value = Piece> {
    value().prop_flat_map(marked)
}

/// A note, perhaps with a tie, perhaps with a breath, perhaps with one lipped down from it.
fn sung() -> impl Strategy<Value = Piece> {
    let tie = prop::option::weighted(0.2, value());
    let bend = prop::option::weighted(0.1, value());
    (note(), tie, bend, prop::bool::weighted(0.2), blanks()).prop_map(
        |(note, tie, bend, breath, blanks)| {
            let mut row = vec![note];
            row.extend(tie.map(|v| Piece::same(format!("tie:{v}"))));
            row.extend(bend.map(|v| Piece {
                written: format!("F4:{v}(bend)"),
                plain: format!("F4:{v} (bend)"),
            }));
            row.extend(breath.then(|| Piece::same("breath")));
            Piece::row(&row, blanks)
        },
    )
}

fn slur(of: impl Strategy<Value = Piece>) -> impl Strategy<Value = Piece> {
    (prop::collection::vec(of, 2..5), blanks(), pick(&["", " "]))
        .prop_map(|(notes, blanks, blank)| Piece::row(&notes, blanks).within("slur", blank))
}

/// Three notes of one value, the first two or all of them perhaps slurred.
fn triplet(slurs: bool) -> impl Strategy<Value = Piece> {
    let value = pick(&["whole", "half", "quarter", "eighth", "sixteenth"]);
    let notes = value.prop_flat_map(|v| prop::collection::vec(marked(v.to_owned()), 3));
    (notes, 0..3usize, blanks(), pick(&["", " "])).prop_map(
        move |(notes, slurred, blanks, blank)| {
            let row = match slurred {
                2 if slurs => Piece::row(&notes, blanks).within("slur", blank),
                1 if slurs => {
                    let first = Piece::row(&notes[..2], blanks).within("slur", blank);
                    Piece::row(&[first, notes[2].clone()], blanks)
                }
                _ => Piece::row(&notes, blanks),
            };
            row.within("triplet", blank)
        },
    )
}

fn piece() -> impl Strategy<Value = Piece> {
    let dynamic = pick(&["pp", "p", "mp", "mf", "f", "ff"]).prop_map(Piece::same);
    let grows = (sung(), blanks(), any::<bool>()).prop_map(|(note, blanks, louder)| {
        let [from, word, to] = if louder {
            ["p", "cresc", "f"]
        } else {
            ["f", "dim", "pp"]
        };
        Piece::row(
            &[Piece::same(from), Piece::same(word), note, Piece::same(to)],
            blanks,
        )
    });
    prop_oneof![
        6 => sung(),
        2 => slur(sung()),
        1 => slur(triplet(false)),
        2 => triplet(true),
        1 => value().prop_map(|v| Piece::same(format!("rest:{v}"))),
        1 => dynamic,
        1 => grows,
    ]
}

fn phrase() -> impl Strategy<Value = Piece> {
    (prop::collection::vec(piece(), 0..12), note(), blanks()).prop_map(|(pieces, note, blanks)| {
        // One note at least, at the front: a breath or a tie may not begin a line.
        let all: Vec<Piece> = std::iter::once(note).chain(pieces).collect();
        Piece::row(&all, blanks)
    })
}

fn read(notes: &str) -> Routine {
    let text = format!(
        "format = 1\ntitle = \"T\"\ninstrument = \"cornet\"\ncomfortable_top = \"G4\"\ntempo = 72\n\
         [[line]]\nname = \"N\"\nnotes = \"\"\"{notes}\"\"\"\n"
    );
    routine::read(&text).unwrap_or_else(|f| panic!("{text}\n{f:#?}"))
}

/// The same without the places in the file.
fn without_places(phrase: &Phrase, melody: &Melody) -> (Phrase, Melody) {
    fn bare(items: &[Item]) -> Vec<Item> {
        let kind = |kind: &ItemKind| match kind {
            ItemKind::Slur(inside) => ItemKind::Slur(bare(inside)),
            ItemKind::Triplet(inside) => ItemKind::Triplet(bare(inside)),
            other => other.clone(),
        };
        items
            .iter()
            .map(|item| Item {
                span: Span::new(0, 0),
                kind: kind(&item.kind),
            })
            .collect()
    }
    let mut melody = melody.clone();
    melody
        .events
        .iter_mut()
        .for_each(|e| e.span = Span::new(0, 0));
    (
        Phrase {
            items: bare(&phrase.items),
        },
        melody,
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_read_prints_plainly_and_reads_back_the_same(piece in phrase()) {
        let first = read(&piece.written);
        let line = &first.lines[0];
        let printed = line.phrase.to_string();
        prop_assert_eq!(&printed, &piece.plain);
        let again = read(&printed);
        prop_assert_eq!(
            without_places(&line.phrase, &line.melody),
            without_places(&again.lines[0].phrase, &again.lines[0].melody)
        );
    }
}

#[test]
fn nothing_is_lost_on_the_way_through() {
    // One of each thing the language has, as it prints.
    let all = "pp C4:whole. [1-3] (legato) (ku) tie:half breath | rest:half. mf \
               slur( C#4:half Eb4:quarter triplet( F4:eighth E4:eighth F4:eighth ) ) cresc \
               triplet( slur( G4:half F#4:half ) A4:half ) ff dim Bb4:half A4:half (bend) (air) p";
    let all = all.replace("| ", "");
    assert_eq!(read(&all).lines[0].phrase.to_string(), all);
}
