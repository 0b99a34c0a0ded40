//! Tells cargo to embed the content and templates again when a file of theirs
//! changes or is added.

fn main() {
    println!("cargo::rerun-if-changed=content");
    println!("cargo::rerun-if-changed=templates");
}
