//! Proof without this program: commands that check an entry, and hashes a content policy names.

use base64ct::Encoding;
use chrono::{DateTime, Utc};
use sha2::{Digest, Sha256};

/// The hash of an inline style as a content policy names it: `sha256-<base64>`.
///
/// Source: CSP Level 3, section 2.3.1 (`hash-source`); from memory.
pub fn style_hash(style: &str) -> String {
    format!("sha256-{}", base64(&Sha256::digest(style.as_bytes())))
}

/// The command that prints a file's SHA-256.
pub fn digest_command(file: &str) -> String {
    format!("sha256sum {}", shell_word(file))
}

/// The command that prints what the next entry names as `prev`: both files, one after the other.
pub fn chain_command(file: &str, signature: &str) -> String {
    format!("cat {} {} | sha256sum", shell_word(file), shell_word(signature))
}

/// What `ssh-keygen` needs to judge one signature.
pub struct Signature<'a> {
    /// The signed file.
    pub file: &'a str,
    /// The signature's file.
    pub signature: &'a str,
    /// Who signed, as listed in `allowed_signers`.
    pub principal: &'a str,
    /// What the signature may mean: `signoff@<domain>`.
    pub namespace: &'a str,
    /// When it was signed, RFC 3339.
    pub time: &'a str,
}

/// The command that judges a signature at the moment it was made.
///
/// The moment is given in UTC with a `Z`: without it, `ssh-keygen` takes local time
/// (ssh-keygen(1), `-O verify-time`). A moment that cannot be read is left out.
pub fn verify_command(signature: &Signature) -> String {
    let time = match DateTime::parse_from_rfc3339(signature.time) {
        Ok(time) => format!(" -Overify-time={}", time.with_timezone(&Utc).format("%Y%m%d%H%M%SZ")),
        Err(_) => String::new(),
    };
    format!(
        "ssh-keygen -Y verify -f allowed_signers -I {} -n {} -s {}{time} < {}",
        shell_word(signature.principal),
        shell_word(signature.namespace),
        shell_word(signature.signature),
        shell_word(signature.file),
    )
}

/// A word for a POSIX shell: quoted unless it is plain.
fn shell_word(word: &str) -> String {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"@%+=:,./_-".contains(&byte);
    match !word.is_empty() && word.bytes().all(plain) {
        true => word.to_owned(),
        false => format!("'{}'", word.replace('\'', "'\\''")),
    }
}

/// Base64 with padding, RFC 4648 section 4.
fn base64(bytes: &[u8]) -> String {
    base64ct::Base64::encode_string(bytes)
}

#[cfg(test)]
mod tests {
    use super::{Signature, base64, digest_command, style_hash, verify_command};

    /// RFC 4648 section 10, test vectors; from memory.
    #[test]
    fn base64_gives_the_published_vectors() {
        for (plain, expected) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(plain.as_bytes()), expected, "{plain}");
        }
    }

    /// CSP Level 2, section 7.19 prints this hash of `alert('Hello, world.');`; from memory, and
    /// `openssl dgst -sha256 -binary | base64` gives the same.
    #[test]
    fn a_style_hash_is_sha256_in_base64() {
        assert_eq!(
            style_hash("alert('Hello, world.');"),
            "sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng="
        );
    }

    #[track_caller]
    fn check(principal: &str, time: &str, expected: &str) {
        let command = verify_command(&Signature {
            file: "0001.json",
            signature: "0001.json.sig",
            principal,
            namespace: "signoff@plant.example",
            time,
        });
        assert_eq!(command, expected);
    }

    #[test]
    fn the_moment_is_given_in_utc() {
        check(
            "m.okafor@plant.example",
            "2026-11-26T00:30:00+01:00",
            "ssh-keygen -Y verify -f allowed_signers -I m.okafor@plant.example \
             -n signoff@plant.example -s 0001.json.sig -Overify-time=20261125233000Z < 0001.json",
        );
    }

    #[test]
    fn a_name_cannot_leave_its_word() {
        check(
            "a'; rm -r x",
            "never",
            "ssh-keygen -Y verify -f allowed_signers -I 'a'\\''; rm -r x' \
             -n signoff@plant.example -s 0001.json.sig < 0001.json",
        );
        assert_eq!(digest_command("a b"), "sha256sum 'a b'");
        assert_eq!(digest_command(""), "sha256sum ''");
    }
}
