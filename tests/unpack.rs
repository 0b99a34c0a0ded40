//! What is unpacked is what is built in, and unpacking never replaces a file.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

fn leeside(args: &[&str], folder: &Path) -> Output {
    Command::new(env!("CARGO_BIN_EXE_leeside"))
        .args(args)
        .current_dir(folder)
        .output()
        .expect("the program runs")
}

#[test]
fn the_copy_is_the_repository_and_sound_content() {
    let temp = tempfile::tempdir().unwrap();
    let output = leeside(&["unpack", "ours"], temp.path());
    assert!(output.status.success(), "{output:?}");
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    for path in [
        "content/library.yaml",
        "content/modules/greywater.yaml",
        "content/gear/stoves.yaml",
        "templates/sheets/lesson-handout.md",
    ] {
        let copy = fs::read(temp.path().join("ours").join(path)).expect(path);
        assert_eq!(copy, fs::read(here.join(path)).unwrap(), "{path}");
    }
    let mut fonts = fs::read_dir(temp.path().join("ours/templates/fonts")).expect("the fonts");
    assert!(fonts.next().is_some());
    let checked = leeside(&["check", "ours"], temp.path());
    assert!(
        checked.status.success(),
        "{}",
        String::from_utf8_lossy(&checked.stderr)
    );
}

#[test]
fn no_file_is_replaced_and_none_is_added_beside_one() {
    let temp = tempfile::tempdir().unwrap();
    let own = temp.path().join("ours/content/menus.yaml");
    fs::create_dir_all(own.parent().unwrap()).unwrap();
    fs::write(&own, "mine\n").unwrap();
    let output = leeside(&["unpack", "ours"], temp.path());
    assert_eq!(output.status.code(), Some(3), "{output:?}");
    assert!(String::from_utf8_lossy(&output.stderr).contains("write.exists"));
    assert_eq!(fs::read_to_string(&own).unwrap(), "mine\n");
    assert!(!temp.path().join("ours/templates").exists());
    assert!(!temp.path().join("ours/content/library.yaml").exists());
}

#[test]
fn one_file_or_folder_may_be_asked_for() {
    let temp = tempfile::tempdir().unwrap();
    let here = temp.path();
    let output = leeside(
        &[
            "unpack",
            "ours",
            "modules/greywater.yaml",
            "templates/sheets/",
        ],
        here,
    );
    assert!(output.status.success(), "{output:?}");
    let modules: Vec<_> = fs::read_dir(here.join("ours/content/modules"))
        .unwrap()
        .collect();
    assert_eq!(modules.len(), 1);
    assert!(!here.join("ours/content/library.yaml").exists());
    assert!(
        here.join("ours/templates/sheets/lesson-handout.md")
            .exists()
    );
    assert!(!here.join("ours/templates/fonts").exists());
    let wrong = leeside(&["unpack", "theirs", "modules/greywatr.yaml"], here);
    assert_eq!(wrong.status.code(), Some(2));
    let said = String::from_utf8_lossy(&wrong.stderr).into_owned();
    assert!(said.contains("`modules/greywater.yaml`"), "{said}");
    assert!(!here.join("theirs").exists());
}
