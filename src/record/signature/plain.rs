//! The one form in which signature files are written, read straight through.
//!
//! An audit reads many thousand of them: this costs a third of the general reader and its comparison.
//! Must never read what would not be written again byte for byte; says nothing about the rest, of
//! which the general reader says what is wrong. A test holds the two to the same answers.

use base64ct::{Base64, Encoding};
use ssh_key::HashAlg;

use super::Signature;

/// Letters of a full line of the armour.
const LINE: usize = 70;

/// The signature in a file of that form; none for any other.
pub(super) fn read(file: &[u8]) -> Option<Signature> {
    let body = file.strip_prefix(b"-----BEGIN SSH SIGNATURE-----\n")?;
    let body = body.strip_suffix(b"\n-----END SSH SIGNATURE-----\n")?;
    let blob = Base64::decode_vec(&joined(body)?).ok()?;
    let mut rest = blob.strip_prefix(b"SSHSIG\0\0\0\x01")?;
    let mut public = string(&mut rest)?;
    let namespace = str::from_utf8(string(&mut rest)?).ok()?.to_owned();
    let (reserved, hash) = (string(&mut rest)?, string(&mut rest)?);
    let mut signed = string(&mut rest)?;
    let (key, bytes) = (ed25519(&mut public)?, ed25519(&mut signed)?);
    let hash = match hash {
        b"sha512" => HashAlg::Sha512,
        b"sha256" => HashAlg::Sha256,
        _ => return None,
    };
    let is_whole = [reserved, rest, public, signed].iter().all(|left| left.is_empty());
    (is_whole && !namespace.is_empty()).then_some(Signature { key, namespace, hash, bytes })
}

/// The letters of all lines, each but the last a full one.
fn joined(body: &[u8]) -> Option<String> {
    let mut text = String::with_capacity(body.len());
    let mut lines = body.split(|byte| *byte == b'\n').peekable();
    while let Some(line) = lines.next() {
        let fits = match lines.peek() {
            Some(_) => line.len() == LINE,
            None => (1..=LINE).contains(&line.len()),
        };
        text += str::from_utf8(line).ok().filter(|_| fits)?;
    }
    Some(text)
}

/// Takes a string with its length before it (RFC 4251 §5).
fn string<'b>(rest: &mut &'b [u8]) -> Option<&'b [u8]> {
    let (length, after) = rest.split_first_chunk::<4>()?;
    let length = usize::try_from(u32::from_be_bytes(*length)).ok()?;
    let (own, after) = after.split_at_checked(length)?;
    *rest = after;
    Some(own)
}

/// Takes the name of the algorithm and the N bytes of a key or a signature.
fn ed25519<const N: usize>(rest: &mut &[u8]) -> Option<[u8; N]> {
    let name = string(rest)?;
    let bytes = string(rest)?.try_into().ok()?;
    (name == b"ssh-ed25519").then_some(bytes)
}
