//! The head of the routine, and the names of its lines.

use super::course::PlayedMeasure;
use super::guesses;
use super::keys;
use super::maker::Maker;
use super::sections::Section;
use super::timing::{Timed, most};
use super::toml;
use super::tune::Tune;
use crate::brass::Level;
use crate::exchange::piece::words;
use crate::music::WrittenPitch;

impl Maker<'_> {
    /// Names of the lines, all different.
    pub(super) fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = vec![];
        for section in self.sections {
            let own = section.name.as_deref().map(toml::plain);
            let name = own
                .filter(|name| !name.is_empty())
                .unwrap_or_else(|| self.bars_of(section));
            let mut numbered = name.clone();
            let mut number = 2;
            while names.contains(&numbered) {
                numbered = format!("{name} ({number})");
                number += 1;
            }
            names.push(numbered);
        }
        names
    }

    /// "Bars 5 to 8".
    fn bars_of(&self, section: &Section) -> String {
        let places = &self.course[section.places.clone()];
        let sounding = || places.iter().filter(|p| !p.silent);
        let label = |played: Option<&PlayedMeasure>| {
            let measure = played.map_or(0, |p| p.measure);
            match toml::plain(&self.piece.measures[measure].label) {
                label if label.is_empty() || label.len() > 12 => (measure + 1).to_string(),
                label => label,
            }
        };
        let (first, last) = (label(sounding().next()), label(sounding().next_back()));
        if first == last {
            format!("Bar {first}")
        } else {
            format!("Bars {first} to {last}")
        }
    }

    fn field(&self, name: &str) -> Option<&str> {
        let mut fields = self.piece.fields.iter();
        fields
            .find(|(of, _)| of == name)
            .map(|(_, value)| value.as_str())
    }

    /// The range of the routine that the file states.
    fn reach(&self, top: WrittenPitch) -> Option<WrittenPitch> {
        let reach = WrittenPitch::parse(self.field(words::REACH)?.trim())?;
        let fits = self.choice.instrument.can_reach(reach) && reach.number() >= top.number();
        fits.then_some(reach)
    }

    /// Makes the head; notices say what was guessed.
    pub(super) fn head(
        &self,
        tunes: &[Tune],
        timings: &[Timed],
        said: &mut Vec<String>,
    ) -> toml::Head {
        let instrument = self.choice.instrument;
        let of_field = self.field(words::COMFORTABLE_TOP);
        let is_top = |top: &WrittenPitch| Level::all().any(|l| l.open_top(instrument) == *top);
        let known = of_field.and_then(|text| WrittenPitch::parse(text.trim()));
        let known = known.filter(is_top);
        let (top, reach) = match known {
            Some(top) => (top, self.reach(top)),
            None => guesses::comfort(tunes, instrument),
        };
        if known.is_none() {
            let reaching = reach.map_or(String::new(), |reach| {
                format!(", and that it reaches {reach}")
            });
            said.push(format!(
                "it is a guess that {top} is easy{reaching}: at least 85 % of the playing lies at or below {top}"
            ));
        }
        let (tempo, tempo_said) = most(timings, |t| (t.clicks, t.said));
        if !tempo_said {
            said.push(format!(
                "no tempo is written: it is set to {tempo} clicks a minute"
            ));
        }
        let title = self.piece.title.as_deref().map(toml::plain);
        let title = title
            .filter(|title| !title.is_empty())
            .unwrap_or_else(|| toml::plain(&self.choice.title));
        let purpose = self.field(words::PURPOSE).map(toml::plain);
        toml::Head {
            source: self.choice.source.clone(),
            title: if title.is_empty() {
                "Routine".to_owned()
            } else {
                title
            },
            purpose: purpose.filter(|p| !p.is_empty()),
            instrument: instrument.name,
            comfortable_top: top,
            reach,
            guessed: known.is_none(),
            tempo: tempo.to_string(),
            tempo_guessed: !tempo_said,
            meter: most(timings, |t| t.meter),
            key: keys::most(tunes),
        }
    }
}
