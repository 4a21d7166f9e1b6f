//! Reads one TOML table: typed entries, with a fault for each that is invalid or unknown.

use super::bounds::LONGEST_TEXT;
use super::fault::{Fault, Span};
use super::source::PlacedText;
use super::suggest::{nearest, number_in};
use crate::music::decimal::DecimalError;
use crate::music::key::{KeyError, MOST};
use crate::music::{Decimal, Key, Meter, NoteNames, Tempo, WrittenPitch, tempo};
use crate::words::list;
use crate::words::{Words, tell};
use toml::de::{DeTable, DeValue};

/// A table and its source.
pub struct Fields<'a, 's> {
    /// The whole file.
    pub source: &'s str,
    /// The table.
    pub table: &'a DeTable<'s>,
    /// The place to report missing entries at.
    pub at: Span,
    /// The names of its valid entries.
    pub known: &'static [&'static str],
    /// True if rows of the file are not understood: they may contain what seems to be missing.
    pub broken: bool,
    /// The names that notes have in this file.
    pub names: NoteNames,
    /// Faults found so far.
    pub faults: Vec<Fault>,
}

/// The value of an entry and its place.
#[derive(Clone, Copy)]
pub struct Entry<'a, 's> {
    /// The value.
    pub value: &'a DeValue<'s>,
    /// Its place, quotes included.
    pub span: Span,
}

impl<'a, 's> Fields<'a, 's> {
    /// The entry of that name.
    pub fn get(&self, key: &str) -> Option<Entry<'a, 's>> {
        let (_, value) = self.table.get_key_value(key)?;
        Some(Entry {
            value: value.get_ref(),
            span: value.span().into(),
        })
    }

    /// The place of an entry's name.
    pub fn key_span(&self, key: &str) -> Option<Span> {
        self.table.get_key_value(key).map(|(k, _)| k.span().into())
    }

    /// Reports every unknown entry; `elsewhere` are names that belong to the other kind of table, with the
    /// words for where.
    pub fn unknown(&mut self, elsewhere: (&[&str], Words)) {
        for (key, _) in self.table.iter() {
            let (name, span) = (key.get_ref().as_ref(), Span::from(key.span()));
            if self.known.contains(&name) {
                continue;
            }
            let fault = Fault::new(span, tell::not_known_here(name));
            self.faults.push(if elsewhere.0.contains(&name) {
                // The mistake may be in the [[line]] header above it.
                if self.broken {
                    continue;
                }
                fault.hint(tell::belongs(name, &elsewhere.1))
            } else if let Some(meant) = synonym(name, self.known) {
                fault.hint(tell::write_this(meant))
            } else if let Some(meant) = nearest(name, self.known.iter().copied()) {
                fault.hint(tell::did_you_mean(meant))
            } else {
                fault.hint(tell::known_are(Words::of(|l| list::and_in(l, self.known))))
            });
        }
    }

    /// Reports that the required entry `key` is missing, unless it seems to be there with a misspelt name,
    /// which has been reported.
    pub fn missing(&mut self, key: &str, what: impl Into<Words>, hint: impl Into<Words>) {
        let slipped = self.table.iter().any(|(name, _)| {
            let name = name.get_ref().as_ref();
            !self.known.contains(&name) && nearest(name, self.known.iter().copied()) == Some(key)
        });
        if !self.broken && !slipped {
            self.faults.push(Fault::new(self.at, what).hint(hint));
        }
    }

    /// Reports an entry of the wrong type.
    pub fn wrong(
        &mut self,
        entry: Entry<'_, '_>,
        message: impl Into<Words>,
        hint: impl Into<Words>,
    ) {
        self.faults.push(Fault::new(entry.span, message).hint(hint));
    }

    /// A string entry with the place of every byte.
    pub fn placed(&mut self, key: &str, example: &str) -> Option<(PlacedText, Span)> {
        let entry = self.get(key)?;
        match entry.value {
            DeValue::String(_) => {
                let placed = PlacedText::decode(self.source, entry.span.start..entry.span.end);
                Some((placed, entry.span))
            }
            _ => {
                self.wrong(
                    entry,
                    tell::words_in_quotes_for(key),
                    tell::for_instance_quoted(key, example),
                );
                None
            }
        }
    }

    /// A text for people: not empty, one row, limited in length.
    pub fn text(&mut self, key: &str, example: &str) -> Option<(String, Span)> {
        let (placed, span) = self.placed(key, example)?;
        let text = placed.text.split_whitespace().collect::<Vec<_>>().join(" ");
        if text.is_empty() {
            self.faults.push(
                Fault::new(span, tell::is_empty(key)).hint(tell::for_instance_quoted(key, example)),
            );
            return None;
        }
        if text.chars().count() > LONGEST_TEXT || text.chars().any(char::is_control) {
            self.faults.push(
                Fault::new(span, tell::not_plain_text(key, LONGEST_TEXT))
                    .hint(tell::keep_to_a_sentence()),
            );
            return None;
        }
        Some((text, span))
    }

    /// A whole number between two bounds.
    pub fn whole(&mut self, key: &str, low: i64, high: i64) -> Option<i64> {
        let entry = self.get(key)?;
        let number = whole_number(entry.value).filter(|n| (low..=high).contains(n));
        if number.is_none() {
            self.wrong(
                entry,
                tell::whole_number_from(key, low, high),
                tell::for_instance_number(key, low.max(1) + 1),
            );
        }
        number
    }

    /// A tempo in clicks a minute.
    pub fn tempo(&mut self, key: &str) -> Option<(Tempo, Span)> {
        let entry = self.get(key)?;
        let tempo = self.tempo_of(key, entry)?;
        Some((tempo, entry.span))
    }

    /// The tempo in the entry of that name, or in a list of it.
    pub fn tempo_of(&mut self, key: &str, entry: Entry<'_, '_>) -> Option<Tempo> {
        let decimal = match entry.value {
            DeValue::Integer(_) | DeValue::Float(_) => {
                decimal_text(&self.source[entry.span.start..entry.span.end])
            }
            _ => Err(DecimalError::NotANumber),
        };
        match decimal.map(Tempo::from_decimal) {
            Ok(Ok(tempo)) => Some(tempo),
            Err(DecimalError::TooFine) => {
                self.wrong(
                    entry,
                    tell::more_than_three_decimals(key),
                    tell::no_metronome(),
                );
                None
            }
            _ => {
                let text = &self.source[entry.span.start..entry.span.end];
                let hint = match (entry.value, number_in(text)) {
                    (DeValue::String(_), Some(number)) => tell::number_without_quotes(key, number),
                    _ => tell::for_instance_tempo(key),
                };
                self.wrong(
                    entry,
                    tell::tempo_bounds(key, tempo::SLOWEST, tempo::FASTEST),
                    &hint,
                );
                None
            }
        }
    }

    /// A meter.
    pub fn meter(&mut self, key: &str) -> Option<Meter> {
        let (placed, span) = self.placed(key, "4/4")?;
        let meter = Meter::parse(placed.text.trim());
        if meter.is_none() {
            let hint = match placed.text.trim() {
                "C" | "c" | "common" => tell::write_meter("4/4"),
                "C|" | "¢" | "cut" | "alla breve" => tell::write_meter("2/2"),
                _ => tell::meters_clicked(),
            };
            self.faults
                .push(Fault::new(span, tell::no_meter(&placed.text)).hint(hint));
        }
        meter
    }

    /// A key, as the player reads it.
    pub fn key(&mut self, key: &str) -> Option<Key> {
        let (placed, span) = self.placed(key, "E-flat major")?;
        match Key::parse(&placed.text) {
            Ok(key) => Some(key),
            Err(error) => {
                self.faults.push(no_key(&placed.text, error, span));
                None
            }
        }
    }

    /// A written pitch.
    pub fn pitch(&mut self, key: &str, example: &str) -> Option<(WrittenPitch, Span)> {
        let (placed, span) = self.placed(key, example)?;
        let pitch = written_pitch(placed.text.trim(), span, self.names, &mut self.faults)?;
        Some((pitch, span))
    }

    /// One of several words.
    pub fn choice<T: Copy>(&mut self, key: &str, words: &[(&'static str, T)]) -> Option<T> {
        let (placed, span) = self.placed(key, words[0].0)?;
        let found = choose(placed.text.trim(), words);
        if found.is_none() {
            self.faults.push(no_choice(key, &placed.text, words, span));
        }
        found
    }

    /// The entries of a list; one value alone counts as a list of one.
    pub fn list(&self, key: &str) -> Option<(Vec<Entry<'a, 's>>, Span)> {
        let entry = self.get(key)?;
        let entries = match entry.value {
            DeValue::Array(array) => array
                .iter()
                .map(|e| Entry {
                    value: e.get_ref(),
                    span: e.span().into(),
                })
                .collect(),
            _ => vec![entry],
        };
        Some((entries, entry.span))
    }

    /// The text of a string in a list.
    pub fn item_text(&self, entry: Entry<'_, '_>) -> Option<String> {
        matches!(entry.value, DeValue::String(_))
            .then(|| PlacedText::decode(self.source, entry.span.start..entry.span.end).text)
    }
}

/// What is meant by a name from elsewhere, if that is among the known ones.
fn synonym(name: &str, known: &[&str]) -> Option<&'static str> {
    const SYNONYMS: [(&str, &str, &str); 14] = [
        ("repeat", "times", "times = 2"),
        ("repeats", "times", "times = 2"),
        ("time", "meter", "meter = \"4/4\""),
        ("time_signature", "meter", "meter = \"4/4\""),
        ("bpm", "tempo", "tempo = 72"),
        ("speed", "tempo", "tempo = 72"),
        ("slur", "articulation", "articulation = \"slurred\""),
        ("slurred", "articulation", "articulation = \"slurred\""),
        ("tongued", "articulation", "articulation = \"tongued\""),
        ("pause", "rest", "rest = \"same\""),
        ("music", "notes", "notes = \"…\""),
        ("top", "comfortable_top", "comfortable_top = \"G4\""),
        ("range", "comfortable_top", "comfortable_top = \"G4\""),
        ("highest", "reach", "reach = \"B4\""),
    ];
    let name = name.to_lowercase();
    SYNONYMS
        .iter()
        .find(|(other, meant, _)| *other == name && known.contains(meant))
        .map(|(_, _, example)| *example)
}

/// The whole number in an entry, written in plain digits.
pub fn whole_number(value: &DeValue<'_>) -> Option<i64> {
    match value {
        DeValue::Integer(n) => i64::from_str_radix(n.as_str(), n.radix()).ok(),
        _ => None,
    }
}

/// Reads a decimal exactly as written; TOML's underscores are removed.
fn decimal_text(text: &str) -> Result<Decimal, DecimalError> {
    Decimal::parse(&text.replace('_', ""))
}

/// The choice that a text names.
pub fn choose<T: Copy>(text: &str, words: &[(&'static str, T)]) -> Option<T> {
    words
        .iter()
        .find(|(word, _)| *word == text)
        .map(|(_, choice)| *choice)
}

/// The fault for a text that names no choice.
pub fn no_choice<T>(key: &str, text: &str, words: &[(&'static str, T)], span: Span) -> Fault {
    let names: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
    let fault = Fault::new(span, tell::cannot_be(key, text));
    match nearest(text, names.iter().copied()) {
        Some(meant) => fault.hint(tell::did_you_mean_quoted(meant)),
        None => {
            let quoted: Vec<String> = names.iter().map(|n| format!("\"{n}\"")).collect();
            fault.hint(tell::it_can_be(list::or(&quoted)))
        }
    }
}

/// The fault for a text that is no key, or one that nobody reads.
fn no_key(text: &str, error: KeyError, span: Span) -> Fault {
    match error {
        KeyError::NoKey => Fault::new(span, tell::no_key(text)).hint(tell::how_keys_stand()),
        KeyError::TooMany {
            accidentals,
            instead,
        } => {
            let sign = if instead.fifths() < 0 {
                "sharps"
            } else {
                "flats"
            };
            let message = tell::too_many_accidentals(text, accidentals, sign, MOST);
            Fault::new(span, message).hint(tell::same_sound(instead.to_string()))
        }
    }
}

/// Reads a written pitch, with the helpful faults of the note language.
pub fn written_pitch(
    text: &str,
    span: Span,
    names: NoteNames,
    faults: &mut Vec<Fault>,
) -> Option<WrittenPitch> {
    use super::notes::slips::{Many, Meant, pitch};
    if let Some(pitch) = names.parse(text) {
        return Some(pitch);
    }
    let mut many = Many::default();
    match pitch(text, names, None, &mut many, span) {
        Meant::Pitch(_) => many.tell(faults),
        Meant::Fault(fault) => faults.push(fault),
        Meant::Unknown => {
            faults.push(Fault::new(span, tell::no_pitch(text)).hint(tell::how_pitches_stand()))
        }
    }
    None
}
