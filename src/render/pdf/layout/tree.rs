//! The structure of a document: what each piece on a page is part of.

/// A place in [`Tree::elements`].
pub(in crate::render::pdf) type ElementId = usize;

/// What an element is, in the standard structure types of PDF 1.7
/// (ISO 32000-1, 14.8.4).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::render::pdf) enum Role {
    Document,
    /// A heading of level 1 to 6.
    Heading(u8),
    Paragraph,
    List(Numbering),
    Item,
    Label,
    Body,
    Table,
    Row,
    /// The head of a column.
    HeadCell,
    /// The cell that names its row.
    RowHead,
    Cell,
    Figure,
    Link,
    Form,
    /// A group: a caution, a box.
    Group,
}

/// What stands before the items of a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::render::pdf) enum Numbering {
    None,
    Disc,
    Circle,
    Decimal,
}

/// A part of the document.
#[derive(Clone, Debug)]
pub(in crate::render::pdf) struct Element {
    pub role: Role,
    pub parent: Option<ElementId>,
    /// Where it stands in the reading order, counted together with the text.
    pub order: u32,
    /// What it shows or is for, for those who cannot see it.
    pub alt: Option<String>,
    /// Its language where that is not the document's own.
    pub language: Option<String>,
}

/// Whose a stretch of text is, and where it stands in the reading order.
#[derive(Clone, Copy, Debug)]
pub(in crate::render::pdf) struct Tag {
    pub element: ElementId,
    pub order: u32,
}

/// All elements of a document; the first is the document itself.
#[derive(Clone, Debug)]
pub(in crate::render::pdf) struct Tree {
    pub elements: Vec<Element>,
    pub tags: Vec<Tag>,
    next: u32,
    /// The level of the heading before, for levels are never skipped.
    level: u8,
}

impl Tree {
    /// A tree that holds the document's element alone.
    pub fn new() -> Self {
        let mut tree = Self {
            elements: Vec::new(),
            tags: Vec::new(),
            next: 0,
            level: 0,
        };
        let order = tree.order();
        tree.elements.push(Element {
            role: Role::Document,
            parent: None,
            order,
            alt: None,
            language: None,
        });
        tree
    }

    /// The next number of the reading order.
    pub fn order(&mut self) -> u32 {
        self.next += 1;
        self.next
    }

    /// Adds an element.
    pub fn add(&mut self, role: Role, parent: ElementId) -> ElementId {
        let order = self.order();
        self.elements.push(Element {
            role,
            parent: Some(parent),
            order,
            alt: None,
            language: None,
        });
        self.elements.len() - 1
    }

    /// Adds a group whose words are of a language.
    pub fn spoken(&mut self, language: &str, parent: ElementId) -> ElementId {
        let id = self.add(Role::Group, parent);
        self.elements[id].language = Some(language.to_owned());
        id
    }

    /// Adds an element with a text for those who cannot see it.
    pub fn add_alt(&mut self, role: Role, parent: ElementId, alt: &str) -> ElementId {
        let id = self.add(role, parent);
        self.elements[id].alt = Some(alt.to_string());
        id
    }

    /// Adds a heading; a level deeper than the next one is taken as the next.
    pub fn heading(&mut self, level: u8, parent: ElementId) -> ElementId {
        self.level = level.clamp(1, 6).min(self.level + 1);
        self.add(Role::Heading(self.level), parent)
    }

    /// A tag for text that comes next in an element.
    pub fn tag(&mut self, element: ElementId) -> usize {
        let order = self.order();
        self.tags.push(Tag { element, order });
        self.tags.len() - 1
    }
}
