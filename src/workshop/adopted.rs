//! A routine made of another program's file, with all that it could not keep.

use super::request::AdoptRequest;
use super::shelf::instrument;
use crate::engine::answer::{In, ProblemAnswer};
use crate::exchange::{AdoptOptions, adopt, file};
use crate::handout::base64::bytes;
use crate::problem::Problem;
use crate::words::Language;
use serde::Serialize;

/// The routine and what was lost on the way.
#[derive(Debug, Serialize)]
pub struct AdoptedAnswer {
    ok: bool,
    text: String,
    lines: usize,
    /// True if every note was compared with the file's.
    compared: bool,
    /// True if such a file holds less than music has.
    limited: bool,
    losses: Vec<String>,
    said: Vec<String>,
}

/// Makes a routine of a file.
pub fn adopted(request: &AdoptRequest) -> Result<AdoptedAnswer, Vec<ProblemAnswer>> {
    let content = bytes(&request.data)
        .ok_or_else(|| ProblemAnswer::new(In::Request, "its bytes are not in base64"))?;
    if content.len() as u64 > file::LARGEST {
        let most = file::LARGEST >> 20;
        let message = format!("it is larger than {most} MiB, which no warm-up needs");
        return Err(ProblemAnswer::new(In::Request, message).into());
    }
    let part = request.part.as_deref().map(str::trim);
    let piece = file::read(content, part.filter(|part| !part.is_empty())).map_err(refused)?;
    let stem = request.name.rsplit_once('.');
    let options = AdoptOptions {
        instrument: instrument(request.instrument.as_deref())?,
        concert: request.concert,
        title: stem.map_or(&*request.name, |(stem, _)| stem).to_owned(),
        source: request.name.clone(),
    };
    let adopted = adopt(&piece, &options).map_err(refused)?;
    Ok(AdoptedAnswer {
        ok: true,
        text: adopted.text,
        lines: adopted.lines,
        compared: adopted.compared,
        limited: piece.limits.is_some(),
        losses: adopted.losses,
        said: adopted.said.iter().map(|said| for_page(said)).collect(),
    })
}

fn refused(mut problem: Problem) -> Vec<ProblemAnswer> {
    problem.hint = problem.hint.filter(|hint| for_page(hint) == **hint);
    ProblemAnswer::problem(Language::En, In::Request, "", &problem).into()
}

/// A sentence without the part that speaks of the command line's options.
fn for_page(said: &str) -> String {
    let option = said.find(" --").map(|at| said[..at].rfind([';', ',']));
    match option {
        None => said.to_owned(),
        Some(None) => String::new(),
        Some(Some(end)) => said[..end].to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::for_page;

    #[test]
    fn no_sentence_speaks_of_options() {
        assert_eq!(
            for_page("all is well; or so it seems"),
            "all is well; or so it seems"
        );
        assert_eq!(
            for_page("taken as read; with --concert as they sound"),
            "taken as read"
        );
        assert_eq!(for_page("choose with --part"), "");
    }
}
