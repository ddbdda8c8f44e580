//! The only reader of a plant's files: from a folder to typed text, with every fault found on the way.
//!
//! Must never read outside the folder: links are refused, paths come from the folder's own listing.
#![allow(clippy::disallowed_methods, reason = "this is the edge at which a plant is read")]

use std::any::Any;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::Read as _;
use std::mem;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::{SystemTime, UNIX_EPOCH};

use include_dir::{Dir, include_dir};
use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::read::yaml_in_one_language;
use super::shape::{
    ChangeoverEntry, HazardEntry, HazardsFile, JobFile, MachineFile, PeopleFile, PlantFile,
    RecipeFile, StockFile, UseEntry,
};
use super::spoken::{self, Tongue};
use crate::canonical::sha256_hex;
use crate::failure::Failure;
use crate::finding::place::Marks;
use crate::finding::show::Texts;
use crate::finding::{Findings, Place};
use crate::language::{Language, Words};
use crate::packet::model::Signal;
use crate::procedure::text::line;
use crate::procedure::{Procedure, Translation, text, translation};
use crate::record::store::{self, RawRecord};
use crate::register;

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
    /// The bytes of the register, which nobody has judged yet; empty when there is none.
    pub register: RawRecord,
    /// SHA-256 of every file that was read, by path.
    pub digests: BTreeMap<Arc<str>, String>,
    /// Files that are there but could not be understood, by path without ending.
    pub broken: BTreeSet<String>,
    /// The language its texts were read in.
    pub language: Language,
    /// Files with texts that lack this language: the first of them, and how many.
    pub untranslated: BTreeMap<Arc<str>, (Place, usize)>,
    /// The same plant in the other languages that its jobs ask for.
    pub editions: BTreeMap<Language, Plant>,
}

impl Plant {
    /// The procedures of a machine's changeover and those that they include, each once, in the order in
    /// which they first come.
    pub fn procedures_of(&self, machine: &MachineFile) -> Vec<&Procedure> {
        let mut all: Vec<&Procedure> = Vec::new();
        let mut next: Vec<&UseEntry> =
            machine.changeover.iter().rev().map(|entry| &entry.used).collect();
        while let Some(used) = next.pop() {
            let Some(procedure) = self.procedures.get(&used.procedure) else { continue };
            if all.iter().all(|known| known.front.id != procedure.front.id) {
                all.push(procedure);
                next.extend(procedure.includes.iter().rev().map(|include| &include.used));
            }
        }
        all
    }
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

/// What was read of a plant before: a file whose bytes are the same is not taken apart again.
///
/// A file whose size and times are the same is not even read, and one that was read is known by its
/// digest. What is kept was made from these bytes alone, so nobody can tell the two ways apart.
#[derive(Debug, Default)]
pub struct Memory {
    seen: BTreeMap<Arc<str>, Seen>,
    kept: BTreeMap<(Arc<str>, Language), Kept>,
    /// What the last reading had to do.
    pub work: Work,
}

/// What a reading had to do.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub struct Work {
    /// Files whose bytes were read.
    pub read: usize,
    /// Files that were taken apart, once for each language.
    pub parsed: usize,
}

/// A file as it was read, and how it lay there.
#[derive(Debug)]
struct Seen {
    stamp: Stamp,
    /// Whether a change after the reading would show in the times.
    is_settled: bool,
    source: Source,
}

/// How a file lies in its folder.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
struct Stamp {
    length: u64,
    modified: (i64, i64),
    changed: (i64, i64),
    number: u64,
}

impl Stamp {
    fn of(meta: &fs::Metadata) -> Stamp {
        use std::os::unix::fs::MetadataExt as _;
        Stamp {
            length: meta.len(),
            modified: (meta.mtime(), meta.mtime_nsec()),
            changed: (meta.ctime(), meta.ctime_nsec()),
            number: meta.ino(),
        }
    }
}

/// How coarse the times of a file may be, in seconds: two on the oldest file systems.
const COARSEST: i64 = 2;

/// Whether a file was left alone so long that another change would get another time.
fn is_settled(stamp: &Stamp) -> bool {
    let now = SystemTime::now().duration_since(UNIX_EPOCH).ok();
    let now = now.and_then(|since| i64::try_from(since.as_secs()).ok()).unwrap_or(0);
    let last = stamp.modified.0.max(stamp.changed.0);
    now.saturating_sub(last) > COARSEST
}

/// What was made from a file.
#[derive(Debug)]
struct Kept {
    sha256: String,
    tongue: Tongue,
    findings: Findings,
    untranslated: BTreeMap<Arc<str>, (Place, usize)>,
    made: Option<Arc<dyn Any + Send + Sync>>,
}

/// Reads a plant.
///
/// # Errors
/// When the folder is no plant, or a file cannot be read by the system.
pub fn load(folder: &Path) -> Result<Reading, Failure> {
    load_again(folder, &mut Memory::default())
}

/// Reads a plant that was read before: gives what [`load`] gives.
///
/// # Errors
/// Those of [`load`].
pub fn load_again(folder: &Path, memory: &mut Memory) -> Result<Reading, Failure> {
    if !folder.join("plant.yaml").is_file() {
        let parts = [("path", folder.display().to_string().into())];
        return Err(Failure::new(Words::new("failure-no-plant", &parts)));
    }
    let mut loader = Loader {
        folder,
        texts: Texts::new(),
        digests: BTreeMap::new(),
        findings: Findings::default(),
        read: BTreeMap::new(),
        tongue: tongue(Language::English, BTreeSet::new()),
        untranslated: BTreeMap::new(),
        kinds: BTreeMap::new(),
        before: mem::take(memory),
        memory,
    };
    let plant = loader.plant()?;
    Ok(Reading { plant, texts: loader.texts, findings: loader.findings })
}

/// A file as read: its text, and the digest of its bytes.
#[derive(Debug, Clone)]
struct Source {
    file: Arc<str>,
    text: Arc<str>,
    sha256: String,
}

/// What is the same in each language.
#[derive(Clone)]
struct Files {
    people: Option<Loaded<PeopleFile>>,
    jobs: BTreeMap<String, Loaded<JobFile>>,
    allowed_signers: Option<(Arc<str>, Arc<str>)>,
    /// Procedures as they were written.
    sources: BTreeMap<String, Procedure>,
    /// The same with the texts of other languages.
    translated: BTreeMap<(Language, String), Procedure>,
}

impl Files {
    /// Every procedure in a language, as far as it is translated.
    fn procedures(&self, language: Language) -> BTreeMap<String, Procedure> {
        let said = |(id, source): (&String, &Procedure)| {
            let is_written = source.language.texts() == language.texts();
            let find = |language| self.translated.get(&(language, id.clone()));
            let translated = find(language).or_else(|| find(language.texts()));
            let own = translated.filter(|_| !is_written).unwrap_or(source);
            (id.clone(), own.clone())
        };
        self.sources.iter().map(said).collect()
    }
}

struct Loader<'a> {
    folder: &'a Path,
    texts: Texts,
    digests: BTreeMap<Arc<str>, String>,
    findings: Findings,
    /// Files that were read, for the next language.
    read: BTreeMap<Arc<str>, Option<Source>>,
    /// The language that is read.
    tongue: Tongue,
    untranslated: BTreeMap<Arc<str>, (Place, usize)>,
    /// The kind of each machine in the plant's main language.
    kinds: BTreeMap<String, String>,
    /// What was known before this reading; what is used of it goes over into `memory`.
    before: Memory,
    memory: &'a mut Memory,
}

/// The body of a file, as it is read and kept.
trait Body: DeserializeOwned + Clone + Send + Sync + 'static {}

impl<T: DeserializeOwned + Clone + Send + Sync + 'static> Body for T {}

/// A file in a language: what it says, and the texts that have the language.
type Said<T> = (Loaded<T>, BTreeSet<Vec<String>>);

/// What the languages of a plant are, read before anything else.
#[derive(Default, Deserialize)]
struct Languages {
    #[serde(default)]
    language: Language,
    #[serde(default)]
    languages: BTreeSet<Language>,
}

/// The main language, of a plant that writes these.
fn tongue(main: Language, mut known: BTreeSet<Language>) -> Tongue {
    known.insert(main);
    Tongue { main, wanted: main, known }
}

impl Loader<'_> {
    fn plant(&mut self) -> Result<Option<Plant>, Failure> {
        self.tongue = self.languages()?;
        let main = self.tongue.main;
        let mut broken = BTreeSet::new();
        let people = self.required("people.yaml")?;
        let jobs = self.shelf("jobs", &mut broken, |body: &JobFile| &body.id)?;
        let asked = jobs.values().filter_map(|job| job.body.language);
        let mut used: BTreeSet<Language> = asked.collect();
        used.insert(main);
        let sources = self.procedures(&mut broken, main)?;
        let translated = self.translations(&sources, &used)?;
        let allowed_signers = self.text("allowed_signers")?.map(|read| (read.file, read.text));
        let files = Files { people, jobs, allowed_signers, sources, translated };
        let Some(mut plant) = self.edition(&files, broken)? else { return Ok(None) };
        // What is wrong was said once; another language has the same files.
        let findings = std::mem::take(&mut self.findings);
        for language in used.into_iter().filter(|language| *language != main) {
            self.tongue.wanted = language;
            let edition = self.edition(&files, plant.broken.clone())?;
            plant.editions.extend(edition.map(|edition| (language, edition)));
        }
        self.findings = findings;
        plant.digests = std::mem::take(&mut self.digests);
        plant.register = self.register()?;
        Ok(Some(plant))
    }

    /// The signed approvals and inspections, as they lie there.
    fn register(&mut self) -> Result<RawRecord, Failure> {
        let folder = self.folder.join(register::FOLDER);
        match fs::symlink_metadata(&folder) {
            Err(_) => Ok(RawRecord::default()),
            Ok(meta) if meta.is_dir() => Ok(store::read(&folder)?),
            Ok(_) => {
                self.findings.link_refused(&Place::file(&register::FOLDER.into()));
                Ok(RawRecord::default())
            }
        }
    }

    /// The plant in the language that is wanted.
    fn edition(
        &mut self,
        files: &Files,
        mut broken: BTreeSet<String>,
    ) -> Result<Option<Plant>, Failure> {
        self.untranslated.clear();
        let facts = self.required("plant.yaml")?;
        let stock = self.text("stock.yaml")?;
        let stock = stock.and_then(|read| {
            let loaded = self.yaml(&read);
            if loaded.is_none() {
                broken.insert("stock".to_owned());
            }
            loaded
        });
        let mut machines = self.shelf("machines", &mut broken, |body: &MachineFile| &body.id)?;
        let recipes = self.shelf("recipes", &mut broken, |body: &RecipeFile| &body.id)?;
        let hazards = self.hazards()?;
        let Files { people, jobs, allowed_signers, .. } = files.clone();
        let language = self.tongue.wanted;
        self.kinds.extend(
            machines
                .iter()
                .filter(|_| language == self.tongue.main)
                .map(|(id, machine)| (id.clone(), machine.body.kind.clone())),
        );
        let facts = facts.map(|mut facts| {
            self.orders(&mut facts, &mut machines);
            facts
        });
        Ok(facts.zip(people).map(|(facts, people)| Plant {
            facts,
            people,
            stock,
            machines,
            recipes,
            jobs,
            hazards,
            procedures: files.procedures(language),
            allowed_signers,
            register: RawRecord::default(),
            digests: BTreeMap::new(),
            broken,
            language,
            untranslated: std::mem::take(&mut self.untranslated),
            editions: BTreeMap::new(),
        }))
    }

    /// Gives each machine without an order of its own the plant's order for its kind, and each entry of an
    /// order its line.
    fn orders(
        &self,
        facts: &mut Loaded<PlantFile>,
        machines: &mut BTreeMap<String, Loaded<MachineFile>>,
    ) {
        let top = facts.place.at("changeovers");
        let kinds: Vec<String> = facts.body.changeovers.names().map(str::to_owned).collect();
        for kind in kinds {
            if let Some(entries) = facts.body.changeovers.get_mut(&kind) {
                self.lines(&top.at(&kind), entries);
            }
        }
        for (id, machine) in machines {
            let body = &mut machine.body;
            self.lines(&machine.place.at("changeover"), &mut body.changeover);
            let Some(kind) = self.kinds.get(id).filter(|_| body.changeover.is_empty()) else {
                continue;
            };
            if let Some(order) = facts.body.changeovers.get(kind) {
                body.changeover.clone_from(order);
                body.order_of_kind = Some(kind.clone());
            }
        }
    }

    fn lines(&self, at: &Place, entries: &mut [ChangeoverEntry]) {
        let Some(text) = self.texts.get(&at.file) else { return };
        let mut marks = Marks::new();
        for (index, entry) in entries.iter_mut().enumerate() {
            entry.line = line(text, at.item(index).locate_with(text, &mut marks).start);
        }
    }

    /// The languages of the plant, as far as its file can be read.
    fn languages(&mut self) -> Result<Tongue, Failure> {
        let read = self.text("plant.yaml")?;
        let read = read.and_then(|read| serde_yaml::from_str::<Languages>(&read.text).ok());
        let Languages { language, languages } = read.unwrap_or_default();
        Ok(tongue(language, languages))
    }

    fn required<T: Body>(&mut self, name: &str) -> Result<Option<Loaded<T>>, Failure> {
        match self.text(name)? {
            Some(read) => Ok(self.yaml(&read)),
            None => {
                self.findings.no_such_file(&Place::file(&name.into()), name);
                Ok(None)
            }
        }
    }

    fn yaml<T: Body>(&mut self, read: &Source) -> Option<Loaded<T>> {
        self.said(read).map(|(loaded, _)| loaded)
    }

    /// A file in the language that is wanted, and the texts that have it.
    fn said<T: Body>(&mut self, read: &Source) -> Option<Said<T>> {
        self.once(read, self.tongue.wanted, |loader| loader.resolved(read))
    }

    /// What is made from a file in a language: made now, or kept from the last time when its bytes and
    /// the plant's languages are the same.
    fn once<T: Clone + Send + Sync + 'static>(
        &mut self,
        Source { file, sha256, .. }: &Source,
        language: Language,
        make: impl FnOnce(&mut Self) -> Option<T>,
    ) -> Option<T> {
        let key = (file.clone(), language);
        let old = self.before.kept.remove(&key);
        let same = old.filter(|old| old.sha256 == *sha256 && old.tongue == self.tongue);
        let kept = same.unwrap_or_else(|| self.made(sha256, make));
        self.findings.extend(kept.findings.clone());
        self.untranslated.extend(
            kept.untranslated.iter().map(|(file, lacking)| (file.clone(), lacking.clone())),
        );
        let made = kept.made.as_ref().and_then(|made| made.downcast_ref::<T>()).cloned();
        self.memory.kept.insert(key, kept);
        made
    }

    /// Makes something from a file, with what is found on the way by itself.
    fn made<T: Send + Sync + 'static>(
        &mut self,
        sha256: &str,
        make: impl FnOnce(&mut Self) -> Option<T>,
    ) -> Kept {
        self.memory.work.parsed += 1;
        let findings = mem::take(&mut self.findings);
        let untranslated = mem::take(&mut self.untranslated);
        let made = make(self).map(|made| Arc::new(made) as Arc<dyn Any + Send + Sync>);
        Kept {
            sha256: sha256.to_owned(),
            tongue: self.tongue.clone(),
            findings: mem::replace(&mut self.findings, findings),
            untranslated: mem::replace(&mut self.untranslated, untranslated),
            made,
        }
    }

    fn resolved<T: Body>(&mut self, Source { file, text, sha256 }: &Source) -> Option<Said<T>> {
        let place = Place::top(file);
        let mut tongue = self.tongue.clone();
        // What ships is written in English, and in whatever else there is.
        if file.starts_with("shipped/") {
            tongue.main = Language::English;
            tongue.known = Language::ALL.into();
        }
        let resolved = spoken::resolve(&mut self.findings, &place, text, &tongue);
        if let Some(first) = resolved.lacking.first() {
            let at = first.iter().fold(place.clone(), |place, key| place.at(key));
            self.untranslated.insert(file.clone(), (at, resolved.lacking.len()));
        }
        let yaml = resolved.yaml.as_deref().unwrap_or(text);
        let body = yaml_in_one_language(&mut self.findings, file, text, yaml)?;
        Some((Loaded { place, sha256: sha256.clone(), body }, resolved.translated))
    }

    /// All YAML files of one folder, by identifier.
    fn shelf<T: Body>(
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
            let Some((loaded, translated)) = self.said::<HazardsFile>(&read) else { continue };
            let is_shipped = read.file.starts_with("shipped/");
            let written = if is_shipped { Language::English } else { self.tongue.main };
            let is_main = written == self.tongue.wanted;
            let top = loaded.place.at("hazards");
            for (id, entry) in loaded.body.hazards.iter() {
                let (place, sha256) = (top.at(id), loaded.sha256.clone());
                let path = ["hazards", id, "hazard"].map(str::to_owned);
                let is_said = is_main || translated.contains(path.as_slice());
                let body = HazardEntry { language: (!is_said).then_some(written), ..entry.clone() };
                let own = Loaded { place, sha256, body };
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

    /// Procedures in the language they were written in.
    fn procedures(
        &mut self,
        broken: &mut BTreeSet<String>,
        main: Language,
    ) -> Result<BTreeMap<String, Procedure>, Failure> {
        let mut all = BTreeMap::new();
        let own = self.listing("instructions", ".md")?;
        let mut files: Vec<(Source, Language)> = Vec::new();
        for name in shipped_names("").filter(|name| !own.contains(name)) {
            files.extend(self.shipped(&name).map(|read| (read, Language::English)));
        }
        for name in &own {
            match self.text(&format!("instructions/{name}"))? {
                Some(read) => files.push((read, main)),
                None => {
                    broken.insert(format!("instructions/{}", name.trim_end_matches(".md")));
                }
            }
        }
        for (source, language) in files {
            let Source { file, text, sha256 } = &source;
            let stem = stem(file).to_owned();
            let read = self.once(&source, language, |loader| {
                text::parse(&mut loader.findings, file, text, sha256.clone(), language)
            });
            let Some(procedure) = read else {
                broken.insert(format!("instructions/{stem}"));
                continue;
            };
            if procedure.front.id != stem {
                let at = Place::block(file, procedure.front_range.clone()).at("id");
                self.findings.id_is_not_file_name(&at, &procedure.front.id, &stem);
            }
            if !is_id(&stem) {
                let at = Place::block(file, procedure.front_range.clone()).at("id");
                self.findings.bad_id(&at, &stem);
                continue;
            }
            all.insert(stem, procedure);
        }
        Ok(all)
    }

    /// The same procedures in other languages: every translation of the plant, and the shipped ones in
    /// the languages that are used.
    ///
    /// A shipped translation belongs to the shipped procedure; one of the plant's own in its place is
    /// another text.
    fn translations(
        &mut self,
        sources: &BTreeMap<String, Procedure>,
        used: &BTreeSet<Language>,
    ) -> Result<BTreeMap<(Language, String), Procedure>, Failure> {
        let mut all = BTreeMap::new();
        for language in Language::ALL {
            let folder = format!("instructions/{}", language.tag());
            let own = self.listing(&folder, ".md")?;
            let mut files = Vec::new();
            if used.iter().any(|used| used.texts() == language) {
                let is_shipped = |id: &str| {
                    sources.get(id).is_some_and(|source| source.file.starts_with("shipped/"))
                };
                for name in shipped_names(language.tag()) {
                    let is_wanted = is_shipped(stem(&name)) && !own.contains(&name);
                    let path = format!("{}/{name}", language.tag());
                    files.extend(is_wanted.then(|| self.shipped(&path)).flatten());
                }
            }
            for name in &own {
                files.extend(self.text(&format!("{folder}/{name}"))?);
            }
            for read in files {
                if let Some((id, procedure)) = self.translation(sources, read, language) {
                    all.insert((language, id), procedure);
                }
            }
        }
        Ok(all)
    }

    /// A source with the texts of a translation, and its identifier.
    fn translation(
        &mut self,
        sources: &BTreeMap<String, Procedure>,
        read: Source,
        language: Language,
    ) -> Option<(String, Procedure)> {
        let Source { file, text, sha256 } = &read;
        let read = self.once(&read, language, |loader| {
            translation::parse(&mut loader.findings, file, text, sha256.clone(), language)
        })?;
        let id = stem(file);
        let source = sources.get(id).filter(|_| read.front.of == id);
        let Some(source) = source else {
            self.findings.translation_of_nothing(&read.at("of"), &read.front.of);
            return None;
        };
        Some((id.to_owned(), Translation::of(&read, &mut self.findings, source)?))
    }

    /// A file that ships with the program.
    fn shipped(&mut self, name: &str) -> Option<Source> {
        let file: Arc<str> = format!("shipped/{name}").into();
        let old = self.before.seen.remove(&file);
        let seen = match old {
            Some(seen) => seen,
            None => {
                let text: Arc<str> = SHIPPED.get_file(name)?.contents_utf8()?.into();
                let sha256 = sha256_hex(text.as_bytes());
                let source = Source { file: file.clone(), text, sha256 };
                Seen { stamp: Stamp::default(), is_settled: true, source }
            }
        };
        let source = seen.source.clone();
        self.memory.seen.insert(file, seen);
        Some(self.known(source))
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
        let entries = fs::read_dir(&path).map_err(|e| Failure::at("failure-list", &path, &e))?;
        let mut names = Vec::new();
        for entry in entries {
            let entry = entry.map_err(|e| Failure::at("failure-list", &path, &e))?;
            match entry.file_name().into_string() {
                Ok(name) if name.starts_with('.') => {}
                // Translations have a folder for each language.
                Ok(name) if folder == "instructions" && Language::of_tag(&name).is_some() => {}
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
        if let Some(read) = self.read.get(name) {
            return Ok(read.clone());
        }
        let read = self.open(name)?;
        self.read.insert(name.into(), read.clone());
        Ok(read)
    }

    fn open(&mut self, name: &str) -> Result<Option<Source>, Failure> {
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
        let stamp = Stamp::of(&meta);
        let old = self.before.seen.remove(name);
        if let Some(seen) = old.filter(|seen| seen.is_settled && seen.stamp == stamp) {
            let source = seen.source.clone();
            self.memory.seen.insert(file, seen);
            return Ok(Some(self.known(source)));
        }
        self.memory.work.read += 1;
        let mut bytes = Vec::new();
        fs::File::open(&path)
            .and_then(|opened| opened.take(LARGEST).read_to_end(&mut bytes))
            .map_err(|e| Failure::at("failure-read", &path, &e))?;
        let sha256 = sha256_hex(&bytes);
        match String::from_utf8(bytes) {
            Ok(text) => {
                // Line ends of another system are no fault, but every place is counted in one way.
                let text: Arc<str> =
                    text.replace("\r\n", "\n").trim_start_matches('\u{feff}').into();
                let source = Source { file: file.clone(), text, sha256 };
                let is_settled = is_settled(&stamp);
                let seen = Seen { stamp, is_settled, source: source.clone() };
                self.memory.seen.insert(file, seen);
                Ok(Some(self.known(source)))
            }
            Err(error) => {
                let at = error.utf8_error().valid_up_to();
                self.findings.not_utf8(&Place::file(&file), at);
                Ok(None)
            }
        }
    }

    /// A file of the plant, for digests and places.
    fn known(&mut self, source: Source) -> Source {
        self.texts.insert(source.file.clone(), source.text.clone());
        self.digests.insert(source.file.clone(), source.sha256.clone());
        source
    }
}

/// Names of the Markdown files in a folder of the shipped procedures.
fn shipped_names(folder: &str) -> impl Iterator<Item = String> + use<> {
    let files = if folder.is_empty() { Some(&SHIPPED) } else { SHIPPED.get_dir(folder) };
    let names = files.into_iter().flat_map(Dir::files);
    let names = names.filter_map(|file| file.path().file_name()?.to_str().map(str::to_owned));
    names.filter(|name| name.ends_with(".md"))
}

/// The name of a file without its folder and ending.
fn stem(file: &str) -> &str {
    file.rsplit('/').next().unwrap_or(file).trim_end_matches(".md")
}

/// Letters, digits and hyphens; it becomes a file name and a part of links.
pub fn is_id(text: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || c == '-';
    (1..=64).contains(&text.len()) && text.chars().all(plain) && !text.starts_with('-')
}
