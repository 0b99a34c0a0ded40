//! The list of what a packet holds.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use serde_json::{Map, Value, json};
use sha2::{Digest as _, Sha256};

use super::{Packet, Sections};

/// The manifest's file name inside a packet.
pub const MANIFEST: &str = "manifest.json";

/// The manifest's format, and the mark by which a packet is known.
const FORMAT: &str = "leeside-manifest/1";

/// What a manifest says of one file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Listed {
    /// How long it is.
    pub bytes: u64,
    /// Its SHA-256 digest.
    pub sha256: String,
}

impl Listed {
    /// What a manifest says of a file of these bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self {
            bytes: bytes.len() as u64,
            sha256: digest(bytes),
        }
    }
}

/// A manifest as read.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Manifest {
    /// Its files, by path.
    pub files: BTreeMap<String, Listed>,
    /// What it says by sheet.
    pub sections: Sections,
}

/// The manifest of a packet: its format, what is said of the whole, what is said by sheet, and
/// each file in order of path with its size and SHA-256 digest.
pub(super) fn text(
    packet: &Packet,
    sections: &Sections,
    files: &BTreeMap<String, Listed>,
) -> String {
    let mut whole = Map::new();
    whole.insert("format".into(), FORMAT.into());
    for (key, value) in &packet.about {
        whole.insert(key.clone(), value.as_str().into());
    }
    for (name, sheets) in sections {
        whole.insert(
            name.clone(),
            sheets.clone().into_iter().collect::<Map<_, _>>().into(),
        );
    }
    let files: Vec<Value> = files
        .iter()
        .map(|(path, file)| json!({"path": path, "bytes": file.bytes, "sha256": file.sha256}))
        .collect();
    whole.insert("files".into(), files.into());
    format!("{:#}\n", Value::Object(whole))
}

/// A manifest read back, or nothing if the text is none.
pub(super) fn read(text: &str) -> Option<Manifest> {
    let Value::Object(whole) = serde_json::from_str(text).ok()? else {
        return None;
    };
    if whole.get("format")?.as_str()? != FORMAT {
        return None;
    }
    let mut files = BTreeMap::new();
    for file in whole.get("files")?.as_array()? {
        let listed = Listed {
            bytes: file.get("bytes")?.as_u64()?,
            sha256: file.get("sha256")?.as_str()?.to_owned(),
        };
        files.insert(file.get("path")?.as_str()?.to_owned(), listed);
    }
    let sections = whole
        .into_iter()
        .filter_map(|(name, value)| match value {
            Value::Object(sheets) => Some((name, sheets.into_iter().collect())),
            _ => None,
        })
        .collect();
    Some(Manifest { files, sections })
}

/// The SHA-256 digest (FIPS 180-4) of bytes, in hexadecimal.
#[must_use]
pub fn digest(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        // Writing to a String cannot fail.
        let _ = write!(text, "{byte:02x}");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::digest;

    /// FIPS 180-4 example "abc" (NIST, SHA-256 example values).
    #[test]
    fn digests_follow_the_standard() {
        assert_eq!(
            digest(b"abc"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
    }
}
