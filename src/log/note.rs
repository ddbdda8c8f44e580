//! Signed notes: a text, and under it who signed it (C2SP signed-note, Ed25519 signatures).
//!
//! Only what would be printed again byte for byte is read. Must never take a note's word for whose
//! key it was: keys come from the list of signers.

use base64ct::{Base64, Encoding};
use sha2::{Digest, Sha256};

use crate::language::Words;
use crate::record::signature::{PublicKey, SignatureFault, SigningKey};

/// Most bytes of a note; a good one has about 350.
pub const MOST_BYTES: usize = 16 << 10;
/// Most signatures that are looked at.
const MOST_SIGNATURES: usize = 64;
/// What a signature line begins with: an em dash and a space.
const DASH: &str = "\u{2014} ";

/// A text with signatures under it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Note {
    /// What is signed, with the line feed at its end.
    pub text: String,
    /// The signatures.
    pub signatures: Vec<NoteSignature>,
}

/// One signature of a note.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoteSignature {
    /// Name of the key.
    pub name: String,
    /// First bytes of the digest of name and key.
    pub id: [u8; 4],
    /// The signature; 64 bytes for Ed25519.
    pub bytes: Vec<u8>,
}

/// Why bytes are no signed note.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoteFault {
    /// Longer than [`MOST_BYTES`].
    TooLong,
    /// Not UTF-8, or with a control character.
    NotText,
    /// No empty line with signatures after it.
    Unsigned,
    /// Too many signatures.
    Crowded,
    /// A signature line that is not `— name base64`; its number among the signatures.
    Line(usize),
}

impl NoteFault {
    /// What is wrong, for people.
    pub fn words(self) -> Words {
        match self {
            NoteFault::TooLong => {
                Words::new("log-note-too-long", &[("most", MOST_BYTES.to_string().into())])
            }
            NoteFault::NotText => Words::of("log-note-not-text"),
            NoteFault::Unsigned => Words::of("log-note-unsigned"),
            NoteFault::Crowded => {
                Words::new("log-note-crowded", &[("most", MOST_SIGNATURES.to_string().into())])
            }
            NoteFault::Line(line) => {
                Words::new("log-note-line", &[("line", line.to_string().into())])
            }
        }
    }
}

/// The name of a person's key in a note: a plus sign would part it.
pub fn key_name(principal: &str) -> String {
    principal.replace('+', "%2B")
}

/// First bytes of SHA-256 over name, line feed, the kind of key (1 is Ed25519) and key.
pub fn key_id(name: &str, key: &[u8; 32]) -> [u8; 4] {
    let digest = Sha256::new_with_prefix(name).chain_update(b"\n\x01").chain_update(key).finalize();
    let mut id = [0; 4];
    id.iter_mut().zip(digest).for_each(|(own, byte)| *own = byte);
    id
}

impl Note {
    /// Signs a text under a name.
    ///
    /// # Errors
    /// Those of the key.
    pub fn sign(text: String, name: &str, key: &SigningKey) -> Result<Note, SignatureFault> {
        let bytes = key.sign_raw(text.as_bytes())?.to_vec();
        let id = key_id(name, key.public().as_bytes());
        let signature = NoteSignature { name: name.to_owned(), id, bytes };
        Ok(Note { text, signatures: vec![signature] })
    }

    /// Reads a note.
    ///
    /// # Errors
    /// [`NoteFault`].
    pub fn parse(bytes: &[u8]) -> Result<Note, NoteFault> {
        if bytes.len() > MOST_BYTES {
            return Err(NoteFault::TooLong);
        }
        let whole = std::str::from_utf8(bytes).map_err(|_| NoteFault::NotText)?;
        if whole.chars().any(|c| c.is_control() && c != '\n') {
            return Err(NoteFault::NotText);
        }
        let (text, lines) = whole.rsplit_once("\n\n").ok_or(NoteFault::Unsigned)?;
        let lines = lines.strip_suffix('\n').ok_or(NoteFault::Unsigned)?;
        let signatures = lines
            .split('\n')
            .enumerate()
            .map(|(index, line)| NoteSignature::parse(line).ok_or(NoteFault::Line(index + 1)))
            .collect::<Result<Vec<_>, _>>()?;
        match signatures.len() <= MOST_SIGNATURES {
            true => Ok(Note { text: text.to_owned() + "\n", signatures }),
            false => Err(NoteFault::Crowded),
        }
    }

    /// The note as it is kept.
    pub fn print(&self) -> String {
        let lines: String = self.signatures.iter().map(NoteSignature::print).collect();
        format!("{}\n{lines}", self.text)
    }

    /// Whether a key of this name signed it: none when it did not, false when a signature under its
    /// name and number does not fit the text.
    pub fn is_signed_by(&self, name: &str, key: &PublicKey) -> Option<bool> {
        let id = key_id(name, key.as_bytes());
        let own = self.signatures.iter().filter(|one| one.name == name && one.id == id);
        let fits = |one: &NoteSignature| {
            <&[u8; 64]>::try_from(one.bytes.as_slice())
                .is_ok_and(|bytes| key.verifies(self.text.as_bytes(), bytes))
        };
        own.map(fits).reduce(|one, other| one && other)
    }
}

impl NoteSignature {
    /// None for a line that would be printed otherwise.
    fn parse(line: &str) -> Option<NoteSignature> {
        let (name, base64) = line.strip_prefix(DASH)?.split_once(' ')?;
        if name.is_empty() || name.contains(char::is_whitespace) || name.contains('+') {
            return None;
        }
        let blob = Base64::decode_vec(base64).ok()?;
        let (id, bytes) = blob.split_first_chunk::<4>()?;
        let read = NoteSignature { name: name.to_owned(), id: *id, bytes: bytes.to_vec() };
        (!bytes.is_empty() && read.print().trim_end_matches('\n') == line).then_some(read)
    }

    fn print(&self) -> String {
        let blob = [self.id.as_slice(), &self.bytes].concat();
        format!("{DASH}{} {}\n", self.name, Base64::encode_string(&blob))
    }
}

#[cfg(test)]
mod tests {
    use base64ct::{Base64, Encoding};

    use super::{MOST_BYTES, Note, NoteFault, key_id};
    use crate::canonical::hex;
    use crate::record::fixture;
    use crate::record::signature::PublicKey;

    /// The example of the C2SP signed-note specification.
    const EXAMPLE: &str = "This is an example message.\n\n\u{2014} example.com/foo \
        Uw2QOkn8srV1yJGh2VYRlL1Tnagv1YEq6TfXppzi2ONncAlTgK7Ztg1ERYNZXsYjOBH3mFXmRKuwHjG1Yu72IneyaQM=\n";
    const EXAMPLE_KEY: &str = "AekyeRrm56hApGFkyQR4ZCbV54Id2LKaANYcrnKv3U2k";

    fn example_key() -> PublicKey {
        let blob = Base64::decode_vec(EXAMPLE_KEY).unwrap();
        assert_eq!(blob[0], 1, "Ed25519");
        PublicKey::from_bytes(blob[1..].try_into().unwrap()).unwrap()
    }

    #[test]
    fn the_published_example_holds() {
        let (note, key) = (Note::parse(EXAMPLE.as_bytes()).unwrap(), example_key());
        assert_eq!(hex(&key_id("example.com/foo", key.as_bytes())), "530d903a");
        assert_eq!(note.text, "This is an example message.\n");
        assert_eq!(note.is_signed_by("example.com/foo", &key), Some(true));
        assert_eq!(note.print(), EXAMPLE);
    }

    #[test]
    fn another_name_key_or_text_is_not_signed() {
        let note = Note::parse(EXAMPLE.as_bytes()).unwrap();
        assert_eq!(note.is_signed_by("example.com/bar", &example_key()), None);
        let other = fixture::key_of("a.doer").public();
        assert_eq!(note.is_signed_by("example.com/foo", &other), None);
        let changed = Note { text: "This is an example massage.\n".to_owned(), ..note };
        assert_eq!(changed.is_signed_by("example.com/foo", &example_key()), Some(false));
    }

    /// One good signature does not make up for a bad one of the same key.
    #[test]
    fn a_bad_signature_beside_a_good_one_is_bad() {
        let mut note = Note::parse(EXAMPLE.as_bytes()).unwrap();
        let mut bad = note.signatures[0].clone();
        bad.bytes[5] ^= 1;
        note.signatures.push(bad);
        assert_eq!(note.is_signed_by("example.com/foo", &example_key()), Some(false));
    }

    #[test]
    fn what_is_signed_is_read_back() {
        let key = fixture::key_of("a.doer");
        let note = Note::sign("two\n\nparts\n".to_owned(), "a.doer@plant.example", &key).unwrap();
        let read = Note::parse(note.print().as_bytes()).unwrap();
        assert_eq!(read, note);
        assert_eq!(read.is_signed_by("a.doer@plant.example", &key.public()), Some(true));
    }

    /// Two bits of each byte of a note: it does not read, or is not signed any more.
    #[test]
    fn no_flipped_bit_goes_unseen() {
        let key = example_key();
        for at in 0..EXAMPLE.len() {
            for bit in [0, 5] {
                let mut bytes = EXAMPLE.as_bytes().to_vec();
                bytes[at] ^= 1 << bit;
                let signed = Note::parse(&bytes).ok().and_then(|note| {
                    assert_eq!(note.print().as_bytes(), bytes);
                    note.is_signed_by("example.com/foo", &key)
                });
                assert_ne!(signed, Some(true), "byte {at}, bit {bit}");
            }
        }
    }

    #[track_caller]
    fn check(note: &str, expected: NoteFault) {
        assert_eq!(Note::parse(note.as_bytes()), Err(expected), "{note:?}");
    }

    #[test]
    fn other_forms_are_refused() {
        check("", NoteFault::Unsigned);
        check("text\n", NoteFault::Unsigned);
        check(EXAMPLE.trim_end(), NoteFault::Unsigned);
        check("text\n\n", NoteFault::Unsigned);
        check(&EXAMPLE.replace('\n', "\r\n"), NoteFault::NotText);
        check(&EXAMPLE.replace('\u{2014}', "-"), NoteFault::Line(1));
        check(&EXAMPLE.replace("/foo ", "/foo  "), NoteFault::Line(1));
        check(&EXAMPLE.replace("/foo", "/f+o"), NoteFault::Line(1));
        check(&EXAMPLE.replace("QM=", "QN="), NoteFault::Line(1));
        check(&EXAMPLE.replace("QM=", "QM"), NoteFault::Line(1));
        check(&format!("{EXAMPLE}\u{2014} a Uw2QOg==\n"), NoteFault::Line(2));
        check(&format!("{EXAMPLE}more\n"), NoteFault::Line(2));
        check(&"x".repeat(MOST_BYTES + 1), NoteFault::TooLong);
        let line = EXAMPLE.lines().last().unwrap().to_owned() + "\n";
        check(&format!("{EXAMPLE}{}", line.repeat(64)), NoteFault::Crowded);
    }
}
