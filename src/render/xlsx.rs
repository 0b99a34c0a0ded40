//! Tables as a workbook that any spreadsheet opens: text only, nothing in it is worked out.
//!
//! The form is Office Open XML, SpreadsheetML (ECMA-376 part 1, clause 18): a package of a few
//! small parts. Every cell is an inline string (18.3.1.53) in the number format of text (`@`,
//! 18.8.30), so that what begins like a formula stays what it says, also after it was edited.

use super::markup::push_escaped;
use crate::diag::{Outcome, Problem, told};
use std::fmt::Write as _;
use std::io::{Cursor, Write as _};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// A table on a sheet of its own.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sheet {
    /// The name on its tab, at most 31 characters.
    pub name: String,
    /// The headings, each with the width of its column in characters.
    pub heads: Vec<(String, u32)>,
    /// The cells below them.
    pub rows: Vec<Vec<String>>,
    /// The column whose filled cells are red, counted from 0.
    pub red: Option<usize>,
}

/// Characters that a cell holds at most.
const LONGEST: usize = 32_767;

const DECLARED: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";
const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const PARTS: &str = "http://schemas.openxmlformats.org/package/2006";
const OFFICE: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const TYPE: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/// The looks of cells, by their place in the list of formats: text, heading, red text.
const PLAIN: u32 = 0;
const HEAD: u32 = 1;
const RED: u32 = 2;

/// Sheets as a workbook.
///
/// # Errors
/// A bug: an archive in memory that cannot be written.
pub fn workbook(sheets: &[Sheet]) -> Outcome<Vec<u8>> {
    packed(sheets).map_err(|error| {
        vec![Problem::error(
            "render.workbook",
            told!("the workbook cannot be packed: {error}", error),
            "this is a fault of the program; please report it",
        )]
    })
}

fn packed(sheets: &[Sheet]) -> zip::result::ZipResult<Vec<u8>> {
    // the same bytes on any day
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default());
    let mut parts = vec![
        ("[Content_Types].xml".to_owned(), types(sheets.len())),
        (
            "_rels/.rels".to_owned(),
            relations(&[("officeDocument", "xl/workbook.xml".to_owned())]),
        ),
        ("xl/workbook.xml".to_owned(), book(sheets)),
        ("xl/_rels/workbook.xml.rels".to_owned(), book_parts(sheets)),
        ("xl/styles.xml".to_owned(), styles()),
    ];
    parts.extend(sheets.iter().enumerate().map(|(at, sheet)| {
        (
            format!("xl/worksheets/sheet{}.xml", at + 1),
            sheet_part(sheet),
        )
    }));
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in parts {
        archive.start_file(name, options)?;
        archive.write_all(text.as_bytes())?;
    }
    Ok(archive.finish()?.into_inner())
}

fn types(sheets: usize) -> String {
    let mut text = format!(
        "{DECLARED}<Types xmlns=\"{PARTS}/content-types\">\
         <Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>\
         <Default Extension=\"xml\" ContentType=\"application/xml\"/>\
         <Override PartName=\"/xl/workbook.xml\" ContentType=\"{TYPE}.sheet.main+xml\"/>\
         <Override PartName=\"/xl/styles.xml\" ContentType=\"{TYPE}.styles+xml\"/>"
    );
    for at in 1..=sheets {
        let _ = write!(
            text,
            "<Override PartName=\"/xl/worksheets/sheet{at}.xml\" ContentType=\"{TYPE}.worksheet+xml\"/>"
        );
    }
    text + "</Types>"
}

fn relations(to: &[(&str, String)]) -> String {
    let mut text = format!("{DECLARED}<Relationships xmlns=\"{PARTS}/relationships\">");
    for (at, (kind, target)) in to.iter().enumerate() {
        let _ = write!(
            text,
            "<Relationship Id=\"rId{}\" Type=\"{OFFICE}/{kind}\" Target=\"{target}\"/>",
            at + 1
        );
    }
    text + "</Relationships>"
}

fn book(sheets: &[Sheet]) -> String {
    let mut text = format!("{DECLARED}<workbook xmlns=\"{MAIN}\" xmlns:r=\"{OFFICE}\"><sheets>");
    for (at, sheet) in sheets.iter().enumerate() {
        text.push_str("<sheet name=\"");
        push_escaped(&mut text, &sheet.name);
        let _ = write!(text, "\" sheetId=\"{0}\" r:id=\"rId{0}\"/>", at + 1);
    }
    text + "</sheets></workbook>"
}

fn book_parts(sheets: &[Sheet]) -> String {
    let pages = (1..=sheets.len()).map(|at| ("worksheet", format!("worksheets/sheet{at}.xml")));
    let all: Vec<_> = pages.chain([("styles", "styles.xml".to_owned())]).collect();
    relations(&all)
}

/// Text is format 49 (`@`) of those built in.
fn styles() -> String {
    let format = |font: u32| {
        format!(
            "<xf numFmtId=\"49\" fontId=\"{font}\" fillId=\"0\" borderId=\"0\" xfId=\"0\" \
             applyNumberFormat=\"1\" applyFont=\"1\" applyAlignment=\"1\">\
             <alignment vertical=\"top\" wrapText=\"1\"/></xf>"
        )
    };
    let name = "<name val=\"Calibri\"/>";
    format!(
        "{DECLARED}<styleSheet xmlns=\"{MAIN}\"><fonts count=\"3\">\
         <font><sz val=\"11\"/>{name}</font><font><b/><sz val=\"11\"/>{name}</font>\
         <font><b/><sz val=\"11\"/><color rgb=\"FFB00020\"/>{name}</font></fonts>\
         <fills count=\"2\"><fill><patternFill patternType=\"none\"/></fill>\
         <fill><patternFill patternType=\"gray125\"/></fill></fills>\
         <borders count=\"1\"><border/></borders>\
         <cellStyleXfs count=\"1\"><xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\"/></cellStyleXfs>\
         <cellXfs count=\"3\">{}{}{}</cellXfs><cellStyles count=\"1\">\
         <cellStyle name=\"Normal\" xfId=\"0\" builtinId=\"0\"/></cellStyles></styleSheet>",
        format(PLAIN),
        format(HEAD),
        format(RED)
    )
}

/// The headings stay in sight and may be filtered by.
fn sheet_part(sheet: &Sheet) -> String {
    let mut text = format!(
        "{DECLARED}<worksheet xmlns=\"{MAIN}\"><sheetViews><sheetView workbookViewId=\"0\">\
         <pane ySplit=\"1\" topLeftCell=\"A2\" activePane=\"bottomLeft\" state=\"frozen\"/>\
         </sheetView></sheetViews><cols>"
    );
    for (at, (_, width)) in sheet.heads.iter().enumerate() {
        let _ = write!(
            text,
            "<col min=\"{0}\" max=\"{0}\" width=\"{width}\" customWidth=\"1\"/>",
            at + 1
        );
    }
    text.push_str("</cols><sheetData>");
    let heads: Vec<&str> = sheet.heads.iter().map(|(head, _)| head.as_str()).collect();
    push_row(&mut text, 1, &heads, |_| HEAD);
    for (at, row) in sheet.rows.iter().enumerate() {
        let cells: Vec<&str> = row.iter().map(String::as_str).collect();
        push_row(&mut text, at + 2, &cells, |column| {
            if sheet.red == Some(column) {
                RED
            } else {
                PLAIN
            }
        });
    }
    text.push_str("</sheetData>");
    if let Some(last) = sheet.heads.len().checked_sub(1) {
        let end = address(last, sheet.rows.len() + 1);
        let _ = write!(text, "<autoFilter ref=\"A1:{end}\"/>");
    }
    text + "</worksheet>"
}

fn push_row(out: &mut String, number: usize, cells: &[&str], look: impl Fn(usize) -> u32) {
    let _ = write!(out, "<row r=\"{number}\">");
    for (column, cell) in cells
        .iter()
        .enumerate()
        .filter(|(_, cell)| !cell.is_empty())
    {
        let _ = write!(
            out,
            "<c r=\"{}\" s=\"{}\" t=\"inlineStr\"><is><t xml:space=\"preserve\">",
            address(column, number),
            look(column)
        );
        let short: String = cell.chars().take(LONGEST).collect();
        push_escaped(out, &short);
        out.push_str("</t></is></c>");
    }
    out.push_str("</row>");
}

/// `C7`: the column counted from 0, the row from 1.
fn address(column: usize, row: usize) -> String {
    let mut letters = String::new();
    let mut rest = column + 1;
    while rest > 0 {
        // a remainder below 26 fits
        let letter = u8::try_from((rest - 1) % 26).unwrap_or(0);
        letters.insert(0, char::from(b'A' + letter));
        rest = (rest - 1) / 26;
    }
    format!("{letters}{row}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_named_as_a_spreadsheet_names_them() {
        assert_eq!(address(0, 1), "A1");
        assert_eq!(address(25, 2), "Z2");
        assert_eq!(address(26, 3), "AA3");
        assert_eq!(address(701, 4), "ZZ4");
        assert_eq!(address(702, 5), "AAA5");
    }

    #[test]
    fn the_same_table_is_the_same_bytes() {
        let sheet = Sheet {
            name: "A & B".into(),
            heads: vec![("day".into(), 12)],
            rows: vec![vec!["=1+1".into()]],
            red: Some(0),
        };
        let one = workbook(std::slice::from_ref(&sheet)).unwrap();
        assert_eq!(one, workbook(&[sheet]).unwrap());
    }
}
