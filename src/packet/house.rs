//! What a plant decided for all its machines: units, judging, stock.

use crate::language::Language;
use crate::plant::load::{Loaded, Plant};
use crate::plant::shape::{Judging, StockFile, Units};
use crate::quantity::{Dimension, System, Unit};

/// The plant's choices.
#[derive(Debug, Clone, Copy)]
pub struct House<'a> {
    /// System of the units that nobody chose otherwise.
    pub first: System,
    /// System shown in brackets.
    pub also: Option<System>,
    /// How readings are judged.
    pub judging: Judging,
    /// Films and rolls.
    pub stock: Option<&'a Loaded<StockFile>>,
    /// Language of the program's words.
    pub language: Language,
}

impl<'a> House<'a> {
    /// The choices of a plant.
    pub fn of(plant: &'a Plant) -> House<'a> {
        let units = &plant.facts.body.units;
        House {
            first: system(units.first),
            also: units.also.map(system),
            judging: plant.facts.body.judging,
            stock: plant.stock.as_ref(),
            language: plant.language,
        }
    }

    /// The unit for a quantity nobody chose one for; none for a plain number.
    pub fn unit_of(&self, dimension: Dimension) -> Option<&'static Unit> {
        let natural = Unit::natural(dimension)?;
        Some(self.first.unit_for(natural).unwrap_or(natural))
    }

    /// The unit in brackets beside this one, whichever of the plant's two systems it belongs to.
    pub fn other(&self, unit: &Unit) -> Option<&'static Unit> {
        let also = self.also?;
        also.unit_for(unit).or_else(|| self.first.unit_for(unit))
    }
}

fn system(units: Units) -> System {
    match units {
        Units::Metric => System::Metric,
        Units::Inch => System::Inch,
    }
}
