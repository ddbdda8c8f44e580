//! The published site as a tree of files, put in place in one swap.
//!
//! An old site stays whole until the new one is whole: everything is written beside it and synced,
//! then the two folders change places. Must never replace a folder that it did not make.
#![allow(clippy::disallowed_methods, reason = "this is the edge at which a site is written")]

pub mod auditor;
pub mod history;
pub(crate) mod lines;
pub mod logs;
mod plans;
mod register;
pub mod shift;
pub mod site;
mod uses;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use rustix::fs::{CWD, RenameFlags, renameat_with};

use crate::failure::Failure;
use crate::language::Words;

/// The file by which a folder is known to be a site of ours.
const MARK: &str = "site.json";

/// The file by which a folder is known to be a handbook of ours.
pub const HANDBOOK_MARK: &str = "handbook.json";

/// Files of a site by relative path with `/`.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub struct Tree {
    /// Contents by path.
    pub files: BTreeMap<String, Vec<u8>>,
}

impl Tree {
    /// Adds a file.
    pub fn put(&mut self, path: impl Into<String>, contents: impl Into<Vec<u8>>) {
        self.files.insert(path.into(), contents.into());
    }
}

/// Writes a site: aside first, then in one swap.
///
/// # Errors
/// When the folder holds something that is not a site of ours, lies inside the plant, or the system
/// refuses a write. The old site is then as it was.
pub fn write(out: &Path, plant: &Path, tree: &Tree) -> Result<(), Failure> {
    refuse_plant(out, plant)?;
    put(out, tree, MARK)
}

/// Writes a handbook that stands alone, in the same way.
///
/// # Errors
/// When the folder holds something that is not a handbook of ours, or the system refuses a write.
pub fn write_handbook(out: &Path, tree: &Tree) -> Result<(), Failure> {
    put(out, tree, HANDBOOK_MARK)
}

fn put(out: &Path, tree: &Tree, mark: &str) -> Result<(), Failure> {
    let out = &std::path::absolute(out).map_err(|e| Failure::at("failure-find", out, &e))?;
    refuse_foreign(out, mark)?;
    let parent = out.parent().unwrap_or(Path::new("/"));
    fs::create_dir_all(parent).map_err(|e| Failure::at("failure-make-the-folder", parent, &e))?;
    let aside = tempfile::Builder::new()
        .prefix(".witnessmark-")
        .tempdir_in(parent)
        .map_err(|e| Failure::at("failure-make-a-folder-in", parent, &e))?;
    let fresh = aside.path().join("site");
    fill(&fresh, tree)?;
    swap(&fresh, out)
}

/// Refuses to write into a plant.
///
/// # Errors
/// When `out` lies inside the plant's folder, or the plant inside `out`.
pub fn refuse_plant(out: &Path, plant: &Path) -> Result<(), Failure> {
    let plant = fs::canonicalize(plant).map_err(|e| Failure::at("failure-find", plant, &e))?;
    let out = &std::path::absolute(out).map_err(|e| Failure::at("failure-find", out, &e))?;
    let nearest = out.ancestors().find_map(|folder| fs::canonicalize(folder).ok());
    let inside = nearest.is_some_and(|nearest| nearest.starts_with(&plant));
    if inside || plant.starts_with(out) {
        let parts = [("path", out.display().to_string().into())];
        return Err(Failure::new(Words::new("failure-part-of-plant", &parts)));
    }
    Ok(())
}

fn refuse_foreign(out: &Path, mark: &str) -> Result<(), Failure> {
    if fs::symlink_metadata(out).is_err() {
        return Ok(());
    }
    let mut listing = fs::read_dir(out).map_err(|e| Failure::at("failure-list", out, &e))?;
    if listing.next().is_none() || out.join(mark).is_file() {
        return Ok(());
    }
    let parts = [("path", out.display().to_string().into()), ("mark", mark.into())];
    Err(Failure::new(Words::new("failure-foreign-folder", &parts)))
}

fn fill(folder: &Path, tree: &Tree) -> Result<(), Failure> {
    let mut made = std::collections::BTreeSet::new();
    for (path, contents) in &tree.files {
        let file = folder.join(path);
        if let Some(parent) = file.parent()
            && made.insert(parent.to_owned())
        {
            fs::create_dir_all(parent)
                .map_err(|e| Failure::at("failure-make-the-folder", parent, &e))?;
        }
        fs::write(&file, contents).map_err(|e| Failure::at("failure-write", &file, &e))?;
    }
    Ok(())
}

/// Puts `fresh` in the place of `out`, which ends up in the place of `fresh`.
fn swap(fresh: &Path, out: &Path) -> Result<(), Failure> {
    if fs::symlink_metadata(out).is_err() {
        return fs::rename(fresh, out).map_err(|e| Failure::at("failure-put-the-site-at", out, &e));
    }
    let exchanged = renameat_with(CWD, fresh, CWD, out, RenameFlags::EXCHANGE);
    match exchanged {
        Ok(()) => Ok(()),
        // Not every file system can exchange; then there is a moment with the old site set aside.
        Err(_) => {
            let old = fresh.with_file_name("old");
            fs::rename(out, &old).map_err(|e| Failure::at("failure-set-aside", out, &e))?;
            fs::rename(fresh, out).map_err(|error| {
                let _ = fs::rename(&old, out);
                Failure::at("failure-put-the-site-at", out, &error)
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::{Tree, write};

    fn tree(text: &str) -> Tree {
        let mut tree = Tree::default();
        tree.put("site.json", "{}");
        tree.put("a/index.html", text);
        tree
    }

    #[test]
    fn a_site_is_replaced_whole() {
        let scratch = tempfile::tempdir().unwrap();
        let (out, plant) = (scratch.path().join("out"), scratch.path().join("plant"));
        fs::create_dir(&plant).unwrap();
        let mut first = tree("one");
        first.put("gone.html", "old");
        write(&out, &plant, &first).unwrap();
        write(&out, &plant, &tree("two")).unwrap();
        assert_eq!(fs::read_to_string(out.join("a/index.html")).unwrap(), "two");
        assert!(!out.join("gone.html").exists());
        assert_eq!(fs::read_dir(scratch.path()).unwrap().count(), 2);
    }

    #[test]
    fn a_foreign_folder_is_left_alone() {
        let scratch = tempfile::tempdir().unwrap();
        let (out, plant) = (scratch.path().join("out"), scratch.path().join("plant"));
        fs::create_dir(&plant).unwrap();
        fs::create_dir(&out).unwrap();
        fs::write(out.join("thesis.txt"), "dear").unwrap();
        assert!(write(&out, &plant, &tree("x")).is_err());
        assert_eq!(fs::read_to_string(out.join("thesis.txt")).unwrap(), "dear");
    }

    #[test]
    fn the_plant_is_never_written_into() {
        let scratch = tempfile::tempdir().unwrap();
        let plant = scratch.path().join("plant");
        fs::create_dir(&plant).unwrap();
        assert!(write(&plant.join("public"), &plant, &tree("x")).is_err());
        assert!(write(scratch.path(), &plant, &tree("x")).is_err());
        assert!(write(&plant, &plant, &tree("x")).is_err());
    }
}
