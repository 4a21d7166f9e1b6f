//! Fingerings and words at notes.

use super::options::SheetFingerings;
use crate::brass::{Instrument, Level, Tube, fingering};
use crate::routine::Attack;
use crate::score::{Joined, Pass, Played, Score, ScoreNote};
use crate::words::{Language, say};

/// True for players of the first level, and for those who are not there yet.
pub fn is_first_level(score: &Score<'_>) -> bool {
    let level = Level::of_top(score.instrument(), score.routine.comfortable_top);
    level.is_none_or(|level| level.number() == 1)
}

/// Which notes of a score carry a fingering.
pub fn resolved(fingerings: SheetFingerings, score: &Score<'_>) -> SheetFingerings {
    match fingerings {
        SheetFingerings::ByLevel if is_first_level(score) => SheetFingerings::All,
        SheetFingerings::ByLevel => SheetFingerings::Unusual,
        other => other,
    }
}

/// Valves of a note, if it has any.
pub fn tube(note: &ScoreNote) -> Option<Tube> {
    match note.played {
        Played::Pitch { tube, .. } => tube,
        Played::In | Played::Out => None,
    }
}

/// The fingering of each note that carries one.
pub fn of_notes(
    pass: &Pass,
    mode: SheetFingerings,
    instrument: &Instrument,
) -> Vec<Option<String>> {
    let mut shown: Vec<(i32, Tube)> = vec![];
    let mut before: Option<(i32, Tube)> = None;
    let mut all = vec![];
    for note in &pass.notes {
        let Played::Pitch {
            written,
            tube: Some(tube),
            ..
        } = note.played
        else {
            before = None;
            all.push(None);
            continue;
        };
        let usual = fingering::standard(instrument, written).map(|f| f.tube);
        let this = (written.number(), tube);
        // On a tube the tube's name says it for all notes but those that leave it.
        let said = pass.tube == Some(tube) && note.joined != Joined::Bent;
        let show = if said {
            false
        } else if usual != Some(tube) {
            true
        } else {
            match mode {
                SheetFingerings::All => before != Some(this),
                SheetFingerings::None => false,
                _ => written.alter() != 0 && !shown.contains(&this),
            }
        };
        if show && !shown.contains(&this) {
            shown.push(this);
        }
        before = Some(this);
        all.push(show.then(|| tube.to_string()));
    }
    all
}

/// The notes of a pass that carry a fingering, each with it.
pub fn shown<'p>(
    pass: &'p Pass,
    mode: SheetFingerings,
    instrument: &Instrument,
) -> impl Iterator<Item = (i32, Tube)> + 'p {
    let fingerings = of_notes(pass, mode, instrument);
    let notes = pass.notes.iter().zip(fingerings);
    notes.filter_map(|(note, shown)| match note.played {
        Played::Pitch {
            written,
            tube: Some(tube),
            ..
        } => shown.map(|_| (written.number(), tube)),
        _ => None,
    })
}

/// The words at each note that has some. The slide is said once a pass, where it goes out first; a player who wants no
/// fingerings is not told of it.
pub fn cues(
    language: Language,
    pass: &Pass,
    mode: SheetFingerings,
    instrument: &Instrument,
) -> Vec<Option<&'static str>> {
    let mut said = mode == SheetFingerings::None;
    let mut all = vec![];
    for note in &pass.notes {
        let long = tube(note).is_some_and(|v| instrument.slide_goes_out(v));
        let goes_out = long && is_low(note) && !said;
        all.push(match note.joined {
            Joined::Bent => Some(say::bend(language)),
            _ if goes_out => Some(say::third_slide_out(language)),
            Joined::Fresh(Attack::Air) => Some(say::air(language)),
            Joined::Fresh(Attack::Ku) => Some(say::ku(language)),
            _ => None,
        });
        said |= goes_out && note.joined != Joined::Bent;
    }
    all
}

/// Notes for which the third slide is extended: the two lowest partials of the long tubes (common practice).
fn is_low(note: &ScoreNote) -> bool {
    match note.played {
        Played::Pitch { partial, .. } => partial.is_some_and(|p| p <= 3),
        Played::In | Played::Out => false,
    }
}
