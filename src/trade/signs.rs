//! Safety signs of ISO 7010: identifiers and what they mean, in our own words.
//!
//! Drawings are not in here: `page::symbol` has our own. Must never hold the standard's drawings or
//! its texts, which are copyrighted.

/// A safety sign.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SafetySign {
    /// Identifier, `W022`.
    pub id: &'static str,
    /// What it means.
    pub title: &'static str,
}

/// What a sign tells, in the order in which signs stand beside a message.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Triangle: something may hurt.
    Warning,
    /// Circle with a bar: not allowed.
    Prohibition,
    /// Disc: must be done.
    Mandatory,
}

impl SafetySign {
    /// What it tells; its letter says so.
    pub fn kind(self) -> Kind {
        match self.id.as_bytes().first() {
            Some(b'M') => Kind::Mandatory,
            Some(b'P') => Kind::Prohibition,
            _ => Kind::Warning,
        }
    }
}

const fn sign(id: &'static str, title: &'static str) -> SafetySign {
    SafetySign { id, title }
}

/// The signs of a packaging or converting line.
///
/// Source: ISO 7010, identifiers and meanings read second-hand; those marked are from memory.
pub const SIGNS: &[SafetySign] = &[
    sign("W001", "General warning"),
    sign("W004", "Laser beam"),
    sign("W006", "Magnetic field"),
    sign("W007", "Obstacle on the floor"),
    sign("W011", "Slippery surface"),
    sign("W012", "Electricity"),
    sign("W015", "Overhead load"),
    sign("W016", "Toxic material"), // from memory
    sign("W017", "Hot surface"),
    sign("W018", "Automatic start-up"),
    sign("W019", "Crushing"),
    sign("W021", "Flammable material"),
    sign("W022", "Sharp element"),
    sign("W023", "Corrosive substance"), // from memory
    sign("W024", "Crushing of hands"),
    sign("W025", "Counter-rotating rollers"),
    sign("W027", "Optical radiation"),
    sign("W029", "Pressurized cylinder"),
    sign("W035", "Falling objects"), // from memory
    sign("M001", "General mandatory action"),
    sign("M002", "Refer to the instruction manual"),
    sign("M003", "Wear ear protection"),
    sign("M004", "Wear eye protection"),
    sign("M006", "Disconnect the mains plug"),
    sign("M008", "Wear safety footwear"),
    sign("M009", "Wear protective gloves"),
    sign("M010", "Wear protective clothing"),
    sign("M011", "Wash your hands"),
    sign("M013", "Wear a face shield"),
    sign("M014", "Wear head protection"), // from memory
    sign("M016", "Wear a mask"),          // from memory
    sign("M021", "Disconnect before maintenance or repair"),
    sign("M027", "Install or check the guard"), // identifier from memory
    sign("M028", "Keep locked"),                // identifier from memory
    sign("P001", "General prohibition"),        // from memory
    sign("P010", "Do not touch"),               // identifier from memory
    sign("P028", "Do not wear gloves"),         // identifier from memory
    sign("P031", "Do not alter the state of the switch"),
];

/// The sign that forbids gloves near parts that turn under power.
pub const NO_GLOVES: &str = "P028";

/// Signs of what is met by a hand that reaches in: hot, crushing, sharp, drawing in.
pub const MET_BY_HANDS: [&str; 5] = ["W017", "W019", "W022", "W024", "W025"];

/// Words of protective equipment and the sign that tells to wear it; the first that stands in a text
/// counts.
const WORN: &[(&str, &str)] = &[
    ("hearing", "M003"),
    ("ear plug", "M003"),
    ("face shield", "M013"),
    ("helmet", "M014"),
    ("glasses", "M004"),
    ("goggles", "M004"),
    ("shoes", "M008"),
    ("boots", "M008"),
    ("glove", "M009"),
    ("sleeve", "M010"),
    ("smock", "M010"),
    ("apron", "M010"),
    ("mask", "M016"),
    // Spanish.
    ("auditiva", "M003"),
    ("tapones", "M003"),
    ("pantalla facial", "M013"),
    ("casco", "M014"),
    ("gafas", "M004"),
    ("calzado", "M008"),
    ("zapatos", "M008"),
    ("botas", "M008"),
    ("guantes", "M009"),
    ("manguitos", "M010"),
    ("bata", "M010"),
    ("delantal", "M010"),
    ("máscara", "M016"),
    // German.
    ("gehörschutz", "M003"),
    ("gesichtsschutz", "M013"),
    ("schutzhelm", "M014"),
    ("brille", "M004"),
    ("handschuhe", "M009"),
    ("schuhe", "M008"),
    ("stiefel", "M008"),
    ("ärmel", "M010"),
    ("kittel", "M010"),
    ("schürze", "M010"),
];

/// A sign by its identifier.
pub fn find(id: &str) -> Option<&'static SafetySign> {
    SIGNS.iter().find(|sign| sign.id == id)
}

/// The sign that tells to wear this piece of equipment, as far as its words say which.
pub fn for_gear(item: &str) -> Option<&'static SafetySign> {
    let item = item.to_lowercase();
    WORN.iter().find(|(word, _)| item.contains(word)).and_then(|(_, id)| find(id))
}

/// Whether a piece of equipment is worn on the hands.
pub fn is_gloves(item: &str) -> bool {
    for_gear(item).is_some_and(|sign| sign.id == "M009")
}

/// The sign that a source of this kind needs beside one of its hazards; none where several fit.
pub fn for_energy(kind: &str) -> Option<&'static SafetySign> {
    match kind {
        "electrical" => find("W012"),
        "thermal" => find("W017"),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::{Kind, SIGNS, WORN, find, for_energy, for_gear};

    #[test]
    fn a_sign_has_a_letter_three_digits_and_a_title_of_its_own() {
        for (index, sign) in SIGNS.iter().enumerate() {
            let (letter, digits) = sign.id.split_at(1);
            assert!("WMP".contains(letter) && digits.len() == 3, "{}", sign.id);
            assert!(digits.bytes().all(|b| b.is_ascii_digit()), "{}", sign.id);
            let others = &SIGNS[index + 1..];
            assert!(others.iter().all(|s| s.id != sign.id && s.title != sign.title), "{}", sign.id);
        }
    }

    #[test]
    fn the_letter_is_the_kind() {
        let kind = |id: &str| find(id).unwrap().kind();
        assert_eq!(kind("W022"), Kind::Warning);
        assert_eq!(kind("P028"), Kind::Prohibition);
        assert_eq!(kind("M009"), Kind::Mandatory);
        assert_eq!(find("W999"), None);
    }

    #[track_caller]
    fn worn(item: &str, id: Option<&str>) {
        assert_eq!(for_gear(item).map(|sign| sign.id), id, "{item}");
    }

    #[test]
    fn equipment_is_known_by_its_words() {
        worn("Cut-resistant gloves, level D", Some("M009"));
        worn("Heat-resistant gloves to 250 °C", Some("M009"));
        worn("Cut-resistant sleeves", Some("M010"));
        worn("Face shield", Some("M013"));
        worn("Safety glasses", Some("M004"));
        worn("Half mask with particle filter", Some("M016"));
        worn("Ear plugs", Some("M003"));
        worn("Guantes resistentes a los cortes", Some("M009"));
        worn("Schnittfeste Handschuhe", Some("M009"));
        worn("Sicherheitsschuhe", Some("M008"));
        worn("Torch", None);
        for (_, id) in WORN {
            assert_eq!(find(id).map(|sign| sign.kind()), Some(Kind::Mandatory), "{id}");
        }
    }

    #[test]
    fn electricity_and_heat_have_their_sign() {
        assert_eq!(for_energy("electrical").map(|sign| sign.id), Some("W012"));
        assert_eq!(for_energy("thermal").map(|sign| sign.id), Some("W017"));
        assert_eq!(for_energy("gravity"), None);
    }
}
