//! One `note` element.

use super::direction_reader;
use super::nodes::{child_text, has, text_of, tidy};
use super::reading::Reading;
use crate::exchange::piece::{MeasureSymbol, SymbolKind, on_grid};
use crate::music::{Whole, WrittenPitch, pitch::Letter};
use crate::routine::{Attack, Style};
use num_traits::{Signed, Zero};
use roxmltree::Node;

/// The length of a note: from its value and dots if its duration is that, rounded to a number of divisions; without
/// a duration that is none at all.
pub(super) fn length(node: Node<'_, '_>, duration: Whole, division: Whole) -> Whole {
    // A group inside a group may say of itself alone how many it is: then its value is off by more.
    let tolerance = division.min(Whole::new(1, 64));
    match written_length(node) {
        Some(written) if (written - duration).abs() < tolerance => written,
        _ => duration,
    }
}

fn written_length(node: Node<'_, '_>) -> Option<Whole> {
    let (numerator, denominator): (i128, i128) = match child_text(node, "type")?.trim() {
        "breve" => (2, 1),
        "whole" => (1, 1),
        "half" => (1, 2),
        "quarter" => (1, 4),
        "eighth" => (1, 8),
        "16th" => (1, 16),
        "32nd" => (1, 32),
        "64th" => (1, 64),
        "128th" => (1, 128),
        _ => return None,
    };
    let dots = node.children().filter(|n| n.has_tag_name("dot")).count();
    let dotted = match dots {
        0 => (1, 1),
        1 => (3, 2),
        2 => (7, 4),
        _ => return None,
    };
    let group = node
        .children()
        .find(|n| n.has_tag_name("time-modification"));
    let number = |name| {
        let text = group.and_then(|g| child_text(g, name));
        text.map_or(Some(1), |t| t.trim().parse::<i128>().ok())
    };
    let (actual, normal) = (number("actual-notes")?, number("normal-notes")?);
    if !(1..=1000).contains(&actual) || !(1..=1000).contains(&normal) {
        return None;
    }
    on_grid(
        numerator * dotted.0 * normal,
        denominator * dotted.1 * actual,
    )
}

/// Reads a note into its measure.
pub(super) fn read(
    node: Node<'_, '_>,
    at: Whole,
    length: Whole,
    moved: i32,
    reading: &mut Reading<'_>,
) {
    if has(node, "grace") {
        return reading.lose("grace notes are left out");
    }
    if has(node, "cue") {
        return reading.lose("small notes, which another plays, are left out");
    }
    let what = what(node, moved, reading);
    let mut symbol = MeasureSymbol::plain(at, length, what);
    let sounding = node.children().filter(|n| n.has_tag_name("tie"));
    sounding.for_each(|tie| self::tie(tie, &mut symbol));
    for notations in node.children().filter(|n| n.has_tag_name("notations")) {
        for sign in notations.children().filter(Node::is_element) {
            notation(sign, at, &mut symbol, reading);
        }
    }
    lyrics(node, &mut symbol, reading);
    notehead(node, &mut symbol, reading);
    if !has(node, "chord") {
        return reading.measure.symbols.push(symbol);
    }
    reading.lose("of notes at once only the highest is kept");
    let number = |symbol: &MeasureSymbol| match symbol.what {
        SymbolKind::Note(pitch) => pitch.number(),
        SymbolKind::Unpitched | SymbolKind::Rest => i32::MIN,
    };
    // The last symbol at that moment: in a staff with several voices others may be between.
    let others = reading.measure.symbols.iter_mut().rev().take(FARTHEST);
    match others.into_iter().find(|s| s.at == at) {
        Some(other) if number(other) < number(&symbol) => {
            // The marks of a chord may be on any of its notes.
            other.what = symbol.what;
            other.tied_on = symbol.tied_on;
            other.tied_from = symbol.tied_from;
            merge(other, symbol);
        }
        Some(other) => merge(other, symbol),
        None => reading.measure.symbols.push(symbol),
    }
}

/// Reads a tie, as it sounds (`tie`) or as it is drawn (`tied`): a file may have only one of the two.
fn tie(node: Node<'_, '_>, symbol: &mut MeasureSymbol) {
    match node.attribute("type") {
        Some("start") => symbol.tied_on = true,
        Some("stop") => symbol.tied_from = true,
        Some("continue") => (symbol.tied_from, symbol.tied_on) = (true, true),
        _ => {}
    }
}

/// A slash in place of a head says when to play and not what; leadpipe's own breathing has crosses.
fn notehead(node: Node<'_, '_>, symbol: &mut MeasureSymbol, reading: &mut Reading<'_>) {
    match child_text(node, "notehead").map(str::trim) {
        Some("slash" | "slashed") if matches!(symbol.what, SymbolKind::Note(_)) => {
            symbol.what = SymbolKind::Unpitched;
        }
        None | Some("normal" | "slash" | "slashed") => {}
        Some(_) if symbol.what == SymbolKind::Unpitched => {}
        Some(_) => reading.lose("other shapes of notes are drawn as usual"),
    }
}

/// How far back the note is looked for that a chord belongs to.
const FARTHEST: usize = 256;

fn merge(into: &mut MeasureSymbol, from: MeasureSymbol) {
    into.slurs_begin.extend(from.slurs_begin);
    into.slurs_end.extend(from.slurs_end);
    into.breath |= from.breath;
    into.style = into.style.or(from.style);
    into.fingering = into.fingering.take().or(from.fingering);
}

fn what(node: Node<'_, '_>, moved: i32, reading: &mut Reading<'_>) -> SymbolKind {
    if has(node, "unpitched") {
        return SymbolKind::Unpitched;
    }
    let Some(pitch) = node.children().find(|n| n.has_tag_name("pitch")) else {
        return SymbolKind::Rest;
    };
    let letter = child_text(pitch, "step")
        .and_then(|t| t.trim().chars().next())
        .and_then(Letter::parse);
    let octave = child_text(pitch, "octave").and_then(|t| t.trim().parse::<i8>().ok());
    let (Some(letter), Some(octave @ -1..=10)) = (letter, octave) else {
        reading.lose("a note whose pitch is not understood is a rest");
        return SymbolKind::Rest;
    };
    let alter = child_text(pitch, "alter").and_then(|t| t.trim().parse::<f64>().ok());
    // A player reads the sign that is drawn.
    let drawn = || match child_text(node, "accidental").map(str::trim) {
        Some("sharp") => Some(1.0),
        Some("flat") => Some(-1.0),
        _ => None,
    };
    let alter = alter.or_else(drawn).unwrap_or(0.0);
    if !(-4.0..=4.0).contains(&alter) {
        reading.lose("a note whose pitch is not understood is a rest");
        return SymbolKind::Rest;
    }
    if !alter.fract().is_zero() {
        reading.lose("notes between two half steps are taken as the half step below");
    }
    let natural = WrittenPitch::new(letter, 0, octave);
    let pitch = match alter.floor() as i32 {
        alter @ -1..=1 => WrittenPitch::new(letter, alter as i8, octave),
        alter => natural.moved(alter),
    };
    SymbolKind::Note(pitch.moved(moved))
}

fn notation(sign: Node<'_, '_>, at: Whole, symbol: &mut MeasureSymbol, reading: &mut Reading<'_>) {
    match sign.tag_name().name() {
        "tied" if sign.attribute("type") == Some("let-ring") => {
            reading.lose("a tie that leads to no note is left out");
        }
        "tied" => tie(sign, symbol),
        "dynamics" => direction_reader::dynamics(sign, at, reading),
        "tuplet" => {}
        "slur" => {
            let number = sign.attribute("number").and_then(|n| n.parse().ok());
            match sign.attribute("type") {
                Some("start") => symbol.slurs_begin.push(number.unwrap_or(1)),
                Some("stop") => symbol.slurs_end.push(number.unwrap_or(1)),
                _ => {}
            }
        }
        "articulations" => {
            for sign in sign.children().filter(Node::is_element) {
                articulation(sign, symbol, reading);
            }
        }
        "technical" => {
            for sign in sign.children().filter(Node::is_element) {
                technical(sign, symbol, reading);
            }
        }
        "ornaments" => reading.lose("trills, turns and other ornaments are left out"),
        "fermata" => reading.lose("a fermata is not kept, for the click goes on"),
        "glissando" | "slide" => reading.lose("slides from note to note are left out"),
        "arpeggiate" | "non-arpeggiate" => reading.lose("signs of arpeggio are left out"),
        _ => reading.lose("other signs at notes are left out"),
    }
}

fn articulation(sign: Node<'_, '_>, symbol: &mut MeasureSymbol, reading: &mut Reading<'_>) {
    let style = match sign.tag_name().name() {
        "staccato" => Style::Staccato,
        "tenuto" => Style::Legato,
        "accent" => Style::Accent,
        "staccatissimo" | "spiccato" => {
            reading.lose("a wedge over a note is taken as a dot (staccato)");
            Style::Staccato
        }
        "detached-legato" => {
            reading.lose("a dash with a dot is taken as a dash (legato)");
            Style::Legato
        }
        "strong-accent" => {
            reading.lose("a strong accent is taken as an accent");
            Style::Accent
        }
        "breath-mark" => {
            symbol.breath = true;
            return;
        }
        "caesura" => {
            reading.lose("a caesura is taken as a breath");
            symbol.breath = true;
            return;
        }
        _ => return reading.lose("falls, doits and other signs at notes are left out"),
    };
    match symbol.style {
        None => symbol.style = Some(style),
        Some(other) if other == style => {}
        Some(other) => {
            let both = [other, style];
            // Of several articulations the most audible is kept: the accent, then the dot, then the dash.
            let kept = [Style::Accent, Style::Staccato, Style::Legato]
                .into_iter()
                .find(|s| both.contains(s));
            symbol.style = kept;
            reading.lose("of two signs at a note one is kept, the accent before the dot");
        }
    }
}

/// More characters than any fingering has.
const MOST_VALVES: usize = 32;

fn technical(sign: Node<'_, '_>, symbol: &mut MeasureSymbol, reading: &mut Reading<'_>) {
    match sign.tag_name().name() {
        "fingering" => {
            let text = tidy(&text_of(sign));
            let together = match symbol.fingering.take() {
                // One element for each valve.
                // No instrument has as many valves, so the rest says nothing.
                Some(before) if before.len() > MOST_VALVES => before,
                Some(before) => format!("{before}-{text}"),
                None => text,
            };
            symbol.fingering = Some(together).filter(|text| !text.is_empty());
        }
        "open-string" => symbol.fingering = Some("0".to_owned()),
        "brass-bend" => symbol.bend = true,
        "other-technical" => match text_of(sign).trim() {
            "air" => symbol.attack = Attack::Air,
            "ku" => symbol.attack = Attack::Ku,
            _ => reading.lose("bowings and other signs of technique are left out"),
        },
        "double-tongue" | "triple-tongue" => {
            reading
                .lose("signs of double and triple tonguing are left out: mark the notes with (ku)");
        }
        _ => reading.lose("bowings and other signs of technique are left out"),
    }
}

fn lyrics(node: Node<'_, '_>, symbol: &mut MeasureSymbol, reading: &mut Reading<'_>) {
    for lyric in node.children().filter(|n| n.has_tag_name("lyric")) {
        let text = child_text(lyric, "text").unwrap_or_default().trim();
        match (text, symbol.what) {
            ("in" | "out" | "hold", SymbolKind::Unpitched) => {
                symbol.syllable = Some(text.to_owned())
            }
            ("air", SymbolKind::Note(_)) => symbol.attack = Attack::Air,
            ("ku" | "k", SymbolKind::Note(_)) => symbol.attack = Attack::Ku,
            ("", _) => {}
            _ => reading.lose("words under the notes are left out"),
        }
    }
}
