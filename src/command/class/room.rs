//! The tracks that a group plays to together: all guides on one time line, or all but one part's.

use super::roster::{ClassOptions, Ready};
use super::together;
use crate::class::ClassList;
use crate::command::console::Console;
use crate::edition::Edition;
use crate::edition::name::{self, Names};
use crate::render::reuse::origin;
use crate::render::together::Sound;
use crate::render::{RenderFailure, Track, planned};
use crate::timeline::Timeline;
use crate::timeline::compile::{Settings, compile};
use crate::timeline::room;
use crate::words::count;
use std::path::PathBuf;

/// A group whose players can all be rendered.
pub struct Room<'r, 'e> {
    /// Where its tracks go.
    pub folder: PathBuf,
    /// Its name.
    pub name: String,
    /// The first player of each part.
    parts: Vec<&'r Ready<'e>>,
    /// How the routine is named in records there.
    origin: String,
    /// The tracks: for each take that of all, then those without a part.
    tracks: Vec<RoomTrack>,
}

/// A track of a room.
struct RoomTrack {
    name: String,
    /// Index of the take.
    take: usize,
    /// Index of the part that is missing.
    without: Option<usize>,
    sound: Sound,
}

impl<'r, 'e> Room<'r, 'e> {
    /// The rooms of a class: of each group that plays together in more than one part, unless a player was left out.
    /// `folders` are the names of the players' folders.
    ///
    /// # Errors
    /// If a record cannot be read.
    pub fn all(
        console: &mut Console,
        list: &ClassList,
        ready: &[&'r Ready<'e>],
        folders: &[String],
        asked: &ClassOptions<'_>,
    ) -> Result<Vec<Self>, RenderFailure> {
        let mut names = Names::default();
        for folder in folders {
            names.give(folder);
        }
        let mut rooms = vec![];
        for (index, group) in list.groups.iter().enumerate() {
            let folder = names.give(&name::player_slug(&group.name));
            let players = together::players(list, index);
            let there: Vec<&Ready<'_>> = players
                .iter()
                .filter_map(|(number, _)| {
                    ready.iter().find(|ready| ready.index == *number).copied()
                })
                .collect();
            if !group.together || there.len() < players.len() {
                continue;
            }
            let mut parts: Vec<&Ready<'_>> = vec![];
            for ready in there {
                if !parts
                    .iter()
                    .any(|part| std::ptr::eq(part.opened, ready.opened))
                {
                    parts.push(ready);
                }
            }
            if parts.len() < 2 {
                continue;
            }
            let mut room = Room {
                folder: asked.out.join(folder),
                name: group.name.clone(),
                origin: String::new(),
                parts,
                tracks: vec![],
            };
            room.plan(console, &asked.compile())?;
            rooms.push(room);
        }
        Ok(rooms)
    }

    /// Plans the tracks. A take at which the parts do not have one clock is told and has none.
    fn plan(&mut self, console: &mut Console, settings: &Settings) -> Result<(), RenderFailure> {
        let first = self.parts[0];
        self.origin = first.opened.routine.origin(&self.folder);
        let title = name::slug(&first.edition().played().title);
        let stem = format!("{title} {}", name::player_slug(&self.name));
        let stem = origin::free_name(
            &mut Names::default(),
            &stem,
            &first.plan,
            &self.folder,
            &self.origin,
        )?;
        for take in 0..first.plan.takes.len() {
            let timelines = timelines(&self.parts, take, settings);
            let withouts = std::iter::once(None).chain((0..self.parts.len()).map(Some));
            for without in withouts {
                let room = match together_of(&timelines, without) {
                    Ok(room) => room,
                    Err(other) => {
                        let instrument = self.parts[other.part].edition().played().instrument;
                        console.complain(
                            format!(
                                "{}: at {} the {} leaves passes out that others play, so there is no track of all",
                                self.name, first.plan.takes[take].name, instrument.name
                            ),
                            Some("choose a key that lies nearer".into()),
                        );
                        break;
                    }
                };
                let planned = &first.plan.takes[take];
                let stem = format!("{stem} {}", name::slug(&self.who(without)));
                self.tracks.push(RoomTrack {
                    name: name::of(&stem, planned.tempo, &planned.take),
                    take,
                    without,
                    sound: Sound::of(&room),
                });
            }
        }
        Ok(())
    }

    /// Who is heard: `all`, `without horn in F`.
    fn who(&self, without: Option<usize>) -> String {
        without.map_or_else(
            || "all".to_owned(),
            |part| {
                format!(
                    "without {}",
                    self.parts[part].edition().played().instrument.name
                )
            },
        )
    }

    /// Whether the first of its players is `ready`: then its tracks belong to that player's part of the class.
    pub fn begins_with(&self, ready: &Ready<'_>) -> bool {
        std::ptr::eq(self.parts[0], ready)
    }

    /// Its tracks with their sounds.
    pub fn tracks<'s>(&'s self, settings: &Settings) -> Vec<(Track<'s>, &'s Sound)> {
        let settings = *settings;
        let of = self.tracks.len();
        let track = |(number, track): (u32, &'s RoomTrack)| {
            let planned = &self.parts[0].plan.takes[track.take];
            let whose = format!("{}, {}", self.name, self.who(track.without));
            let rendered = Track {
                name: track.name.clone(),
                labels: planned::labels(
                    planned.score.routine,
                    Some(&whose),
                    &planned.take,
                    number,
                    of,
                ),
                origin: Some(self.origin.clone()),
                frames: planned.frames(settings.sample_rate),
                like: vec![],
                twin: None,
                fingerprint: None,
                timeline: Box::new(move || {
                    let timelines = timelines(&self.parts, track.take, &settings);
                    together_of(&timelines, track.without).expect("the clocks were compared")
                }),
            };
            (rendered, &track.sound)
        };
        (1..).zip(&self.tracks).map(track).collect()
    }

    /// The keys of its takes, each once.
    pub fn keys(&self) -> Vec<i32> {
        let mut keys = vec![];
        for planned in &self.parts[0].plan.takes {
            if !keys.contains(&planned.take.key) {
                keys.push(planned.take.key);
            }
        }
        keys
    }

    /// What each part plays.
    pub fn editions(&self) -> impl Iterator<Item = &Edition> {
        self.parts.iter().map(|part| part.edition())
    }

    /// The title of its score.
    pub fn title(&self) -> String {
        format!("{}, {}", self.parts[0].edition().played().title, self.name)
    }

    /// What the teacher is told of it.
    pub fn summary(&self) -> String {
        format!(
            "{} plays together: {} of all and without each part in {}.",
            self.name,
            count::tracks(self.tracks.len()),
            self.folder.display()
        )
    }
}

fn timelines(parts: &[&Ready<'_>], take: usize, settings: &Settings) -> Vec<Timeline> {
    let scores = parts.iter().filter_map(|part| part.plan.takes.get(take));
    scores
        .map(|planned| compile(&planned.score, settings))
        .collect()
}

fn together_of(
    timelines: &[Timeline],
    without: Option<usize>,
) -> Result<Timeline, room::OtherClock> {
    room::together(&timelines.iter().collect::<Vec<_>>(), without)
}
