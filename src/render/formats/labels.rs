//! What a music player shows for a track: texts and numbers written into the files that can hold them.

use crate::render::part::TrackPart;
use crate::words::{Language, say};
use blake3::{Hash, Hasher};
use std::borrow::Cow;

/// The labels of a track.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Labels {
    /// The routine: players show it as the album.
    pub routine: String,
    /// The take, in words.
    pub take: String,
    /// Its number among the takes of its routine, in practice order, from 1.
    pub number: u32,
    /// How many takes there are.
    pub of: u32,
    /// Clicks a minute.
    pub tempo: String,
    /// The key, in a word or two.
    pub key: String,
    /// What the player should know before playing.
    pub caution: String,
    /// The language of all this.
    pub language: Language,
}

impl Labels {
    /// The hash of everything that decides the content of labelled files except the sound: these labels, the
    /// picture made from them, and the encoders.
    pub fn fingerprint(&self) -> Hash {
        let Self {
            routine,
            take,
            number,
            of,
            tempo,
            key,
            caution,
            // The caution differs in every language.
            language: _,
        } = self;
        let mut hasher = Hasher::new();
        for text in [
            crate::ENCODER_REVISION,
            routine,
            take,
            tempo,
            key,
            caution,
            &number.to_string(),
            &of.to_string(),
        ] {
            hasher.update(&(text.len() as u64).to_le_bytes());
            hasher.update(text.as_bytes());
        }
        hasher.finalize()
    }

    /// The labels of a part of the track.
    pub fn of_part(&self, part: TrackPart) -> Cow<'_, Self> {
        match part.word() {
            None => Cow::Borrowed(self),
            Some(word) => Cow::Owned(Self {
                take: say::part_alone(self.language, &self.take, word),
                ..self.clone()
            }),
        }
    }

    /// What a playlist calls the track.
    pub fn title(&self) -> String {
        format!("{}, {}", self.routine, self.take)
    }
}
