//! The notes of one pass: moved, fingered, joined.

use super::model::{Joined, Played, ScoreLine, ScoreNote};
use crate::brass::{Instrument, Tube, fingering, partials};
use crate::music::{Seconds, Spelling, WrittenPitch};
use crate::routine::{Articulation, Event, EventKind, Line, On, Routine, Walk};
use crate::words::{Language, key};
use num_rational::Ratio;

/// How a pass moves its line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Placement {
    /// By half steps.
    pub half_steps: i32,
    /// Or through a tube.
    pub tube: Option<Tube>,
    /// Which entry of the walk it is.
    pub walk_index: usize,
    /// How its notes are spelt.
    pub spelling: Spelling,
}

impl Placement {
    /// Half steps from the line's notes to those that are read in this pass.
    pub fn moves_by(self, instrument: &Instrument) -> i32 {
        match self.tube {
            Some(tube) => -instrument.tube_half_steps(tube),
            None => self.half_steps,
        }
    }

    /// "on 1-2-3", "in position 4", "3 half steps down", "as written".
    pub fn in_words(self, language: Language, instrument: &Instrument) -> String {
        match self.tube {
            Some(tube) => instrument.with(language, tube),
            None => key::moved(language, self.half_steps),
        }
    }
}

/// The notes of a line as they are written.
fn pitches(line: &Line) -> Vec<WrittenPitch> {
    let notes = line
        .melody
        .events
        .iter()
        .filter_map(|event| match event.kind {
            EventKind::Note(pitch) => Some(pitch),
            _ => None,
        });
    notes.collect()
}

/// How a line of a routine is spelt when it is moved by `half_steps`.
pub fn spelling(routine: &Routine, line: &Line, half_steps: i32) -> Spelling {
    let melody = pitches(line);
    let tonic = line.tonic.or_else(|| match line.walk {
        Walk::Tubes(_) => Some(routine.instrument.second_partial),
        Walk::HalfSteps(_) => melody.first().copied(),
    });
    Spelling::of(&melody, line.key_in(routine), tonic, half_steps)
}

/// The notes and breathing actions of one pass of a line.
pub fn notes(
    line: &Line,
    score_line: &ScoreLine,
    place: Placement,
    articulation: Articulation,
    instrument: &Instrument,
) -> Vec<ScoreNote> {
    let mut notes: Vec<ScoreNote> = Vec::with_capacity(line.melody.events.len());
    let mut before: Option<&Event> = None;
    let mut spelt = place.spelling.line(&pitches(line)).into_iter();
    for (index, event) in line.melody.events.iter().enumerate() {
        let joined = join(event, before, articulation);
        let follows = !matches!(joined, Joined::Fresh(_));
        if let (true, Some(last)) = (follows, notes.last_mut()) {
            last.leads_on = true;
        }
        if let Some(played) = played(event, line, place, instrument, &mut spelt, notes.last()) {
            notes.push(ScoreNote {
                event: index,
                start: event.start,
                length: event.length,
                played,
                joined,
                leads_on: false,
                style: event.style,
                breath: event.breath_after.then(|| breath(event, score_line)),
                span: event.span,
            });
        }
        before = Some(event);
    }
    notes
}

fn join(event: &Event, before: Option<&Event>, articulation: Articulation) -> Joined {
    let fresh = Joined::Fresh(event.attack);
    let Some(before) = before else { return fresh };
    let (EventKind::Note(from), EventKind::Note(to)) = (before.kind, event.kind) else {
        return fresh;
    };
    if before.breath_after {
        return fresh;
    }
    if event.bend {
        return Joined::Bent;
    }
    let slurred = match articulation {
        Articulation::AsWritten => event.slurred,
        Articulation::Slurred => from.number() != to.number(),
        Articulation::Tongued => false,
    };
    if slurred { Joined::Slurred } else { fresh }
}

fn played(
    event: &Event,
    line: &Line,
    place: Placement,
    instrument: &Instrument,
    spelt: &mut impl Iterator<Item = WrittenPitch>,
    before: Option<&ScoreNote>,
) -> Option<Played> {
    let written = match event.kind {
        EventKind::Note(_) => spelt.next()?,
        EventKind::In => return Some(Played::In),
        EventKind::Out => return Some(Played::Out),
        EventKind::Rest | EventKind::Hold => return None,
    };
    let sounding = instrument.sounding(written);
    let on_tube = |tube: Tube| (Some(tube), partials::on_tube(instrument, tube, written));
    let bent_from = match before.map(|b| b.played) {
        Some(Played::Pitch { tube, partial, .. }) if event.bend => Some((tube, partial)),
        _ => None,
    };
    let (tube, partial) = match (line.on, bent_from) {
        (On::Horn, Some((tube, partial))) if instrument.has_slide() => {
            further_out(instrument, tube, partial, written)
        }
        (On::Horn, Some(held)) => held,
        (On::Horn, None) => match place.tube.or(event.tube) {
            Some(tube) => on_tube(tube),
            None => match fingering::standard(instrument, written) {
                Some(f) => (Some(f.tube), Some(f.partial)),
                None => (None, None),
            },
        },
        _ => (None, None),
    };
    Some(Played::Pitch {
        written,
        sounding,
        tube,
        partial,
    })
}

/// A bend on a slide: the same partial in a longer position, if the slide reaches it.
fn further_out(
    instrument: &Instrument,
    tube: Option<Tube>,
    partial: Option<u8>,
    written: WrittenPitch,
) -> (Option<Tube>, Option<u8>) {
    let (Some(from), Some(n)) = (tube, partial) else {
        return (tube, partial);
    };
    let reached = instrument.tubes().find(|to| {
        to.has_thumb() == from.has_thumb()
            && to.is_raised() == from.is_raised()
            && partials::written(instrument, *to, n).number() == written.number()
    });
    match reached {
        Some(to) => (Some(to), partial),
        None => (tube, None),
    }
}

/// A breath takes one beat, no less than half a second and no more than one, and never more than half
/// of the note it follows.
fn breath(event: &Event, score_line: &ScoreLine) -> Seconds {
    let beat = score_line.seconds(score_line.meter.click());
    let half_of_note = score_line.seconds(event.length) / Ratio::from_integer(2);
    beat.clamp(Seconds::new(1, 2), Seconds::from_integer(1))
        .min(half_of_note)
}
