//! The signed head of a log, and what somebody kept of one.
//!
//! A checkpoint is a signed note (C2SP tlog-checkpoint) by the person whose entry came last, with
//! that person's key. Its short form is made for paper and for reading aloud. Must never trust a
//! time or a list of signers because a checkpoint names it: the list at hand decides.

use base64ct::{Base64, Encoding};
use chrono::{DateTime, FixedOffset};

use super::note::{Note, NoteFault, key_name};
use super::tree::{Hash, MOST_LEAVES};
use crate::canonical::hex;
use crate::language::Words;
use crate::record::rules::{Refusal, check_signer};
use crate::record::signature::{SignatureFault, SigningKey};
use crate::record::trust::TrustList;
use crate::record::{namespace, time};

/// How many digits of a root the short form has: as many as nobody can search for.
const SHORT_DIGITS: usize = 32;

/// What a checkpoint says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checkpoint {
    /// The log: `<domain>/<machine>`.
    pub origin: String,
    /// How many leaves it has.
    pub leaves: u64,
    /// The root over them.
    pub root: Hash,
    /// When it was signed, as entries write a time; none in a checkpoint of another program.
    pub at: Option<String>,
    /// SHA-256 of the list of signers as it was then, in hex.
    pub signers: Option<String>,
}

/// Why bytes are no checkpoint of ours.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CheckpointFault {
    /// Not a signed note.
    Note(NoteFault),
    /// A line that is missing, too many or not of its form; its number, from 1.
    Line(usize),
}

impl CheckpointFault {
    /// What is wrong, for people.
    pub fn words(&self) -> Words {
        match self {
            CheckpointFault::Note(fault) => fault.words(),
            CheckpointFault::Line(line) => {
                Words::new("log-checkpoint-line", &[("line", line.to_string().into())])
            }
        }
    }
}

/// Why nobody stands behind a checkpoint.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotSigned {
    /// It does not say when it was signed, or not in our form.
    NoTime,
    /// None of its keys is in the list of signers; the names it gives.
    Unlisted(String),
    /// The signature of this person does not fit.
    Bad(String),
    /// The key did not count then, or is for something else.
    Refused(Refusal),
}

impl NotSigned {
    /// What is wrong, for people; said of the checkpoint.
    pub fn words(&self) -> Words {
        let of = |key, by: &str| Words::new(key, &[("by", by.into())]);
        match self {
            NotSigned::NoTime => Words::of("log-signed-without-time"),
            NotSigned::Unlisted(names) => of("log-signed-unlisted", names),
            NotSigned::Bad(by) => of("log-signed-badly", by),
            NotSigned::Refused(refusal) => refusal.words.clone(),
        }
    }
}

impl Checkpoint {
    /// The text that is signed.
    pub fn text(&self) -> String {
        let Checkpoint { origin, leaves, root, at, signers } = self;
        let mut text = format!("{origin}\n{leaves}\n{}\n", Base64::encode_string(root));
        for (name, value) in [("at", at), ("signers", signers)] {
            if let Some(value) = value {
                text += &format!("{name} {value}\n");
            }
        }
        text
    }

    /// Signs it as a person.
    ///
    /// # Errors
    /// Those of the key.
    pub fn sign(&self, by: &str, key: &SigningKey) -> Result<Note, SignatureFault> {
        Note::sign(self.text(), &key_name(by), key)
    }

    /// Reads a checkpoint with its note; only what would be written again.
    ///
    /// # Errors
    /// [`CheckpointFault`].
    pub fn parse(bytes: &[u8]) -> Result<(Checkpoint, Note), CheckpointFault> {
        let note = Note::parse(bytes).map_err(CheckpointFault::Note)?;
        Ok((Checkpoint::of_text(&note.text)?, note))
    }

    fn of_text(text: &str) -> Result<Checkpoint, CheckpointFault> {
        let mut lines = (1..).zip(text.lines()).peekable();
        let mut next = |number| lines.next().ok_or(CheckpointFault::Line(number));
        let bad = |number| move || CheckpointFault::Line(number);
        let (_, origin) = next(1)?;
        let leaves = next(2)?.1.parse().ok().filter(|leaves| *leaves <= MOST_LEAVES);
        let root = Base64::decode_vec(next(3)?.1).ok().and_then(|bytes| bytes.try_into().ok());
        let (leaves, root) = (leaves.ok_or_else(bad(2))?, root.ok_or_else(bad(3))?);
        let mut named = |name: &str| {
            let value = lines.peek().and_then(|(_, line)| line.strip_prefix(name))?;
            lines.next();
            Some(value.to_owned())
        };
        let (at, signers) = (named("at "), named("signers "));
        let read = Checkpoint { origin: origin.to_owned(), leaves, root, at, signers };
        if let Some((number, _)) = lines.next() {
            return Err(CheckpointFault::Line(number));
        }
        let differs = |(own, other): (&str, &str)| own != other;
        let own = read.text();
        match own.lines().zip(text.lines()).position(differs) {
            Some(index) => Err(CheckpointFault::Line(index + 1)),
            None if origin.is_empty() || own != text => Err(CheckpointFault::Line(1)),
            None => Ok(read),
        }
    }

    /// The machine, when the checkpoint is of this plant.
    pub fn machine(&self, domain: &str) -> Option<&str> {
        self.origin.strip_prefix(domain)?.strip_prefix('/').filter(|machine| !machine.is_empty())
    }

    /// When it was signed.
    pub fn signed_at(&self) -> Option<DateTime<FixedOffset>> {
        time::parse(self.at.as_deref()?).ok()
    }

    /// Who of the list of signers stands behind it: every key of it that is known has to fit.
    ///
    /// # Errors
    /// [`NotSigned`].
    pub fn signer<'t>(
        &self,
        note: &Note,
        trust: &'t TrustList,
        domain: &str,
    ) -> Result<&'t str, NotSigned> {
        let at = self.signed_at().ok_or(NotSigned::NoTime)?;
        let mut signer = None;
        for own in trust.keys() {
            let by = &own.principal;
            match note.is_signed_by(&key_name(by), &own.key) {
                None => continue,
                Some(false) => return Err(NotSigned::Bad(by.clone())),
                Some(true) => {}
            }
            let (key, purpose) = (own.key.as_bytes(), namespace(domain));
            if let Some(refusal) = check_signer(trust, by, key, &purpose, Some(at)) {
                return Err(NotSigned::Refused(refusal));
            }
            signer = Some(by.as_str());
        }
        let names = note.signatures.iter().map(|one| one.name.as_str()).collect::<Vec<_>>();
        signer.ok_or_else(|| NotSigned::Unlisted(names.join(", ")))
    }
}

/// The short form of a checkpoint: `pouch-6 1042 4e3b bb1f ...`.
pub fn short(machine: &str, leaves: u64, root: &Hash) -> String {
    let digits = hex(root);
    let groups = digits.as_bytes().chunks(4).take(SHORT_DIGITS / 4);
    let groups: Vec<_> = groups.map(String::from_utf8_lossy).collect();
    format!("{machine} {leaves} {}", groups.join(" "))
}

/// What somebody kept elsewhere: a checkpoint, or its short form as typed from paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept {
    /// The machine.
    pub machine: String,
    /// How many leaves its log had.
    pub leaves: u64,
    /// The root in hex, or its first digits.
    digits: String,
    /// When it was signed, as a whole checkpoint says.
    pub at: Option<DateTime<FixedOffset>>,
}

/// Why something is nothing that could have been kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum KeptFault {
    /// A signed note, but no checkpoint.
    Checkpoint(CheckpointFault),
    /// A checkpoint of another plant; its origin.
    OtherPlant(String),
    /// Not machine, number and 32 digits.
    Short,
}

impl KeptFault {
    /// What is wrong, for people.
    pub fn words(&self) -> Words {
        match self {
            KeptFault::Checkpoint(fault) => fault.words(),
            KeptFault::OtherPlant(origin) => {
                Words::new("log-kept-other-plant", &[("origin", origin.into())])
            }
            KeptFault::Short => Words::of("log-kept-form"),
        }
    }
}

impl Kept {
    /// Reads what was kept: a whole checkpoint, or one line of its short form.
    ///
    /// # Errors
    /// [`KeptFault`].
    pub fn parse(bytes: &[u8], domain: &str) -> Result<Kept, KeptFault> {
        if bytes.trim_ascii_end().contains(&b'\n') {
            let (read, _) = Checkpoint::parse(bytes).map_err(KeptFault::Checkpoint)?;
            let other = || KeptFault::OtherPlant(read.origin.clone());
            return Kept::of(&read, domain).ok_or_else(other);
        }
        std::str::from_utf8(bytes).ok().and_then(typed).ok_or(KeptFault::Short)
    }

    /// What a whole checkpoint of a machine of this plant says.
    pub fn of(checkpoint: &Checkpoint, domain: &str) -> Option<Kept> {
        let (machine, at) = (checkpoint.machine(domain)?.to_owned(), checkpoint.signed_at());
        Some(Kept { machine, leaves: checkpoint.leaves, digits: hex(&checkpoint.root), at })
    }

    /// Whether another one is of the same length and names another root: somebody was shown another log.
    pub fn contradicts(&self, other: &Kept) -> bool {
        let (one, two) = (&self.digits, &other.digits);
        self.leaves == other.leaves && !one.starts_with(two) && !two.starts_with(one)
    }

    /// Whether a root is the one that was kept, as far as it was kept.
    pub fn fits(&self, root: &Hash) -> bool {
        hex(root).starts_with(&self.digits)
    }

    /// The digits that were kept.
    pub fn digits(&self) -> &str {
        &self.digits
    }
}

/// What a person typed: the last 32 digits are the root's, however they are grouped, what stands
/// before them is the machine and the number of entries.
fn typed(text: &str) -> Option<Kept> {
    let mut words: Vec<&str> = text.split_whitespace().collect();
    let mut digits = String::new();
    while digits.len() < SHORT_DIGITS {
        digits.insert_str(0, &words.pop()?.chars().filter_map(digit).collect::<String>());
    }
    let (machine, leaves) = words.split_first()?;
    let leaves = leaves.concat();
    let is_number = !leaves.is_empty() && leaves.bytes().all(|b| b.is_ascii_digit());
    let leaves = leaves.parse().ok().filter(|leaves| is_number && *leaves <= MOST_LEAVES)?;
    let is_root = digits.len() == SHORT_DIGITS && digits.bytes().all(|b| b.is_ascii_hexdigit());
    is_root.then(|| Kept { machine: (*machine).to_owned(), leaves, digits, at: None })
}

/// A digit as it was meant: a letter O is a nought, I and L are a one; marks between groups are none.
fn digit(typed: char) -> Option<char> {
    match typed.to_ascii_lowercase() {
        '-' | '.' | ':' | '_' => None,
        'o' => Some('0'),
        'i' | 'l' => Some('1'),
        other => Some(other),
    }
}

#[cfg(test)]
mod tests {
    use super::{Checkpoint, CheckpointFault, Kept, KeptFault, NotSigned, short};
    use crate::log::note::{Note, key_id};
    use crate::log::tree::Hash;
    use crate::record::fixture::{self, DOMAIN, SIGNERS, key_of};
    use crate::record::trust::TrustList;

    const DOER: &str = "a.doer@plant.example";
    /// Root over the first five published test leaves.
    const ROOT: &str = "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4";
    /// The worked example of a checkpoint's text, as the specification lays it out.
    const EXAMPLE: &str = "plant.example/line4\n5\nh8WyLW0eh7M5H5TaJ7o1JShg/O8FomMcUs0WlrduI18=\n";

    fn root() -> Hash {
        fixture::unhex(ROOT).try_into().unwrap()
    }

    fn checkpoint() -> Checkpoint {
        Checkpoint {
            origin: "plant.example/pouch-6".to_owned(),
            leaves: 5,
            root: root(),
            at: Some("2026-11-26T22:41:00+01:00".to_owned()),
            signers: Some("ba".repeat(32)),
        }
    }

    fn trust() -> TrustList {
        TrustList::parse(SIGNERS.as_bytes()).0
    }

    #[test]
    fn a_checkpoint_is_read_as_it_was_written() {
        let note = checkpoint().sign(DOER, &key_of(DOER)).unwrap();
        assert_eq!(
            note.text,
            "plant.example/pouch-6\n5\nTju7H3tHjc/nH7YxYxUZo7yhLJrvyhYSv85ME6hiZNQ=\n\
             at 2026-11-26T22:41:00+01:00\nsigners babababababababababababababababababababababababababababababababa\n"
        );
        let (read, again) = Checkpoint::parse(note.print().as_bytes()).unwrap();
        assert_eq!((read, again), (checkpoint(), note));
        assert_eq!(checkpoint().machine(DOMAIN), Some("pouch-6"));
        assert_eq!(checkpoint().machine("plant"), None);
    }

    /// Golden bytes: RFC 8032 keys and Ed25519 leave no choice.
    #[test]
    fn a_signed_checkpoint_has_these_bytes() {
        let note = checkpoint().sign(DOER, &key_of(DOER)).unwrap();
        let id = key_id(DOER, key_of(DOER).public().as_bytes());
        assert_eq!(note.signatures[0].id, id);
        assert_eq!(note.print(), GOLDEN);
    }

    const GOLDEN: &str = include_str!("checkpoint.golden");

    #[test]
    fn the_worked_example_is_read() {
        let note = Note::sign(EXAMPLE.to_owned(), "plant.example/line4", &key_of(DOER)).unwrap();
        let (read, _) = Checkpoint::parse(note.print().as_bytes()).unwrap();
        assert_eq!((read.leaves, read.at.as_ref(), read.signers.as_ref()), (5, None, None));
        assert_eq!(read.text(), EXAMPLE);
        assert_eq!(read.signer(&note, &trust(), DOMAIN), Err(NotSigned::NoTime));
    }

    #[track_caller]
    fn check(text: &str, line: usize) {
        let note = Note::sign(text.to_owned(), DOER, &key_of(DOER)).unwrap();
        let read = Checkpoint::parse(note.print().as_bytes());
        assert_eq!(read, Err(CheckpointFault::Line(line)), "{text}");
    }

    #[test]
    fn other_forms_are_refused() {
        check("plant.example/line4\n", 2);
        check("plant.example/line4\n5\n", 3);
        for leaves in
            ["05", "-5", "+5", "5 ", "", "five", "281474976710657", "18446744073709551616"]
        {
            check(&EXAMPLE.replace("\n5\n", &format!("\n{leaves}\n")), 2);
        }
        check(&EXAMPLE.replace("h8Wy", ""), 3);
        check(&EXAMPLE.replace("I18=", "I19="), 3);
        check(&EXAMPLE.replace("plant.example/line4", ""), 1);
        check(&format!("{EXAMPLE}more\n"), 4);
        check(&format!("{EXAMPLE}signers ab\nat now\n"), 5);
    }

    #[test]
    fn a_listed_key_that_counted_then_stands_behind_it() {
        let note = checkpoint().sign(DOER, &key_of(DOER)).unwrap();
        assert_eq!(checkpoint().signer(&note, &trust(), DOMAIN), Ok(DOER));
    }

    #[track_caller]
    fn refused(checkpoint: &Checkpoint, note: &Note, domain: &str, expected: NotSigned) {
        assert_eq!(checkpoint.signer(note, &trust(), domain), Err(expected));
    }

    #[test]
    fn nobody_else_stands_behind_it() {
        let at = |at: &str| Checkpoint { at: Some(at.to_owned()), ..checkpoint() };
        let by = |checkpoint: &Checkpoint, by: &str| checkpoint.sign(by, &key_of(by)).unwrap();
        let doer = || DOER.to_owned();
        let good = by(&checkpoint(), DOER);
        let stranger = "n.obody@plant.example";
        refused(
            &checkpoint(),
            &by(&checkpoint(), stranger),
            DOMAIN,
            NotSigned::Unlisted(stranger.to_owned()),
        );
        // A colleague's key under another name.
        let forged = checkpoint().sign(DOER, &key_of("b.checker")).unwrap();
        refused(&checkpoint(), &forged, DOMAIN, NotSigned::Unlisted(doer()));
        let changed = Note { text: good.text.replace("\n5\n", "\n6\n"), ..good.clone() };
        refused(&checkpoint(), &changed, DOMAIN, NotSigned::Bad(doer()));
        let code = |checkpoint: &Checkpoint, note: &Note, domain| match checkpoint.signer(
            note,
            &trust(),
            domain,
        ) {
            Err(NotSigned::Refused(refusal)) => refusal.code,
            other => panic!("{other:?}"),
        };
        assert_eq!(code(&checkpoint(), &good, "other.example"), "key-namespace");
        let early = at("2025-11-26T22:41:00+01:00");
        assert_eq!(code(&early, &by(&early, DOER), DOMAIN), "key-not-yet-valid");
        let late = at("2027-11-26T22:41:00+01:00");
        assert_eq!(code(&late, &by(&late, DOER), DOMAIN), "key-expired");
        let vague = at("yesterday");
        refused(&vague, &by(&vague, DOER), DOMAIN, NotSigned::NoTime);
    }

    #[test]
    fn the_short_form_is_read_however_it_was_typed() {
        let short = short("pouch-6", 1042, &root());
        assert_eq!(short, "pouch-6 1042 4e3b bb1f 7b47 8dcf e71f b631 6315 19a3");
        let kept = Kept::parse(short.as_bytes(), DOMAIN).unwrap();
        assert_eq!((kept.machine.as_str(), kept.leaves), ("pouch-6", 1042));
        assert!(kept.fits(&root()) && !kept.fits(&[0x4e; 32]));
        for typed in [
            "pouch-6 1042 4E3B BB1F 7B47 8DCF E71F B631 6315 19A3\n",
            "  pouch-6   1 042   4e3bbb1f 7b478dcf e71fb631 631519a3 ",
            "pouch-6 1042 4e3bbb1f7b478dcfe71fb631631519a3",
            "pouch-6 1042 4e3b-bb1f-7b47-8dcf-e71f-b631-6315-19a3",
            "pouch-6 1042 4e3b bblf 7b47 8dcf e7If b63l 63I5 l9a3",
        ] {
            assert_eq!(Kept::parse(typed.as_bytes(), DOMAIN), Ok(kept.clone()), "{typed}");
        }
        let note = checkpoint().sign(DOER, &key_of(DOER)).unwrap().print();
        let whole = Kept::parse(note.as_bytes(), DOMAIN).unwrap();
        assert_eq!((whole.machine.as_str(), whole.leaves, whole.digits()), ("pouch-6", 5, ROOT));
    }

    #[test]
    fn nothing_else_was_kept() {
        for typed in [
            "",
            "pouch-6",
            "pouch-6 1042",
            "4e3b bb1f 7b47 8dcf e71f b631 6315 19a3",
            "1042 4e3b bb1f 7b47 8dcf e71f b631 6315 19a3",
            "pouch-6 1042 4e3b bb1f 7b47 8dcf e71f b631 6315",
            "pouch-6 1042 4e3b bb1f 7b47 8dcf e71f b631 6315 19ag",
            "pouch-6 -1042 4e3b bb1f 7b47 8dcf e71f b631 6315 19a3",
            "pouch-6 99999999999999999999 4e3b bb1f 7b47 8dcf e71f b631 6315 19a3",
        ] {
            assert_eq!(Kept::parse(typed.as_bytes(), DOMAIN), Err(KeptFault::Short), "{typed}");
        }
        assert_eq!(Kept::parse(&[0xff, 0xfe], DOMAIN), Err(KeptFault::Short));
        let other = checkpoint().sign(DOER, &key_of(DOER)).unwrap().print();
        let fault = KeptFault::OtherPlant("plant.example/pouch-6".to_owned());
        assert_eq!(Kept::parse(other.as_bytes(), "other.example"), Err(fault));
        let fault = Kept::parse(b"two\nlines", DOMAIN);
        assert!(matches!(fault, Err(KeptFault::Checkpoint(CheckpointFault::Note(_)))));
    }
}
