//! Packets are put down all or nothing, and nothing of a person's is ever lost.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use leeside::diag::Outcome;
use leeside::write::{Packet, Place, single, tree};
use tempfile::TempDir;

fn files(list: &[(&str, &str)]) -> Vec<(String, Vec<u8>)> {
    let own = |(path, text): &(&str, &str)| ((*path).to_owned(), text.as_bytes().to_vec());
    list.iter().map(own).collect()
}

fn packets(out: &Path, all: &[Packet]) -> Outcome<Vec<PathBuf>> {
    Place::take(out)?.put(all, false)
}

fn packet(out: &Path, one: &Packet) -> Outcome<PathBuf> {
    Ok(packets(out, std::slice::from_ref(one))?.remove(0))
}

fn papers(slug: &str, list: &[(&str, &str)]) -> Packet {
    Packet {
        slug: slug.into(),
        about: vec![("title".into(), "Quillback \"Ridge\"".into())],
        files: files(list),
        ..Packet::default()
    }
}

fn folder() -> TempDir {
    tempfile::tempdir().expect("a folder")
}

/// Every file under a folder with its text; hidden ones too.
fn held(folder: &Path) -> BTreeMap<String, String> {
    fn walk(folder: &Path, prefix: &str, all: &mut BTreeMap<String, String>) {
        for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
            let name = format!("{prefix}{}", entry.file_name().to_string_lossy());
            if entry.path().is_dir() {
                walk(&entry.path(), &format!("{name}/"), all);
            } else {
                all.insert(name, fs::read_to_string(entry.path()).unwrap_or_default());
            }
        }
    }
    let mut all = BTreeMap::new();
    walk(folder, "", &mut all);
    all
}

fn names(folder: &Path) -> Vec<String> {
    held(folder).into_keys().collect()
}

#[test]
fn a_packet_lies_in_its_folder_with_its_manifest() {
    let out = folder();
    let papers = papers("ridge", &[("staff/b.md", "bb"), ("learners/a.md", "abc")]);
    let home = packet(&out.path().join("new/out"), &papers).expect("written");
    assert_eq!(home, out.path().join("new/out/ridge"));
    assert_eq!(
        names(&home),
        ["learners/a.md", "manifest.json", "staff/b.md"]
    );
    assert_eq!(names(&out.path().join("new")).len(), 3, "nothing beside it");
    let manifest: serde_json::Value =
        serde_json::from_str(&held(&home)["manifest.json"]).expect("JSON");
    assert_eq!(manifest["format"], "leeside-manifest/1");
    assert_eq!(manifest["title"], "Quillback \"Ridge\"");
    assert_eq!(manifest["files"][0]["path"], "learners/a.md");
    assert_eq!(manifest["files"][0]["bytes"], 3);
    // FIPS 180-4 example "abc" (NIST, SHA-256 example values).
    assert_eq!(
        manifest["files"][0]["sha256"],
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
}

/// The paths of a packet's manifest.
fn listed(home: &Path) -> Vec<String> {
    let text = fs::read_to_string(home.join("manifest.json")).expect("a manifest");
    let whole: serde_json::Value = serde_json::from_str(&text).expect("JSON");
    let files = whole["files"].as_array().expect("a list");
    let path = |file: &serde_json::Value| file["path"].as_str().expect("a path").to_owned();
    files.iter().map(path).collect()
}

#[test]
fn what_is_not_made_this_time_stays() {
    let out = folder();
    let mut old = papers(
        "ridge",
        &[
            ("a/card.pdf", "1"),
            ("a/card.html", "1"),
            ("a/list.pdf", "1"),
        ],
    );
    old.sections =
        serde_json::from_str(r#"{"sheets":{"card":"old card","list":"old list"}}"#).expect("JSON");
    let home = packet(out.path(), &old).expect("written");
    fs::write(home.join(".DS_Store"), "x").expect("dropped");
    fs::create_dir(home.join("a/mine")).expect("made");
    fs::write(home.join("a/mine/note.txt"), "mine").expect("written");
    let mut new = papers("ridge", &[("a/card.pdf", "2")]);
    new.sections = serde_json::from_str(r#"{"sheets":{"card":"new card"}}"#).expect("JSON");
    packet(out.path(), &new).expect("written");
    let there = held(&home);
    assert_eq!(there["a/card.pdf"], "2");
    for (path, text) in [
        ("a/card.html", "1"),
        ("a/list.pdf", "1"),
        ("a/mine/note.txt", "mine"),
        (".DS_Store", "x"),
    ] {
        assert_eq!(there[path], text, "{path}");
    }
    assert_eq!(listed(&home), ["a/card.html", "a/card.pdf", "a/list.pdf"]);
    let whole: serde_json::Value = serde_json::from_str(&there["manifest.json"]).expect("JSON");
    assert_eq!(whole["sheets"]["card"], "new card");
    assert_eq!(whole["sheets"]["list"], "old list");
    // what a reader deletes is no longer said to be there
    fs::remove_file(home.join("a/list.pdf")).expect("removed");
    packet(out.path(), &new).expect("written");
    assert_eq!(listed(&home), ["a/card.html", "a/card.pdf"]);
    assert_eq!(
        names(out.path()).len(),
        5,
        "nothing beside it: {:?}",
        names(out.path())
    );
}

#[test]
fn sheets_that_the_trip_no_longer_has_go_away_with_every_format() {
    let out = folder();
    let old = papers(
        "ridge",
        &[
            ("a/card-blue.pdf", "1"),
            ("a/card-blue.md", "1"),
            ("a/card-red.pdf", "1"),
        ],
    );
    let home = packet(out.path(), &old).expect("written");
    let mut new = papers("ridge", &[("a/card-red.pdf", "2")]);
    new.gone.insert("card-blue".into());
    packet(out.path(), &new).expect("written");
    assert_eq!(names(&home), ["a/card-red.pdf", "manifest.json"]);
    assert_eq!(listed(&home), ["a/card-red.pdf"]);
}

#[test]
fn what_a_person_changed_or_put_there_is_not_written_over() {
    let out = folder();
    let home = packet(
        out.path(),
        &papers("ridge", &[("a.docx", "1"), ("b.md", "1")]),
    )
    .expect("written");
    fs::write(home.join("a.docx"), "edited").expect("written");
    let new = papers("ridge", &[("a.docx", "2"), ("b.md", "2")]);
    let problem = packet(out.path(), &new).expect_err("refused").remove(0);
    assert_eq!(problem.code, "write.edited");
    assert!(
        problem.message.contains("a.docx") && problem.help.contains("--force"),
        "{problem}"
    );
    assert_eq!(
        (held(&home)["a.docx"].as_str(), held(&home)["b.md"].as_str()),
        ("edited", "1")
    );
    // one that is not made this time stays as it was edited, and is still known for edited
    packet(out.path(), &papers("ridge", &[("b.md", "2")])).expect("written");
    let lying = Place::take(out.path())
        .expect("a turn")
        .lying("ridge")
        .expect("read");
    assert_eq!(lying.edited.iter().collect::<Vec<_>>(), ["a.docx"]);
    // nor is a sheet taken away that someone wrote on
    let mut gone = papers("ridge", &[("b.md", "3")]);
    gone.gone.insert("a".into());
    assert_eq!(
        packet(out.path(), &gone).expect_err("refused")[0].code,
        "write.edited"
    );
    // asked for, it is replaced
    Place::take(out.path())
        .expect("a turn")
        .put(&[new], true)
        .expect("written");
    assert_eq!(held(&home)["a.docx"], "2");
    // a stranger's file of that very name, and a folder that is no packet
    fs::create_dir(out.path().join("pass")).expect("made");
    fs::write(out.path().join("pass/b.md"), "mine").expect("written");
    fs::write(out.path().join("pass/photo.txt"), "mine").expect("written");
    let problem = packet(out.path(), &papers("pass", &[("b.md", "1")]))
        .expect_err("refused")
        .remove(0);
    assert_eq!(problem.code, "write.edited");
    packet(out.path(), &papers("pass", &[("c.md", "1")])).expect("written");
    assert_eq!(
        names(&out.path().join("pass")),
        ["b.md", "c.md", "manifest.json", "photo.txt"]
    );
    assert_eq!(listed(&out.path().join("pass")), ["c.md"]);
    // a file where the folder should be
    fs::write(out.path().join("file"), "mine").expect("written");
    let problem = packet(out.path(), &papers("file", &[("a.md", "")]))
        .expect_err("refused")
        .remove(0);
    assert_eq!(problem.code, "write.file-in-the-way");
}

#[test]
fn of_several_packets_none_is_changed_when_one_fails() {
    let out = folder();
    packet(out.path(), &papers("one", &[("a.md", "old")])).expect("written");
    let before = held(out.path());
    // `a` cannot be both a file and a folder: the disk itself refuses.
    let broken = papers("two", &[("a", "x"), ("a/b", "x")]);
    let problem = packets(out.path(), &[papers("one", &[("a.md", "new")]), broken])
        .expect_err("fails")
        .remove(0);
    assert_eq!(problem.code, "write.file-in-the-way", "{problem}");
    assert_eq!(held(out.path()), before);
    assert_eq!(
        fs::read_dir(out.path()).expect("there").count(),
        1,
        "no left-overs"
    );
    let both = [
        papers("one", &[("a.md", "new")]),
        papers("two", &[("b.md", "new")]),
    ];
    assert_eq!(
        packets(out.path(), &both).expect("written"),
        [out.path().join("one"), out.path().join("two")]
    );
    assert_eq!(held(out.path()).len(), 4);
}

#[test]
fn the_next_run_clears_up_after_one_that_was_cut_short() {
    let out = folder();
    packet(out.path(), &papers("ridge", &[("a.md", "old")])).expect("written");
    // Cut short while writing: a half-written new folder.
    fs::create_dir(out.path().join(".leeside-ridge.new")).expect("made");
    fs::write(out.path().join(".leeside-ridge.new/a.md"), "ha").expect("written");
    // Cut short between the two renamings: the old packet stands aside.
    packet(out.path(), &papers("pass", &[("p.md", "old")])).expect("written");
    fs::rename(
        out.path().join("pass"),
        out.path().join(".leeside-pass.old"),
    )
    .expect("moved");
    // Cut short before the old one was removed.
    fs::create_dir(out.path().join(".leeside-ridge.old")).expect("made");
    packet(out.path(), &papers("other", &[("o.md", "")])).expect("written");
    assert_eq!(
        names(out.path()),
        [
            "other/manifest.json",
            "other/o.md",
            "pass/manifest.json",
            "pass/p.md",
            "ridge/a.md",
            "ridge/manifest.json"
        ]
    );
    let hidden = fs::read_dir(out.path()).expect("there").flatten();
    assert_eq!(hidden.count(), 3);
}

#[test]
fn paths_that_lead_out_are_refused() {
    let out = folder();
    for path in [
        "../x",
        "/x",
        "a/../../x",
        "./x",
        "",
        "a\\..\\x",
        "c:x",
        "a\u{0}b",
        "manifest.json",
        "Manifest.JSON",
    ] {
        let problem = packet(out.path(), &papers("ridge", &[(path, "x")]))
            .expect_err(path)
            .remove(0);
        assert_eq!(problem.code, "write.bug", "{path}");
        let problem = tree(out.path(), &files(&[(path, "x")]))
            .expect_err(path)
            .remove(0);
        assert_eq!(problem.code, "write.bug", "{path}");
    }
    for slug in ["..", ".", "", "a/b", "a\\b", ".hidden"] {
        let problem = packet(out.path(), &papers(slug, &[("x", "x")]))
            .expect_err(slug)
            .remove(0);
        assert_eq!(problem.code, "write.bug", "{slug}");
    }
    let twice = papers("ridge", &[("a.md", "x"), ("A.md", "y")]);
    assert_eq!(
        packet(out.path(), &twice).expect_err("twice")[0].code,
        "write.bug"
    );
    let same = [papers("ridge", &[]), papers("Ridge", &[])];
    assert_eq!(
        packets(out.path(), &same).expect_err("twice")[0].code,
        "write.bug"
    );
    assert!(names(out.path()).is_empty());
}

#[test]
fn an_out_folder_that_is_a_file_is_said_plainly() {
    let out = folder();
    let file = out.path().join("out");
    fs::write(&file, "mine").expect("written");
    let problem = packet(&file, &papers("ridge", &[("a.md", "")]))
        .expect_err("refused")
        .remove(0);
    assert_eq!(problem.code, "write.file-in-the-way");
    let problem = packet(&file.join("deeper"), &papers("ridge", &[("a.md", "")]))
        .expect_err("refused")
        .remove(0);
    assert_eq!(problem.code, "write.file-in-the-way");
    assert!(problem.help.contains("--out") || problem.help.contains("folder"));
    assert_eq!(held(out.path())["out"], "mine");
}

#[test]
fn a_single_file_is_kept_unless_it_may_be_replaced() {
    let out = folder();
    let path = out.path().join("trips/ridge.yaml");
    single(&path, b"one", false).expect("written");
    let problem = single(&path, b"two", false).expect_err("refused").remove(0);
    assert_eq!(problem.code, "write.exists");
    assert_eq!(held(out.path())["trips/ridge.yaml"], "one");
    single(&path, b"two", true).expect("written");
    assert_eq!(
        held(out.path()).into_iter().collect::<Vec<_>>(),
        [("trips/ridge.yaml".to_owned(), "two".to_owned())]
    );
    assert_eq!(
        single(out.path(), b"", true).expect_err("a folder")[0].code,
        "write.folder"
    );
}

#[test]
fn a_tree_goes_down_whole_or_not_at_all() {
    let out = folder();
    let home = out.path().join("content");
    let list = files(&[("modules/wind.yaml", "w"), ("library.yaml", "l")]);
    tree(&home, &list).expect("written");
    assert_eq!(names(&home), ["library.yaml", "modules/wind.yaml"]);
    let problem = tree(&home, &list).expect_err("refused").remove(0);
    assert_eq!(problem.code, "write.exists");
    assert!(problem.message.contains("1 more"), "{problem}");
    let more = files(&[("new.yaml", "n"), ("library.yaml/x", "x")]);
    assert!(tree(&home, &more).is_err());
    assert_eq!(names(&home), ["library.yaml", "modules/wind.yaml"]);
}

/// Set for the process that [`a_packet_is_whole_whenever_a_run_is_killed`] kills.
const VICTIM: &str = "LEESIDE_TEST_WRITES_INTO";

/// The text of every file of a run's packet: long enough to take many steps.
fn long(run: usize) -> Vec<(String, Vec<u8>)> {
    (0..12)
        .map(|file| {
            (
                format!("learners/{file}.md"),
                format!("{run}\n").repeat(3000).into_bytes(),
            )
        })
        .collect()
}

/// Every file of a packet is there, all of one run.
fn whole(home: &Path, round: u64) {
    let ridge = held(home);
    assert_eq!(ridge.len(), 13, "round {round}: {:?}", ridge.keys());
    let first = ridge["learners/0.md"]
        .lines()
        .next()
        .expect("a line")
        .to_owned();
    for (name, text) in ridge.iter().filter(|(name, _)| name.ends_with(".md")) {
        assert_eq!(
            *text,
            format!("{first}\n").repeat(3000),
            "round {round}: {name}"
        );
    }
}

#[test]
fn a_packet_is_whole_whenever_a_run_is_killed() {
    let make = |run: usize| Packet {
        slug: "ridge".into(),
        files: long(run),
        ..Packet::default()
    };
    if let Some(out) = std::env::var_os(VICTIM) {
        for run in 1.. {
            packet(&PathBuf::from(&out), &make(run)).expect("written");
        }
    }
    let out = folder();
    packet(out.path(), &make(0)).expect("written");
    for round in 0..12 {
        let mut victim = Command::new(std::env::current_exe().expect("this program"))
            .args([
                "--exact",
                "write::a_packet_is_whole_whenever_a_run_is_killed",
            ])
            .env(VICTIM, out.path())
            .stdout(Stdio::null())
            .spawn()
            .expect("started");
        std::thread::sleep(Duration::from_millis(60 + round * 7));
        victim.kill().expect("killed");
        victim.wait().expect("ended");
        // At the very moment of the kill a whole packet stands in its place, where the system
        // can change two names in one step.
        if cfg!(target_os = "linux") {
            whole(&out.path().join("ridge"), round);
        }
        // Any next run, for another trip too, finds or puts back a whole packet.
        packet(out.path(), &papers("other", &[("a.md", "x")])).expect("written");
        whole(&out.path().join("ridge"), round);
        let there = fs::read_dir(out.path()).expect("there").count();
        assert_eq!(there, 2, "round {round}: left-overs");
    }
}
