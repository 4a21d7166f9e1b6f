//! `--instrument` and `--carry`: a routine for another instrument.

use super::Failure;
use super::console::Console;
use super::source::{CarriedTo, SourceText};
use crate::brass::{INSTRUMENTS, Instrument};
use crate::carry::{CarryError, CarryRule, LeftOutLine, carry};
use crate::words::{Words, tell};
use clap::Args;

/// Whether a routine is carried to another instrument.
#[derive(Args, Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct CarryOptions {
    /// The instrument to carry the routine to: trombone, "horn in F"; leadpipe list --instruments names all
    #[arg(long, value_name = "NAME", value_parser = instrument)]
    pub instrument: Option<&'static Instrument>,

    /// What notes keep on the other instrument: partials (their tubes and partials) or concert (their
    /// sounding pitches) [default: partials]
    #[arg(long, value_name = "RULE", value_parser = rule, requires = "instrument")]
    carry: Option<CarryRule>,
}

/// Reads the name of an instrument.
pub(super) fn instrument(name: &str) -> Result<&'static Instrument, Words> {
    Instrument::named(name).ok_or_else(|| {
        let names: Vec<&str> = INSTRUMENTS.iter().map(|i| i.name).collect();
        tell::instruments_are(names.join(", "))
    })
}

fn rule(text: &str) -> Result<CarryRule, Words> {
    let word = CarryRule::WORDS
        .iter()
        .find(|(word, _)| *word == text.trim());
    word.map(|(_, rule)| *rule).ok_or_else(tell::carried_by)
}

impl CarryOptions {
    /// To an instrument, or nowhere.
    pub fn to(instrument: Option<&'static Instrument>, rule: CarryRule) -> Self {
        Self {
            instrument,
            carry: instrument.map(|_| rule),
        }
    }

    /// The routine as it is, or for the instrument that is asked for. Lines that are left out are told. A routine that is not
    /// understood comes back as it is, for whoever reads it to say so.
    ///
    /// # Errors
    /// If none of its lines can be played on the instrument.
    pub fn source(&self, console: &mut Console, source: SourceText) -> Result<SourceText, Failure> {
        let Some(to) = self.instrument else {
            return Ok(source);
        };
        let rule = self.carry.unwrap_or(CarryRule::Partials);
        let carried = match carry(&source.text, to, rule) {
            Ok(carried) => carried,
            Err(CarryError::Unreadable(_)) => return Ok(source),
            Err(CarryError::NothingLeft(lines)) => {
                tell(console, &lines, to);
                return Err(Failure::error(tell::no_line_for(&source.name, to.name)));
            }
            Err(CarryError::Untouchable(problem)) => {
                return Err(Failure::of(super::Exit::Errors, problem));
            }
        };
        tell(console, &carried.left_out, to);
        if carried.text == source.text {
            return Ok(source);
        }
        Ok(SourceText {
            name: tell::for_instrument(&source.name, to.named_in_words()).into(),
            text: carried.text,
            carried: Some(CarriedTo {
                instrument: to,
                rule: self.carry,
            }),
            ..source
        })
    }
}

fn tell(console: &mut Console, lines: &[LeftOutLine], to: &Instrument) {
    for line in lines {
        let hint = line.problem.hint.as_ref();
        let hint = hint.map_or(String::new(), |hint| format!(" ({hint})"));
        console.say(tell::line_left_out_on(
            line.number,
            &line.name,
            to.name,
            &line.problem.message,
            &hint,
        ));
    }
}
