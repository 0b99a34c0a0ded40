//! What several sheets show: the head, cautions, prose, drawings.

use super::{Inputs, OneKitchen};
use crate::compose::catalogue::text;
use crate::compose::drawings;
use crate::compose::numbers;
use crate::compose::prose::{one_line, sentence};
use crate::compose::words;
use crate::doc;
use crate::markdown;
use crate::nouns::{Caution, Drawing, Kind, Module, Question, Signal};
use crate::phrase::phrase;
use crate::plan::{CautionPlan, statements::caution_id};
use crate::units::Units;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Markdown that `check` has read: a module's prose, or lines made of it.
/// Only the component `prose` prints it; a plain text can never stand here.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Prose {
    /// The Markdown.
    pub md: String,
}

impl Prose {
    /// Markdown as it is.
    #[must_use]
    pub fn new(md: impl Into<String>) -> Self {
        Self { md: md.into() }
    }
}

/// The head of every sheet.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Head {
    /// The sheet's title.
    pub sheet: String,
    /// The trip's title.
    pub trip: String,
    /// Whether the sheet is for one kitchen.
    pub for_kitchen: bool,
    /// Whether this is a lesson, without camps.
    pub lesson: bool,
    /// Its name, else the trip's.
    pub kitchen: String,
    /// `8 learners, 2 instructors`.
    pub party: String,
    /// Whether the day is stated.
    pub has_date: bool,
    /// `2027-05-14, 3 nights`.
    pub when: String,
    /// `Lower meadow (8200 ft), Tarn bench (10100 ft)`.
    pub camps: String,
    /// The organisation's name, else empty.
    pub organisation: String,
    /// Whether there is one.
    pub has_organisation: bool,
    /// The leaders' own notes, a line each.
    pub notes: Vec<String>,
    /// The content's date.
    pub edition: String,
    /// Whose word comes first.
    pub standing: String,
    /// Whether a flame needs an adult beside it because someone is young.
    pub young: bool,
    /// What to say about that.
    pub adult_line: String,
    /// Whether sources are cited.
    pub has_codes: bool,
    /// Their codes: `S03, S17`.
    pub codes: String,
    /// Foods that someone must not meet.
    pub diet: String,
    /// Whether any are stated.
    pub has_diet: bool,
    /// What to do about a reaction.
    pub reaction: Prose,
    /// Whether the content says it.
    pub has_reaction: bool,
    /// What to do first about a burn.
    pub burn: Prose,
    /// Whether something is lit that can burn, and the content says it.
    pub has_burn: bool,
}

/// A caution in full.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct CautionView {
    /// `DANGER`, `WARNING`, `CAUTION`, `NOTICE`.
    #[schemars(example = &"WARNING")]
    pub signal: String,
    /// Its words on one line.
    pub words: Prose,
}

/// Cautions under one signal word, a line each.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct CautionGroup {
    /// The signal word.
    #[schemars(example = &"WARNING")]
    pub signal: String,
    /// What they say.
    pub lines: Vec<Prose>,
}

/// A name and what is said of it.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Pair {
    /// What.
    pub name: String,
    /// Its value.
    pub value: String,
}

impl Pair {
    /// A pair of texts.
    #[must_use]
    pub fn new(name: impl Into<String>, value: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            value: value.into(),
        }
    }
}

/// The module on burns, and its item on what to do first.
const BURNS: &str = "burns-scalds-tip-over";
const COOL_A_BURN: &str = "cool-burn";

/// Cautions in one box: a box is never split between pages.
const MOST_IN_A_BOX: usize = 4;

/// How much of a caution a sheet prints.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// Hazard, consequence, how to avoid it, what to do.
    Full,
    /// Hazard and how to avoid it.
    Short,
    /// The same, and only the gravest of a module: for the card in the hand.
    Gravest,
}

/// The signal word as Markdown and documents write it.
#[must_use]
pub fn signal_word(signal: Signal) -> &'static str {
    doc_signal(signal).word()
}

/// The same signal in a document.
#[must_use]
pub fn doc_signal(signal: Signal) -> doc::Signal {
    match signal {
        Signal::Danger => doc::Signal::Danger,
        Signal::Warning => doc::Signal::Warning,
        Signal::Caution => doc::Signal::Caution,
        Signal::Notice => doc::Signal::Notice,
    }
}

impl Inputs<'_> {
    /// The head of a sheet.
    #[must_use]
    pub fn head(&self, sheet: &str, kitchen: Option<&str>, sources: &BTreeSet<String>) -> Head {
        let trip = self.trip;
        let people = &trip.people;
        let lesson = trip.kind == Kind::Lesson;
        let nights: u32 = trip.camps.iter().map(|camp| camp.nights).sum();
        let starts = trip.starts.map(|date| date.to_string());
        let length = if lesson {
            String::new()
        } else {
            text(&phrase!("nights-count", nights = nights))
        };
        let when: Vec<String> = [starts.unwrap_or_default(), length]
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect();
        let camps: Vec<String> = trip
            .camps
            .iter()
            .enumerate()
            .map(|(index, camp)| {
                let height = crate::units::say::elevation(camp.elevation, self.units);
                format!(
                    "{} ({})",
                    camp.name,
                    self.of_camp(index, "elevation", height)
                )
            })
            .collect();
        let young = people.youngest.is_none_or(|age| age < 16);
        let (reaction, burn) = (self.reaction(), self.burn());
        let organisation = trip
            .organisation
            .as_ref()
            .map(|profile| profile.name.clone())
            .unwrap_or_default();
        Head {
            sheet: sheet.to_owned(),
            trip: trip.title.clone(),
            for_kitchen: kitchen.is_some(),
            lesson,
            kitchen: kitchen.unwrap_or(&trip.title).to_owned(),
            party: party(people.learners, people.instructors),
            has_date: trip.starts.is_some(),
            when: if when.is_empty() {
                text(&phrase!("date-not-set"))
            } else {
                when.join(", ")
            },
            camps: camps.join(", "),
            has_organisation: !organisation.is_empty(),
            organisation,
            notes: trip.notes.clone(),
            edition: self.library.edition.to_string(),
            standing: self.library.standing_line.clone(),
            young,
            adult_line: text(&phrase!("no-flame-without-adult")),
            has_codes: !sources.is_empty(),
            codes: words::cited(sources),
            has_diet: !people.diet.is_empty(),
            diet: people.diet.join("; "),
            has_reaction: reaction.is_some(),
            reaction: reaction.unwrap_or_default(),
            has_burn: burn.is_some(),
            burn: burn.unwrap_or_default(),
        }
    }

    /// What to do about a reaction, where what is stated may be an allergy: from the module that applies then.
    fn reaction(&self) -> Option<Prose> {
        if !self.trip.people.may_react() {
            return None;
        }
        let module = self.modules.iter().find(|module| module.applies.diet)?;
        let caution = module.cautions.iter().min_by_key(|one| one.signal)?;
        Some(Prose::new(self.filler.line(module, &caution.respond)))
    }

    /// What to do first about a burn, where anything is lit.
    fn burn(&self) -> Option<Prose> {
        let module = self.module(BURNS).filter(|_| !self.trip.lights_nothing())?;
        let item = module.items.iter().find(|item| item.id == COOL_A_BURN)?;
        Some(Prose::new(self.filler.line(module, &item.say)))
    }

    /// The words of a caution, facts filled in, on one line of Markdown.
    #[must_use]
    pub fn caution_words(&self, module: &Module, caution: &Caution, extent: Extent) -> String {
        let parts = self.caution_parts(module, caution, extent);
        let (hazard, rest) = parts
            .split_first()
            .map_or(("", &[][..]), |(hazard, rest)| (hazard.as_str(), rest));
        format!("**{hazard}**: {}", rest.join(" "))
    }

    /// The hazard, and sentence by sentence what is said of it.
    #[must_use]
    pub fn caution_parts(&self, module: &Module, caution: &Caution, extent: Extent) -> Vec<String> {
        let hazard = self.filler.line(module, &caution.hazard);
        let mut parts = vec![hazard.trim_end_matches('.').to_owned()];
        let rest: &[&String] = match extent {
            Extent::Full => &[&caution.consequence, &caution.avoid, &caution.respond],
            Extent::Short | Extent::Gravest => &[&caution.avoid],
        };
        parts.extend(
            rest.iter()
                .map(|text| sentence(&self.filler.line_for(module, text, &caution.applies)))
                .filter(|text| !text.is_empty()),
        );
        parts
    }

    /// The cautions of a module that a sheet of this extent prints, gravest first.
    #[must_use]
    pub fn chosen<'m>(&self, module: &'m Module, extent: Extent) -> Vec<&'m Caution> {
        let mut held: Vec<&Caution> = module
            .cautions
            .iter()
            .filter(|caution| self.holds(&caution.applies))
            .collect();
        held.sort_by_key(|caution| caution.signal);
        if extent == Extent::Gravest {
            held.truncate(usize::from(module.hazard));
        }
        held
    }

    /// The same for the card of one kitchen: what is said there must be true of its own stove.
    #[must_use]
    pub fn gravest_for<'m>(&self, module: &'m Module, one: OneKitchen<'_>) -> Option<&'m Caution> {
        if !module.hazard {
            return None;
        }
        module
            .cautions
            .iter()
            .filter(|caution| self.holds_for(&caution.applies, one))
            .min_by_key(|caution| caution.signal)
    }

    /// A module's cautions that hold here, gravest first.
    pub fn held<'m>(&'m self, module: &'m Module) -> impl Iterator<Item = &'m Caution> + 'm {
        module
            .cautions
            .iter()
            .filter(|caution| self.holds(&caution.applies))
    }

    /// A module's cautions in full, for its section of a sheet.
    #[must_use]
    pub fn cautions_of(&self, module: &Module) -> Vec<CautionView> {
        self.chosen(module, Extent::Full)
            .into_iter()
            .map(|caution| CautionView {
                signal: signal_word(caution.signal).to_owned(),
                words: Prose::new(self.caution_words(module, caution, Extent::Full)),
            })
            .collect()
    }

    /// The cautions of several modules, gathered under each signal word, gravest first.
    #[must_use]
    pub fn caution_groups(&self, modules: &[&Module], extent: Extent) -> Vec<CautionGroup> {
        self.caution_groups_of(modules.iter().map(|module| (*module, extent)))
    }

    /// The same, each module with its own extent.
    #[must_use]
    pub fn caution_groups_of<'m>(
        &self,
        modules: impl Iterator<Item = (&'m Module, Extent)>,
    ) -> Vec<CautionGroup> {
        let mut groups: BTreeMap<Signal, Vec<Prose>> = BTreeMap::new();
        // Long ones two by two: what is left of a page then holds a box more often.
        let mut most = MOST_IN_A_BOX;
        for (module, extent) in modules {
            if extent == Extent::Full {
                most = MOST_IN_A_BOX / 2;
            }
            for caution in self.chosen(module, extent) {
                groups
                    .entry(caution.signal)
                    .or_default()
                    .push(Prose::new(self.caution_words(module, caution, extent)));
            }
        }
        boxed(groups, most)
    }

    /// The gravest caution of each module for the card of one kitchen, gathered as elsewhere.
    #[must_use]
    pub fn card_cautions(&self, modules: &[&Module], one: OneKitchen<'_>) -> Vec<CautionGroup> {
        let mut groups: BTreeMap<Signal, Vec<Prose>> = BTreeMap::new();
        for module in modules {
            if let Some(caution) = self.gravest_for(module, one) {
                let words = self.caution_words(module, caution, Extent::Gravest);
                groups
                    .entry(caution.signal)
                    .or_default()
                    .push(Prose::new(words));
            }
        }
        boxed(groups, MOST_IN_A_BOX)
    }

    /// A module's drawings: the fences that call for them, and the figures themselves.
    #[must_use]
    pub fn drawings_of(&self, module: &Module) -> Vec<(Prose, doc::Figure)> {
        module
            .drawings
            .iter()
            .filter(|drawing| self.holds(&drawing.applies))
            .map(|drawing| self.drawn(module, drawing))
            .collect()
    }

    fn drawn(&self, module: &Module, drawing: &Drawing) -> (Prose, doc::Figure) {
        let id = drawings::name(module, drawing);
        let caption = plain_line(&self.filler.line(module, &drawing.caption));
        let alt = plain_line(&self.filler.line(module, &drawing.alt));
        let fence = fence(&id, &alt);
        (fence, drawings::figure(id, drawing, caption, alt))
    }

    /// The first drawing of a module that is true of one kitchen's own stove, and the call for it.
    #[must_use]
    pub fn drawing_for(
        &self,
        module: &Module,
        one: OneKitchen<'_>,
    ) -> Option<(Prose, doc::Figure)> {
        let mut drawings = module.drawings.iter();
        let drawing = drawings.find(|drawing| self.holds_for(&drawing.applies, one))?;
        Some(self.drawn(module, drawing))
    }

    /// What learners read of a module on this trip.
    #[must_use]
    pub fn text_of(&self, module: &Module) -> String {
        module.text_where(|applies| self.holds(applies))
    }

    /// The drawing of a question with marked places, without its letters, and the call for it.
    #[must_use]
    pub fn scene_of(&self, module: &Module, question: &Question) -> Option<(Prose, doc::Figure)> {
        let scene = question.scene.as_ref()?;
        let id = drawings::name(module, &scene.drawing);
        let caption = plain_line(&self.filler.line(module, &scene.drawing.caption));
        let alt = plain_line(&self.filler.line(module, &scene.drawing.alt));
        let fence = fence(&id, &alt);
        Some((fence, drawings::figure(id, &scene.drawing, caption, alt)))
    }

    /// The cautions that the plan's own numbers raise.
    #[must_use]
    pub fn plan_warnings(&self) -> Vec<CautionView> {
        self.plan
            .cautions
            .iter()
            .filter(|caution| caution.module == "plan" && !caution.for_the_office())
            .map(|caution| CautionView {
                signal: signal_word(caution.signal).to_owned(),
                words: Prose::new(self.say(
                    &caution_id(caution),
                    markdown::escape(&self.caution_text(caution)),
                )),
            })
            .collect()
    }

    /// What a caution of the plan says, as plain text.
    #[must_use]
    pub fn caution_text(&self, caution: &CautionPlan) -> String {
        numbers::caution(self.trip, self.library, caution)
    }

    /// The sources behind the facts that modules' texts name.
    pub fn cite(&self, module: &Module, texts: &[&str], into: &mut BTreeSet<String>) {
        for text in texts {
            self.filler.sources(module, text, into);
        }
    }
}

/// The fence that calls for a figure, its words as twin.
#[must_use]
pub fn fence(id: &str, alt: &str) -> Prose {
    let twin = one_line(alt).replace('`', "'");
    Prose::new(format!("```figure {id}\n{twin}\n```"))
}

/// Words of a drawing without the marks of Markdown.
#[must_use]
pub fn plain_line(text: &str) -> String {
    let document = markdown::read(
        "a drawing's words",
        &format!("# x\n\n{text}\n"),
        &BTreeMap::new(),
        crate::compose::sheets::plain_style(),
        "",
    );
    match document {
        Ok(document) => match document.blocks.get(1) {
            Some(doc::Block::Paragraph(words)) => markdown::said_again(words),
            _ => text.to_owned(),
        },
        Err(_) => text.to_owned(),
    }
}

/// `8 learners, 2 instructors`.
fn party(learners: u32, instructors: u32) -> String {
    let mut parts = Vec::new();
    if learners > 0 {
        parts.push(text(&phrase!("learners-count", learners = learners)));
    }
    if instructors > 0 {
        parts.push(text(&phrase!(
            "instructors-count",
            instructors = instructors
        )));
    }
    parts.join(", ")
}

/// A paragraph of a module, or several, as Markdown with headings one level down
/// from the sheet's own section heading.
#[must_use]
pub fn under_heading(text: &str, level: usize) -> String {
    let least = text
        .lines()
        .filter(|line| line.starts_with('#'))
        .map(|line| line.bytes().take_while(|byte| *byte == b'#').count())
        .min()
        .unwrap_or(level);
    text.lines()
        .map(|line| {
            let hashes = line.bytes().take_while(|byte| *byte == b'#').count();
            if hashes == 0 {
                line.to_owned()
            } else {
                let depth = (hashes - least + level).min(4);
                format!("{}{}", "#".repeat(depth), &line[hashes..])
            }
        })
        .collect::<Vec<_>>()
        .join("\n")
}

/// Modules from this order on are for looking up: a handout tells them only when
/// the lesson is about them, and a kitchen card has only their gravest items.
const REFERENCE: u32 = 300;

/// Whether a module is for looking up.
#[must_use]
pub fn for_looking_up(module: &crate::nouns::Module) -> bool {
    module.order >= REFERENCE
}

/// Cautions under their signal words, a few in a box.
fn boxed(groups: BTreeMap<Signal, Vec<Prose>>, most: usize) -> Vec<CautionGroup> {
    groups
        .into_iter()
        .flat_map(|(signal, lines)| {
            let boxes: Vec<CautionGroup> = lines
                .chunks(most)
                .map(|lines| CautionGroup {
                    signal: signal_word(signal).to_owned(),
                    lines: lines.to_vec(),
                })
                .collect();
            boxes
        })
        .collect()
}

/// The wind above which no flame stands in the open (the upper end of 'windy').
pub(super) fn most_wind(units: Units) -> String {
    match units {
        Units::Us => "18 mph".to_owned(),
        Units::Metric => "8 m/s (29 km/h)".to_owned(),
        Units::Both => "8 m/s (18 mph)".to_owned(),
    }
}
