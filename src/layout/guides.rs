//! Where two guide rails stand about a centre line.

use super::knives::half;
use super::rail::NoLayout;
use crate::quantity::number::Number;

/// The inner faces of a pair of guides: at half the opening on either side of the centre line.
///
/// Source: common practice, no source.
///
/// # Errors
/// [`NoLayout::NotPositive`] for an opening of nothing.
pub fn place_guides(opening: Number) -> Result<[Number; 2], NoLayout> {
    if opening <= Number::ZERO {
        return Err(NoLayout::NotPositive);
    }
    let right = half(opening)?;
    Ok([right.neg(), right])
}

#[cfg(test)]
mod tests {
    use super::place_guides;
    use crate::quantity::number::Number;

    #[test]
    fn guides_stand_half_the_opening_from_the_centre_line() {
        let [left, right] = place_guides(Number::parse("75").unwrap()).unwrap();
        assert_eq!((left.to_string(), right.to_string()), ("-37.5".to_owned(), "37.5".to_owned()));
        assert!(place_guides(Number::ZERO).is_err());
    }
}
