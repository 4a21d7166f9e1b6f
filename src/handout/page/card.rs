//! What a pupil reads before the first note: how the sound gets out of a phone, and the caution.

use crate::brass::caution;
use crate::handout::escape;

/// The card. It is open on the page without the script; with it, only at the first use.
pub fn html() -> String {
    let mut html = format!(
        "<section class=\"card\" id=\"before\" aria-labelledby=\"before-title\">\n\
         <h2 id=\"before-title\">Before you play</h2>\n<p class=\"caution\">{}</p>\n<ul>\n\
         <li>Nothing is heard? Turn the phone’s silent switch off, and its volume up a little at a time.</li>\n\
         <li>A wireless speaker or headphones play late. The count-in comes late with them, so play by what \
         you hear, not by what you see.</li>\n\
         <li>Set the volume so that you hear your own horn better than the track.</li>\n</ul>\n\
         <details>\n<summary>More on playing safely</summary>\n",
        escape::html(caution::SHORT)
    );
    for paragraph in caution::LONG {
        html += &format!("<p>{}</p>\n", escape::html(paragraph));
    }
    html + "</details>\n</section>\n"
}
