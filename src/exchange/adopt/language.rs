//! Writes atoms in the note language.

use super::lengths::Atom;
use super::losses::Losses;
use super::loudness::{LoudnessStep, Word};
use super::tune::{TuneEvent, TuneEventKind};
use crate::brass::{Instrument, fingering};
use crate::music::{NoteValue, Whole};
use crate::routine::{Attack, Style};

/// One element of a line's notes.
#[derive(Clone, Debug, PartialEq)]
enum Token {
    /// An element with a value, which may be given by `each`: the text before and after the value.
    Valued(String, NoteValue, String),
    Plain(&'static str),
    Bar,
}

/// The notes of a line as text.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Notes {
    /// The most frequent value, if it is worth naming once.
    pub each: Option<NoteValue>,
    /// Rows of text, each ending with a bar line except perhaps the last.
    pub rows: Vec<String>,
}

/// Settings for how notes are written.
#[derive(Clone, Copy)]
pub(super) struct Writing<'i> {
    pub instrument: &'i Instrument,
    /// Whether fingerings other than the usual ones are written.
    pub fingerings: bool,
    /// Half steps that pitches are moved up, to the open horn.
    pub moved: i32,
}

/// Most characters in a row of notes.
const ROW: usize = 96;

/// Writes atoms down.
pub(super) fn notes(
    events: &[TuneEvent],
    atoms: &[Atom],
    steps: &[LoudnessStep],
    bars: &[Whole],
    style: Writing<'_>,
    losses: &mut Losses,
) -> Notes {
    let spans = Spans::of(events, atoms, losses);
    let steps = leading(events, atoms, steps, losses);
    let mut tokens = vec![];
    let mut bars = bars.iter().peekable();
    let mut steps = steps.iter().peekable();
    for (index, atom) in atoms.iter().enumerate() {
        while bars.next_if(|bar| **bar <= atom.at).is_some() {
            tokens.push(Token::Bar);
        }
        while let Some(step) = steps.next_if(|s| s.at <= atom.at) {
            tokens.push(Token::Plain(step.word.text()));
        }
        let opened = spans.begin_at(index);
        tokens.extend(opened.iter().copied().map(Token::Plain));
        let event = &events[atom.event];
        tokens.push(word(event, atom, style));
        for _ in 0..spans.end_at(index) {
            tokens.push(Token::Plain(")"));
        }
        let last = atoms
            .get(index + 1)
            .is_none_or(|next| next.event != atom.event);
        if event.breath && last && matches!(event.kind, TuneEventKind::Note(_)) {
            tokens.push(Token::Plain("breath"));
        }
    }
    tokens.extend(steps.map(|step| Token::Plain(step.word.text())));
    let each = each(&tokens);
    Notes {
        rows: rows(&tokens, each),
        each,
    }
}

/// The words of loudness, without those that span no note, because no word can stand at their moments.
fn leading(
    events: &[TuneEvent],
    atoms: &[Atom],
    steps: &[LoudnessStep],
    losses: &mut Losses,
) -> Vec<LoudnessStep> {
    // None is written before the one that precedes it, even if its moment is earlier.
    let mut latest = 0;
    let places = steps.iter().map(|step| {
        latest = latest.max(atoms.partition_point(|atom| atom.at < step.at));
        latest
    });
    let places: Vec<usize> = places.collect();
    let mut kept = vec![];
    for (index, step) in steps.iter().enumerate() {
        let leads = matches!(step.word, Word::Cresc | Word::Dim);
        let next = places.get(index + 1);
        if leads && next.is_some_and(|next| *next <= places[index]) {
            let atom = atoms.get(places[index]).or(atoms.last());
            let measure = atom.map(|atom| events[atom.event].measure);
            losses.lose(measure, "a wedge that leads nowhere is left out");
            continue;
        }
        kept.push(*step);
    }
    kept
}

fn word(event: &TuneEvent, atom: &Atom, style: Writing<'_>) -> Token {
    let plain = |head: &str| Token::Valued(head.to_owned(), atom.value, String::new());
    let pitch = match event.kind {
        TuneEventKind::Rest => return plain("rest"),
        _ if !atom.first => return plain("tie"),
        TuneEventKind::In => return plain("in"),
        TuneEventKind::Out => return plain("out"),
        TuneEventKind::Hold => return plain("hold"),
        TuneEventKind::Note(pitch) => pitch,
    };
    let mut marks = String::new();
    let usual = fingering::standard(style.instrument, pitch).map(|f| f.tube);
    if let Some(tube) = event.tube
        && style.fingerings
        && !event.bend
        && usual != Some(tube)
    {
        marks.push_str(&format!("[{tube}]"));
    }
    if event.bend {
        marks.push_str("(bend)");
    }
    marks.push_str(match event.style {
        Some(Style::Staccato) => "(staccato)",
        Some(Style::Legato) => "(legato)",
        Some(Style::Accent) => "(accent)",
        None => "",
    });
    marks.push_str(match event.attack {
        Attack::Air => "(air)",
        Attack::Ku => "(ku)",
        Attack::Tongue => "",
    });
    let pitch = pitch.moved(style.moved);
    Token::Valued(pitch.to_string(), atom.value, marks)
}

/// Slurs and triplets as ranges of atoms, none crossing another.
struct Spans {
    /// For each atom, the last atom of the slur that begins at it.
    slurs: Vec<Option<usize>>,
    /// The same of triplets.
    triplets: Vec<Option<usize>>,
    /// For each atom, how many of both end at it.
    ends: Vec<usize>,
}

impl Spans {
    fn of(events: &[TuneEvent], atoms: &[Atom], losses: &mut Losses) -> Self {
        let mut triplets: Vec<(usize, usize)> = vec![];
        let mut number = None;
        for (index, atom) in atoms.iter().enumerate() {
            match (atom.triplet, triplets.last_mut()) {
                (Some(_), Some(last)) if atom.triplet == number => last.1 = index,
                (Some(_), _) => triplets.push((index, index)),
                (None, _) => {}
            }
            number = atom.triplet;
        }
        let joined: Vec<bool> = events.iter().map(|e| e.joined).collect();
        let mut range = vec![(usize::MAX, 0); events.len()];
        for (index, atom) in atoms.iter().enumerate() {
            let of = &mut range[atom.event];
            *of = (of.0.min(index), index);
        }
        let within = |atom: usize| {
            let after = triplets.partition_point(|(from, _)| *from <= atom);
            let triplet = *triplets.get(after.checked_sub(1)?)?;
            (atom <= triplet.1).then_some(triplet)
        };
        // The first of those that are left is the last.
        let mut left = runs(&joined);
        left.reverse();
        let mut slurs = vec![];
        while let Some((from, to)) = left.pop() {
            let (a, b) = (range[from].0, range[to].1);
            let crosses = |(c, d): &(usize, usize)| {
                (a < *c && *c <= b && b < *d) || (*c < a && a <= *d && *d < b)
            };
            // Only one that its first or its last note is in can cross it.
            let crossing = [within(a), within(b)].into_iter().flatten().find(crosses);
            let Some((first, last)) = crossing else {
                slurs.push((a, b));
                continue;
            };
            // A slur is split where the triplet begins or ends, or left out if that is inside a note.
            let edge = (from + 1..=to).find(|e| range[*e].0 == first || range[*e - 1].1 == last);
            if let Some(edge) = edge {
                let parts = [(edge, to), (from, edge - 1)];
                left.extend(parts.into_iter().filter(|(from, to)| from < to));
            }
            let what = "a slur that begins or ends inside a triplet is cut at its end";
            losses.lose(Some(events[from].measure), what);
        }
        Self::at_atoms(&slurs, &triplets, atoms.len())
    }

    fn at_atoms(slurs: &[(usize, usize)], triplets: &[(usize, usize)], atoms: usize) -> Self {
        let mut spans = Self {
            slurs: vec![None; atoms],
            triplets: vec![None; atoms],
            ends: vec![0; atoms],
        };
        for (all, to) in [(slurs, &mut spans.slurs), (triplets, &mut spans.triplets)] {
            for (first, last) in all {
                // Notes that nothing is written of have no place.
                if let (Some(begin), Some(ends)) = (to.get_mut(*first), spans.ends.get_mut(*last)) {
                    *begin = Some(*last);
                    *ends += 1;
                }
            }
        }
        spans
    }

    fn begin_at(&self, index: usize) -> &'static [&'static str] {
        match (self.slurs[index], self.triplets[index]) {
            (Some(slur), Some(triplet)) if slur >= triplet => &["slur(", "triplet("],
            (Some(_), Some(_)) => &["triplet(", "slur("],
            (Some(_), None) => &["slur("],
            (None, Some(_)) => &["triplet("],
            (None, None) => &[],
        }
    }

    fn end_at(&self, index: usize) -> usize {
        self.ends[index]
    }
}

/// First and last event of each group of slurred notes.
fn runs(joined: &[bool]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = vec![];
    for (index, joined) in joined.iter().enumerate() {
        match runs.last_mut() {
            Some(run) if *joined && run.1 + 1 == index => run.1 = index,
            _ => runs.push((index, index)),
        }
    }
    runs.retain(|(from, to)| from < to);
    runs
}

/// The value of more than half of the tokens, if there are at least four.
fn each(tokens: &[Token]) -> Option<NoteValue> {
    let values: Vec<NoteValue> = tokens
        .iter()
        .filter_map(|token| match token {
            Token::Valued(_, value, _) => Some(*value),
            _ => None,
        })
        .collect();
    // If one value is more than half of them, it is left when each other one takes one of its kind away.
    let mut most = *values.first()?;
    let mut ahead = 0;
    for value in &values {
        if ahead == 0 {
            most = *value;
        }
        if *value == most {
            ahead += 1;
        } else {
            ahead -= 1;
        }
    }
    let count = values.iter().filter(|value| **value == most).count();
    (values.len() >= 4 && count * 2 > values.len()).then_some(most)
}

fn rows(tokens: &[Token], each: Option<NoteValue>) -> Vec<String> {
    let texts = tokens.iter().map(|token| match token {
        Token::Valued(head, value, marks) if Some(*value) == each => format!("{head}{marks}"),
        Token::Valued(head, value, marks) => format!("{head}:{value}{marks}"),
        Token::Plain(text) => (*text).to_owned(),
        Token::Bar => "|".to_owned(),
    });
    let mut bars: Vec<String> = vec![String::new()];
    for text in texts {
        let bar = bars.last_mut().expect("there is one");
        if !bar.is_empty() {
            bar.push(' ');
        }
        bar.push_str(&text);
        if text == "|" {
            bars.push(String::new());
        }
    }
    bars.retain(|bar| !bar.is_empty());
    let mut rows: Vec<String> = vec![];
    for bar in bars {
        match rows.last_mut() {
            Some(row) if row.len() + 1 + bar.len() <= ROW => {
                row.push(' ');
                row.push_str(&bar);
            }
            _ => rows.push(bar),
        }
    }
    rows
}
