//! What cannot be kept, line by line; each loss is reported once with its bars.

use crate::exchange::piece::{Loss, Measure};
use crate::words::list;
use std::borrow::Cow;
use std::collections::{HashMap, HashSet};

/// Losses in the order in which they are found.
#[derive(Default)]
pub(super) struct Losses {
    all: Vec<Loss>,
    /// The measures that something is said of.
    bars: HashSet<Option<usize>>,
    /// How many notes are said not to be there.
    left_out: usize,
}

impl Losses {
    pub(super) fn lose(&mut self, measure: Option<usize>, what: impl Into<Cow<'static, str>>) {
        let what = what.into();
        self.bars.insert(measure);
        self.all.push(Loss { measure, what });
    }

    /// Reports a note that is not there.
    pub(super) fn lose_note(&mut self, measure: usize, what: &'static str) {
        self.left_out += 1;
        self.lose(Some(measure), what);
    }

    /// How many notes are said not to be there.
    pub(super) fn notes_left_out(&self) -> usize {
        self.left_out
    }

    /// True if something is not kept in a measure, or in no measure alone.
    pub(super) fn any_of(&self, measure: Option<usize>) -> bool {
        self.bars.contains(&measure)
    }

    pub(super) fn take(&mut self, losses: impl IntoIterator<Item = Loss>) {
        for loss in losses {
            self.lose(loss.measure, loss.what);
        }
    }

    /// All of them in words. `line_of` gives the line, from 0, that a measure became part of.
    pub(super) fn told(
        self,
        measures: &[Measure],
        names: &[String],
        line_of: impl Fn(usize) -> Option<usize>,
    ) -> Vec<String> {
        /// Line and text of a loss, with its measures.
        type Key = (Option<usize>, Cow<'static, str>);
        let mut places: HashMap<Key, usize> = HashMap::new();
        let mut groups: Vec<(Key, Vec<usize>)> = vec![];
        for loss in self.all {
            let line = loss.measure.and_then(&line_of);
            let key = (line, loss.what);
            let place = *places.entry(key.clone()).or_insert_with(|| {
                groups.push((key, vec![]));
                groups.len() - 1
            });
            groups[place].1.extend(loss.measure);
        }
        for (_, measures) in &mut groups {
            measures.sort_unstable();
            measures.dedup();
        }
        groups.sort_by_key(|((line, _), measures)| (*line, measures.first().copied()));
        let say = |((line, what), of): (Key, Vec<usize>)| {
            let bars = bars(measures, &of);
            match line {
                Some(line) => format!("line {} “{}”{bars}: {what}", line + 1, names[line]),
                None if bars.is_empty() => what.into_owned(),
                None => format!("{}: {what}", bars.trim_start_matches(", ")),
            }
        };
        groups.into_iter().map(say).collect()
    }
}

/// ", bar 7", ", bars 7, 9 and 12", ", bars 1, 2, 3 and 40 more".
fn bars(measures: &[Measure], of: &[usize]) -> String {
    const MOST: usize = 8;
    let label = |index: &usize| -> String {
        match measures.get(*index).map(|m| m.label.as_str()) {
            Some("") | None => (index + 1).to_string(),
            Some(label) => label.chars().take(12).collect(),
        }
    };
    let mut labels: Vec<String> = of.iter().map(label).collect();
    labels.dedup();
    match labels.as_slice() {
        [] => String::new(),
        [one] => format!(", bar {one}"),
        several => format!(", bars {}", list::and_more(several, MOST)),
    }
}
