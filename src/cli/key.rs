//! The key that signs: from a file, or from an agent that keeps it.
//!
//! Must never choose for somebody: of an agent's keys only one that is listed for the person who
//! signs is used.
#![allow(clippy::disallowed_methods, reason = "the key and the agent's socket come in here")]

mod agent;

use std::path::{Path, PathBuf};

use chrono::{DateTime, Duration, FixedOffset};

use crate::failure::Failure;
use crate::language::{Language, Words};
use crate::record::TrustList;
use crate::record::rules::check_signer;
use crate::record::signature::{PublicKey, SignatureFault, SigningKey};

/// How long before its end a key is told of.
const SOON: Duration = Duration::days(30);

/// Whose key is asked for, and what for.
pub(super) struct Wanted<'a> {
    /// The principal in the list of signers.
    pub by: &'a str,
    /// Whose key is whose.
    pub trust: &'a TrustList,
    /// What the signature is made for.
    pub namespace: &'a str,
    /// When.
    pub at: DateTime<FixedOffset>,
}

/// Opens the key of a file; without one, the agent's key that is listed for the person.
pub(super) fn open(
    file: Option<&Path>,
    wanted: &Wanted,
    language: Language,
) -> Result<SigningKey, Failure> {
    match file {
        Some(file) => of_file(file, language),
        None => of_agent(wanted),
    }
}

/// Asks for the passphrase when the key has one.
fn of_file(file: &Path, language: Language) -> Result<SigningKey, Failure> {
    let text = std::fs::read_to_string(file).map_err(|e| Failure::at("failure-read", file, &e))?;
    let path = file.display().to_string();
    let fault = |fault: SignatureFault| {
        let parts = [("path", path.as_str().into()), ("fault", fault.words().into())];
        Failure::new(Words::new("keys-unreadable", &parts))
    };
    match SigningKey::from_openssh(&text, None) {
        Err(SignatureFault::PassphraseNeeded) => {
            let prompt = language.text("keys-passphrase", &[("path", path.as_str().into())]);
            let passphrase = rpassword::prompt_password(prompt + " ").map_err(|error| {
                let parts = [("cause", error.to_string().into())];
                Failure::new(Words::new("keys-no-passphrase", &parts))
            })?;
            SigningKey::from_openssh(&text, Some(&passphrase)).map_err(fault)
        }
        opened => opened.map_err(fault),
    }
}

fn of_agent(wanted: &Wanted) -> Result<SigningKey, Failure> {
    let socket = std::env::var_os("SSH_AUTH_SOCK").filter(|socket| !socket.is_empty());
    let Some(socket) = socket.map(PathBuf::from) else {
        return Err(Failure::new(Words::new("keys-none", &[("option", "--key FILE".into())])));
    };
    let keys = agent::keys(&socket).map_err(|e| Failure::at("keys-agent", &socket, &e))?;
    let count = keys.len();
    let Some(key) = listed(keys, wanted) else {
        let parts =
            [("by", wanted.by.into()), ("count", count.into()), ("option", "--key FILE".into())];
        return Err(Failure::new(Words::new("keys-agent-has-none", &parts)));
    };
    let public = key.clone();
    let sign = move |bytes: &[u8]| {
        let told = |words| Err(SignatureFault::Elsewhere(words));
        match agent::sign(&socket, &key, bytes) {
            Ok(Some(signature)) => Ok(signature),
            Ok(None) => told(Words::of("keys-agent-refused")),
            Err(e) => told(crate::failure::at_file("keys-agent", &socket, &e)),
        }
    };
    Ok(SigningKey::elsewhere(public, Box::new(sign)))
}

/// The first key that counts for the person; else the first listed for them, so that they hear why
/// it does not count.
fn listed(keys: Vec<PublicKey>, wanted: &Wanted) -> Option<PublicKey> {
    let Wanted { by, trust, namespace, at } = wanted;
    let is_listed = |key: &&PublicKey| {
        trust.lines_of(key.as_bytes()).first().is_some_and(|line| line.principal == *by)
    };
    let counts =
        |key: &&PublicKey| check_signer(trust, by, key.as_bytes(), namespace, Some(*at)).is_none();
    let first = keys.iter().find(counts).or_else(|| keys.iter().find(is_listed));
    first.cloned()
}

/// What to say of a key that ends soon.
pub(super) fn ends_soon(
    trust: &TrustList,
    fingerprint: &str,
    now: DateTime<FixedOffset>,
) -> Option<Words> {
    let lines = trust.keys().iter().filter(|line| line.fingerprint == fingerprint);
    let until = DateTime::from_timestamp(lines.map(|line| line.until).max()?, 0)?;
    (until.signed_duration_since(now) < SOON).then(|| {
        let day = until.with_timezone(now.offset()).format("%Y-%m-%d").to_string();
        Words::new("keys-end-soon", &[("day", day.into())])
    })
}
