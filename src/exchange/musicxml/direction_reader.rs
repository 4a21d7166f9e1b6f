//! One `direction` or `sound` element.

use super::nodes::{child_text, has, text_of, tidy};
use super::reading::Reading;
use crate::exchange::piece::{MarkKind, MeasureMark};
use crate::music::{Decimal, Dynamic, Whole};
use num_rational::Ratio;
use num_traits::Zero;
use roxmltree::Node;

/// Reads a direction at `at`.
pub(super) fn read(node: Node<'_, '_>, at: Whole, reading: &mut Reading<'_>) {
    let sound = node.children().find(|n| n.has_tag_name("sound"));
    let mut has_tempo = false;
    for kind in node.children().filter(|n| n.has_tag_name("direction-type")) {
        for sign in kind.children().filter(Node::is_element) {
            has_tempo |= direction(sign, at, reading);
        }
    }
    if let Some(sound) = sound {
        self::sound(sound, at, !has_tempo, reading);
    }
}

/// Reads instructions for playback; the tempo only if it is not written beside them.
pub(super) fn sound(node: Node<'_, '_>, at: Whole, with_tempo: bool, reading: &mut Reading<'_>) {
    let tempo = node.attribute("tempo").and_then(rounded);
    if let Some(tempo) = tempo.filter(|t| with_tempo && *t > Ratio::zero()) {
        let kind = MarkKind::Tempo(tempo);
        reading.measure.marks.push(MeasureMark { at, kind });
    }
    let swing = node.children().find(|n| n.has_tag_name("swing"));
    if swing.is_some_and(|swing| !has(swing, "straight")) {
        reading.lose("swing is not kept: the notes are even");
    }
    jumps(node, reading);
}

/// A decimal number, at most a million.
fn rounded(text: &str) -> Option<Ratio<i128>> {
    let text = text.trim();
    if let Ok(decimal) = Decimal::parse(text) {
        return Some(decimal.ratio());
    }
    let number = text.parse::<f64>().ok()?;
    let fits = number.is_finite() && number.abs() < 1e6;
    fits.then(|| Ratio::new((number * 1e6).round() as i128, 1_000_000))
}

fn jumps(node: Node<'_, '_>, reading: &mut Reading<'_>) {
    let repeat = &mut reading.measure.repeat;
    repeat.begins |= node.attribute("forward-repeat") == Some("yes");
    let has = |name: &str| node.attribute(name).is_some_and(|v| v != "no");
    repeat.da_capo |= has("dacapo");
    repeat.dal_segno |= has("dalsegno");
    repeat.segno |= has("segno");
    repeat.to_coda |= has("tocoda");
    repeat.coda |= has("coda");
    repeat.fine |= has("fine");
}

/// Reads one kind of direction; true if it was a tempo.
fn direction(sign: Node<'_, '_>, at: Whole, reading: &mut Reading<'_>) -> bool {
    let mut put = |kind| reading.measure.marks.push(MeasureMark { at, kind });
    match sign.tag_name().name() {
        "rehearsal" => {
            let text = tidy(&text_of(sign));
            if !text.is_empty() {
                put(MarkKind::Name(text));
            }
        }
        "words" => words(&tidy(&text_of(sign)), at, reading),
        "dynamics" => dynamics(sign, at, reading),
        "wedge" => match sign.attribute("type") {
            Some("crescendo") => put(MarkKind::Wedge(true)),
            Some("diminuendo") => put(MarkKind::Wedge(false)),
            Some("stop") => put(MarkKind::WedgeOver),
            _ => {}
        },
        "metronome" => match metronome(sign) {
            Some(tempo) => {
                put(MarkKind::Tempo(tempo));
                return true;
            }
            None => reading.lose("a tempo that is not a number of beats a minute is left out"),
        },
        "segno" => reading.measure.repeat.segno = true,
        "coda" => coda(at, reading),
        // Notes under 8va are in the file as they sound; dashes go on with a word that is kept.
        "octave-shift" | "dashes" | "staff-divide" => {}
        _ => reading.lose("other signs over the staff are left out"),
    }
    false
}

/// A coda begins at the beginning of a bar: later in it the sign is where one jumps from.
fn coda(at: Whole, reading: &mut Reading<'_>) {
    reading.measure.repeat.coda = true;
    reading.measure.repeat.coda_late |= !at.is_zero();
}

/// Words for a tempo that changes while one plays.
const CHANGING: [&str; 9] = [
    "rit",
    "ritard",
    "ritardando",
    "ritenuto",
    "riten",
    "rall",
    "rallentando",
    "accel",
    "accelerando",
];

fn words(text: &str, at: Whole, reading: &mut Reading<'_>) {
    let plain = text.to_lowercase();
    let plain = plain.trim_matches(|c: char| c.is_whitespace() || c == '.' || c == '_');
    let mut put = |kind| reading.measure.marks.push(MeasureMark { at, kind });
    match plain {
        "" => {}
        "cresc" | "crescendo" => put(MarkKind::Wedge(true)),
        "dim" | "diminuendo" | "decresc" | "decrescendo" => put(MarkKind::Wedge(false)),
        "fine" => reading.measure.repeat.fine = true,
        "coda" => coda(at, reading),
        _ if plain.starts_with("to coda") => reading.measure.repeat.to_coda = true,
        _ if plain.starts_with("d.c") || plain.starts_with("da capo") => {
            reading.measure.repeat.da_capo = true;
        }
        _ if plain.starts_with("d.s") || plain.starts_with("dal segno") => {
            reading.measure.repeat.dal_segno = true;
        }
        _ => {
            match Dynamic::parse(plain) {
                Some(dynamic) => put(MarkKind::Dynamic(dynamic)),
                None => {
                    put(MarkKind::Words(text.to_owned()));
                    let mut parts = plain.split(|c: char| !c.is_alphabetic());
                    if parts.any(|word| CHANGING.contains(&word)) {
                        reading.lose("the tempo does not change little by little here (rit., accel.): it stays");
                    }
                    // A line may be called “Swing boat”.
                    let manner = [
                        "swing",
                        "swing feel",
                        "swing style",
                        "swing time",
                        "swing eighths",
                    ];
                    if manner.contains(&plain) || plain.starts_with("swing (") {
                        reading.lose("swing is not kept: the notes are even");
                    }
                }
            }
        }
    }
}

pub(super) fn dynamics(sign: Node<'_, '_>, at: Whole, reading: &mut Reading<'_>) {
    for name in sign.children().filter(Node::is_element) {
        let name = name.tag_name().name();
        let dynamic = match name {
            "ppp" | "pppp" | "ppppp" | "pppppp" => {
                reading.lose("softer than pp is pp");
                Dynamic::Pp
            }
            "fff" | "ffff" | "fffff" | "ffffff" => {
                reading.lose("louder than ff is ff");
                Dynamic::Ff
            }
            "fp" | "sfp" | "sfpp" | "pf" => {
                reading.lose("a sudden fp is p: the push at its start is left out");
                Dynamic::P
            }
            "sf" | "sfz" | "sffz" | "fz" | "rf" | "rfz" | "sfzp" => {
                reading.lose("a sudden sf is left out: mark the note with (accent)");
                continue;
            }
            name => match Dynamic::parse(name) {
                Some(dynamic) => dynamic,
                None => {
                    reading.lose("other signs of loudness are left out");
                    continue;
                }
            },
        };
        let kind = MarkKind::Dynamic(dynamic);
        reading.measure.marks.push(MeasureMark { at, kind });
    }
}

/// Quarters per minute, if the metronome mark has a number.
fn metronome(sign: Node<'_, '_>) -> Option<Ratio<i128>> {
    let (numerator, denominator) = match child_text(sign, "beat-unit")?.trim() {
        "whole" => (4, 1),
        "half" => (2, 1),
        "quarter" => (1, 1),
        "eighth" => (1, 2),
        "16th" => (1, 4),
        _ => return None,
    };
    let dots = sign.children().filter(|n| n.has_tag_name("beat-unit-dot"));
    let dotted = match dots.count() {
        0 => Ratio::new(1, 1),
        1 => Ratio::new(3, 2),
        _ => return None,
    };
    let text = child_text(sign, "per-minute")?;
    // "ca. 72", "72-76": the first number of it.
    let from = text.find(|c: char| c.is_ascii_digit())?;
    let number = &text[from..];
    let to = number.find(|c: char| !c.is_ascii_digit() && c != '.');
    let number = number[..to.unwrap_or(number.len())].trim_end_matches('.');
    let tempo = rounded(number).filter(|n| *n > Ratio::zero())?;
    Some(tempo * Ratio::new(numerator, denominator) * dotted)
}
