//! Fingerings that sound a note, and notes that are fingered and not bent.

use super::place::{At, Mend};
use crate::brass::fingering;
use crate::edit::{Edit, signs_in};
use crate::music::WrittenPitch;
use crate::words::say;

/// The note without its fingering, or with one on which it sounds.
pub fn of(place: &At<'_>, line: usize) -> Vec<Mend> {
    let language = place.routine.words_in;
    let Some(sign) = of_problem(place, line) else {
        return vec![];
    };
    let edit = |fingering: Option<String>| Edit::Finger {
        line,
        at: sign.at,
        fingering,
    };
    let plain = place.mend(say::mend_no_fingering(language).to_owned(), &[edit(None)]);
    let pitch = WrittenPitch::parse(&sign.head);
    let usable = pitch.map(|pitch| fingering::usable(place.routine.instrument, pitch));
    let others = usable.into_iter().flatten().filter_map(|one| {
        let tube = one.tube.to_string();
        let says = say::mend_fingering(language, tube.as_str());
        place.mend(says, &[edit(Some(tube))])
    });
    plain.into_iter().chain(others).collect()
}

/// The note fingered, where it cannot be bent.
pub fn unbent(place: &At<'_>, line: usize) -> Vec<Mend> {
    let mends = of_problem(place, line).into_iter().filter_map(|sign| {
        let edit = Edit::Mark {
            line,
            first: sign.at,
            last: sign.at,
            mark: "bend".to_owned(),
            on: false,
        };
        let says = say::mend_no_bend(place.routine.words_in).to_owned();
        place.mend(says, &[edit])
    });
    mends.collect()
}

/// The note that a problem stands at.
fn of_problem(place: &At<'_>, line: usize) -> Option<crate::edit::SignPlace> {
    let span = place.problem.place?.span;
    let signs = signs_in(place.text, line).ok()?;
    signs.into_iter().find(|sign| span.holds(sign.place.start))
}
