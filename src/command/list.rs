//! `leadpipe list`: the built-in routines.

use super::carried::instrument;
use super::check::age;
use super::console::Console;
use super::table::Table;
use super::{Exit, Outcome, instruments};
use crate::brass::{AgeBand, Instrument};
use crate::presets::facts::{Facts, for_instrument};
use crate::presets::is_starter;
use crate::routine::Skill;
use crate::words::{Language, Words, duration, list, tell};
use clap::Args;
use serde_json::json;

/// Show the built-in routines
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe list
  leadpipe list --level 2 --age 8-10
  leadpipe list --skill \"double tonguing\"
  leadpipe list --instrument trombone
  leadpipe list --instruments
  leadpipe list --json")]
pub struct List {
    /// Only those of a level, 1 to 5
    #[arg(long, value_parser = clap::value_parser!(u8).range(1..=5))]
    level: Option<u8>,
    /// Only those that train this, such as scales
    #[arg(long, value_parser = skill)]
    skill: Option<Skill>,
    /// Only those for players of this age: 8-10, 11-13, 14-16 or adult
    #[arg(long, value_name = "BAND", value_parser = age)]
    age: Option<AgeBand>,
    /// Those that can be carried to this instrument, as they are there
    #[arg(long, value_name = "NAME", value_parser = instrument, default_value = "trumpet in B-flat",
        hide_default_value = true)]
    instrument: &'static Instrument,
    /// Show the instruments instead
    #[arg(long, conflicts_with_all = ["level", "skill", "age", "instrument"])]
    instruments: bool,
    /// Write the list as JSON
    #[arg(long)]
    json: bool,
}

/// Reads a skill.
fn skill(text: &str) -> Result<Skill, Words> {
    let text = text.trim().to_lowercase();
    let mut words = Skill::WORDS.iter();
    let found = words.find(|(word, _)| *word == text);
    found.map(|(_, skill)| *skill).ok_or_else(|| {
        let known = Skill::WORDS.map(|(word, _)| word);
        tell::skills_are(list::and(&known))
    })
}

impl List {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        if self.instruments {
            console.data(&if self.json {
                instruments::as_json()
            } else {
                instruments::as_table(console.language())
            })?;
            return Ok(Exit::Done);
        }
        let all = for_instrument(self.instrument);
        let mut all: Vec<&Facts> = all.iter().filter(|f| self.wants(f)).collect();
        all.sort_by_key(|f| (level(f), (f.seconds * 1000.0) as u64));
        console.data(&if self.json {
            as_json(&all)
        } else if all.is_empty() {
            String::new()
        } else {
            as_table(console.language(), &all)
        })?;
        if !self.json {
            console.say(if all.is_empty() {
                tell::no_such_routine_of_all()
            } else {
                tell::choose_names_it()
            });
        }
        Ok(Exit::Done)
    }

    fn wants(&self, facts: &Facts) -> bool {
        let routine = &facts.routine;
        self.level.is_none_or(|wanted| wanted == level(facts))
            && self
                .skill
                .is_none_or(|skill| routine.skills.contains(&skill))
            && self
                .age
                .is_none_or(|age| routine.age.is_none_or(|of| of <= age))
    }
}

/// The level, 0 being before level 1.
fn level(facts: &Facts) -> u8 {
    if is_starter(&facts.preset) {
        0
    } else {
        facts.level().number()
    }
}

fn as_table(language: Language, all: &[&Facts]) -> String {
    let mut table = Table::new(&[
        (tell::heading_level(), true),
        (tell::heading_name(), false),
        (tell::heading_length(), true),
        (tell::heading_easy_up_to(), false),
        (tell::heading_highest(), false),
        (tell::heading_from_age(), false),
        (tell::heading_purpose(), false),
    ]);
    for facts in all {
        let routine = &facts.routine;
        table.row(vec![
            level(facts).to_string(),
            facts.preset.name.to_owned(),
            duration(facts.seconds),
            routine.comfortable_top.to_string(),
            facts.highest.to_string(),
            from_age(routine.age),
            routine.purpose.clone().unwrap_or_default(),
        ]);
    }
    table.lines(language)
}

/// The first year of the band.
fn from_age(age: Option<AgeBand>) -> String {
    let word = age.unwrap_or(AgeBand::Adult).word();
    word.split('-').next().unwrap_or(word).to_owned()
}

fn as_json(all: &[&Facts]) -> String {
    let list: Vec<_> = all
        .iter()
        .map(|facts| {
            let routine = &facts.routine;
            let skills: Vec<&str> = routine.skills.iter().map(|skill| skill.word()).collect();
            json!({
                "name": facts.preset.name,
                "title": routine.title,
                "purpose": routine.purpose,
                "instrument": routine.instrument.name,
                "level": level(facts),
                "age": routine.age.map(AgeBand::word),
                "skills": skills,
                "comfortable_top": routine.comfortable_top.to_string(),
                "lowest": facts.lowest.to_string(),
                "highest": facts.highest.to_string(),
                "tempo": routine.tempo.as_f64(),
                "lines": routine.lines.len(),
                "seconds": facts.seconds,
            })
        })
        .collect();
    format!("{:#}\n", json!(list))
}
