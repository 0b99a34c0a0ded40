//! A document as one HTML page that needs nothing else.
//!
//! The page works with scripts off (boxes tick, lines take writing, all cards
//! show), prints like a sheet, and asks no server for anything: a content
//! security policy with the digests of its own style and scripts forbids all
//! the rest. The texts of the shell come as arguments, see [`ShellFiles`].

mod body;
mod index;
mod learn;
mod scripts;
mod season;
mod table;
mod words;

use std::fmt::Write as _;
use std::sync::Arc;

use sha2::{Digest as _, Sha256};
use tera::{Context, Tera};

use super::figures;
use super::markup::escaped;
use crate::diag::{Outcome, Problem, told};
use crate::doc::{Document, Paper, Style, Words, Working};

pub use index::{IndexGroup, IndexPage, IndexSheet, index};
pub use learn::learn;
pub use season::{SeasonPage, SeasonRow, season};

/// The name of the page template inside its Tera instance.
const SHELL: &str = "shell.html";

/// The texts that make a page round a document.
#[derive(Clone, Copy, Debug)]
pub struct ShellFiles<'a> {
    /// The page: a Tera template (`shell.html`).
    pub page: &'a str,
    /// How it looks (`page.css`).
    pub style: &'a str,
    /// Keeps ticks and writing (`page.js`).
    pub script: &'a str,
    /// Turns study cards into a deck (`cards.js`).
    pub cards: &'a str,
    /// Makes a course of the page to learn from (`learn.js`).
    pub learn: &'a str,
    /// Finds departures on the page of a season (`season.js`).
    pub season: &'a str,
}

/// A page shell, read once and used for every sheet.
pub struct Shell {
    tera: Tera,
    /// Language and words of every page.
    own: Context,
    words: Arc<Words>,
    style: String,
    script: String,
    cards: String,
    learn: String,
    season: String,
}

impl Shell {
    /// Reads the shell's files; `words` are what its pages say by themselves.
    ///
    /// # Errors
    /// When the template is no template, a style or script would end its own
    /// element, or a script asks for words that there are not.
    pub fn new(files: ShellFiles<'_>, words: &Arc<Words>) -> Outcome<Self> {
        let mut problems = Vec::new();
        let mut tera = Tera::new();
        if let Err(error) = tera.add_raw_template(SHELL, files.page) {
            problems.push(template_problem(&error));
        }
        for (name, text, end) in [
            ("page.css", files.style, "</style"),
            ("page.js", files.script, "</script"),
            ("cards.js", files.cards, "</script"),
            ("learn.js", files.learn, "</script"),
            ("season.js", files.season, "</script"),
        ] {
            if text.to_ascii_lowercase().contains(end) {
                let message = told!(
                    "`{end}` in this file would end it in the middle of a page",
                    end
                );
                let help = told!("write it in two pieces, or take `{end}` out", end);
                let problem = Problem::error("page.shell", message, help);
                problems.push(problem.in_file(format!("page/{name}")));
            }
        }
        let mut script = |name, text| {
            let said = scripts::spoken(name, &plain_ends(text), words);
            said.map_err(|problem| problems.push(*problem))
                .unwrap_or_default()
        };
        let own = script("page.js", files.script);
        let cards = script("cards.js", files.cards);
        let learn = script("learn.js", files.learn);
        let season = script("season.js", files.season);
        let mut context = Context::new();
        context.insert("language", &words.language);
        context.insert("words", words.all());
        if problems.is_empty() {
            problems.extend(proven(&tera, &context).err().map(|problem| *problem));
        }
        if problems.is_empty() {
            Ok(Self {
                tera,
                own: context,
                words: Arc::clone(words),
                style: plain_ends(files.style),
                script: own,
                cards,
                learn,
                season,
            })
        } else {
            Err(problems)
        }
    }
}

/// Fills the page with marks, as a template of a sheet is proven on a sample: what it loses of a
/// sheet would be lost from every sheet, its cautions too.
fn proven(tera: &Tera, own: &Context) -> Result<(), Box<Problem>> {
    let marks = ["main", "style", "script", "policy", "title", "foot"];
    let mut context = own.clone();
    for mark in marks {
        context.insert(mark, &format!("proof-of-{mark}"));
    }
    context.insert("contents", &[("proof-of-anchor", "proof-of-heading")]);
    context.insert("fields", &true);
    context.insert("deck", &false);
    context.insert("kind", "sheet");
    context.insert("key", "proof-of-key");
    context.insert("why", "proof-of-why");
    let page = tera
        .render(SHELL, &context)
        .map_err(|error| Box::new(template_problem(&error)))?;
    let lost = marks
        .into_iter()
        .find(|mark| !page.contains(&format!("proof-of-{mark}")));
    lost.map_or(Ok(()), |mark| {
        let problem = Problem::error(
            "page.shell",
            told!("the page template does not print `{mark}`: every sheet would lose it", mark),
            told!("write `{{{{ {mark} }}}}` where it belongs, or take the file out of your content folder", mark),
        );
        Err(Box::new(problem.in_file("page/shell.html")))
    })
}

/// Text with line ends as a browser reads them, so that its digest holds.
fn plain_ends(text: &str) -> String {
    text.replace("\r\n", "\n").replace('\r', "\n")
}

/// The document as one HTML page.
///
/// # Errors
/// When the shell's template fails on it.
pub fn html(document: &Document, shell: &Shell) -> Outcome<Vec<u8>> {
    html_with(document, &[], shell)
}

/// As [`html`], with how its values came about: to read at its end, and to be shown where a value
/// is pressed.
///
/// # Errors
/// When the shell's template fails on it.
pub fn html_with(document: &Document, workings: &[Working], shell: &Shell) -> Outcome<Vec<u8>> {
    let body = body::body(document);
    let mut scripts = Vec::new();
    if body.ticks + body.blanks > 0 {
        scripts.push(shell.script.as_str());
    }
    if body.cards > 0 {
        scripts.push(shell.cards.as_str());
    }
    // A table that is wide on this screen only takes the keyboard when the
    // script runs; without it every table does.
    if scripts.is_empty() && body.tables + body.figures + workings.len() > 0 {
        scripts.push(shell.script.as_str());
    }
    let foot = document.foot_with_group();
    let mark = document
        .group
        .as_ref()
        .and_then(|group| group.mark.as_ref());
    let main = mark.map_or_else(String::new, |mark| {
        format!("<div class=\"mark\">{}</div>\n", figures::svg(mark, "_m"))
    }) + &body.html;
    fill(
        shell,
        &Page {
            title: &document.title,
            foot: &foot,
            style: &document.style,
            contents: &body.contents,
            fields: body.ticks + body.blanks > 0,
            deck: body.cards > 0,
            kind: if body.cards > 0 { "cards" } else { "sheet" },
            main: &main,
            why: &why(workings),
            scripts: &scripts,
        },
    )
}

/// How values came about, a list of terms.
fn why(workings: &[Working]) -> String {
    let mut out = String::new();
    for one in workings {
        let _ = write!(
            out,
            "<div data-why=\"{}\"><dt>{} <span class=\"of\">{}</span></dt>",
            escaped(&one.of),
            escaped(&one.words),
            escaped(&one.of)
        );
        for line in &one.lines {
            let _ = write!(out, "<dd>{}</dd>", escaped(line));
        }
        out.push_str("</div>\n");
    }
    out
}

/// What the shell is filled with.
struct Page<'a> {
    title: &'a str,
    foot: &'a str,
    style: &'a Style,
    /// Anchors and words of the headings to jump to.
    contents: &'a [(String, String)],
    /// Whether there is something to tick or write.
    fields: bool,
    /// Whether there are study cards.
    deck: bool,
    kind: &'a str,
    main: &'a str,
    /// How its values came about.
    why: &'a str,
    scripts: &'a [&'a str],
}

fn fill(shell: &Shell, page: &Page<'_>) -> Outcome<Vec<u8>> {
    let style = format!("{}\n{}", shell.style.trim_end(), paper_style(page.style));
    let script = page.scripts.join("\n");
    let mut policy = format!(
        "default-src 'none'; base-uri 'none'; form-action 'none'; style-src 'sha256-{}'",
        base64(&Sha256::digest(style.as_bytes()))
    );
    if !script.is_empty() {
        let digest = base64(&Sha256::digest(script.as_bytes()));
        // Writing to a String cannot fail.
        let _ = write!(policy, "; script-src 'sha256-{digest}'");
    }
    let mut context = shell.own.clone();
    context.insert("title", page.title);
    context.insert("foot", page.foot);
    context.insert("contents", page.contents);
    context.insert("fields", &page.fields);
    context.insert("deck", &page.deck);
    context.insert("kind", page.kind);
    context.insert("key", &key(page.title, page.main));
    context.insert("policy", &policy);
    context.insert("style", &style);
    context.insert("script", &script);
    context.insert("main", page.main);
    context.insert("why", page.why);
    let text = shell.tera.render(SHELL, &context);
    text.map(String::into_bytes)
        .map_err(|error| vec![template_problem(&error)])
}

/// A name for what a reader ticked and wrote on this very sheet: another trip's
/// sheet, or the same after a change, starts afresh.
fn key(title: &str, main: &str) -> String {
    let mut digest = Sha256::new();
    digest.update(title.as_bytes());
    digest.update([0]);
    digest.update(main.as_bytes());
    let mut name = String::from("leeside-sheet-");
    for byte in &digest.finalize()[..8] {
        // Writing to a String cannot fail.
        let _ = write!(name, "{byte:02x}");
    }
    name
}

/// What the sheet's own style adds to the common one: paper and sizes.
fn paper_style(style: &Style) -> String {
    let paper = match style.paper {
        Paper::Letter => "letter",
        Paper::A4 => "A4",
    };
    let lie = if style.landscape {
        "landscape"
    } else {
        "portrait"
    };
    // Usual body text reads well at the reader's own size on a screen; large
    // print stays as much larger there.
    let screen = (style.body_pt / 12.0).max(1.0);
    let columns = if style.two_column_ticks { 2 } else { 1 };
    format!(
        "@page{{size:{paper} {lie};margin:{}pt}}\n:root{{--body-pt:{}pt;--caution-pt:{}pt;--tick-pt:{}pt;--screen:{screen:.2};--tick-columns:{columns}}}",
        style.margin_pt, style.body_pt, style.caution_pt, style.tick_pt,
    )
}

fn template_problem(error: &tera::Error) -> Problem {
    let mut message = error.to_string();
    let mut cause = std::error::Error::source(error);
    while let Some(inner) = cause {
        let _ = write!(message, ": {inner}");
        cause = inner.source();
    }
    Problem::error(
        "page.shell",
        told!("the page template does not work: {message}", message),
        "mend it, or take it out of your content folder to use the built-in one",
    )
    .in_file("page/shell.html")
}

/// Standard Base64 (RFC 4648, section 4).
fn base64(bytes: &[u8]) -> String {
    const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for group in bytes.chunks(3) {
        let byte = |at: usize| u32::from(group.get(at).copied().unwrap_or(0));
        let bits = byte(0) << 16 | byte(1) << 8 | byte(2);
        for at in 0..4 {
            if at <= group.len() {
                text.push(char::from(SIGNS[(bits >> (18 - 6 * at) & 63) as usize]));
            } else {
                text.push('=');
            }
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::base64;

    /// RFC 4648, section 10: test vectors.
    #[test]
    fn base64_follows_the_standard() {
        for (bytes, text) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(bytes.as_bytes()), text);
        }
    }
}
