//! Which names a file uses, and in which file each of them is said.

use crate::source::{Module, Source};
use proc_macro2::{TokenStream, TokenTree};
use quote::ToTokens;
use std::collections::{BTreeMap, BTreeSet};
use syn::{Ident, Item, ItemUse, UseTree, Visibility};

/// What a module has names for.
#[derive(Default)]
struct Names {
    /// Said in it.
    own: BTreeSet<String>,
    /// Brought into it, with the paths from the root that they stand for.
    brought: BTreeMap<String, Vec<String>>,
    /// Modules all of whose names are brought into it.
    globs: Vec<Vec<String>>,
}

/// All names of the library.
pub struct Library<'s> {
    sources: &'s BTreeMap<Module, Source>,
    names: BTreeMap<Module, Names>,
}

impl<'s> Library<'s> {
    pub fn new(sources: &'s BTreeMap<Module, Source>) -> Self {
        let names = sources.iter().map(|(module, source)| {
            let mut names = Names::default();
            gather(&source.items, module, &mut names);
            // What begins with neither `crate`, `super` nor `self` is another crate's, if it is not the module's own.
            let (own, deep) = (&names.own, module.len());
            names.brought.retain(|_, path| {
                let local = path.len() > deep && path.starts_with(module);
                !local || sources.contains_key(&path[..=deep]) || own.contains(&path[deep])
            });
            (module.clone(), names)
        });
        Self {
            sources,
            names: names.collect(),
        }
    }

    /// The files that a source uses, itself left out. What it only hands on under another name (`pub use`) it does not
    /// use, nor its own modules as such.
    pub fn used_by(&self, source: &Source) -> BTreeSet<&'s str> {
        let mut used = BTreeSet::new();
        for path in paths(&source.items, &source.module) {
            if let Some(module) = self.home_of(&path, 0) {
                used.insert(self.sources[&module].file.as_str());
            }
        }
        used.remove(source.file.as_str());
        used
    }

    /// The module that says what a path from the root names; none for a module, and for what is not the library's.
    fn home_of(&self, path: &[String], depth: usize) -> Option<Module> {
        assert!(depth < 20, "{path:?} leads nowhere");
        let mut module: Module = vec![];
        for (index, name) in path.iter().enumerate() {
            let mut inner = module.clone();
            inner.push(name.clone());
            let names = &self.names[&module];
            // A name may be that of a module and of something in it that is handed on.
            let said = names.own.contains(name) || names.brought.contains_key(name);
            if self.sources.contains_key(&inner) && (index + 1 < path.len() || !said) {
                module = inner;
                continue;
            }
            if names.own.contains(name) {
                return Some(module);
            }
            let rest = &path[index + 1..];
            if let Some(brought) = names.brought.get(name) {
                // What a file brings in for itself and uses is the same path once more.
                let whole: Vec<String> = brought.iter().chain(rest).cloned().collect();
                return self.home_of(&whole, depth + 1);
            }
            // Another crate's names are not the library's.
            let known = |glob: &&Module| **glob != module && self.sources.contains_key(*glob);
            let globs = names.globs.iter().filter(known);
            return globs
                .map(|glob| glob.iter().chain(&path[index..]).cloned().collect())
                .find_map(|whole: Vec<String>| self.home_of(&whole, depth + 1));
        }
        None
    }
}

/// Notes what names these items say and bring.
fn gather(items: &[Item], module: &Module, names: &mut Names) {
    for item in items {
        let own: Option<&Ident> = match item {
            Item::Const(item) => Some(&item.ident),
            Item::Enum(item) => Some(&item.ident),
            Item::Fn(item) => Some(&item.sig.ident),
            Item::Static(item) => Some(&item.ident),
            Item::Struct(item) => Some(&item.ident),
            Item::Trait(item) => Some(&item.ident),
            Item::Type(item) => Some(&item.ident),
            Item::Mod(item) if item.content.is_some() => Some(&item.ident),
            Item::Macro(item) => item.ident.as_ref(),
            Item::Use(item) => {
                for (name, path) in brought(item) {
                    let Some(path) = absolute(&path, module) else {
                        continue;
                    };
                    match name.as_str() {
                        "*" => names.globs.push(path),
                        _ => _ = names.brought.insert(name, path),
                    }
                }
                None
            }
            _ => None,
        };
        names.own.extend(own.map(Ident::to_string));
    }
}

/// Every path in these items that may be the library's, from its root.
fn paths(items: &[Item], module: &Module) -> Vec<Vec<String>> {
    let mut found = vec![];
    for item in items {
        match item {
            // Handed on, not used.
            Item::Use(item) if !matches!(item.vis, Visibility::Inherited) => {}
            Item::Use(item) => {
                found.extend(
                    brought(item)
                        .iter()
                        .filter_map(|(_, p)| absolute(p, module)),
                );
            }
            Item::Mod(item) => {
                let mut inner = module.clone();
                inner.push(item.ident.to_string());
                if let Some((_, items)) = &item.content {
                    found.extend(paths(items, &inner));
                }
            }
            item => in_tokens(item.to_token_stream(), module, &mut found),
        }
    }
    found
}

/// The paths in tokens, those inside macros too.
fn in_tokens(tokens: TokenStream, module: &Module, found: &mut Vec<Vec<String>>) {
    let mut path: Vec<String> = vec![];
    let mut colons = 0;
    let mut end = |path: &mut Vec<String>| {
        if path.len() > 1
            && let Some(path) = absolute(path, module)
        {
            found.push(path);
        }
        path.clear();
    };
    let mut groups = vec![];
    for token in tokens {
        match token {
            TokenTree::Ident(name) => {
                if colons != 2 {
                    end(&mut path);
                }
                path.push(name.to_string());
                colons = 0;
            }
            TokenTree::Punct(mark) if mark.as_char() == ':' => colons += 1,
            TokenTree::Punct(_) | TokenTree::Literal(_) => {
                end(&mut path);
                colons = 0;
            }
            TokenTree::Group(group) => {
                end(&mut path);
                colons = 0;
                groups.push(group);
            }
        }
    }
    end(&mut path);
    for group in groups {
        in_tokens(group.stream(), module, found);
    }
}

/// What a `use` brings: names, and the paths as they are written.
fn brought(item: &ItemUse) -> Vec<(String, Vec<String>)> {
    fn of(tree: &UseTree, mut path: Vec<String>, all: &mut Vec<(String, Vec<String>)>) {
        match tree {
            UseTree::Path(tree) => {
                path.push(tree.ident.to_string());
                of(&tree.tree, path, all);
            }
            UseTree::Group(group) => {
                let trees = group.items.iter();
                trees.for_each(|tree| of(tree, path.clone(), all));
            }
            UseTree::Glob(_) => all.push(("*".to_owned(), path)),
            UseTree::Name(name) => of_name(&name.ident, &name.ident, path, all),
            UseTree::Rename(name) => of_name(&name.ident, &name.rename, path, all),
        }
    }
    fn of_name(
        name: &Ident,
        known_as: &Ident,
        mut path: Vec<String>,
        all: &mut Vec<(String, Vec<String>)>,
    ) {
        let known_as = match known_as == "self" {
            true => path.last().cloned().unwrap_or_default(),
            false => known_as.to_string(),
        };
        if name != "self" {
            path.push(name.to_string());
        }
        all.push((known_as, path));
    }
    let mut all = vec![];
    of(&item.tree, vec![], &mut all);
    all
}

/// A path from the library's root, if it can be one: what begins with neither `crate`, `super` nor `self` may name
/// something in the module itself.
fn absolute(path: &[String], module: &Module) -> Option<Vec<String>> {
    let mut base = module.clone();
    let mut rest = path;
    match path.first()?.as_str() {
        "crate" => {
            base.clear();
            rest = &path[1..];
        }
        "self" => rest = &path[1..],
        "super" => {
            while let ["super", ..] = rest.iter().map(String::as_str).collect::<Vec<_>>()[..] {
                base.pop();
                rest = &rest[1..];
            }
        }
        "std" | "core" | "Self" => return None,
        _ => {}
    }
    Some(base.into_iter().chain(rest.iter().cloned()).collect())
}
