//! The takes of an edition: unrolled, checked and named, each once.

use super::Edition;
use super::name::{self, Names};
use crate::check::{self, Finding, Options, Report};
use crate::music::{Tempo, Tuning};
use crate::problem::{Problem, Text};
use crate::routine::{Guide, Routine};
use crate::score::{Notice, Score, Take, TakeTempo, spoken, unroll};
use num_traits::ToPrimitive;
use std::collections::{HashMap, HashSet};

/// How takes are checked.
#[derive(Clone, Copy, Debug, Default)]
pub struct Judge {
    /// The player's breath and range.
    pub options: Options,
    /// Which problems count as known.
    pub against: Against,
}

/// The problems that count as known, in addition to those of earlier takes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Against {
    /// None: all problems of the first take are new.
    #[default]
    Nothing,
    /// Those of the routine as written, in the same guide mode.
    AsWritten,
}

/// Takes that can be rendered.
#[derive(Debug)]
pub struct Plan<'e> {
    /// Problems of the routine as written, if takes are compared with it.
    pub as_written: Option<Report>,
    /// The takes in the order in which they were wanted, without duplicates. Empty if the routine as written
    /// has errors.
    pub takes: Vec<PlannedTake<'e>>,
}

/// A take that can be rendered.
#[derive(Debug)]
pub struct PlannedTake<'e> {
    /// The take.
    pub take: Take,
    /// Its base tempo.
    pub tempo: Tempo,
    /// The score that is played.
    pub score: Score<'e>,
    /// All its problems, and its summary.
    pub report: Report,
    /// Its problems that no earlier take has.
    pub problems: Vec<Problem>,
    /// What it does differently from what was asked, unless an earlier take said so.
    pub notices: Vec<Notice>,
    /// Its name; empty until [`Plan::name`] gives it one.
    pub name: String,
}

/// Why a routine cannot be played at a take.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unplayable {
    /// The take.
    pub take: Take,
    /// What is wrong, with a hint.
    pub problem: Problem,
}

impl Unplayable {
    /// True if the take changes neither tempo nor key: then the routine itself is at fault.
    pub fn is_as_written(&self) -> bool {
        self.take.tempo == TakeTempo::AS_WRITTEN && self.take.key == 0
    }
}

impl PlannedTake<'_> {
    /// Its approximate number of frames.
    pub fn frames(&self, sample_rate: u32) -> u64 {
        (self.score.seconds.to_f64().unwrap_or(0.0) * f64::from(sample_rate)) as u64
    }
}

impl Plan<'_> {
    /// Names the takes after `stem`, a routine's [`slug`](name::slug), each unique in `names`.
    pub fn name(&mut self, stem: &str, names: &mut Names) {
        for planned in &mut self.takes {
            planned.name = names.give(&name::of(stem, planned.tempo, &planned.take));
        }
    }

    /// The names that the takes would get from `stem`.
    pub fn names(&self, stem: &str) -> impl Iterator<Item = String> {
        let takes = self.takes.iter();
        takes.map(move |planned| name::of(stem, planned.tempo, &planned.take))
    }

    /// Sorts the takes in practice order, which is the order of their names.
    pub fn in_order_of_practice(mut self) -> Self {
        self.takes.sort_by(|a, b| name::order(&a.name, &b.name));
        self
    }
}

impl Edition {
    /// Unrolls and checks these takes. Of equal takes (a tempo may be given in percent and in clicks) the first
    /// is kept.
    ///
    /// # Errors
    /// If the routine cannot be played at one of them: too slow or too fast, too long, or without any line
    /// left.
    pub fn plan(&self, wanted: &[Take], judge: &Judge) -> Result<Plan<'_>, Unplayable> {
        let mut planning = Planning::begin(self, judge)?;
        let mut plan = Plan {
            as_written: planning.as_written.take(),
            takes: Vec::new(),
        };
        if plan.as_written.as_ref().is_some_and(Report::has_errors) {
            return Ok(plan);
        }
        for take in wanted {
            plan.takes.extend(planning.take(take)?);
        }
        Ok(plan)
    }

    /// The rest that the pencil removes at a take, reported at the marks that remove it.
    fn rest_cut(&self, take: &Take, report: &Report) -> Vec<Finding> {
        let Some(pencilled) = &self.pencilled else {
            return Vec::new();
        };
        let marks = &pencilled.read.marks;
        if !marks.iter().any(|mark| mark.change.may_cut_rest()) {
            return Vec::new();
        }
        let plain = unroll(&self.teacher, take).ok();
        let plain = plain.map(|score| check::check(&score, &Options::default()));
        check::pencilled::check(&pencilled.read, &pencilled.laid, report, plain.as_ref())
    }
}

/// Takes being planned.
struct Planning<'e> {
    edition: &'e Edition,
    judge: Judge,
    as_written: Option<Report>,
    /// Findings that were reported or count as known; for each guide mode if takes are compared with the
    /// routine as written.
    known: HashMap<Option<Guide>, Vec<Finding>>,
    rest_cut: Vec<Finding>,
    notices: Vec<Notice>,
    seen: HashSet<(Tempo, i32, Guide, Tuning)>,
}

impl<'e> Planning<'e> {
    fn begin(edition: &'e Edition, judge: &Judge) -> Result<Self, Unplayable> {
        let mut planning = Self {
            edition,
            judge: *judge,
            as_written: None,
            known: HashMap::new(),
            rest_cut: Vec::new(),
            notices: Vec::new(),
            seen: HashSet::new(),
        };
        if judge.against == Against::AsWritten {
            let take = Take::default();
            let score = unrolled(edition.played(), &take)?;
            let report = check::check(&score, &judge.options);
            let findings = report.findings.clone();
            planning.known.insert(Some(take.guide), findings);
            planning.rest_cut = edition.rest_cut(&take, &report);
            planning.as_written = Some(report);
        }
        Ok(planning)
    }

    /// Plans a take; `None` if it equals an earlier one.
    fn take(&mut self, take: &Take) -> Result<Option<PlannedTake<'e>>, Unplayable> {
        let routine = self.edition.played();
        let score = unrolled(routine, take)?;
        let tempo = take
            .tempo
            .base(routine)
            .expect("a score exists only at a tempo within bounds");
        if !self.seen.insert((tempo, take.key, take.guide, take.tuning)) {
            return Ok(None);
        }
        let report = check::check(&score, &self.judge.options);
        let mut problems = self.new_findings(take.guide, &report);
        problems.extend(self.new_cuts(take, &report));
        let said = &mut self.notices;
        let mut notices = Vec::new();
        for notice in &score.notices {
            let same = |n: &Notice| (n.line, &n.message) == (notice.line, &notice.message);
            if !said.iter().any(same) {
                said.push(notice.clone());
                notices.push(notice.clone());
            }
        }
        Ok(Some(PlannedTake {
            take: *take,
            tempo,
            score,
            report,
            problems,
            notices,
            name: String::new(),
        }))
    }

    fn new_findings(&mut self, guide: Guide, report: &Report) -> Vec<Problem> {
        let (routine, options) = (self.edition.played(), &self.judge.options);
        let known = match self.judge.against {
            Against::Nothing => self.known.entry(None).or_default(),
            Against::AsWritten => self
                .known
                .entry(Some(guide))
                .or_insert_with(|| findings_as_written(routine, guide, options)),
        };
        let new: Vec<Finding> = added(known, &report.findings)
            .into_iter()
            .cloned()
            .collect();
        known.extend(new.iter().cloned());
        let problems = new.into_iter().map(|f| f.in_text(Text::Routine));
        problems.collect()
    }

    fn new_cuts(&mut self, take: &Take, report: &Report) -> Vec<Problem> {
        let mut cuts = self.edition.rest_cut(take, report);
        cuts.retain(|cut| self.rest_cut.iter().all(|said| said.span != cut.span));
        self.rest_cut.extend(cuts.iter().cloned());
        cuts.into_iter().map(|f| f.in_text(Text::Pencil)).collect()
    }
}

/// Unrolls a routine at a take.
///
/// # Errors
/// If it cannot be played at this take.
pub fn unrolled<'r>(routine: &'r Routine, take: &Take) -> Result<Score<'r>, Unplayable> {
    unroll(routine, take).map_err(|fault| Unplayable {
        take: *take,
        problem: spoken::refusal(&fault, take, routine),
    })
}

/// The findings of the routine as written in a guide mode; `None` if that cannot be played.
fn findings_as_written(routine: &Routine, guide: Guide, options: &Options) -> Vec<Finding> {
    let take = Take {
        guide,
        ..Take::default()
    };
    unroll(routine, &take)
        .map(|score| check::check(&score, options).findings)
        .unwrap_or_default()
}

/// The findings of `take` that are not in `known`: the same rule at the same place is the same finding, even if
/// its figures differ.
pub fn added<'a>(known: &[Finding], take: &'a [Finding]) -> Vec<&'a Finding> {
    let like = |a: &Finding, b: &Finding| {
        (a.severity, a.rule, a.line, a.span) == (b.severity, b.rule, b.line, b.span)
    };
    take.iter()
        .filter(|finding| !known.iter().any(|other| like(finding, other)))
        .collect()
}
