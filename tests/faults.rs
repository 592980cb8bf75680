//! What the README says of faults is tested: each row of its table names a test, and the test is there.

use std::{collections::BTreeSet, fs, path::Path};

/// The names and the files of the tests that the rows name.
fn named(readme: &str) -> Vec<(String, String)> {
    let (_, section) = readme.split_once("## What can go wrong\n").expect("the section");
    let rows = section.lines().take_while(|line| !line.starts_with("## ")).filter(|line| line.starts_with("| "));
    let test = |row: &str| {
        let (_, link) = row.rsplit_once("| [`")?;
        let (name, file) = link.strip_suffix(") |")?.split_once("`](")?;
        Some((name.to_owned(), file.to_owned()))
    };
    // The heading and the line under it name none.
    rows.skip(2).map(|row| test(row).unwrap_or_else(|| panic!("no test in: {row}"))).collect()
}

/// Whether the text holds a test of this name that is run.
fn is_run(text: &str, name: &str) -> bool {
    let before = [format!("async fn {name}("), format!("fn {name}(")];
    let at = before.iter().find_map(|begin| text.find(begin.as_str()));
    let attributes = at.map(|at| text[..at].rsplit("\n\n").next().unwrap_or_default());
    attributes.is_some_and(|head| {
        let lines: Vec<&str> = head.lines().map(str::trim).collect();
        lines.iter().any(|line| line.starts_with("#[test]") || line.starts_with("#[tokio::test"))
            && !lines.iter().any(|line| line.starts_with("#[ignore"))
    })
}

#[test]
fn each_row_of_the_table_of_faults_names_a_test_that_is_run() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let named = named(&fs::read_to_string(root.join("README.md")).expect("the README"));
    assert!(named.len() > 20, "{named:?}");
    for (name, file) in &named {
        let text = fs::read_to_string(root.join(file)).unwrap_or_else(|why| panic!("{file}: {why}"));
        assert!(is_run(&text, name), "{file} runs no test {name}");
    }
    let names: BTreeSet<&String> = named.iter().map(|(name, _)| name).collect();
    assert_eq!(names.len(), named.len(), "a test stands for one row");
    assert!(!is_run("#[test]\n#[ignore]\nfn a() {}", "a") && !is_run("fn a() {}", "a"), "it can fail");
}
