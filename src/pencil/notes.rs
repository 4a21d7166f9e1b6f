//! Marks that change the notes of a line: breaths, bends, loudness. They change the phrase as if the teacher had
//! written it so, and the phrase is resolved again afterwards.

use crate::music::Dynamic;
use crate::problem::Problem;
use crate::routine::notes::{Item, ItemKind, Phrase};
use crate::routine::{EventKind, Line, Span};
use crate::words::{Words, count, tell};

/// Why a mark does not fit, and what would.
pub fn unfit(message: impl Into<Words>, hint: impl Into<Words>) -> Problem {
    Problem::error(message).hint(hint)
}

/// The path to a token: its index in the line, then in the slur or triplet that holds it, and so on.
type Way = Vec<usize>;

/// The tokens inside and outside brackets, in the order they are played.
fn tokens(phrase: &Phrase) -> Vec<Way> {
    fn walk(items: &[Item], way: &mut Way, found: &mut Vec<Way>) {
        for (i, item) in items.iter().enumerate() {
            way.push(i);
            match &item.kind {
                ItemKind::Slur(inside) | ItemKind::Triplet(inside) => walk(inside, way, found),
                _ => found.push(way.clone()),
            }
            way.pop();
        }
    }
    let (mut way, mut found) = (Way::new(), Vec::new());
    walk(&phrase.items, &mut way, &mut found);
    found
}

/// The list that holds the token at the end of a way, and its place there.
fn holder<'p>(phrase: &'p mut Phrase, way: &[usize]) -> (&'p mut Vec<Item>, usize) {
    let (last, before) = way.split_last().expect("a way has at least one step");
    let mut items = &mut phrase.items;
    for step in before {
        items = match &mut items[*step].kind {
            ItemKind::Slur(inside) | ItemKind::Triplet(inside) => inside,
            _ => unreachable!("a way leads through slurs and triplets only"),
        };
    }
    (items, *last)
}

fn item<'p>(phrase: &'p Phrase, way: &[usize]) -> &'p Item {
    let (last, before) = way.split_last().expect("a way has at least one step");
    let mut items = &phrase.items;
    for step in before {
        items = match &items[*step].kind {
            ItemKind::Slur(inside) | ItemKind::Triplet(inside) => inside,
            _ => unreachable!("a way leads through slurs and triplets only"),
        };
    }
    &items[*last]
}

fn is_note(item: &Item) -> bool {
    matches!(item.kind, ItemKind::Note(_))
}

/// The note of that number, from 1, among the tokens.
fn nth_note(phrase: &Phrase, tokens: &[Way], number: usize) -> Result<usize, Problem> {
    let notes: Vec<usize> = (0..tokens.len())
        .filter(|i| is_note(item(phrase, &tokens[*i])))
        .collect();
    let found = number.checked_sub(1).and_then(|i| notes.get(i)).copied();
    found.ok_or_else(|| {
        let n = notes.len();
        let notes = count::notes(n);
        unfit(tell::no_note_number(number, &notes), tell::notes_counted())
    })
}

/// The phrase with a breath after a note, behind its ties.
pub fn breath_after(line: &Line, number: usize) -> Result<Phrase, Problem> {
    let mut phrase = line.phrase.clone();
    let tokens = tokens(&phrase);
    let note = nth_note(&phrase, &tokens, number)?;
    let mut last = note;
    for (i, way) in tokens.iter().enumerate().skip(note + 1) {
        match item(&phrase, way).kind {
            ItemKind::Tie(_) => last = i,
            ItemKind::Bar | ItemKind::Dynamic(_) | ItemKind::Cresc | ItemKind::Dim => {}
            ItemKind::Breath => {
                return Err(unfit(tell::breath_there(number), tell::breath_elsewhere()));
            }
            _ => break,
        }
    }
    let span = item(&phrase, &tokens[last]).span;
    let (items, at) = holder(&mut phrase, &tokens[last]);
    let breath = Item {
        span,
        kind: ItemKind::Breath,
    };
    items.insert(at + 1, breath);
    Ok(phrase)
}

/// The phrase with one note, or every note that can be, bent from the note before it.
pub fn bent(line: &Line, number: Option<usize>) -> Result<Phrase, Problem> {
    let mut phrase = line.phrase.clone();
    let tokens = tokens(&phrase);
    let numbers: Vec<usize> = match number {
        Some(number) => {
            nth_note(&phrase, &tokens, number)?;
            if !can_bend(line, number) {
                return Err(unfit(tell::cannot_bend(number), tell::what_bends()));
            }
            vec![number]
        }
        None => {
            let mut numbers = Vec::new();
            let count = (1..).take_while(|n| nth_note(&phrase, &tokens, *n).is_ok());
            for number in count {
                // One cannot bend from a note that is itself bent.
                if can_bend(line, number) && numbers.last() != Some(&(number - 1)) {
                    numbers.push(number);
                }
            }
            numbers
        }
    };
    if numbers.is_empty() {
        return Err(unfit(tell::nothing_to_bend(), tell::what_bends_short()));
    }
    for number in numbers {
        let note = nth_note(&phrase, &tokens, number)?;
        let (items, at) = holder(&mut phrase, &tokens[note]);
        if let ItemKind::Note(note) = &mut items[at].kind {
            note.bend = true;
            // A bend keeps the valves of the note before it.
            note.tube = None;
        }
    }
    Ok(phrase)
}

/// The phrase with one bent note, or every one, fingered.
pub fn fingered(line: &Line, number: Option<usize>) -> Result<Phrase, Problem> {
    let mut phrase = line.phrase.clone();
    let tokens = tokens(&phrase);
    let numbers = match number {
        Some(number) => {
            nth_note(&phrase, &tokens, number)?;
            number..=number
        }
        None => {
            let count = (1..).take_while(|n| nth_note(&phrase, &tokens, *n).is_ok());
            1..=count.count()
        }
    };
    let mut changed = false;
    for number in numbers {
        let note = nth_note(&phrase, &tokens, number)?;
        let (items, at) = holder(&mut phrase, &tokens[note]);
        if let ItemKind::Note(note) = &mut items[at].kind {
            changed |= std::mem::replace(&mut note.bend, false);
        }
    }
    if !changed {
        let message = match number {
            Some(number) => tell::not_bent(number),
            None => tell::none_bent(),
        };
        return Err(unfit(message, tell::for_bent_notes()));
    }
    Ok(phrase)
}

/// True if this note is a half step below the note right before it, and that note is fingered.
fn can_bend(line: &Line, number: usize) -> bool {
    let events = &line.melody.events;
    let notes = events
        .iter()
        .enumerate()
        .filter(|(_, e)| matches!(e.kind, EventKind::Note(_)));
    let Some((index, event)) = notes.into_iter().nth(number - 1) else {
        return false;
    };
    let Some(before) = index.checked_sub(1).map(|i| &events[i]) else {
        return false;
    };
    match (before.kind, event.kind) {
        (EventKind::Note(from), EventKind::Note(to)) => {
            from.number() - to.number() == 1 && !before.breath_after && !before.bend && !event.bend
        }
        _ => false,
    }
}

/// The phrase a dynamic step louder or softer throughout. At the ends of the scale a mark stays where it is, and a
/// `cresc` or `dim` that no longer leads anywhere is left out.
pub fn louder(line: &Line, up: bool) -> Result<Phrase, Problem> {
    let mut phrase = line.phrase.clone();
    let mut to_drop: Vec<Way> = Vec::new();
    let mut lead: Option<Way> = None;
    let (mut now, mut changed) = (step(Dynamic::Mf, up), false);
    let mut begins = None;
    for way in tokens(&line.phrase) {
        match &item(&line.phrase, &way).kind {
            ItemKind::Cresc | ItemKind::Dim => lead = Some(way),
            ItemKind::Dynamic(dynamic) => {
                let moved = step(*dynamic, up);
                changed |= moved != *dynamic;
                // What it leads to, it has reached already.
                if moved == now {
                    to_drop.extend(lead.take());
                }
                lead = None;
                now = moved;
                begins.get_or_insert(true);
                let (items, at) = holder(&mut phrase, &way);
                items[at].kind = ItemKind::Dynamic(moved);
            }
            ItemKind::Bar => {}
            _ => {
                begins.get_or_insert(false);
            }
        }
    }
    for way in to_drop.iter().rev() {
        let (items, at) = holder(&mut phrase, way);
        items.remove(at);
    }
    if begins != Some(true) {
        // Every pass starts at mf without a mark that could be changed.
        let at = line.notes_span.start;
        let first = Item {
            span: Span::new(at, at),
            kind: ItemKind::Dynamic(step(Dynamic::Mf, up)),
        };
        phrase.items.insert(0, first);
        changed = true;
    }
    if !changed {
        let (most, way) = if up {
            ("ff", "louder")
        } else {
            ("pp", "softer")
        };
        return Err(unfit(
            tell::loud_throughout(most, way),
            tell::mark_changing_line(),
        ));
    }
    Ok(phrase)
}

fn step(dynamic: Dynamic, up: bool) -> Dynamic {
    let at = Dynamic::ALL
        .iter()
        .position(|d| *d == dynamic)
        .expect("all of them are listed");
    let at = if up { at + 1 } else { at.saturating_sub(1) };
    Dynamic::ALL[at.min(Dynamic::ALL.len() - 1)]
}
