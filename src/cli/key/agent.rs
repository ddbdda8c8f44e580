//! An agent that keeps keys, such as `ssh-agent`, asked over its socket.
//!
//! Two questions of the SSH agent protocol (draft-ietf-sshm-ssh-agent, from memory): which keys it
//! has, and a signature. Each has a connection of its own, and no answer is read past its bound.
//! Must never ask for anything else: no key is added, removed or locked from here.

use std::io::{self, Read, Write};
use std::os::unix::net::UnixStream;
use std::path::Path;
use std::time::Duration;

use crate::record::signature::PublicKey;

/// Most bytes of an answer, as in OpenSSH's own agent.
const MOST_BYTES: usize = 256 * 1024;
/// How long an agent may take; it may ask its owner first.
const PATIENCE: Duration = Duration::from_secs(60);

const FAILURE: u8 = 5;
const REQUEST_IDENTITIES: u8 = 11;
const IDENTITIES_ANSWER: u8 = 12;
const SIGN_REQUEST: u8 = 13;
const SIGN_RESPONSE: u8 = 14;

/// The one kind of key that signs records.
const ED25519: &[u8] = b"ssh-ed25519";

/// The agent's Ed25519 keys, in its order; others are passed over.
pub(super) fn keys(socket: &Path) -> io::Result<Vec<PublicKey>> {
    let answer = ask(connect(socket)?, &[REQUEST_IDENTITIES])?;
    keys_of(&answer).ok_or_else(malformed)
}

/// The agent's signature of bytes; none when it refuses.
pub(super) fn sign(socket: &Path, key: &PublicKey, bytes: &[u8]) -> io::Result<Option<[u8; 64]>> {
    let mut question = vec![SIGN_REQUEST];
    put(&mut question, &blob(key))?;
    put(&mut question, bytes)?;
    question.extend([0; 4]);
    let answer = ask(connect(socket)?, &question)?;
    if answer.first() == Some(&FAILURE) {
        return Ok(None);
    }
    signature_of(&answer).map(Some).ok_or_else(malformed)
}

fn connect(socket: &Path) -> io::Result<UnixStream> {
    let stream = UnixStream::connect(socket)?;
    stream.set_read_timeout(Some(PATIENCE))?;
    stream.set_write_timeout(Some(PATIENCE))?;
    Ok(stream)
}

/// One question, one answer: each has its length before it.
fn ask(mut agent: impl Read + Write, question: &[u8]) -> io::Result<Vec<u8>> {
    let mut whole = Vec::new();
    put(&mut whole, question)?;
    agent.write_all(&whole)?;
    let mut length = [0; 4];
    agent.read_exact(&mut length)?;
    let length = usize::try_from(u32::from_be_bytes(length)).unwrap_or(usize::MAX);
    if length > MOST_BYTES {
        return Err(malformed());
    }
    let mut answer = vec![0; length];
    agent.read_exact(&mut answer)?;
    Ok(answer)
}

fn malformed() -> io::Error {
    io::Error::new(io::ErrorKind::InvalidData, crate::language::Words::of("keys-agent-malformed"))
}

fn keys_of(answer: &[u8]) -> Option<Vec<PublicKey>> {
    let mut rest = answer.strip_prefix(&[IDENTITIES_ANSWER])?;
    let mut keys = Vec::new();
    for _ in 0..number(&mut rest)? {
        keys.extend(key_of(text(&mut rest)?));
        text(&mut rest)?;
    }
    rest.is_empty().then_some(keys)
}

/// None for another kind of key, and for a weak one.
fn key_of(mut blob: &[u8]) -> Option<PublicKey> {
    let kind = text(&mut blob)?;
    let bytes = text(&mut blob)?.try_into().ok()?;
    (kind == ED25519 && blob.is_empty()).then(|| PublicKey::from_bytes(&bytes).ok())?
}

fn signature_of(answer: &[u8]) -> Option<[u8; 64]> {
    let mut rest = answer.strip_prefix(&[SIGN_RESPONSE])?;
    let mut signature = text(&mut rest)?;
    let kind = text(&mut signature)?;
    let bytes = text(&mut signature)?.try_into().ok()?;
    (kind == ED25519 && signature.is_empty() && rest.is_empty()).then_some(bytes)
}

fn blob(key: &PublicKey) -> Vec<u8> {
    let length = |bytes: &[u8]| u32::try_from(bytes.len()).unwrap_or(u32::MAX).to_be_bytes();
    let bytes = key.as_bytes();
    [&length(ED25519), ED25519, &length(bytes), bytes].concat()
}

/// Bytes with their length before them.
fn put(to: &mut Vec<u8>, bytes: &[u8]) -> io::Result<()> {
    let length = u32::try_from(bytes.len()).map_err(|_| io::ErrorKind::InvalidInput)?;
    to.extend(length.to_be_bytes());
    to.extend(bytes);
    Ok(())
}

fn number(rest: &mut &[u8]) -> Option<u32> {
    let (number, after) = rest.split_first_chunk::<4>()?;
    *rest = after;
    Some(u32::from_be_bytes(*number))
}

fn text<'b>(rest: &mut &'b [u8]) -> Option<&'b [u8]> {
    let length = usize::try_from(number(rest)?).ok()?;
    let (text, after) = rest.split_at_checked(length)?;
    *rest = after;
    Some(text)
}

#[cfg(test)]
mod tests {
    use std::io::{self, Cursor, Read, Write};

    use super::{IDENTITIES_ANSWER, MOST_BYTES, SIGN_RESPONSE, ask, blob, keys_of, signature_of};
    use crate::record::SigningKey;

    /// An answer with an Ed25519 key and an RSA key, each with a comment.
    fn two_keys() -> Vec<u8> {
        let mut answer = vec![IDENTITIES_ANSWER, 0, 0, 0, 2];
        let rsa = [b"\0\0\0\x07ssh-rsa".as_slice(), b"\0\0\0\x01\x03", b"\0\0\0\x01\x05"].concat();
        for blob in [rsa, blob(&SigningKey::from_secret(&[7; 32]).public())] {
            super::put(&mut answer, &blob).unwrap();
            super::put(&mut answer, b"a comment").unwrap();
        }
        answer
    }

    fn one_signature() -> Vec<u8> {
        let mut signature = Vec::new();
        super::put(&mut signature, b"ssh-ed25519").unwrap();
        super::put(&mut signature, &[9; 64]).unwrap();
        let mut answer = vec![SIGN_RESPONSE];
        super::put(&mut answer, &signature).unwrap();
        answer
    }

    #[test]
    fn keys_of_other_kinds_are_passed_over() {
        let public = SigningKey::from_secret(&[7; 32]).public();
        assert_eq!(keys_of(&two_keys()), Some(vec![public]));
        assert_eq!(signature_of(&one_signature()), Some([9; 64]));
    }

    /// Every answer that is cut short or has a changed byte is refused or read, and nothing panics.
    #[test]
    fn broken_answers_do_no_harm() {
        for answer in [two_keys(), one_signature()] {
            for end in 0..answer.len() {
                assert_eq!(keys_of(&answer[..end]), None, "{end}");
                assert_eq!(signature_of(&answer[..end]), None, "{end}");
            }
            for at in 0..answer.len() {
                for byte in [0, 1, 0x7f, 0xff] {
                    let mut changed = answer.clone();
                    changed[at] = byte;
                    let _ = (keys_of(&changed), signature_of(&changed));
                }
            }
            assert_eq!(keys_of(&[answer.as_slice(), b"x"].concat()), None);
        }
    }

    /// What an agent says, whatever it is asked.
    struct Says(Cursor<Vec<u8>>);

    impl Read for Says {
        fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
            self.0.read(into)
        }
    }

    impl Write for Says {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            Ok(bytes.len())
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn an_answer_has_a_bound() {
        let said = |length: usize, bytes: usize| {
            let length = u32::try_from(length).unwrap().to_be_bytes();
            ask(Says(Cursor::new([&length, vec![0; bytes].as_slice()].concat())), &[11])
        };
        assert_eq!(said(3, 3).unwrap(), [0; 3]);
        assert_eq!(said(4, 3).unwrap_err().kind(), io::ErrorKind::UnexpectedEof);
        assert_eq!(said(MOST_BYTES + 1, 0).unwrap_err().kind(), io::ErrorKind::InvalidData);
    }
}
