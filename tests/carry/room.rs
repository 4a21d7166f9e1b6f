//! A group's track: what sounds in it is what its parts sound like.

use super::group::{arranged, parts};
use leadpipe::score::{Take, unroll};
use leadpipe::synth::{Block, Engine};
use leadpipe::timeline::{Settings, Timeline, compile, room};

const RATE: u32 = 44_100;
const NAMES: [&str; 3] = ["trumpet in B-flat", "horn in F", "trombone"];

const TEXT: &str = "format = 1\ntitle = \"T\"\ninstrument = \"trumpet in B-flat\"\ncomfortable_top = \"G4\"\ntempo = 120\n\
    [[line]]\nname = \"One\"\nnotes = \"ff slur( C4:half D4:half ) | E4:whole\"\nrest = \"none\"\n\
    [[line]]\nname = \"Two\"\nopen = \"f G4:half C4:half\"\ntubes = [\"0\", \"2\"]\n";

fn timelines() -> Vec<Timeline> {
    let settings = Settings {
        sample_rate: RATE,
        signs: true,
    };
    let parts = parts(&arranged(TEXT, &NAMES));
    let compiled = parts.iter().map(|part| {
        let score = unroll(part, &Take::default()).unwrap();
        compile(&score, &settings)
    });
    compiled.collect()
}

/// Guide, drone and click of a whole track.
fn stems(engine: &Engine, timeline: &Timeline) -> [Vec<f32>; 3] {
    let mut stems = [vec![], vec![], vec![]];
    for unit in &timeline.units {
        let mut performance = engine.perform(unit);
        let mut block = Block::SILENT;
        loop {
            let frames = performance.next_block(&mut block);
            if frames == 0 {
                break;
            }
            for (stem, voice) in stems
                .iter_mut()
                .zip([&block.guide, &block.drone, &block.click])
            {
                stem.extend_from_slice(&voice[..frames]);
            }
        }
    }
    stems
}

fn furthest(a: &[f32], b: &[f32]) -> f32 {
    assert_eq!(a.len(), b.len());
    a.iter()
        .zip(b)
        .fold(0.0, |most, (a, b)| most.max((a - b).abs()))
}

#[test]
fn the_room_is_the_sum_of_its_parts() {
    let engine = Engine::new(RATE);
    let timelines = timelines();
    let all: Vec<&Timeline> = timelines.iter().collect();
    let room = stems(&engine, &room::together(&all, None).unwrap());
    let share = 10f64.powf(-room::softer_db(all.len()) / 20.0) as f32;
    let alone: Vec<_> = timelines.iter().map(|part| stems(&engine, part)).collect();
    let mut sum = vec![0.0f32; room[0].len()];
    for part in &alone {
        sum.iter_mut()
            .zip(&part[0])
            .for_each(|(sum, x)| *sum += x * share);
    }
    assert!(furthest(&room[0], &sum) < 1e-6);
    assert!(room[0].iter().any(|x| x.abs() > 0.05));
    // The click is everybody's, and the drone that of whoever plays.
    assert_eq!(room[2], alone[1][2]);
    assert!(furthest(&room[1], &alone[0][1]) < 1e-6 || room[1].iter().any(|x| x.abs() > 0.0));
    // One part less is the room without that part.
    for (index, part) in alone.iter().enumerate() {
        let without = stems(&engine, &room::together(&all, Some(index)).unwrap());
        let missing: Vec<f32> = room[0]
            .iter()
            .zip(&without[0])
            .map(|(a, b)| a - b)
            .collect();
        let own: Vec<f32> = part[0].iter().map(|x| x * share).collect();
        assert!(furthest(&missing, &own) < 1e-6, "{}", NAMES[index]);
        assert_eq!(without[2], room[2]);
    }
}

/// Nothing is measured or limited per take, so a group that plays as loud as it can must stay below full scale by construction.
#[test]
fn a_loud_group_does_not_clip() {
    let engine = Engine::new(RATE);
    let timelines = timelines();
    for players in [2, 3] {
        let all: Vec<&Timeline> = timelines.iter().take(players).collect();
        let [guide, drone, click] = stems(&engine, &room::together(&all, None).unwrap());
        let mix = guide
            .iter()
            .zip(&drone)
            .zip(&click)
            .map(|((g, d), c)| (g + d + c).abs());
        let peak = mix.fold(0.0f32, f32::max);
        assert!((0.2..0.95).contains(&peak), "{players}: {peak}");
    }
}
