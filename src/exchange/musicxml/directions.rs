//! Writes directions over and under the notes: names, words, tempo, loudness.

use super::element::Xml;
use crate::music::{Meter, Tempo, Whole};
use crate::routine::Melody;
use num_rational::Ratio;
use num_traits::Zero;

/// A mark of loudness at a moment of a pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Loudness {
    /// From the start of the pass.
    pub at: Whole,
    /// What is written there.
    pub mark: LoudnessMark,
}

/// Marks of loudness, in their order at one moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum LoudnessMark {
    /// The end of a wedge.
    Stop,
    /// A dynamic.
    Dynamic(&'static str),
    /// A wedge that opens.
    Crescendo,
    /// A wedge that closes.
    Diminuendo,
}

/// The marks of a pass in order. The first is the dynamic it starts at, because every pass starts anew.
pub(super) fn loudness(melody: &Melody) -> Vec<Loudness> {
    let mut marks = vec![];
    let mut before = None;
    for (index, change) in melody.loudness.iter().enumerate() {
        let overruled = melody
            .loudness
            .get(index + 1)
            .is_some_and(|next| next.at == change.at);
        if let (Some(since), Some(from)) = (change.since, before) {
            let mark = if change.to > from {
                LoudnessMark::Crescendo
            } else {
                LoudnessMark::Diminuendo
            };
            marks.push(Loudness { at: since, mark });
            let mark = LoudnessMark::Stop;
            marks.push(Loudness {
                at: change.at,
                mark,
            });
        }
        if !overruled {
            let mark = LoudnessMark::Dynamic(change.to.mark());
            marks.push(Loudness {
                at: change.at,
                mark,
            });
        }
        before = Some(change.to);
    }
    marks.sort_by_key(|m| (m.at, m.mark));
    marks
}

/// Writes a mark of loudness, `offset` divisions after its position in the file.
pub(super) fn write_loudness(xml: &mut Xml, mark: LoudnessMark, offset: i64) {
    xml.open("direction", &[("placement", "below")]);
    xml.open("direction-type", &[]);
    match mark {
        LoudnessMark::Dynamic(name) => {
            xml.open("dynamics", &[]);
            xml.empty(name, &[]);
            xml.close();
        }
        LoudnessMark::Crescendo => xml.empty("wedge", &[("type", "crescendo")]),
        LoudnessMark::Diminuendo => xml.empty("wedge", &[("type", "diminuendo")]),
        LoudnessMark::Stop => xml.empty("wedge", &[("type", "stop")]),
    }
    xml.close();
    if offset != 0 {
        xml.leaf("offset", &[], &offset.to_string());
    }
    xml.close();
}

/// Writes words above the staff.
pub(super) fn write_words(xml: &mut Xml, text: &str) {
    xml.open("direction", &[("placement", "above")]);
    xml.open("direction-type", &[]);
    xml.leaf("words", &[], text);
    xml.close();
    xml.close();
}

/// Writes the name of a line.
pub(super) fn write_name(xml: &mut Xml, name: &str) {
    xml.open("direction", &[("placement", "above")]);
    xml.open("direction-type", &[]);
    xml.leaf("rehearsal", &[], name);
    xml.close();
    xml.close();
}

/// Writes a tempo: the metronome mark, and quarters per minute for playback.
pub(super) fn write_tempo(xml: &mut Xml, tempo: Tempo, meter: Meter) {
    let clicks = tempo.clicks_a_minute();
    let click = meter.click();
    let quarters = clicks * Ratio::new(4 * i128::from(*click.numer()), i128::from(*click.denom()));
    xml.open("direction", &[("placement", "above")]);
    xml.open("direction-type", &[]);
    xml.open("metronome", &[]);
    let unit = meter
        .click_name()
        .strip_prefix("dotted ")
        .unwrap_or(meter.click_name());
    xml.leaf("beat-unit", &[], unit);
    if meter.is_compound() {
        xml.empty("beat-unit-dot", &[]);
    }
    xml.leaf("per-minute", &[], &decimal(clicks));
    xml.close();
    xml.close();
    xml.empty("sound", &[("tempo", &decimal(quarters))]);
    xml.close();
}

/// A number with at most six decimals, halves rounded up.
pub(super) fn decimal(number: Ratio<i128>) -> String {
    const MILLION: i128 = 1_000_000;
    let millionths = (number * Ratio::from_integer(MILLION)).round().to_integer();
    let (whole, part) = (millionths / MILLION, millionths % MILLION);
    if part.is_zero() {
        return whole.to_string();
    }
    let text = format!("{whole}.{part:06}");
    text.trim_end_matches('0').to_owned()
}
