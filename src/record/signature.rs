//! SSHSIG signatures by Ed25519 keys: one spelling, one version, strict verification.
//!
//! The file is what `ssh-keygen -Y sign` writes, and `ssh-keygen -Y verify` accepts it. Only what
//! would be written again byte for byte is read: neither version nor armour are signed data, so
//! they are compared instead. Must never accept a weak key: at the curve's identity point one
//! signature fits every message.

mod plain;

use ed25519_dalek::Verifier;
use ssh_key::public::KeyData;
use ssh_key::{Algorithm, HashAlg, LineEnding, SshSig};

use super::entry::first_difference;
use crate::language::Words;

/// Most bytes of a signature file; a good one has about 320.
pub const MOST_BYTES: usize = 4096;

/// A decoded public key that is not weak.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PublicKey {
    key: ed25519_dalek::VerifyingKey,
}

impl PublicKey {
    /// Decodes 32 bytes.
    ///
    /// # Errors
    /// [`SignatureFault::NoKey`] or [`SignatureFault::WeakKey`].
    pub fn from_bytes(bytes: &[u8; 32]) -> Result<Self, SignatureFault> {
        let key =
            ed25519_dalek::VerifyingKey::from_bytes(bytes).map_err(|_| SignatureFault::NoKey)?;
        if key.is_weak() { Err(SignatureFault::WeakKey) } else { Ok(PublicKey { key }) }
    }

    /// Reads `ssh-ed25519 AAAA...`, without comment.
    ///
    /// # Errors
    /// [`SignatureFault::NoKey`], [`SignatureFault::Algorithm`] or [`SignatureFault::WeakKey`].
    pub fn from_openssh(text: &str) -> Result<Self, SignatureFault> {
        let key = ssh_key::PublicKey::from_openssh(text).map_err(|_| SignatureFault::NoKey)?;
        let printed = key.to_openssh().map_err(|_| SignatureFault::NoKey)?;
        let bytes = key.key_data().ed25519().ok_or(SignatureFault::Algorithm)?.0;
        if printed == text { PublicKey::from_bytes(&bytes) } else { Err(SignatureFault::NoKey) }
    }

    /// The 32 bytes.
    pub fn as_bytes(&self) -> &[u8; 32] {
        self.key.as_bytes()
    }

    /// `SHA256:...`, as `ssh-keygen -l` prints it.
    pub fn fingerprint(&self) -> String {
        fingerprint(self.as_bytes())
    }

    /// The key as it stands in a list of signers: `ssh-ed25519 AAAA...`.
    ///
    /// # Errors
    /// Never for a decoded key; the error is that of the writer underneath.
    pub fn to_openssh(&self) -> Result<String, SignatureFault> {
        let key = ssh_key::PublicKey::new(key_data(self.as_bytes()), "");
        key.to_openssh().map_err(|_| SignatureFault::NoKey)
    }

    /// Strict verification of the bare signature, one by one.
    ///
    /// Never in a batch: of signatures whose point has a part of small order, and that strict
    /// verification refuses, a batch accepts one in two to one in eight, by chance. The plain check
    /// makes the point anew and compares bytes, so a point that passes is canonical, and whether it
    /// has small order shows in its bytes. `verify_strict` decodes it for that, for a tenth of the
    /// whole time; a test holds the two to the same answers.
    pub fn verifies(&self, data: &[u8], signature: &[u8; 64]) -> bool {
        let signature = ed25519_dalek::Signature::from_bytes(signature);
        !has_small_order(signature.r_bytes()) && self.key.verify(data, &signature).is_ok()
    }
}

/// The eight points of small order, without their sign: their y, least byte first.
///
/// Source: RFC 7748 §4.1 for the curve; the test asks the curve's own arithmetic.
const SMALL_ORDER: [[u8; 32]; 5] = [
    [0; 32],
    *b"\x01\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0",
    *b"\xec\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\
       \xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\x7f",
    *b"\x26\xe8\x95\x8f\xc2\xb2\x27\xb0\x45\xc3\xf4\x89\xf2\xef\x98\xf0\
       \xd5\xdf\xac\x05\xd3\xc6\x33\x39\xb1\x38\x02\x88\x6d\x53\xfc\x05",
    *b"\xc7\x17\x6a\x70\x3d\x4d\xd8\x4f\xba\x3c\x0b\x76\x0d\x10\x67\x0f\
       \x2a\x20\x53\xfa\x2c\x39\xcc\xc6\x4e\xc7\xfd\x77\x92\xac\x03\x7a",
];

fn has_small_order(point: &[u8; 32]) -> bool {
    let mut y = *point;
    if let Some(last) = y.last_mut() {
        *last &= 0x7f;
    }
    SMALL_ORDER.contains(&y)
}

/// `SHA256:...` of a key's 32 bytes, good or not.
pub fn fingerprint(bytes: &[u8; 32]) -> String {
    key_data(bytes).fingerprint(HashAlg::Sha256).to_string()
}

fn key_data(bytes: &[u8; 32]) -> KeyData {
    KeyData::Ed25519(ssh_key::public::Ed25519PublicKey(*bytes))
}

/// Signs bytes with a key that lies elsewhere.
type Elsewhere = Box<dyn Fn(&[u8]) -> Result<[u8; 64], SignatureFault>>;

/// A key that signs.
pub struct SigningKey {
    public: PublicKey,
    held: Held,
}

enum Held {
    Here(Box<ed25519_dalek::SigningKey>),
    Elsewhere(Elsewhere),
}

impl SigningKey {
    /// Reads an OpenSSH private key file.
    ///
    /// # Errors
    /// [`SignatureFault::NoKey`], [`SignatureFault::Algorithm`],
    /// [`SignatureFault::PassphraseNeeded`] or [`SignatureFault::PassphraseWrong`].
    pub fn from_openssh(text: &str, passphrase: Option<&str>) -> Result<Self, SignatureFault> {
        let mut key = ssh_key::PrivateKey::from_openssh(text).map_err(|_| SignatureFault::NoKey)?;
        if key.is_encrypted() {
            let phrase = passphrase.ok_or(SignatureFault::PassphraseNeeded)?;
            key = key.decrypt(phrase).map_err(|_| SignatureFault::PassphraseWrong)?;
        }
        let pair = key.key_data().ed25519().ok_or(SignatureFault::Algorithm)?;
        Ok(SigningKey::here(ed25519_dalek::SigningKey::from(&pair.private)))
    }

    /// The key of 32 secret bytes, for demonstrations and tests.
    pub fn from_secret(secret: &[u8; 32]) -> Self {
        SigningKey::here(ed25519_dalek::SigningKey::from_bytes(secret))
    }

    /// A key whose secret half lies elsewhere, as with an agent: `sign` gives its bare signature of
    /// bytes. What it gives is verified before it is used.
    pub fn elsewhere(public: PublicKey, sign: Elsewhere) -> Self {
        SigningKey { public, held: Held::Elsewhere(sign) }
    }

    fn here(key: ed25519_dalek::SigningKey) -> Self {
        SigningKey {
            public: PublicKey { key: key.verifying_key() },
            held: Held::Here(Box::new(key)),
        }
    }

    /// The public half.
    pub fn public(&self) -> PublicKey {
        self.public.clone()
    }

    /// Signs a message for a namespace; gives the signature file.
    ///
    /// # Errors
    /// [`SignatureFault::Namespace`] when it is empty; those of [`Self::sign_raw`].
    pub fn sign(&self, namespace: &str, message: &[u8]) -> Result<String, SignatureFault> {
        let empty =
            |_| SignatureFault::Namespace { expected: "a name".to_owned(), found: String::new() };
        let data = SshSig::signed_data(namespace, HashAlg::Sha512, message).map_err(empty)?;
        armour(self.public.as_bytes(), namespace, HashAlg::Sha512, &self.sign_raw(&data)?)
    }

    /// The bare signature of bytes (RFC 8032), as a signed note carries it.
    ///
    /// # Errors
    /// Never for a key that was read here; [`SignatureFault::Mismatch`] when what a key elsewhere
    /// gave does not fit, and whatever it says itself.
    pub fn sign_raw(&self, bytes: &[u8]) -> Result<[u8; 64], SignatureFault> {
        use ed25519_dalek::Signer;
        match &self.held {
            Held::Here(key) => Ok(key.sign(bytes).to_bytes()),
            Held::Elsewhere(sign) => {
                let signature = sign(bytes)?;
                let fits = self.public.verifies(bytes, &signature);
                if fits { Ok(signature) } else { Err(SignatureFault::Mismatch) }
            }
        }
    }
}

impl std::fmt::Debug for SigningKey {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "SigningKey({})", self.public().fingerprint())
    }
}

/// Why something is no signature, or not of this message.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SignatureFault {
    /// Not an armoured signature, or bytes before or after it; what the reader said.
    Armour(String),
    /// Another version than 1.
    Version(u32),
    /// Not Ed25519.
    Algorithm,
    /// The reserved field is not empty.
    Reserved,
    /// Reads, but would be written in other bytes; the first that differs.
    NotCanonical(usize),
    /// Made for another purpose.
    Namespace {
        /// What it should be made for.
        expected: String,
        /// What it was made for.
        found: String,
    },
    /// Made with another key than the one asked for.
    OtherKey,
    /// Does not fit the message.
    Mismatch,
    /// Not a readable key.
    NoKey,
    /// A key for which one signature fits every message.
    WeakKey,
    /// The private key is locked and no passphrase was given.
    PassphraseNeeded,
    /// The passphrase does not open the private key.
    PassphraseWrong,
    /// The key lies elsewhere and its keeper did not sign; why.
    Elsewhere(Words),
}

impl SignatureFault {
    /// What is wrong, for people.
    pub fn words(&self) -> Words {
        let one = |key, text: String| Words::new(key, &[("said", text.into())]);
        match self {
            SignatureFault::Armour(said) => one("signature-armour", said.clone()),
            SignatureFault::Version(v) => one("signature-version", v.to_string()),
            SignatureFault::Algorithm => Words::of("signature-algorithm"),
            SignatureFault::Reserved => Words::of("signature-reserved"),
            SignatureFault::NotCanonical(at) => one("signature-not-canonical", at.to_string()),
            SignatureFault::Namespace { expected, found } => {
                let parts = [("found", found.into()), ("expected", expected.into())];
                Words::new("signature-namespace", &parts)
            }
            SignatureFault::OtherKey => Words::of("signature-other-key"),
            SignatureFault::Mismatch => Words::of("signature-mismatch"),
            SignatureFault::NoKey => Words::of("signature-no-key"),
            SignatureFault::WeakKey => Words::of("signature-weak-key"),
            SignatureFault::PassphraseNeeded => Words::of("signature-passphrase-needed"),
            SignatureFault::PassphraseWrong => Words::of("signature-passphrase-wrong"),
            SignatureFault::Elsewhere(words) => words.clone(),
        }
    }
}

/// A signature file, taken apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signature {
    key: [u8; 32],
    namespace: String,
    hash: HashAlg,
    bytes: [u8; 64],
}

impl Signature {
    /// Reads a signature file; nothing but what would be written again byte for byte.
    ///
    /// # Errors
    /// [`SignatureFault`].
    pub fn parse(file: &[u8]) -> Result<Self, SignatureFault> {
        if file.len() > MOST_BYTES {
            return Err(SignatureFault::Armour("it is too long".to_owned()));
        }
        plain::read(file).map_or_else(|| Signature::parse_any(file), Ok)
    }

    /// Reads with a general reader, and compares with what would be written: says what is wrong.
    fn parse_any(file: &[u8]) -> Result<Self, SignatureFault> {
        let blob = SshSig::from_pem(file).map_err(no_blob)?;
        if blob.version() != SshSig::VERSION {
            return Err(SignatureFault::Version(blob.version()));
        }
        if !blob.reserved().is_empty() {
            return Err(SignatureFault::Reserved);
        }
        if blob.algorithm() != Algorithm::Ed25519 {
            return Err(SignatureFault::Algorithm);
        }
        let key = blob.public_key().ed25519().ok_or(SignatureFault::Algorithm)?.0;
        let bytes = blob.signature_bytes().try_into().map_err(|_| SignatureFault::Algorithm)?;
        let namespace = blob.namespace().to_owned();
        let signature = Signature { key, namespace, hash: blob.hash_alg(), bytes };
        let own = armour(&signature.key, &signature.namespace, signature.hash, &signature.bytes)?;
        if own.as_bytes() == file {
            Ok(signature)
        } else {
            Err(SignatureFault::NotCanonical(first_difference(own.as_bytes(), file)))
        }
    }

    /// The 32 bytes of the key it says it was made with.
    pub fn key(&self) -> &[u8; 32] {
        &self.key
    }

    /// What it was made for.
    pub fn namespace(&self) -> &str {
        &self.namespace
    }

    /// Whether it was made by this key, for this purpose, over this message: strictly (RFC 8032
    /// §5.1.7 without cofactor, canonical points and scalars only, no point of small order).
    ///
    /// # Errors
    /// [`SignatureFault::Namespace`], [`SignatureFault::OtherKey`] or [`SignatureFault::Mismatch`].
    pub fn verify(
        &self,
        key: &PublicKey,
        namespace: &str,
        message: &[u8],
    ) -> Result<(), SignatureFault> {
        if self.namespace != namespace {
            let (expected, found) = (namespace.to_owned(), self.namespace.clone());
            return Err(SignatureFault::Namespace { expected, found });
        }
        if &self.key != key.as_bytes() {
            return Err(SignatureFault::OtherKey);
        }
        let data = SshSig::signed_data(namespace, self.hash, message)
            .map_err(|_| SignatureFault::Mismatch)?;
        if key.verifies(&data, &self.bytes) { Ok(()) } else { Err(SignatureFault::Mismatch) }
    }
}

fn no_blob(error: ssh_key::Error) -> SignatureFault {
    match error {
        ssh_key::Error::Version { number } => SignatureFault::Version(number),
        ssh_key::Error::AlgorithmUnknown | ssh_key::Error::AlgorithmUnsupported { .. } => {
            SignatureFault::Algorithm
        }
        other => SignatureFault::Armour(other.to_string()),
    }
}

fn armour(
    key: &[u8; 32],
    namespace: &str,
    hash: HashAlg,
    bytes: &[u8; 64],
) -> Result<String, SignatureFault> {
    let fail = |e: ssh_key::Error| SignatureFault::Armour(e.to_string());
    let signature = ssh_key::Signature::new(Algorithm::Ed25519, bytes.to_vec()).map_err(fail)?;
    let blob = SshSig::new(key_data(key), namespace, hash, signature).map_err(fail)?;
    blob.to_pem(LineEnding::LF).map_err(fail)
}

#[cfg(test)]
mod tests;
