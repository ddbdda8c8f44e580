//! Canonical bytes and digests: one form for each value, so that a digest names it.
//!
//! Must never repair what it reads: a reader compares bytes with [`line()`] and refuses the rest.
//! Must never be given a float that is not finite: the JSON library turns it into `null` without a
//! word. No type of ours holds a float; `clippy.toml` sees to it.

use serde::Serialize;
use serde_json::Value;
use sha2::{Digest, Sha256};

/// The canonical form of a value (RFC 8785) and one line feed: what is written, digested, signed.
///
/// # Errors
/// When the value has no canonical form: a key that is not text.
pub fn line<T: Serialize>(value: &T) -> Result<Vec<u8>, serde_json::Error> {
    let tree = serde_json::to_value(value)?;
    let mut bytes = if is_plain(&tree) {
        // Sorted already, whole numbers only: the plain writer gives the same bytes, much faster.
        serde_json::to_vec(&tree)?
    } else {
        serde_json_canonicalizer::to_vec(&tree)?
    };
    bytes.push(b'\n');
    Ok(bytes)
}

/// Whether a tree has ASCII keys and no fractions, so that byte order is UTF-16 order and numbers
/// print in one way only.
fn is_plain(tree: &Value) -> bool {
    match tree {
        Value::Null | Value::Bool(_) | Value::String(_) => true,
        Value::Number(number) => {
            number.as_i64().is_some_and(|n| n.unsigned_abs() <= LARGEST_INTEGER)
        }
        Value::Array(list) => list.iter().all(is_plain),
        Value::Object(map) => map.iter().all(|(key, value)| key.is_ascii() && is_plain(value)),
    }
}

/// Integers beyond this are doubles in RFC 8785: 2^53 - 1.
const LARGEST_INTEGER: u64 = (1 << 53) - 1;

/// SHA-256 (FIPS 180-4) as lower-case hex.
pub fn sha256_hex(bytes: &[u8]) -> String {
    hex(&Sha256::digest(bytes))
}

/// SHA-256 over several pieces, as if they were one.
pub fn sha256_hex_of(pieces: &[&[u8]]) -> String {
    let mut hash = Sha256::new();
    for piece in pieces {
        hash.update(piece);
    }
    hex(&hash.finalize())
}

/// Lower-case hex.
pub fn hex(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 16] = b"0123456789abcdef";
    bytes
        .iter()
        .flat_map(|byte| [DIGITS[usize::from(byte >> 4)], DIGITS[usize::from(byte & 15)]])
        .map(char::from)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{hex, line, sha256_hex, sha256_hex_of};

    /// FIPS 180-4 examples (also RFC 6234), as printed by `sha256sum`.
    #[test]
    fn sha256_gives_the_published_digests() {
        let million = vec![b'a'; 1_000_000];
        let published: [(&[u8], &str); 7] = [
            (b"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
            (b"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
            (
                b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
                "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
            ),
            (
                b"abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu",
                "cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1",
            ),
            (&million, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"),
            (
                &b"01234567".repeat(80),
                "594847328451bdfa85056225462cc1d867d877fb388df0ce35f25ab5562bfbb5",
            ),
            (&[0xbd], "68325720aabd7c82f30f554b313d0570c95accbb7dc4b5aae11204c08ffe732b"),
        ];
        for (message, digest) in published {
            assert_eq!(sha256_hex(message), digest);
        }
    }

    #[test]
    fn pieces_digest_like_the_whole_at_every_split() {
        let whole: Vec<u8> = (0..130).collect();
        for split in 0..whole.len() {
            let (left, right) = whole.split_at(split);
            assert_eq!(sha256_hex_of(&[left, right]), sha256_hex(&whole));
        }
    }

    /// RFC 8785 §3.2.2 and §3.2.3, and the authors' test files, with the digests of their bytes.
    #[test]
    fn canonical_form_is_the_published_one() {
        let published = [
            (
                r#"{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}"#,
                r#"{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}"#,
                "2d5e01a318d0f0879ab568c4be289c8b1f64ef8921a53c6277d5e069978baacb",
            ),
            (
                r#"[56,{"d":true,"10":null,"1":[]}]"#,
                r#"[56,{"1":[],"10":null,"d":true}]"#,
                "099601b171cafed97c333f8878d68e7f8c8f795412adb34b2fdcf0e7c7beac42",
            ),
            (
                r#"{"peach":"This sorting order","péché":"is wrong according to French","pêche":"but canonicalization MUST","sin":"ignore locale"}"#,
                r#"{"peach":"This sorting order","péché":"is wrong according to French","pêche":"but canonicalization MUST","sin":"ignore locale"}"#,
                "d99d0ebdcb0033cb858cfa830ae46bc0fb3309413b271f1da828c89901a27ed5",
            ),
            (
                r#"{"1":{"f":{"f":"hi","F":5},"\n":56.0},"10":{},"":"empty","a":{},"111":[{"e":"yes","E":"no"}],"A":{}}"#,
                r#"{"":"empty","1":{"\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{"E":"no","e":"yes"}],"A":{},"a":{}}"#,
                "605f65004ec2db7692522a0852c22f1c989e036d547e88963d1a3143cf3195d5",
            ),
            (
                "{\"Unnormalized Unicode\":\"A\u{30a}\"}",
                "{\"Unnormalized Unicode\":\"A\u{30a}\"}",
                "0d99aad92a125196ff887876643fd3206786a84ddce2cee52ba4ad256d2381d3",
            ),
        ];
        for (input, canonical, digest) in published {
            let value: serde_json::Value = serde_json::from_str(input).unwrap();
            let bytes = line(&value).unwrap();
            let (text, feed) = bytes.split_at(bytes.len() - 1);
            assert_eq!(std::str::from_utf8(text).unwrap(), canonical);
            assert_eq!(feed, b"\n");
            assert_eq!(sha256_hex(text), digest);
        }
    }

    /// RFC 8785 §3.2.3: members are ordered by UTF-16 code units, not by code point.
    #[test]
    fn keys_are_ordered_by_utf16_code_units() {
        let keys = ["\u{20ac}", "\r", "\u{fb33}", "1", "\u{1f600}", "\u{80}", "\u{f6}"];
        let map: serde_json::Map<_, _> = keys.iter().map(|k| ((*k).to_owned(), 0.into())).collect();
        let expected = "{\"\\r\":0,\"1\":0,\"\u{80}\":0,\"\u{f6}\":0,\"\u{20ac}\":0,\"\u{1f600}\":0,\"\u{fb33}\":0}\n";
        assert_eq!(line(&map).unwrap(), expected.as_bytes());
    }

    /// RFC 8785 Appendix B, all finite rows: bits of a double and the text they print as.
    #[test]
    #[allow(clippy::disallowed_types, reason = "the published vectors are doubles")]
    fn numbers_print_as_published() {
        let rows = [
            (0x0000_0000_0000_0000_u64, "0"),
            (0x8000_0000_0000_0000, "0"),
            (0x0000_0000_0000_0001, "5e-324"),
            (0x8000_0000_0000_0001, "-5e-324"),
            (0x7fef_ffff_ffff_ffff, "1.7976931348623157e+308"),
            (0xffef_ffff_ffff_ffff, "-1.7976931348623157e+308"),
            (0x4340_0000_0000_0000, "9007199254740992"),
            (0xc340_0000_0000_0000, "-9007199254740992"),
            (0x4430_0000_0000_0000, "295147905179352830000"),
            (0x44b5_2d02_c7e1_4af5, "9.999999999999997e+22"),
            (0x44b5_2d02_c7e1_4af6, "1e+23"),
            (0x44b5_2d02_c7e1_4af7, "1.0000000000000001e+23"),
            (0x444b_1ae4_d6e2_ef4e, "999999999999999700000"),
            (0x444b_1ae4_d6e2_ef4f, "999999999999999900000"),
            (0x444b_1ae4_d6e2_ef50, "1e+21"),
            (0x3eb0_c6f7_a0b5_ed8c, "9.999999999999997e-7"),
            (0x3eb0_c6f7_a0b5_ed8d, "0.000001"),
            (0x41b3_de43_5555_5553, "333333333.3333332"),
            (0x41b3_de43_5555_5554, "333333333.33333325"),
            (0x41b3_de43_5555_5555, "333333333.3333333"),
            (0x41b3_de43_5555_5556, "333333333.3333334"),
            (0x41b3_de43_5555_5557, "333333333.33333343"),
            (0xbecb_f647_612f_3696, "-0.0000033333333333333333"),
            (0x4314_3ff3_c1cb_0959, "1424953923781206.2"),
        ];
        for (bits, text) in rows {
            assert_eq!(line(&f64::from_bits(bits)).unwrap(), format!("{text}\n").as_bytes());
        }
        // RFC 8785 wants an error here; we live with `null`, because no value of ours is a float.
        assert_eq!(line(&f64::NAN).unwrap(), b"null\n");
    }

    /// The library alone is the second implementation.
    #[test]
    fn the_fast_way_gives_the_bytes_of_the_library() {
        let tree = serde_json::json!({
            "b": ["\u{0}\u{1f}\u{7f}\u{2028}\"\\/é\u{1f600}", null, true, -7, 9_007_199_254_740_991_u64],
            "a": { "10": {}, "1": [], "": "x" },
        });
        assert!(super::is_plain(&tree));
        let mut bytes = serde_json_canonicalizer::to_vec(&tree).unwrap();
        bytes.push(b'\n');
        assert_eq!(line(&tree).unwrap(), bytes);
        for slow in
            [serde_json::json!(1.5), serde_json::json!(u64::MAX), serde_json::json!({"é": 1})]
        {
            assert!(!super::is_plain(&slow), "{slow}");
        }
    }

    #[test]
    fn hex_is_lower_case() {
        assert_eq!(hex(&[0, 15, 0xab]), "000fab");
    }
}
