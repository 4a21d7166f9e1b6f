//! What a pupil reads before the first note: how the sound gets out of a phone, and the caution.

use crate::brass::caution;
use crate::handout::escape;
use crate::words::{Language, say};

/// The card. It is open on the page without the script; with it, only at the first use.
pub fn html(language: Language) -> String {
    let mut html = format!(
        "<section class=\"card\" id=\"before\" aria-labelledby=\"before-title\">\n\
         <h2 id=\"before-title\">{}</h2>\n<p class=\"caution\">{}</p>\n<ul>\n\
         <li>{}</li>\n<li>{}</li>\n<li>{}</li>\n</ul>\n<details>\n<summary>{}</summary>\n",
        say::before_you_play(language),
        escape::html(caution::short(language)),
        say::card_silent(language),
        say::card_wireless(language),
        say::card_volume(language),
        say::card_more(language),
    );
    for paragraph in caution::long(language) {
        html += &format!("<p>{}</p>\n", escape::html(paragraph));
    }
    html + "</details>\n</section>\n"
}
