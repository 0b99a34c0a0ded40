//! Two languages beside each other on briefing and kitchen card: block by block, each tagged with
//! its language, and what is asked for wrongly.

use crate::layering::root;
use crate::support::folder::Folder;
use std::collections::BTreeSet;
use std::io::Read as _;
use std::process::Command;

/// Examples that are made: a trip of several kitchens, ten days with two, a lesson.
const TRIPS: [&str; 3] = ["three-stoves", "kestrel-ten-days", "rainy-day"];

/// A page's pairs: what stands on the left and on the right.
fn pairs(page: &str) -> Vec<[String; 2]> {
    let (page, _) = page.split_once("</main>").expect("a page");
    let pairs = page.split("<div class=\"beside\">").skip(1);
    pairs
        .map(|pair| {
            let (_, pair) = pair.split_once("<div lang=\"es\">").expect("Spanish");
            let (left, right) = pair.split_once("<div lang=\"en\">").expect("English");
            [left.to_owned(), right.to_owned()]
        })
        .collect()
}

/// The elements of a part, in order, without what is said in them.
fn built(part: &str) -> Vec<&str> {
    let tags = part.split('<').skip(1);
    let name = |tag: &'static str, text: &str| {
        text.strip_prefix(tag)
            .is_some_and(|rest| rest.starts_with([' ', '>']))
    };
    let kept = [
        "h2", "h3", "p", "ul", "ol", "li", "table", "tr", "td", "th", "aside", "section",
    ];
    tags.filter_map(|tag| kept.into_iter().find(|kept| name(kept, tag)))
        .collect()
}

/// The statements that a part says.
fn said(part: &str) -> BTreeSet<&str> {
    let ids = part.split("data-of=\"").skip(1);
    ids.filter_map(|rest| rest.split('"').next()).collect()
}

#[test]
fn each_block_stands_beside_the_same_in_the_other_language() {
    let out = Folder::with(&[]);
    let files: Vec<String> = TRIPS
        .iter()
        .map(|name| format!("{}/content/trips/{name}.yaml", root().display()))
        .collect();
    let mut asked: Vec<&str> = vec!["make"];
    asked.extend(files.iter().map(String::as_str));
    asked.extend([
        "--language",
        "es+en",
        "--sheet",
        "briefing-sheet,kitchen-checklist,register",
    ]);
    asked.extend(["--format", "html,pdf,docx", "--out", "out"]);
    out.good(&asked);
    let mut held = 0;
    for (path, bytes) in out.files("out") {
        let both = path.contains("briefing-sheet") || path.contains("kitchen-checklist");
        if path.ends_with(".html") && both {
            let page = String::from_utf8(bytes).expect("text");
            let pairs = pairs(&page);
            assert!(pairs.len() > 8, "{path}: {}", pairs.len());
            // the first is the second title alone
            for [left, right] in &pairs[1..] {
                assert_eq!(built(left), built(right), "{path}: {left} {right}");
                // a rule too long for its line in one language is told of and not said there
                held += said(left).intersection(&said(right)).count();
                held += 1;
            }
        } else if path.ends_with(".docx") && both {
            spoken(&path, bytes);
        } else if path.ends_with(".pdf") && both {
            tagged(&out, &path);
        } else if path.ends_with(".html") && path.contains("register") {
            let page = String::from_utf8(bytes).expect("text");
            assert!(!page.contains("class=\"beside\""), "{path}");
        }
    }
    assert!(held > 100, "{held}");
}

/// A word-processor file whose second column has its language (ISO/IEC 29500-1, 17.3.2.20).
fn spoken(path: &str, bytes: Vec<u8>) {
    let mut parts = zip::ZipArchive::new(std::io::Cursor::new(bytes)).expect("a file");
    let mut part = |name: &str| {
        let mut text = String::new();
        let mut part = parts.by_name(name).expect("a part");
        part.read_to_string(&mut text).expect("text");
        text
    };
    let styles = part("word/styles.xml");
    for language in ["es", "en"] {
        let tag = format!("<w:lang w:val=\"{language}\"/>");
        assert!(styles.contains(&tag), "{path}: {language}");
    }
    let own = part("word/document.xml").matches("OtherLanguage").count();
    assert!(own > 20, "{path}: {own}");
}

/// A PDF whose structure elements name both languages (ISO 32000-1, 14.9.2), without a fault.
fn tagged(out: &Folder, path: &str) {
    let file = out.path().join("out").join(path);
    let output = Command::new("qpdf")
        .args(["--qdf", "--object-streams=disable"])
        .arg(file)
        .arg("-")
        .output()
        .expect("`qpdf` must be installed for this test");
    assert!(output.status.success(), "{path}");
    let text = String::from_utf8_lossy(&output.stdout);
    for language in ["es", "en"] {
        let elements = text.matches(&format!("/Lang ({language})")).count();
        assert!(elements > 8, "{path}: {language} {elements}");
    }
}

#[test]
fn a_language_beside_itself_and_three_of_them_are_refused() {
    let file = format!("{}/content/trips/rainy-day.yaml", root().display());
    let out = Folder::with(&[]);
    for (languages, part) in [
        ("es+es", "language.beside"),
        ("es+en+es", "language.beside"),
        ("es+zz", "`zz`"),
    ] {
        let output = out.run(&["make", &file, "--language", languages, "--out", "out"]);
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(1), "{told}");
        assert!(told.contains(part), "{told}");
    }
    assert!(!out.join("out").exists());
}
