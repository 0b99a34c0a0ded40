//! Finishing: the painted file becomes a tagged PDF 1.7 with form fields,
//! outline and the promises of PDF/UA-1 (ISO 14289-1).

mod annotations;
mod outline;
mod tags;

use flate2::{Compress, Compression, FlushCompress, Status};
use lopdf::{Dictionary, Document, Object, ObjectId, SaveOptions, Stream, dictionary, text_string};
use sha2::{Digest, Sha256};
use std::cell::RefCell;

use super::layout::Layout;
use super::paint::Painted;
use crate::diag::{Outcome, Problem, told};
use crate::doc::CardFold;

pub(super) use annotations::FONT as WRITE_FONT;

/// The program's name in the file.
const PRODUCER: &str = "leeside";

/// The structure's many small objects are packed together: the more, the
/// smaller the file.
const OBJECTS_PER_STREAM: usize = 1000;

/// How hard streams are compressed, from 0 to 9.
const LEVEL: u32 = 6;

/// Makes the file; warnings are added for links that lead nowhere.
pub(super) fn finish(
    painted: Painted,
    layout: &Layout,
    fold: Option<CardFold>,
    warnings: &mut Vec<Problem>,
) -> Outcome<Vec<u8>> {
    write(painted, layout, fold, warnings).map_err(|error| {
        vec![Problem::error(
            "render.pdf",
            told!(
                "`{title}` cannot be written as PDF: {error}",
                title = layout.title,
                error
            ),
            "this is a mistake in the program; please report it with the trip file",
        )]
    })
}

fn write(
    painted: Painted,
    layout: &Layout,
    fold: Option<CardFold>,
    warnings: &mut Vec<Problem>,
) -> Result<Vec<u8>, lopdf::Error> {
    let mut document = painted.document;
    document.version = "1.7".to_string();
    let pages: Vec<ObjectId> = document.get_pages().into_values().collect();
    dress_pages(&mut document, &pages, layout)?;
    let spots = outline::spots(layout);
    let annotations = annotations::add(
        &mut document,
        &pages,
        layout,
        &painted.written,
        &spots,
        warnings,
    )?;
    let tree = tags::add(&mut document, &pages, layout, &painted.marked, &annotations)?;
    let outlines = outline::add(&mut document, &pages, &spots, layout.height);
    let metadata = document.add_object(metadata(&layout.title, &layout.words.language));

    let mut view = dictionary! { "DisplayDocTitle" => true };
    match fold {
        Some(CardFold::DuplexLongEdge) => view.set("Duplex", "DuplexFlipLongEdge"),
        Some(CardFold::DuplexShortEdge) => view.set("Duplex", "DuplexFlipShortEdge"),
        _ => {}
    }
    let labels = vec![
        Object::Integer(0),
        Object::Dictionary(dictionary! { "S" => "D" }),
    ];
    let catalog = document.catalog_mut()?;
    catalog.remove(b"PageLayout");
    catalog.remove(b"PageMode");
    catalog.set("StructTreeRoot", tree);
    catalog.set("MarkInfo", dictionary! { "Marked" => true });
    catalog.set("Lang", text_string(&layout.words.language));
    catalog.set("Metadata", metadata);
    catalog.set("ViewerPreferences", view);
    catalog.set("PageLabels", dictionary! { "Nums" => labels });
    if let Some(outlines) = outlines {
        catalog.set("Outlines", outlines);
    }
    if let Some(form) = annotations.form {
        catalog.set("AcroForm", form);
    }
    sealed(document, &layout.title)
}

/// Names a finished document, gives it its identity, compresses it and makes it bytes.
pub(super) fn sealed(mut document: Document, title: &str) -> Result<Vec<u8>, lopdf::Error> {
    let information = document.add_object(dictionary! {
        "Title" => text_string(title),
        "Producer" => text_string(PRODUCER),
    });
    if let Ok(old) = document.trailer.get(b"Info").and_then(Object::as_reference) {
        document.objects.remove(&old);
    }
    document.trailer.set("Info", information);
    let identity = identity(&document);
    document.trailer.set(
        "ID",
        vec![
            Object::string_literal(identity.clone()),
            Object::string_literal(identity),
        ],
    );
    compress(&mut document)?;
    let mut bytes = Vec::new();
    let options = SaveOptions::builder()
        .use_object_streams(true)
        .use_xref_streams(true)
        .max_objects_per_stream(OBJECTS_PER_STREAM)
        .compression_level(LEVEL)
        .build();
    document.save_with_options(&mut bytes, options)?;
    Ok(bytes)
}

thread_local! {
    /// A thread's compressor for all its files: the system takes longer to give it its memory
    /// than a stream takes to be compressed.
    static PACKER: RefCell<Compress> =
        RefCell::new(Compress::new(Compression::new(LEVEL), true));
}

/// Compresses the streams. The library's own way takes the highest level: a tenth more of the
/// whole time for a two-hundredth less of the size.
fn compress(document: &mut Document) -> Result<(), lopdf::Error> {
    PACKER.with_borrow_mut(|packer| compress_with(packer, document))
}

fn compress_with(packer: &mut Compress, document: &mut Document) -> Result<(), lopdf::Error> {
    for object in document.objects.values_mut() {
        let Object::Stream(stream) = object else {
            continue;
        };
        if !stream.allows_compression || stream.dict.has(b"Filter") {
            continue;
        }
        packer.reset();
        let mut packed = Vec::with_capacity(stream.content.len());
        let status = packer
            .compress_vec(&stream.content, &mut packed, FlushCompress::Finish)
            .map_err(std::io::Error::other)?;
        // no end where there was not room for it: then nothing would be won; and
        // what the entry itself takes must be won first
        if status == Status::StreamEnd && packed.len() + 20 < stream.content.len() {
            stream.dict.set("Filter", "FlateDecode");
            stream.set_content(packed);
        }
    }
    Ok(())
}

/// Gives the pages their true size and one set of resources, and joins the
/// letters of each word in their drawing operations.
fn dress_pages(
    document: &mut Document,
    pages: &[ObjectId],
    layout: &Layout,
) -> Result<(), lopdf::Error> {
    let mut shared: Option<ObjectId> = None;
    for (number, id) in pages.iter().enumerate() {
        let page = document.get_object(*id)?.as_dict()?;
        let resources = page.get(b"Resources")?.as_reference()?;
        let contents = page.get(b"Contents")?.as_reference()?;
        let resources_id = match shared {
            Some(shared) => {
                document.objects.remove(&resources);
                shared
            }
            None => {
                let old = document.get_object_mut(resources)?.as_dict_mut()?;
                let mut others = Vec::new();
                for key in [&b"XObject"[..], b"ExtGState", b"Shading"] {
                    if let Some(other) = old.remove(key) {
                        others.push(other.as_reference()?);
                    }
                }
                for other in others {
                    document.objects.remove(&other);
                }
                shared = Some(resources);
                resources
            }
        };
        if let Object::Stream(stream) = document.get_object_mut(contents)? {
            stream.set_content(joined(&stream.content));
        }
        let page = document.get_object_mut(*id)?.as_dict_mut()?;
        page.remove(b"TrimBox");
        page.remove(b"CropBox");
        page.remove(b"Annots");
        page.set("Resources", resources_id);
        let size = vec![
            Object::Integer(0),
            Object::Integer(0),
            number_object(layout.width),
            number_object(layout.height),
        ];
        page.set("MediaBox", size);
        page.set("StructParents", number as i64);
        page.set("Tabs", "S");
    }
    Ok(())
}

/// The painter's library writes each glyph as a string of its own: `<0001>
/// <0002>`; one string for several is shorter. Strings in pointed brackets
/// stand next to each other in the arrays of `TJ` alone.
fn joined(content: &[u8]) -> Vec<u8> {
    let mut joined = Vec::with_capacity(content.len());
    let mut i = 0;
    while i < content.len() {
        if content[i] == b'>' && content.get(i.wrapping_sub(1)) != Some(&b'>') {
            let mut next = i + 1;
            while content.get(next) == Some(&b' ') {
                next += 1;
            }
            if content.get(next) == Some(&b'<') && content.get(next + 1) != Some(&b'<') {
                i = next + 1;
                continue;
            }
        }
        joined.push(content[i]);
        i += 1;
    }
    joined
}

/// A number as short as it can be.
fn number_object(value: f32) -> Object {
    if value.fract() == 0.0 {
        Object::Integer(value as i64)
    } else {
        Object::Real(value)
    }
}

/// The XMP metadata: title, language, the part of ISO 14289 that the file
/// keeps to. Left uncompressed, as readers of metadata expect.
pub(super) fn metadata(title: &str, language: &str) -> Stream {
    let mut escaped = String::with_capacity(title.len());
    for character in title.chars() {
        match character {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            // XML 1.0 knows no other control characters
            c if c.is_control() => escaped.push(' '),
            c => escaped.push(c),
        }
    }
    let xml = format!(
        "<?xpacket begin=\"\u{feff}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n\
         <x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\
         <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\
         <rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" \
         xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" \
         xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\">\
         <dc:title><rdf:Alt><rdf:li xml:lang=\"x-default\">{escaped}</rdf:li></rdf:Alt></dc:title>\
         <dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>\
         <pdf:Producer>{PRODUCER}</pdf:Producer>\
         <pdfuaid:part>1</pdfuaid:part>\
         </rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>"
    );
    Stream::new(
        dictionary! { "Type" => "Metadata", "Subtype" => "XML" },
        xml.into_bytes(),
    )
    .with_compression(false)
}

/// A file identity from all that the file holds, so that equal input gives
/// equal bytes.
fn identity(document: &Document) -> Vec<u8> {
    let mut hash = Sha256::new();
    for object in document.objects.values() {
        match object {
            Object::Stream(stream) => hash.update(&stream.content),
            Object::Dictionary(dictionary) => digest(dictionary, &mut hash),
            _ => {}
        }
    }
    hash.finalize()[..16].to_vec()
}

fn digest(dictionary: &Dictionary, hash: &mut Sha256) {
    for (key, value) in dictionary {
        hash.update(key);
        match value {
            Object::String(text, _) => hash.update(text),
            Object::Name(name) => hash.update(name),
            Object::Integer(number) => hash.update(number.to_be_bytes()),
            Object::Array(values) => hash.update((values.len() as u64).to_be_bytes()),
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::joined;

    #[test]
    fn glyphs_of_a_word_are_joined() {
        let content = b"/P<</MCID 0>>BDC [<0001><0002> -12 <0003> <0004>]TJ";
        assert_eq!(
            String::from_utf8_lossy(&joined(content)),
            "/P<</MCID 0>>BDC [<00010002> -12 <00030004>]TJ"
        );
    }
}
