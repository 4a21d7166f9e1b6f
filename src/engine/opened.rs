//! A routine opened at a take: read, pencilled, unrolled, compiled and checked.

use super::answer::{In, ProblemAnswer};
use super::described::{Described, Opened};
use super::request::{self, OpenRequest};
use super::version::Version;
use crate::check::{self, Finding, Options};
use crate::pencil::{Pencil, lay};
use crate::routine::{self, Routine};
use crate::score::{Score, Take, TakeFault, spoken, unroll};
use crate::timeline::{Settings, Timeline, compile};

/// What is open.
pub struct Open {
    /// The routine as its teacher wrote it.
    pub teacher: Routine,
    /// The marks that are laid over it.
    pub pencil: Option<Pencil>,
    /// The take.
    pub take: Take,
    /// The player's version at that take.
    pub timeline: Timeline,
}

/// Opens a routine under a number.
pub fn open(request: OpenRequest, id: u32) -> Result<(Open, Opened), Vec<ProblemAnswer>> {
    let (take, signs) = request.take.take()?;
    let sample_rate = request::rate(request.sample_rate)?;
    let text = &request.routine;
    let teacher =
        routine::read(text).map_err(|faults| ProblemAnswer::faults(In::Routine, text, &faults))?;
    let version = Version::of(&teacher, request.pencil.as_deref())?;
    let score = unroll(&version.routine, &take)
        .map_err(|fault| refused(&fault, &take, &version.routine))?;
    let timeline = compile(&score, &Settings { sample_rate, signs });
    let advice = advice(&version, request.pencil.as_deref(), &score, &teacher);
    let answer = Described {
        id,
        teacher: &teacher,
        version: &version,
        score: &score,
        timeline: &timeline,
        advice,
    }
    .answer();
    drop(score);
    Ok((
        Open {
            teacher,
            pencil: version.pencil,
            take,
            timeline,
        },
        answer,
    ))
}

/// What the checker has to say of the rest that a pencil's marks take away, each at the line of its mark.
fn advice(
    version: &Version,
    pencil_text: Option<&str>,
    score: &Score<'_>,
    teacher: &Routine,
) -> Vec<ProblemAnswer> {
    let (Some(cut_rest), Some(text)) = (&version.cut_rest, pencil_text) else {
        return vec![];
    };
    let check = |score: &Score<'_>| check::check(score, &Options::default());
    let plain = unroll(teacher, &score.take).ok();
    let findings = cut_rest(&check(score), plain.as_ref().map(check).as_ref());
    let marks = version.pencil.iter().flat_map(|pencil| &pencil.marks);
    let marked = |finding: &Finding| {
        let mark = marks.clone().find(|mark| mark.span == finding.span)?;
        lay::find_line(&mark.target, teacher).ok().flatten()
    };
    findings
        .iter()
        .map(|finding| ProblemAnswer::finding(text, finding, marked(finding)))
        .collect()
}

/// Why a take of this routine is refused.
pub fn refused(fault: &TakeFault, take: &Take, routine: &Routine) -> Vec<ProblemAnswer> {
    let refusal = spoken::refusal(fault, take, routine);
    vec![ProblemAnswer::new(In::Take, refusal.message).with_hint(refusal.hint)]
}
