//! Canonical bytes and digests: one form for each value, so that a digest names it.
//!
//! Must never repair what it reads: a reader compares bytes with [`line()`] and refuses the rest.
//! Must never be given a float that is not finite: the JSON library turns it into `null` without a
//! word. No type of ours holds a float; `clippy.toml` sees to it.

use serde::Serialize;
use sha2::{Digest, Sha256};

/// The canonical form of a value (RFC 8785) and one line feed: what is written, digested, signed.
///
/// # Errors
/// When the value has no canonical form: a key that is not text.
pub fn line<T: Serialize>(value: &T) -> Result<Vec<u8>, serde_json::Error> {
    let text = serde_json::to_vec(value)?;
    let mut bytes = match Sorter::of(&text) {
        Some(sorted) => sorted,
        None => serde_json_canonicalizer::to_vec(&serde_json::to_value(value)?)?,
    };
    bytes.push(b'\n');
    Ok(bytes)
}

/// Puts the members of each object in order, in a text as `serde_json` writes it: no blanks, escapes
/// as RFC 8785 wants them. That is all such a text lacks, as long as its keys are ASCII without
/// escapes and its numbers whole and short; for any other the library is asked, which is slower.
struct Sorter<'t> {
    text: &'t [u8],
    at: usize,
    out: Vec<u8>,
}

/// A whole number of more digits may be beyond 2^53 - 1, from where RFC 8785 writes doubles.
const MOST_DIGITS: usize = 15;

impl Sorter<'_> {
    fn of(text: &[u8]) -> Option<Vec<u8>> {
        let mut sorter = Sorter { text, at: 0, out: Vec::with_capacity(text.len() + 1) };
        sorter.value()?;
        Some(sorter.out)
    }

    fn value(&mut self) -> Option<()> {
        match self.text.get(self.at)? {
            b'{' => self.object(),
            b'[' => self.list(),
            b'"' => self.string().map(|_| ()),
            _ => self.plain(),
        }
    }

    fn object(&mut self) -> Option<()> {
        self.take(1)?;
        let begin = self.out.len();
        let mut members = Vec::new();
        while *self.text.get(self.at)? != b'}' {
            if !members.is_empty() {
                self.at += 1;
            }
            let start = self.out.len();
            let key = self.string()?;
            self.take(1)?;
            self.value()?;
            members.push((key, start..self.out.len()));
        }
        self.order(begin, members)?;
        self.take(1)
    }

    /// Writes the members since `begin`, each by its key and its whole, in order and with commas.
    fn order(&mut self, begin: usize, mut members: Vec<(Span, Span)>) -> Option<()> {
        let is_plain = |key: &[u8]| key.is_ascii() && !key.contains(&b'\\');
        let unsorted = self.out.get(begin..)?.to_vec();
        let piece = |span: &Span| unsorted.get(span.start - begin..span.end - begin);
        if !members.iter().all(|(key, _)| piece(key).is_some_and(is_plain)) {
            return None;
        }
        members.sort_by(|(one, _), (other, _)| piece(one).cmp(&piece(other)));
        self.out.truncate(begin);
        for (index, (_, member)) in members.iter().enumerate() {
            if index > 0 {
                self.out.push(b',');
            }
            self.out.extend_from_slice(piece(member)?);
        }
        Some(())
    }

    fn list(&mut self) -> Option<()> {
        self.take(1)?;
        while *self.text.get(self.at)? != b']' {
            match self.text.get(self.at)? {
                b',' => self.take(1)?,
                _ => self.value()?,
            }
        }
        self.take(1)
    }

    /// Takes a text over; where what stands between its quotes came to lie.
    fn string(&mut self) -> Option<Span> {
        let inside = self.text.get(self.at + 1..)?;
        let next = |from: usize| {
            let rest = inside.get(from..)?.iter();
            Some(from + rest.copied().position(|byte| matches!(byte, b'"' | b'\\'))?)
        };
        let mut length = next(0)?;
        while *inside.get(length)? == b'\\' {
            length = next(length + 2)?;
        }
        let start = self.out.len() + 1;
        self.take(length + 2)?;
        Some(start..start + length)
    }

    /// Takes a word or a whole number over.
    fn plain(&mut self) -> Option<()> {
        let rest = self.text.get(self.at..)?;
        let length = rest.iter().position(|byte| b",]}".contains(byte)).unwrap_or(rest.len());
        let plain = rest.get(..length)?;
        let is_word = plain.iter().all(u8::is_ascii_lowercase);
        let digits = plain.strip_prefix(b"-").unwrap_or(plain);
        let is_whole = digits.iter().all(u8::is_ascii_digit) && digits.len() <= MOST_DIGITS;
        if is_word || is_whole { self.take(length) } else { None }
    }

    fn take(&mut self, length: usize) -> Option<()> {
        let end = self.at + length;
        self.out.extend_from_slice(self.text.get(self.at..end)?);
        self.at = end;
        Some(())
    }
}

/// Where something lies in what was written.
type Span = std::ops::Range<usize>;

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

/// SHA-256 of a beginning by itself, and of the whole that it begins: it is digested once.
pub fn sha256_hex_with(beginning: &[u8], rest: &[u8]) -> [String; 2] {
    let mut hash = Sha256::new_with_prefix(beginning);
    let alone = hash.clone();
    hash.update(rest);
    [alone, hash].map(|hash| hex(&hash.finalize()))
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
    use proptest::prelude::*;
    use sha2::{Digest, Sha256};

    use super::{Sorter, hex, line, sha256_hex, sha256_hex_of, sha256_hex_with};

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
            assert_eq!(sha256_hex_with(left, right), [left, &whole].map(sha256_hex));
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
                r#"{"\u20ac":"Euro Sign","\r":"Carriage Return","\u000a":"Newline","1":"One","\u0080":"Control\u007f","\ud83d\ude02":"Smiley","\u00f6":"Latin Small Letter O With Diaeresis","\ufb33":"Hebrew Letter Dalet With Dagesh","</script>":"Browser Challenge"}"#,
                "{\"\\n\":\"Newline\",\"\\r\":\"Carriage Return\",\"1\":\"One\",\"</script>\":\"Browser Challenge\",\"\u{80}\":\"Control\u{7f}\",\"ö\":\"Latin Small Letter O With Diaeresis\",\"€\":\"Euro Sign\",\"😂\":\"Smiley\",\"\u{fb33}\":\"Hebrew Letter Dalet With Dagesh\"}",
                "6af595a9aa80110b964b4de3f82a05fa6ae7423005019bacfa2620dddc4e94d1",
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

    /// The stream of doubles behind the published file of 100 million lines: 168 chosen ones, 2000
    /// neighbours from the least normal one on, then a chain of SHA-256, eight bytes each.
    ///
    /// Source: test material of the authors of RFC 8785; `numbers.txt` holds the chosen ones.
    fn published_doubles() -> impl Iterator<Item = u64> {
        let chosen = include_str!("canonical/numbers.txt").split_whitespace();
        let chosen = chosen.map(|bits| u64::from_str_radix(bits, 16).unwrap());
        let neighbours = (0..2000).map(|n| 0x0010_0000_0000_0000 + n);
        let next = |block: &[u8; 32]| Some(Sha256::digest(block).into());
        let chain = std::iter::successors(next(&[0; 32]), next);
        let eight = |bytes: &[u8]| u64::from_le_bytes(bytes.try_into().unwrap());
        let drawn = chain
            .flat_map(move |block: [u8; 32]| [0, 8, 16, 24].map(|at| eight(&block[at..at + 8])));
        let (fraction, exponent) = (u64::MAX >> 12, 0x7ff_u64 << 52);
        let is_number =
            move |bits: &u64| bits & exponent != exponent && bits & (fraction | exponent) != 0;
        chosen.chain(neighbours).chain(drawn.filter(is_number))
    }

    /// The published digests of the first lines of that file, `bits,number` each.
    #[test]
    #[allow(clippy::disallowed_types, reason = "the published vectors are doubles")]
    fn a_hundred_thousand_numbers_print_as_published() {
        let published = [
            (1_000, "be18b62b6f69cdab33a7e0dae0d9cfa869fda80ddc712221570f9f40a5878687"),
            (10_000, "b9f7a8e75ef22a835685a52ccba7f7d6bdc99e34b010992cbc5864cd12be6892"),
            (100_000, "22776e6d4b49fa294a0d0f349268e5c28808fe7e0cb2bcbe28f63894e494d4c7"),
        ];
        let (mut hash, mut doubles, mut lines) = (Sha256::new(), published_doubles(), 0);
        for (count, digest) in published {
            for bits in doubles.by_ref().take(count - lines) {
                hash.update(format!("{bits:x},"));
                hash.update(line(&f64::from_bits(bits)).unwrap());
            }
            lines = count;
            assert_eq!(hex(&hash.clone().finalize()), digest, "{count} lines");
        }
    }

    /// Any tree, keys and numbers of all kinds.
    #[allow(clippy::disallowed_types, reason = "JSON has doubles, whatever we write")]
    fn tree() -> impl Strategy<Value = serde_json::Value> {
        let key = prop_oneof!["[ !a-c]{0,3}", "[a-cé\"\u{1f600}\u{fb33}\n]{0,2}"];
        let leaf = prop_oneof![
            Just(serde_json::Value::Null),
            any::<bool>().prop_map(Into::into),
            any::<i64>().prop_map(Into::into),
            any::<u64>().prop_map(Into::into),
            any::<i16>().prop_map(Into::into),
            (any::<i32>(), 1..1000).prop_map(|(a, b)| (f64::from(a) / f64::from(b)).into()),
            any::<String>().prop_map(Into::into),
        ];
        leaf.prop_recursive(4, 40, 6, move |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..6).prop_map(Into::into),
                prop::collection::vec((key.clone(), inner), 0..6)
                    .prop_map(|members| serde_json::Value::Object(members.into_iter().collect())),
            ]
        })
    }

    proptest! {
        /// The library alone is the second implementation.
        #[test]
        fn any_tree_gets_the_bytes_of_the_library(tree in tree()) {
            let mut bytes = serde_json_canonicalizer::to_vec(&tree).unwrap();
            bytes.push(b'\n');
            prop_assert_eq!(line(&tree).unwrap(), bytes);
        }
    }

    #[test]
    fn members_are_put_in_order_without_the_library() {
        let sorted = |text: &str| Some(String::from_utf8(Sorter::of(text.as_bytes())?).unwrap());
        for (text, expected) in [
            (
                r#"{"b":{"z":[],"a":-7},"a b":{},"a":[{"d":"\"}","c":null},true]}"#,
                r#"{"a":[{"c":null,"d":"\"}"},true],"a b":{},"b":{"a":-7,"z":[]}}"#,
            ),
            (r#"{"ab":1,"a":2,"a!":3,"":4}"#, r#"{"":4,"a":2,"a!":3,"ab":1}"#),
        ] {
            assert_eq!(sorted(text).as_deref(), Some(expected));
        }
        for asked in [r#"[1.5]"#, r#"[1e3]"#, r#"[9007199254740993]"#, r#"{"é":1}"#, r#"{"\n":1}"#]
        {
            assert_eq!(sorted(asked), None, "{asked}");
        }
    }

    #[test]
    fn hex_is_lower_case() {
        assert_eq!(hex(&[0, 15, 0xab]), "000fab");
    }
}
