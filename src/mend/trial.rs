//! Tries a text: whether a problem is gone from it, and no other has come.

use crate::edition::{Edition, Judge};
use crate::problem::Problem;
use crate::score::Take;

/// What is tried against the text as it was.
pub struct Trial<'t> {
    takes: &'t [Take],
    judge: &'t Judge,
    before: Vec<Problem>,
    /// How many more texts may be tried.
    left: usize,
}

impl<'t> Trial<'t> {
    pub fn new(text: &str, takes: &'t [Take], judge: &'t Judge, most: usize) -> Self {
        Self {
            takes,
            judge,
            before: problems(text, takes, judge),
            left: most,
        }
    }

    /// The problems of the text as it was.
    pub fn before(&self) -> &[Problem] {
        &self.before
    }

    /// True if a text has one problem of this kind less, and none more of any kind.
    pub fn mends(&mut self, text: &str, problem: &Problem) -> bool {
        if self.left == 0 {
            return false;
        }
        self.left -= 1;
        let after = problems(text, self.takes, self.judge);
        let unread = |problems: &[Problem]| problems.iter().filter(|p| p.rule.is_none()).count();
        // What could not be read was not checked either: what the checker finds now is no new fault.
        if problem.rule.is_none() {
            return unread(&after) < unread(&self.before);
        }
        let fewer = count(&after, problem) < count(&self.before, problem);
        fewer
            && after
                .iter()
                .all(|one| count(&after, one) <= count(&self.before, one))
    }
}

/// How many problems are of the kind of this one.
fn count(problems: &[Problem], kind: &Problem) -> usize {
    let same = |one: &&Problem| (one.rule, one.severity) == (kind.rule, kind.severity);
    problems.iter().filter(same).count()
}

fn problems(text: &str, takes: &[Take], judge: &Judge) -> Vec<Problem> {
    let edition = match Edition::read(text, None) {
        Ok(edition) => edition,
        Err(problems) => return problems,
    };
    match edition.plan(takes, judge) {
        Ok(plan) => plan.takes.into_iter().flat_map(|t| t.problems).collect(),
        Err(unplayable) => vec![unplayable.problem],
    }
}
