//! The files people write, as they write them: every leaf is text, nothing is understood yet.
//!
//! Every struct refuses keys it does not know. What the text means is worked out in
//! [`super::machine`], [`crate::packet`] and [`crate::procedure`].

use std::fmt;

use serde::de::value::MapAccessDeserializer;
use serde::de::{self, MapAccess, Visitor};
use serde::{Deserialize, Deserializer};

use super::named::Named;
use crate::language::Language;
use crate::trade::touch::Surface;

/// `plant.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct PlantFile {
    pub name: String,
    pub domain: String,
    #[serde(default)]
    pub language: Language,
    #[serde(default)]
    pub languages: Vec<Language>,
    #[serde(default)]
    pub address: String,
    pub roles: Named<String>,
    pub accepts_deviation: Accepts,
    #[serde(default)]
    pub units: UnitsEntry,
    #[serde(default)]
    pub judging: Judging,
    #[serde(default)]
    pub note: String,
    #[serde(default)]
    pub findings: FindingsEntry,
    #[serde(default)]
    pub enforced_by: String,
    #[serde(default)]
    pub authorised: Vec<String>,
    #[serde(default)]
    pub electrical: Option<String>,
    #[serde(default)]
    pub shifts: Named<ShiftEntry>,
    #[serde(default)]
    pub approvals: ApprovalsEntry,
    #[serde(default)]
    pub changeovers: Named<Vec<ChangeoverEntry>>,
}

/// The roles that approve what packets are made from.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ApprovalsEntry {
    #[serde(default)]
    pub procedures: Option<String>,
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
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ShiftEntry {
    pub ends: String,
}

/// What a plant does with findings of the check.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct FindingsEntry {
    #[serde(default)]
    pub raise: Vec<String>,
    #[serde(default)]
    pub by: Vec<String>,
    #[serde(default)]
    pub justified: Vec<JustifiedEntry>,
}

/// An error somebody answers for.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct JustifiedEntry {
    pub rule: String,
    pub file: String,
    #[serde(default)]
    pub step: Option<String>,
    pub by: String,
    pub date: String,
    #[serde(default)]
    pub until: Option<String>,
    pub reason: String,
}

/// The units a plant shows.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct UnitsEntry {
    #[serde(default)]
    pub first: Units,
    #[serde(default)]
    pub also: Option<Units>,
}

/// A system of units.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Millimetres, newtons, bar, °C.
    #[default]
    Metric,
    /// Inches, pounds-force, psi, °F.
    Inch,
}

/// How readings are judged against their limits.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Judging {
    /// A reading on the limit passes.
    #[default]
    Plain,
    /// Limits are moved in by the uncertainty of the instrument (ISO 14253-1).
    Guarded,
}

/// `stock.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct StockFile {
    pub films: Named<FilmEntry>,
}

/// A film and its rolls.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct FilmEntry {
    pub name: String,
    pub thickness: String,
    #[serde(default)]
    pub density: Option<String>,
    #[serde(default)]
    pub grammage: Option<String>,
    pub rolls: Vec<RollEntry>,
}

/// Rolls of one width.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct RollEntry {
    pub width: String,
    pub outside: String,
    pub core: String,
    #[serde(default)]
    pub place: String,
}

/// `people.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct PeopleFile {
    pub people: Vec<PersonEntry>,
    #[serde(default)]
    pub revoked: Vec<RevokedEntry>,
}

/// A key that was lost or taken away.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct RevokedEntry {
    pub key: String,
    pub from: String,
    pub why: String,
}

/// One person.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct PersonEntry {
    pub id: String,
    pub name: String,
    pub roles: Vec<RoleEntry>,
}

/// A role somebody holds for a time.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct RoleEntry {
    pub role: String,
    pub from: String,
    #[serde(default)]
    pub until: Option<String>,
}

/// `machines/<id>.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct MachineFile {
    pub id: String,
    pub name: String,
    pub kind: String,
    pub location: String,
    pub datum: String,
    #[serde(default)]
    pub facts: Named<String>,
    #[serde(default)]
    pub instruments: Named<InstrumentEntry>,
    #[serde(default)]
    pub fasteners: Named<FastenerEntry>,
    #[serde(default)]
    pub unwind: Option<UnwindEntry>,
    #[serde(default)]
    pub rails: Named<RailEntry>,
    #[serde(default)]
    pub zones: Named<ZoneEntry>,
    #[serde(default)]
    pub energy: Named<EnergyEntry>,
    #[serde(default)]
    pub changeover: Vec<ChangeoverEntry>,
    /// The kind in whose order the changeover stands in `plant.yaml`; none when the machine has its own.
    #[serde(skip)]
    pub order_of_kind: Option<String>,
    #[serde(default)]
    pub stop_position: String,
    #[serde(default)]
    pub inching: Option<InchingEntry>,
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
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct UseEntry {
    pub procedure: String,
    #[serde(default)]
    pub with: Named<String>,
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
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct InstrumentEntry {
    pub name: String,
    pub resolution: String,
    #[serde(default)]
    pub error_limit: Option<String>,
    #[serde(default)]
    pub range: Option<String>,
    #[serde(default)]
    pub calibration_due: Option<String>,
}

/// A screw and how it is tightened.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct FastenerEntry {
    pub name: String,
    pub thread: String,
    pub class: String,
    #[serde(default)]
    pub head: Head,
    #[serde(default)]
    pub torque: Option<String>,
    #[serde(default)]
    pub nut_factor: Option<String>,
    #[serde(default)]
    pub source: String,
    #[serde(default)]
    pub wrench: Option<String>,
}

/// Form of a screw's head.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize)]
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
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct UnwindEntry {
    pub widest: String,
    #[serde(default)]
    pub narrowest: Option<String>,
    #[serde(default)]
    pub largest: Option<String>,
}

/// A rail.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct RailEntry {
    pub name: String,
    pub zone: String,
    pub left_end: String,
    pub right_end: String,
    pub holders: String,
    pub holder_width: String,
    pub spacing: String,
    #[serde(default)]
    pub lane_pitch: Option<String>,
    #[serde(default)]
    pub lanes_fitted: Option<String>,
    #[serde(default)]
    pub tip_offset: Option<String>,
    #[serde(default)]
    pub obstacles: Vec<ObstacleEntry>,
    #[serde(default)]
    pub scale: Option<ScaleEntry>,
    #[serde(default)]
    pub spares: SparesWord,
    #[serde(default)]
    pub clamp: Option<String>,
    #[serde(default)]
    pub facts: Named<String>,
}

/// Something fixed on a rail, from one position to another; left of the datum is negative.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ObstacleEntry {
    pub name: String,
    pub from: String,
    pub to: String,
}

/// The scale of a rail: what it shows at the datum, and towards which side its numbers grow.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ScaleEntry {
    pub at_datum: String,
    pub grows: Side,
}

/// A side, seen as the machine's datum says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

/// Where spare holders go.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum SparesWord {
    /// To both ends of the rail.
    #[default]
    Parked,
    /// Off the rail.
    Off,
}

/// A guarded zone.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ZoneEntry {
    pub name: String,
    pub guard: String,
    #[serde(default)]
    pub interlock: String,
    pub sources: Vec<String>,
    #[serde(default)]
    pub hazards: Vec<String>,
}

/// Powered movement with a guard open, and what holds it small.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct InchingEntry {
    pub sources: Vec<String>,
    pub control: String,
    pub held: String,
    pub most: String,
}

/// The last periodic inspection of the machine's lockout procedure.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct InspectionEntry {
    pub date: String,
    pub inspector: String,
    pub people: Vec<String>,
}

/// A source of hazardous energy.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct EnergyEntry {
    pub name: String,
    pub kind: String,
    pub magnitude: String,
    pub device: String,
    #[serde(rename = "type")]
    pub device_type: String,
    pub place: String,
    pub safe: String,
    pub lock: String,
    pub stored: String,
    #[serde(default)]
    pub relieve: String,
    #[serde(default)]
    pub wait: Option<String>,
    pub prove: String,
    #[serde(default)]
    pub conductors: Vec<String>,
    #[serde(default)]
    pub dc: String,
    #[serde(default)]
    pub zero: Option<ZeroEntry>,
    #[serde(default)]
    pub touch: Vec<TouchEntry>,
    pub returns: bool,
    pub restore: String,
    #[serde(default)]
    pub hazards: Vec<String>,
}

/// A part that is hot, and how somebody touches it.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct TouchEntry {
    pub part: String,
    pub surface: Surface,
    pub lasts: String,
    #[serde(default)]
    pub gloves: String,
    #[serde(default)]
    pub cools: Option<String>,
    #[serde(default)]
    pub air: Option<String>,
}

/// A measured zero.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ZeroEntry {
    pub unit: String,
    #[serde(default)]
    pub low: Option<String>,
    #[serde(default)]
    pub high: Option<String>,
    #[serde(default)]
    pub instrument: Option<String>,
}

/// `recipes/<id>.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct RecipeFile {
    pub id: String,
    pub name: String,
    pub revision: String,
    pub date: String,
    pub author: String,
    pub reason: String,
    pub machines: Vec<String>,
    #[serde(default)]
    pub draft: bool,
    #[serde(default)]
    pub allergens: Vec<String>,
    #[serde(default)]
    pub inputs: Named<String>,
    #[serde(default)]
    pub tables: Named<TableEntry>,
    #[serde(default)]
    pub web: Option<WebEntry>,
    #[serde(default)]
    pub settings: Named<SettingEntry>,
    #[serde(default)]
    pub net_contents: Option<ContentsEntry>,
    #[serde(default)]
    pub layouts: Named<LayoutEntry>,
    #[serde(default)]
    pub first_piece: Vec<FirstPieceEntry>,
    #[serde(default)]
    pub parts: Vec<PartEntry>,
    #[serde(default)]
    pub material: Vec<PartEntry>,
}

/// A computed value of a recipe.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct SettingEntry {
    pub name: String,
    pub formula: String,
    #[serde(default)]
    pub unit: String,
    #[serde(default)]
    pub tolerance: Option<String>,
    #[serde(default)]
    pub instrument: Option<String>,
    #[serde(default)]
    pub place: String,
    #[serde(default)]
    pub source: String,
}

/// Rows of two values; a formula looks the second up by the first.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct TableEntry {
    pub reads: Reads,
    pub rows: Vec<Vec<String>>,
    #[serde(default)]
    pub source: String,
}

/// Which row of a table answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
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
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct WebEntry {
    pub format: Format,
    pub flat_width: String,
    #[serde(default)]
    pub seal: Option<String>,
    #[serde(default)]
    pub gusset: Option<String>,
    pub lanes: String,
    #[serde(default)]
    pub across: Option<String>,
    #[serde(default = "zero")]
    pub trim: String,
    pub cut_length: String,
    #[serde(default)]
    pub film: Option<String>,
    #[serde(default = "no_share")]
    pub waste: String,
    #[serde(default = "zero")]
    pub threading: String,
}

fn no_share() -> String {
    "0 %".to_owned()
}

/// How a strip becomes a bag.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
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
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ContentsEntry {
    pub of: String,
    pub label: String,
    pub rules: RulesWord,
}

/// Whose rules of net contents.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "UPPERCASE")]
pub enum RulesWord {
    /// Directive 76/211/EEC and OIML R 87.
    Eu,
    /// NIST Handbook 133.
    Us,
}

/// What stands on a rail under a recipe.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct LayoutEntry {
    #[serde(default)]
    pub knives: Option<KnivesEntry>,
    #[serde(default)]
    pub guides: Option<GuidesEntry>,
    pub tolerance: String,
    #[serde(default)]
    pub instrument: Option<String>,
}

/// Knives at lane boundaries.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct KnivesEntry {
    pub lanes: String,
    pub strip: String,
    #[serde(default = "zero")]
    pub trim: String,
    pub edge_cuts: bool,
    #[serde(default)]
    pub run: Vec<String>,
    #[serde(default)]
    pub bar: Option<BarEntry>,
}

/// Which of the bars that share the knives this rail is.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct BarEntry {
    pub number: String,
    pub of: String,
}

fn zero() -> String {
    "0 mm".to_owned()
}

/// Two guides about the centre line.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct GuidesEntry {
    pub opening: String,
}

/// A measurement of the first pieces.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct FirstPieceEntry {
    pub of: String,
    pub each: Each,
    #[serde(default)]
    pub heads: Option<String>,
    #[serde(default)]
    pub instrument: Option<String>,
}

/// How often a first-piece measurement is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
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
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct PartEntry {
    pub item: String,
    #[serde(default)]
    pub place: String,
}

/// `jobs/<id>.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct JobFile {
    pub id: String,
    pub machine: String,
    pub from: String,
    pub to: String,
    pub order: String,
    #[serde(default)]
    pub pieces: Option<String>,
    pub date: String,
    #[serde(default)]
    pub shift: String,
    pub issued: String,
    pub issued_by: String,
    #[serde(default)]
    pub starts: Option<String>,
    #[serde(default)]
    pub language: Option<Language>,
    #[serde(default)]
    pub lockout: Option<LockoutEntry>,
}

/// People who work under one lockout.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct LockoutEntry {
    #[serde(default)]
    pub crew: Vec<String>,
    #[serde(default)]
    pub primary: Option<String>,
    #[serde(default)]
    pub coordinator: Option<String>,
    #[serde(default)]
    pub crafts: Vec<String>,
    #[serde(default)]
    pub shift_change: Option<ShiftChangeEntry>,
    #[serde(default)]
    pub contractors: Vec<ContractorEntry>,
}

/// A change of people under the locks.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ShiftChangeEntry {
    pub before: String,
    pub crew: Vec<String>,
    #[serde(default)]
    pub primary: Option<String>,
}

/// A firm from outside.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ContractorEntry {
    pub firm: String,
    #[serde(default)]
    pub contact: String,
    #[serde(default)]
    pub told_by: Option<String>,
}

/// `hazards.yaml`.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct HazardsFile {
    pub hazards: Named<HazardEntry>,
}

/// A hazard message.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct HazardEntry {
    pub harm: crate::packet::model::Harm,
    pub follows: crate::packet::model::Follows,
    #[serde(default)]
    pub signal: Option<crate::packet::model::Signal>,
    pub hazard: String,
    pub consequence: String,
    pub avoid: String,
    #[serde(default)]
    pub signs: Vec<String>,
    #[serde(default)]
    pub gear: Vec<String>,
    #[serde(default)]
    pub forbids: Vec<Forbidden>,
    /// Language of the message where it is not the one that was wanted.
    #[serde(skip)]
    pub language: Option<Language>,
}

/// What nobody may wear near a hazard while there is power.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Forbidden {
    /// Parts that turn pull a glove in, and the hand with it (ISO 7010 P028, from memory).
    Gloves,
}

/// Front matter of a procedure.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct FrontMatter {
    pub id: String,
    pub title: String,
    pub revision: String,
    pub date: String,
    pub author: String,
    pub reason: String,
    #[serde(default)]
    pub draft: bool,
    #[serde(default, rename = "use")]
    pub intended_use: String,
    #[serde(default, rename = "for")]
    pub applies: AppliesEntry,
    #[serde(default)]
    pub when: WhenEntry,
    #[serde(default)]
    pub parameters: Named<ParameterEntry>,
    #[serde(default)]
    pub standards: Vec<String>,
}

/// What a procedure is told by the place that uses it.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ParameterEntry {
    #[serde(rename = "type")]
    pub kind: ParameterKind,
    #[serde(default)]
    pub unit: Option<String>,
    #[serde(default)]
    pub default: Option<String>,
}

/// What the value of a parameter is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
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
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in DEVELOPERS.md")]
pub struct TranslationFront {
    pub of: String,
    pub translates: String,
    pub title: String,
    pub date: String,
    pub translator: String,
    #[serde(default)]
    pub reason: String,
    #[serde(default, rename = "use")]
    pub intended_use: String,
}

/// The texts of a step in another language: no facts.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in DEVELOPERS.md")]
pub struct StepTexts {
    pub of: String,
    #[serde(default)]
    pub tools: Vec<String>,
    #[serde(default)]
    pub checks: Vec<String>,
    #[serde(default)]
    pub outside: Option<String>,
    #[serde(default)]
    pub reading: Option<String>,
    #[serde(default)]
    pub minor_servicing: Option<MinorEntry>,
}

/// What a machine must have for a procedure to fit.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct AppliesEntry {
    #[serde(default)]
    pub rail: Option<String>,
    #[serde(default)]
    pub energy: bool,
}

/// The facts of a step.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct StepEntry {
    #[serde(default = "any")]
    pub needs: crate::packet::model::EnergyState,
    #[serde(default = "work")]
    pub stage: crate::packet::model::Stage,
    #[serde(default)]
    pub block: Option<crate::packet::model::Block>,
    #[serde(default)]
    pub minor_servicing: Option<MinorEntry>,
    #[serde(default)]
    pub marks: Vec<crate::packet::model::Mark>,
    #[serde(default)]
    pub zone: Option<String>,
    #[serde(default)]
    pub hazards: Vec<String>,
    #[serde(default)]
    pub tools: Vec<String>,
    #[serde(default)]
    pub repeat: Option<String>,
    #[serde(default)]
    pub reading: Option<ReadingEntry>,
    #[serde(default)]
    pub checks: Vec<String>,
    #[serde(default)]
    pub when: WhenEntry,
    #[serde(default)]
    pub outside: Option<String>,
    #[serde(default)]
    pub sign: SignEntry,
    #[serde(default)]
    pub minutes: Option<u32>,
}

fn any() -> crate::packet::model::EnergyState {
    crate::packet::model::EnergyState::Any
}

fn work() -> crate::packet::model::Stage {
    crate::packet::model::Stage::Work
}

/// A blank.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct ReadingEntry {
    #[serde(default)]
    pub of: Option<String>,
    #[serde(default)]
    pub name: Option<String>,
    #[serde(default)]
    pub unit: Option<String>,
    #[serde(default)]
    pub low: Option<String>,
    #[serde(default)]
    pub high: Option<String>,
    #[serde(default)]
    pub instrument: Option<String>,
    #[serde(default)]
    pub accept: AcceptWord,
    /// The name in the language of a translation; the blank is still called after `name`.
    #[serde(skip)]
    pub label: Option<String>,
}

/// Whether a reading outside its limits may be accepted.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum AcceptWord {
    /// By the role that accepts deviations.
    #[default]
    ByRole,
    /// Never: a person would be hurt.
    Never,
}

/// Why a small job during production needs no lockout.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct MinorEntry {
    #[serde(default)]
    pub routine: String,
    #[serde(default)]
    pub repetitive: String,
    #[serde(default)]
    pub integral: String,
    #[serde(default)]
    pub measure: String,
    #[serde(default)]
    pub risk_assessment: String,
}

/// When a procedure or a step is needed: everything that is said must hold.
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct WhenEntry {
    #[serde(default)]
    pub kinds: Vec<String>,
    #[serde(default)]
    pub rails: Vec<String>,
    #[serde(default)]
    pub zones: Vec<String>,
    #[serde(default)]
    pub instruments: Vec<String>,
    #[serde(default)]
    pub energy: Vec<String>,
    #[serde(default)]
    pub facts: Vec<String>,
    #[serde(default)]
    pub changes: Vec<String>,
    #[serde(default)]
    pub job: Option<JobWord>,
}

/// What a job must name for a step to be in its packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
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
#[derive(Debug, Clone, Default, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs, reason = "the keys are described in the README")]
pub struct SignEntry {
    #[serde(default)]
    pub performed: Option<String>,
    #[serde(default)]
    pub verified: Option<String>,
    #[serde(default)]
    pub released: Option<String>,
}
