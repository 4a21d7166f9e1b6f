//! Meters, transposition, bar lines and systems.

use super::nodes::{child_text, has, text_of};
use super::reading::Reading;
use crate::exchange::clefs;
use crate::exchange::piece::{KeySign, MeterSign};
use crate::music::Key;
use crate::music::key::Mode;
use roxmltree::Node;

/// Reads the meter from `attributes`, and tells what else there is for this staff.
pub(super) fn attributes(node: Node<'_, '_>, staff: u32, reading: &mut Reading<'_>) {
    not_kept(node, staff, reading);
    let Some(time) = node.children().find(|n| n.has_tag_name("time")) else {
        return;
    };
    if has(time, "senza-misura") {
        reading.measure.meter = Some(MeterSign::Free);
        return;
    }
    // 3+2 over 8 is five eighths; 2/4 + 3/8 is two meters.
    let beats = |text: &str| -> Option<u32> {
        let parts = text.split('+').map(|part| part.trim().parse::<u32>().ok());
        parts.sum()
    };
    let texts = |name| {
        let all = time.children().filter(move |n| n.has_tag_name(name));
        all.map(text_of).collect::<Vec<String>>()
    };
    let signs: Option<Vec<(u32, u32)>> = texts("beats")
        .iter()
        .zip(texts("beat-type"))
        .map(|(over, under)| Some((beats(over)?, under.trim().parse().ok()?)))
        .collect();
    reading.measure.meter = match signs.as_deref() {
        Some([(beats, unit)]) if *beats > 0 && *unit > 0 => Some(MeterSign::Of(*beats, *unit)),
        _ => Some(MeterSign::Free),
    };
}

/// Clefs.
fn not_kept(node: Node<'_, '_>, staff: u32, reading: &mut Reading<'_>) {
    let of_staff = |n: &Node<'_, '_>| {
        n.attribute("number")
            .is_none_or(|number| number.trim().parse() == Ok(staff))
    };
    let clefs = node.children().filter(|n| n.has_tag_name("clef"));
    for clef in clefs.filter(of_staff) {
        let name = child_text(clef, "sign").map(str::trim);
        let octave = child_text(clef, "clef-octave-change").map(str::trim);
        let octaves = octave.is_some_and(|octave| octave != "0");
        match name {
            Some("G" | "percussion" | "none") if !octaves => {}
            Some("F") if !octaves => reading.lose(clefs::BASS),
            _ => reading.lose(clefs::OTHER),
        }
    }
}

/// How many bars are to be played again from here on; `Some(None)` where that ends. Tells of other signs that stand
/// for music.
pub(super) fn bars_again(node: Node<'_, '_>, reading: &mut Reading<'_>) -> Option<Option<usize>> {
    let styles = node.children().filter(|n| n.has_tag_name("measure-style"));
    let mut found = None;
    for sign in styles.flat_map(|style| style.children()) {
        match (sign.tag_name().name(), sign.attribute("type")) {
            ("measure-repeat", Some("start")) => {
                let bars = sign.text().and_then(|text| text.trim().parse().ok());
                found = Some(Some(bars.unwrap_or(1).clamp(1, 16)));
            }
            ("measure-repeat", _) => found = Some(None),
            ("beat-repeat", Some("start")) => {
                reading.lose("signs that a beat comes again are left out: there is a rest");
            }
            ("slash", Some("start")) => {
                reading.lose("slashes in place of notes say no pitch: they are rests");
            }
            _ => {}
        }
    }
    found
}

/// True if a bar line stands inside a bar and repeats something.
pub(super) fn inside(node: Node<'_, '_>) -> bool {
    node.attribute("location") == Some("middle") && (has(node, "repeat") || has(node, "ending"))
}

/// Reads the key from `attributes`, if they have one for this staff. `moved` is how its notes are moved.
pub(super) fn key(node: Node<'_, '_>, staff: u32, moved: i32, reading: &mut Reading<'_>) {
    let of_staff = |n: &Node<'_, '_>| {
        n.has_tag_name("key")
            && n.attribute("number")
                .is_none_or(|number| number.trim().parse() == Ok(staff))
    };
    let Some(key) = node.children().find(of_staff) else {
        return;
    };
    let text = child_text(key, "mode").unwrap_or_default().trim();
    let (mode, named) = match text {
        "minor" | "aeolian" => (Mode::Minor, true),
        "major" | "ionian" => (Mode::Major, true),
        "" | "none" => (Mode::Major, false),
        _ => {
            reading.lose("a key that is neither major nor minor is the major key of its signature");
            (Mode::Major, true)
        }
    };
    let fifths = child_text(key, "fifths").and_then(|t| t.trim().parse::<i32>().ok());
    let found = fifths.and_then(|fifths| Key::new(fifths, mode));
    reading.measure.key = Some(match found {
        Some(key) if named || key.fifths() != 0 => KeySign::In(key.moved(moved)),
        Some(_) => KeySign::Unnamed,
        None => {
            reading.lose("a key signature of its own kind is left out: sharps and flats stand at their notes");
            KeySign::Unnamed
        }
    });
}

/// Half steps from written to sounding pitch, if `attributes` gives them for this staff.
pub(super) fn transposition(node: Node<'_, '_>, staff: u32) -> Option<i32> {
    let of_staff = |n: &Node<'_, '_>| {
        n.has_tag_name("transpose")
            && n.attribute("number")
                .is_none_or(|number| number.trim().parse() == Ok(staff))
    };
    let transpose = node.children().find(of_staff)?;
    let number = |name| {
        let text = child_text(transpose, name).map(str::trim);
        text.and_then(|t| t.parse::<i32>().ok()).unwrap_or(0)
    };
    let (half_steps, octaves) = (number("chromatic"), number("octave-change"));
    let all = half_steps.checked_add(octaves.checked_mul(12)?)?;
    (-48..=48).contains(&all).then_some(all)
}

/// True if `print` begins a system or a page.
pub(super) fn begins_system(node: Node<'_, '_>) -> bool {
    ["new-system", "new-page"]
        .iter()
        .any(|name| node.attribute(*name) == Some("yes"))
}

/// The most times that a repeat is played, and so the most numbers under one bracket.
const MOST_TIMES: usize = 100;

/// The numbers under a bracket.
fn numbers_of(text: &str) -> Vec<u32> {
    let numbers = text.split([',', ' ', '.']);
    let numbers = numbers.filter_map(|n| n.trim().parse().ok());
    numbers.take(MOST_TIMES).collect()
}

/// Reads a bar line: double ones, repeats and endings.
pub(super) fn bar_line(node: Node<'_, '_>, reading: &mut Reading<'_>) {
    let before = node.attribute("location") == Some("left");
    let style = child_text(node, "bar-style").unwrap_or_default().trim();
    let repeat = node.children().find(|n| n.has_tag_name("repeat"));
    let measure = &mut *reading.measure;
    if matches!(
        style,
        "light-light" | "light-heavy" | "heavy-heavy" | "heavy-light"
    ) {
        if before {
            measure.double_before = true;
        } else if node.attribute("location") != Some("middle") {
            measure.double_after = true;
        }
    }
    match repeat.and_then(|n| n.attribute("direction")) {
        Some("forward") => measure.repeat.begins = true,
        Some("backward") => {
            let times = repeat.and_then(|n| n.attribute("times")?.trim().parse().ok());
            measure.repeat.times = Some(times.unwrap_or(2).clamp(1, 100));
        }
        _ => {}
    }
    for ending in node.children().filter(|n| n.has_tag_name("ending")) {
        let numbers = ending.attribute("number").unwrap_or_default();
        match ending.attribute("type") {
            Some("start") => measure.repeat.ending = Some(numbers_of(numbers)),
            Some("stop" | "discontinue") => {
                measure.repeat.ending_over = true;
                measure.repeat.over = numbers_of(numbers);
            }
            _ => {}
        }
    }
    measure.repeat.segno |= has(node, "segno");
    measure.repeat.coda |= has(node, "coda");
    if has(node, "fermata") {
        reading.lose("a fermata is not kept, for the click goes on");
    }
}
