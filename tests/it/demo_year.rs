//! A year of changeovers at the hand slitter, made with demo keys that anybody can make: they prove
//! nothing. Invented throughout, and the same in every run.
//!
//! Their jobs are over and have no file any more: each record stands by its frozen packet. What the
//! year shows on purpose, for the pages that look back over it:
//!
//! - the width of the first band is steady for half a year and then drifts down, inside its limits;
//! - the knife of one recipe ends 0.4 mm above its set value, until nobody tries the set value any more;
//! - more film is left on the old roll than its step allows, nearly every time;
//! - one person signs every step at the end, in one minute, when the film changes too;
//! - some first bands fail and are cut again, and some changeovers take twice their time.

use std::collections::BTreeMap;

use chrono::{DateTime, Datelike, Duration, FixedOffset, NaiveDate, TimeZone, Timelike, Weekday};
use witnessmark::canonical;
use witnessmark::finding::{Findings, Place};
use witnessmark::packet::model::{Meaning, Packet, Step};
use witnessmark::packet::{self, Prepared};
use witnessmark::plant::load::{Loaded, Plant};
use witnessmark::plant::shape::JobFile;
use witnessmark::record::compose::{Acceptance, Request, Value};
use witnessmark::record::entry::{self, Entry, Kind, Taken, Verdict};

use crate::demo_records::Writer;
use crate::dice::Dice;

/// Files made here, by path inside the plant.
type Files = BTreeMap<String, Vec<u8>>;

/// Changeovers of the year.
const RUNS: i64 = 45;
/// The first of them has this number.
const FIRST: i64 = 951;
/// What is on the slitter before the first and after the last.
const HOME: &str = "band-38-clear";
/// The recipe whose knife ends elsewhere than it says.
const WIDE: &str = "band-60-shrink";

const OLD_ROLL: &str = "band-set.take-the-old-roll-off";
const KNIFE: &str = "band-set.set-the-right-knife";
const THREAD: &str = "band-set.thread-the-film";
const PROOF: &str = "band-proof.measure-the-first-band";
const KIT: &str = "band-kit.fetch-the-kit";
const HANDOVER: &str = "band-proof.hand-the-slitter-over";

/// One changeover: the order, and how it goes.
struct Run {
    at: i64,
    job: String,
    from: &'static str,
    to: &'static str,
    start: DateTime<FixedOffset>,
    technician: &'static str,
    lead: &'static str,
    quality: &'static str,
    /// How often the recipe was set before.
    before: usize,
    dice: Dice,
}

/// The records of the year; `plant` holds what they are made from, with its approvals.
pub fn make(plant: &Plant) -> Files {
    let mut then = plant.clone();
    let runs = runs();
    then.jobs = runs.iter().map(|run| (run.job.clone(), job_file(run))).collect();
    let mut findings = Findings::default();
    let prepared = packet::prepare(&mut findings, &then);
    let mut files = Files::new();
    for mut run in runs {
        let packet = packet::assemble(&mut findings, &prepared, &run.job).unwrap();
        files.extend(run.record(&prepared, &packet));
    }
    assert!(!findings.has_errors());
    files
}

fn runs() -> Vec<Run> {
    let mut dice = Dice::new(914);
    let mut from = HOME;
    let mut set = BTreeMap::<&str, usize>::new();
    let mut one = |at: i64| {
        let to = next(&mut dice, from, at);
        let start = start(&mut dice, at);
        let day = start.date_naive();
        let before = set.entry(to).or_default();
        let run = Run {
            at,
            job: format!("SM-{:04}", FIRST + at),
            from,
            to,
            start,
            technician: technician(&mut dice, at, day),
            lead: lead(&mut dice, day),
            quality: dice.pick(&["s.varga@saltmarsh.example", "p.raman@saltmarsh.example"]),
            before: *before,
            dice: Dice::new(dice.next()),
        };
        *before += 1;
        from = to;
        run
    };
    (0..RUNS).map(&mut one).collect()
}

/// What is set next: rather a band of the same film. The last one leaves what the jobs of the plant begin
/// with.
fn next(dice: &mut Dice, from: &str, at: i64) -> &'static str {
    let last = RUNS - 1;
    loop {
        let to = dice.pick(&[WIDE, WIDE, "band-46-shrink", "band-52-clear", HOME]);
        let to = if at == last { HOME } else { to };
        if to == from || (at == last - 1 && to == HOME) {
            continue;
        }
        let is_free = at >= last - 1 || film(to) == film(from);
        if is_free || !dice.one_in(3) {
            return to;
        }
    }
}

/// What film a recipe is cut from.
fn film(recipe: &str) -> Option<&str> {
    recipe.rsplit('-').next()
}

/// Every eight or nine days, on a working day, by the time of the plant: summer time from the last
/// Sunday of March to that of October.
fn start(dice: &mut Dice, at: i64) -> DateTime<FixedOffset> {
    let day = date(2025, 11, 10) + Duration::days(at * 17 / 2);
    let day = match day.weekday() {
        Weekday::Sat => day - Duration::days(1),
        Weekday::Sun => day + Duration::days(1),
        _ => day,
    };
    let is_summer = (date(2026, 3, 29)..date(2026, 10, 25)).contains(&day);
    let offset = FixedOffset::east_opt(if is_summer { 7200 } else { 3600 }).unwrap();
    let (hour, minute) = (dice.pick(&[6, 7, 9, 11, 14, 15, 17, 19]), dice.between(0, 49));
    let time = day.and_hms_opt(hour, u32::try_from(minute).unwrap(), 20).unwrap();
    offset.from_local_datetime(&time).unwrap()
}

fn date(year: i32, month: u32, day: u32) -> NaiveDate {
    NaiveDate::from_ymd_opt(year, month, day).unwrap()
}

/// Who holds the role that day; every other changeover is Goran Petrov's as long as he is there.
fn technician(dice: &mut Dice, at: i64, day: NaiveDate) -> &'static str {
    if at % 2 == 1 && day <= date(2026, 9, 30) {
        return "g.petrov@saltmarsh.example";
    }
    match day < date(2026, 4, 13) {
        true => dice.pick(&["r.osei@saltmarsh.example", "f.benali@saltmarsh.example"]),
        false => dice.pick(&["r.osei@saltmarsh.example", "d.moreau@saltmarsh.example"]),
    }
}

fn lead(dice: &mut Dice, day: NaiveDate) -> &'static str {
    match day < date(2026, 7, 1) {
        true => dice.pick(&["e.whitcombe@saltmarsh.example", "l.kealoha@saltmarsh.example"]),
        false => dice.pick(&["e.whitcombe@saltmarsh.example", "f.benali@saltmarsh.example"]),
    }
}

/// The job as its file said it.
fn job_file(run: &Run) -> Loaded<JobFile> {
    let Run { at, job, from, to, start, lead, .. } = run;
    let issued = (*start - Duration::hours(20)).to_rfc3339();
    let shift = if start.hour() < 14 { "early" } else { "late" };
    let text = format!(
        "id: {job}\nmachine: slit-1\nfrom: {from}\nto: {to}\norder: \"Order {}, bands for jar line 1\"\ndate: {}\nshift: {shift}\nissued: {issued}\nissued_by: {lead}\n",
        68_100 + at * 43,
        start.date_naive(),
    );
    Loaded {
        place: Place::file(&format!("jobs/{job}.yaml").into()),
        sha256: canonical::sha256_hex(text.as_bytes()),
        body: serde_yaml::from_str(&text).unwrap(),
    }
}

impl Run {
    fn record(&mut self, prepared: &Prepared, packet: &Packet) -> Files {
        let mut writer = Writer::new(prepared, packet, self.start);
        // Steps that are done and not signed yet.
        let mut unsigned = Vec::new();
        for step in packet.steps.iter().filter(|step| step.stays.is_none()) {
            writer.at += self.takes(step);
            self.read(&mut writer, step);
            if step.signs.iter().any(|sign| sign.meaning == Meaning::Performed) {
                unsigned.push(step.id.clone());
            }
            if step.id == PROOF {
                self.cut_again(&mut writer, packet, &mut unsigned);
            }
            if self.signs_late() && step.id == PROOF {
                writer.at = full_minute(writer.at);
            }
            if !self.signs_late() || step.id == PROOF {
                unsigned.drain(..).for_each(|step| self.perform(&mut writer, step));
            }
            if step.signs.iter().any(|sign| sign.meaning == Meaning::Verified) {
                writer.at += Duration::seconds(self.dice.between(40, 200));
                let verified = vec![step.id.clone()];
                writer.sign(self.lead, &Request { verified, ..Request::default() });
            }
            if step.signs.iter().any(|sign| sign.meaning == Meaning::Released) {
                self.accept(&mut writer);
                writer.sign(self.lead, &Request { release: true, ..Request::default() });
            }
        }
        writer.files
    }

    /// Signs when everything is done and not when each step is: where the film changes, there is much to
    /// do at once.
    fn signs_late(&self) -> bool {
        self.technician.starts_with("g.petrov") && film(self.from) != film(self.to)
    }

    /// Between three fifths and eight fifths of the plan, and now and then much more.
    fn takes(&mut self, step: &Step) -> Duration {
        let planned = i64::from(step.minutes.unwrap_or(1)) * 60;
        let searched = match step.id.as_str() {
            KIT if self.at % 13 == 7 => 17 * 60,
            THREAD if self.at % 11 == 5 => 24 * 60,
            _ => 0,
        };
        Duration::seconds(planned * self.dice.between(60, 160) / 100 + searched)
    }

    fn perform(&mut self, writer: &mut Writer, step: String) {
        writer.at += Duration::seconds(self.dice.between(3, 8));
        let note = match step.as_str() {
            THREAD if self.at % 11 == 5 => Some("The chucks lay at the cartoner."),
            _ => None,
        };
        let note = note.map(str::to_owned);
        let performed = vec![step];
        writer.sign(self.technician, &Request { performed, note, ..Request::default() });
    }

    fn read(&mut self, writer: &mut Writer, step: &Step) {
        let Some(blank) = step.readings.first() else { return };
        let text = match step.id.as_str() {
            OLD_ROLL if self.dice.one_in(9) => tenths(self.dice.between(12, 20)),
            OLD_ROLL => tenths(self.dice.between(41, 88)),
            KNIFE if self.to == WIDE && !self.tries() => self.knife(&blank.target, 40),
            KNIFE => self.knife(&blank.target, 0),
            _ => self.first_band(&blank.target),
        };
        self.value(writer, &blank.id, text, None, "");
    }

    /// The first times somebody still tries the set value; later nobody does.
    fn tries(&self) -> bool {
        self.to == WIDE && self.before < 4
    }

    /// Whether the first band is cut a second time, and what is said of it.
    fn fails(&self) -> Option<&'static str> {
        match self.tries() {
            true => Some("The film draws in: knife set wider."),
            false if self.at % 9 == 4 => Some("The film ran slack: threaded again."),
            false => None,
        }
    }

    fn knife(&mut self, target: &Option<String>, more: i64) -> String {
        beside(target, more + 5 * self.dice.between(-1, 1))
    }

    /// The width of the first band.
    fn first_band(&mut self, target: &Option<String>) -> String {
        match self.fails() {
            Some(_) if self.tries() => beside(target, -45 - 5 * self.dice.between(0, 1)),
            Some(_) => beside(target, 45 + 5 * self.dice.between(0, 3)),
            None => self.good_band(target),
        }
    }

    /// Steady for half a year; then a knife wears, and the bands get narrower.
    fn good_band(&mut self, target: &Option<String>) -> String {
        let drifted = 2 - (self.at - RUNS / 2).max(0);
        beside(target, (drifted + self.dice.between(-9, 9)) / 5 * 5)
    }

    /// Sets right what made the first band fail, and measures a new one.
    fn cut_again(&mut self, writer: &mut Writer, packet: &Packet, unsigned: &mut Vec<String>) {
        let Some(why) = self.fails() else { return };
        let blank = |step: &str| {
            let step = packet.steps.iter().find(|own| own.id == step).unwrap();
            step.readings[0].clone()
        };
        if self.tries() {
            writer.at += Duration::minutes(self.dice.between(3, 6));
            let knife = blank(KNIFE);
            let text = self.knife(&knife.target, 40);
            self.value(writer, &knife.id, text, seq_of(writer, &knife.id), why);
            if !unsigned.iter().any(|step| step == KNIFE) {
                unsigned.insert(0, KNIFE.to_owned());
            }
        }
        writer.at += Duration::minutes(self.dice.between(4, 9));
        let band = blank(PROOF);
        let text = self.good_band(&band.target);
        self.value(writer, &band.id, text, seq_of(writer, &band.id), why);
    }

    fn value(
        &self,
        writer: &mut Writer,
        blank: &str,
        text: String,
        corrects: Option<u64>,
        note: &str,
    ) {
        let note = corrects.map(|_| note.to_owned());
        let value = Value { blank: blank.to_owned(), text, corrects, note, ..Value::default() };
        writer.sign(self.technician, &Request { readings: vec![value], ..Request::default() });
    }

    /// Quality accepts what is outside and was not corrected: the film left on the old roll.
    fn accept(&mut self, writer: &mut Writer) {
        let outside = writer.past.iter().find(|past| {
            let taken = past.entry.reading.as_ref();
            past.entry.step == OLD_ROLL
                && taken.is_some_and(|taken| taken.verdict == Verdict::Outside)
        });
        let Some(seq) = outside.map(|past| past.entry.seq) else { return };
        writer.at += Duration::seconds(self.dice.between(50, 300));
        let reason = self.dice.pick(&[
            "The last turns carry the tape.",
            "The rest has a crease and is waste.",
            "The winder stops by itself before the core.",
        ]);
        let accept = vec![Acceptance { seq, reason: reason.to_owned() }];
        writer.sign(self.quality, &Request { accept, ..Request::default() });
    }
}

/// The next full minute: what is signed at once stands in one minute of the record.
fn full_minute(at: DateTime<FixedOffset>) -> DateTime<FixedOffset> {
    at + Duration::seconds(60 - at.timestamp().rem_euclid(60))
}

/// The latest reading in a blank.
fn seq_of(writer: &Writer, blank: &str) -> Option<u64> {
    let is_of = |taken: &Taken| taken.blank == blank;
    let mut past = writer.past.iter().rev();
    past.find(|past| past.entry.reading.as_ref().is_some_and(is_of)).map(|past| past.entry.seq)
}

fn tenths(number: i64) -> String {
    format!("{}.{}", number / 10, number % 10)
}

/// A value so many hundredths beside a target with two places.
fn beside(target: &Option<String>, hundredths: i64) -> String {
    let target = target.as_ref().unwrap().replace('.', "").parse::<i64>().unwrap() + hundredths;
    format!("{}.{:02}", target / 100, target % 100)
}

/// Wants of the files of the plant what the year was made to show, by its entries alone.
pub fn shows(files: &Files) {
    let own = || files.iter().filter(|(path, _)| is_of_year(path));
    let (count, size) = (own().count(), own().map(|(_, bytes)| bytes.len()).sum::<usize>());
    assert!(count < 1000 && size < 1_000_000, "{count} files, {size} bytes");
    let all: Vec<Entry> = own()
        .filter(|(path, _)| path.ends_with(".json"))
        .filter_map(|(_, json)| entry::read(json).entry)
        .collect();
    let of = |kind: Kind, step: &str| {
        all.iter().filter(|one| one.kind == kind && one.step == step).count()
    };
    assert_eq!(of(Kind::Released, HANDOVER), usize::try_from(RUNS).unwrap());
    let (rolls, accepted) = (of(Kind::Performed, OLD_ROLL), of(Kind::DeviationAccepted, OLD_ROLL));
    assert!(accepted * 10 >= rolls * 8, "deviated from {accepted} times of {rolls}");
    let late = all.chunk_by(|one, next| one.job == next.job).filter(|record| {
        let signed = record.iter().filter(|one| one.kind == Kind::Performed);
        let minutes: Vec<&str> = signed.map(|one| &one.at[..16]).collect();
        minutes.len() == 6 && minutes.iter().all(|minute| *minute == minutes[0])
    });
    let late = late.count();
    assert!(late * 2 >= rolls, "signed in one minute {late} times of {rolls}");
    let failed = all.iter().filter(|one| one.corrects.is_some() && one.step == PROOF).count();
    assert!((5..=12).contains(&failed), "{failed} first bands cut again");
}

fn is_of_year(path: &str) -> bool {
    let number = path.strip_prefix("records/SM-").and_then(|rest| rest.get(..4)?.parse().ok());
    number.is_some_and(|number: i64| (FIRST..FIRST + RUNS).contains(&number))
}
