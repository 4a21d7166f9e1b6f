//! Volumes of the voices in words: `click=-6dB`.

use crate::synth::Balance;
use crate::synth::spectrum::from_db;

/// The lowest volume that is not off, in dB: anything lower is inaudible.
const SOFTEST_DB: f64 = -60.0;

/// A voice and its attenuation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Volume {
    voice: Voice,
    gain: f64,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Voice {
    Guide,
    Drone,
    Click,
}

/// Reads `click=-6dB`, `drone=off`.
///
/// # Errors
/// A message to show after the option's name.
pub fn parse(text: &str) -> Result<Volume, String> {
    const RIGHT: &str = "write click=-6dB or drone=off; the voices are guide, drone and click";
    let (voice, volume) = text.split_once('=').ok_or(RIGHT)?;
    let voice = match voice.trim() {
        "guide" => Voice::Guide,
        "drone" => Voice::Drone,
        "click" => Voice::Click,
        _ => return Err(RIGHT.to_owned()),
    };
    let volume = volume.trim().replace('−', "-").to_lowercase();
    if volume == "off" {
        return Ok(Volume { voice, gain: 0.0 });
    }
    let number = volume.strip_suffix("db").unwrap_or(&volume).trim_end();
    let db: f64 = number.parse().map_err(|_| RIGHT.to_owned())?;
    if db > 0.0 {
        return Err(
            "voices can be made softer, not louder: make the others softer and turn the volume up"
                .to_owned(),
        );
    }
    if !(SOFTEST_DB..=0.0).contains(&db) {
        return Err(format!(
            "volumes go down to {SOFTEST_DB} dB; beyond it is off"
        ));
    }
    Ok(Volume {
        voice,
        gain: from_db(db),
    })
}

/// Combines volumes; a voice that is not named stays as it is.
///
/// # Errors
/// A message, if a voice is named twice.
pub fn balance(volumes: &[Volume]) -> Result<Balance, String> {
    let mut balance = Balance::CALIBRATED;
    for (i, volume) in volumes.iter().enumerate() {
        if volumes[..i].iter().any(|v| v.voice == volume.voice) {
            let voice = match volume.voice {
                Voice::Guide => "guide",
                Voice::Drone => "drone",
                Voice::Click => "click",
            };
            return Err(format!("the volume of the {voice} is named twice"));
        }
        let gain = match volume.voice {
            Voice::Guide => &mut balance.guide,
            Voice::Drone => &mut balance.drone,
            Voice::Click => &mut balance.click,
        };
        *gain = volume.gain as f32;
    }
    Ok(balance)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn volumes_are_decibels_down_or_off() {
        let all = ["click=-6dB", "drone=off", "guide = −20 dB"].map(|text| parse(text).unwrap());
        let balance = balance(&all).unwrap();
        assert!((balance.click - 0.501_187).abs() < 1e-6);
        assert_eq!(balance.drone, 0.0);
        assert!((balance.guide - 0.1).abs() < 1e-7);
        assert_eq!(parse("click=0").map(|v| v.gain), Ok(1.0));
        for text in [
            "",
            "click",
            "click=",
            "click=soft",
            "horn=-3dB",
            "click=3dB",
            "click=-61",
            "click=nan",
            "click=-inf",
            "click=-6dB=2",
        ] {
            assert!(parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_voice_is_named_once() {
        let twice = ["click=-6dB", "click=off"].map(|text| parse(text).unwrap());
        assert!(balance(&twice).is_err());
    }
}
