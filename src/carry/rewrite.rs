//! Replaces in the text of a routine what depends on the instrument.

use super::interval::{self, of_line_in_concert};
use super::model::{CarryError, CarryRule, LeftOutLine};
use super::replacements::Replacements;
use crate::brass::{Instrument, Tube, partials};
use crate::music::WrittenPitch;
use crate::music::transposed::WrittenInterval;
use crate::problem::Problem;
use crate::routine::notes::{Item, ItemKind, NoteItem};
use crate::routine::{Drone, Line, Routine, Walk};
use crate::words::Language;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// The text for another instrument, with the lines that have no counterpart on it. Those stand unchanged in the text.
pub fn rewrite(
    text: &str,
    routine: &Routine,
    to: &'static Instrument,
    rule: CarryRule,
) -> Result<(String, Vec<LeftOutLine>), CarryError> {
    let (root, _) = DeTable::parse_recoverable(text);
    let root = root.get_ref();
    let tops = interval::tops(routine, to, rule);
    let by = interval::of_partials(routine, to);
    let mut replacements = Replacements::default();
    let mut set = |entry: &str, with: String| {
        if let Some((_, value)) = root.get_key_value(entry) {
            replacements.replace(value.span(), format!("\"{with}\""));
        }
    };
    set("instrument", to.name.to_owned());
    set("comfortable_top", tops.0.to_string());
    let head_by = match rule {
        CarryRule::Partials => by,
        CarryRule::Concert => of_line_key(routine, to),
    };
    if let Some(key) = routine.key {
        let key = key.transposed(head_by);
        set("key", format!("{} {}", key.tonic(), key.mode().word()));
    }
    match tops.1 {
        Some(reach) => set("reach", reach.to_string()),
        None => remove_row(text, root, "reach", &mut replacements),
    }
    let mut left_out = vec![];
    for (index, line) in routine.lines.iter().enumerate() {
        let mut carried = Carrying {
            text,
            table: line_table(root, index),
            routine,
            line,
            to,
            replacements: &mut replacements,
        };
        let told = carried.line(rule, by, tops);
        if let Err(problem) = told {
            left_out.push(LeftOutLine {
                number: index + 1,
                name: line.name.clone(),
                problem,
            });
        }
    }
    Ok((replacements.apply(text), left_out))
}

/// The interval by which keys move where sounding pitches stay.
fn of_line_key(routine: &Routine, to: &Instrument) -> WrittenInterval {
    WrittenInterval::of_half_steps(routine.instrument.transposition - to.transposition)
}

/// Removes the row of an entry, if it is there.
fn remove_row(text: &str, table: &DeTable<'_>, entry: &str, replacements: &mut Replacements) {
    let Some((key, value)) = table.get_key_value(entry) else {
        return;
    };
    let start = text[..key.span().start].rfind('\n').map_or(0, |at| at + 1);
    let end = text[value.span().end..]
        .find('\n')
        .map_or(text.len(), |at| value.span().end + at + 1);
    replacements.replace(start..end, "");
}

/// The table of a line.
fn line_table<'t, 'a>(root: &'t DeTable<'a>, index: usize) -> Option<&'t DeTable<'a>> {
    let lines = root.get("line")?.get_ref().as_array()?;
    lines.get(index)?.get_ref().as_table()
}

/// One line on its way to another instrument.
struct Carrying<'c, 'a> {
    text: &'c str,
    table: Option<&'c DeTable<'a>>,
    routine: &'c Routine,
    line: &'c Line,
    to: &'static Instrument,
    replacements: &'c mut Replacements,
}

impl<'a> Carrying<'_, 'a> {
    fn line(
        &mut self,
        rule: CarryRule,
        by_partials: WrittenInterval,
        tops: (WrittenPitch, Option<WrittenPitch>),
    ) -> Result<(), Problem> {
        let on_tubes = matches!(self.line.walk, Walk::Tubes(_));
        let by = match rule {
            CarryRule::Partials => by_partials,
            CarryRule::Concert => {
                let by = of_line_in_concert(self.routine, self.line, self.to, tops);
                let by = by.ok_or_else(|| self.no_octave(tops.0))?;
                let tubes_stay = (by.half_steps - by_partials.half_steps) % 12 == 0;
                if on_tubes && !tubes_stay {
                    if !self.is_open_there(&self.line.phrase.items, by) {
                        return Err(self.other_horn());
                    }
                    self.keep_tonic(by);
                }
                by
            }
        };
        // Fingerings mean something only where the partials stay.
        let fingered = (by.half_steps - by_partials.half_steps) % 12 == 0;
        let found = self.everything(by, fingered)?;
        self.replacements.append(found);
        Ok(())
    }

    /// True if notes of the open horn are such on the other horn, on other partials: concert F is the third partial of a horn in
    /// B-flat and the fourth of one in F, and both go through tubes by half steps.
    fn is_open_there(&self, items: &[Item], by: WrittenInterval) -> bool {
        items.iter().all(|item| match &item.kind {
            ItemKind::Note(note) => {
                let there = note.pitch.transposed(by);
                let tuned = partials::on_tube(self.to, self.to.open(), there);
                note.bend || tuned.is_some()
            }
            ItemKind::Slur(inside) | ItemKind::Triplet(inside) => self.is_open_there(inside, by),
            _ => true,
        })
    }

    /// Writes the key note that a line on tubes has without a word: on the other horn it would be another one.
    fn keep_tonic(&mut self, by: WrittenInterval) {
        let open = self.table.and_then(|table| table.get_key_value("open"));
        if let (None, Some((key, _))) = (self.line.tonic, open) {
            let row = self.text[..key.span().start]
                .rfind('\n')
                .map_or(0, |at| at + 1);
            let tonic = self.routine.instrument.second_partial.transposed(by);
            self.replacements
                .replace(row..row, format!("tonic = \"{tonic}\"\n"));
        }
    }

    /// All replacements in a line.
    fn everything(&self, by: WrittenInterval, fingered: bool) -> Result<Replacements, Problem> {
        let tubes = match &self.line.walk {
            Walk::Tubes(tubes) => tubes.iter().map(|tube| self.tube(*tube)).collect(),
            Walk::HalfSteps(_) => Ok(vec![]),
        };
        let tubes: Vec<Tube> = tubes?;
        let mut replacements = Replacements::default();
        self.items(&self.line.phrase.items, by, fingered, &mut replacements)?;
        if let Some(Some(listed)) = self.entry("tubes").map(|value| value.get_ref().as_array()) {
            for (value, tube) in listed.iter().zip(tubes) {
                replacements.replace(value.span(), format!("\"{tube}\""));
            }
        }
        if let (Some(value), Some(tonic)) = (self.entry("tonic"), self.line.tonic) {
            replacements.replace(value.span(), format!("\"{}\"", tonic.transposed(by)));
        }
        if let (Some(value), Some(key)) = (self.entry("key"), self.line.key) {
            let key = key.transposed(by);
            let key = format!("\"{} {}\"", key.tonic(), key.mode().word());
            replacements.replace(value.span(), key);
        }
        if let (Some(value), Drone::Pitch(pitch)) = (self.entry("drone"), self.line.drone) {
            // A drone's pitch is a concert pitch.
            let sounding = WrittenInterval::of_half_steps(
                by.half_steps + self.to.transposition - self.routine.instrument.transposition,
            );
            // Its octave is the one that carries, so it stays.
            let name = pitch.transposed(sounding).name();
            let near = (pitch.number() - 6..).find_map(|number| {
                let pitch = name.pitch(number);
                (pitch.number() == number).then_some(pitch)
            });
            if let Some(near) = near {
                replacements.replace(value.span(), format!("\"{near}\""));
            }
        }
        Ok(replacements)
    }

    fn entry(&self, key: &str) -> Option<&Spanned<DeValue<'a>>> {
        self.table?.get(key)
    }

    fn items(
        &self,
        items: &[Item],
        by: WrittenInterval,
        fingered: bool,
        replacements: &mut Replacements,
    ) -> Result<(), Problem> {
        for item in items {
            match &item.kind {
                ItemKind::Note(note) => {
                    self.note(
                        note,
                        item.span.start..item.span.end,
                        by,
                        fingered,
                        replacements,
                    )?;
                }
                ItemKind::Slur(inside) | ItemKind::Triplet(inside) => {
                    self.items(inside, by, fingered, replacements)?;
                }
                _ => {}
            }
        }
        Ok(())
    }

    fn note(
        &self,
        note: &NoteItem,
        place: Range<usize>,
        by: WrittenInterval,
        fingered: bool,
        replacements: &mut Replacements,
    ) -> Result<(), Problem> {
        let written = &self.text[place.clone()];
        if !by.is_unison() {
            let length = pitch_length(written);
            replacements.replace(
                place.start..place.start + length,
                note.pitch.transposed(by).to_string(),
            );
        }
        let brackets = written.find('[').zip(written.find(']'));
        if let (Some(tube), Some((open, close))) = (note.tube, brackets) {
            let range = place.start + open..place.start + close + 1;
            if fingered {
                replacements.replace(range, format!("[{}]", self.tube(tube)?));
            } else {
                let blanks = written[..open].len() - written[..open].trim_end().len();
                replacements.replace(range.start - blanks..range.end, "");
            }
        }
        Ok(())
    }

    /// The tube of the other instrument that is as long.
    fn tube(&self, tube: Tube) -> Result<Tube, Problem> {
        let from = self.routine.instrument;
        if self.to.has(tube) && self.to.tube_half_steps(tube) == from.tube_half_steps(tube) {
            return Ok(tube);
        }
        let plain = !tube.is_raised() && !tube.has_thumb();
        let same = self.to.of_length(from.tube_half_steps(tube));
        same.filter(|_| plain).ok_or_else(|| {
            Problem::error(format!(
                "it is played {}, and the {} has no tube as long",
                from.with(Language::En, tube),
                self.to.name
            ))
            .hint("write this line for that instrument itself")
        })
    }

    fn no_octave(&self, top: WrittenPitch) -> Problem {
        Problem::error(format!(
            "at this concert pitch it lies in no octave between {}, the lowest note of the {}, and {top}, the highest \
             that is easy at this level",
            self.to.lowest, self.to.name
        ))
        .hint("carry it by partials, or start it on another note")
    }

    fn other_horn(&self) -> Problem {
        let from = self.routine.instrument;
        let open = |instrument: &Instrument| {
            let sounding = instrument.sounding(instrument.second_partial);
            WrittenPitch::from_number(sounding.number()).name()
        };
        Problem::error(format!(
            "it runs through the tubes of an instrument whose open notes are those of concert {}, and those of the {} \
             are of concert {}",
            open(from),
            self.to.name,
            open(self.to)
        ))
        .hint("carry this line by partials: it keeps its tubes and sounds in another key")
    }
}

/// How many bytes the pitch at the start of a token takes.
fn pitch_length(token: &str) -> usize {
    let octave = token.find(|c: char| c.is_ascii_digit());
    octave.map_or(0, |at| at + 1)
}
