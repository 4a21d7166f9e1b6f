//! `leadpipe list`: the built-in routines.

use super::console::Console;
use super::presets::{self, Preset};
use super::table::Table;
use super::{Exit, Outcome};
use crate::check::Summary;
use crate::check::summary::summarise;
use crate::routine::{self, Routine};
use crate::score::{Take, unroll};
use crate::words::duration;
use clap::Args;
use serde_json::json;

/// Show the built-in routines
#[derive(Args, Debug)]
#[command(after_help = "\
Examples:
  leadpipe list
  leadpipe list --json")]
pub struct List {
    /// Write the list as JSON
    #[arg(long)]
    json: bool,
}

impl List {
    /// Runs the command.
    pub fn run(self, console: &mut Console) -> Outcome {
        let all: Vec<(&Preset, Routine)> = presets::ALL
            .iter()
            .map(|preset| {
                let routine = routine::read(preset.text)
                    .expect("a test reads every routine that comes with the program");
                (preset, routine)
            })
            .collect();
        console.data(&if self.json {
            as_json(&all)
        } else {
            as_table(&all)
        })?;
        if !self.json {
            console.say(
                "leadpipe choose G4 names the one for a player whose highest easy open note is G4.",
            );
        }
        Ok(Exit::Done)
    }
}

fn as_table(all: &[(&Preset, Routine)]) -> String {
    let mut table = Table::new(&[
        ("Name", false),
        ("Easy up to", false),
        ("Highest", false),
        ("Tempo", true),
        ("Length", true),
        ("Purpose", false),
    ]);
    for (preset, routine) in all {
        let summary = summary(routine);
        table.row(vec![
            preset.name.to_owned(),
            routine.comfortable_top.to_string(),
            (summary.highest).map_or_else(|| "none".to_owned(), |p| p.to_string()),
            routine.tempo.to_string(),
            duration(summary.seconds),
            routine.purpose.clone().unwrap_or_default(),
        ]);
    }
    table.lines()
}

fn as_json(all: &[(&Preset, Routine)]) -> String {
    let list: Vec<_> = all
        .iter()
        .map(|(preset, routine)| {
            let summary = summary(routine);
            json!({
                "name": preset.name,
                "title": routine.title,
                "purpose": routine.purpose,
                "instrument": routine.instrument.name,
                "comfortable_top": routine.comfortable_top.to_string(),
                "lowest": summary.lowest.map(|p| p.to_string()),
                "highest": summary.highest.map(|p| p.to_string()),
                "tempo": routine.tempo.as_f64(),
                "lines": routine.lines.len(),
                "seconds": summary.seconds,
            })
        })
        .collect();
    format!("{:#}\n", json!(list))
}

/// As written.
fn summary(routine: &Routine) -> Summary {
    let score = unroll(routine, &Take::default())
        .expect("a test unrolls every routine that comes with the program");
    summarise(&score)
}
