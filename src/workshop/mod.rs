//! What a teacher's page asks for beyond playing and drawing: text and JSON in, JSON out. Feature `workshop`.
//!
//! The pupil's page holds the [engine](crate::engine) alone; the desk has both, each in a worker. A [`Workshop`] checks a
//! routine, offers the built-in ones, makes the pupil's page, and reads and writes files of other programs. It keeps nothing
//! from one request to the next. `src/desk/workshop.d.ts` declares every request and answer.
//!
//! In WebAssembly, `exports` offers it as the engine's `exports` do, so that the same worker runs it.

mod adopted;
mod exported;
#[cfg(target_arch = "wasm32")]
mod exports;
mod judged;
mod mended;
mod page;
mod request;
mod shelf;
mod taken;

use crate::engine::answer::{In, ProblemAnswer, Refusal};
use crate::timeline::Settings;
use request::Request;
use serde::Serialize;

/// Answers requests.
#[derive(Default)]
pub struct Workshop;

/// That it is ready.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Started {
    ok: bool,
    sample_rate: u32,
}

impl Workshop {
    /// Answers a request; request and response are JSON.
    pub fn ask(&self, request: &str) -> String {
        let answered = match serde_json::from_str(request) {
            Ok(request) => answer(&request),
            Err(error) => Err(ProblemAnswer::new(In::Request, error.to_string()).into()),
        };
        answered.unwrap_or_else(|problems| json(&Refusal::from(problems)))
    }
}

fn answer(request: &Request) -> Result<String, Vec<ProblemAnswer>> {
    Ok(match request {
        Request::Start {} => json(&Started {
            ok: true,
            sample_rate: Settings::default().sample_rate,
        }),
        Request::Judge(request) => json(&judged::judge(request)?),
        Request::Mend(request) => json(&mended::mend(request)?),
        Request::Shelf(request) => json(&shelf::shelf(request)?),
        Request::Choose(request) => json(&shelf::choose(request)?),
        Request::TakeDown(request) => json(&shelf::take_down(request)?),
        Request::Page(request) => json(&page::page(request)?),
        Request::Export(request) => json(&exported::export(request)?),
        Request::TakeMark(request) => json(&taken::take(request)?),
        Request::Adopt(request) => json(&adopted::adopted(request)?),
    })
}

fn json(answer: &impl Serialize) -> String {
    serde_json::to_string(answer).expect("numbers and texts can be written")
}
