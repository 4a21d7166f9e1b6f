//! A mark in words, for people to read.

use super::bounds::{FASTER, LONGER, SHORTER, SLOWER};
use super::lay::BOTH;
use super::mark::{Change, Mark, RestChange, Stop, TempoChange};
use crate::routine::{Drone, Guide, RestLength};
use crate::words::tempo::clicks_a_minute;
use crate::words::{count, key};

/// What a mark changes, in words: "slower (85 % of the tempo)".
pub fn change(change: &Change) -> String {
    match change {
        Change::Tempo(tempo) => match tempo {
            TempoChange::Slower => format!("slower ({SLOWER} % of the tempo)"),
            TempoChange::Faster => format!("faster ({FASTER} % of the tempo)"),
            TempoChange::Percent(percent) => format!("at {percent} % of the tempo"),
            TempoChange::Clicks(clicks) => format!("at {}", clicks_a_minute(clicks)),
        },
        Change::Rest(to) => rest("rest after it", *to),
        Change::Between(to) => rest("rest from one time through to the next", *to),
        Change::BreathAfter(note) => format!("breathe after note {note}"),
        Change::Articulation(list) if list[..] == BOTH => "once slurred, once tongued".to_owned(),
        Change::Articulation(list) => {
            let words: Vec<&str> = list.iter().map(|a| a.word()).collect();
            words.join(", then ")
        }
        Change::Bend(None) => "bend half steps down instead of fingering them".to_owned(),
        Change::Bend(Some(note)) => format!("bend note {note} instead of fingering it"),
        Change::Finger(None) => "finger bent notes instead of bending them".to_owned(),
        Change::Finger(Some(note)) => format!("finger note {note} instead of bending it"),
        Change::Times(n) => count::times(*n),
        Change::LeaveOut => "leave it out".to_owned(),
        Change::Louder(true) => "a step louder".to_owned(),
        Change::Louder(false) => "a step softer".to_owned(),
        Change::Drone(drone) => match drone {
            Drone::Off => "without drone".to_owned(),
            Drone::Tonic => "drone on the tonic".to_owned(),
            Drone::TonicAndFifth => "drone on the tonic and the fifth".to_owned(),
            Drone::Pitch(pitch) => format!("drone on {pitch} (concert pitch)"),
        },
        Change::Guide(guide) => match guide {
            Guide::Together => "the guide plays along".to_owned(),
            Guide::Echo => "the guide plays first".to_owned(),
            Guide::Off => "without guide".to_owned(),
        },
        Change::StopAfter(Stop::HalfStep(0)) => "stop after the first, as written".to_owned(),
        Change::StopAfter(Stop::HalfStep(n)) => format!("stop after {}", key::moved(*n)),
        Change::StopAfter(Stop::Tube(tube)) => format!("stop after {tube}"),
        Change::HalfSteps(moves) => {
            let moves: Vec<String> = moves.iter().map(ToString::to_string).collect();
            format!("half steps {}", moves.join(", "))
        }
        Change::Tubes(tubes) => {
            let tubes: Vec<String> = tubes.iter().map(ToString::to_string).collect();
            format!("tubes {}", tubes.join(", "))
        }
        Change::Words(words) => format!("“{words}”"),
    }
}

/// The same, with the date of the mark if it has one.
pub fn mark(mark: &Mark) -> String {
    let words = change(&mark.change);
    match &mark.date {
        Some(date) => format!("{words} (since {date})"),
        None => words,
    }
}

fn rest(which: &str, change: RestChange) -> String {
    match change {
        RestChange::Longer => format!("{which} longer ({LONGER} %)"),
        RestChange::Shorter => format!("{which} shorter ({SHORTER} %)"),
        RestChange::Percent(percent) => format!("{which}: {percent} %"),
        RestChange::To(RestLength::None) => format!("{which}: none"),
        RestChange::To(RestLength::Same) => format!("{which}: as long as it takes to play"),
        RestChange::To(RestLength::Bars(n)) => format!("{which}: {}", count::bars(n)),
        RestChange::To(RestLength::Beats(n)) => format!("{which}: {}", count::beats(n)),
        RestChange::To(RestLength::Seconds(n)) => format!("{which}: {n} s"),
    }
}
