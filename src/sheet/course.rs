//! A score as a screen follows it: what is played at which moment, as JSON (RFC 8259).
//!
//! Moments inside a line are in whole notes, so that they hold at every tempo; the length of a whole note in
//! seconds stands beside them. Nothing in it comes from the text of a routine.

use crate::music::Whole;
use crate::score::{Pass, Placement, Score, ScoreLine};
use num_traits::ToPrimitive;
use std::fmt::Write;

/// The course of a score: an array with an object for each line that is played.
///
/// | name | what |
/// |---|---|
/// | `line` | index of the line in the teacher's routine, which `of` tells for that of the score |
/// | `on` | `horn`, `mouthpiece` or `air` |
/// | `start` | seconds from the start of the track to its count-in |
/// | `whole` | seconds of a whole note |
/// | `tempo` | clicks a minute, in words |
/// | `click`, `bar` | length of a click and of a bar |
/// | `countIn`, `length` | length of the count-in, and from its end to the last bar line |
/// | `rest` | seconds of rest after it; null after the last |
/// | `rhythms` | lists of the notes of a pass: start, length, start, length … |
/// | `passes` | `[start, length, turn, place, how, rhythm]`: a `turn` of 1 says that the player's own follows the guide's; `place` names its half step or tube, `how` its articulation where the line has several; `rhythm` is an index |
pub fn course(score: &Score<'_>, of: impl Fn(usize) -> usize) -> String {
    let lines: Vec<String> = score.lines.iter().map(|l| line(l, of(l.index))).collect();
    format!("[{}]", lines.join(","))
}

fn line(line: &ScoreLine, of: usize) -> String {
    let on = line.on.word();
    let seconds = |value: Option<f64>| number(value.unwrap_or(0.0));
    let rest = line
        .rest
        .map_or("null".to_owned(), |rest| seconds(rest.seconds.to_f64()));
    let mut rhythms: Vec<String> = vec![];
    let several = line
        .passes
        .iter()
        .any(|pass| pass.articulation != line.passes[0].articulation);
    let mut passes: Vec<String> = vec![];
    for pass in &line.passes {
        let own = rhythm(pass);
        let index = rhythms.iter().position(|r| *r == own).unwrap_or_else(|| {
            rhythms.push(own);
            rhythms.len() - 1
        });
        let how = if several {
            pass.articulation.word()
        } else {
            ""
        };
        passes.push(format!(
            "[{},{},{},\"{}\",\"{how}\",{index}]",
            whole(pass.start),
            whole(pass.length),
            u8::from(pass.turn),
            place(pass)
        ));
    }
    let mut out = String::new();
    let _ = write!(
        out,
        "{{\"line\":{of},\"on\":\"{on}\",\"start\":{},\"whole\":{},\"tempo\":\"{}\",\"click\":{},\"bar\":{},\
         \"countIn\":{},\"length\":{},\"rest\":{rest},\"rhythms\":[{}],\"passes\":[{}]}}",
        seconds(line.start.to_f64()),
        seconds(line.seconds(Whole::from_integer(1)).to_f64()),
        line.tempo,
        whole(line.meter.click()),
        whole(line.meter.bar()),
        whole(line.count_in),
        whole(line.length),
        rhythms.join(","),
        passes.join(",")
    );
    out
}

/// The half step or tube of a pass in words: "on 1-3", "2 half steps down", "as written".
pub fn place(pass: &Pass) -> String {
    Placement {
        half_steps: pass.half_steps,
        tube: pass.tube,
        walk_index: pass.walk_index,
    }
    .in_words()
}

fn rhythm(pass: &Pass) -> String {
    let notes: Vec<String> = pass
        .notes
        .iter()
        .map(|note| format!("{},{}", whole(note.start), whole(note.length)))
        .collect();
    format!("[{}]", notes.join(","))
}

fn whole(length: Whole) -> String {
    number(*length.numer() as f64 / *length.denom() as f64)
}

/// To a millionth, without needless zeros.
fn number(value: f64) -> String {
    let text = format!("{value:.6}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
