//! The files of `notation/` use one another in one direction only, as their `use` lines tell.

use std::{
    collections::{BTreeMap, BTreeSet},
    path::{Path, PathBuf},
};

/// Every module under a folder of the sources, by its path in the crate, with its text.
fn modules(folder: &Path, path: &str, found: &mut BTreeMap<String, String>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let entry = entry.expect("an entry").path();
        let name = entry.file_stem().and_then(|name| name.to_str()).expect("a name").to_owned();
        if entry.is_dir() {
            modules(&entry, &format!("{path}::{name}"), found);
        } else if entry.extension().is_some_and(|extension| extension == "rs") {
            let module = if name == "mod" { path.to_owned() } else { format!("{path}::{name}") };
            let text = std::fs::read_to_string(&entry).expect("a text");
            // What only the tests of a module use does not bind it.
            found.insert(module, text.split("#[cfg(test)]").next().unwrap_or_default().to_owned());
        }
    }
}

/// The paths that a `use` tree names: `a::{b, c::d}` names `a::b` and `a::c::d`.
fn named(tree: &str, before: &str, paths: &mut Vec<String>) {
    let (mut depth, mut start) = (0, 0);
    let mut members = Vec::new();
    for (at, letter) in tree.char_indices().chain([(tree.len(), ',')]) {
        match letter {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                members.push(tree[start..at].trim());
                start = at + 1;
            }
            _ => {}
        }
    }
    for member in members.into_iter().filter(|member| !member.is_empty()) {
        match member.split_once('{') {
            Some((head, inner)) => {
                let inner = inner.trim_end().strip_suffix('}').expect("a closed tree");
                named(inner, &format!("{before}{}", head.trim()), paths);
            }
            None => paths.push(format!("{before}{member}")),
        }
    }
}

/// The modules among `all` that a module's `use` lines name, itself excepted.
fn uses(module: &str, all: &BTreeMap<String, String>) -> BTreeSet<String> {
    let mut paths = Vec::new();
    let lines = all[module].split(';').filter_map(|statement| {
        let line = statement.lines().position(|line| line.starts_with("use ") || line.starts_with("pub use "))?;
        let statement = statement.lines().skip(line).collect::<Vec<_>>().join(" ");
        Some(statement.trim_start_matches("pub ").trim_start_matches("use ").to_owned())
    });
    lines.for_each(|tree| named(&tree, "", &mut paths));
    let parent = module.rsplit_once("::").map_or("crate", |(parent, _)| parent);
    let absolute = |path: &String| match path.split_once("::") {
        Some(("crate", _)) => path.clone(),
        Some(("super", rest)) => format!("{parent}::{rest}"),
        Some(("self", rest)) => format!("{module}::{rest}"),
        _ => format!("{module}::{path}"),
    };
    // The longest part of a path that is a module.
    let owner = |path: String| {
        let ends = path.match_indices("::").map(|(at, _)| at).chain([path.len()]);
        ends.map(|end| path[..end].to_owned()).filter(|part| all.contains_key(part)).last()
    };
    let found = paths.iter().map(absolute).filter_map(owner);
    found.filter(|used| used != module).collect()
}

/// The modules of a circle, if there is one: each uses the next, the last the first.
fn circle(graph: &BTreeMap<String, BTreeSet<String>>) -> Option<Vec<String>> {
    fn visit(
        module: &str,
        graph: &BTreeMap<String, BTreeSet<String>>,
        way: &mut Vec<String>,
        done: &mut BTreeSet<String>,
    ) -> Option<Vec<String>> {
        if let Some(begin) = way.iter().position(|before| before == module) {
            return Some(way[begin..].to_vec());
        }
        if !done.insert(module.to_owned()) {
            return None;
        }
        way.push(module.to_owned());
        let found = graph[module].iter().find_map(|used| visit(used, graph, way, done));
        way.pop();
        found
    }
    let mut done = BTreeSet::new();
    graph.keys().find_map(|module| visit(module, graph, &mut Vec::new(), &mut done))
}

fn graph(folder: &str) -> BTreeMap<String, BTreeSet<String>> {
    let sources = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut all = BTreeMap::new();
    modules(&sources.join(folder), &format!("crate::{folder}"), &mut all);
    all.keys().map(|module| (module.clone(), uses(module, &all))).collect()
}

#[test]
fn no_files_of_the_notation_use_each_other_in_a_circle() {
    let graph = graph("notation");
    let edges: usize = graph.values().map(BTreeSet::len).sum();
    assert!(graph.len() > 30 && edges > 100, "{} modules, {edges} uses: the lines are read", graph.len());
    assert_eq!(circle(&graph), None);
}

/// Rooms in the order in which music is set; each uses only those before it.
#[test]
fn the_rooms_of_the_engraver_stand_in_the_order_in_which_music_is_set() {
    let rooms = ["prepared", "spaced", "signs", "sheets"];
    let room = |module: &str| {
        let inside = module.strip_prefix("crate::notation::engraving::")?.split("::").next()?;
        rooms.iter().position(|room| *room == inside)
    };
    for (module, used) in graph("notation") {
        let Some(own) = room(&module) else { continue };
        let later: Vec<_> = used.iter().filter(|used| room(used).is_some_and(|of| of > own)).collect();
        assert!(later.is_empty(), "{module} uses {later:?}");
    }
}

/// One style of path: from the crate. Tests inside a module may take in all of it.
#[test]
fn every_path_begins_at_the_crate() {
    let mut all = BTreeMap::new();
    modules(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), "crate", &mut all);
    let relative: Vec<_> = all.iter().filter(|(_, text)| text.contains("super::")).map(|(path, _)| path).collect();
    assert!(all.len() > 200 && relative.is_empty(), "of {}: {relative:?}", all.len());
}

#[test]
fn a_circle_is_found_in_nested_trees_of_uses() {
    let texts = [
        ("crate::a", "use crate::{b::{self, C}, music::Pitch};\nfn a() {}\n"),
        ("crate::b", "pub mod c;\npub use c::C;\n"),
        ("crate::b::c", "use super::super::nothing;\nuse crate::{\n    a::{\n        A,\n    },\n};\n"),
    ];
    let all: BTreeMap<String, String> = texts.iter().map(|(path, text)| (path.to_string(), text.to_string())).collect();
    let graph = all.keys().map(|module| (module.clone(), uses(module, &all))).collect();
    assert_eq!(circle(&graph), Some(vec!["crate::a".into(), "crate::b".into(), "crate::b::c".into()]));
}
