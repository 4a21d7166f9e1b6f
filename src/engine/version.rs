//! The player's version of a routine: a pencil laid over what the teacher wrote.

use super::answer::{In, ProblemAnswer};
use crate::check::{self, Finding, Report};
use crate::pencil::{self, LaidLine, Pencil};
use crate::routine::Routine;

/// What a pencil's marks take away of the rest, from the reports on the player's and the teacher's version.
type CutRest = Box<dyn Fn(&Report, Option<&Report>) -> Vec<Finding>>;

/// The player's version of a routine.
pub struct Version {
    /// What is played.
    pub routine: Routine,
    /// Where each of its lines comes from.
    pub lines: Vec<LaidLine>,
    /// The pencil that was laid over, if there is one.
    pub pencil: Option<Pencil>,
    /// Its marks that do not fit, which are left out.
    pub problems: Vec<ProblemAnswer>,
    /// Checks the rest that its marks may take away; none if no mark may.
    pub cut_rest: Option<CutRest>,
}

impl Version {
    /// The routine with a pencil over it, if there is one. Marks that do not fit are left out.
    pub fn of(teacher: &Routine, text: Option<&str>) -> Result<Self, Vec<ProblemAnswer>> {
        let Some(text) = text else {
            let of_itself = |of| LaidLine { of, marks: vec![] };
            return Ok(Self {
                lines: (0..teacher.lines.len()).map(of_itself).collect(),
                routine: teacher.clone(),
                pencil: None,
                problems: vec![],
                cut_rest: None,
            });
        };
        let read = pencil::read(text);
        // A text that is not a pencil is refused: the player would take the teacher's version for their own.
        let Some(pencil) = read.pencil else {
            return Err(ProblemAnswer::faults(In::Pencil, text, &read.faults));
        };
        let laid = pencil::lay(&pencil, teacher);
        let mut faults = read.faults;
        faults.extend(laid.faults.iter().cloned());
        faults.sort_by_key(|f| (f.span.start, f.span.end));
        Ok(Self {
            routine: laid.routine.clone(),
            lines: laid.lines.clone(),
            pencil: Some(pencil.clone()),
            problems: ProblemAnswer::faults(In::Pencil, text, &faults),
            cut_rest: cuts(&pencil).then(|| {
                let check: CutRest = Box::new(move |report, plain| {
                    check::pencilled::check(&pencil, &laid, report, plain)
                });
                check
            }),
        })
    }
}

/// True if a mark of it may take rest away.
fn cuts(pencil: &Pencil) -> bool {
    pencil.marks.iter().any(|m| m.change.may_cut_rest())
}
