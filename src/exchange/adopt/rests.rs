//! Rests between the passes of a line and after it, in the words of a routine.

use crate::music::{Decimal, Meter};
use crate::routine::bounds::LONGEST_REST;
use crate::routine::line_reader::measured;

/// Playing time since the last rest, as the score counts it.
#[derive(Default)]
pub(super) struct Owed {
    seconds: f64,
}

/// The passes of a line.
pub(super) struct LinePasses {
    pub count: usize,
    pub bars: usize,
    /// Bars of rest between two passes.
    pub between: usize,
}

/// Words for rests; `None` for the default, `"same"`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Rests {
    pub between: Option<String>,
    pub after: Option<String>,
    /// What is said if one of them is longer in the file than a routine may hold.
    pub shortened: Option<String>,
}

/// The rest after a line in the file.
pub(super) enum After<'w> {
    /// This is the last line.
    Nothing,
    /// None is written.
    Unwritten,
    /// The music goes straight on.
    GoesOn,
    /// In words.
    Words(&'w str),
    /// In seconds.
    Lasts(f64),
}

/// Duration of a bar in seconds.
pub(super) fn bar_seconds(clicks: Decimal, meter: Meter) -> f64 {
    60.0 / clicks.as_f64() * f64::from(meter.clicks_per_bar())
}

impl Owed {
    /// Words for the rests of the next line.
    pub(super) fn line(
        &mut self,
        passes: &LinePasses,
        after: &After<'_>,
        bar_seconds: f64,
    ) -> Rests {
        let mut rests = Rests::default();
        let bars = |seconds: f64| (seconds / bar_seconds - 1e-6).ceil() as usize;
        let pass_seconds = passes.bars as f64 * bar_seconds;
        let mut same_between = true;
        for pass in 0..passes.count {
            self.seconds += pass_seconds;
            if pass + 1 < passes.count {
                same_between &= bars(self.seconds) == passes.between;
                if passes.between > 0 {
                    self.seconds = 0.0;
                }
            }
        }
        if passes.count > 1 && !same_between {
            rests.between = Some(match passes.between {
                0 => "none".to_owned(),
                n => bars_in_words(n, &mut rests.shortened),
            });
        }
        rests.after = match after {
            After::Nothing | After::Unwritten => None,
            After::GoesOn => Some("none".to_owned()),
            After::Words(words) => measured(words).map(|_| (*words).to_owned()),
            After::Lasts(seconds) => {
                let written = seconds / bar_seconds;
                let whole = (written - written.round()).abs() < 1e-3;
                let same = whole && written.round() as usize == bars(self.seconds);
                match (same, whole) {
                    (true, _) => None,
                    (false, true) => Some(bars_in_words(
                        written.round() as usize,
                        &mut rests.shortened,
                    )),
                    (false, false) => Some(seconds_in_words(*seconds, &mut rests.shortened)),
                }
            }
        };
        if rests.after.as_deref() != Some("none") {
            self.seconds = 0.0;
        }
        rests
    }
}

fn bars_in_words(bars: usize, shortened: &mut Option<String>) -> String {
    let most = LONGEST_REST as usize;
    if bars > most {
        *shortened = Some(format!(
            "a rest of {bars} bars is {most} bars here, the longest that a routine may hold"
        ));
    }
    match bars.min(most) {
        1 => "1 bar".to_owned(),
        n => format!("{n} bars"),
    }
}

fn seconds_in_words(seconds: f64, shortened: &mut Option<String>) -> String {
    let seconds = (seconds * 10.0).round() / 10.0;
    let most = LONGEST_REST as f64;
    if seconds > most {
        *shortened = Some(format!(
            "a rest of {seconds} s is {most} s here, the longest that a routine may hold"
        ));
    }
    format!("{} s", seconds.min(most))
}
