//! The only reader of a plant's files: from a folder to typed text, with every fault found on the way.
//!
//! Must never read outside the folder: links are refused, paths come from the folder's own listing.
#![allow(clippy::disallowed_methods, reason = "this is the edge at which a plant is read")]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::Read as _;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use include_dir::{Dir, include_dir};
use serde::de::DeserializeOwned;

use super::read::yaml_file;
use super::shape::{
    HazardEntry, HazardsFile, JobFile, MachineFile, PeopleFile, PlantFile, RecipeFile, StockFile,
};
use crate::canonical::sha256_hex;
use crate::failure::Failure;
use crate::finding::show::Texts;
use crate::finding::{Findings, Place};
use crate::packet::model::Signal;
use crate::procedure::{Procedure, text};

/// Standard procedures and hazards that ship with the program.
static SHIPPED: Dir = include_dir!("$CARGO_MANIFEST_DIR/instructions");

/// The largest file that is read, in bytes.
const LARGEST: u64 = 1 << 20;

/// A file that was read and understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Loaded<T> {
    /// The top of the file.
    pub place: Place,
    /// SHA-256 of its bytes.
    pub sha256: String,
    /// What it says.
    pub body: T,
}

/// A plant as its files say it.
#[derive(Debug, Clone)]
pub struct Plant {
    /// `plant.yaml`.
    pub facts: Loaded<PlantFile>,
    /// `people.yaml`.
    pub people: Loaded<PeopleFile>,
    /// `stock.yaml`, when there is one.
    pub stock: Option<Loaded<StockFile>>,
    /// Machines by identifier.
    pub machines: BTreeMap<String, Loaded<MachineFile>>,
    /// Recipes by identifier.
    pub recipes: BTreeMap<String, Loaded<RecipeFile>>,
    /// Jobs by identifier.
    pub jobs: BTreeMap<String, Loaded<JobFile>>,
    /// Hazard messages by identifier, the plant's own before the shipped ones.
    pub hazards: BTreeMap<String, Loaded<HazardEntry>>,
    /// Procedures by identifier, the plant's own before the shipped ones.
    pub procedures: BTreeMap<String, Procedure>,
    /// The list of allowed signers: its path and text.
    pub allowed_signers: Option<(Arc<str>, Arc<str>)>,
    /// SHA-256 of every file that was read, by path.
    pub digests: BTreeMap<Arc<str>, String>,
    /// Files that are there but could not be understood, by path without ending.
    pub broken: BTreeSet<String>,
}

/// What reading a folder gave.
#[derive(Debug)]
pub struct Reading {
    /// The plant; none when `plant.yaml` or `people.yaml` could not be understood.
    pub plant: Option<Plant>,
    /// Texts of all files, for showing findings.
    pub texts: Texts,
    /// What is wrong so far.
    pub findings: Findings,
}

/// Reads a plant.
///
/// # Errors
/// When the folder is no plant, or a file cannot be read by the system.
pub fn load(folder: &Path) -> Result<Reading, Failure> {
    if !folder.join("plant.yaml").is_file() {
        return Err(Failure::new(format!(
            "{} is not a plant: it has no file plant.yaml. `witnessmark start DIR` makes a small one",
            folder.display()
        )));
    }
    let mut loader = Loader {
        folder,
        texts: Texts::new(),
        digests: BTreeMap::new(),
        findings: Findings::default(),
    };
    let plant = loader.plant()?;
    Ok(Reading { plant, texts: loader.texts, findings: loader.findings })
}

/// A file as read: its text, and the digest of its bytes.
#[derive(Clone)]
struct Source {
    file: Arc<str>,
    text: Arc<str>,
    sha256: String,
}

struct Loader<'a> {
    folder: &'a Path,
    texts: Texts,
    digests: BTreeMap<Arc<str>, String>,
    findings: Findings,
}

impl Loader<'_> {
    fn plant(&mut self) -> Result<Option<Plant>, Failure> {
        let facts = self.required("plant.yaml")?;
        let people = self.required("people.yaml")?;
        let mut broken = BTreeSet::new();
        let stock = self.text("stock.yaml")?;
        let stock = stock.and_then(|read| {
            let loaded = self.yaml(&read);
            if loaded.is_none() {
                broken.insert("stock".to_owned());
            }
            loaded
        });
        let machines = self.shelf("machines", &mut broken, |body: &MachineFile| &body.id)?;
        let recipes = self.shelf("recipes", &mut broken, |body: &RecipeFile| &body.id)?;
        let jobs = self.shelf("jobs", &mut broken, |body: &JobFile| &body.id)?;
        let hazards = self.hazards()?;
        let procedures = self.procedures(&mut broken)?;
        let allowed_signers = self.text("allowed_signers")?.map(|read| (read.file, read.text));
        Ok(facts.zip(people).map(|(facts, people)| Plant {
            facts,
            people,
            stock,
            machines,
            recipes,
            jobs,
            hazards,
            procedures,
            allowed_signers,
            digests: std::mem::take(&mut self.digests),
            broken,
        }))
    }

    fn required<T: DeserializeOwned>(&mut self, name: &str) -> Result<Option<Loaded<T>>, Failure> {
        match self.text(name)? {
            Some(read) => Ok(self.yaml(&read)),
            None => {
                self.findings.no_such_file(&Place::file(&name.into()), name);
                Ok(None)
            }
        }
    }

    fn yaml<T: DeserializeOwned>(&mut self, read: &Source) -> Option<Loaded<T>> {
        let body = yaml_file(&mut self.findings, &read.file, &read.text)?;
        Some(Loaded { place: Place::top(&read.file), sha256: read.sha256.clone(), body })
    }

    /// All YAML files of one folder, by identifier.
    fn shelf<T: DeserializeOwned>(
        &mut self,
        folder: &str,
        broken: &mut BTreeSet<String>,
        id: impl Fn(&T) -> &String,
    ) -> Result<BTreeMap<String, Loaded<T>>, Failure> {
        let mut shelf = BTreeMap::new();
        for name in self.listing(folder, ".yaml")? {
            let stem = name.trim_end_matches(".yaml").to_owned();
            let read = self.text(&format!("{folder}/{name}"))?;
            let Some(loaded) = read.and_then(|read| self.yaml::<T>(&read)) else {
                broken.insert(format!("{folder}/{stem}"));
                continue;
            };
            if *id(&loaded.body) != stem {
                let at = loaded.place.at("id");
                self.findings.id_is_not_file_name(&at, id(&loaded.body), &stem);
            }
            if !is_id(&stem) {
                self.findings.bad_id(&loaded.place.at("id"), &stem);
                continue;
            }
            shelf.insert(stem, loaded);
        }
        Ok(shelf)
    }

    fn hazards(&mut self) -> Result<BTreeMap<String, Loaded<HazardEntry>>, Failure> {
        let mut all = BTreeMap::new();
        let own = self.text("hazards.yaml")?;
        for read in [self.shipped("hazards.yaml"), own].into_iter().flatten() {
            let Some(loaded) = self.yaml::<HazardsFile>(&read) else { continue };
            let top = loaded.place.at("hazards");
            for (id, entry) in loaded.body.hazards.iter() {
                let (place, sha256) = (top.at(id), loaded.sha256.clone());
                let own = Loaded { place, sha256, body: entry.clone() };
                let at = own.place.at("harm");
                let shipped: Option<Loaded<HazardEntry>> = all.insert(id.to_owned(), own);
                let signal = |entry: &HazardEntry| Signal::of(entry.harm, entry.follows);
                // The gravest signal word comes first.
                if let Some(before) = shipped.filter(|one| signal(&one.body) < signal(entry)) {
                    self.findings.hazard_softened(&at, id, signal(&before.body), signal(entry));
                }
            }
        }
        Ok(all)
    }

    fn procedures(
        &mut self,
        broken: &mut BTreeSet<String>,
    ) -> Result<BTreeMap<String, Procedure>, Failure> {
        let mut all = BTreeMap::new();
        let mut names: Vec<String> = SHIPPED
            .files()
            .filter_map(|file| file.path().file_name()?.to_str().map(str::to_owned))
            .filter(|name| name.ends_with(".md"))
            .collect();
        let own = self.listing("instructions", ".md")?;
        names.retain(|name| !own.contains(name));
        let mut files: Vec<Source> = names.iter().filter_map(|name| self.shipped(name)).collect();
        for name in &own {
            match self.text(&format!("instructions/{name}"))? {
                Some(read) => files.push(read),
                None => {
                    broken.insert(format!("instructions/{}", name.trim_end_matches(".md")));
                }
            }
        }
        for Source { file, text, sha256 } in files {
            let stem = file.rsplit('/').next().unwrap_or(&file).trim_end_matches(".md").to_owned();
            let Some(procedure) = text::parse(&mut self.findings, &file, &text, sha256) else {
                broken.insert(format!("instructions/{stem}"));
                continue;
            };
            if procedure.front.id != stem {
                let at = Place::block(&file, procedure.front_range.clone()).at("id");
                self.findings.id_is_not_file_name(&at, &procedure.front.id, &stem);
            }
            if !is_id(&stem) {
                let at = Place::block(&file, procedure.front_range.clone()).at("id");
                self.findings.bad_id(&at, &stem);
                continue;
            }
            all.insert(stem, procedure);
        }
        Ok(all)
    }

    /// A file that ships with the program.
    fn shipped(&mut self, name: &str) -> Option<Source> {
        let text: Arc<str> = SHIPPED.get_file(name)?.contents_utf8()?.into();
        let file: Arc<str> = format!("shipped/{name}").into();
        self.texts.insert(file.clone(), text.clone());
        let sha256 = sha256_hex(text.as_bytes());
        self.digests.insert(file.clone(), sha256.clone());
        Some(Source { file, text, sha256 })
    }

    /// Names in a folder of the plant that end in `ending`, sorted; none when there is no folder.
    fn listing(&mut self, folder: &str, ending: &str) -> Result<Vec<String>, Failure> {
        let path = self.folder.join(folder);
        if !path.exists() {
            return Ok(Vec::new());
        }
        if fs::symlink_metadata(&path).is_ok_and(|meta| meta.is_symlink()) {
            self.findings.link_refused(&Place::file(&folder.into()));
            return Ok(Vec::new());
        }
        let entries = fs::read_dir(&path).map_err(|e| Failure::at(&path, "list", &e))?;
        let mut names = Vec::new();
        for entry in entries {
            let entry = entry.map_err(|e| Failure::at(&path, "list", &e))?;
            match entry.file_name().into_string() {
                Ok(name) if name.starts_with('.') => {}
                Ok(name) if name.ends_with(ending) => names.push(name),
                Ok(name) => {
                    let file: Arc<str> = format!("{folder}/{name}").into();
                    self.findings.stray_file(&Place::file(&file), ending);
                }
                Err(name) => {
                    let file: Arc<str> = format!("{folder}/{}", name.to_string_lossy()).into();
                    self.findings.stray_file(&Place::file(&file), ending);
                }
            }
        }
        names.sort();
        Ok(names)
    }

    /// The text of a file of the plant; none when it is not there or was refused.
    fn text(&mut self, name: &str) -> Result<Option<Source>, Failure> {
        let path: PathBuf = self.folder.join(name);
        let file: Arc<str> = name.into();
        let Ok(meta) = fs::symlink_metadata(&path) else { return Ok(None) };
        if !meta.is_file() {
            self.findings.link_refused(&Place::file(&file));
            return Ok(None);
        }
        if meta.len() > LARGEST {
            self.findings.file_too_large(&Place::file(&file), LARGEST);
            return Ok(None);
        }
        let mut bytes = Vec::new();
        fs::File::open(&path)
            .and_then(|opened| opened.take(LARGEST).read_to_end(&mut bytes))
            .map_err(|e| Failure::at(&path, "read", &e))?;
        let sha256 = sha256_hex(&bytes);
        match String::from_utf8(bytes) {
            Ok(text) => {
                // Line ends of another system are no fault, but every place is counted in one way.
                let text: Arc<str> =
                    text.replace("\r\n", "\n").trim_start_matches('\u{feff}').into();
                self.texts.insert(file.clone(), text.clone());
                self.digests.insert(file.clone(), sha256.clone());
                Ok(Some(Source { file, text, sha256 }))
            }
            Err(error) => {
                let at = error.utf8_error().valid_up_to();
                self.findings.not_utf8(&Place::file(&file), at);
                Ok(None)
            }
        }
    }
}

/// Letters, digits and hyphens; it becomes a file name and a part of links.
pub fn is_id(text: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || c == '-';
    (1..=64).contains(&text.len()) && text.chars().all(plain) && !text.starts_with('-')
}
