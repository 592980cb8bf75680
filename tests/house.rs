//! How the sources use one another, as their `use` lines tell: in one direction only, by one style of path.

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

/// The paths that the `use` lines of a module name, from the crate on; `true` where it passes them on.
fn used(module: &str, text: &str) -> Vec<(bool, String)> {
    let mut used = Vec::new();
    for statement in text.split(';') {
        let begins = |line: &str| line.starts_with("use ") || line.starts_with("pub use ");
        let Some(line) = statement.lines().position(begins) else { continue };
        let statement = statement.lines().skip(line).collect::<Vec<_>>().join(" ");
        let (passed_on, tree) = (statement.starts_with("pub "), statement.trim_start_matches("pub "));
        let mut paths = Vec::new();
        named(tree.trim_start_matches("use "), "", &mut paths);
        let absolute = |path: String| match path.split_once("::") {
            Some(("crate", _)) => path,
            Some(("self", rest)) => format!("{module}::{rest}"),
            _ => format!("{module}::{path}"),
        };
        used.extend(paths.into_iter().map(|path| (passed_on, absolute(path))));
    }
    used
}

/// The modules among `all` that each uses, itself excepted. A name that a module passes on counts as its origin's.
fn uses(all: &BTreeMap<String, String>) -> BTreeMap<String, BTreeSet<String>> {
    let used: Vec<_> = all.iter().map(|(module, text)| (module, used(module, text))).collect();
    let mut origins = BTreeMap::new();
    for (module, paths) in &used {
        for (_, path) in paths.iter().filter(|(passed_on, _)| *passed_on) {
            let name = path.rsplit("::").next().unwrap_or(path);
            origins.insert(format!("{module}::{name}"), path.clone());
        }
    }
    let heads = |path: &str| {
        let ends = path.match_indices("::").map(|(at, _)| at).chain([path.len()]);
        ends.map(|end| path[..end].to_owned()).collect::<Vec<_>>()
    };
    // The longest head of a path that is a module, once nothing in it is only passed on.
    let owner = |path: &String| {
        let mut path = path.clone();
        while let Some(head) =
            heads(&path).into_iter().find(|head| origins.contains_key(head) && !all.contains_key(head))
        {
            path = format!("{}{}", origins[&head], &path[head.len()..]);
        }
        heads(&path).into_iter().rfind(|head| all.contains_key(head))
    };
    let of = |(module, paths): &(&String, Vec<(bool, String)>)| {
        let owners = paths.iter().filter_map(|(_, path)| owner(path)).filter(|owner| owner != *module);
        ((*module).clone(), owners.collect())
    };
    used.iter().map(of).collect()
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
    uses(&all)
}

#[test]
fn no_files_of_a_folder_use_each_other_in_a_circle() {
    for (folder, fewest) in [("notation", 30), ("method", 20), ("music", 40), ("calendar", 10)] {
        let graph = graph(folder);
        let edges: usize = graph.values().map(BTreeSet::len).sum();
        assert!(graph.len() > fewest && edges > 2 * fewest, "{folder}: {} modules, {edges} uses", graph.len());
        assert_eq!(circle(&graph), None, "{folder}");
    }
}

/// What the calendar needs of the journal and the coach comes in as plain values.
#[test]
fn the_calendar_knows_music_and_clocks_and_nothing_else_of_the_house() {
    let floors = ["calendar", "clock", "music", "sort"];
    let mut all = BTreeMap::new();
    modules(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/calendar"), "crate::calendar", &mut all);
    let paths: Vec<String> = all.iter().flat_map(|(module, text)| used(module, text)).map(|(_, path)| path).collect();
    let others: Vec<_> =
        paths.iter().filter(|path| !floors.iter().any(|floor| path.split("::").nth(1) == Some(floor))).collect();
    assert!(paths.len() > 10 && others.is_empty(), "of {}: {others:?}", paths.len());
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

/// The page touches the browser through `app/device/` only. The programs that start it are no modules of the library.
#[test]
fn only_the_device_names_the_libraries_of_the_browser() {
    let libraries = ["web_sys", "js_sys", "gloo", "wasm_bindgen", "idb::"];
    let named = |folder: &str| {
        let mut all = BTreeMap::new();
        modules(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(folder), folder, &mut all);
        all.retain(|path, text| {
            !["::bin", "::companion"].iter().any(|program| path.contains(program))
                && libraries.iter().any(|library| text.contains(library))
        });
        all.into_keys().collect::<Vec<_>>()
    };
    let outside: Vec<_> = named("").into_iter().filter(|path| !path.starts_with("::app::device")).collect();
    assert!(outside.is_empty(), "{outside:?}");
    assert!(named("app/device").len() > 10, "the files are read");
}

#[test]
fn a_circle_is_found_in_nested_trees_of_uses_and_through_what_is_passed_on() {
    let circle = |texts: &[(&str, &str)]| {
        circle(&uses(&texts.iter().map(|(path, text)| (path.to_string(), text.to_string())).collect()))
    };
    let texts = [
        ("crate::a", "use crate::{b::{self, C}, music::Pitch};\nfn a() {}\n"),
        ("crate::b", "pub mod c;\npub use c::C;\n"),
        ("crate::b::c", "use crate::other;\nuse crate::{\n    a::{\n        A,\n    },\n};\n"),
    ];
    assert_eq!(circle(&texts), Some(vec!["crate::a".into(), "crate::b".into(), "crate::b::c".into()]));
    let [a, _, c] = texts;
    assert_eq!(circle(&[("crate::a", "use crate::b::C;\n"), texts[1], c]), Some(vec!["crate::a".into(), c.0.into()]));
    assert_eq!(circle(&[a, texts[1]]), None);
}
