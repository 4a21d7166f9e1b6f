//! The sources, parsed.

use crate::root;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use syn::{Attribute, Item};

/// A path of modules, from the library's root.
pub type Module = Vec<String>;

/// A file of the library.
pub struct Source {
    /// Its path from the project's folder: `src/score/unroll.rs`.
    pub file: String,
    /// The module that it is.
    pub module: Module,
    /// Its text.
    pub text: String,
    /// What stands in it, tests left out.
    pub items: Vec<Item>,
}

/// Every file of the library, by its module.
pub fn all() -> BTreeMap<Module, Source> {
    let mut files = vec![];
    collect(&root().join("src"), "src", &mut files);
    let sources = files.into_iter().filter(|file| file != "src/main.rs");
    sources
        .map(|file| {
            let source = read(&file);
            (source.module.clone(), source)
        })
        .collect()
}

/// A file by its path from the project's folder.
pub fn read(file: &str) -> Source {
    let text = fs::read_to_string(root().join(file)).unwrap();
    let parsed = syn::parse_file(&text).unwrap_or_else(|error| panic!("{file}: {error}"));
    Source {
        module: module_of(file),
        items: without_tests(parsed.items),
        text,
        file: file.to_owned(),
    }
}

fn collect(folder: &Path, name: &str, files: &mut Vec<String>) {
    for entry in fs::read_dir(folder).unwrap() {
        let entry = entry.unwrap();
        let name = format!("{name}/{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            collect(&entry.path(), &name, files);
        } else if name.ends_with(".rs") {
            files.push(name);
        }
    }
}

fn module_of(file: &str) -> Module {
    let path = file.trim_start_matches("src/").trim_end_matches(".rs");
    let mut module: Module = path.split('/').map(str::to_owned).collect();
    if matches!(module.last().unwrap().as_str(), "mod" | "lib") {
        module.pop();
    }
    module
}

/// These without what is compiled for tests alone.
fn without_tests(items: Vec<Item>) -> Vec<Item> {
    let items = items.into_iter().filter(|item| {
        let attributes: &[Attribute] = match item {
            Item::Fn(item) => &item.attrs,
            Item::Impl(item) => &item.attrs,
            Item::Mod(item) => &item.attrs,
            Item::Use(item) => &item.attrs,
            _ => &[],
        };
        !attributes.iter().any(|attribute| {
            let test = |list: &syn::MetaList| list.tokens.to_string() == "test";
            attribute.path().is_ident("cfg") && attribute.meta.require_list().is_ok_and(test)
        })
    });
    items.collect()
}
