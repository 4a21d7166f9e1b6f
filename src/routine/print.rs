//! Phrase → text, the way a teacher would write it.

use super::melody::{Attack, Style};
use super::notes::{Item, ItemKind, NoteItem, Phrase};
use std::fmt;

impl fmt::Display for Phrase {
    /// A phrase in the note language, tokens separated by one space, every value written out.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        items(&self.items, f)
    }
}

fn items(items: &[Item], f: &mut fmt::Formatter<'_>) -> fmt::Result {
    for (i, item) in items.iter().enumerate() {
        if i > 0 {
            f.write_str(" ")?;
        }
        match &item.kind {
            ItemKind::Note(n) => note(n, f)?,
            ItemKind::Rest(value) => write!(f, "rest:{value}")?,
            ItemKind::Tie(value) => write!(f, "tie:{value}")?,
            ItemKind::In(value) => write!(f, "in:{value}")?,
            ItemKind::Out(value) => write!(f, "out:{value}")?,
            ItemKind::Hold(value) => write!(f, "hold:{value}")?,
            ItemKind::Breath => f.write_str("breath")?,
            ItemKind::Bar => f.write_str("|")?,
            ItemKind::Dynamic(dynamic) => write!(f, "{dynamic}")?,
            ItemKind::Cresc => f.write_str("cresc")?,
            ItemKind::Dim => f.write_str("dim")?,
            ItemKind::Slur(inside) => span("slur", inside, f)?,
            ItemKind::Triplet(inside) => span("triplet", inside, f)?,
        }
    }
    Ok(())
}

fn span(word: &str, inside: &[Item], f: &mut fmt::Formatter<'_>) -> fmt::Result {
    write!(f, "{word}( ")?;
    items(inside, f)?;
    f.write_str(" )")
}

fn note(note: &NoteItem, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    write!(f, "{}:{}", note.pitch, note.value)?;
    if let Some(tube) = note.tube {
        write!(f, " [{tube}]")?;
    }
    if note.bend {
        f.write_str(" (bend)")?;
    }
    match note.style {
        Some(Style::Staccato) => f.write_str(" (staccato)")?,
        Some(Style::Legato) => f.write_str(" (legato)")?,
        Some(Style::Accent) => f.write_str(" (accent)")?,
        None => {}
    }
    match note.attack {
        Attack::Air => f.write_str(" (air)"),
        Attack::Ku => f.write_str(" (ku)"),
        Attack::Tongue => Ok(()),
    }
}
