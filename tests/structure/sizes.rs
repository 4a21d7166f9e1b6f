//! How long files and functions are.

use crate::source;
use syn::visit::{self, Visit};
use syn::{Block, ImplItemFn, ItemFn, ItemMod};

const LONGEST_FILE: usize = 500;
const LONGEST_FUNCTION: usize = 60;
/// Some read better in one piece.
const MOST_LONG_FUNCTIONS: usize = 8;

#[test]
fn no_long_files() {
    let sources = source::all();
    let lengths = sources.values().map(|s| (s.text.lines().count(), &s.file));
    let long: Vec<_> = lengths.filter(|(lines, _)| *lines > LONGEST_FILE).collect();
    assert!(
        long.is_empty(),
        "longer than {LONGEST_FILE} lines: {long:?}"
    );
}

#[test]
fn few_long_functions() {
    let mut long = vec![];
    for source in source::all().values() {
        let mut found = Functions {
            lines: source.text.lines().collect(),
            found: vec![],
        };
        source.items.iter().for_each(|item| found.visit_item(item));
        let functions = found.found.into_iter();
        let functions = functions.filter(|(_, lines)| *lines > LONGEST_FUNCTION);
        long.extend(functions.map(|(name, lines)| format!("{lines} {}: {name}", source.file)));
    }
    assert!(
        long.len() <= MOST_LONG_FUNCTIONS,
        "{} functions have more than {LONGEST_FUNCTION} lines of code:\n{}",
        long.len(),
        long.join("\n")
    );
}

/// Functions, each with its lines of code.
struct Functions<'t> {
    lines: Vec<&'t str>,
    found: Vec<(String, usize)>,
}

impl Functions<'_> {
    fn add(&mut self, name: String, body: &Block) {
        let braces = body.brace_token.span;
        let (first, last) = (braces.open().end().line, braces.close().start().line);
        // Lines are counted from 1; that of the first brace is left out.
        let inside = self.lines.get(first..last.saturating_sub(1)).unwrap_or(&[]);
        let code = inside.iter().filter(|line| {
            let line = line.trim_start();
            !line.is_empty() && !line.starts_with("//")
        });
        self.found.push((name, code.count()));
    }
}

impl<'ast> Visit<'ast> for Functions<'_> {
    fn visit_item_fn(&mut self, function: &'ast ItemFn) {
        self.add(function.sig.ident.to_string(), &function.block);
        visit::visit_item_fn(self, function);
    }

    fn visit_impl_item_fn(&mut self, function: &'ast ImplItemFn) {
        self.add(function.sig.ident.to_string(), &function.block);
        visit::visit_impl_item_fn(self, function);
    }

    fn visit_item_mod(&mut self, module: &'ast ItemMod) {
        if module.ident != "tests" {
            visit::visit_item_mod(self, module);
        }
    }
}
