//! What the objects of a PDF file say, read back.

use std::collections::BTreeSet;

use lopdf::{Dictionary, Document, Object};

fn read(bytes: &[u8]) -> Document {
    Document::load_mem(bytes).expect("a PDF file")
}

fn dictionary<'d>(file: &'d Document, object: &'d Object) -> &'d Dictionary {
    file.dereference(object)
        .expect("an object")
        .1
        .as_dict()
        .expect("a dictionary")
}

fn entry<'d>(file: &'d Document, from: &'d Dictionary, key: &str) -> &'d Object {
    let found = from
        .get(key.as_bytes())
        .unwrap_or_else(|_| panic!("no {key} in {from:?}"));
    file.dereference(found).expect("an object").1
}

fn text(object: &Object) -> String {
    lopdf::decode_text_string(object).expect("a text")
}

/// Every annotation names its element, and the element holds it (ISO 14289-1,
/// 7.18); fields have a tooltip, links a description; names are not used twice.
pub fn annotations_are_tagged(bytes: &[u8]) {
    let file = read(bytes);
    let catalog = file.catalog().expect("a catalog");
    let root = dictionary(&file, entry(&file, catalog, "StructTreeRoot"));
    let parents = dictionary(&file, entry(&file, root, "ParentTree"));
    let numbers = entry(&file, parents, "Nums").as_array().expect("numbers");
    let parent = |key: i64| {
        numbers
            .chunks(2)
            .find(|pair| pair[0].as_i64().ok() == Some(key))
            .map(|pair| &pair[1])
            .unwrap_or_else(|| panic!("no parent {key}"))
    };
    let mut names = BTreeSet::new();
    for (number, page) in file.page_iter().enumerate() {
        let page = file
            .get_object(page)
            .and_then(Object::as_dict)
            .expect("a page");
        assert_eq!(
            entry(&file, page, "StructParents").as_i64().ok(),
            Some(number as i64)
        );
        assert_eq!(entry(&file, page, "Tabs").as_name().ok(), Some(&b"S"[..]));
        assert!(parent(number as i64).as_array().is_ok());
        let Ok(annotations) = page.get(b"Annots") else {
            continue;
        };
        for reference in annotations.as_array().expect("annotations") {
            let annotation = dictionary(&file, reference);
            let key = entry(&file, annotation, "StructParent")
                .as_i64()
                .expect("a key");
            let element = dictionary(&file, parent(key));
            let role = entry(&file, element, "S").as_name().expect("a role");
            let said = match entry(&file, annotation, "Subtype")
                .as_name()
                .expect("a kind")
            {
                b"Widget" => {
                    assert_eq!(role, b"Form");
                    assert!(
                        names.insert(text(entry(&file, annotation, "T"))),
                        "a name twice"
                    );
                    text(entry(&file, annotation, "TU"))
                }
                b"Link" => {
                    assert_eq!(role, b"Link");
                    text(entry(&file, annotation, "Contents"))
                }
                other => panic!("{other:?}"),
            };
            assert!(!said.trim().is_empty());
            let kids = entry(&file, element, "K");
            let kids: Vec<&Object> = match kids {
                Object::Array(kids) => kids.iter().collect(),
                one => vec![one],
            };
            let held = kids.iter().any(|kid| {
                kid.as_dict()
                    .and_then(|kid| kid.get(b"Obj"))
                    .is_ok_and(|object| object == reference)
            });
            assert!(held, "the element holds its annotation");
        }
    }
}

/// Names and tooltips of the form's fields, in order.
pub fn fields(bytes: &[u8]) -> Vec<(String, String)> {
    let file = read(bytes);
    let catalog = file.catalog().expect("a catalog");
    let form = dictionary(&file, entry(&file, catalog, "AcroForm"));
    entry(&file, form, "Fields")
        .as_array()
        .expect("fields")
        .iter()
        .map(|field| {
            let field = dictionary(&file, field);
            (
                text(entry(&file, field, "T")),
                text(entry(&file, field, "TU")),
            )
        })
        .collect()
}

/// No text shows glyph 0.
pub fn no_notdef(bytes: &[u8]) {
    let file = read(bytes);
    for page in file.page_iter() {
        let content = file.get_and_decode_page_content(page).expect("content");
        for operation in content.operations.iter().filter(|o| o.operator == "TJ") {
            for part in operation.operands[0].as_array().expect("glyphs") {
                if let Object::String(codes, _) = part {
                    assert!(codes.chunks(2).all(|code| code != [0, 0]));
                }
            }
        }
    }
}
