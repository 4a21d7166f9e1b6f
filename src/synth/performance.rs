//! A unit, performed from its first frame to its last.

use super::block::{BLOCK, Block};
use super::breath::Breathing;
use super::click::Clicking;
use super::drone::DroneVoice;
use super::engine::Engine;
use super::horn::Horn;
use super::spectrum::from_db;
use crate::timeline::{Content, Unit};
use fundsp::prelude64::{AudioNode, BufferArray, BufferRef, U1};
use std::fmt;

/// True for a rest without signs: every frame of it is silent, and no engine need be asked.
pub fn is_silent(unit: &Unit) -> bool {
    matches!(&unit.content, Content::Rest(rest) if rest.signs.is_empty())
}

impl Engine {
    /// Starts a unit from its first frame.
    pub fn perform<'a>(&'a self, unit: &'a Unit) -> Performance<'a> {
        let (tones, held, swells) = match &unit.content {
            Content::Line(line) => (&line.tones[..], &line.drone[..], &line.swells[..]),
            Content::Rest(_) => (&[][..], &[][..], &[][..]),
        };
        let (company, softer_db) = match &unit.content {
            Content::Line(line) => (&line.company[..], line.softer_db),
            Content::Rest(_) => (&[][..], 0.0),
        };
        Performance {
            unit,
            frame: 0,
            horn: Horn::new(self, tones),
            company: company.iter().map(|tones| Horn::new(self, tones)).collect(),
            share: from_db(-softer_db) as f32,
            breathing: Breathing::new(swells, self.rate()),
            drone: DroneVoice::new(self, held),
            clicking: Clicking::new(&self.clicks, unit),
            buffer: BufferArray::new(),
        }
    }
}

/// A unit being performed, block by block.
#[derive(Clone)]
pub struct Performance<'a> {
    unit: &'a Unit,
    frame: u64,
    horn: Horn<'a>,
    /// The other guides of a group's track.
    company: Vec<Horn<'a>>,
    /// The gain of each guide of a group's track.
    share: f32,
    breathing: Breathing<'a>,
    drone: DroneVoice<'a>,
    clicking: Clicking<'a>,
    buffer: BufferArray<U1>,
}

impl fmt::Debug for Performance<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Performance")
            .field("frame", &self.frame)
            .field("frames", &self.unit.frames)
            .finish_non_exhaustive()
    }
}

impl Performance<'_> {
    /// Fills `block` with the next frames of the unit and returns how many there are: 64, fewer at its
    /// end, 0 when it is over. Frames beyond are silence.
    pub fn next_block(&mut self, block: &mut Block) -> usize {
        if block.sounding {
            *block = Block::SILENT;
        }
        let frames = (self.unit.frames - self.frame).min(BLOCK as u64);
        let end = self.frame + frames;
        let n = frames as usize;
        let sounds = |next: Option<u64>| next.is_some_and(|frame| frame < end);
        if sounds(self.horn.next_sound()) {
            play(&mut self.horn, &mut self.buffer, &mut block.guide[..n]);
            block.sounding = true;
        } else {
            self.horn.skip_to(end);
        }
        // A guide that is alone in a group's line is as soft as in the others.
        if self.share < 1.0 || !self.company.is_empty() {
            block.sounding |= self.with_company(&mut block.guide[..n], end);
        }
        if sounds(self.breathing.next_sound()) {
            let mut air = [0.0; BLOCK];
            play(&mut self.breathing, &mut self.buffer, &mut air[..n]);
            block.guide.iter_mut().zip(air).for_each(|(g, a)| *g += a);
            block.sounding = true;
        } else {
            self.breathing.skip_to(end);
        }
        if sounds(self.drone.next_sound()) {
            play(&mut self.drone, &mut self.buffer, &mut block.drone[..n]);
            block.sounding = true;
        } else {
            self.drone.skip_to(end);
        }
        if sounds(self.clicking.next_sound()) {
            self.clicking.add(&mut block.click[..n]);
            block.sounding = true;
        } else {
            self.clicking.skip_to(end);
        }
        self.frame = end;
        n
    }

    /// Makes the guide as soft as one of several, and adds the others up to frame `end`. Whether one of them sounds.
    fn with_company(&mut self, guide: &mut [f32], end: u64) -> bool {
        let mut sounding = false;
        guide.iter_mut().for_each(|frame| *frame *= self.share);
        for horn in &mut self.company {
            if horn.next_sound().is_none_or(|frame| frame >= end) {
                horn.skip_to(end);
                continue;
            }
            let mut other = [0.0; BLOCK];
            let other = &mut other[..guide.len()];
            play(horn, &mut self.buffer, other);
            let frames = guide.iter_mut().zip(other);
            frames.for_each(|(frame, other)| *frame += *other * self.share);
            sounding = true;
        }
        sounding
    }

    /// Passes over the silence ahead, whole blocks of it or all up to the unit's end, and returns its
    /// frames: 0 where the next block sounds. The blocks after it are the same as if it had been asked for.
    pub fn skip_silence(&mut self) -> u64 {
        let next = [
            self.horn.next_sound(),
            self.breathing.next_sound(),
            self.drone.next_sound(),
            self.clicking.next_sound(),
        ];
        let company = self.company.iter().map(Horn::next_sound);
        let block = BLOCK as u64;
        let to = match next.into_iter().chain(company).flatten().min() {
            Some(frame) if frame < self.unit.frames => frame / block * block,
            _ => self.unit.frames,
        };
        let silent = to.saturating_sub(self.frame);
        if silent > 0 {
            self.horn.skip_to(to);
            self.company.iter_mut().for_each(|horn| horn.skip_to(to));
            self.breathing.skip_to(to);
            self.drone.skip_to(to);
            self.clicking.skip_to(to);
            self.frame = to;
        }
        silent
    }
}

fn play(voice: &mut impl AudioNode, buffer: &mut BufferArray<U1>, out: &mut [f32]) {
    voice.process(out.len(), &BufferRef::empty(), &mut buffer.buffer_mut());
    out.copy_from_slice(&buffer.channel_f32(0)[..out.len()]);
}
