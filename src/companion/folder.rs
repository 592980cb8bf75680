//! The files of the page in memory: stamped with a hash of their contents, listed for the service
//! worker, and written in one go.

use base64::{Engine, prelude::BASE64_STANDARD};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use std::{
    collections::BTreeMap,
    fs, io,
    path::{Path, PathBuf},
    process,
};

/// Files by their path in the folder, written with `/`.
#[derive(Debug, Default)]
pub struct Folder(BTreeMap<String, Vec<u8>>);

/// It marks a folder that this program packed and may replace.
const WORKER: &str = "sw.js";

impl Folder {
    /// Puts in a file.
    pub fn insert(&mut self, name: &str, contents: impl Into<Vec<u8>>) {
        self.0.insert(name.into(), contents.into());
    }

    /// Puts in all files below `root`.
    pub fn insert_all(&mut self, root: &Path) -> Result<(), String> {
        self.insert_below(root, "").map_err(|error| format!("cannot read {}: {error}", root.display()))
    }

    fn insert_below(&mut self, folder: &Path, prefix: &str) -> io::Result<()> {
        for entry in fs::read_dir(folder)? {
            let entry = entry?;
            let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
            if entry.file_type()?.is_dir() {
                self.insert_below(&entry.path(), &format!("{name}/"))?;
            } else {
                self.insert(&name, fs::read(entry.path())?);
            }
        }
        Ok(())
    }

    /// The names of the files whose path begins so.
    pub fn below(&self, path: &str) -> Vec<String> {
        self.0.keys().filter(|name| name.starts_with(path)).cloned().collect()
    }

    /// Renames `name.ext` to `name-HASH.ext`, and `"./name.ext"` in every other file with it, so
    /// that files of two versions can never be mixed. What it refers to itself must be stamped before.
    pub fn stamp(&mut self, name: &str) -> Result<(), String> {
        let contents = self.0.remove(name).ok_or_else(|| format!("{name} is missing"))?;
        let hash: String = Sha256::digest(&contents).iter().take(4).map(|byte| format!("{byte:02x}")).collect();
        let (stem, extension) = name.rsplit_once('.').ok_or_else(|| format!("{name} has no extension"))?;
        let stamped = format!("{stem}-{hash}.{extension}");
        let (old, new) = (format!("\"./{name}\""), format!("\"./{stamped}\""));
        let mut referred = false;
        for other in self.0.values_mut() {
            let text = str::from_utf8(other).ok().filter(|text| text.contains(&old));
            if let Some(text) = text {
                *other = text.replace(&old, &new).into_bytes();
                referred = true;
            }
        }
        self.0.insert(stamped, contents);
        if referred { Ok(()) } else { Err(format!("no file refers to {old}")) }
    }

    /// Writes the list of all other files except those that stand `beside` the page, each with its address and the hash
    /// the browser must find there (in the form of Subresource Integrity, W3C), in place of `placeholder` in the
    /// worker.
    pub fn list_in_worker(&mut self, placeholder: &str, beside: &[&str]) -> Result<(), String> {
        let worker = self.0.remove(WORKER).ok_or_else(|| format!("{WORKER} is missing"))?;
        let text = String::from_utf8(worker).map_err(|_| format!("{WORKER} is not UTF-8"))?;
        if text.matches(placeholder).count() != 1 {
            return Err(format!("{WORKER} must hold “{placeholder}” once, where the list goes"));
        }
        let list = serde_json::to_string_pretty(&self.precached(beside)).map_err(|error| error.to_string())?;
        self.insert(WORKER, text.replace(placeholder, &list));
        Ok(())
    }

    fn precached(&self, beside: &[&str]) -> Vec<Value> {
        let entry = |(name, contents): (&String, &Vec<u8>)| {
            // The start page by its folder: some servers redirect from the file's own name.
            let url = if name == "index.html" { "./" } else { name };
            let revision = format!("sha256-{}", BASE64_STANDARD.encode(Sha256::digest(contents)));
            json!({ "url": url, "revision": revision })
        };
        self.0.iter().filter(|(name, _)| !beside.contains(&name.as_str())).map(entry).collect()
    }

    /// Number of files and of bytes.
    pub fn size(&self) -> (usize, usize) {
        (self.0.len(), self.0.values().map(Vec::len).sum())
    }

    /// Makes `dir` hold exactly these files. They are written beside it first and then change places with it, so that
    /// it is never half written; any other folder is refused.
    pub fn replace(&self, dir: &Path) -> Result<(), String> {
        let sentence = |error: io::Error| format!("cannot write {}: {error}", dir.display());
        let occupied = fs::read_dir(dir).is_ok_and(|mut entries| entries.next().is_some());
        if occupied && !dir.join(WORKER).is_file() {
            return Err(format!("{} holds something else and was left alone; name another folder", dir.display()));
        }
        let fresh = beside(dir, "new")?;
        let written = self.write(&fresh).and_then(|()| swap(&fresh, dir, &beside(dir, "old")?).map_err(sentence));
        if written.is_err() && fresh.exists() {
            fs::remove_dir_all(&fresh).map_err(sentence)?;
        }
        written
    }

    fn write(&self, dir: &Path) -> Result<(), String> {
        for (name, contents) in &self.0 {
            let path = dir.join(name);
            let folder = path.parent().unwrap_or(dir);
            fs::create_dir_all(folder)
                .and_then(|()| fs::write(&path, contents))
                .map_err(|error| format!("cannot write {}: {error}", path.display()))?;
        }
        Ok(())
    }
}

/// A hidden name in the same parent folder, this process's own.
fn beside(dir: &Path, suffix: &str) -> Result<PathBuf, String> {
    let name = dir.file_name().ok_or_else(|| format!("{} cannot be replaced; name a folder", dir.display()))?;
    Ok(dir.with_file_name(format!(".{}-{}-{suffix}", name.display(), process::id())))
}

fn swap(fresh: &Path, dir: &Path, old: &Path) -> io::Result<()> {
    if dir.exists() {
        fs::rename(dir, old)?;
    }
    if let Err(error) = fs::rename(fresh, dir) {
        if old.exists() {
            fs::rename(old, dir)?;
        }
        return Err(error);
    }
    if old.exists() { fs::remove_dir_all(old) } else { Ok(()) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page() -> Folder {
        let mut folder = Folder::default();
        folder.insert("index.html", r#"<script src="./boot.js"></script>"#);
        folder.insert("boot.js", "go()");
        folder.insert(WORKER, "const PACKED = [];");
        folder
    }

    #[test]
    fn a_stamped_file_is_named_after_its_contents_wherever_it_is_named() {
        let mut folder = page();
        folder.stamp("boot.js").expect("stamped");
        // printf 'go()' | sha256sum
        assert_eq!(folder.0["index.html"], br#"<script src="./boot-e4a62ff8.js"></script>"#);
        assert!(folder.0.contains_key("boot-e4a62ff8.js") && !folder.0.contains_key("boot.js"));
    }

    #[test]
    fn a_file_nobody_refers_to_is_not_stamped_in_silence() {
        let mut folder = page();
        folder.insert("forgotten.js", "");
        assert!(folder.stamp("forgotten.js").is_err());
    }

    #[test]
    fn the_worker_lists_every_file_of_the_page_but_itself_with_its_hash() {
        let mut folder = page();
        folder.insert("for-others.json", "{}");
        folder.list_in_worker("[]", &["for-others.json"]).expect("listed");
        let worker = String::from_utf8(folder.0[WORKER].clone()).expect("text");
        let list: Value = serde_json::from_str(&worker["const PACKED = ".len()..worker.len() - 1]).expect("JSON");
        // printf 'go()' | openssl dgst -sha256 -binary | base64
        let boot = json!({ "url": "boot.js", "revision": "sha256-5KYv+PUboo5h+0+YAtGRPbwv5d/QxzHslP4YGnUaxRw=" });
        assert_eq!(list[0], boot);
        assert_eq!(list[1]["url"], "./");
        assert_eq!(list.as_array().map(Vec::len), Some(2));
    }

    #[test]
    fn a_packed_folder_is_replaced_whole_and_any_other_left_alone() {
        let parent = tempfile::tempdir().expect("a folder");
        let (dist, other) = (parent.path().join("dist"), parent.path().join("other"));
        page().replace(&dist).expect("written");
        fs::write(dist.join("stale.js"), "").expect("written");
        page().replace(&dist).expect("replaced");
        assert!(dist.join("boot.js").is_file() && !dist.join("stale.js").exists());
        fs::create_dir(&other).expect("made");
        fs::write(other.join("letter.txt"), "Dear").expect("written");
        assert!(page().replace(&other).is_err());
        let left: Vec<_> = fs::read_dir(parent.path()).expect("read").collect();
        assert_eq!(left.len(), 2, "nothing is left beside the folders: {left:?}");
    }
}
