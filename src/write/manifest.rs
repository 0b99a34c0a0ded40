//! The list of what a packet holds.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use serde_json::{Map, Value, json};
use sha2::{Digest as _, Sha256};

use super::Packet;

/// The manifest's file name inside a packet.
pub const MANIFEST: &str = "manifest.json";

/// The manifest's format, and the mark by which a packet is known.
const FORMAT: &str = "leeside-manifest/1";

/// The manifest of a packet: its format, what is said of the whole, and each
/// file in order of path with its size and SHA-256 digest.
pub(super) fn text(packet: &Packet) -> String {
    let mut whole = Map::new();
    whole.insert("format".into(), FORMAT.into());
    for (key, value) in &packet.about {
        whole.insert(key.clone(), value.as_str().into());
    }
    let mut files: Vec<_> = packet.files.iter().collect();
    files.sort();
    let files: Vec<Value> = files
        .into_iter()
        .map(|(path, bytes)| json!({"path": path, "bytes": bytes.len(), "sha256": digest(bytes)}))
        .collect();
    whole.insert("files".into(), files.into());
    format!("{:#}\n", Value::Object(whole))
}

/// The paths that a manifest lists, or nothing if the text is no manifest.
pub(super) fn listed(text: &str) -> Option<BTreeSet<String>> {
    let whole: Value = serde_json::from_str(text).ok()?;
    if whole.get("format")?.as_str()? != FORMAT {
        return None;
    }
    let files = whole.get("files")?.as_array()?.iter();
    Some(
        files
            .filter_map(|file| file.get("path")?.as_str())
            .map(str::to_owned)
            .collect(),
    )
}

fn digest(bytes: &[u8]) -> String {
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
