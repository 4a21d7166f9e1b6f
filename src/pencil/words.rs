//! A mark in words, for people to read.

use super::bounds::{FASTER, LONGER, SHORTER, SLOWER};
use super::lay::BOTH;
use super::mark::{Change, Mark, RestChange, Stop, TempoChange};
use crate::routine::{Drone, Guide, RestLength};
use crate::words::{Language, count, key, say};

/// What a mark changes, in words: "slower (85 % of the tempo)".
pub fn change(language: Language, change: &Change) -> String {
    match change {
        Change::Tempo(change) => tempo(language, *change),
        Change::Rest(to) => match to {
            RestChange::Longer => say::rest_longer(language, LONGER),
            RestChange::Shorter => say::rest_shorter(language, SHORTER),
            to => say::rest_to(language, rest(language, *to)),
        },
        Change::Between(to) => match to {
            RestChange::Longer => say::between_longer(language, LONGER),
            RestChange::Shorter => say::between_shorter(language, SHORTER),
            to => say::between_to(language, rest(language, *to)),
        },
        Change::BreathAfter(note) => say::breathe_after(language, *note),
        Change::Articulation(list) if list[..] == BOTH => {
            say::slurred_and_tongued(language).to_owned()
        }
        Change::Articulation(list) => {
            let words = list.iter().map(|a| a.in_words(language));
            let all = words.reduce(|first, then| say::one_then_another(language, first, then));
            all.unwrap_or_default()
        }
        Change::Bend(None) => say::bend_all(language).to_owned(),
        Change::Bend(Some(note)) => say::bend_note(language, *note),
        Change::Finger(None) => say::finger_all(language).to_owned(),
        Change::Finger(Some(note)) => say::finger_note(language, *note),
        Change::Times(n) => count::times(language, *n),
        Change::LeaveOut => say::leave_it_out(language).to_owned(),
        Change::Louder(true) => say::a_step_louder(language).to_owned(),
        Change::Louder(false) => say::a_step_softer(language).to_owned(),
        Change::Drone(drone) => match drone {
            Drone::Off => say::without_drone(language).to_owned(),
            Drone::Tonic => say::drone_on_tonic(language).to_owned(),
            Drone::TonicAndFifth => say::drone_on_tonic_and_fifth(language).to_owned(),
            Drone::Pitch(pitch) => say::drone_on_pitch(language, pitch.to_string()),
        },
        Change::Guide(guide) => match guide {
            Guide::Together => say::guide_along(language),
            Guide::Echo => say::guide_first(language),
            Guide::Off => say::without_guide(language),
        }
        .to_owned(),
        Change::StopAfter(Stop::HalfStep(0)) => say::stop_after_first(language).to_owned(),
        Change::StopAfter(Stop::HalfStep(n)) => say::stop_after(language, key::moved(language, *n)),
        Change::StopAfter(Stop::Tube(tube)) => say::stop_after(language, tube.to_string()),
        Change::HalfSteps(moves) => {
            let moves: Vec<String> = moves.iter().map(ToString::to_string).collect();
            say::walk_of_half_steps(language, moves.join(", "))
        }
        Change::Tubes(tubes) => {
            let tubes: Vec<String> = tubes.iter().map(ToString::to_string).collect();
            say::walk_of_tubes(language, tubes.join(", "))
        }
        Change::Words(words) => say::in_quotes(language, words),
    }
}

/// The same, with the date of the mark if it has one.
pub fn mark(language: Language, mark: &Mark) -> String {
    let words = change(language, &mark.change);
    match &mark.date {
        Some(date) => say::marked_since(language, words, date.to_string()),
        None => words,
    }
}

fn tempo(language: Language, change: TempoChange) -> String {
    match change {
        TempoChange::Slower => say::slower(language, SLOWER),
        TempoChange::Faster => say::faster(language, FASTER),
        TempoChange::Percent(percent) => say::at_percent(language, percent),
        TempoChange::Clicks(clicks) => {
            say::at_clicks(language, say::clicks_a_minute(language, clicks))
        }
    }
}

fn rest(language: Language, change: RestChange) -> String {
    match change {
        RestChange::Longer => say::percent_of_it(language, LONGER),
        RestChange::Shorter => say::percent_of_it(language, SHORTER),
        RestChange::Percent(percent) => say::percent_of_it(language, percent),
        RestChange::To(RestLength::None) => say::no_rest(language).to_owned(),
        RestChange::To(RestLength::Same) => say::as_long_as_played(language).to_owned(),
        RestChange::To(RestLength::Bars(n)) => say::bars(language, n),
        RestChange::To(RestLength::Beats(n)) => say::beats(language, n),
        RestChange::To(RestLength::Seconds(n)) => say::seconds_short(language, n),
    }
}
