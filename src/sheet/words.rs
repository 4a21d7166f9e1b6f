//! What a sheet says in words: passes, rests, tempo, length.

use crate::brass::Valves;
use crate::music::{Seconds, interval};
use crate::routine::{Articulation, Guide, Line, On, Walk};
use crate::score::{Pass, Score, ScoreLine};
use num_traits::{ToPrimitive, Zero};

/// The words above the beginning of each written pass.
pub fn labels(line: &Line, score_line: &ScoreLine, chosen: &[usize]) -> Vec<String> {
    let passes = &score_line.passes;
    let walks = walk(passes);
    let mut labels = vec![];
    for (number, index) in chosen.iter().enumerate() {
        let pass = &passes[*index];
        let mut parts = vec![];
        if number == 0 {
            if line.on == On::Mouthpiece {
                parts.push("mouthpiece alone".to_owned());
            }
            if score_line.guide == Guide::Echo {
                parts.push("listen first, then play".to_owned());
            }
        } else {
            let left_out: Vec<&Pass> = walks
                .iter()
                .filter(|p| p.walk_index > passes[chosen[number - 1]].walk_index)
                .filter(|p| p.walk_index < pass.walk_index)
                .copied()
                .collect();
            if !left_out.is_empty() {
                parts.push(format!("then {}", listed(&left_out)));
                parts.push("last".to_owned());
            }
        }
        parts.extend(place(pass, number == 0));
        if number == 0 {
            parts.extend(times(line));
            parts.extend(articulations(&line.articulations));
        }
        labels.push(parts.join(", ").replace("last, ", "last "));
    }
    labels
}

/// The first pass of each half step or tube.
fn walk(passes: &[Pass]) -> Vec<&Pass> {
    let mut walk: Vec<&Pass> = vec![];
    for pass in passes {
        if walk.last().is_none_or(|p| p.walk_index != pass.walk_index) {
            walk.push(pass);
        }
    }
    walk
}

/// How a pass is moved; nothing for the first one where that is as written.
fn place(pass: &Pass, first: bool) -> Option<String> {
    match (pass.tube, pass.half_steps) {
        (Some(valves), _) if valves.is_open() => Some("on the open horn".to_owned()),
        (Some(valves), _) => Some(format!("on {valves}")),
        (None, 0) if first => None,
        (None, 0) => Some("as at first".to_owned()),
        (None, steps) => Some(interval::moved(steps)),
    }
}

/// Passes that are not written out: "on 2, 1 and 1-2", "1, 2 and 3 half steps down".
fn listed(passes: &[&Pass]) -> String {
    if let Some(tubes) = passes
        .iter()
        .map(|p| p.tube)
        .collect::<Option<Vec<Valves>>>()
    {
        let names: Vec<String> = tubes.iter().map(Valves::to_string).collect();
        return format!("on {}", and(&names));
    }
    let steps: Vec<i32> = passes.iter().map(|p| p.half_steps).collect();
    let one_way = steps.iter().all(|s| *s < 0) || steps.iter().all(|s| *s > 0);
    if one_way && steps.len() > 1 {
        let names: Vec<String> = steps.iter().map(|s| s.unsigned_abs().to_string()).collect();
        let way = if steps[0] < 0 { "down" } else { "up" };
        return format!("{} half steps {way}", and(&names));
    }
    let names: Vec<String> = steps.iter().map(|s| interval::moved(*s)).collect();
    and(&names)
}

/// "a", "a and b", "a, b and c".
pub fn and(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

fn times(line: &Line) -> Option<String> {
    let places = match &line.walk {
        Walk::HalfSteps(all) => all.len(),
        Walk::Tubes(all) => all.len(),
    };
    let each = if places > 1 { " each" } else { "" };
    match line.times {
        1 => None,
        2 => Some(format!("twice{each}")),
        n => Some(format!("{n} times{each}")),
    }
}

fn articulations(all: &[Articulation]) -> Option<String> {
    if all == [Articulation::AsWritten] {
        return None;
    }
    let name = |a: &Articulation| {
        let words = Articulation::WORDS.iter();
        words
            .filter(|(_, b)| a == b)
            .map(|(word, _)| (*word).to_owned())
            .next()
            .unwrap_or_default()
    };
    let names: Vec<String> = all.iter().map(name).collect();
    Some(names.join(", then "))
}

/// What is said under a line: rests inside it and after it.
pub fn rests(line: &ScoreLine) -> Option<String> {
    let mut said = vec![];
    if line.passes.len() > 1 {
        let bar = line.meter.bar();
        let (last, others) = line.passes.split_last().expect("a line has passes");
        debug_assert!(last.between.is_zero(), "nothing comes after the last pass");
        let bars: Vec<i64> = others
            .iter()
            .map(|p| (p.between / bar).ceil().to_integer())
            .collect();
        let all = if others.len() == 1 {
            "After the first time"
        } else {
            "After each time"
        };
        let (least, most) = (
            bars.iter().min().copied().unwrap_or(0),
            bars.iter().max().copied().unwrap_or(0),
        );
        said.push(match (least, most) {
            (_, 0) => "No rest between the times.".to_owned(),
            (a, b) if a == b => format!("{all} rest {}, the click goes on.", counted(a, "bar")),
            (a, b) => format!("{all} rest {a} to {b} bars, the click goes on."),
        });
    }
    if let Some(rest) = line.rest {
        said.push(format!("Then rest {}.", spoken(rest.seconds)));
    }
    (!said.is_empty()).then(|| said.join(" "))
}

/// "1 bar", "2 bars".
pub fn counted(n: i64, what: &str) -> String {
    format!("{n} {what}{}", if n == 1 { "" } else { "s" })
}

/// A short length of time in words, to the second.
fn spoken(seconds: Seconds) -> String {
    let whole = seconds.to_f64().unwrap_or(0.0).round() as i64;
    match (whole / 60, whole % 60) {
        (0, s) => counted(s, "second"),
        (m, 0) => counted(m, "minute"),
        (m, s) => format!("{m}:{s:02} minutes"),
    }
}

/// Minutes as on a player: `9:41`.
pub fn clock(seconds: f64) -> String {
    let whole = seconds.round() as i64;
    format!("{}:{:02}", whole / 60, whole % 60)
}

/// What stands under the title: instrument, tempo, length, and how much of it is playing.
pub fn facts(score: &Score<'_>) -> String {
    let routine = score.routine;
    let tempo = score.take.tempo.base(routine).unwrap_or(routine.tempo);
    let seconds = score.seconds.to_f64().unwrap_or(0.0);
    let played: f64 = score
        .lines
        .iter()
        .map(|l| l.played.to_f64().unwrap_or(0.0))
        .sum();
    let minutes = |s: f64| (s / 60.0).round().max(1.0) as i64;
    format!(
        "{} · {tempo} clicks a minute · about {}, {} of them playing",
        routine.instrument.name,
        counted(minutes(seconds), "minute"),
        minutes(played),
    )
}
