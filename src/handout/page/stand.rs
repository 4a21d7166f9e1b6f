//! The view while a routine is played: the current line, two large controls for one hand, and one for all others.

/// The stand, hidden until the script shows it.
pub const HTML: &str = r#"<section id="stand" aria-label="Playing" hidden>
<div id="now">
<p id="pass"></p>
<p id="count" aria-hidden="true"></p>
</div>
<button type="button" id="rest" hidden>
<span class="do"></span> <span class="left"></span> <span class="then"></span>
</button>
<p id="told" role="status"></p>
<div class="controls">
<button type="button" id="others" aria-haspopup="dialog">More</button>
<button type="button" id="worse" hidden></button>
<button type="button" id="again">Again</button>
<button type="button" id="main">Pause</button>
</div>
<p id="said" role="status" class="unseen"></p>
</section>
<dialog id="more" aria-labelledby="more-title">
<h2 id="more-title"></h2>
<div class="row">
<button type="button" class="quiet" id="previous">Line before</button>
<button type="button" class="quiet" id="next">Next line</button>
</div>
<div class="row" id="pace" hidden>
<button type="button" class="quiet" id="slower">Slower</button>
<p id="clicks"></p>
<button type="button" class="quiet" id="faster">Faster</button>
</div>
<fieldset id="loops" hidden>
<legend>Again and again</legend>
<div class="row">
<button type="button" class="quiet" id="loop-bar"></button>
<button type="button" class="quiet" id="loop-pass"></button>
<button type="button" class="quiet" id="loop-notes">From note to note</button>
</div>
<button type="button" class="deed" id="onward" hidden>Go on with the line</button>
</fieldset>
<div class="row">
<button type="button" class="quiet" id="mark" hidden>Pencil</button>
<button type="button" class="quiet" id="leave">Stop playing</button>
</div>
<label class="check"><input type="checkbox" id="left-handed"> Large buttons at the left hand</label>
<div class="row last"><button type="button" class="deed" id="back">Back to the music</button></div>
</dialog>
"#;
