//! What would mend a problem of a routine: edits of its text, each of which is tried before it is offered.
//!
//! An edit is offered if the problem is gone after it, and no problem of another kind has come. What that costs is bounded:
//! so many edits are tried for one text.
//!
//! ```
//! use leadpipe::edition::Judge;
//! use leadpipe::mend::mends;
//! use leadpipe::score::Take;
//!
//! let text = "format = 1\ntitle = \"One\"\ninstrument = \"trumpet\"\ncomfortable_top = \"G4\"\ntempi = 72\n\
//!             meter = \"4/4\"\n[[line]]\nname = \"One\"\nnotes = \"G4:whole\"\n";
//! let found = mends(text, &[Take::default()], &Judge::default());
//! let mend = found.iter().flat_map(|mended| &mended.mends).next().unwrap();
//! assert_eq!(mend.says, "Write tempo instead of tempi");
//! assert_eq!(mend.text, text.replace("tempi", "tempo"));
//! ```

mod breaths;
mod candidates;
mod fingerings;
mod meant;
mod place;
mod rests;
mod trial;
mod walks;

pub use place::Mend;

use crate::edition::Judge;
use crate::problem::Problem;
use crate::score::Take;
use trial::Trial;

/// A problem and what would mend it, the plainest first.
#[derive(Clone, Debug)]
pub struct Mended {
    /// The problem, as the reader or the checker tells it.
    pub problem: Problem,
    /// What would mend it; often nothing can be done by one touch.
    pub mends: Vec<Mend>,
}

/// How many edits are tried for one text.
const MOST_TRIALS: usize = 120;
/// How many are offered for one problem.
const MOST_OFFERED: usize = 3;

/// All problems of a routine at these takes, each with what would mend it.
pub fn mends(text: &str, takes: &[Take], judge: &Judge) -> Vec<Mended> {
    let mut trial = Trial::new(text, takes, judge, MOST_TRIALS);
    let problems = trial.before().to_vec();
    let mended = problems.into_iter().map(|problem| {
        let mut mends: Vec<Mend> = vec![];
        for candidate in candidates::of(text, &problem) {
            if mends.len() == MOST_OFFERED {
                break;
            }
            let known = mends.iter().any(|mend| mend.text == candidate.text);
            if !known && trial.mends(&candidate.text, &problem) {
                mends.push(candidate);
            }
        }
        Mended { problem, mends }
    });
    mended.collect()
}
