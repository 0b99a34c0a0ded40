//! A folder of its own for a run of the program, and what lies in it afterwards.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// A folder that goes when it is dropped.
pub struct Folder(tempfile::TempDir);

impl Folder {
    /// A folder with these files: name and text.
    pub fn with(given: &[(&str, &str)]) -> Self {
        let folder = Self(tempfile::tempdir().expect("a folder"));
        for (name, text) in given {
            folder.write(name, text);
        }
        folder
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    pub fn join(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// Writes a file, with the folders that it stands in.
    pub fn write(&self, name: &str, text: impl AsRef<[u8]>) {
        let path = self.join(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("made");
        fs::write(path, text).expect("written");
    }

    /// Runs the program in it.
    pub fn run(&self, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_leeside"))
            .args(arguments)
            .current_dir(self.path())
            .output()
            .expect("the program runs")
    }

    /// Runs the program, which goes well, and gives back what it says.
    pub fn good(&self, arguments: &[&str]) -> String {
        let output = self.run(arguments);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(output.status.success(), "{arguments:?}\n{said}");
        said + &String::from_utf8_lossy(&output.stdout)
    }

    /// The files below a folder of it: path and bytes.
    pub fn files(&self, below: &str) -> BTreeMap<String, Vec<u8>> {
        files(&self.join(below))
    }
}

/// The files below a folder: path and bytes.
pub fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    fn walk(folder: &Path, prefix: &str, all: &mut BTreeMap<String, Vec<u8>>) {
        for entry in fs::read_dir(folder).expect("a folder").flatten() {
            let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                walk(&entry.path(), &format!("{name}/"), all);
            } else {
                all.insert(name, fs::read(entry.path()).expect("read"));
            }
        }
    }
    let mut all = BTreeMap::new();
    walk(folder, "", &mut all);
    all
}

/// The text of a file below a folder.
pub fn text(folder: &Path, path: &str) -> String {
    fs::read_to_string(folder.join(path)).expect(path)
}
