//! The folder in which one record leaves the plant: all that somebody needs who has nothing of ours.
//!
//! The record lies in it byte for byte as in the plant. Must never need another file, or a network.

use std::collections::BTreeMap;

use super::people::PeopleFile;
use super::proofs::Proofs;
use crate::canonical;
use crate::record::store::RawRecord;

/// Files by path with `/`.
pub type Files = BTreeMap<String, Vec<u8>>;

/// Folder of the record's own files.
pub const RECORD: &str = "record";
/// The frozen packet in the record's folder.
pub const PACKET: &str = "packet.json";
/// The list of signers, as it is in the plant.
pub const SIGNERS: &str = "allowed_signers";
/// Names, roles and lost keys.
pub const PEOPLE: &str = "people.json";
/// Digests of all other files, for `sha256sum -c`.
pub const SUMS: &str = "SHA256SUMS";
/// How to read and check it.
pub const HOW_TO: &str = "README.txt";
/// The formats.
pub const FORMAT: &str = "FORMAT.md";
/// The second program.
pub const SCRIPT: &str = "verify.py";
/// Ways from the entries to the root of the checkpoint.
pub const LOG: &str = "log.json";
/// The checkpoint of the machine's log.
pub const CHECKPOINT: &str = "checkpoint";
/// The packet to read.
pub const PACKET_PAGE: &str = "packet.html";
/// The record to read.
pub const RECORD_PAGE: &str = "record.html";

/// What goes into the folder.
#[derive(Debug)]
pub struct Folder<'a> {
    /// The record.
    pub record: &'a RawRecord,
    /// The list of signers.
    pub signers: &'a str,
    /// Who signed.
    pub people: PeopleFile,
    /// A checkpoint of the machine's log, and the ways to it; none when there is no log.
    pub log: Option<(Vec<u8>, Proofs)>,
    /// How to read and check it, in words.
    pub how_to: String,
    /// The pages of the packet and of the record; none when the packet cannot be read.
    pub pages: Option<[String; 2]>,
}

impl Folder<'_> {
    /// The files.
    ///
    /// # Errors
    /// Never for people that could be read; the error is that of the writer underneath.
    pub fn files(self) -> Result<Files, serde_json::Error> {
        let mut files = record(self.record);
        let mut put = |name: &str, text: String| files.insert(name.to_owned(), text.into_bytes());
        put(SIGNERS, self.signers.to_owned());
        put(HOW_TO, self.how_to);
        put(FORMAT, [include_str!("../record/FORMAT.md"), include_str!("FORMAT.md")].join("\n"));
        put(SCRIPT, include_str!("verify.py").to_owned());
        if let Some([packet, record]) = self.pages {
            put(PACKET_PAGE, packet);
            put(RECORD_PAGE, record);
        }
        files.insert(PEOPLE.to_owned(), canonical::line(&self.people)?);
        if let Some((checkpoint, proofs)) = self.log {
            files.insert(CHECKPOINT.to_owned(), checkpoint);
            files.insert(LOG.to_owned(), canonical::line(&proofs)?);
        }
        let sums = sums(&files);
        files.insert(SUMS.to_owned(), sums.into_bytes());
        Ok(files)
    }
}

/// The record's own files.
fn record(raw: &RawRecord) -> Files {
    let mut files = Files::new();
    let mut put = |name: &str, bytes: &Vec<u8>| {
        files.insert(format!("{RECORD}/{name}"), bytes.clone());
    };
    if let Some(packet) = &raw.packet {
        put(PACKET, packet);
    }
    for entry in &raw.entries {
        put(&format!("{}.json", entry.name), &entry.json);
        if let Some(signature) = &entry.signature {
            put(&format!("{}.json.sig", entry.name), signature);
        }
    }
    files
}

/// The digests of files, as `sha256sum` prints them.
pub fn sums(files: &Files) -> String {
    let lines =
        files.iter().map(|(path, bytes)| format!("{}  {path}\n", canonical::sha256_hex(bytes)));
    lines.collect()
}

/// Digests by path, of what [`sums`] wrote; a line of another form is given back as it is.
pub fn read_sums(text: &str) -> (BTreeMap<&str, &str>, Vec<&str>) {
    let (mut sums, mut others) = (BTreeMap::new(), Vec::new());
    for line in text.lines() {
        let parts = line.split_once("  ").filter(|(digest, path)| is_sum(digest, path));
        match parts {
            Some((digest, path)) if !sums.contains_key(path) => drop(sums.insert(path, digest)),
            _ => others.push(line),
        }
    }
    (sums, others)
}

/// A digest, and the path of a file that an export may hold: in the folder or in that of the record.
fn is_sum(digest: &str, path: &str) -> bool {
    let name = path.strip_prefix("record/").unwrap_or(path);
    let is_name = |name: &str| {
        !name.starts_with('.')
            && name.bytes().all(|b| b.is_ascii_alphanumeric() || b"._".contains(&b))
    };
    crate::record::entry::is_digest(digest) && !name.is_empty() && is_name(name)
}

#[cfg(test)]
mod tests {
    use super::{Files, Folder, read_sums, sums};
    use crate::export::people::PeopleFile;
    use crate::record::fixture::{self, SIGNERS};

    fn files() -> Files {
        let record = &fixture::raw();
        let text = || "text".to_owned();
        let (people, pages) = (PeopleFile::default(), Some([text(), text()]));
        Folder { record, signers: SIGNERS, people, log: None, how_to: text(), pages }
            .files()
            .unwrap()
    }

    #[test]
    fn the_record_is_there_byte_for_byte() {
        let (files, raw) = (files(), fixture::raw());
        assert_eq!(files["record/packet.json"], raw.packet.unwrap());
        for entry in raw.entries {
            assert_eq!(files[&format!("record/{}.json", entry.name)], entry.json);
            assert_eq!(
                Some(&files[&format!("record/{}.json.sig", entry.name)]),
                entry.signature.as_ref()
            );
        }
        assert_eq!(files.len(), 1 + 13 * 2 + 8);
    }

    #[test]
    fn every_file_has_its_digest() {
        let mut files = files();
        let text = String::from_utf8(files.remove("SHA256SUMS").unwrap()).unwrap();
        assert_eq!(text, sums(&files));
        let (digests, others) = read_sums(&text);
        assert_eq!((digests.len(), others.len()), (files.len(), 0));
        assert!(digests.keys().all(|path| files.contains_key(*path)));
    }

    #[test]
    fn a_line_that_leads_elsewhere_is_not_read() {
        let digest = "0".repeat(64);
        for path in ["../a", "/etc/passwd", "record/../../a", "record/", "", ".lock", "a b", "a/b"]
        {
            let line = format!("{digest}  {path}");
            assert_eq!(read_sums(&line), (Default::default(), vec![line.as_str()]), "{path}");
        }
        for line in ["", "0  a", "text"] {
            assert_eq!(read_sums(line).0.len(), 0);
        }
        let twice = format!("{digest}  a\n{digest}  a\n");
        assert_eq!(read_sums(&twice).1.len(), 1);
    }
}
