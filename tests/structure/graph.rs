//! Which file uses which: no circles, and no arrow up.

use crate::root;
use crate::source;
use crate::uses::Library;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;

/// The modules, each of which uses only those before it.
const LAYERS: [&str; 29] = [
    "music", "words", "problem", "brass", "routine", "pencil", "score", "check", "carry",
    "presets", "edition", "notation", "edit", "mend", "group", "class", "timeline", "synth",
    "volume", "sheet", "engine", "render", "print", "exchange", "handout", "workshop", "desk",
    "command", "lib",
];

type Graph = BTreeMap<String, BTreeSet<String>>;

fn graph() -> Graph {
    let sources = source::all();
    let library = Library::new(&sources);
    let used = |source| library.used_by(source).into_iter().map(str::to_owned);
    sources
        .values()
        .map(|source| (source.file.clone(), used(source).collect()))
        .collect()
}

/// The module at the top of the library that a file belongs to.
fn top(file: &str) -> &str {
    let path = file.trim_start_matches("src/");
    path.split('/').next().unwrap().trim_end_matches(".rs")
}

fn layer(module: &str) -> usize {
    let layer = LAYERS.iter().position(|layer| *layer == module);
    layer.unwrap_or_else(|| panic!("{module} has no place among the layers"))
}

/// A way from a file back to itself, through files that can be reached from it.
fn circle(graph: &Graph, from: &str) -> Option<Vec<String>> {
    let mut before: BTreeMap<&str, &str> = BTreeMap::new();
    let mut next = vec![from];
    let mut index = 0;
    while index < next.len() {
        let file = next[index];
        index += 1;
        for used in &graph[file] {
            if used == from {
                let mut way = vec![from.to_owned(), file.to_owned()];
                let mut at = file;
                while at != from {
                    at = before[at];
                    way.push(at.to_owned());
                }
                way.reverse();
                return Some(way);
            }
            if !before.contains_key(used.as_str()) {
                before.insert(used, file);
                next.push(used);
            }
        }
    }
    None
}

#[test]
fn no_circles() {
    let graph = graph();
    let mut seen: BTreeSet<BTreeSet<String>> = BTreeSet::new();
    let mut circles = vec![];
    for file in graph.keys() {
        if let Some(way) = circle(&graph, file)
            && seen.insert(way.iter().cloned().collect())
        {
            circles.push(way.join(" -> "));
        }
    }
    assert!(circles.is_empty(), "circles:\n{}", circles.join("\n"));
}

#[test]
fn no_arrow_up() {
    let mut up = vec![];
    for (file, used) in graph() {
        for used in used {
            if layer(top(&used)) > layer(top(&file)) && top(&used) != "lib" {
                up.push(format!("{file} uses {used}"));
            }
        }
    }
    assert!(up.is_empty(), "arrows up:\n{}", up.join("\n"));
}

/// What the graph is made of is found: an import, a path in an expression, one through a name that is handed on, and one
/// inside a macro.
#[test]
fn the_graph_knows_who_uses_whom() {
    let graph = graph();
    let uses = |file: &str, used: &str| graph[file].contains(used);
    assert!(uses("src/synth/mix.rs", "src/synth/block.rs"));
    assert!(uses("src/synth/drone.rs", "src/timeline/model.rs"));
    assert!(uses("src/render/list.rs", "src/render/files/put.rs"));
    assert!(uses("src/render/reuse/record.rs", "src/lib.rs"));
    assert!(!uses("src/render/list.rs", "src/render/files/mod.rs"));
    assert!(!uses("src/music/pitch.rs", "src/score/model.rs"));
    let files: usize = graph.values().map(BTreeSet::len).sum();
    assert!(files > graph.len(), "{files} arrows");
}

/// The table of DEVELOPERS.md names the modules from the lowest to the highest.
#[test]
fn the_developers_notes_have_the_same_order() {
    let notes = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let named: Vec<&str> = notes
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split_once('`'))
        .map(|(name, _)| name)
        .filter(|name| LAYERS.contains(name))
        .collect();
    let sources = source::all();
    let tops: BTreeSet<&str> = sources.values().map(|s| top(&s.file)).collect();
    let there = LAYERS
        .iter()
        .filter(|layer| tops.contains(*layer) && **layer != "lib");
    let there: Vec<&str> = there.copied().collect();
    assert_eq!(named, there);
}
