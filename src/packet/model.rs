//! The packet as data: what one job needs, computed, rounded, worded and frozen.
//!
//! Everything a page shows stands in here already, so that a packet can be kept for years and shown
//! again without the plant that made it. Numbers are text (`"56.0"`), in the unit beside them.
//! Nothing in here computes: [`super::assemble()`] makes a packet, pages and audits only read it.

use std::collections::{BTreeMap, BTreeSet};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::language::Language;

/// Version of the format that is written. Version 1 lacks everything that may be left out, version 2 the
/// order of procedures; both are read still, and their bytes and digests come out the same.
pub const VERSION: u32 = 3;

/// The procedure that hands a lockout over from one crew to the next.
pub const SHIFT_CHANGE: &str = "shift-change";

/// Everything one job needs. Its digest is the SHA-256 of [`crate::canonical::line`].
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Packet {
    /// Version of this format, [`VERSION`].
    pub v: u32,
    /// Language of the program's words in it, and of its procedures where they exist in it.
    #[serde(default, skip_serializing_if = "Language::is_english")]
    pub language: Language,
    /// The plant that issued it.
    pub plant: PlantFacts,
    /// The order and the times.
    pub job: JobFacts,
    /// The machine as it stands.
    pub machine: MachineFacts,
    /// What is on the machine now.
    pub from: RecipeFacts,
    /// What shall be on the machine.
    pub to: RecipeFacts,
    /// The files this packet was made from, by path, with their SHA-256.
    pub sources: Vec<SourceFile>,
    /// Errors of the check that the plant answers for by name.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub exceptions: Vec<Exception>,
    /// Files among them that are still being written: nobody works or signs by this packet.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub drafts: Vec<String>,
    /// Approvals of what it is made from, where the plant asks for them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub approvals: Vec<Approval>,
    /// Where the machine's energy comes from and how each source is held.
    pub energy: Vec<EnergySource>,
    /// Guarded places of the machine.
    pub zones: Vec<Zone>,
    /// Every hazard message that stands before a step, once.
    pub hazards: Vec<Hazard>,
    /// What to fetch before the stop.
    pub kit: Vec<KitItem>,
    /// The instruments at the machine.
    pub instruments: Vec<Instrument>,
    /// Computed values, in the order of the recipe.
    pub settings: Vec<Setting>,
    /// Settings of the recipe on the machine that the wanted one does not have.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub dropped: Vec<Dropped>,
    /// Strip, web, roll and film, worked out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub web: Vec<Figure>,
    /// Screws of the machine, with key and torque.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fasteners: Vec<Fastener>,
    /// What the label says and what follows for single packs and their average.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub contents: Vec<Figure>,
    /// Computed arrangements on rails.
    pub rails: Vec<RailLayout>,
    /// What to do, in order.
    pub steps: Vec<Step>,
    /// The procedures in the order of work, each with what brought it there.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub order: Vec<Part>,
    /// Procedures and steps that were considered and are not needed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub considered: Vec<Considered>,
    /// The procedures the steps came from.
    pub procedures: Vec<ProcedureFacts>,
    /// The role that may accept a reading outside its limits.
    pub accepts_deviation: String,
    /// Where another role may, by procedure; [`NOBODY`] where nobody may.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub accepted_by: BTreeMap<String, String>,
}

/// Stands in the place of a role where nobody may accept a deviation.
pub const NOBODY: &str = "none";

impl Packet {
    /// The role that may accept a deviation in a step; none where nobody may.
    pub fn accepts(&self, step: &Step) -> Option<&str> {
        let role = self.accepted_by.get(&step.procedure).unwrap_or(&self.accepts_deviation);
        (role != NOBODY).then_some(role)
    }

    /// The roles that may stop the job for good: those that hand the machine over.
    pub fn closes(&self) -> BTreeSet<&str> {
        let signs = self.steps.iter().flat_map(|step| &step.signs);
        signs
            .filter(|sign| sign.meaning == Meaning::Released)
            .map(|sign| sign.role.as_str())
            .collect()
    }

    /// The steps with which people put their personal locks on and take them off, by place, in order;
    /// none when the job names no crew.
    pub fn personal_locks(&self) -> Vec<(usize, PersonalLock)> {
        let Some(group) = self.job.lockout.as_ref().filter(|group| !group.crew.is_empty()) else {
            return Vec::new();
        };
        let ids = |crew: &'_ [Member]| crew.iter().map(|member| member.id.clone()).collect();
        let is_change = |step: &Step| step.procedure == SHIFT_CHANGE;
        let change = group.shift_change.as_ref().filter(|_| self.steps.iter().any(is_change));
        let crew: Vec<String> = ids(&group.crew);
        let last: Vec<String> = change.map_or(crew.clone(), |change| ids(&change.crew));
        let without = |all: &[String], others: &[String]| -> Vec<String> {
            all.iter().filter(|id| !others.contains(id)).cloned().collect()
        };
        let (arriving, leaving) = (without(&last, &crew), without(&crew, &last));
        let places = |in_change: bool, who: &[String]| {
            let steps = self.steps.iter().enumerate();
            let own = steps.filter(|(_, step)| is_change(step) == in_change && step.is_of(who));
            own.map(|(at, _)| at).collect::<Vec<_>>()
        };
        // A crew of one signs other rows alone, too: its lock goes on with the first of them and comes
        // off with the last.
        let locks = [
            (places(false, &crew).first().copied(), PersonalLock::On),
            (places(true, &arriving).last().copied(), PersonalLock::On),
            (places(true, &leaving).last().copied(), PersonalLock::Off),
            (places(false, &last).last().copied(), PersonalLock::Off),
        ];
        locks.into_iter().filter_map(|(at, lock)| Some((at?, lock))).collect()
    }

    /// Who has a personal lock on at a step, by its place; none when the job names no crew.
    pub fn crew_at(&self, index: usize) -> Option<&[Member]> {
        let group = self.job.lockout.as_ref().filter(|group| !group.crew.is_empty())?;
        let is_changed = |step: &Step| step.procedure == SHIFT_CHANGE;
        let changed = self.steps.iter().take(index).any(is_changed);
        let change = group.shift_change.as_ref().filter(|_| changed);
        Some(change.map_or(&group.crew, |change| &change.crew))
    }
}

/// What a step does to the personal locks of who sign its rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum PersonalLock {
    /// Each puts a lock on.
    On,
    /// Each takes the lock off.
    Off,
}

/// The plant's name and the domain of its signatures.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlantFacts {
    /// Name for people.
    pub name: String,
    /// Domain in signature namespaces, `signoff@<domain>`.
    pub domain: String,
    /// The plant's own caution; may be empty.
    pub note: String,
    /// Where the site is published, `https://...` without a slash at the end; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub address: String,
    /// Who sees to it that the lockout procedures are followed, 29 CFR 1910.147(c)(4)(ii).
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub enforced_by: String,
}

/// The job as ordered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JobFacts {
    /// Identifier, ASCII.
    pub id: String,
    /// The order in the plant's words.
    pub order: String,
    /// Day it is planned for, `YYYY-MM-DD`.
    pub date: String,
    /// Shift in the plant's words, may be empty.
    pub shift: String,
    /// Pieces ordered; empty when the job does not say.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub pieces: String,
    /// When the packet was issued, RFC 3339 with offset.
    pub issued: String,
    /// Name of who issued it.
    pub issued_by: String,
    /// People who work under one lockout; none when the job names no group.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lockout: Option<GroupLockout>,
    /// Who is there for it; none when neither job nor shift says.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub people: Vec<Present>,
}

/// Somebody who is there for a job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Present {
    /// The principal in the list of allowed signers.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// Roles held on the day of the job.
    pub roles: BTreeSet<String>,
}

/// People who work under one lockout, 29 CFR 1910.147(f)(2)-(4).
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct GroupLockout {
    /// Everybody who works inside, each with a personal lock.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub crew: Vec<Member>,
    /// Who holds primary responsibility for them, (f)(3)(ii)(A).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub primary: Option<Member>,
    /// Who coordinates crafts and firms, (f)(3)(ii)(C).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub coordinator: Option<Member>,
    /// Crafts at work.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub crafts: Vec<String>,
    /// The crew that takes over, (f)(4).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shift_change: Option<ShiftChange>,
    /// Firms from outside, (f)(2).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub contractors: Vec<Contractor>,
}

impl GroupLockout {
    /// Everybody whom it names to work inside or to answer for them, before and after a shift change;
    /// somebody may come twice.
    pub fn members(&self) -> impl Iterator<Item = &Member> {
        let change = self.shift_change.iter();
        let arriving = change.flat_map(|change| change.crew.iter().chain(&change.primary));
        self.crew.iter().chain(&self.primary).chain(arriving)
    }

    /// Identifiers of everybody who puts a personal lock on, before and after a shift change.
    pub fn people(&self) -> BTreeSet<&str> {
        let arriving = self.shift_change.iter().flat_map(|change| &change.crew);
        self.crew.iter().chain(arriving).map(|member| member.id.as_str()).collect()
    }
}

/// A person with the role in which this person locks out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Member {
    /// The principal in the list of allowed signers.
    pub id: String,
    /// Name as printed.
    pub name: String,
    /// The role.
    pub role: String,
}

/// A change of people under the locks.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShiftChange {
    /// Identifier of the procedure before which it happens.
    pub before: String,
    /// Everybody who works inside from then on.
    pub crew: Vec<Member>,
    /// Who holds primary responsibility from then on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub primary: Option<Member>,
}

/// A firm from outside.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Contractor {
    /// Its name.
    pub firm: String,
    /// Who speaks for it, and how to reach this person.
    pub contact: String,
    /// Name of who told it the plant's lockout rules and took down its own.
    pub told_by: String,
}

/// The machine's facts that stand on the sheet.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MachineFacts {
    /// Identifier, ASCII.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Kind of machine.
    pub kind: String,
    /// Where it stands.
    pub location: String,
    /// What positions are measured from, and from where left and right are seen.
    pub datum: String,
    /// Where moving parts must stand before isolation.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub stop_position: String,
    /// Powered movement with a guard open.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inching: Option<Inching>,
    /// The last periodic inspection of the lockout procedure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub inspection: Option<Inspection>,
}

/// Powered movement with a guard open, and what holds it small.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Inching {
    /// Identifiers of the energy sources it needs.
    pub sources: Vec<String>,
    /// The control, and where it is.
    pub control: String,
    /// How the control is held: `hold-to-run`.
    pub held: String,
    /// The most that it moves: a length a press, or a speed while it is held.
    pub most: String,
}

/// A periodic inspection of a lockout procedure, 29 CFR 1910.147(c)(6)(i)-(ii).
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Inspection {
    /// The day, `YYYY-MM-DD`.
    pub date: String,
    /// Who inspected; not one of those who use the procedure.
    pub inspector: String,
    /// The people it included.
    pub people: Vec<String>,
}

/// A recipe's name and revision.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RecipeFacts {
    /// Identifier, ASCII.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Revision in the plant's words.
    pub revision: String,
    /// Allergens it contains, in the plant's words.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub allergens: Vec<String>,
}

/// A file the packet was made from.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SourceFile {
    /// Path inside the plant, or `shipped/...` for a standard procedure of the program.
    pub path: String,
    /// SHA-256 of its bytes, lower-case hex.
    pub sha256: String,
}

/// A signed approval of a recipe, a procedure or a translation, as it stands in the plant's register.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Approval {
    /// What is approved: `procedure:knives`, `procedure:knives@es`, `recipe:dill-50`.
    pub subject: String,
    /// Its revision.
    pub revision: String,
    /// SHA-256 of its file, lower-case hex.
    pub sha256: String,
    /// Number of the entry in the register.
    pub entry: u64,
    /// SHA-256 of the entry, lower-case hex.
    pub digest: String,
    /// Name of who approved it.
    pub by: String,
    /// When, RFC 3339 with offset.
    pub at: String,
}

/// An error of the check that somebody answers for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Exception {
    /// Identifier of the rule.
    pub rule: String,
    /// What is wrong.
    pub what: String,
    /// Where: file, and step or field.
    pub place: String,
    /// Why it is done so.
    pub reason: String,
    /// Name of who answers for it.
    pub by: String,
    /// Since when, `YYYY-MM-DD`.
    pub date: String,
    /// Last day; empty when it has no end.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub until: String,
}

/// One source of hazardous energy.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EnergySource {
    /// Identifier, ASCII.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Electrical, pneumatic, thermal, gravity ...
    pub kind: String,
    /// How much, with unit: `400 V`, `6 bar`.
    pub magnitude: String,
    /// The isolating device.
    pub device: String,
    /// Where the device stands.
    pub place: String,
    /// Its safe position.
    pub safe: String,
    /// How it is locked.
    pub lock: String,
    /// What stays stored after isolation; empty when nothing does.
    pub stored: String,
    /// How what is stored is let out, held or waited out.
    pub relieve: String,
    /// The least time to wait, `10 min`; empty when none is timed.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub wait: String,
    /// How zero is proved.
    pub prove: String,
    /// The pairs a voltage is measured between: `L1 to L2`, `L1 to earth` ...
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pairs: Vec<String>,
    /// The measured zero, `at most 0 V, with Two-pole voltage tester`; empty when it is no number.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub zero: String,
    /// Parts that are hot.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub hot_parts: Vec<HotPart>,
    /// Whether it can build up again while locked.
    pub returns: bool,
    /// What is closed, taken out and moved when it is given back, in order.
    pub restore: String,
    /// Identifiers of the hazards of handling it.
    pub hazards: Vec<String>,
}

/// A part that is hot, and when it burns who touches it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HotPart {
    /// What is touched.
    pub part: String,
    /// What its surface is made of: `bare metal`.
    pub surface: String,
    /// How long it is touched.
    pub lasts: String,
    /// Burn threshold of this surface for this time.
    pub threshold: String,
    /// Where the threshold comes from.
    pub source: String,
    /// Gloves that are worn; empty for a bare hand.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub gloves: String,
    /// When it will be cool enough to be read, as a sentence; empty when nobody can estimate it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub cooling: String,
}

/// A guarded place of the machine.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Zone {
    /// Identifier, ASCII.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// The guard that closes it.
    pub guard: String,
    /// The interlock of the guard; empty when it is not described. It isolates nothing.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub interlock: String,
    /// Identifiers of the energy sources that reach into it.
    pub sources: Vec<String>,
    /// Identifiers of the hazards somebody meets who reaches in.
    pub hazards: Vec<String>,
    /// How many steps may be under way in it at once.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub at_once: u32,
}

/// Signal word of a hazard message (ANSI Z535.4, ISO 3864-2).
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "UPPERCASE")]
pub enum Signal {
    /// Death or serious injury will follow if it is not avoided.
    Danger,
    /// Death or serious injury could follow.
    Warning,
    /// Minor or moderate injury could follow.
    Caution,
    /// Damage only, never injury.
    Notice,
}

impl Signal {
    /// The word as printed.
    pub fn word(self) -> &'static str {
        match self {
            Signal::Danger => "DANGER",
            Signal::Warning => "WARNING",
            Signal::Caution => "CAUTION",
            Signal::Notice => "NOTICE",
        }
    }
}

/// The worst harm that a hazard can credibly do, the gravest first.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "lowercase")]
pub enum Harm {
    /// Somebody dies.
    Death,
    /// An injury that lasts, or needs a hospital.
    Serious,
    /// An injury that heals, with a doctor's help.
    Moderate,
    /// An injury that first aid treats.
    Minor,
    /// Machine, product or order only; nobody is hurt.
    Damage,
}

/// Whether the harm will or only could follow when nobody avoids it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Follows {
    /// It will.
    Will,
    /// It could.
    Could,
}

impl Signal {
    /// The signal word of a harm.
    ///
    /// Source: ANSI Z535.4 cl. 4.14 (read second-hand); ISO 3864-2 has the same three levels of
    /// injury and no NOTICE.
    pub fn of(harm: Harm, follows: Follows) -> Signal {
        match (harm, follows) {
            (Harm::Death | Harm::Serious, Follows::Will) => Signal::Danger,
            (Harm::Death | Harm::Serious, Follows::Could) => Signal::Warning,
            (Harm::Moderate | Harm::Minor, _) => Signal::Caution,
            (Harm::Damage, _) => Signal::Notice,
        }
    }
}

/// A hazard message: how serious, what, what may follow, how to avoid it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hazard {
    /// Identifier, ASCII.
    pub id: String,
    /// Signal word.
    pub signal: Signal,
    /// The hazard.
    pub hazard: String,
    /// The probable consequence.
    pub consequence: String,
    /// How to avoid it.
    pub avoid: String,
    /// Language of the message where it is not the packet's; all three parts are in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub language: Option<Language>,
    /// Signs of ISO 7010 that belong to it: warnings, then prohibitions, then what is mandatory.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub signs: Vec<String>,
}

/// One thing to fetch.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KitItem {
    /// `Change parts`, `Material`, `Tools`, `Instruments`, `Protective equipment`, `Locks and tags`.
    pub group: String,
    /// What.
    pub item: String,
    /// How many, or until when it is calibrated; may be empty. Where it lies, in a packet from before
    /// `place`.
    pub detail: String,
    /// Where it lies; empty when nobody says.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub place: String,
    /// How many are fetched.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub count: u32,
    /// How many there are; none when nobody counts them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stock: Option<u32>,
    /// Number of the step that needs it first; none when only the job as a whole does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<u32>,
    /// Whether it is at the machine already and nobody fetches it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub is_here: bool,
}

/// What becomes of a setting in this changeover.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Change {
    /// The value stays as it is.
    Keep,
    /// The value changes.
    Change,
    /// The old recipe has no such setting.
    New,
}

/// One computed value.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Setting {
    /// Identifier, ASCII.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Unit symbol; empty for a count.
    pub unit: String,
    /// What to set: a decimal the instrument can show.
    pub target: String,
    /// The value before it was rounded to the instrument, as a decimal (12 places at most).
    pub exact: String,
    /// Least allowed value; none when not limited.
    pub low: Option<String>,
    /// Greatest allowed value; none when not limited.
    pub high: Option<String>,
    /// Identifier of the instrument.
    pub instrument: Option<String>,
    /// Where on the machine it is set or measured; empty when it is only computed.
    pub place: String,
    /// What it was under the old recipe, in the same unit; a fraction where the target has one.
    pub was: Option<String>,
    /// Whether it changes.
    pub change: Change,
    /// Which way and how far, in the same unit: `up by 14.0`; empty when it is new or stays.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub by: String,
    /// The target as a fraction, `2 7/32`, when the instrument is marked in fractions.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub fraction: String,
    /// The target in the plant's other units, `2.205 in`; empty when the plant shows one system.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub also: String,
    /// The limits in the plant's other units.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub also_limits: String,
    /// What the reader must know about the number: rounding, a coarse instrument.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<String>,
    /// How it was worked out.
    pub working: Working,
    /// Where the formula comes from, in the writer's words; may be empty.
    pub source: String,
}

impl Setting {
    /// A value of this setting with its unit; a count stands alone.
    pub fn with_unit(&self, value: &str) -> String {
        match self.unit.as_str() {
            "" => value.to_owned(),
            unit => format!("{value} {unit}"),
        }
    }

    /// What to set, as it stands on sheets: `56.0 mm`, `2 7/32 in`, `56.0 mm (2.205 in)`.
    pub fn set_to(&self) -> String {
        let shown = if self.fraction.is_empty() { &self.target } else { &self.fraction };
        in_brackets(self.with_unit(shown), &self.also)
    }

    /// `55.5 to 56.5 mm`, `at least 3 N`, `at most 5 N`; none when it is not limited.
    pub fn limits(&self, language: Language) -> Option<String> {
        let limits = limits(language, self.low.as_deref(), self.high.as_deref())?;
        let also = language.decimals(&self.also_limits);
        Some(in_brackets(self.with_unit(&limits), &also))
    }
}

/// `55.5 to 56.5`, `at least 3`, `at most 5`, `0` when nothing else passes; none without limits.
pub fn limits(language: Language, low: Option<&str>, high: Option<&str>) -> Option<String> {
    let [low, high] = [low, high].map(|limit| limit.map(|limit| language.decimals(limit)));
    Some(match (low, high) {
        (Some(low), Some(high)) if low == high => high,
        (Some(low), Some(high)) => {
            language.text("rows-between", &[("low", low.into()), ("high", high.into())])
        }
        (Some(low), None) => language.text("rows-at-least", &[("low", low.into())]),
        (None, Some(high)) => language.text("rows-at-most", &[("high", high.into())]),
        (None, None) => return None,
    })
}

/// A text with another behind it in brackets, when there is one.
pub fn in_brackets(text: String, also: &str) -> String {
    if also.is_empty() { text } else { format!("{text} ({also})") }
}

/// A derivation: formula, numbers put in, result.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Working {
    /// The formula as written.
    pub formula: String,
    /// The formula with the numbers put in.
    pub numbers: String,
    /// The result with its unit.
    pub result: String,
    /// Each operation with its result, when there are several.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub steps: Vec<String>,
}

/// A setting that only the old recipe has.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Dropped {
    /// Identifier, ASCII.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// What it was, with unit.
    pub was: String,
    /// Where on the machine it is set; empty when it is only computed.
    pub place: String,
}

/// A worked-out figure that nobody sets: film needed, rolls, tolerable error.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Figure {
    /// Name in formulas and text, `web.roll`.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// The figure with its unit, as printed.
    pub value: String,
    /// How it was worked out.
    pub working: Working,
    /// Where the formula comes from.
    pub source: String,
}

/// A screw that somebody loosens and tightens.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fastener {
    /// Identifier, ASCII.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Thread and property class, `M6, class 8.8`.
    pub thread: String,
    /// Hexagon key, `5 mm`; empty when none is known.
    pub key: String,
    /// Tightening torque with unit.
    pub torque: String,
    /// `stated` by the maker or the plant, or `computed`.
    pub basis: String,
    /// Where the torque comes from, or how it was computed.
    pub source: String,
    /// Load the screw proves to bear and the stress area, ISO 898-1: `11.6 kN on 20.1 mm²`.
    pub proof_load: String,
    /// Torque wrench and what it may be off; empty when none is named.
    pub wrench: String,
    /// What the reader must know.
    pub notes: Vec<String>,
}

/// An instrument a reading or a position is taken with.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Instrument {
    /// Identifier, ASCII.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Smallest step it shows, with unit.
    pub resolution: String,
    /// How far it may be off, with unit or in percent; empty when nobody stated it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub error_limit: String,
    /// What it measures, `0 to 400 mm`; empty when nobody stated it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub range: String,
    /// Day its calibration ends, `YYYY-MM-DD`; empty when it needs none.
    pub calibration_due: String,
}

/// What stands on a rail.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum RailKind {
    /// Slitting knives at lane boundaries and web edges.
    Knives,
    /// Guide rails about a centre line.
    Guides,
}

/// Where everything stands on one rail, before and after.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RailLayout {
    /// Identifier of the rail, ASCII.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Zone the rail is in.
    pub zone: String,
    /// Knives or guides.
    pub kind: RailKind,
    /// Unit of every number in here.
    pub unit: String,
    /// Left end of the rail from the centre datum (negative).
    pub left_end: String,
    /// Right end of the rail from the centre datum.
    pub right_end: String,
    /// Width of one holder.
    pub holder_width: String,
    /// How far right of a holder's middle its mark stands; empty for the middle itself.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub tip_offset: String,
    /// What stands fixed on the rail.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub obstacles: Vec<Obstacle>,
    /// How the rail's own scale is read; empty when it has none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub scale: String,
    /// Which of several bars this one is, in words; empty for the only one.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub bar: String,
    /// What stepping off from mark to mark would have cost.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stepping: Option<Stepping>,
    /// Lanes from left to right, their edges from the datum; empty for guides.
    pub lanes: Vec<Lane>,
    /// Web edges from the datum; none for guides.
    pub web: Option<Edges>,
    /// Holders from left to right.
    pub holders: Vec<Holder>,
    /// Moves in an order in which nothing collides.
    pub moves: Vec<Move>,
    /// How far a position may be off, as half a range: `0.5`.
    pub tolerance: String,
    /// Identifier of the instrument positions are set with.
    pub instrument: Option<String>,
}

/// Something fixed that no holder can stand on or slide past.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Obstacle {
    /// What it is.
    pub name: String,
    /// Its edges.
    pub edges: Edges,
}

/// How far the outermost mark could be off when each was stepped off from the one before, against
/// measuring each from the datum. In the rail's unit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Stepping {
    /// Steps from the datum to the outermost mark.
    pub steps: u32,
    /// How far one measurement may be off; also the most that a position from the datum is off.
    pub each: String,
    /// All errors one way: steps times each.
    pub worst: String,
    /// Root of the sum of squares.
    pub rss: String,
}

/// One lane of the web.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lane {
    /// Number as the machine counts its lanes, from the left.
    pub number: u32,
    /// Its edges.
    pub edges: Edges,
}

/// Left and right edge, from the datum.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Edges {
    /// Left edge, negative when left of the datum.
    pub left: String,
    /// Right edge.
    pub right: String,
}

/// One holder on a rail.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Holder {
    /// Number on the rail, from the left, starting at 1.
    pub number: u32,
    /// Where it stood; none when the old recipe does not say.
    pub old: Option<String>,
    /// Where it shall stand.
    pub new: String,
    /// Least position that passes.
    pub low: String,
    /// Greatest position that passes.
    pub high: String,
    /// True for a spare that is parked out of the way.
    pub parked: bool,
    /// Reading on the rail's own scale; empty when it has none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub scale: String,
    /// The new position in the plant's other units; empty when the plant shows one system.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub also: String,
    /// The new position as a fraction, when the instrument is marked in fractions.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub fraction: String,
}

/// A holder's way from its old to its new position, or on or off the rail.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Move {
    /// Number of the holder as it will stand; none for one that is taken off.
    pub holder: Option<u32>,
    /// Old position; none when unknown, or for one that is fitted.
    pub from: Option<String>,
    /// New position; empty for one that is taken off.
    pub to: String,
    /// Distance without sign; empty when it does not slide.
    pub distance: String,
    /// `left`, `right`, `off` (taken off the rail), `fit`, or `set` when the old position is unknown.
    pub direction: String,
}

/// State of energy a step needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum EnergyState {
    /// It does not matter: nobody reaches into a zone.
    Any,
    /// The machine has power and its guards are closed.
    Energised,
    /// Every source of the zone is isolated, locked, relieved and verified.
    Isolated,
    /// Some sources are given back for a test or a positioning, the others stay locked; nobody is inside.
    Test,
}

/// Steps that belong together and that the walk judges as one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Block {
    /// Locks come off for a test or a positioning and go on again, 29 CFR 1910.147(f)(1).
    Test,
}

/// Part a step plays in taking energy away and giving it back.
///
/// Order and paragraphs: 29 CFR 1910.147(d)(1)-(6) and (e)(1)-(3), (c)(9).
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Stage {
    /// Affected people are told before controls are applied, (c)(9).
    Notify,
    /// Type, magnitude, hazards and means of control are known, (d)(1).
    Prepare,
    /// Orderly stop, (d)(2).
    Shutdown,
    /// Isolating devices are operated, (d)(3).
    Isolate,
    /// Locks and tags are put on, (d)(4).
    Lock,
    /// Stored energy is relieved, restrained or waited out, (d)(5).
    Relieve,
    /// The start controls are tried with nobody exposed, then put back to neutral, (d)(6) and
    /// Appendix A.
    TryOut,
    /// Zero energy is proved, (d)(6).
    Verify,
    /// Ordinary work.
    Work,
    /// Tools are out, parts whole, guards back, (e)(1).
    Inspect,
    /// Everybody is clear, (e)(2)(i).
    ClearPeople,
    /// Each lock is taken off by who put it on, (e)(3).
    Unlock,
    /// Affected people are told that the locks are off, (e)(2)(ii).
    NotifyAfter,
    /// Energy comes back and the machine starts.
    Restart,
}

impl Stage {
    /// Whether only people who are authorised for lockout do it, 29 CFR 1910.147(d)(4)(i) and (e)(3):
    /// energy is taken away, zero is proved, or locks come off.
    pub fn is_for_authorised(self) -> bool {
        use Stage::{Isolate, Lock, Relieve, TryOut, Unlock, Verify};
        matches!(self, Isolate | Lock | Relieve | TryOut | Verify | Unlock)
    }
}

/// What a step settles in the order of work around the lockout.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Mark {
    /// Nothing of the old product is left at the line.
    LineCleared,
    /// Product or packaging of the new order comes to the line.
    MaterialIn,
    /// Allergens of the old product are cleaned out.
    Cleaned,
    /// Label and allergen line agree with the approved print.
    LabelChecked,
    /// The first pieces are measured and approved.
    FirstPiece,
    /// The line is released and runs.
    Run,
}

/// Why a small job during production needs no lockout, in the writer's words. Each is needed.
///
/// Source: 29 CFR 1910.147(a)(2)(ii), note; the measure has to protect as 29 CFR 1910.212 asks.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MinorServicing {
    /// Why it is routine.
    pub routine: String,
    /// How often it comes again.
    pub repetitive: String,
    /// Why production cannot do without it.
    pub integral: String,
    /// What protects instead of locks: guard, tool, device.
    pub measure: String,
    /// Where the risk assessment is kept.
    pub risk_assessment: String,
}

/// One action with what it needs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Number in the packet, starting at 1.
    pub number: u32,
    /// Identifier, `<procedure>.<heading-as-slug>`; `--2` behind it when its procedure is used for the
    /// second time.
    pub id: String,
    /// Identifier of the procedure.
    pub procedure: String,
    /// Which use of its procedure it belongs to.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub nth: u32,
    /// Language of all its texts where it is not the packet's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub language: Option<Language>,
    /// Heading.
    pub title: String,
    /// Part in the lockout, or `work`.
    pub stage: Stage,
    /// Energy state it needs.
    pub needs: EnergyState,
    /// The block it belongs to; none for most steps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub block: Option<Block>,
    /// Why somebody may reach in without a lockout; none for most steps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minor_servicing: Option<MinorServicing>,
    /// What it settles in the order of work.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub marks: Vec<Mark>,
    /// Zone somebody reaches into.
    pub zone: Option<String>,
    /// Identifiers of the energy sources it acts on.
    pub sources: Vec<String>,
    /// Identifiers of the hazards to read first.
    pub hazards: Vec<String>,
    /// Things to tick before the step begins.
    pub first: Vec<String>,
    /// Tools, with values put in.
    pub tools: Vec<String>,
    /// Planned time in minutes.
    pub minutes: Option<u32>,
    /// How many people do it at once, without who checks it.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub people: u32,
    /// Whether it may be done while the line runs: set-up outside the stop.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub while_running: bool,
    /// Why this step is not needed this time; such a step is shown, not done or signed.
    pub stays: Option<String>,
    /// What changes and makes it needed; empty for a step that is always done.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub kept: String,
    /// Markdown as written, with `{{ name }}` where a value belongs.
    pub text: String,
    /// The values, by name.
    pub values: BTreeMap<String, String>,
    /// Rows when the step repeats over sources, moves, lanes or settings.
    pub table: Option<Table>,
    /// Things to tick.
    pub checks: Vec<String>,
    /// Blanks to fill.
    pub readings: Vec<Reading>,
    /// Who signs, and what it means.
    pub signs: Vec<Sign>,
}

impl Step {
    /// Whether a blank of this step can be accepted outside its limits by nobody: a zero, or what the
    /// writer says.
    pub fn is_never_accepted(&self, blank: &Reading) -> bool {
        self.stage == Stage::Verify || blank.never_accepted
    }

    /// A blank by the number of its step on the sheet: `11/air`.
    pub fn short_name(&self, blank: &str) -> String {
        let what = blank.rsplit('/').next().unwrap_or(blank);
        format!("{}/{what}", self.number)
    }

    /// The number of a row on the sheet: `9.1`; none when the step has no such row.
    pub fn row_number(&self, row: &str) -> Option<String> {
        let at = self.rows().position(|own| own.id == row)?;
        Some(format!("{}.{}", self.number, at + 1))
    }

    /// The rows, in the order of the sheet.
    pub fn rows(&self) -> impl Iterator<Item = &Row> {
        self.table.iter().flat_map(|table| &table.rows)
    }

    /// Whether a blank stands in a row; every blank of the step does when no row is named.
    pub fn holds(&self, row: Option<&str>, blank: &str) -> bool {
        row.is_none_or(|row| {
            self.rows().any(|own| own.id == row && own.readings.iter().any(|id| id == blank))
        })
    }

    /// Whether another step comes from the same use of the same procedure.
    pub fn is_beside(&self, other: &Step) -> bool {
        (&self.procedure, self.nth) == (&other.procedure, other.nth)
    }

    /// Whether its rows are signed by these people, each their own.
    fn is_of(&self, who: &[String]) -> bool {
        !who.is_empty()
            && self.signs.iter().any(|sign| sign.by.is_some())
            && self.rows().map(|row| &row.id).eq(who)
    }

    /// Whether somebody reaches into a guarded zone whose energy is away.
    pub fn reaches_in(&self) -> bool {
        self.zone.is_some() && self.needs == EnergyState::Isolated
    }

    /// Whether it may be done outside the stop: while the line runs, by somebody who reaches into
    /// nothing, handles no lock and no power of a lockout, and settles nothing that the work in the stop
    /// is judged by. Words on a label may be read at any time before the run.
    pub fn may_be_outside(&self) -> bool {
        let is_apart = !self.is_lockout() && self.block.is_none() && self.zone.is_none();
        let has_hands_off = matches!(self.needs, EnergyState::Any | EnergyState::Energised);
        self.while_running
            && is_apart
            && has_hands_off
            && self.marks.iter().all(|mark| *mark == Mark::LabelChecked)
    }

    /// Whether it is part of a lockout: a stage of it, a personal lock that goes on or comes off, or
    /// the handover from one crew to the next.
    pub fn is_lockout(&self) -> bool {
        let is_personal = self.signs.iter().any(|sign| sign.by.is_some());
        self.stage != Stage::Work || is_personal || self.procedure == SHIFT_CHANGE
    }
}

/// The first use of a procedure, one person at a time: a packet does not say it.
fn one() -> u32 {
    1
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands it over so")]
fn is_one(count: &u32) -> bool {
    *count == 1
}

/// Who names a procedure of a changeover.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum NamedBy {
    /// The machine's own order.
    Machine,
    /// The plant's order for this kind of machine.
    Kind,
    /// The job.
    Job,
    /// Another procedure, which includes it.
    Procedure,
}

/// A procedure in the order of work, and what brought it there.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// Identifier of the procedure.
    pub procedure: String,
    /// Which use of it this is.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub nth: u32,
    /// Who names it.
    pub by: NamedBy,
    /// Where: file and line, `machines/stick-5.yaml:115`.
    pub place: String,
    /// Identifier of the procedure that includes it; empty for most.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub inside: String,
    /// Values of its parameters, for people: `rail` and `Rear knife rail`.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub with: BTreeMap<String, String>,
    /// What changes and makes it needed; empty for a procedure that is always done.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub kept: String,
    /// Identifiers of the procedures that are done before it begins, where its writer says so; none
    /// when everything before it in the order is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub after: Option<Vec<String>>,
}

/// A procedure or a step that was considered and is not needed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Considered {
    /// Identifier of the procedure.
    pub procedure: String,
    /// Which use of it this is.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub nth: u32,
    /// Heading of the step; empty for the procedure as a whole.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub step: String,
    /// Why it is not needed, in the packet's language.
    pub why: String,
}

/// Rows of a repeated step.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Table {
    /// Heads of the columns, without the column of the blank.
    pub columns: Vec<String>,
    /// The rows.
    pub rows: Vec<Row>,
}

/// One row.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// Name of the row where it is signed by itself: an energy source or a person; else empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub id: String,
    /// One cell a column.
    pub cells: Vec<String>,
    /// Identifiers of the readings whose blanks stand in this row.
    pub readings: Vec<String>,
}

/// A blank for a measured value.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// Identifier, unique in the packet: `<step id>/<what>` with `-<row>` when repeated.
    pub id: String,
    /// What is measured, for people: `Strip width, lane 3`.
    pub label: String,
    /// Unit symbol; empty for a count.
    pub unit: String,
    /// Wanted value.
    pub target: Option<String>,
    /// Least value that passes.
    pub low: Option<String>,
    /// Greatest value that passes.
    pub high: Option<String>,
    /// Where a reading is sure, when the plant judges with a guard band.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub guard: Option<Guard>,
    /// The limits in the plant's other units.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub also_limits: String,
    /// The instrument.
    pub instrument: Option<Instrument>,
    /// What to do when it is outside.
    pub outside: String,
    /// True when nobody may accept it outside its limits, because a person would be hurt.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub never_accepted: bool,
}

/// Limits moved in and out by the uncertainty of the measurement (ISO 14253-1): a reading between the
/// two is too close to tell.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Guard {
    /// Expanded uncertainty, coverage factor 2, in the unit of the reading.
    pub uncertainty: String,
    /// Least value that is surely within.
    pub low: Option<String>,
    /// Greatest value that is surely within.
    pub high: Option<String>,
    /// Below this it is surely outside.
    pub outer_low: Option<String>,
    /// Above this it is surely outside.
    pub outer_high: Option<String>,
}

/// Meaning of a signature on a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Meaning {
    /// The signer did the step as written.
    Performed,
    /// Another person saw that it was done and is right.
    Verified,
    /// The machine is handed over to production.
    Released,
}

/// A signature a step asks for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sign {
    /// What the signature means.
    pub meaning: Meaning,
    /// The role it needs.
    pub role: String,
    /// The row it stands in, by its name; none for a signature of the whole step.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub row: Option<String>,
    /// The only person who may sign; none when everybody with the role may.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
}

/// A procedure's title and revision.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ProcedureFacts {
    /// Identifier, ASCII.
    pub id: String,
    /// Title.
    pub title: String,
    /// Revision in the writer's words.
    pub revision: String,
    /// What it is meant for, 29 CFR 1910.147(c)(4)(ii)(A).
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub intended_use: String,
    /// SHA-256 of the procedure's file, lower-case hex; of the source when it is translated.
    pub sha256: String,
    /// Language of its texts where it is not the packet's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub language: Option<Language>,
    /// The revision of the source that was translated; empty for a source.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub translated_from: String,
    /// True when the source has another revision by now.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub is_old: bool,
    /// What the reader must know of the translation, in the packet's language; mostly empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub flag: String,
}
