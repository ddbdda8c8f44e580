//! `import`: recipes from a table that somebody has already.
//!
//! Without `--write` nothing is written. With it nothing is written either while one thing stands
//! against it: files are made only when every recipe checks clean in the plant as it would be then.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use serde::Serialize;

use super::desk::{self, Desk};
use super::{Answer, json};
use crate::durable;
use crate::failure::Failure;
use crate::finding::show::{self, Located, Texts};
use crate::finding::{Finding, Findings, Place, Severity};
use crate::import::{self, At, Made, Mapping, Remark, Source, Stamp, Table, Taken, letters};
use crate::language::{Language, Words};
use crate::plant::load;
use crate::plant::read::yaml_file;
use crate::uses::shown::Lines;

/// Bytes of a table.
const LARGEST_TABLE: u64 = 16 << 20;
/// Bytes of a mapping.
const LARGEST_MAPPING: u64 = 1 << 20;
/// Remarks that are shown; a wrong column would give one a row.
const MOST_SHOWN: usize = 100;

/// Makes recipes from a table (.csv, .xlsx, .ods), by a mapping that says what each column is.
///
/// Says what would be written, from which cell each value comes, and everything that was not
/// understood. Nothing is written without --write, nor while anything stands against it, and no recipe
/// that is there is changed unless it is named with --replace.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Example:\n  witnessmark import demo-data demo-data/import/sticks.csv --by demo-data/import/sticks.yaml"
)]
pub(super) struct Args {
    /// Folder of the plant
    plant: PathBuf,
    /// The table
    table: PathBuf,
    /// The mapping: what each column is
    #[arg(long, value_name = "MAPPING")]
    by: PathBuf,
    /// Sheet of the workbook
    #[arg(long, value_name = "NAME")]
    sheet: Option<String>,
    /// Write the recipes
    #[arg(long)]
    write: bool,
    /// A recipe that may be replaced; may stand several times
    #[arg(long, value_name = "RECIPE")]
    replace: Vec<String>,
    /// Revision of every recipe
    #[arg(long)]
    revision: Option<String>,
    /// Day of every revision
    #[arg(long, value_name = "YYYY-MM-DD")]
    date: Option<String>,
    /// Author of every recipe
    #[arg(long)]
    author: Option<String>,
    /// Reason of every revision
    #[arg(long)]
    reason: Option<String>,
    /// Print the report as JSON
    #[arg(long)]
    json: bool,
}

pub(super) fn run(args: &Args, language: Language) -> Result<Answer, Failure> {
    let desk = Desk::open(&args.plant, language)?;
    let plant = match desk.plant(args.json) {
        Ok(plant) => plant,
        Err(answer) => return Ok(*answer),
    };
    let file: Arc<str> = args.by.display().to_string().into();
    let text: Arc<str> = text_of(&args.by)?.into();
    let texts = Texts::from([(file.clone(), text.clone())]);
    let mut findings = Findings::default();
    let Some(mapping) = yaml_file::<Mapping>(&mut findings, &file, &text) else {
        let said = Desk { plant: None, texts, findings: Findings::default(), language };
        return Ok(said.answer(&findings, args.json));
    };
    let place = Place::top(&file);
    let mut report = Report { args, language, mapping_texts: &texts, sheet: String::new() };
    let begun = separator(&mapping, &place)
        .and_then(|separator| Ok((separator, pattern(&desk, plant, &mapping, &place)?)));
    let (separator, (pattern, pattern_text)) = match begun {
        Ok(begun) => begun,
        Err(remark) => {
            let taken = Taken { remarks: vec![*remark], ..Taken::default() };
            return report.answer(&taken, &Checked::default(), false);
        }
    };
    let sheet = args.sheet.as_deref().or(mapping.sheet.as_deref());
    let table = table(&args.table, separator, sheet)?;
    report.sheet.clone_from(&table.sheet);
    let existing = plant.recipes.iter().filter_map(|(id, recipe)| {
        Some((id.as_str(), (recipe.body.revision.as_str(), &**desk.texts.get(&recipe.place.file)?)))
    });
    let stamp = Stamp {
        revision: args.revision.clone(),
        date: args.date.clone(),
        author: args.author.clone(),
        reason: args.reason.clone(),
    };
    let mut taken = import::recipes(&Source {
        table: &table,
        mapping: &mapping,
        place: &place,
        pattern,
        pattern_text,
        existing: &existing.collect(),
        replace: &args.replace.iter().cloned().collect::<BTreeSet<_>>(),
        stamp: &stamp,
    });
    let mut checked = Checked::default();
    if !taken.has_errors() {
        checked = check(&desk, &args.plant, &mut taken)?;
    }
    let is_refused = taken.has_errors() || checked.findings.has_errors();
    let written = args.write && !is_refused;
    if written {
        write(&args.plant, &taken.made)?;
    }
    report.answer(&taken, &checked, written)
}

/// A text file, bounded.
fn text_of(path: &Path) -> Result<String, Failure> {
    let bytes = bytes_of(path, LARGEST_MAPPING)?;
    let text = String::from_utf8(bytes).map_err(|_| Failure::new(Words::of("import-not-utf8")))?;
    Ok(text.replace("\r\n", "\n").trim_start_matches('\u{feff}').to_owned())
}

#[allow(clippy::disallowed_methods, reason = "table and mapping are read at this edge")]
fn bytes_of(path: &Path, most: u64) -> Result<Vec<u8>, Failure> {
    use std::io::Read as _;
    let fail = |error| Failure::at("failure-read", path, &error);
    let meta = std::fs::metadata(path).map_err(fail)?;
    if !meta.is_file() {
        let parts = [("path", path.display().to_string().into())];
        return Err(Failure::new(Words::new("failure-no-plain-file", &parts)));
    }
    let mut bytes = Vec::new();
    let opened = std::fs::File::open(path).map_err(fail)?;
    opened.take(most + 1).read_to_end(&mut bytes).map_err(fail)?;
    match bytes.len() as u64 > most {
        true => Err(Failure::new(import::BadTable::TooLarge.words())),
        false => Ok(bytes),
    }
}

fn table(path: &Path, separator: u8, sheet: Option<&str>) -> Result<Table, Failure> {
    let bytes = bytes_of(path, LARGEST_TABLE)?;
    let name = path.display().to_string();
    import::read(&name, &bytes, separator, sheet).map_err(|bad| Failure::new(bad.words()))
}

/// The letter that parts the fields of a CSV file.
fn separator(mapping: &Mapping, place: &Place) -> Result<u8, Box<Remark>> {
    let text = mapping.separator.as_deref().unwrap_or(",");
    match text.as_bytes() {
        [one] if one.is_ascii_punctuation() && !matches!(one, b'"' | b'.') => Ok(*one),
        [b'\t'] => Ok(b'\t'),
        _ => {
            let words = Words::new("import-separator", &[("text", format!("{text:?}").into())]);
            Err(Box::new(error(At::Mapping(place.at("separator")), words)))
        }
    }
}

type Pattern<'d> = (&'d crate::plant::shape::RecipeFile, &'d str);

/// The recipe that is the pattern, and the text of its file.
fn pattern<'d>(
    desk: &'d Desk,
    plant: &'d load::Plant,
    mapping: &Mapping,
    place: &Place,
) -> Result<Pattern<'d>, Box<Remark>> {
    let found = plant.recipes.get(&mapping.pattern);
    let text = found.and_then(|recipe| desk.texts.get(&recipe.place.file));
    if let (Some(recipe), Some(text)) = (found, text) {
        return Ok((&recipe.body, text));
    }
    let near = import::nearest(&mapping.pattern, plant.recipes.keys().map(String::as_str));
    let parts = [("pattern", (&mapping.pattern).into())];
    let words = import::with_near("import-no-pattern", &parts, near);
    Err(Box::new(error(At::Mapping(place.at("pattern")), words)))
}

fn error(at: At, words: Words) -> Remark {
    Remark { severity: Severity::Error, at, words }
}

/// What the check says of a plant with the new recipes in it, and did not say before.
#[derive(Default)]
struct Checked {
    findings: Findings,
    texts: Texts,
}

/// Checks the plant as it would be, and that each recipe says what was meant.
fn check(desk: &Desk, folder: &Path, taken: &mut Taken) -> Result<Checked, Failure> {
    let new = taken.made.iter().filter(|made| !made.is_same);
    let files: BTreeMap<Arc<str>, Arc<str>> =
        new.map(|made| (file_of(made).into(), made.text.as_str().into())).collect();
    let load::Reading { plant, texts, findings } = load::load_with(folder, &files)?;
    let after = Desk { plant, texts, findings, language: desk.language };
    let all = |desk: &Desk| match &desk.plant {
        Some(plant) => desk::judge(desk, plant).findings,
        None => desk.findings.clone(),
    };
    let before: Vec<Finding> = all(desk).iter().cloned().collect();
    let is_new =
        |finding: &&Finding| files.contains_key(&finding.place.file) || !before.contains(finding);
    let findings: Findings = all(&after).iter().filter(is_new).cloned().collect();
    let recipes = after.plant.as_ref().map(|plant| &plant.recipes);
    for made in &taken.made {
        let read = recipes.and_then(|recipes| recipes.get(&made.id));
        let says_so = read.is_some_and(|recipe| recipe.body == made.body);
        // What cannot be read at all is a finding already.
        if !says_so && (read.is_some() || !findings.has_errors()) {
            let at = At::Recipe(made.id.clone());
            taken.remarks.push(error(at, Words::of("import-cannot-edit")));
        }
    }
    Ok(Checked { findings, texts: after.texts })
}

fn file_of(made: &Made) -> String {
    format!("recipes/{}.yaml", made.id)
}

/// Writes every recipe aside before the first gets its name.
fn write(folder: &Path, made: &[Made]) -> Result<(), Failure> {
    let path = |made: &Made| folder.join(file_of(made));
    let new = made.iter().filter(|one| !one.is_there);
    let prepared = new.map(|one| durable::Prepared::write(&path(one), one.text.as_bytes()));
    for file in prepared.collect::<Result<Vec<_>, _>>()? {
        file.place()?;
    }
    for one in made.iter().filter(|one| one.is_there && !one.is_same) {
        durable::replace(&path(one), one.text.as_bytes())?;
    }
    Ok(())
}

/// What is printed.
struct Report<'a> {
    args: &'a Args,
    language: Language,
    mapping_texts: &'a Texts,
    sheet: String,
}

/// The report for programs.
#[derive(Serialize)]
struct Told<'a> {
    written: bool,
    rows: usize,
    skipped: usize,
    recipes: Vec<ToldRecipe<'a>>,
    kept: BTreeMap<&'a str, &'a str>,
    remarks: Vec<ToldRemark<'a>>,
    findings: Vec<Located<'a>>,
}

#[derive(Serialize)]
struct ToldRecipe<'a> {
    id: &'a str,
    file: String,
    row: usize,
    state: &'static str,
    values: BTreeMap<&'a str, &'a str>,
}

#[derive(Serialize)]
struct ToldRemark<'a> {
    rule: &'a str,
    severity: Severity,
    place: String,
    message: String,
    way_out: String,
}

impl Report<'_> {
    fn answer(&self, taken: &Taken, checked: &Checked, written: bool) -> Result<Answer, Failure> {
        let is_refused = taken.has_errors() || checked.findings.has_errors();
        let text = match self.args.json {
            true => json(&self.told(taken, checked, written))?,
            false => self.text(taken, checked, written, is_refused),
        };
        Ok(if is_refused { Answer::findings(text) } else { Answer::clean(text) })
    }

    fn told<'t>(&self, taken: &'t Taken, checked: &'t Checked, written: bool) -> Told<'t> {
        let mut lines = Lines::of(self.mapping_texts);
        let recipe = |made: &'t Made| ToldRecipe {
            id: &made.id,
            file: file_of(made),
            row: made.row,
            state: match (made.is_same, made.is_there) {
                (true, _) => "same",
                (false, true) => "replaced",
                (false, false) => "new",
            },
            values: made.values.iter().map(|(key, text)| (key.as_str(), text.as_str())).collect(),
        };
        let remarks = taken.remarks.iter().map(|remark| ToldRemark {
            rule: remark.words.key(),
            severity: remark.severity,
            place: self.place(&mut lines, &remark.at),
            message: remark.words.shown(self.language),
            way_out: remark.words.way_out().shown(self.language),
        });
        Told {
            written,
            rows: taken.rows,
            skipped: taken.skipped,
            recipes: taken.made.iter().map(recipe).collect(),
            kept: taken.kept.iter().map(|(key, text)| (key.as_str(), text.as_str())).collect(),
            remarks: remarks.collect(),
            findings: show::located(&checked.findings, &checked.texts, self.language),
        }
    }

    /// `settings.xlsx, sheet Sticks, cell C5, column "Flat width"`.
    fn place(&self, lines: &mut Lines, at: &At) -> String {
        let file = self.args.table.display().to_string();
        let sheet = match self.sheet.as_str() {
            "" => String::new(),
            sheet => {
                let parts = [("sheet", sheet.into())];
                self.language.text("import-sheet", &parts) + " "
            }
        };
        match at {
            At::Mapping(place) => format!("{}:{}", place.file, lines.line(place)),
            At::Row { row, column: None } => {
                let parts = [
                    ("file", file.into()),
                    ("sheet", sheet.into()),
                    ("row", row.to_string().into()),
                ];
                self.language.text("import-place-row", &parts)
            }
            At::Row { row, column: Some((column, heading)) } => {
                let parts = [
                    ("file", file.into()),
                    ("sheet", sheet.into()),
                    ("cell", format!("{}{row}", letters(*column)).into()),
                    ("heading", heading.into()),
                ];
                self.language.text("import-place-cell", &parts)
            }
            At::Recipe(id) => self.language.text("import-recipe", &[("id", id.into())]),
        }
    }

    fn text(&self, taken: &Taken, checked: &Checked, written: bool, is_refused: bool) -> String {
        let language = self.language;
        let mut text = self.remarks(&taken.remarks);
        text += &show::text(&checked.findings, &checked.texts, language);
        let head = [
            ("file", self.args.table.display().to_string().into()),
            ("rows", taken.rows.into()),
            ("skipped", taken.skipped.to_string().into()),
        ];
        text += &format!("{}\n", language.text("import-head", &head));
        if !taken.made.is_empty() && !taken.kept.is_empty() {
            text += &format!("\n{}\n", language.word("import-kept"));
            text += &values(&taken.kept);
        }
        taken.made.iter().for_each(|made| text += &self.recipe(made));
        let count = taken.made.iter().filter(|made| !made.is_same).count();
        let key = match (written, is_refused) {
            (true, _) => "import-written",
            (false, true) => "import-refused",
            (false, false) => "import-not-written",
        };
        text + &format!("\n{}\n", language.text(key, &[("count", count.into())]))
    }

    fn recipe(&self, made: &Made) -> String {
        let key = match (made.is_same, made.is_there) {
            (true, _) => "import-same",
            (false, true) => "import-replaces",
            (false, false) => "import-new",
        };
        let fate = self.language.text(key, &[("row", made.row.to_string().into())]);
        let values = if made.is_same { String::new() } else { values(&made.values) };
        format!("\n{}: {fate}\n{values}", file_of(made))
    }

    fn remarks(&self, remarks: &[Remark]) -> String {
        let language = self.language;
        let mut lines = Lines::of(self.mapping_texts);
        let mut text = String::new();
        for remark in remarks.iter().take(MOST_SHOWN) {
            let weight = language.word(match remark.severity {
                Severity::Error => "finding-error",
                Severity::Warning => "finding-warning",
            });
            let place = self.place(&mut lines, &remark.at);
            let (what, way_out) = (&remark.words, remark.words.way_out());
            let (what, way_out) = (what.shown(language), way_out.shown(language));
            let help = language.word("finding-help");
            text += &format!(
                "{weight}[{}]: {what}\n --> {place}\n  = {help}: {way_out}\n\n",
                remark.words.key()
            );
        }
        let more = remarks.len().saturating_sub(MOST_SHOWN);
        if more > 0 {
            text += &format!("{}\n\n", language.text("import-more", &[("count", more.into())]));
        }
        text
    }
}

/// Fields and their values, a line each.
fn values(values: &[(String, String)]) -> String {
    let width = values.iter().map(|(key, _)| key.chars().count()).max().unwrap_or(0);
    values.iter().map(|(key, text)| format!("  {key:width$}  {text}\n")).collect()
}
