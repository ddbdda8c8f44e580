//! The files people write, as they write them: every leaf is text, nothing is understood yet.
//!
//! Every struct refuses keys it does not know. The words beside each key are the descriptions in the
//! JSON Schemas that [`super::schema`] makes from these types: they are written for the technical
//! writer, and say what follows when a key is left out. What the text means is worked out in
//! [`super::machine`], [`crate::packet`] and [`crate::procedure`].

use std::borrow::Cow;
use std::fmt;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::value::MapAccessDeserializer;
use serde::de::{self, MapAccess, Visitor};
use serde::{Deserialize, Deserializer};

use super::named::Named;
use super::schema;
use crate::language::Language;
use crate::trade::touch::Surface;

/// `plant.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlantFile {
    /// Name of the plant, as it stands on every page and packet: `Saltmarsh Seasonings`.
    pub name: String,
    /// Domain of the signatures: they are made for `signoff@<domain>`, approvals for
    /// `register@<domain>`, audits for `audit@<domain>`. Small letters, digits, hyphens, at least
    /// one dot: `plant.example`. Never change it once somebody has signed.
    #[schemars(extend("pattern" = schema::DOMAIN, "maxLength" = 200))]
    pub domain: String,
    /// Language of pages, packets and texts of the program: `en`, `es`, `es-419` (Spanish with a
    /// decimal point) or `de`. English when left out.
    #[serde(default)]
    pub language: Language,
    /// Languages that texts of the plant's files may have beside the main one, and that a job may
    /// ask for: `[en, es]`.
    #[serde(default)]
    pub languages: Vec<Language>,
    /// Address of the published site, `https://changeover.plant.example`: the QR code on paper
    /// leads there. The code names the digest alone when left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::ADDRESS, "maxLength" = 200))]
    pub address: String,
    /// The roles people sign in, each under a name of its own with what it stands for: `lead: Leads
    /// the shift, checks and releases`.
    pub roles: Named<String>,
    /// The role that may accept a reading outside its limits: `quality`. Or a role for single
    /// procedures beside a `default`: `{ default: quality, knives: lead, lockout: nobody }`;
    /// `nobody` is nobody.
    pub accepts_deviation: Accepts,
    /// The systems of units that are shown. Metric alone when left out.
    #[serde(default)]
    pub units: UnitsEntry,
    /// How readings are judged: `plain` or `guarded`. Plain when left out.
    #[serde(default)]
    pub judging: Judging,
    /// A note that stands on every packet. None when left out.
    #[serde(default)]
    pub note: String,
    /// What becomes of findings of `check`: which warnings are errors, and which errors somebody
    /// answers for.
    #[serde(default)]
    pub findings: FindingsEntry,
    /// Who sees to it that the lockout procedures are followed, and how (29 CFR
    /// 1910.147(c)(4)(ii)). Needed as soon as a machine has a source of energy.
    #[serde(default)]
    pub enforced_by: String,
    /// Roles whose people may lock out (29 CFR 1910.147(d)(4)(i)): `[technician, electrician]`.
    /// Needed as soon as a machine has a source of energy.
    #[serde(default)]
    pub authorised: Vec<String>,
    /// The role that measures electrical zero; one of `authorised`. Needed as soon as a machine has
    /// an electrical source with a `zero`.
    #[serde(default)]
    pub electrical: Option<String>,
    /// Shifts by name, with the time each ends: `{ early: { ends: "14:00" } }`. With `starts` in a
    /// job, a warning says when a shift ends under the locks. Not judged when left out.
    #[serde(default)]
    pub shifts: Named<ShiftEntry>,
    /// The roles that approve procedures and recipes. Nothing has to be approved when left out.
    #[serde(default)]
    pub approvals: ApprovalsEntry,
    /// The order of procedures for all machines of a kind that have none of their own, by the
    /// `kind` that stands in their files: `{ Multi-lane pouch line: [prepare, lockout, ...] }`.
    #[serde(default)]
    pub changeovers: Named<Vec<ChangeoverEntry>>,
}

/// The roles that approve what packets are made from.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ApprovalsEntry {
    /// The role that approves procedures and translations, in exactly the bytes they have. Packets
    /// by one that nobody approved are drafts. No approval is asked for when left out.
    #[serde(default)]
    pub procedures: Option<String>,
    /// The role that approves recipes, in the same way.
    #[serde(default)]
    pub recipes: Option<String>,
}

/// Who accepts a deviation: one role, or another for single procedures.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Accepts {
    /// The role for every procedure that is not named.
    pub default: String,
    /// The role for the steps of a procedure, by its identifier.
    pub by_procedure: Named<String>,
}

impl<'de> Deserialize<'de> for Accepts {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(AcceptsReader)
    }
}

impl JsonSchema for Accepts {
    fn schema_name() -> Cow<'static, str> {
        "Accepts".into()
    }

    fn inline_schema() -> bool {
        true
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "type": ["string", "object"],
            "required": ["default"],
            "additionalProperties": generator.subschema_for::<String>(),
        })
    }
}

struct AcceptsReader;

impl<'de> Visitor<'de> for AcceptsReader {
    type Value = Accepts;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a role, or `default` and procedures with a role each")
    }

    fn visit_str<E: de::Error>(self, role: &str) -> Result<Accepts, E> {
        Ok(Accepts { default: role.to_owned(), by_procedure: Named::default() })
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Accepts, A::Error> {
        let mut by_procedure = Named::<String>::deserialize(MapAccessDeserializer::new(map))?;
        let default = by_procedure.remove("default");
        let default = default.ok_or_else(|| de::Error::missing_field("default"))?;
        Ok(Accepts { default, by_procedure })
    }
}

/// A shift.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShiftEntry {
    /// Time of day at which the shift ends, in quotes: `"14:00"`.
    #[schemars(extend("pattern" = schema::CLOCK))]
    pub ends: String,
    /// Who works in it, each by `id`: the crew plan of a job counts on them. Who holds no role on
    /// the day of a job is left out of its plan. Nobody is named when left out.
    #[serde(default)]
    pub people: Vec<String>,
}

/// What a plant does with findings of the check.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FindingsEntry {
    /// Warnings that are errors in this plant, by the name in brackets that `check` prints:
    /// `[hard-to-read]`. None when left out.
    #[serde(default)]
    pub raise: Vec<String>,
    /// Roles that may answer for an error. The role of `accepts_deviation` when left out.
    #[serde(default)]
    pub by: Vec<String>,
    /// Errors that somebody answers for: they become warnings and are printed on each packet they
    /// concern. Only the few that are a matter of judgement; a person inside with live energy never
    /// is.
    #[serde(default)]
    pub justified: Vec<JustifiedEntry>,
}

/// An error somebody answers for.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JustifiedEntry {
    /// The name in brackets that `check` prints: `second-person-missing`.
    pub rule: String,
    /// The file, as `check` prints it: `instructions/knives.md`.
    pub file: String,
    /// Heading of the step of a procedure. The whole file when left out.
    #[serde(default)]
    pub step: Option<String>,
    /// Who answers: `id` of a person who holds a role for it on the `date`.
    #[schemars(extend("pattern" = schema::PERSON))]
    pub by: String,
    /// Day from which it holds, `2026-01-31`.
    #[schemars(extend("pattern" = schema::DAY))]
    pub date: String,
    /// Last day on which it holds. Without end when left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::DAY))]
    pub until: Option<String>,
    /// Why it may be so; printed on the packets.
    pub reason: String,
}

/// The units a plant shows.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UnitsEntry {
    /// The system for values that nobody chose a unit for: `metric` or `inch`. Metric when left
    /// out.
    #[serde(default)]
    pub first: Units,
    /// The system that stands beside it in brackets, `56.0 mm (2.205 in)`. None when left out.
    #[serde(default)]
    pub also: Option<Units>,
}

/// A system of units.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Millimetres, newtons, bar, °C.
    #[default]
    Metric,
    /// Inches, pounds-force, psi, °F.
    Inch,
}

/// How readings are judged against their limits.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Judging {
    /// A reading on the limit passes.
    #[default]
    Plain,
    /// Limits are moved in by the uncertainty of the instrument (ISO 14253-1).
    Guarded,
}

/// `stock.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StockFile {
    /// Films by identifier; a recipe names one in `web: { film: .. }`. None when left out.
    #[serde(default)]
    pub films: Named<FilmEntry>,
    /// Tools, instruments and change parts of which the plant says where they lie or how many there
    /// are, by the name that steps, machines and recipes call them. Nobody counts a tool that does not
    /// stand here.
    #[serde(default)]
    pub tools: Vec<ToolEntry>,
}

/// A tool, an instrument or a change part: where it lies, and how many there are.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ToolEntry {
    /// What it is called, each once: `Torque wrench 25 N·m`.
    pub item: String,
    /// Where it lies: `Tool crib`; it stands on the kit list. Nothing when left out.
    #[serde(default)]
    pub place: String,
    /// How many there are, at least 1: `2`. Two jobs that need more than that at the same time are a
    /// warning. Not counted when left out.
    #[serde(default)]
    pub count: Option<u32>,
}

/// A film and its rolls.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FilmEntry {
    /// Name of the film for people: `Clear film`.
    pub name: String,
    /// Thickness, a length: `62 µm`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub thickness: String,
    /// Mass of a volume: `0.92 g/cm³`. Either this or `grammage`.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub density: Option<String>,
    /// Mass of an area: `57 g/m²`. Either this or `density`.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub grammage: Option<String>,
    /// The rolls there are, each width once.
    pub rolls: Vec<RollEntry>,
}

/// Rolls of one width.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RollEntry {
    /// Width of the roll: `330 mm`. The web runs from the narrowest roll that is wide enough.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub width: String,
    /// Outside diameter when full: `300 mm`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub outside: String,
    /// Outside diameter of its core: `92 mm`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub core: String,
    /// Where the rolls lie: `Aisle 1`; it stands on the kit list. Nothing when left out.
    #[serde(default)]
    pub place: String,
}

/// `people.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PeopleFile {
    /// Everybody who signs, issues jobs or locks out.
    pub people: Vec<PersonEntry>,
    /// Keys that were lost or taken away, with the time from which they count no more. None when
    /// left out.
    #[serde(default)]
    pub revoked: Vec<RevokedEntry>,
}

/// A key that was lost or taken away.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RevokedEntry {
    /// Fingerprint of the key, as `ssh-keygen -l` prints it: `SHA256:` and 43 letters.
    #[schemars(extend("pattern" = schema::FINGERPRINT))]
    pub key: String,
    /// From when on it counts no more: `2026-03-01T06:00:00Z`, with `Z` or an offset, to the
    /// second.
    #[schemars(extend("pattern" = schema::TIME))]
    pub from: String,
    /// Why: `tablet lost`.
    pub why: String,
}

/// One person.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PersonEntry {
    /// The name of the person's keys in `allowed_signers`: `t.one@plant.example`. Letters, digits
    /// and `. _ @ + -`.
    #[schemars(extend("pattern" = schema::PERSON))]
    pub id: String,
    /// Name for people, as it is printed.
    pub name: String,
    /// The roles the person holds, from when to when. An empty list for somebody who holds none any
    /// more.
    pub roles: Vec<RoleEntry>,
}

/// A role somebody holds for a time.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RoleEntry {
    /// A role of `plant.yaml`.
    pub role: String,
    /// First day on which it is held, `2026-01-31`.
    #[schemars(extend("pattern" = schema::DAY))]
    pub from: String,
    /// Last day on which it is held. Held without end when left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::DAY))]
    pub until: Option<String>,
}

/// `machines/<id>.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MachineFile {
    /// Identifier, the same as the name of the file: letters, digits and hyphens, 64 at most.
    #[schemars(extend("pattern" = schema::ID))]
    pub id: String,
    /// Name for people: `Six-lane pouch line`.
    pub name: String,
    /// What kind of line it is, in words: `Multi-lane pouch line`.
    pub kind: String,
    /// Where it stands: `Hall 2, bay 4`.
    pub location: String,
    /// The point that every position on its rails is measured from, and from which side left and
    /// right are seen: `Centre line scribed on the knife rail, seen from the operator side`.
    pub datum: String,
    /// Quantities of the machine that formulas and texts may use as `machine.<name>`: `{ jaw_pitch:
    /// 120 mm }`. A name begins with a small letter and has small letters, digits and `_`. None
    /// when left out.
    #[serde(default)]
    #[schemars(extend("propertyNames" = schema::names()))]
    pub facts: Named<String>,
    /// What is measured or read with at this machine, by identifier.
    #[serde(default)]
    pub instruments: Named<InstrumentEntry>,
    /// Screws that are loosened and tightened in a changeover, by name. Texts may use `{{
    /// <name>.torque }}` and `{{ <name>.key }}`.
    #[serde(default)]
    #[schemars(extend("propertyNames" = schema::names()))]
    pub fasteners: Named<FastenerEntry>,
    /// What the unwind takes. Any web when left out.
    #[serde(default)]
    pub unwind: Option<UnwindEntry>,
    /// Rails on which knives or guides are set, by name: `knife_rail`.
    #[serde(default)]
    #[schemars(extend("propertyNames" = schema::names()))]
    pub rails: Named<RailEntry>,
    /// Guarded zones: where somebody may reach in, by identifier. A step names one in `zone`.
    #[serde(default)]
    pub zones: Named<ZoneEntry>,
    /// Every source of hazardous energy, by identifier, in the order in which they are isolated.
    /// Those held by a block stand first. Somebody has to walk the machine: the program cannot see
    /// whether the list is right.
    #[serde(default)]
    pub energy: Named<EnergyEntry>,
    /// The procedures of a changeover in their order, by `id`: `[prepare, lockout, ...]`. One with
    /// parameters says `{ procedure: knives, with: { rail: rear_rail } }`. Left out, the order of its
    /// kind in `plant.yaml` counts.
    #[serde(default)]
    pub changeover: Vec<ChangeoverEntry>,
    /// The kind in whose order the changeover stands in `plant.yaml`; none when the machine has its own.
    #[serde(skip)]
    pub order_of_kind: Option<String>,
    /// Where moving parts stand before isolation: `Jaw carriage at the red park mark`. Needed as
    /// soon as a source is of kind `gravity`, `spring` or `mechanical`.
    #[serde(default)]
    pub stop_position: String,
    /// Powered movement with a guard open for a test or a positioning. There is none when left out.
    #[serde(default)]
    pub inching: Option<InchingEntry>,
    /// The last periodic inspection of the lockout procedure, at most 12 months before a job (29
    /// CFR 1910.147(c)(6)(i)). Needed as soon as there is a source of energy, until one is signed
    /// with `inspected`.
    #[serde(default)]
    pub lockout_inspection: Option<InspectionEntry>,
}

/// A procedure of a changeover: its identifier alone, or with values for its parameters.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct ChangeoverEntry {
    /// The procedure, and the values.
    pub used: UseEntry,
    /// Its line in the file, from 1 on; 0 while nobody has looked.
    pub line: u32,
}

/// A procedure that is used, with values for its parameters.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UseEntry {
    /// The procedure, by its `id`.
    pub procedure: String,
    /// Values for its parameters, by name: `{ rail: rear_rail }`. Those left out have their defaults.
    #[serde(default)]
    pub with: Named<String>,
}

impl JsonSchema for ChangeoverEntry {
    fn schema_name() -> Cow<'static, str> {
        "ChangeoverEntry".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let mut schema = UseEntry::json_schema(generator);
        schema.insert("type".to_owned(), serde_json::json!(["string", "object"]));
        schema
    }
}

impl<'de> Deserialize<'de> for ChangeoverEntry {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(ChangeoverReader)
    }
}

struct ChangeoverReader;

impl<'de> Visitor<'de> for ChangeoverReader {
    type Value = ChangeoverEntry;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a procedure, or `procedure` and `with`")
    }

    fn visit_str<E: de::Error>(self, procedure: &str) -> Result<ChangeoverEntry, E> {
        let used = UseEntry { procedure: procedure.to_owned(), with: Named::default() };
        Ok(ChangeoverEntry { used, line: 0 })
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<ChangeoverEntry, A::Error> {
        let used = UseEntry::deserialize(MapAccessDeserializer::new(map))?;
        Ok(ChangeoverEntry { used, line: 0 })
    }
}

/// An instrument at the machine.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct InstrumentEntry {
    /// Name for people, each once: `Rail caliper 400 mm`.
    pub name: String,
    /// Smallest step it shows: `0.05 mm`. A fraction for a rule marked in fractions: `1/32 in`. At
    /// least ten steps should lie between the limits of what it measures.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub resolution: String,
    /// How far it may be off, as its certificate says: `±0.05 mm`, `±4 %` of what it shows, or `ISO
    /// 6789` for a torque wrench. A quarter of the tolerance at most. Not judged when left out;
    /// needed when the plant judges `guarded`.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::DIGIT))]
    pub error_limit: Option<String>,
    /// What it measures: `0 to 400 mm`, `at most 60 N·m`. Not judged when left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::DIGIT))]
    pub range: Option<String>,
    /// Last day on which a job may use it, `2027-03-31`. Never over when left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::DAY_OR_NOTHING))]
    pub calibration_due: Option<String>,
    /// `true` when it is built into the machine, such as a gauge or a display: nobody fetches it.
    /// `false` when left out.
    #[serde(default)]
    pub fixed: bool,
}

/// A screw and how it is tightened.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FastenerEntry {
    /// Name for people: `Clamp screws of the knife holders`.
    pub name: String,
    /// Metric coarse thread: `M6`.
    pub thread: String,
    /// Strength class, in quotes: `"8.8"`, `"10.9"` or `"12.9"`.
    pub class: String,
    /// Form of the head: `socket`, `button` or `countersunk`. Socket when left out.
    #[serde(default)]
    pub head: Head,
    /// The maker's tightening torque: `9.5 N·m`. It comes first. When left out it is computed, and
    /// the packet says so.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub torque: Option<String>,
    /// Nut factor K of the computed torque, from 0.08 to 0.35. 0.2 (dry) when left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub nut_factor: Option<String>,
    /// Where the torque stands: `machine manual, section 7.3`. Nothing when left out.
    #[serde(default)]
    pub source: String,
    /// The torque wrench, an identifier of `instruments`. A stated torque is set to its nearest
    /// step. Not judged when left out.
    #[serde(default)]
    pub wrench: Option<String>,
}

/// Form of a screw's head.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Head {
    /// Socket head cap screw, ISO 4762.
    #[default]
    Socket,
    /// Button head, ISO 7380-1.
    Button,
    /// Countersunk head, ISO 10642.
    Countersunk,
}

/// What the unwind takes.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UnwindEntry {
    /// Widest web: `420 mm`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub widest: String,
    /// Narrowest web. Not judged when left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub narrowest: Option<String>,
    /// Largest outside diameter of a roll. Not judged when left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub largest: Option<String>,
}

/// A rail.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RailEntry {
    /// Name for people: `Slitting knife rail`.
    pub name: String,
    /// The guarded zone it is in, an identifier of `zones`.
    pub zone: String,
    /// Distance of its left end from the datum, without a sign: `300 mm`. Positions are shown in
    /// the unit of this length.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub left_end: String,
    /// Distance of its right end from the datum, without a sign.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub right_end: String,
    /// How many holders are on it: `9`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub holders: String,
    /// Width of a holder: `36 mm`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub holder_width: String,
    /// Least distance between two knife tips; not below `holder_width`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub spacing: String,
    /// Pitch of the lanes downstream, when it is fixed: a strip must then be as wide. Any when left
    /// out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub lane_pitch: Option<String>,
    /// How many lanes the machine has, used or not: `6`. Lanes then have the machine's numbers.
    /// When left out, lanes are numbered as they run.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub lanes_fitted: Option<String>,
    /// How far the tip stands right of the middle of its holder; left is negative. `0 mm` when left
    /// out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub tip_offset: Option<String>,
    /// What stands fixed on the rail and must not be met. Nothing when left out.
    #[serde(default)]
    pub obstacles: Vec<ObstacleEntry>,
    /// The rail's own scale. Positions are given from the datum alone when left out.
    #[serde(default)]
    pub scale: Option<ScaleEntry>,
    /// Where holders go that are not needed: `parked` at both ends of the rail, or `off` the rail.
    /// Parked when left out.
    #[serde(default)]
    pub spares: SparesWord,
    /// The screw that clamps its holders, a name of `fasteners`: texts may use `{{ <rail>.hex_key
    /// }}` and `{{ <rail>.clamp_torque }}`.
    #[serde(default)]
    pub clamp: Option<String>,
    /// Quantities of the rail that formulas and texts may use as `<rail>.<name>`: `{ hex_key: 5 mm
    /// }`. None when left out.
    #[serde(default)]
    #[schemars(extend("propertyNames" = schema::names()))]
    pub facts: Named<String>,
}

/// Something fixed on a rail, from one position to another; left of the datum is negative.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ObstacleEntry {
    /// What it is: `Bearing block`.
    pub name: String,
    /// Position of its left side; left of the datum is negative: `-240 mm`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub from: String,
    /// Position of its right side: `-220 mm`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub to: String,
}

/// The scale of a rail: what it shows at the datum, and towards which side its numbers grow.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ScaleEntry {
    /// What the scale shows at the datum: `500 mm`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub at_datum: String,
    /// Towards which side its numbers grow: `left` or `right`.
    pub grows: Side,
}

/// A side, seen as the machine's datum says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

/// Where spare holders go.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum SparesWord {
    /// To both ends of the rail.
    #[default]
    Parked,
    /// Off the rail.
    Off,
}

/// A guarded zone.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ZoneEntry {
    /// Name for people: `Slitting section`.
    pub name: String,
    /// The guard in front of it: `Hinged guard G2`.
    pub guard: String,
    /// The interlock of the guard: `Coded switch B2`. An interlock isolates nothing. None when left
    /// out.
    #[serde(default)]
    pub interlock: String,
    /// Sources of energy that reach into it, identifiers of `energy`. Who reaches in has all of
    /// them isolated, locked, relieved and verified.
    pub sources: Vec<String>,
    /// Hazard messages that every step in it shows, by identifier: `[knife-edge]`. At least one.
    #[serde(default)]
    pub hazards: Vec<String>,
    /// How many steps may be under way in it at once: `2` where there is room for two people who do
    /// not move what the other holds. One when left out.
    #[serde(default = "one")]
    pub at_once: u32,
}

/// Powered movement with a guard open, and what holds it small.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct InchingEntry {
    /// Sources whose locks come off for it, identifiers of `energy`: `[mains]`.
    pub sources: Vec<String>,
    /// The control that moves it: `Jog button S7 at guard G2`.
    pub control: String,
    /// How it is held: `hold-to-run`. Anything else is a warning.
    pub held: String,
    /// How far it moves at a press, or how fast while held: `25 mm`, `1 m/min`. At most 75 mm or 5
    /// m/min.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub most: String,
}

/// The last periodic inspection of the machine's lockout procedure.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct InspectionEntry {
    /// Day of the inspection, `2026-03-12`.
    #[schemars(extend("pattern" = schema::DAY))]
    pub date: String,
    /// Name of an authorised person who does not use this procedure.
    pub inspector: String,
    /// Names of those it was gone through with; the inspector is not one of them.
    pub people: Vec<String>,
}

/// A source of hazardous energy.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EnergyEntry {
    /// Name for people: `Mains supply`.
    pub name: String,
    /// Kind of energy: `electrical`, `pneumatic`, `hydraulic`, `mechanical`, `spring`, `gravity`,
    /// `thermal`, `chemical`, `vacuum` or `other`.
    #[schemars(extend("enum" = super::energy::KINDS))]
    pub kind: String,
    /// How much it is, a quantity that fits the kind: `400 V`, `6 bar`, `38 kg`, `180 °C`. More
    /// quantities may follow after a comma: `400 V, 32 A`.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub magnitude: String,
    /// The device that isolates it: `Main disconnect Q1`. A push button, a selector, an emergency
    /// stop or an interlock is refused (29 CFR 1910.147(b)).
    pub device: String,
    /// What the device is: `disconnect`, `breaker`, `valve`, `block` or `plug`.
    #[serde(rename = "type")]
    #[schemars(extend("enum" = super::energy::DEVICES))]
    pub device_type: String,
    /// Where the device is; outside the guards: `Cabinet C1, left door`.
    pub place: String,
    /// Its safe position, in quotes where it is `"OFF"`.
    pub safe: String,
    /// How it is locked: `Padlock through the handle`.
    pub lock: String,
    /// What stays behind after isolation: `Air in the cylinders`; `nothing` where nothing does.
    pub stored: String,
    /// How what is stored is let out, held or waited out (29 CFR 1910.147(d)(5)). Needed unless
    /// `stored` is `nothing`.
    #[serde(default)]
    pub relieve: String,
    /// The least time to wait, the same as `relieve` says: `5 min`. The row gets a blank for its
    /// start. No wait when left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub wait: Option<String>,
    /// How zero is proved, from outside the guards where it can be: `Read pressure gauge M1`.
    pub prove: String,
    /// Conductors of a measured electrical source, without the earth: `[L1, L2, L3, N]`. The
    /// program writes the pairs to measure. Needed for a source measured in volts.
    #[serde(default)]
    pub conductors: Vec<String>,
    /// Where the DC link is measured: `DC terminals of each drive`. There is none when left out.
    #[serde(default)]
    pub dc: String,
    /// The blank for the measured zero. Needed for `electrical`, `pneumatic`, `hydraulic`,
    /// `thermal` and `vacuum`.
    #[serde(default)]
    pub zero: Option<ZeroEntry>,
    /// Hot parts that somebody may touch. Needed for a `thermal` source from 43 °C on; for no other
    /// kind.
    #[serde(default)]
    pub touch: Vec<TouchEntry>,
    /// Whether it can build up again while the locks are on; then it is verified again before each
    /// step that reaches in (29 CFR 1910.147(d)(5)(ii)).
    pub returns: bool,
    /// How it is given back, step by step.
    pub restore: String,
    /// Hazard messages of those who handle it, by identifier. At least one; an electrical source
    /// shows the sign of electricity, a thermal one that of a hot surface.
    #[serde(default)]
    pub hazards: Vec<String>,
}

/// A part that is hot, and how somebody touches it.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TouchEntry {
    /// The part: `Cross jaws`.
    pub part: String,
    /// What its surface is: `bare-metal`, `coated-metal`, `ceramic`, `plastic` or `wood`.
    pub surface: Surface,
    /// How long somebody touches it, at least 0.5 s: `1 min`. A temperature above the burn
    /// threshold of that time needs `gloves` (ISO 13732-1, EN 563).
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub lasts: String,
    /// Gloves that are worn: `Heat gloves, in the kit`. Bare hands when left out.
    #[serde(default)]
    pub gloves: String,
    /// Time constant of its cooling in still air: `25 min`. It goes with `air`, and gives an
    /// estimate that never replaces the reading. No estimate when left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub cools: Option<String>,
    /// Temperature of the air: `25 °C`. It goes with `cools`.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub air: Option<String>,
}

/// A measured zero.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ZeroEntry {
    /// Unit of the reading, which fits the kind: `V`, `bar`, `°C`.
    pub unit: String,
    /// Least reading that is zero, a plain number. When left out, the same as `high` below zero; no
    /// limit for a temperature.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub low: Option<String>,
    /// Greatest reading that is zero, a plain number: `0`. Below the magnitude; below 50 for a
    /// voltage (29 CFR 1910.333(a)(1), from memory).
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub high: Option<String>,
    /// What it is read with, an identifier of `instruments`, whose range holds the live source.
    #[serde(default)]
    pub instrument: Option<String>,
}

/// `recipes/<id>.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RecipeFile {
    /// Identifier, the same as the name of the file: letters, digits and hyphens, 64 at most.
    #[schemars(extend("pattern" = schema::ID))]
    pub id: String,
    /// Name of the product format: `Celery mustard, 53 mm`.
    pub name: String,
    /// Number of this revision: `3`.
    pub revision: String,
    /// Day of this revision, `2026-01-31`.
    #[schemars(extend("pattern" = schema::DAY))]
    pub date: String,
    /// Who wrote it.
    pub author: String,
    /// Why it was changed: `First issue`.
    pub reason: String,
    /// Machines it runs on, by `id`. It is worked out for each.
    pub machines: Vec<String>,
    /// `true` while it is not to be used: its packets print DRAFT, and nobody can sign them.
    /// `false` when left out.
    #[serde(default)]
    pub draft: bool,
    /// Allergens in the product: `[mustard]`. What the next product lacks is cleaned out before its
    /// material comes in. None when left out.
    #[serde(default)]
    pub allergens: Vec<String>,
    /// Quantities that are given, by name; formulas use the names: `{ flat_width: 40 mm, lanes: 4
    /// }`. A name begins with a small letter and has small letters, digits and `_`.
    #[serde(default)]
    #[schemars(extend("propertyNames" = schema::names()))]
    pub inputs: Named<String>,
    /// Tables by name; a formula looks a value up as `<name>(value)`.
    #[serde(default)]
    #[schemars(extend("propertyNames" = schema::names()))]
    pub tables: Named<TableEntry>,
    /// The web: how a bag is folded from a strip, and what film it is run from. None when left out.
    #[serde(default)]
    pub web: Option<WebEntry>,
    /// Values that are worked out by a formula, by name. Formulas and texts may use the name.
    #[serde(default)]
    #[schemars(extend("propertyNames" = schema::names()))]
    pub settings: Named<SettingEntry>,
    /// What the label promises; limits of a setting and the average of the first pieces follow from
    /// it.
    #[serde(default)]
    pub net_contents: Option<ContentsEntry>,
    /// What stands on the rails of the machine, by the name of the rail.
    #[serde(default)]
    #[schemars(extend("propertyNames" = schema::names()))]
    pub layouts: Named<LayoutEntry>,
    /// What is measured on the first pieces. Nothing when left out.
    #[serde(default)]
    pub first_piece: Vec<FirstPieceEntry>,
    /// Change parts to fetch before the stop. None when left out.
    #[serde(default)]
    pub parts: Vec<PartEntry>,
    /// Material to fetch. The roll of the web comes by itself.
    #[serde(default)]
    pub material: Vec<PartEntry>,
}

/// A computed value of a recipe.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SettingEntry {
    /// Name for people: `Strip width`.
    pub name: String,
    /// How it is worked out, or a value: `2 * flat_width + 2 * fin`, `140 mm`. Arithmetic,
    /// comparison, `if(question, this, that)`, `min`, `max`, `abs`, `round`, `round_up` and
    /// `round_down(value, step)`, `sqrt`, `pi`, tables by name.
    pub formula: String,
    /// The unit it is shown in: `mm`. The usual one of the plant when left out; leave it out for a
    /// count.
    #[serde(default)]
    pub unit: String,
    /// What the value may be: `±0.5 mm`, `+0.3/-0.1 mm`, `3 to 5 N`, `at least 3 N`, `at most 5 N`,
    /// or a class as `ISO 2768-1 m`. Without limits, and without a blank on the first pieces, when
    /// left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::DIGIT))]
    pub tolerance: Option<String>,
    /// What it is set or measured with, an identifier of the machine's `instruments`. The target is
    /// rounded to its steps, never past a limit.
    #[serde(default)]
    pub instrument: Option<String>,
    /// Where somebody sets it: `Operator panel, pull length`. What has no place is only worked out.
    #[serde(default)]
    pub place: String,
    /// Where the formula comes from: `machine manual, section 4.2`. Nothing when left out.
    #[serde(default)]
    pub source: String,
}

/// Rows of two values; a formula looks the second up by the first.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TableEntry {
    /// Which row answers: `exactly`, `next-up`, `next-down` or `between`. Nothing is extrapolated.
    pub reads: Reads,
    /// Rows of two quantities, rising by the first: `[[20 µm, 0.3 s], [40 µm, 0.4 s]]`.
    pub rows: Vec<Vec<String>>,
    /// Where the rows come from. Nothing when left out.
    #[serde(default)]
    pub source: String,
}

/// Which row of a table answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Reads {
    /// The row with this very value.
    Exactly,
    /// The first row that is not below it.
    NextUp,
    /// The last row that is not above it.
    NextDown,
    /// A straight line between the two rows beside it.
    Between,
}

/// The web: how a bag is folded from a strip, and what film it is run from. All leaves are formulas.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WebEntry {
    /// How a strip becomes a bag: `fin`, `lap` or `flat`.
    pub format: Format,
    /// Width of the flat bag, a formula: `flat_width`, `40 mm`.
    pub flat_width: String,
    /// Width of the fin or the lap, a formula. Needed for `fin` and `lap`; none for `flat`.
    #[serde(default)]
    pub seal: Option<String>,
    /// Depth of the gusset at each side, a formula. None when left out.
    #[serde(default)]
    pub gusset: Option<String>,
    /// How many lanes run, a formula: `lanes`, `4`.
    pub lanes: String,
    /// Lanes from the first to the last, run or not, where the run has a gap. The same as `lanes`
    /// when left out.
    #[serde(default)]
    pub across: Option<String>,
    /// Trim at each edge of the web, a formula.
    #[serde(default = "zero")]
    pub trim: String,
    /// Length of a piece along the web, a formula.
    pub cut_length: String,
    /// The film, an identifier of `stock.yaml`. No roll is chosen when left out.
    #[serde(default)]
    pub film: Option<String>,
    /// Share of the film that is lost, at least 0 and below 1: `3 %`.
    #[serde(default = "no_share")]
    pub waste: String,
    /// Film lost on each roll, a length: `12 m`.
    #[serde(default = "zero")]
    pub threading: String,
}

fn no_share() -> String {
    "0 %".to_owned()
}

/// How a strip becomes a bag.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Format {
    /// A tube with its edges sealed inside to inside, standing off: twice the flat and two fins.
    Fin,
    /// A tube with its edges sealed over each other: twice the flat and the lap.
    Lap,
    /// No tube: the strip is as wide as the flat bag.
    Flat,
}

/// What the label promises.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ContentsEntry {
    /// The setting it is about: `fill_weight`. It is measured on the first pieces.
    pub of: String,
    /// What the label says, a formula: `50 g`.
    pub label: String,
    /// Whose rules: `EU` (from 5 g or 5 ml on) or `US`.
    pub rules: RulesWord,
}

/// Whose rules of net contents.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "UPPERCASE")]
pub enum RulesWord {
    /// Directive 76/211/EEC and OIML R 87.
    Eu,
    /// NIST Handbook 133.
    Us,
}

/// What stands on a rail under a recipe.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LayoutEntry {
    /// Knives at the edges of the lanes. Either this or `guides`.
    #[serde(default)]
    pub knives: Option<KnivesEntry>,
    /// Two guides about the centre line. Either this or `knives`.
    #[serde(default)]
    pub guides: Option<GuidesEntry>,
    /// How far a position may be off, the same on both sides: `±0.5 mm`.
    #[schemars(extend("pattern" = schema::DIGIT))]
    pub tolerance: String,
    /// What positions are measured with, an identifier of the machine's `instruments`; they are
    /// rounded to its steps. Not rounded when left out.
    #[serde(default)]
    pub instrument: Option<String>,
}

/// Knives at lane boundaries.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KnivesEntry {
    /// How many lanes run, a formula: `lanes`, `6`.
    pub lanes: String,
    /// Width of a strip, a formula: `strip`.
    pub strip: String,
    /// Trim at each edge of the web, a formula.
    #[serde(default = "zero")]
    pub trim: String,
    /// `true` when knives cut the trim off at both edges of the web, `false` when only between
    /// lanes.
    pub edge_cuts: bool,
    /// Numbers of the lanes that run, rising: `[1, 2, 4]`. The middle ones when left out. Only on a
    /// rail with `lanes_fitted`.
    #[serde(default)]
    pub run: Vec<String>,
    /// Which of the bars that share the knives this rail is, where knives stand closer than their
    /// holders are wide. The rail has all of them when left out.
    #[serde(default)]
    pub bar: Option<BarEntry>,
}

/// Which of the bars that share the knives this rail is.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BarEntry {
    /// Number of this bar, from 1.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub number: String,
    /// How many bars share the knives, at least 2.
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub of: String,
}

fn zero() -> String {
    "0 mm".to_owned()
}

/// Two guides about the centre line.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GuidesEntry {
    /// Distance between the two guides, a formula: `jar_diameter + 1 mm`.
    pub opening: String,
}

/// A measurement of the first pieces.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FirstPieceEntry {
    /// The setting that is measured; it has a `tolerance`.
    pub of: String,
    /// How often: once in each `lane`, once for each filling `head`, or once, `piece`.
    pub each: Each,
    /// How many filling heads, only with `each: head`.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::QUANTITY))]
    pub heads: Option<String>,
    /// What it is measured with, an identifier of the machine's `instruments`. That of the setting
    /// when left out.
    #[serde(default)]
    pub instrument: Option<String>,
}

/// How often a first-piece measurement is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Each {
    /// One blank for each lane.
    Lane,
    /// One blank for each filling head.
    Head,
    /// One blank.
    Piece,
}

/// A part or a material and where it lies.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PartEntry {
    /// What: `Forming tube 53 mm`.
    pub item: String,
    /// Where it lies: `Rack B2`. Nothing when left out.
    #[serde(default)]
    pub place: String,
    /// How many are fetched, at least 1: `3`. One when left out. There are no more of a change part
    /// with a place than this, unless `stock.yaml` counts it.
    #[serde(default = "one")]
    pub count: u32,
}

/// `jobs/<id>.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JobFile {
    /// Identifier, the same as the name of the file: letters, digits and hyphens, 64 at most. Its
    /// record has the same name.
    #[schemars(extend("pattern" = schema::ID))]
    pub id: String,
    /// The machine, by `id`.
    #[schemars(extend("pattern" = schema::ID))]
    pub machine: String,
    /// The recipe that is on the machine, by `id`.
    #[schemars(extend("pattern" = schema::ID))]
    pub from: String,
    /// The recipe that comes, by `id`.
    #[schemars(extend("pattern" = schema::ID))]
    pub to: String,
    /// The order, for people: `Order 26-118, Celery mustard`.
    pub order: String,
    /// How many pieces are ordered: `90000` or `90 000`. Film and rolls follow. Not worked out when
    /// left out.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::COUNT_OR_NOTHING))]
    pub pieces: Option<String>,
    /// Day of the changeover, `2026-01-31`.
    #[schemars(extend("pattern" = schema::DAY))]
    pub date: String,
    /// The shift, a name of `shifts` where the plant has them: `early`. None when left out.
    #[serde(default)]
    pub shift: String,
    /// When it was issued: `2026-01-09T14:00:00+01:00`, with `Z` or an offset, to the second.
    #[schemars(extend("pattern" = schema::TIME))]
    pub issued: String,
    /// Who issued it, `id` of a person.
    #[schemars(extend("pattern" = schema::PERSON))]
    pub issued_by: String,
    /// Time of day at which the changeover starts, in quotes: `"12:30"`. When left out, nobody
    /// warns of a shift that ends under the locks.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::CLOCK))]
    pub starts: Option<String>,
    /// Language of its packet, one of `languages` of the plant. The plant's when left out.
    #[serde(default)]
    pub language: Option<Language>,
    /// Who is there for it, each by `id`, instead of the `people` of its shift: the crew plan
    /// counts on them. Those of the shift when left out.
    #[serde(default)]
    pub people: Vec<String>,
    /// Who works under its lockout, where it is more than one person. One person alone when left
    /// out.
    #[serde(default)]
    pub lockout: Option<LockoutEntry>,
}

/// People who work under one lockout.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LockoutEntry {
    /// People who work inside the guards, each by `id`; each signs a personal lock on and off.
    #[serde(default)]
    pub crew: Vec<String>,
    /// Who holds primary responsibility, by `id` (29 CFR 1910.147(f)(3)(ii)(A)). Needed with a
    /// `crew`.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::PERSON))]
    pub primary: Option<String>,
    /// Who coordinates crafts and firms, by `id`. Needed with several `crafts` or with
    /// `contractors`.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::PERSON))]
    pub coordinator: Option<String>,
    /// Crafts that work under it: `[mechanics, electricians]`. One when left out.
    #[serde(default)]
    pub crafts: Vec<String>,
    /// A change of people under the locks. None when left out.
    #[serde(default)]
    pub shift_change: Option<ShiftChangeEntry>,
    /// Firms from outside. None when left out.
    #[serde(default)]
    pub contractors: Vec<ContractorEntry>,
}

/// A change of people under the locks.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ShiftChangeEntry {
    /// The procedure before which people change, by `id`: the locks are on by then.
    pub before: String,
    /// People who work inside after the change, each by `id`.
    pub crew: Vec<String>,
    /// Who holds primary responsibility from then on, by `id`. Needed.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::PERSON))]
    pub primary: Option<String>,
}

/// A firm from outside.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ContractorEntry {
    /// Name of the firm.
    pub firm: String,
    /// Who answers for it: `A. Example, tel. 0100`. Needed.
    #[serde(default)]
    pub contact: String,
    /// Who exchanged lockout rules with the firm, `id` of a person (29 CFR 1910.147(f)(2), from
    /// memory). Needed.
    #[serde(default)]
    #[schemars(extend("pattern" = schema::PERSON))]
    pub told_by: Option<String>,
}

/// `hazards.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HazardsFile {
    /// Hazard messages by identifier, beside the shipped ones; one of the same name takes the place
    /// of the shipped one and may not be softer.
    pub hazards: Named<HazardEntry>,
}

/// A hazard message.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HazardEntry {
    /// The worst harm it can credibly do: `death`, `serious`, `moderate`, `minor` or `damage`. The
    /// signal word follows from it (ANSI Z535.4, ISO 3864-2).
    pub harm: crate::packet::model::Harm,
    /// Whether the harm `will` or `could` follow when nobody avoids it.
    pub follows: crate::packet::model::Follows,
    /// The signal word, where it is written: `DANGER`, `WARNING`, `CAUTION` or `NOTICE`. It must be
    /// the one that follows from `harm` and `follows`. Worked out when left out.
    #[serde(default)]
    pub signal: Option<crate::packet::model::Signal>,
    /// What the hazard is: `Rollers that turn draw hands in.`
    pub hazard: String,
    /// What may follow: `Crushed fingers.`
    pub consequence: String,
    /// How to avoid it: `Keep hands out.` What has to be done and signed is a step, not an
    /// avoidance.
    pub avoid: String,
    /// Signs of ISO 7010 by identifier, `[W022]`; a message of injury has a warning sign. Those of
    /// the gear come by themselves. None when left out.
    #[serde(default)]
    pub signs: Vec<String>,
    /// Protective equipment: `[Cut-resistant gloves]`. It comes onto the kit list. None when left
    /// out.
    #[serde(default)]
    pub gear: Vec<String>,
    /// What nobody may wear near it while there is power: `[gloves]`. Nothing when left out.
    #[serde(default)]
    pub forbids: Vec<Forbidden>,
    /// Language of the message where it is not the one that was wanted.
    #[serde(skip)]
    pub language: Option<Language>,
}

/// What nobody may wear near a hazard while there is power.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Forbidden {
    /// Parts that turn pull a glove in, and the hand with it (ISO 7010 P028, from memory).
    Gloves,
}

/// Front matter of a procedure.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FrontMatter {
    /// Identifier, the same as the name of the file: letters, digits and hyphens, 64 at most. One
    /// of your own with the name of a shipped one takes its place.
    #[schemars(extend("pattern" = schema::ID))]
    pub id: String,
    /// Title for people: `Lock out every energy source`.
    pub title: String,
    /// Number of this revision: `2`.
    pub revision: String,
    /// Day of this revision, `2026-01-31`.
    pub date: String,
    /// Who wrote it.
    pub author: String,
    /// Why it was changed: `First issue`.
    pub reason: String,
    /// `true` while it is not to be used: its packets print DRAFT, and nobody can sign them.
    /// `false` when left out.
    #[serde(default)]
    pub draft: bool,
    /// What it is for, in a procedure of the lockout (29 CFR 1910.147(c)(4)(ii)): `Changeover work
    /// inside the guards`.
    #[serde(default, rename = "use")]
    pub intended_use: String,
    /// What a machine must have for it. Any machine when left out.
    #[serde(default, rename = "for")]
    pub applies: AppliesEntry,
    /// When the procedure is needed; with the reason, it falls away otherwise. Always when left out.
    #[serde(default)]
    pub when: WhenEntry,
    /// What the place that uses it may tell it, by name: `{ rail: { type: rail, default: knife_rail } }`.
    /// None when left out.
    #[serde(default)]
    pub parameters: Named<ParameterEntry>,
    /// Procedures that are done before it begins, by `id`, so that a crew can do others beside it:
    /// `[line-clearance]`. Lockout and release wait for everybody in any case. Everything before it
    /// in the order when left out.
    #[serde(default)]
    pub after: Option<Vec<String>>,
    /// Standards and paragraphs it follows, for people. None when left out.
    #[serde(default)]
    pub standards: Vec<String>,
}

/// What a procedure is told by the place that uses it.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ParameterEntry {
    /// What its value is: `rail`, `zone`, `setting`, `instrument`, `quantity` or `text`.
    #[serde(rename = "type")]
    pub kind: ParameterKind,
    /// The unit of a `quantity`: `mm`. Its values must fit it.
    #[serde(default)]
    pub unit: Option<String>,
    /// The value where none is given. A value must be given when left out.
    #[serde(default)]
    pub default: Option<String>,
}

/// What the value of a parameter is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum ParameterKind {
    /// A rail of the machine.
    Rail,
    /// A zone of the machine.
    Zone,
    /// A setting of the recipe wanted.
    Setting,
    /// An instrument at the machine.
    Instrument,
    /// A number with a unit.
    Quantity,
    /// Words.
    Text,
}

/// Front matter of a procedure's translation.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TranslationFront {
    /// The procedure: its `id` and its file name.
    #[schemars(extend("pattern" = schema::ID))]
    pub of: String,
    /// The revision of the source that was translated: `2`.
    pub translates: String,
    /// Its title in the language of the translation.
    pub title: String,
    /// Day of the translation, `2026-01-31`.
    pub date: String,
    /// Who translated it.
    pub translator: String,
    /// Why: `First translation`. Nothing when left out.
    #[serde(default)]
    pub reason: String,
    /// The `use` of the source in the language; only when the source has one.
    #[serde(default, rename = "use")]
    pub intended_use: String,
}

/// The texts of a step in another language: no facts.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepTexts {
    /// The heading of the source in small letters, with a hyphen for everything that is no letter
    /// or digit: `tell-the-affected-people`.
    pub of: String,
    /// The source's `tools`, as many and in its order.
    #[serde(default)]
    pub tools: Vec<String>,
    /// The source's `checks`, as many and in its order.
    #[serde(default)]
    pub checks: Vec<String>,
    /// The source's `outside`.
    #[serde(default)]
    pub outside: Option<String>,
    /// The `name` of the source's `reading`.
    #[serde(default)]
    pub reading: Option<String>,
    /// The source's `minor_servicing`, reason by reason.
    #[serde(default)]
    pub minor_servicing: Option<MinorEntry>,
}

/// What a machine must have for a procedure to fit.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AppliesEntry {
    /// A rail that the machine must have, by name: `knife_rail`. None when left out.
    #[serde(default)]
    pub rail: Option<String>,
    /// `true` when the machine must have a source of energy. `false` when left out.
    #[serde(default)]
    pub energy: bool,
}

/// The facts of a step.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StepEntry {
    /// State of energy it needs: `any` (nobody reaches into a zone), `energised`, `isolated` or
    /// `test`. `any` when left out.
    #[serde(default = "any")]
    pub needs: crate::packet::model::EnergyState,
    /// Part in taking energy away and giving it back: `notify`, `prepare`, `shutdown`, `isolate`,
    /// `lock`, `relieve`, `try-out`, `verify`, `inspect`, `clear-people`, `unlock`, `notify-after`,
    /// `restart`; or `work`, ordinary work. `work` when left out.
    #[serde(default = "work")]
    pub stage: crate::packet::model::Stage,
    /// `test` for a step of a block in which locks come off for a test or a positioning and go on
    /// again (29 CFR 1910.147(f)(1)). None when left out.
    #[serde(default)]
    pub block: Option<crate::packet::model::Block>,
    /// Why it needs no lockout although somebody reaches in under power: each reason is printed (29
    /// CFR 1910.147(a)(2)(ii), note). None when left out.
    #[serde(default)]
    pub minor_servicing: Option<MinorEntry>,
    /// What it settles: `line-cleared`, `material-in`, `cleaned`, `label-checked`, `first-piece`,
    /// `run`. Nothing when left out.
    #[serde(default)]
    pub marks: Vec<crate::packet::model::Mark>,
    /// The guarded zone that somebody reaches into, or a rail in it. None when left out.
    #[serde(default)]
    pub zone: Option<String>,
    /// Hazard messages it shows, by identifier. Those of its zone come by themselves.
    #[serde(default)]
    pub hazards: Vec<String>,
    /// Tools and material to fetch, which may name values: `["hex key {{ knife_rail.hex_key }}"]`.
    /// None when left out.
    #[serde(default)]
    pub tools: Vec<String>,
    /// What it has a row for: `energy`, `inching`, `settings`, `first-piece`, `lanes`,
    /// `<rail>.moves`, `<rail>.holders`, or people: `crew`, `primary`, `arriving`, `leaving`,
    /// `handover`. It is done once when left out.
    #[serde(default)]
    pub repeat: Option<String>,
    /// The blank it has, in each row where it repeats. None when left out.
    #[serde(default)]
    pub reading: Option<ReadingEntry>,
    /// Lines to tick. Lines that no step of its stage may lack come by themselves.
    #[serde(default)]
    pub checks: Vec<String>,
    /// When it is needed. Always when left out.
    #[serde(default)]
    pub when: WhenEntry,
    /// What to do when a reading is outside its limits: `Set it again.` A standard text when left
    /// out.
    #[serde(default)]
    pub outside: Option<String>,
    /// Roles that sign it. At least one.
    #[serde(default)]
    pub sign: SignEntry,
    /// Planned minutes, a whole number. Not counted when left out.
    #[serde(default)]
    pub minutes: Option<u32>,
    /// How many people do it at once, without who checks it: `2`. One when left out.
    #[serde(default = "one")]
    pub people: u32,
    /// `running` when it may be done while the line runs: set-up outside the stop. `stopped`, only
    /// while the line stands, when left out.
    #[serde(default)]
    pub line: LineWord,
}

/// One person, or one step at a time.
fn one() -> u32 {
    1
}

/// What the line does while a step is done.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum LineWord {
    /// It must stand.
    #[default]
    Stopped,
    /// It may run.
    Running,
}

fn any() -> crate::packet::model::EnergyState {
    crate::packet::model::EnergyState::Any
}

fn work() -> crate::packet::model::Stage {
    crate::packet::model::Stage::Work
}

/// A blank.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReadingEntry {
    /// What is read: a setting of the recipe, `position` of a holder, or `zero` of a source. A
    /// reading of its own, with a `name`, when left out.
    #[serde(default)]
    pub of: Option<String>,
    /// Name of a reading of its own: `Air pressure`.
    #[serde(default)]
    pub name: Option<String>,
    /// Unit of a reading of its own: `bar`. A plain number when left out.
    #[serde(default)]
    pub unit: Option<String>,
    /// Least value of a reading of its own, a plain number. No limit when left out.
    #[serde(default)]
    pub low: Option<String>,
    /// Greatest value of a reading of its own, a plain number. No limit when left out.
    #[serde(default)]
    pub high: Option<String>,
    /// What a reading of its own is read with, an identifier of the machine's `instruments`. None
    /// is named when left out.
    #[serde(default)]
    pub instrument: Option<String>,
    /// Whether somebody may accept it outside its limits: `by-role`, or `never` where a person
    /// would be hurt. `by-role` when left out.
    #[serde(default)]
    pub accept: AcceptWord,
    /// The name in the language of a translation; the blank is still called after `name`.
    #[serde(skip)]
    pub label: Option<String>,
}

/// Whether a reading outside its limits may be accepted.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum AcceptWord {
    /// By the role that accepts deviations.
    #[default]
    ByRole,
    /// Never: a person would be hurt.
    Never,
}

/// Why a small job during production needs no lockout.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MinorEntry {
    /// Why it is routine.
    #[serde(default)]
    pub routine: String,
    /// How often it comes again.
    #[serde(default)]
    pub repetitive: String,
    /// Why production cannot do without it.
    #[serde(default)]
    pub integral: String,
    /// What protects instead of locks: guard, tool, device.
    #[serde(default)]
    pub measure: String,
    /// Where the risk assessment is kept.
    #[serde(default)]
    pub risk_assessment: String,
}

/// When a procedure or a step is needed: everything that is said must hold.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WhenEntry {
    /// Kinds of machine, one of which it must be: `[Multi-lane pouch line]`. Any when left out.
    #[serde(default)]
    pub kinds: Vec<String>,
    /// Rails that the machine must have, all of them. None asked for when left out.
    #[serde(default)]
    pub rails: Vec<String>,
    /// Zones that the machine must have. None asked for when left out.
    #[serde(default)]
    pub zones: Vec<String>,
    /// Instruments that must be at the machine. None asked for when left out.
    #[serde(default)]
    pub instruments: Vec<String>,
    /// Kinds of energy that the machine must have: `[pneumatic]`. None asked for when left out.
    #[serde(default)]
    pub energy: Vec<String>,
    /// Facts that the machine must have. None asked for when left out.
    #[serde(default)]
    pub facts: Vec<String>,
    /// Settings and rails: needed when one of them changes; it falls away, with the reason, when all
    /// stay. No step of a lockout may. Always needed when left out.
    #[serde(default)]
    pub changes: Vec<String>,
    /// What the job must name: `crew`, `shift-change` or `contractors`. Any job when left out.
    #[serde(default)]
    pub job: Option<JobWord>,
}

/// What a job must name for a step to be in its packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum JobWord {
    /// A crew under one lockout.
    Crew,
    /// A change of people under the locks.
    ShiftChange,
    /// Firms from outside.
    Contractors,
}

impl JobWord {
    /// What the job names, for people.
    pub fn words(self) -> &'static str {
        match self {
            JobWord::Crew => "a crew under one lockout",
            JobWord::ShiftChange => "a change of the crew",
            JobWord::Contractors => "contractors",
        }
    }
}

/// Roles that sign a step, by meaning.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SignEntry {
    /// Role of who does it: `technician`.
    #[serde(default)]
    pub performed: Option<String>,
    /// Role of who checks it, another person than who did it: `lead`.
    #[serde(default)]
    pub verified: Option<String>,
    /// Role of who releases: `quality`.
    #[serde(default)]
    pub released: Option<String>,
}
