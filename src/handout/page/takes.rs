//! The takes of a page, each with its own player. A page of one file has none: the engine plays.

use super::content::HandoutPage;
use crate::handout::escape;
use crate::words::{duration, say};
use num_traits::ToPrimitive;

/// The takes, one below another.
pub fn html(page: &HandoutPage<'_>) -> String {
    let save = say::save_this_track(page.edition.teacher().words_in);
    let mut html = "<div id=\"takes\">\n".to_owned();
    if page.is_alone() {
        let needs = say::needs_script(page.edition.teacher().words_in);
        return html + &format!("<noscript><p>{needs}</p></noscript>\n</div>\n");
    }
    for (index, take) in page.takes.iter().enumerate() {
        let number = index + 1;
        let title = escape::html(&take.title);
        let file = escape::address(&take.file);
        let length = duration(take.score.seconds.to_f64().unwrap_or(0.0));
        html += &format!(
            "<section class=\"take\" aria-labelledby=\"take{number}\">\n\
             <h2 id=\"take{number}\">{title}</h2>\n\
             <p class=\"soft\">{length} · <a href=\"{file}\" download>{save}<span hidden>: {title}\
             </span></a></p>\n\
             <div class=\"player\"><audio controls preload=\"none\" src=\"{file}\" \
             aria-labelledby=\"take{number}\"></audio></div>\n</section>\n"
        );
    }
    html + "</div>\n"
}
