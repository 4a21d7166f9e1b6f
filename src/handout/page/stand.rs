//! The view while a routine is played: the current line and large controls.

/// The stand, hidden until the script shows it.
pub const HTML: &str = r#"<section id="stand" aria-label="Playing" hidden>
<div id="now">
<p id="pass"></p>
<p id="count" aria-hidden="true"></p>
</div>
<button type="button" id="rest" hidden>
<span class="do"></span> <span class="left"></span> <span class="then"></span>
</button>
<div class="row" id="more" hidden>
<button type="button" id="slower">Slower</button>
<p id="clicks"></p>
<button type="button" id="faster">Faster</button>
<button type="button" id="mark">Pencil</button>
</div>
<div class="controls">
<button type="button" id="previous">Previous</button>
<button type="button" id="again">Again</button>
<button type="button" id="pause">Pause</button>
<button type="button" id="next">Next</button>
<button type="button" id="leave">Stop</button>
</div>
<p id="said" role="status" class="unseen"></p>
</section>
"#;
