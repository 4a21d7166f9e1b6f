//! The caution that is shown wherever a player reads what to play.
//!
//! It is general information in our own words, following the advice of the British Association for
//! Performing Arts Medicine and of NASM–PAMA. It promises nothing and leaves every judgement to the
//! player's teacher, a doctor, a dentist or an audiologist.

use crate::words::{Language, say};

/// The short caution, for a phone or under a command's output. It has no line breaks.
pub fn short(language: Language) -> &'static str {
    say::caution_short(language)
}

/// The long caution, for a sheet: one entry for each paragraph.
pub fn long(language: Language) -> [&'static str; 6] {
    [
        say::caution_pain(language),
        say::caution_pressing(language),
        say::caution_break(language),
        say::caution_breathing(language),
        say::caution_volume(language),
        say::caution_general(language),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_forms_say_when_to_stop_and_whom_to_ask() {
        let long = long(Language::En).join("\n");
        let short = short(Language::En);
        for text in [short, long.as_str()] {
            for word in [
                "pain",
                "numb",
                "dizz",
                "swollen",
                "press",
                "lower",
                "teacher",
                "doctor",
                "dentist",
                "low volume",
                "eneral information",
            ] {
                assert!(text.to_lowercase().contains(&word.to_lowercase()), "{word}");
            }
        }
        for word in [
            "braces",
            "dental",
            "illness",
            "headphones",
            "ring",
            "Sit",
            "audiologist",
        ] {
            assert!(long.contains(word), "{word}");
        }
    }

    #[test]
    fn every_language_says_when_to_stop_and_whom_to_ask() {
        let words = [
            (
                Language::De,
                "auf,taub,schwindlig,geschwollen,drückst,tiefer,Lehrkraft,Arzt,Zahnarzt,Zahnspange,Krankheit,\
                 Kopfhörern,Klingeln,Setz,leise,Hörberatung,allgemeine Hinweise,keine Diagnose",
            ),
            (
                Language::Fr,
                "Arrête,engourdi,vertige,enflée,appuyant,plus bas,professeur,médecin,dentiste,appareil dentaire,\
                 maladie,casque,sifflent,Assieds,faible volume,audiologiste,information générale,diagnostic",
            ),
        ];
        for (language, words) in words {
            let long = long(language).join("\n");
            for word in words.split(',') {
                assert!(long.contains(word), "{word}");
            }
        }
        for language in Language::ALL {
            let short = short(language);
            assert!(short.len() > 200 && !short.contains('\n') && !short.contains("  "));
        }
    }
}
