//! Finished files bound into one: pages in order, each sheet on a leaf of its own, with its
//! tags, fields and headings kept.

use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary, text_string};

use super::finish;
use crate::diag::{Outcome, Problem, told};

/// A file to bind.
pub struct Part<'a> {
    /// What the outline calls it.
    pub title: String,
    /// A file made by [`super::pdf`].
    pub bytes: &'a [u8],
    /// The pages, counted from 1, whose back stays empty though a page follows.
    pub empty_backs: Vec<usize>,
    /// Whether its entry in the outline stands under that of the last part before it that stands
    /// under none.
    pub under: bool,
}

/// Binds files into one to be printed on both sides: every part starts on a right-hand page.
///
/// # Errors
/// `render.bind` when a part is no file of ours.
pub fn bind(title: &str, parts: &[Part<'_>]) -> Outcome<super::Pdf> {
    bound(title, parts).map_err(|error| {
        vec![Problem::error(
            "render.bind",
            told!(
                "the sheets of `{title}` cannot be bound into one file: {error}",
                title,
                error
            ),
            "this is a mistake in the program; please report it with the trip file",
        )]
    })
}

fn bound(title: &str, parts: &[Part<'_>]) -> Result<super::Pdf, lopdf::Error> {
    let mut book = Book::new();
    for (index, part) in parts.iter().enumerate() {
        book.add(index, part)?;
    }
    let pages = book.pages.len();
    Ok(super::Pdf {
        bytes: book.close(title)?,
        pages,
        warnings: Vec::new(),
    })
}

/// What is bound so far.
struct Book {
    document: Document,
    /// The ids of the page tree, the structure's root and its one element.
    tree: ObjectId,
    structure: ObjectId,
    whole: ObjectId,
    pages: Vec<ObjectId>,
    /// The parts' own document elements.
    elements: Vec<Object>,
    /// The parent tree: key, value.
    parents: Vec<Object>,
    next_key: i64,
    fields: Vec<Object>,
    fonts: Dictionary,
    outlines: Vec<Outline>,
    /// The language of its first part.
    language: String,
}

/// A part's entry in the outline.
struct Outline {
    title: String,
    page: ObjectId,
    /// The first and last of its own headings, and how many there are.
    inner: Option<Inner>,
    under: bool,
}

/// Entries of an outline that follow each other.
#[derive(Clone)]
struct Inner {
    first: ObjectId,
    last: ObjectId,
    count: i64,
}

impl Book {
    fn new() -> Self {
        let mut document = Document::with_version("1.7");
        let tree = document.new_object_id();
        let structure = document.new_object_id();
        let whole = document.new_object_id();
        Self {
            document,
            tree,
            structure,
            whole,
            pages: Vec::new(),
            elements: Vec::new(),
            parents: Vec::new(),
            next_key: 0,
            fields: Vec::new(),
            fonts: Dictionary::new(),
            outlines: Vec::new(),
            language: String::new(),
        }
    }

    /// Binds in one file.
    fn add(&mut self, index: usize, part: &Part<'_>) -> Result<(), lopdf::Error> {
        let mut file = Document::load_mem(part.bytes)?;
        file.renumber_objects_with(self.document.max_id + 1);
        self.document.max_id = file.max_id;
        let catalog = file.catalog()?.clone();
        if self.language.is_empty() {
            let language = catalog.get(b"Lang").and_then(Object::as_str)?;
            self.language = String::from_utf8_lossy(language).into_owned();
        }
        let pages: Vec<ObjectId> = file.get_pages().into_values().collect();
        let shift = self.next_key;
        self.shift_keys(&mut file, shift)?;
        self.take_structure(&mut file, &catalog)?;
        self.take_form(&mut file, &catalog, index)?;
        self.take_outline(&mut file, &catalog, part, &pages)?;
        for id in &pages {
            file.get_object_mut(*id)?
                .as_dict_mut()?
                .set("Parent", self.tree);
        }
        let spent = spent(&file, &catalog);
        for (id, object) in file.objects {
            if !spent.contains(&id) {
                self.document.objects.insert(id, object);
            }
        }
        if self.pages.len() % 2 == 1 {
            self.blank()?;
        }
        for (at, id) in pages.iter().enumerate() {
            self.pages.push(*id);
            if part.empty_backs.contains(&(at + 1)) && at + 1 < pages.len() {
                self.blank()?;
            }
        }
        Ok(())
    }

    /// Makes the keys of a file's parent tree follow those of the files before.
    fn shift_keys(&mut self, file: &mut Document, shift: i64) -> Result<(), lopdf::Error> {
        for object in file.objects.values_mut() {
            let dictionary = match object {
                Object::Dictionary(dictionary) => dictionary,
                Object::Stream(stream) => &mut stream.dict,
                _ => continue,
            };
            for key in [&b"StructParents"[..], b"StructParent"] {
                if let Ok(number) = dictionary.get(key).and_then(Object::as_i64) {
                    dictionary.set(key, number + shift);
                }
            }
        }
        Ok(())
    }

    /// Takes a file's structure over: its document element becomes a part of the whole.
    fn take_structure(
        &mut self,
        file: &mut Document,
        catalog: &Dictionary,
    ) -> Result<(), lopdf::Error> {
        let root = file
            .get_dictionary(catalog.get(b"StructTreeRoot")?.as_reference()?)?
            .clone();
        let element = root.get(b"K")?.as_reference()?;
        let entry = file.get_object_mut(element)?.as_dict_mut()?;
        entry.set("S", "Part");
        entry.set("P", self.whole);
        self.elements.push(Object::Reference(element));
        let tree = file.get_dictionary(root.get(b"ParentTree")?.as_reference()?)?;
        for (at, value) in tree.get(b"Nums")?.as_array()?.iter().enumerate() {
            self.parents.push(match value {
                Object::Integer(key) if at % 2 == 0 => Object::Integer(key + self.next_key),
                other => other.clone(),
            });
        }
        self.next_key += root.get(b"ParentTreeNextKey")?.as_i64()?;
        Ok(())
    }

    /// Takes a file's fields over, under names that no other part has.
    fn take_form(
        &mut self,
        file: &mut Document,
        catalog: &Dictionary,
        index: usize,
    ) -> Result<(), lopdf::Error> {
        let Ok(form) = catalog.get(b"AcroForm").and_then(Object::as_reference) else {
            return Ok(());
        };
        let form = file.get_dictionary(form)?.clone();
        let font = format!("{}{index}", finish::WRITE_FONT);
        let old = format!("/{} ", finish::WRITE_FONT);
        for field in form.get(b"Fields")?.as_array()? {
            let entry = file.get_object_mut(field.as_reference()?)?.as_dict_mut()?;
            let name = lopdf::decode_text_string(entry.get(b"T")?)?;
            entry.set("T", text_string(&format!("{}-{name}", index + 1)));
            if let Ok(text) = entry.get(b"DA").and_then(Object::as_str) {
                let text = String::from_utf8_lossy(text).replace(&old, &format!("/{font} "));
                entry.set("DA", Object::string_literal(text));
            }
            self.fields.push(field.clone());
        }
        if let Ok(resources) = form.get(b"DR").and_then(Object::as_dict)
            && let Ok(fonts) = resources.get(b"Font").and_then(Object::as_dict)
            && let Ok(one) = fonts.get(finish::WRITE_FONT.as_bytes())
        {
            self.fonts.set(font, one.clone());
        }
        Ok(())
    }

    /// Takes a file's headings over, below an entry for the file.
    fn take_outline(
        &mut self,
        file: &mut Document,
        catalog: &Dictionary,
        part: &Part<'_>,
        pages: &[ObjectId],
    ) -> Result<(), lopdf::Error> {
        let Some(page) = pages.first() else {
            return Ok(());
        };
        let inner = match catalog.get(b"Outlines").and_then(Object::as_reference) {
            Ok(root) => {
                let root = file.get_dictionary(root)?;
                Some(Inner {
                    first: root.get(b"First")?.as_reference()?,
                    last: root.get(b"Last")?.as_reference()?,
                    count: root.get(b"Count")?.as_i64()?,
                })
            }
            Err(_) => None,
        };
        self.outlines.push(Outline {
            title: part.title.clone(),
            page: *page,
            inner,
            under: part.under && !self.outlines.is_empty(),
        });
        Ok(())
    }

    /// An empty side, as large as the one before.
    fn blank(&mut self) -> Result<(), lopdf::Error> {
        let Some(before) = self.pages.last() else {
            return Ok(());
        };
        let size = self
            .document
            .get_dictionary(*before)?
            .get(b"MediaBox")?
            .clone();
        let contents = self
            .document
            .add_object(Stream::new(Dictionary::new(), Vec::new()));
        let page = self.document.add_object(dictionary! {
            "Type" => "Page",
            "Parent" => self.tree,
            "MediaBox" => size,
            "Resources" => Dictionary::new(),
            "Contents" => contents,
            "Tabs" => "S",
        });
        self.pages.push(page);
        Ok(())
    }

    /// Puts the covers on: page tree, structure, form, outline, metadata.
    fn close(mut self, title: &str) -> Result<Vec<u8>, lopdf::Error> {
        let kids: Vec<Object> = self.pages.iter().map(|id| Object::Reference(*id)).collect();
        let tree = dictionary! {
            "Type" => "Pages",
            "Count" => kids.len() as i64,
            "Kids" => kids,
        };
        self.document.set_object(self.tree, tree);
        self.document.set_object(
            self.whole,
            dictionary! {
                "Type" => "StructElem",
                "S" => "Document",
                "P" => self.structure,
                "K" => std::mem::take(&mut self.elements),
            },
        );
        let nums = std::mem::take(&mut self.parents);
        let parents = self.document.add_object(dictionary! { "Nums" => nums });
        self.document.set_object(
            self.structure,
            dictionary! {
                "Type" => "StructTreeRoot",
                "ParentTree" => parents,
                "ParentTreeNextKey" => self.next_key,
                "K" => self.whole,
            },
        );
        let metadata = self
            .document
            .add_object(finish::metadata(title, &self.language));
        let labels = vec![
            Object::Integer(0),
            Object::Dictionary(dictionary! { "S" => "D" }),
        ];
        let mut catalog = dictionary! {
            "Type" => "Catalog",
            "Pages" => self.tree,
            "StructTreeRoot" => self.structure,
            "MarkInfo" => dictionary! { "Marked" => true },
            "Lang" => text_string(&self.language),
            "Metadata" => metadata,
            "ViewerPreferences" => dictionary! { "DisplayDocTitle" => true },
            "PageLabels" => dictionary! { "Nums" => labels },
        };
        if let Some(outlines) = self.outline()? {
            catalog.set("Outlines", outlines);
        }
        if let Some(form) = self.form() {
            catalog.set("AcroForm", form);
        }
        let catalog = self.document.add_object(catalog);
        self.document.trailer.set("Root", catalog);
        finish::sealed(self.document, title)
    }

    fn form(&mut self) -> Option<ObjectId> {
        if self.fields.is_empty() {
            return None;
        }
        let mut form = dictionary! { "Fields" => std::mem::take(&mut self.fields) };
        if let Some((first, _)) = self.fonts.iter().next() {
            let first = String::from_utf8_lossy(first);
            form.set("DA", Object::string_literal(format!("/{first} 12 Tf 0 g")));
            form.set(
                "DR",
                dictionary! { "Font" => std::mem::take(&mut self.fonts) },
            );
        }
        Some(self.document.add_object(form))
    }

    /// An entry for each part, its own headings and the parts under it folded away below it.
    fn outline(&mut self) -> Result<Option<ObjectId>, lopdf::Error> {
        if self.outlines.is_empty() {
            return Ok(None);
        }
        let root = self.document.new_object_id();
        let outlines = std::mem::take(&mut self.outlines);
        let ids: Vec<ObjectId> = outlines
            .iter()
            .map(|_| self.document.new_object_id())
            .collect();
        let mut tops = Vec::new();
        let mut at = 0;
        while at < outlines.len() {
            let under = outlines[at + 1..].iter().take_while(|one| one.under);
            let end = at + 1 + under.count();
            for inner in at + 1..end {
                self.entry(&outlines[inner], ids[inner], outlines[inner].inner.clone())?;
            }
            let parts = self.chain(&ids[at + 1..end])?;
            let below = self.joined(outlines[at].inner.clone(), parts)?;
            self.entry(&outlines[at], ids[at], below)?;
            tops.push(ids[at]);
            at = end;
        }
        let whole = self.chain(&tops)?;
        let mut entry = dictionary! { "Type" => "Outlines" };
        if let Some(whole) = whole {
            self.adopt(&whole, root)?;
            entry.set("First", whole.first);
            entry.set("Last", whole.last);
            entry.set("Count", whole.count);
        }
        self.document.set_object(root, entry);
        Ok(Some(root))
    }

    /// Writes an entry with what is below it, folded away.
    fn entry(
        &mut self,
        outline: &Outline,
        id: ObjectId,
        below: Option<Inner>,
    ) -> Result<(), lopdf::Error> {
        let fit = vec![Object::Reference(outline.page), "Fit".into()];
        let mut entry = dictionary! {
            "Title" => text_string(&outline.title),
            "Dest" => fit,
        };
        if let Some(below) = below {
            entry.set("First", below.first);
            entry.set("Last", below.last);
            // below nought: the entries below are not shown until they are opened
            entry.set("Count", -below.count);
            self.adopt(&below, id)?;
        }
        self.document.set_object(id, entry);
        Ok(())
    }

    /// Makes entries follow each other.
    fn chain(&mut self, ids: &[ObjectId]) -> Result<Option<Inner>, lopdf::Error> {
        for pair in ids.windows(2) {
            self.follow(pair[0], pair[1])?;
        }
        Ok(match (ids.first(), ids.last()) {
            (Some(first), Some(last)) => Some(Inner {
                first: *first,
                last: *last,
                count: ids.len() as i64,
            }),
            _ => None,
        })
    }

    /// Makes one entry follow another.
    fn follow(&mut self, before: ObjectId, after: ObjectId) -> Result<(), lopdf::Error> {
        let entry = self.document.get_object_mut(before)?.as_dict_mut()?;
        entry.set("Next", after);
        let entry = self.document.get_object_mut(after)?.as_dict_mut()?;
        entry.set("Prev", before);
        Ok(())
    }

    /// Makes entries follow others.
    fn joined(
        &mut self,
        one: Option<Inner>,
        other: Option<Inner>,
    ) -> Result<Option<Inner>, lopdf::Error> {
        let (Some(first), Some(then)) = (&one, &other) else {
            return Ok(one.or(other));
        };
        self.follow(first.last, then.first)?;
        Ok(Some(Inner {
            first: first.first,
            last: then.last,
            count: first.count + then.count,
        }))
    }

    /// Tells entries below which one they stand.
    fn adopt(&mut self, inner: &Inner, parent: ObjectId) -> Result<(), lopdf::Error> {
        let mut next = Some(inner.first);
        while let Some(id) = next {
            let item = self.document.get_object_mut(id)?.as_dict_mut()?;
            item.set("Parent", parent);
            next = item.get(b"Next").and_then(Object::as_reference).ok();
        }
        Ok(())
    }
}

/// What of a file the whole has in another form: its covers.
fn spent(file: &Document, catalog: &Dictionary) -> Vec<ObjectId> {
    let mut spent: Vec<ObjectId> = [
        &b"Pages"[..],
        b"StructTreeRoot",
        b"Metadata",
        b"Outlines",
        b"AcroForm",
    ]
    .into_iter()
    .filter_map(|key| catalog.get(key).and_then(Object::as_reference).ok())
    .collect();
    let ends = [&b"Root"[..], b"Info"];
    spent.extend(
        ends.into_iter()
            .filter_map(|key| file.trailer.get(key).and_then(Object::as_reference).ok()),
    );
    let tree = catalog
        .get(b"StructTreeRoot")
        .and_then(Object::as_reference)
        .and_then(|root| file.get_dictionary(root))
        .and_then(|root| root.get(b"ParentTree"))
        .and_then(Object::as_reference);
    spent.extend(tree.ok());
    let packing = file.objects.iter().filter(|(_, object)| {
        matches!(object, Object::Stream(stream)
            if stream.dict.has_type(b"ObjStm") || stream.dict.has_type(b"XRef"))
    });
    spent.extend(packing.map(|(id, _)| *id));
    spent
}
