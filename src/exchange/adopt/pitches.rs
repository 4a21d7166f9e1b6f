//! Converts pitches to what the player of the chosen instrument reads.

use super::keys::Keys;
use super::losses::Losses;
use super::maker::AdoptOptions;
use super::tune::{Tune, TuneEvent, TuneEventKind};
use crate::brass::{Instrument, partials};
use crate::exchange::piece::{ImportedPiece, Pitches};
use crate::music::{Key, Spelling, Whole, WrittenPitch};
use crate::words::key;

/// Transposes the notes of all tunes for `instrument`, and into its range. Reports what was done.
pub(super) fn set(
    tunes: &mut [Tune],
    keys: &mut Keys,
    piece: &ImportedPiece,
    choice: &AdoptOptions,
    losses: &mut Losses,
) -> Vec<String> {
    let mut said = vec![];
    let (pitches, concert, instrument) = (piece.pitches, choice.concert, choice.instrument);
    let name = instrument.name;
    let by = match (pitches, concert) {
        (Pitches::Concert, _) | (_, true) => -instrument.transposition,
        (Pitches::For(half_steps), false) => half_steps - instrument.transposition,
        (Pitches::Read, false) => 0,
    };
    if by != 0 {
        said.push(format!(
            "for the {name} all notes are written {}, so that they sound as in the file",
            key::higher_or_lower(by)
        ));
    } else if pitches == Pitches::Read && instrument.transposition != 0 && !concert {
        said.push(format!(
            "the file says nothing of how its notes sound: they are taken as the {name} reads them; with --concert \
             they are taken as they sound"
        ));
    }
    let octaves = octaves(tunes, by, instrument);
    if octaves != 0 {
        said.push(format!(
            "all notes are written {}, where the {name} has them",
            key::higher_or_lower(octaves)
        ));
    }
    for tune in tunes.iter_mut() {
        let written: Vec<WrittenPitch> = tune.events.iter().filter_map(TuneEvent::pitch).collect();
        let mut moved = spelt(&written, tune.key, by + octaves, piece.unspelt).into_iter();
        tune.key = tune.key.map(|key| key.moved(by));
        for event in &mut tune.events {
            let TuneEventKind::Note(_) = event.kind else {
                continue;
            };
            let Some(moved) = moved.next() else { break };
            let fitting = into_compass(moved, instrument);
            if fitting != moved {
                let where_ = if fitting.number() < moved.number() {
                    "above"
                } else {
                    "below"
                };
                let what = format!(
                    "{moved} lies {where_} the {name}: it is written {}",
                    key::higher_or_lower(fitting.number() - moved.number())
                );
                losses.lose(Some(event.measure), what);
            }
            event.kind = TuneEventKind::Note(fitting);
            if by != 0 || fitting.number() != moved.number() || octaves != 0 {
                // The fingering was for another note.
                event.tube = None;
            }
        }
    }
    keys.move_by(by);
    for tune in tunes {
        bends(&mut tune.events, losses);
        fingerings(&mut tune.events, instrument, losses);
    }
    said
}

/// The notes of a tune after they are moved, spelt in the key they are moved to. Notes that a file has numbers for, and no
/// key, are spelt as in the fingering chart.
fn spelt(
    written: &[WrittenPitch],
    key: Option<Key>,
    half_steps: i32,
    unspelt: bool,
) -> Vec<WrittenPitch> {
    if unspelt {
        return written
            .iter()
            .map(|pitch| pitch.moved(half_steps))
            .collect();
    }
    let moved = Spelling::of(written, key, None, half_steps).line(written);
    // The note language has no double accidentals.
    moved.into_iter().map(WrittenPitch::plain).collect()
}

/// The octaves, in half steps, to move all notes by so that as few as possible are out of range.
fn octaves(tunes: &[Tune], by: i32, instrument: &Instrument) -> i32 {
    let outside = |octaves: i32| -> Whole {
        let events = tunes.iter().flat_map(|t| &t.events);
        let outside = events.filter(|event| {
            let pitch = event.pitch().map(|p| p.moved(by + octaves));
            pitch.is_some_and(|p| !instrument.can_reach(p))
        });
        outside.map(|e| e.end() - e.start()).sum()
    };
    let nearest_first = [0, -12, 12, -24, 24, -36, 36];
    nearest_first
        .into_iter()
        .min_by_key(|octaves| (outside(*octaves), octaves.abs()))
        .unwrap_or(0)
}

/// The pitch, or the nearest one of its name within the instrument's range.
fn into_compass(pitch: WrittenPitch, instrument: &Instrument) -> WrittenPitch {
    let mut fitting = pitch;
    while fitting.number() > instrument.highest.number() {
        fitting = fitting.by_octaves(-1);
    }
    while fitting.number() < instrument.lowest.number() && !instrument.is_pedal(fitting) {
        fitting = fitting.by_octaves(1);
    }
    fitting
}

/// Removes bends that do not come from a note half a step above.
fn bends(events: &mut [TuneEvent], losses: &mut Losses) {
    for index in 0..events.len() {
        if !events[index].bend {
            continue;
        }
        let before = index.checked_sub(1).map(|before| &events[before]);
        let from = before.filter(|b| !b.breath).and_then(TuneEvent::pitch);
        let fits = from
            .zip(events[index].pitch())
            .is_some_and(|(from, to)| from.number() - to.number() == 1);
        if !fits {
            events[index].bend = false;
            let what = "a bend that is no half step down from the note before is left out";
            losses.lose(Some(events[index].measure), what);
        }
    }
}

/// Removes fingerings that do not sound their note: string fingerings are numbers too.
fn fingerings(events: &mut [TuneEvent], instrument: &Instrument, losses: &mut Losses) {
    for event in events {
        let (Some(tube), Some(pitch)) = (event.tube, event.pitch()) else {
            continue;
        };
        let sounds = event.bend || partials::on_tube(instrument, tube, pitch).is_some();
        if !instrument.has(tube) || !sounds {
            event.tube = None;
            let what = "fingerings that do not sound their note are left out";
            losses.lose(Some(event.measure), what);
        }
    }
}
