//! Metric screws: threads, proof loads, keys, and the torque that tightens a joint.
//!
//! A torque worked out is a first guess: friction alone moves it by an eighth either way. The
//! figure of the machine's maker goes before anything worked out here ([`Joint::compare`]).
//!
//! Sources, read in tables that quote them: pitches ISO 261/262; stress areas, proof stresses and
//! proof loads ISO 898-1; keys ISO 4762, ISO 7380-1 and ISO 10642.

use std::fmt;

use crate::quantity::{Dimension, NoNumber, NoQuantity, Number, Quantity};

/// Nut factor K of plain dry steel: 0.20.
///
/// Source: a design text after Shigley and Machinery's Handbook (0.20 to 0.25 dry, 0.15 to 0.20
/// oiled, 0.12 to 0.16 with anti-seize).
pub const USUAL_NUT_FACTOR: Number = Number::constant(20, 100);

/// Share of the proof load for a joint that is taken apart again: 0.75. Source: the same text.
pub const REUSABLE_SHARE: Number = Number::constant(75, 100);

/// Share of the proof load for a joint that stays: 0.90, from memory. More is above what the class
/// bears.
pub const PERMANENT_SHARE: Number = Number::constant(90, 100);

/// One size of metric coarse thread.
#[derive(Debug, PartialEq, Eq)]
pub struct Screw {
    /// Nominal diameter in mm.
    size: u32,
    /// Pitch in mm.
    pitch: Number,
    /// Nominal stress area in mm², as printed.
    area: Number,
    /// Proof loads in N for 8.8, 10.9 and 12.9, as printed.
    proof_loads: [u32; 3],
    /// Key of a socket cap head in mm.
    key: Number,
    /// Key of a button or countersunk head in mm, where it is known.
    low_head_key: Option<u32>,
}

/// Property class: how much the steel bears.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    /// 8.8
    Medium,
    /// 10.9
    High,
    /// 12.9
    Highest,
}

/// Form of a head with a hexagon socket.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Head {
    /// Socket cap, ISO 4762.
    SocketCap,
    /// Button, ISO 7380-1.
    Button,
    /// Countersunk, ISO 10642.
    Countersunk,
}

/// A screw and how tightly it shall hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Joint {
    /// The thread.
    pub screw: &'static Screw,
    /// What its steel bears.
    pub class: Class,
    /// Nut factor K, which stands for the friction.
    pub nut_factor: Number,
    /// Preload as a share of proof stress times stress area.
    pub share: Number,
}

/// A maker's torque beside the computed one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Comparison {
    /// The torque to use: the maker's.
    pub torque: Quantity,
    /// What would have been computed.
    pub computed: Quantity,
    /// How far the maker's lies from the computed one, as a share of that: -0.1 for 10 % below.
    pub deviation: Number,
    /// Whether it is more than the torque at 90 % of proof: above what the class bears.
    pub above_class: bool,
}

/// There is no torque.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoTorque {
    /// Nut factor or share is not above zero.
    NotPositive,
    /// The preload would be more than the proof load.
    PastProof {
        /// The share that was asked for.
        share: Number,
    },
    /// The stated figure is no torque, or a number became too large.
    Quantity(NoQuantity),
}

impl<T: Into<NoQuantity>> From<T> for NoTorque {
    fn from(no: T) -> NoTorque {
        NoTorque::Quantity(no.into())
    }
}

impl fmt::Display for NoTorque {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NoTorque::NotPositive => f.write_str("nut factor and share must be above zero"),
            NoTorque::PastProof { share } => {
                write!(f, "{share} of the proof load is more than all")
            }
            NoTorque::Quantity(no) => no.fmt(f),
        }
    }
}

impl std::error::Error for NoTorque {}

impl Screw {
    /// The thread written so: `M6`.
    pub fn parse(written: &str) -> Option<&'static Screw> {
        SCREWS.iter().find(|screw| screw.to_string() == written)
    }

    /// Nominal diameter d.
    pub fn diameter(&self) -> Quantity {
        Quantity { amount: Number::from(self.size), dimension: Dimension::LENGTH }
    }

    /// Pitch P of the coarse thread. Source: ISO 261/262.
    pub fn pitch(&self) -> Quantity {
        Quantity { amount: self.pitch, dimension: Dimension::LENGTH }
    }

    /// Nominal stress area A_s as printed. Source: ISO 898-1.
    pub fn stress_area(&self) -> Quantity {
        Quantity { amount: self.area, dimension: Dimension::AREA }
    }

    /// Stress area by the formula: π/4·((d₂ + d₃)/2)², d₂ = d - 0.649 519 P, d₃ = d - 1.226 869 P.
    ///
    /// Source: ISO 898-1.
    ///
    /// # Errors
    /// [`NoNumber::Overflow`]; the table is checked to give none.
    pub fn calculated_area(&self) -> Result<Quantity, NoNumber> {
        const OFF_BOTH: Number = Number::constant(649_519 + 1_226_869, 1_000_000);
        let both = Number::from(2 * self.size).sub(OFF_BOTH.mul(self.pitch)?)?;
        let amount = Number::PI.mul(both.mul(both)?)?.div(Number::from(16_u32))?;
        Ok(Quantity { amount, dimension: Dimension::AREA })
    }

    /// Proof stress S_p: 8.8 580 MPa to M16 and 600 above, 10.9 830, 12.9 970. Source: ISO 898-1.
    pub fn proof_stress(&self, class: Class) -> Quantity {
        let megapascal = match class {
            Class::Medium if self.size <= 16 => 580_u32,
            Class::Medium => 600,
            Class::High => 830,
            Class::Highest => 970,
        };
        Quantity { amount: thousand(megapascal), dimension: Dimension::PRESSURE }
    }

    /// Proof load as printed; not exactly stress area times proof stress. Source: ISO 898-1.
    pub fn proof_load(&self, class: Class) -> Quantity {
        let [medium, high, highest] = self.proof_loads;
        let newton = match class {
            Class::Medium => medium,
            Class::High => high,
            Class::Highest => highest,
        };
        Quantity { amount: thousand(newton), dimension: Dimension::FORCE }
    }

    /// Width across flats of the hexagon key; none where no source was read.
    ///
    /// Sources: socket cap ISO 4762; the lower heads, with smaller keys, ISO 7380-1 and ISO 10642.
    pub fn key(&self, head: Head) -> Option<Quantity> {
        let amount = match head {
            Head::SocketCap => self.key,
            Head::Button | Head::Countersunk => Number::from(self.low_head_key?),
        };
        Some(Quantity { amount, dimension: Dimension::LENGTH })
    }
}

/// MPa and N in base units.
fn thousand(number: u32) -> Number {
    Number::from(i64::from(number) * 1000)
}

impl fmt::Display for Screw {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "M{}", self.size)
    }
}

impl Class {
    /// All of them, from weak to strong.
    pub const ALL: [Class; 3] = [Class::Medium, Class::High, Class::Highest];

    /// The class written so: `8.8`, `10.9`, `12.9`.
    pub fn parse(written: &str) -> Option<Class> {
        Class::ALL.into_iter().find(|class| class.symbol() == written)
    }

    fn symbol(self) -> &'static str {
        match self {
            Class::Medium => "8.8",
            Class::High => "10.9",
            Class::Highest => "12.9",
        }
    }
}

impl fmt::Display for Class {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.symbol())
    }
}

impl Joint {
    /// A dry joint that is taken apart again: K = 0.20, 0.75 of proof.
    pub fn usual(screw: &'static Screw, class: Class) -> Joint {
        Joint { screw, class, nut_factor: USUAL_NUT_FACTOR, share: REUSABLE_SHARE }
    }

    /// The preload: F = share·S_p·A_s, with the printed stress area.
    ///
    /// # Errors
    /// [`NoTorque::NotPositive`], [`NoTorque::PastProof`].
    pub fn preload(&self) -> Result<Quantity, NoTorque> {
        if self.nut_factor <= Number::ZERO || self.share <= Number::ZERO {
            return Err(NoTorque::NotPositive);
        }
        if self.share > Number::ONE {
            return Err(NoTorque::PastProof { share: self.share });
        }
        let proof = self.screw.proof_stress(self.class).mul(self.screw.stress_area())?;
        Ok(proof.mul(Quantity::plain(self.share))?)
    }

    /// The tightening torque: T = K·F·d.
    ///
    /// Source: a design text after Shigley and Machinery's Handbook.
    ///
    /// # Errors
    /// As [`Joint::preload`].
    pub fn torque(&self) -> Result<Quantity, NoTorque> {
        let lever = self.screw.diameter().mul(Quantity::plain(self.nut_factor))?;
        Ok(self.preload()?.mul(lever)?)
    }

    /// Sets the maker's torque beside the computed one; the maker's wins.
    ///
    /// # Errors
    /// As [`Joint::preload`], and when what is stated is no torque.
    pub fn compare(&self, stated: Quantity) -> Result<Comparison, NoTorque> {
        let computed = self.torque()?;
        let most = Joint { share: PERMANENT_SHARE, ..*self }.torque()?;
        let above_class = stated.compare(most)?.is_gt();
        let deviation = stated.sub(computed)?.div(computed)?.amount;
        Ok(Comparison { torque: stated, computed, deviation, above_class })
    }
}

/// One row: size, pitch and area in hundredths, proof loads, key in tenths, key of lower heads.
const fn screw(
    (size, pitch, area): (u32, i128, i128),
    proof_loads: [u32; 3],
    key: i128,
    low_head_key: Option<u32>,
) -> Screw {
    let (pitch, area) = (Number::constant(pitch, 100), Number::constant(area, 100));
    Screw { size, pitch, area, proof_loads, key: Number::constant(key, 10), low_head_key }
}

/// Metric coarse threads M3 to M20.
pub static SCREWS: &[Screw] = &[
    screw((3, 50, 503), [2920, 4180, 4880], 25, None),
    screw((4, 70, 878), [5100, 7290, 8520], 30, None),
    screw((5, 80, 1420), [8230, 11_800, 13_800], 40, None),
    screw((6, 100, 2010), [11_600, 16_700, 19_500], 50, Some(4)),
    screw((8, 125, 3660), [21_200, 30_400, 35_500], 60, Some(5)),
    screw((10, 150, 5800), [33_700, 48_100, 56_300], 80, None),
    screw((12, 175, 8430), [48_900, 70_000, 81_800], 100, None),
    screw((14, 200, 11_500), [66_700, 95_500, 112_000], 120, None),
    screw((16, 200, 15_700), [91_000, 130_000, 152_000], 140, None),
    screw((18, 250, 19_200), [115_000, 159_000, 186_000], 140, None),
    screw((20, 250, 24_500), [147_000, 203_000, 238_000], 170, None),
];

#[cfg(test)]
mod tests {
    use super::{Class, Head, Joint, NoTorque, PERMANENT_SHARE, SCREWS, Screw};
    use crate::quantity::{Measure, Number, Quantity, Unit};

    fn number(text: &str) -> Number {
        Number::parse(text).unwrap()
    }

    fn quantity(text: &str) -> Quantity {
        Measure::parse(text).unwrap().quantity
    }

    fn joint(screw: &str, class: &str) -> Joint {
        Joint::usual(Screw::parse(screw).unwrap(), Class::parse(class).unwrap())
    }

    /// The torque in N·m, with as many decimals as the expected text has.
    #[track_caller]
    fn check(screw: &str, class: &str, expected: &str) {
        let torque = joint(screw, class).torque().unwrap().in_unit(Unit::find("N·m")).unwrap();
        let places = expected.split_once('.').map_or(0, |(_, decimals)| decimals.len());
        assert_eq!(torque.decimal(u32::try_from(places).unwrap()), expected, "{screw} {class}");
    }

    /// Worked independently: T = 0.20·0.75·S_p·A_s·d.
    #[test]
    fn torques_are_the_independently_worked_ones() {
        check("M6", "8.8", "10.492");
        check("M8", "8.8", "25.474");
        check("M8", "10.9", "36.454");
        check("M10", "8.8", "50.460");
        check("M12", "8.8", "88.009");
        check("M20", "8.8", "441.000");
        for (screw, torques) in [
            ("M3", ["1.31", "1.88", "2.20"]),
            ("M4", ["3.06", "4.37", "5.11"]),
            ("M5", ["6.18", "8.84", "10.3"]),
            ("M6", ["10.5", "15.0", "17.5"]),
            ("M8", ["25.5", "36.5", "42.6"]),
            ("M10", ["50.5", "72.2", "84.4"]),
            ("M12", ["88.0", "126", "147"]),
            ("M14", ["140", "200", "234"]),
            ("M16", ["219", "313", "365"]),
            ("M18", ["311", "430", "503"]),
            ("M20", ["441", "610", "713"]),
        ] {
            for (class, expected) in ["8.8", "10.9", "12.9"].into_iter().zip(torques) {
                check(screw, class, expected);
            }
        }
    }

    /// Whether `found` lies within so many thousandths of `published`.
    #[track_caller]
    fn check_near(found: Quantity, published: Quantity, thousandths: i64, what: &str) {
        let off = found.sub(published).unwrap().div(published).unwrap().amount.abs();
        assert!(off <= Number::ratio(thousandths, 1000).unwrap(), "{what}: {off} off");
    }

    /// A machine manual's table at a friction of 0.14: within 5 %.
    #[test]
    fn torques_are_near_those_of_a_handbook() {
        for (class, torques) in [
            ("8.8", ["10", "25", "49", "85", "210", "425"]),
            ("10.9", ["15", "36", "72", "125", "310", "610"]),
            ("12.9", ["18", "43", "84", "145", "365", "710"]),
        ] {
            for (screw, published) in ["M6", "M8", "M10", "M12", "M16", "M20"].iter().zip(torques) {
                let found = joint(screw, class).torque().unwrap();
                let published = quantity(&format!("{published} N·m"));
                check_near(found, published, 50, &format!("{screw} {class}"));
            }
        }
    }

    /// ISO 898-1: printed proof loads are stress area times proof stress within 1 %.
    #[test]
    fn proof_loads_are_near_area_times_stress() {
        for screw in SCREWS {
            for class in Class::ALL {
                let product = screw.stress_area().mul(screw.proof_stress(class)).unwrap();
                let what = format!("{screw} {class}");
                check_near(product, screw.proof_load(class), 10, &what);
            }
        }
    }

    /// ISO 898-1: areas by the formula, worked independently, and within 0.5 % of the printed ones.
    #[test]
    fn calculated_areas_are_near_the_printed_ones() {
        let worked = [
            "5.031", "8.779", "14.183", "20.123", "36.609", "57.990", "84.267", "115.44", "156.67",
            "192.47", "244.79",
        ];
        for (screw, worked) in SCREWS.iter().zip(worked) {
            let area = screw.calculated_area().unwrap();
            let places = if worked.len() - worked.find('.').unwrap() == 4 { 3 } else { 2 };
            assert_eq!(area.amount.decimal(places), worked, "{screw}");
            check_near(area, screw.stress_area(), 5, &screw.to_string());
        }
    }

    /// ISO 261/262 (pitches), ISO 4762, ISO 7380-1 and ISO 10642 (keys).
    #[test]
    fn threads_have_their_pitch_and_key() {
        for (screw, pitch, key) in [
            ("M3", "0.5", "2.5"),
            ("M4", "0.7", "3"),
            ("M5", "0.8", "4"),
            ("M6", "1", "5"),
            ("M8", "1.25", "6"),
            ("M10", "1.5", "8"),
            ("M12", "1.75", "10"),
            ("M14", "2", "12"),
            ("M16", "2", "14"),
            ("M18", "2.5", "14"),
            ("M20", "2.5", "17"),
        ] {
            let mm = |text: &str| quantity(&format!("{text} mm"));
            let row = Screw::parse(screw).unwrap();
            assert_eq!((row.pitch(), row.key(Head::SocketCap)), (mm(pitch), Some(mm(key))));
        }
        let low = |screw: &str, head| Screw::parse(screw).unwrap().key(head);
        assert_eq!(low("M6", Head::Button), Some(quantity("4 mm")));
        assert_eq!(low("M8", Head::Countersunk), Some(quantity("5 mm")));
        assert_eq!(low("M10", Head::Button), None);
    }

    #[test]
    fn names_read_back() {
        for screw in SCREWS {
            assert_eq!(Screw::parse(&screw.to_string()), Some(screw));
        }
        for class in Class::ALL {
            assert_eq!(Class::parse(&class.to_string()), Some(class));
        }
        assert_eq!(Screw::parse("M7"), None);
        assert_eq!(Screw::parse("6"), None);
        assert_eq!(Class::parse("8"), None);
    }

    /// Torque at 90 % of proof, M8 8.8: 0.20·0.90·580·36.6·8 = 30.5683 N·m (worked independently).
    #[test]
    fn the_makers_torque_wins_and_is_flagged_above_90_percent_of_proof() {
        let joint = joint("M8", "8.8");
        let compare = |text: &str| joint.compare(quantity(text)).unwrap();
        let usual = compare("25 N·m");
        assert_eq!((usual.torque, usual.above_class), (quantity("25 N·m"), false));
        assert_eq!(usual.computed, joint.torque().unwrap());
        assert_eq!(usual.deviation.decimal(4), "-0.0186");
        assert!(!compare("30.56 N·m").above_class);
        assert!(compare("30.57 N·m").above_class);
        let most = Joint { share: PERMANENT_SHARE, ..joint }.torque().unwrap();
        assert!(!joint.compare(most).unwrap().above_class);
        assert!(matches!(joint.compare(quantity("25 N")), Err(NoTorque::Quantity(_))));
    }

    #[test]
    fn no_joint_is_drawn_past_its_proof_load() {
        let usual = joint("M8", "8.8");
        let torque = |nut_factor: &str, share: &str| {
            Joint { nut_factor: number(nut_factor), share: number(share), ..usual }.torque()
        };
        assert_eq!(torque("0", "0.75"), Err(NoTorque::NotPositive));
        assert_eq!(torque("0.2", "-1"), Err(NoTorque::NotPositive));
        assert_eq!(torque("0.2", "1.01"), Err(NoTorque::PastProof { share: number("1.01") }));
        assert!(torque("0.2", "1").is_ok());
    }
}
