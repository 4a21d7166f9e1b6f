//! Names of tracks: valid on every system, and in practice order when files are listed by name.
//!
//! `second-steps 061.2 key-down-1 echo`: the routine, clicks a minute (slow takes before fast ones), half steps
//! it is moved by, guide mode; then its tuning if that is not the usual one.

use crate::music::{Temperament, Tempo, Tuning};
use crate::score::Take;
use num_rational::Ratio;
use std::cmp::Ordering;
use std::collections::HashSet;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Most letters of a routine's title in a name.
const LONGEST: usize = 48;

/// The name of a take at `tempo` of the routine called `routine` (a [`slug`]).
pub fn of(routine: &str, tempo: Tempo, take: &Take) -> String {
    let tempo = clicks(tempo);
    let mut name = format!("{routine} {tempo} {} {}", key(take.key), take.guide);
    let tuning = take.tuning;
    if tuning.a4() != Tuning::ISO_16.a4() {
        name += &format!(" a4-{}", tuning.a4());
    }
    if tuning.temperament() != Temperament::Equal {
        name += &format!(" {}", tuning.temperament());
    }
    name
}

/// A key in the names of files, by the half steps it moves.
pub fn key(half_steps: i32) -> String {
    match half_steps {
        0 => "key-0".to_owned(),
        up @ 1.. => format!("key-up-{up}"),
        down => format!("key-down-{}", down.unsigned_abs()),
    }
}

/// Clicks a minute, three digits before the point and at most three after it, as many as needed.
fn clicks(tempo: Tempo) -> String {
    let thousandths = (tempo.clicks_a_minute() * Ratio::from_integer(1000))
        .round()
        .to_integer();
    let part = format!("{:03}", thousandths % 1000);
    let whole = thousandths / 1000;
    match part.trim_end_matches('0') {
        "" => format!("{whole:03}"),
        part => format!("{whole:03}.{part}"),
    }
}

/// A title in lower-case letters, digits and hyphens; `routine` if none of its characters can be kept.
///
/// Latin letters lose their accents; letters of other scripts stay, in Unicode's composed form, however they
/// were typed. The result is never a path, an extension or a device name on any system, and has no invisible
/// letters.
pub fn slug(title: &str) -> String {
    folded_or(title, "routine")
}

/// A player's nickname in lower-case letters, digits and hyphens; `player` if none of its characters can be
/// kept.
pub fn player_slug(name: &str) -> String {
    folded_or(name, "player")
}

/// A text as [`slug`] describes it. If it is empty or reserved, `kind` is used or added.
fn folded_or(title: &str, kind: &str) -> String {
    let mut slug = String::new();
    for c in title.nfc().flat_map(char::to_lowercase) {
        // Some combining marks are letters of their scripts; the others are accents without a base letter.
        let accent = is_combining_mark(c) && !c.is_alphanumeric();
        if accent || is_unseen(c) || matches!(c, '\'' | '’') {
            continue;
        }
        match fold(c) {
            Some(plain) => plain.chars().for_each(|c| push(&mut slug, c)),
            None if c.is_alphanumeric() => push(&mut slug, c),
            None => push(&mut slug, '-'),
        }
    }
    let slug = slug.trim_end_matches('-');
    if slug.is_empty() {
        kind.to_owned()
    } else if is_reserved(slug) {
        format!("{slug}-{kind}")
    } else {
        slug.to_owned()
    }
}

/// Appends a letter while there is room, and a hyphen only between letters.
fn push(slug: &mut String, c: char) {
    let stands = c != '-' || !(slug.is_empty() || slug.ends_with('-'));
    if stands && slug.chars().count() < LONGEST {
        slug.push(c);
    }
}

/// Letters that are invisible (Unicode's default ignorable letters).
fn is_unseen(c: char) -> bool {
    matches!(
        c,
        '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}' | '\u{3164}' | '\u{ffa0}'
    )
}

/// Device names that a system reserves, with any extension.
fn is_reserved(slug: &str) -> bool {
    let numbered = |name| {
        slug.strip_prefix(name).is_some_and(|n| {
            n.chars().count() == 1 && n.chars().all(|c| "0123456789¹²³".contains(c))
        })
    };
    matches!(slug, "con" | "prn" | "aux" | "nul") || numbered("com") || numbered("lpt")
}

fn fold(c: char) -> Option<&'static str> {
    const FOLDED: [(&str, &str); 30] = [
        ("a", "àáâãäåāăąǎ"),
        ("ae", "æ"),
        ("c", "çćĉċč"),
        ("d", "ďđð"),
        ("e", "èéêëēĕėęě"),
        ("g", "ĝğġģ"),
        ("h", "ĥħ"),
        ("i", "ìíîïĩīĭįıǐ"),
        ("ij", "ĳ"),
        ("j", "ĵ"),
        ("k", "ķĸ"),
        ("l", "ĺļľŀł"),
        ("n", "ñńņňŋ"),
        ("o", "òóôõöøōŏőǒ"),
        ("oe", "œ"),
        ("r", "ŕŗř"),
        ("s", "śŝşšș"),
        ("ss", "ß"),
        ("t", "ţťŧț"),
        ("th", "þ"),
        ("u", "ùúûüũūŭůűųǔ"),
        ("w", "ŵ"),
        ("y", "ýÿŷ"),
        ("z", "źżž"),
        ("-sharp", "♯"),
        ("-flat", "♭"),
        ("-and-", "&"),
        ("-percent", "%"),
        ("1-2", "½"),
        ("1-4", "¼"),
    ];
    FOLDED
        .iter()
        .find_map(|(plain, letters)| letters.contains(c).then_some(*plain))
}

/// Practice order: the order of names, with numbers in them compared by size, so that a key ten half steps down
/// comes after one of two. File lists sorted letter by letter agree as long as keys have one digit.
pub fn order(one: &str, other: &str) -> Ordering {
    let (mut left, mut right) = (one, other);
    while !left.is_empty() && !right.is_empty() {
        let (number, other_number) = (digits(left), digits(right));
        let compared = if number.is_empty() || other_number.is_empty() {
            let (a, b) = (left.chars().next(), right.chars().next());
            let step = |text: &str| text.chars().next().map_or(0, char::len_utf8);
            (left, right) = (&left[step(left)..], &right[step(right)..]);
            a.cmp(&b)
        } else {
            (left, right) = (&left[number.len()..], &right[other_number.len()..]);
            // Without leading zeros the longer number is larger.
            let [a, b] = [number, other_number].map(|n| n.trim_start_matches('0'));
            a.len().cmp(&b.len()).then_with(|| a.cmp(b))
        };
        if compared != Ordering::Equal {
            return compared;
        }
    }
    left.len().cmp(&right.len()).then_with(|| one.cmp(other))
}

/// The digits at the beginning of a text.
fn digits(text: &str) -> &str {
    let end = text.find(|c: char| !c.is_ascii_digit());
    &text[..end.unwrap_or(text.len())]
}

/// Names already used in one folder.
#[derive(Clone, Debug, Default)]
pub struct Names(HashSet<String>);

impl Names {
    /// `name`, with a number added if it was used before, even in another case or Unicode form, because some
    /// systems treat those as one name.
    pub fn give(&mut self, name: &str) -> String {
        self.give_free(name, |_| true)
    }

    /// The same, and a number is also added to a name that `is_free` rejects.
    pub fn give_free(&mut self, name: &str, is_free: impl Fn(&str) -> bool) -> String {
        let numbered = (2..).map(|n| format!("{name}-{n}"));
        let free = std::iter::once(name.to_owned())
            .chain(numbered)
            .find(|name| !self.0.contains(&folded(name)) && is_free(name))
            .expect("numbers do not run out");
        self.0.insert(folded(&free));
        free
    }
}

/// A key that is equal for names that some system treats as one. Upper case first, because some letters have
/// two lower-case forms.
fn folded(name: &str) -> String {
    let upper: String = name.nfkd().flat_map(char::to_uppercase).collect();
    upper.nfkc().flat_map(char::to_lowercase).nfkc().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::music::Decimal;
    use crate::routine::Guide;

    fn tempo(text: &str) -> Tempo {
        Tempo::from_decimal(Decimal::parse(text).unwrap()).unwrap()
    }

    #[test]
    fn names_say_routine_tempo_key_and_guide_in_order() {
        let name = |t: &str, key, guide| {
            let take = Take {
                key,
                guide,
                ..Take::default()
            };
            of("second-steps", tempo(t), &take)
        };
        let names = [
            name("50.4", 0, Guide::Together),
            name("61", -1, Guide::Echo),
            name("61.2", 0, Guide::Echo),
            name("61.2", 0, Guide::Off),
            name("61.2", 0, Guide::Together),
            name("61.2", -1, Guide::Together),
            name("61.2", -2, Guide::Together),
            name("61.2", 1, Guide::Together),
            name("120", 0, Guide::Together),
        ];
        assert_eq!(names[0], "second-steps 050.4 key-0 together");
        assert_eq!(names[5], "second-steps 061.2 key-down-1 together");
        let mut sorted = names.clone();
        sorted.sort();
        assert_eq!(sorted, names);
    }

    #[test]
    fn large_keys_come_after_small_ones() {
        let name = |key| {
            let take = Take {
                key,
                ..Take::default()
            };
            of("second-steps", tempo("72"), &take)
        };
        let keys = [0, -1, -2, -9, -10, -12, -24, 1, 2, 11, 24];
        let names = keys.map(name);
        let mut sorted = names.clone();
        sorted.reverse();
        sorted.sort_by(|a, b| order(a, b));
        assert_eq!(sorted, names);
        let names = ["a", "a 02", "a 2", "a 2.5", "a 10", "a b", "b", "é"];
        for (i, one) in names.iter().enumerate() {
            for (k, other) in names.iter().enumerate() {
                assert_eq!(order(one, other), i.cmp(&k), "{one} {other}");
            }
        }
    }

    #[test]
    fn names_say_the_tuning_where_it_is_not_the_usual_one() {
        let a4 = Decimal::parse("442.5").unwrap();
        let take = Take {
            tuning: Tuning::new(a4, Temperament::Just).unwrap(),
            ..Take::default()
        };
        assert_eq!(
            of("second-steps", tempo("72"), &take),
            "second-steps 072 key-0 together a4-442.5 just"
        );
    }

    #[test]
    fn titles_become_safe_on_every_system() {
        for (title, expected) in [
            ("Second steps", "second-steps"),
            ("  Anna's “Übung” №1!  ", "annas-ubung-1"),
            ("A\u{308}rger", "arger"),
            ("../../etc/passwd", "etc-passwd"),
            ("C:\\routines", "c-routines"),
            ("CON", "con-routine"),
            ("lpt1", "lpt1-routine"),
            ("nul.txt", "nul-txt"),
            ("", "routine"),
            ("...", "routine"),
            ("?*|", "routine"),
            ("\u{202e}gpj.exe\u{0}", "gpj-exe"),
            ("朝の練習", "朝の練習"),
            ("Lines & scales", "lines-and-scales"),
            ("com¹", "com¹-routine"),
            ("ㅤ", "routine"),
            // The same letters, composed and not (Unicode Standard Annex 15).
            ("가락", "가락"),
            ("\u{1100}\u{1161}\u{1105}\u{1161}\u{11a8}", "가락"),
            ("ガ", "ガ"),
            ("カ\u{3099}", "ガ"),
            ("Й", "й"),
            ("И\u{306}", "й"),
            ("Scale on F♯", "scale-on-f-sharp"),
        ] {
            assert_eq!(slug(title), expected, "{title}");
        }
        assert!(slug(&"long ".repeat(500)).chars().count() <= LONGEST);
    }

    #[test]
    fn clashes_get_a_number() {
        let mut names = Names::default();
        assert_eq!(names.give("warm-up"), "warm-up");
        assert_eq!(names.give("Warm-Up"), "Warm-Up-2");
        assert_eq!(names.give("warm-up"), "warm-up-3");
        // Each group is one name on a system that folds case (σ and ς share a capital), or that treats composed
        // and decomposed letters, or wide and narrow ones, as equal.
        for [first, second] in [
            ["σας", "σασ"],
            ["straße", "STRASSE"],
            ["й", "и\u{306}"],
            ["ﬁ", "FI"],
            ["Ａ", "a"],
            ["é", "E\u{301}"],
        ] {
            let mut names = Names::default();
            assert_eq!(names.give(first), first);
            assert_eq!(names.give(second), format!("{second}-2"));
        }
    }
}
