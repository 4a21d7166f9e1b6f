//! `leadpipe list --instruments`: what a routine can be written for or carried to.

use super::table::Table;
use crate::brass::{INSTRUMENTS, Instrument, Level};
use serde_json::json;

fn ladder(instrument: &Instrument) -> Vec<String> {
    let tops = Level::all().map(|level| level.open_top(instrument).to_string());
    tops.collect()
}

/// How far from the written note it sounds: "as written", "2 lower", "10 higher".
fn sounds(instrument: &Instrument) -> String {
    match instrument.transposition {
        0 => "as written".to_owned(),
        n if n < 0 => format!("{} lower", -n),
        n => format!("{n} higher"),
    }
}

/// The instruments as a table. Sounding pitches are counted in half steps.
pub fn as_table() -> String {
    let mut table = Table::new(&[
        ("Instrument", false),
        ("Clef", false),
        ("Half steps", false),
        ("From", false),
        ("To", false),
        ("Levels 1 to 5", false),
    ]);
    for instrument in INSTRUMENTS {
        table.row(vec![
            instrument.name.to_owned(),
            instrument.clef.word().replace(" clef", ""),
            sounds(instrument),
            instrument.lowest.to_string(),
            instrument.highest.to_string(),
            ladder(instrument).join(" "),
        ]);
    }
    table.lines()
}

/// The same as JSON.
pub fn as_json() -> String {
    let list: Vec<_> = INSTRUMENTS
        .iter()
        .map(|instrument| {
            let tubes: Vec<String> = instrument.tubes().map(|tube| tube.to_string()).collect();
            json!({
                "name": instrument.name,
                "also": instrument.also,
                "clef": instrument.clef.word(),
                "transposition": instrument.transposition,
                "lowest": instrument.lowest.to_string(),
                "highest": instrument.highest.to_string(),
                "comfortable_tops": ladder(instrument),
                "tubes": tubes,
            })
        })
        .collect();
    format!("{:#}\n", json!(list))
}
