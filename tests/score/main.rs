//! The score and the timeline: what a routine means in time, to the frame.
//!
//! Expected times are worked out by hand from the written meaning of the format (README.md, "What it
//! means in time"), never by calling the code that is tested.

mod exactness;
mod passes;
mod rests;
mod sound;

use leadpipe::routine::{self, Routine};
use leadpipe::score::{self, Score, Take};
use leadpipe::timeline::{self, Content, LineSound, RestSound, Settings, Timeline};
use num_rational::BigRational;

const RATE: u32 = 44_100;

/// A routine at 60 clicks a minute, so that a click is a second.
fn routine_at(tempo: &str, lines: &[&str]) -> Routine {
    let mut text = format!(
        "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G4\"\n\
         tempo = {tempo}\n"
    );
    for (i, line) in lines.iter().enumerate() {
        text.push_str(&format!("[[line]]\nname = \"L{}\"\n{line}\n", i + 1));
    }
    routine::read(&text).unwrap_or_else(|f| panic!("{text}\n{f:#?}"))
}

fn unroll(routine: &Routine) -> Score<'_> {
    score::unroll(routine, &Take::default()).expect("it unrolls")
}

fn seconds(r: &BigRational) -> f64 {
    use num_traits::ToPrimitive;
    r.to_f64().expect("a number")
}

fn compile(routine: &Routine, take: &Take) -> Timeline {
    let score = score::unroll(routine, take).expect("it unrolls");
    timeline::compile(
        &score,
        &Settings {
            sample_rate: RATE,
            signs: true,
        },
    )
}

fn lines(timeline: &Timeline) -> Vec<(u64, &LineSound)> {
    let line = |u: &'_ timeline::Unit| match &u.content {
        Content::Line(_) => Some(u.first_frame),
        Content::Rest(_) => None,
    };
    timeline
        .units
        .iter()
        .filter_map(|u| match &u.content {
            Content::Line(sound) => Some((line(u)?, sound)),
            Content::Rest(_) => None,
        })
        .collect()
}

fn rests(timeline: &Timeline) -> Vec<(u64, u64, &RestSound)> {
    let rest = |u: &'_ timeline::Unit| (u.first_frame, u.frames);
    timeline
        .units
        .iter()
        .filter_map(|u| match &u.content {
            Content::Rest(sound) => Some((rest(u).0, rest(u).1, sound)),
            Content::Line(_) => None,
        })
        .collect()
}
