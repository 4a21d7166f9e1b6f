//! Dynamics and wedges: every *cresc* and *dim* must lead to a dynamic, which a printed wedge need not.

use super::lengths::can_cut;
use super::losses::Losses;
use super::tune::{ChangeKind, TuneChange, TuneEvent};
use crate::music::{Dynamic, Whole};

/// A dynamic, *cresc* or *dim* of a routine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Word {
    Dynamic(Dynamic),
    Cresc,
    Dim,
}

impl Word {
    pub(super) fn text(self) -> &'static str {
        match self {
            Word::Dynamic(dynamic) => dynamic.mark(),
            Word::Cresc => "cresc",
            Word::Dim => "dim",
        }
    }
}

/// A word of loudness at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct LoudnessStep {
    pub at: Whole,
    /// Index of its bar.
    pub bar: usize,
    pub word: Word,
}

/// A wedge that has not reached a dynamic yet.
#[derive(Clone, Copy)]
struct Open {
    louder: bool,
    from: TuneChange,
}

/// Resolves the changes of a tune that starts at `level`; returns the words and the level at the end.
pub(super) fn resolve(
    changes: &[TuneChange],
    events: &[TuneEvent],
    level: Dynamic,
    losses: &mut Losses,
) -> (Vec<LoudnessStep>, Dynamic) {
    let moments = Moments::of(events);
    let moments = &moments;
    let mut resolver = Resolver {
        moments,
        level,
        open: None,
        steps: vec![],
        leads_to_last: false,
        losses,
    };
    // A mark slightly before or after its note may be in another bar.
    let mut changes = changes.to_vec();
    changes.sort_by_key(|c| c.at);
    let mut changes = changes.into_iter().peekable();
    while let Some(change) = changes.next() {
        let change = TuneChange {
            at: moments.near(change.at),
            ..change
        };
        match change.kind {
            ChangeKind::Dynamic(to) => resolver.dynamic(change, to),
            ChangeKind::Wedge(louder) => {
                resolver.close(change);
                resolver.open = Some(Open {
                    louder,
                    from: change,
                });
            }
            ChangeKind::WedgeOver => {
                // The dynamic at its end, or under the next note.
                let next = moments.next_note(change.at);
                let target = changes.peek().filter(|c| {
                    let near = moments.near(c.at);
                    matches!(c.kind, ChangeKind::Dynamic(_))
                        && (near == change.at || next.is_some_and(|next| near <= next))
                });
                let leads = |target: &TuneChange| resolver.leads_to(target.kind);
                if !target.is_some_and(leads) {
                    resolver.close(change);
                }
            }
        }
    }
    let end = events.iter().rfind(|e| !e.is_rest()).map(TuneEvent::end);
    if let (Some(open), Some(end)) = (resolver.open, end) {
        resolver.close(TuneChange {
            at: end.max(open.from.at),
            ..open.from
        });
    }
    (resolver.steps, resolver.level)
}

struct Resolver<'r> {
    moments: &'r Moments,
    level: Dynamic,
    open: Option<Open>,
    steps: Vec<LoudnessStep>,
    /// True if a wedge leads to the last of them.
    leads_to_last: bool,
    losses: &'r mut Losses,
}

impl Resolver<'_> {
    fn leads_to(&self, kind: ChangeKind) -> bool {
        match (self.open, kind) {
            (Some(open), ChangeKind::Dynamic(to)) if open.louder => to > self.level,
            (Some(_), ChangeKind::Dynamic(to)) => to < self.level,
            _ => false,
        }
    }

    fn dynamic(&mut self, change: TuneChange, to: Dynamic) {
        if let Some(open) = self.open {
            if change.at <= open.from.at {
                // It is the dynamic that the wedge starts from.
            } else if self.leads_to(change.kind) {
                self.lead(open, change, to);
                return;
            } else {
                self.open = None;
                self.drop(open);
            }
        }
        self.step(change, Word::Dynamic(to));
        self.level = to;
    }

    /// Ends the open wedge if nothing says where it leads.
    fn close(&mut self, at: TuneChange) {
        let Some(open) = self.open.take() else {
            return;
        };
        let place = Dynamic::ALL.iter().position(|d| *d == self.level);
        let place = place.unwrap_or_default();
        let to = if open.louder {
            Dynamic::ALL.get(place + 1)
        } else {
            place.checked_sub(1).map(|place| &Dynamic::ALL[place])
        };
        match to {
            Some(to) if at.at > open.from.at && self.sounds_between(open.from.at, at.at) => {
                let word = if open.louder { "louder" } else { "softer" };
                let what = format!("a wedge that leads to no dynamic leads one step {word}");
                self.losses.lose(Some(open.from.measure), what);
                self.lead(open, at, *to);
            }
            _ => self.drop(open),
        }
    }

    fn drop(&mut self, open: Open) {
        let what = "a wedge that leads nowhere is left out";
        self.losses.lose(Some(open.from.measure), what);
    }

    fn sounds_between(&self, from: Whole, to: Whole) -> bool {
        let notes = &self.moments.notes;
        let first = notes.partition_point(|(_, end)| *end <= from);
        notes.get(first).is_some_and(|(start, _)| *start < to)
    }

    fn lead(&mut self, open: Open, at: TuneChange, to: Dynamic) {
        self.open = None;
        let word = if open.louder { Word::Cresc } else { Word::Dim };
        // A mark at the moment of the wedge precedes it.
        self.step(open.from, word);
        self.step(at, Word::Dynamic(to));
        self.leads_to_last = true;
        self.level = to;
    }

    fn step(&mut self, change: TuneChange, word: Word) {
        let (at, bar) = (change.at, change.bar);
        let same = self
            .steps
            .last()
            .is_some_and(|s| s.at == at && s.bar == bar);
        let replaces = same && !std::mem::take(&mut self.leads_to_last);
        if let (true, Some(last), Word::Dynamic(_)) = (replaces, self.steps.last_mut(), word)
            && matches!(last.word, Word::Dynamic(_))
        {
            last.word = word;
            return;
        }
        self.steps.push(LoudnessStep { at, bar, word });
    }
}

/// Where the notes and rests of a tune begin and end, in order.
struct Moments {
    /// All noteheads and rests.
    heads: Vec<(Whole, Whole)>,
    /// All notes.
    notes: Vec<(Whole, Whole)>,
}

impl Moments {
    fn of(events: &[TuneEvent]) -> Self {
        let heads = events.iter().flat_map(|e| &e.heads);
        let notes = events.iter().filter(|e| !e.is_rest());
        Self {
            heads: heads.map(|(at, length)| (*at, *at + *length)).collect(),
            notes: notes.map(|e| (e.start(), e.end())).collect(),
        }
    }

    /// Where the first note at or after a moment begins.
    fn next_note(&self, moment: Whole) -> Option<Whole> {
        let first = self.notes.partition_point(|(start, _)| *start < moment);
        self.notes.get(first).map(|(start, _)| *start)
    }

    /// The nearest moment at which a word can stand: between two noteheads, or where one can be split. Of two as near
    /// the earlier.
    fn near(&self, moment: Whole) -> Whole {
        let next = self.heads.partition_point(|(at, _)| *at < moment);
        let Some((at, end)) = next.checked_sub(1).map(|before| self.heads[before]) else {
            // All begin later; a word can stand at the beginning in any case.
            let first = self.heads.first().map(|(at, _)| *at);
            let first = first.filter(|first| *first - moment < moment);
            return first.unwrap_or_default();
        };
        if can_cut(at, end, moment) {
            return moment;
        }
        let before = if end <= moment { end } else { at };
        let after = match self.heads.get(next) {
            _ if end >= moment => end,
            Some((at, _)) => *at,
            None => return before,
        };
        if after - moment < moment - before {
            after
        } else {
            before
        }
    }
}
