//! Whose key is whose, and when: the list of allowed signers, read strictly.
//!
//! The file is the one `ssh-keygen -Y verify -f` takes; of what that program allows, only lines
//! that leave nothing open are read: one exact principal, `namespaces`, `valid-after` and
//! `valid-before` in UTC, an Ed25519 key, one owner a key. A refused line counts for nobody. Keys
//! are decoded once, here, so that a verification costs little more than a bare one.
//!
//! That program's own list of revoked keys knows no time: with it, what was signed before a key was
//! lost would not count either. So a revocation is ours, and has one.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use chrono::{DateTime, FixedOffset, NaiveDate};

use super::entry::{is_identifier, shown};
use super::signature::{PublicKey, SignatureFault};
use crate::canonical;
use crate::language::Words;

/// The readable lines of a list of allowed signers.
#[derive(Debug, Clone)]
pub struct TrustList {
    keys: Vec<TrustedKey>,
    by_key: BTreeMap<[u8; 32], Vec<usize>>,
    revoked: BTreeMap<String, Revoked>,
    digest: String,
}

/// That a key was lost or taken away.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Revoked {
    /// First second from which it does not count.
    pub from: DateTime<FixedOffset>,
    /// Why.
    pub why: String,
}

/// One line: a key, its owner, and when and for what it counts.
#[derive(Debug, Clone)]
pub struct TrustedKey {
    /// Line of the file, from 1.
    pub line: usize,
    /// The owner.
    pub principal: String,
    /// What its signatures may be made for.
    pub namespaces: Vec<String>,
    /// First second it counts, seconds of UTC since 1970.
    pub from: i64,
    /// Last second it counts.
    pub until: i64,
    /// The key.
    pub key: PublicKey,
    /// `SHA256:...`, as `ssh-keygen -l` prints it.
    pub fingerprint: String,
}

impl TrustedKey {
    /// Whether it counts at a time; both bounds included, as with `ssh-keygen`.
    pub fn covers(&self, at: DateTime<FixedOffset>) -> bool {
        (self.from..=self.until).contains(&at.timestamp())
    }
}

/// A line that is not read, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TrustError {
    /// Line of the file, from 1.
    pub line: usize,
    /// Why.
    pub fault: TrustFault,
}

/// Why a line is not read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TrustFault {
    /// Not UTF-8, or a carriage return or another control character.
    ForeignBytes,
    /// Not `principal options ssh-ed25519 key`, one space between them.
    Form,
    /// A pattern (`*`, `?`, `!`), several names, or letters no principal may have.
    Principal(String),
    /// An option that is not one of the three, or is written otherwise.
    Option(String),
    /// An option stands twice.
    OptionTwice(&'static str),
    /// An option is missing.
    OptionMissing(&'static str),
    /// A namespace that is a pattern or empty.
    Namespace(String),
    /// Not `YYYYMMDDZ`, `YYYYMMDDHHMMZ` or `YYYYMMDDHHMMSSZ`, or no such time.
    Time(String),
    /// The end lies before the start.
    Order,
    /// Another kind of key than `ssh-ed25519`.
    KeyType(String),
    /// The key cannot be read, or is weak.
    Key(SignatureFault),
    /// The key is listed under two names; the names.
    KeyShared(String, String),
}

impl TrustFault {
    /// Short name of the rule.
    pub fn code(&self) -> &'static str {
        match self {
            TrustFault::ForeignBytes | TrustFault::Form => "signers-form",
            TrustFault::Principal(_) => "signers-principal",
            TrustFault::Option(_) | TrustFault::OptionTwice(_) | TrustFault::OptionMissing(_) => {
                "signers-option"
            }
            TrustFault::Namespace(_) => "signers-namespace",
            TrustFault::Time(_) | TrustFault::Order => "signers-time",
            TrustFault::KeyType(_) | TrustFault::Key(_) => "signers-key",
            TrustFault::KeyShared(..) => "key-shared",
        }
    }

    /// The part of a line that it is about: the name in front, where no other is.
    pub fn part_of(&self, line: &str) -> Range<usize> {
        let found = |part: &str| line.rfind(part).map(|at| at..at + part.len());
        let part = match self {
            TrustFault::Option(text)
            | TrustFault::Namespace(text)
            | TrustFault::Time(text)
            | TrustFault::KeyType(text) => found(text),
            TrustFault::OptionTwice(name) => found(name),
            TrustFault::Order => found("valid-before"),
            TrustFault::Key(_) | TrustFault::KeyShared(..) => {
                line.split(' ').nth(3).and_then(found)
            }
            _ => None,
        };
        let name = line.find(' ').unwrap_or(line.len());
        part.filter(|part| !part.is_empty()).unwrap_or(0..name)
    }

    /// What is wrong, for people.
    pub fn words(&self) -> Words {
        let of = |key, text: &str| Words::new(key, &[("text", shown(text).into())]);
        match self {
            TrustFault::ForeignBytes => Words::of("signers-foreign-bytes"),
            TrustFault::Form => Words::of("signers-form"),
            TrustFault::Principal(text) => of("signers-principal", text),
            TrustFault::Option(text) => of("signers-option", text),
            TrustFault::OptionTwice(name) => of("signers-option-twice", name),
            TrustFault::OptionMissing(name) => of("signers-option-missing", name),
            TrustFault::Namespace(text) => of("signers-namespace", text),
            TrustFault::Time(text) => of("signers-time", text),
            TrustFault::Order => Words::of("signers-order"),
            TrustFault::KeyType(text) => of("signers-key-type", text),
            TrustFault::Key(fault) => Words::new("signers-key", &[("fault", fault.words().into())]),
            TrustFault::KeyShared(one, other) => {
                let parts = [("one", one.into()), ("other", other.into())];
                Words::new("signers-key-shared", &parts)
            }
        }
    }
}

/// Why a key does not count at a time.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoKey {
    /// It counts from this second on.
    NotYet(i64),
    /// It ended with this second.
    Ended(i64),
}

impl TrustList {
    /// Reads a list: every line that leaves nothing open, and what is wrong with the others.
    pub fn parse(bytes: &[u8]) -> (TrustList, Vec<TrustError>) {
        let (mut keys, mut errors) = (Vec::new(), Vec::new());
        let text = bytes.strip_suffix(b"\n").unwrap_or(bytes);
        for (index, line) in text.split(|b| *b == b'\n').enumerate() {
            let number = index + 1;
            match parse_line(line, number) {
                Ok(key) => keys.extend(key),
                Err(fault) => errors.push(TrustError { line: number, fault }),
            }
        }
        errors.extend(take_out_shared(&mut keys));
        errors.sort_by_key(|error| error.line);
        let mut by_key: BTreeMap<[u8; 32], Vec<usize>> = BTreeMap::new();
        for (index, key) in keys.iter().enumerate() {
            by_key.entry(*key.key.as_bytes()).or_default().push(index);
        }
        let (revoked, digest) = (BTreeMap::new(), canonical::sha256_hex(bytes));
        (TrustList { keys, by_key, revoked, digest }, errors)
    }

    /// Takes a key away from a time on; of two times for one key the earlier counts.
    pub fn revoke(&mut self, fingerprint: &str, revoked: Revoked) {
        let own = self.revoked.entry(fingerprint.to_owned()).or_insert_with(|| revoked.clone());
        if revoked.from < own.from {
            *own = revoked;
        }
    }

    /// The revocation of a key that counts at a time.
    pub fn revoked(&self, fingerprint: &str, at: DateTime<FixedOffset>) -> Option<&Revoked> {
        self.revoked.get(fingerprint).filter(|revoked| revoked.from <= at)
    }

    /// SHA-256 of the file the list was read from.
    pub fn digest(&self) -> &str {
        &self.digest
    }

    /// The lines, in the order of the file.
    pub fn keys(&self) -> &[TrustedKey] {
        &self.keys
    }

    /// The lines of a key, all of one owner; empty when nobody has it.
    pub fn lines_of(&self, key: &[u8; 32]) -> Vec<&TrustedKey> {
        let lines = self.by_key.get(key).map(Vec::as_slice).unwrap_or_default();
        lines.iter().filter_map(|index| self.keys.get(*index)).collect()
    }
}

/// Why none of a key's lines counts at a time; none when there are no lines.
pub(crate) fn why_none(lines: &[&TrustedKey], at: DateTime<FixedOffset>) -> Option<NoKey> {
    let at = at.timestamp();
    let ended = lines.iter().map(|k| k.until).filter(|until| *until < at).max();
    let begins = lines.iter().map(|k| k.from).filter(|from| at < *from).min();
    ended.map(NoKey::Ended).or(begins.map(NoKey::NotYet))
}

/// Takes every line out whose key stands under another name too.
fn take_out_shared(keys: &mut Vec<TrustedKey>) -> Vec<TrustError> {
    let mut owners: BTreeMap<[u8; 32], BTreeSet<String>> = BTreeMap::new();
    for key in keys.iter() {
        owners.entry(*key.key.as_bytes()).or_default().insert(key.principal.clone());
    }
    let mut errors = Vec::new();
    keys.retain(|key| {
        let names = &owners[key.key.as_bytes()];
        let other = names.iter().find(|name| **name != key.principal);
        if let Some(other) = other {
            let fault = TrustFault::KeyShared(key.principal.clone(), other.clone());
            errors.push(TrustError { line: key.line, fault });
        }
        other.is_none()
    });
    errors
}

/// None for an empty line or a comment.
fn parse_line(line: &[u8], number: usize) -> Result<Option<TrustedKey>, TrustFault> {
    let text = std::str::from_utf8(line).map_err(|_| TrustFault::ForeignBytes)?;
    if text.chars().any(char::is_control) {
        return Err(TrustFault::ForeignBytes);
    }
    if text.is_empty() || text.starts_with('#') {
        return Ok(None);
    }
    let mut fields = text.splitn(5, ' ');
    let mut field = || fields.next().filter(|f| !f.is_empty()).ok_or(TrustFault::Form);
    let (principal, options) = (field()?, field()?);
    if !is_identifier(principal) {
        return Err(TrustFault::Principal(principal.to_owned()));
    }
    if options.starts_with("ssh-") {
        return Err(TrustFault::OptionMissing("namespaces"));
    }
    let options = parse_options(options)?;
    let (kind, key) = (field()?, field()?);
    if kind != "ssh-ed25519" {
        return Err(TrustFault::KeyType(kind.to_owned()));
    }
    let key = PublicKey::from_openssh(&format!("{kind} {key}")).map_err(TrustFault::Key)?;
    let Options { namespaces, from, until } = options;
    let (principal, fingerprint) = (principal.to_owned(), key.fingerprint());
    Ok(Some(TrustedKey { line: number, principal, namespaces, from, until, key, fingerprint }))
}

struct Options {
    namespaces: Vec<String>,
    from: i64,
    until: i64,
}

const OPTIONS: [&str; 3] = ["namespaces", "valid-after", "valid-before"];

fn parse_options(text: &str) -> Result<Options, TrustFault> {
    let mut values: [Option<&str>; 3] = [None; 3];
    let mut rest = text;
    loop {
        let unknown = || TrustFault::Option(text.to_owned());
        let (name, after) = rest.split_once("=\"").ok_or_else(unknown)?;
        let (value, after) = after.split_once('"').ok_or_else(unknown)?;
        let index = OPTIONS
            .iter()
            .position(|option| *option == name)
            .ok_or_else(|| TrustFault::Option(name.to_owned()))?;
        if values[index].replace(value).is_some() {
            return Err(TrustFault::OptionTwice(OPTIONS[index]));
        }
        match after.strip_prefix(',') {
            Some(more) => rest = more,
            None if after.is_empty() => break,
            None => return Err(unknown()),
        }
    }
    let value = |index: usize| values[index].ok_or(TrustFault::OptionMissing(OPTIONS[index]));
    let namespaces = value(0)?.split(',').map(parse_namespace).collect::<Result<_, _>>()?;
    let (from, until) = (parse_time(value(1)?)?, parse_time(value(2)?)?);
    if until < from { Err(TrustFault::Order) } else { Ok(Options { namespaces, from, until }) }
}

fn parse_namespace(text: &str) -> Result<String, TrustFault> {
    if is_identifier(text) {
        Ok(text.to_owned())
    } else {
        Err(TrustFault::Namespace(text.to_owned()))
    }
}

/// `YYYYMMDD[HHMM[SS]]Z` as seconds since 1970.
fn parse_time(text: &str) -> Result<i64, TrustFault> {
    let bad = || TrustFault::Time(text.to_owned());
    let digits = text.strip_suffix('Z').ok_or_else(bad)?;
    let fits = matches!(digits.len(), 8 | 12 | 14) && digits.bytes().all(|b| b.is_ascii_digit());
    if !fits {
        return Err(bad());
    }
    let number = |from: usize, to: usize| -> u32 {
        digits.get(from..to).and_then(|part| part.parse().ok()).unwrap_or(0)
    };
    let year = i32::try_from(number(0, 4)).map_err(|_| bad())?;
    NaiveDate::from_ymd_opt(year, number(4, 6), number(6, 8))
        .and_then(|day| day.and_hms_opt(number(8, 10), number(10, 12), number(12, 14)))
        .map(|time| time.and_utc().timestamp())
        .ok_or_else(bad)
}

#[cfg(test)]
mod tests {
    use super::{NoKey, Revoked, TrustFault, TrustList, why_none};
    use crate::record::fixture;
    use crate::record::signature::SignatureFault;
    use crate::record::time;

    const OPTIONS: &str =
        r#"namespaces="signoff@plant.example",valid-after="20260101Z",valid-before="20270101Z""#;
    const KEY: &str = "AAAAC3NzaC1lZDI1NTE5AAAAINdamAGCsQq31Uv+08lkBzoO4XLz2qYjJa8CGmj3B1Ea";

    #[track_caller]
    fn check(line: &str, expected: Option<TrustFault>) {
        let (list, errors) = TrustList::parse(line.as_bytes());
        let faults: Vec<_> = errors.into_iter().map(|e| e.fault).collect();
        assert_eq!(list.keys().len(), usize::from(expected.is_none()), "{line}");
        assert_eq!(faults, Vec::from_iter(expected), "{line}");
    }

    fn option(text: &str) -> TrustFault {
        TrustFault::Option(text.to_owned())
    }

    #[test]
    fn a_line_that_leaves_nothing_open_is_read() {
        check(&format!("a@plant.example {OPTIONS} ssh-ed25519 {KEY}"), None);
        check(&format!("a@plant.example {OPTIONS} ssh-ed25519 {KEY} of Ada"), None);
        check(&format!("# who\n\na@plant.example {OPTIONS} ssh-ed25519 {KEY}\n"), None);
    }

    #[test]
    fn names_are_exact() {
        for name in ["*", "*@plant.example", "a?", "!a", "a@x,b@x", "а@x", "\"a@x\""] {
            check(
                &format!("{name} {OPTIONS} ssh-ed25519 {KEY}"),
                Some(TrustFault::Principal(name.to_owned())),
            );
        }
    }

    #[test]
    fn options_are_three_and_complete() {
        let line = |options: &str| format!("a@x {options} ssh-ed25519 {KEY}");
        check(&format!("a@x ssh-ed25519 {KEY}"), Some(TrustFault::OptionMissing("namespaces")));
        check(&line("cert-authority"), Some(option("cert-authority")));
        check(
            &line(&format!("cert-authority,{OPTIONS}")),
            Some(option("cert-authority,namespaces")),
        );
        check(&line(&format!("{OPTIONS},cert-authority")), {
            Some(option(&format!("{OPTIONS},cert-authority")))
        });
        check(&line(&OPTIONS.replace("namespaces", "Namespaces")), Some(option("Namespaces")));
        check(&line(&OPTIONS.replace("valid-before", "valid-until")), Some(option("valid-until")));
        check(&line(&format!("{OPTIONS},{OPTIONS}")), Some(TrustFault::OptionTwice("namespaces")));
        for (index, name) in ["namespaces", "valid-after", "valid-before"].into_iter().enumerate() {
            let mut parts: Vec<_> = OPTIONS.split(',').collect();
            parts.remove(index);
            check(&line(&parts.join(",")), Some(TrustFault::OptionMissing(name)));
        }
        for name in ["signoff@*", "", "a b"] {
            let fault = if name == "a b" {
                option("namespaces=\"a")
            } else {
                TrustFault::Namespace(name.to_owned())
            };
            check(&line(&OPTIONS.replace("signoff@plant.example", name)), Some(fault));
        }
    }

    #[test]
    fn times_are_utc_and_in_order() {
        let line =
            |after: &str| format!("a@x {} ssh-ed25519 {KEY}", OPTIONS.replace("20260101Z", after));
        for good in ["20260101Z", "202601011200Z", "20260101120059Z", "20270101Z"] {
            check(&line(good), None);
        }
        for bad in [
            "20260101",
            "2026-01-01Z",
            "20261301Z",
            "20260230Z",
            "2026010112Z",
            "20260101120060Z",
            "Z",
            "",
        ] {
            check(&line(bad), Some(TrustFault::Time(bad.to_owned())));
        }
        check(&line("20270102Z"), Some(TrustFault::Order));
    }

    #[test]
    fn keys_are_sound_ed25519_keys() {
        let line = |kind: &str, key: &str| format!("a@x {OPTIONS} {kind} {key}");
        let rsa = TrustFault::KeyType("ssh-rsa".to_owned());
        check(&line("ssh-rsa", KEY), Some(rsa));
        check(&line("ssh-ed25519", "AAAA"), Some(TrustFault::Key(SignatureFault::NoKey)));
        check(
            &line("ssh-ed25519", &format!("{KEY}=")),
            Some(TrustFault::Key(SignatureFault::NoKey)),
        );
        // The curve's identity point: y = 1.
        let weak = "AAAAC3NzaC1lZDI1NTE5AAAAIAEAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";
        check(&line("ssh-ed25519", weak), Some(TrustFault::Key(SignatureFault::WeakKey)));
    }

    #[test]
    fn foreign_bytes_and_other_forms_are_refused() {
        check(&format!("a@x {OPTIONS} ssh-ed25519 {KEY}\r"), Some(TrustFault::ForeignBytes));
        check(&format!("a@x\t{OPTIONS} ssh-ed25519 {KEY}"), Some(TrustFault::ForeignBytes));
        check(&format!("a@x  {OPTIONS} ssh-ed25519 {KEY}"), Some(TrustFault::Form));
        check(&format!(" a@x {OPTIONS} ssh-ed25519 {KEY}"), Some(TrustFault::Form));
        check(&format!("a@x {OPTIONS} ssh-ed25519"), Some(TrustFault::Form));
        check("a@x", Some(TrustFault::Form));
    }

    #[test]
    fn of_two_revocations_the_earlier_counts() {
        let (mut list, _) = TrustList::parse(fixture::SIGNERS.as_bytes());
        let key = list.keys()[0].fingerprint.clone();
        let at = |text: &str| time::parse(text).unwrap();
        for from in ["2026-05-01T00:00:00Z", "2026-04-01T02:00:00+02:00", "2026-06-01T00:00:00Z"] {
            list.revoke(&key, Revoked { from: at(from), why: from.to_owned() });
        }
        let why = |text: &str| list.revoked(&key, at(text)).map(|revoked| revoked.why.as_str());
        assert_eq!(why("2026-03-31T23:59:59Z"), None);
        assert_eq!(why("2026-04-01T00:00:00Z"), Some("2026-04-01T02:00:00+02:00"));
        assert_eq!(list.revoked("SHA256:another", at("2026-07-01T00:00:00Z")), None);
    }

    #[test]
    fn a_key_under_two_names_counts_for_neither_and_both_lines_are_named() {
        let line = |name: &str| format!("{name} {OPTIONS} ssh-ed25519 {KEY}\n");
        let (list, errors) = TrustList::parse([line("b@x"), line("a@x")].concat().as_bytes());
        assert!(list.keys().is_empty());
        let told: Vec<_> = errors.iter().map(|e| (e.line, e.fault.code())).collect();
        assert_eq!(told, [(1, "key-shared"), (2, "key-shared")]);
    }

    /// Both bounds are inclusive in `ssh-keygen` 9.2; `interoperation` asks the program itself.
    #[test]
    fn both_bounds_are_inclusive() {
        let (list, errors) = TrustList::parse(fixture::SIGNERS.as_bytes());
        assert!(errors.is_empty(), "{errors:?}");
        let line = &list.keys()[0];
        let ask = |at: &str| {
            let at = time::parse(at).unwrap();
            (line.covers(at), why_none(&[line], at))
        };
        let (from, until) = (1_767_225_600, 1_798_761_600);
        assert_eq!(ask("2025-12-31T23:59:59Z"), (false, Some(NoKey::NotYet(from))));
        assert_eq!(ask("2026-01-01T00:00:00Z"), (true, None));
        assert_eq!(ask("2027-01-01T00:00:00Z"), (true, None));
        assert_eq!(ask("2027-01-01T00:00:01Z"), (false, Some(NoKey::Ended(until))));
        assert_eq!(ask("2027-01-01T01:00:00+01:00"), (true, None));
        assert_eq!(why_none(&[], time::parse("2026-06-01T00:00:00Z").unwrap()), None);
    }
}
