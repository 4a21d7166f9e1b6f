//! `leadpipe list --instruments`: what a routine can be written for or carried to.

use super::table::Table;
use crate::brass::{INSTRUMENTS, Instrument, Level};
use crate::words::{Language, Words, tell};
use serde_json::json;

fn ladder(instrument: &Instrument) -> Vec<String> {
    let tops = Level::all().map(|level| level.open_top(instrument).to_string());
    tops.collect()
}

/// How far from the written note it sounds: "as written", "2 lower", "10 higher".
fn sounds(instrument: &Instrument) -> Words {
    match instrument.transposition {
        0 => tell::sounds_as_written(),
        n if n < 0 => tell::sounds_lower(-n),
        n => tell::sounds_higher(n),
    }
}

/// The instruments as a table. Sounding pitches are counted in half steps.
pub fn as_table(language: Language) -> String {
    let mut table = Table::new(&[
        (tell::heading_instrument(), false),
        (tell::heading_clef(), false),
        (tell::heading_half_steps(), false),
        (tell::heading_from(), false),
        (tell::heading_to(), false),
        (tell::heading_levels_1_to_5(), false),
    ]);
    for instrument in INSTRUMENTS {
        table.row(vec![
            instrument.name.into(),
            tell::clef(instrument.clef.word().replace(" clef", "")),
            sounds(instrument),
            instrument.lowest.into(),
            instrument.highest.into(),
            ladder(instrument).join(" ").into(),
        ]);
    }
    table.lines(language)
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
