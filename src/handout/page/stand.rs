//! The view while a routine is played: the current line, two large controls for one hand, and one for all others.

use crate::words::{Language, say};

/// The stand, hidden until the script shows it.
pub fn html(language: Language) -> String {
    playing(language) + &more(language)
}

/// What is in view.
fn playing(language: Language) -> String {
    format!(
        r#"<section id="stand" aria-label="{stand_playing}" hidden>
<div id="now">
<p id="pass"></p>
<p id="count" aria-hidden="true"></p>
</div>
<button type="button" id="rest" hidden>
<span class="do"></span> <span class="left"></span> <span class="then"></span>
</button>
<p id="told" role="status"></p>
<div class="controls">
<button type="button" id="others" aria-haspopup="dialog">{stand_more}</button>
<button type="button" id="worse" hidden></button>
<button type="button" id="again">{stand_again}</button>
<button type="button" id="main">{stand_pause}</button>
</div>
<p id="said" role="status" class="unseen"></p>
</section>
"#,
        stand_playing = say::stand_playing(language),
        stand_more = say::stand_more(language),
        stand_again = say::stand_again(language),
        stand_pause = say::stand_pause(language),
    )
}

/// What is behind the button More.
fn more(language: Language) -> String {
    format!(
        r#"<dialog id="more" aria-labelledby="more-title">
<h2 id="more-title"></h2>
<div class="row">
<button type="button" class="quiet" id="previous">{line_before}</button>
<button type="button" class="quiet" id="next">{next_line}</button>
</div>
<div class="row" id="pace" hidden>
<button type="button" class="quiet" id="slower">{stand_slower}</button>
<p id="clicks"></p>
<button type="button" class="quiet" id="faster">{stand_faster}</button>
</div>
<fieldset id="loops" hidden>
<legend>{again_and_again}</legend>
<div class="row">
<button type="button" class="quiet" id="loop-bar"></button>
<button type="button" class="quiet" id="loop-pass"></button>
<button type="button" class="quiet" id="loop-notes">{from_note_to_note}</button>
</div>
<button type="button" class="deed" id="onward" hidden>{on_with_the_line}</button>
</fieldset>
<div class="row">
<button type="button" class="quiet" id="mark" hidden>{stand_pencil}</button>
<button type="button" class="quiet" id="leave">{stop_playing}</button>
</div>
<label class="check"><input type="checkbox" id="left-handed"> {left_hand}</label>
<div class="row last"><button type="button" class="deed" id="back">{back_to_the_music}</button></div>
</dialog>
"#,
        line_before = say::line_before(language),
        next_line = say::next_line(language),
        stand_slower = say::stand_slower(language),
        stand_faster = say::stand_faster(language),
        again_and_again = say::again_and_again(language),
        from_note_to_note = say::from_note_to_note(language),
        on_with_the_line = say::on_with_the_line(language),
        stand_pencil = say::stand_pencil(language),
        stop_playing = say::stop_playing(language),
        left_hand = say::left_hand(language),
        back_to_the_music = say::back_to_the_music(language),
    )
}
