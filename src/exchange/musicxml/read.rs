//! MusicXML → piece: selects the player and reads the head.

use super::document;
use super::measures::{self, MOST_MEASURES};
use super::nodes::{child_text, text_of, tidy};
use crate::exchange::other_files;
use crate::exchange::piece::{ImportedPiece, Loss, Pitches, SymbolKind, words};
use crate::problem::Problem;
use roxmltree::Node;
use std::collections::HashMap;

/// The most parts.
const MOST_PARTS: usize = 1000;

/// A player in a score: a part, one staff of it if it has several, one voice if staves have several.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScorePlayer {
    /// Its name.
    pub name: String,
    /// Index of the part.
    part: usize,
    /// The staff, from 1.
    staff: u32,
    /// The voice; `None` if the staff never has two at once.
    voice: Option<String>,
}

/// Reads the player named by `wanted`, by number in their order or by name. A score for one player needs no
/// name.
///
/// # Errors
/// If the text is not MusicXML, or there are several players and none is named.
pub fn read(text: &str, wanted: Option<&str>) -> Result<ImportedPiece, Problem> {
    let document = document::parse(text)?;
    let root = document.root_element();
    let parts = parts(root)?;
    let players = players(&parts);
    let player = choose(&players, wanted)?;
    let part = &parts[player.part];
    let mut piece = ImportedPiece {
        title: title(root),
        part: Some(part.name.clone()).filter(|name| !name.is_empty()),
        fields: fields(root),
        ..ImportedPiece::default()
    };
    measures::read(
        &part.measures,
        player.staff,
        player.voice.as_deref(),
        &mut piece,
    )?;
    if sounds_as_written(root) {
        piece.pitches = Pitches::Concert;
    }
    around_the_music(root, &mut piece);
    refuse_percussion(&piece, &player.name)?;
    Ok(piece)
}

/// A part all of whose notes have no pitch, but for leadpipe's own breathing.
fn refuse_percussion(piece: &ImportedPiece, name: &str) -> Result<(), Problem> {
    let mut symbols = piece.measures.iter().flat_map(|m| &m.symbols);
    let mut unpitched = false;
    let other = symbols.any(|symbol| {
        unpitched |= symbol.what == SymbolKind::Unpitched;
        matches!(symbol.what, SymbolKind::Note(_)) || symbol.syllable.is_some()
    });
    if other || !unpitched {
        return Ok(());
    }
    Err(Problem::error(format!(
        "{name} is a percussion part: its notes have no pitch, and a brass instrument has nothing to play in it"
    ))
    .hint("choose the part of a wind instrument with --part"))
}

/// Tells of names and text around the music.
fn around_the_music(root: Node<'_, '_>, piece: &mut ImportedPiece) {
    let mut lose = |what: &'static str| {
        let what = what.into();
        piece.losses.push(Loss {
            measure: None,
            what,
        });
    };
    let named = |name: &'static str| {
        let heads = root.children().filter(|n| n.has_tag_name("identification"));
        let mut all = heads
            .flat_map(|n| n.children())
            .filter(move |n| n.has_tag_name(name));
        all.any(|n| !text_of(n).trim().is_empty())
    };
    if named("creator") {
        lose("the names of composer, arranger and poet are not kept");
    }
    if named("rights") {
        lose("the note of who has the rights is not kept");
    }
    if text_on_the_page(root) {
        lose("text on the page around the music is not kept");
    }
}

/// A part with its measures.
struct PartOf<'x> {
    name: String,
    measures: Vec<Node<'x, 'x>>,
}

/// The parts of a score, in either of its two layouts.
fn parts<'x>(root: Node<'x, 'x>) -> Result<Vec<PartOf<'x>>, Problem> {
    let listed: Vec<(&str, String)> = root
        .descendants()
        .filter(|n| n.has_tag_name("score-part"))
        .take(MOST_PARTS + 1)
        .map(|n| {
            let name = child_text(n, "part-name").unwrap_or_default();
            (n.attribute("id").unwrap_or_default(), tidy(name))
        })
        .collect();
    let parts = match root.tag_name().name() {
        "score-partwise" => partwise(root, &listed),
        "score-timewise" => timewise(root, listed),
        "opus" => {
            return Err(
                Problem::error("it is a list of several scores, not a score")
                    .hint("export each alone"),
            );
        }
        _ => {
            return Err(other_files::other_xml(root.tag_name().name()));
        }
    };
    if parts.len() > MOST_PARTS {
        return Err(Problem::error(format!(
            "it has more than {MOST_PARTS} parts, which no score needs"
        ))
        .hint("export one part of it"));
    }
    if parts.iter().any(|p| p.measures.len() > MOST_MEASURES) {
        return Err(Problem::error(format!(
            "it has more than {MOST_MEASURES} bars, which no warm-up needs"
        )));
    }
    Ok(parts)
}

/// Each part with its measures in it.
fn partwise<'x>(root: Node<'x, 'x>, listed: &[(&str, String)]) -> Vec<PartOf<'x>> {
    // Of several entries with one name the first counts.
    let names: HashMap<&str, &String> = listed.iter().rev().map(|(id, name)| (*id, name)).collect();
    let parts = root.children().filter(|n| n.has_tag_name("part"));
    let parts = parts.take(MOST_PARTS + 1).map(|part| {
        let id = part.attribute("id").unwrap_or_default();
        let measures = part.children().filter(|n| n.has_tag_name("measure"));
        PartOf {
            name: names
                .get(id)
                .map_or_else(String::new, |name| (*name).clone()),
            measures: measures.take(MOST_MEASURES + 1).collect(),
        }
    });
    parts.collect()
}

/// Each measure with its parts in it.
fn timewise<'x>(root: Node<'x, 'x>, listed: Vec<(&str, String)>) -> Vec<PartOf<'x>> {
    let mut places: HashMap<&str, usize> = HashMap::new();
    let mut parts: Vec<PartOf<'x>> = vec![];
    for (id, name) in listed {
        places.entry(id).or_insert_with(|| {
            let measures = vec![];
            parts.push(PartOf { name, measures });
            parts.len() - 1
        });
    }
    // The number of the last measure that each part was found in, from 1: of two of one part the first counts.
    let mut latest = vec![0; parts.len()];
    let measures = root.children().filter(|n| n.has_tag_name("measure"));
    for (number, measure) in (1..).zip(measures.take(MOST_MEASURES + 1)) {
        for part in measure.children().filter(|n| n.has_tag_name("part")) {
            let id = part.attribute("id").unwrap_or_default();
            if let Some(place) = places.get(id).copied()
                && latest[place] != number
            {
                latest[place] = number;
                parts[place].measures.push(part);
            }
        }
    }
    parts
}

/// Every player who has a note to play, in the order of the score.
fn players(parts: &[PartOf<'_>]) -> Vec<ScorePlayer> {
    let mut players = vec![];
    for (index, part) in parts.iter().enumerate() {
        let name = if part.name.is_empty() {
            format!("part {}", index + 1)
        } else {
            part.name.clone()
        };
        let staves = measures::voices(&part.measures);
        for staff in &staves {
            let of_staff = match staves.len() {
                1 => name.clone(),
                2 => format!(
                    "{name}, {} staff",
                    ["upper", "lower"][usize::from(staff.number > 1)]
                ),
                _ => format!("{name}, staff {}", staff.number),
            };
            let one = ScorePlayer {
                name: of_staff.clone(),
                part: index,
                staff: staff.number,
                voice: None,
            };
            if staff.at_once.len() < 2 {
                players.push(one);
                continue;
            }
            for (number, voice) in staff.at_once.iter().enumerate() {
                let name = match number {
                    0 => format!("{of_staff}, first voice"),
                    1 => format!("{of_staff}, second voice"),
                    n => format!("{of_staff}, voice {}", n + 1),
                };
                players.push(ScorePlayer {
                    name,
                    voice: Some(voice.clone()),
                    ..one.clone()
                });
            }
        }
    }
    players
}

fn choose<'p>(
    players: &'p [ScorePlayer],
    wanted: Option<&str>,
) -> Result<&'p ScorePlayer, Problem> {
    let list = || {
        const MOST: usize = 40;
        let mut shown: Vec<String> = players
            .iter()
            .enumerate()
            .take(MOST)
            .map(|(index, player)| format!("{} {}", index + 1, player.name))
            .collect();
        if players.len() > MOST {
            shown.push(format!("and {} more", players.len() - MOST));
        }
        shown.join("; ")
    };
    let Some(wanted) = wanted else {
        return match players {
            [] => Err(Problem::error("there is no note in it")),
            [one] => Ok(one),
            _ => Err(Problem::error(format!(
                "it is music for more than one, and a routine is for one player: {}",
                list()
            ))
            .hint("choose with --part, by number or name: --part 1")),
        };
    };
    let by_number = wanted.trim().parse::<usize>().ok();
    if let Some(player) = by_number.and_then(|n| players.get(n.checked_sub(1)?)) {
        return Ok(player);
    }
    let same = |a: &str| a.trim().to_lowercase() == wanted.trim().to_lowercase();
    let mut named = players.iter().filter(|p| same(&p.name));
    match (named.next(), named.next()) {
        (Some(player), None) => Ok(player),
        (Some(_), Some(_)) => Err(Problem::error(format!(
            "several are called “{wanted}”: {}",
            list()
        ))
        .hint("choose by number: --part 1")),
        (None, _) => Err(Problem::error(format!("there is no part “{wanted}” in it"))
            .hint(format!("there is {}", list()))),
    }
}

fn title(root: Node<'_, '_>) -> Option<String> {
    let of_work = root
        .children()
        .find(|n| n.has_tag_name("work"))
        .and_then(|work| child_text(work, "work-title"));
    let texts = [of_work, child_text(root, "movement-title")];
    texts
        .into_iter()
        .flatten()
        .map(tidy)
        .find(|title| !title.is_empty())
}

/// True if the first page has text that is neither the title nor a name that is told of in any case.
fn text_on_the_page(root: Node<'_, '_>) -> bool {
    const KNOWN: [&str; 5] = [
        "work-title",
        "movement-title",
        "creator",
        "rights",
        "part-name",
    ];
    /// More than any page has; each is compared with each.
    const MOST: usize = 50;
    let heads = root
        .children()
        .filter(|n| !n.has_tag_name("part") && !n.has_tag_name("credit"));
    let all = heads.flat_map(|n| n.descendants());
    let known: Vec<String> = all
        .filter(|n| KNOWN.contains(&n.tag_name().name()))
        .take(MOST)
        .map(|n| tidy(&text_of(n)))
        .collect();
    let credits = root.children().filter(|n| n.has_tag_name("credit"));
    let mut texts = credits
        .flat_map(|n| n.children())
        .filter(|n| n.has_tag_name("credit-words"))
        .map(|n| tidy(&text_of(n)));
    texts.any(|text| !text.is_empty() && !known.contains(&text))
}

/// The fields that leadpipe writes into the head.
fn fields(root: Node<'_, '_>) -> Vec<(String, String)> {
    const KNOWN: [&str; 3] = [words::COMFORTABLE_TOP, words::REACH, words::PURPOSE];
    root.children()
        .filter(|n| n.has_tag_name("identification"))
        .flat_map(|n| n.descendants())
        .filter(|n| n.has_tag_name("miscellaneous-field"))
        .filter_map(|n| {
            let name = n.attribute("name")?;
            let known = KNOWN.contains(&name);
            known.then(|| (name.to_owned(), text_of(n)))
        })
        .take(KNOWN.len())
        .collect()
}

/// True if the whole score is written at concert pitch.
fn sounds_as_written(root: Node<'_, '_>) -> bool {
    root.children()
        .filter(|n| n.has_tag_name("defaults"))
        .any(|n| n.children().any(|c| c.has_tag_name("concert-score")))
}
