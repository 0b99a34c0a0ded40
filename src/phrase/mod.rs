//! What is to be said, without words: the id of a sentence and what stands in it, by name.
//!
//! Rooms that work things out say so by a [`Phrase`]; the words of its id stand in the catalogue
//! of a language, and `compose` alone reads them.

mod assumed;
mod tokens;

use crate::nouns::{
    Arrival, Basis, Family, FuelKind, Id, Kind, Meal, Pot, Screen, Treatment, Verdict, Washing,
    WaterFrom, Wind,
};
use crate::units::say;
pub use tokens::{StepId, Token, Tokens};

/// What is to be said: a sentence of the catalogue, and what stands in it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Phrase {
    id: &'static str,
    with: Vec<(&'static str, Arg)>,
}

/// What stands in a sentence under a name.
#[derive(Clone, Debug, PartialEq)]
pub enum Arg {
    /// A name that a person wrote, or a quantity as `units` says it.
    Text(String),
    /// A word of the trade's own lists (`nouns`), that a sentence may choose by.
    Word(String),
    /// How something is known, that a sentence may choose by.
    Basis(Basis),
    /// Codes of sources.
    Sources(Vec<Id>),
    /// A plain number, that a sentence may choose by.
    Number(f64),
    /// A number as it is printed, with the line that it is from.
    Printed(Token),
    /// Something that has words of its own.
    Phrase(Phrase),
}

impl Phrase {
    /// A sentence by its id; `phrase!` names what stands in it.
    #[must_use]
    pub const fn new(id: &'static str) -> Self {
        Self {
            id,
            with: Vec::new(),
        }
    }

    /// Nothing to say.
    #[must_use]
    pub const fn none() -> Self {
        Self::new("")
    }

    /// The same with something in it.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl Said) -> Self {
        self.with.push((name, value.said()));
        self
    }

    /// Its id in the catalogue; empty where nothing is said.
    #[must_use]
    pub const fn id(&self) -> &'static str {
        self.id
    }

    /// Whether nothing is said.
    #[must_use]
    pub const fn is_none(&self) -> bool {
        self.id.is_empty()
    }

    /// What stands in it, by name.
    pub fn args(&self) -> impl Iterator<Item = (&'static str, &Arg)> {
        self.with.iter().map(|(name, arg)| (*name, arg))
    }

    /// The codes of the sources that it names.
    pub fn sources(&self) -> impl Iterator<Item = &Id> {
        self.with.iter().flat_map(|(_, arg)| match arg {
            Arg::Sources(codes) => codes.as_slice(),
            _ => &[],
        })
    }

    /// Whether it says that something is known so.
    #[must_use]
    pub fn rests_on(&self, basis: Basis) -> bool {
        self.with.iter().any(|(_, arg)| *arg == Arg::Basis(basis))
    }
}

/// What can stand in a sentence.
pub trait Said {
    /// As it stands there.
    fn said(&self) -> Arg;
}

impl<T: Said + ?Sized> Said for &T {
    fn said(&self) -> Arg {
        (**self).said()
    }
}

impl Said for str {
    fn said(&self) -> Arg {
        Arg::Text(self.to_owned())
    }
}

impl Said for String {
    fn said(&self) -> Arg {
        Arg::Text(self.clone())
    }
}

impl Said for Phrase {
    fn said(&self) -> Arg {
        Arg::Phrase(self.clone())
    }
}

impl Said for Arg {
    fn said(&self) -> Arg {
        self.clone()
    }
}

impl Said for Basis {
    fn said(&self) -> Arg {
        Arg::Basis(*self)
    }
}

impl Said for [Id] {
    fn said(&self) -> Arg {
        Arg::Sources(self.to_vec())
    }
}

impl Said for Vec<Id> {
    fn said(&self) -> Arg {
        self.as_slice().said()
    }
}

/// `aluminium 3 L`.
impl Said for Pot {
    fn said(&self) -> Arg {
        let litres = say::plain_significant(self.capacity.in_litres(), 3);
        let material = Arg::Word(self.material.clone());
        Arg::Phrase(phrase!("pot-name", material = material, litres = litres))
    }
}

impl Said for f64 {
    fn said(&self) -> Arg {
        Arg::Number(*self)
    }
}

impl Said for u32 {
    fn said(&self) -> Arg {
        Arg::Number(f64::from(*self))
    }
}

impl Said for usize {
    fn said(&self) -> Arg {
        // Counts of things in a camp kitchen: far below where a number of this kind gets gaps.
        Arg::Number(*self as f64)
    }
}

/// Words of `nouns`.
macro_rules! words {
    ($($name:ty)+) => {
        $(impl Said for $name {
            fn said(&self) -> Arg {
                Arg::Word(self.to_string())
            }
        })+
    };
}

words!(Arrival Family FuelKind Kind Meal Screen Treatment Verdict Washing WaterFrom Wind);

/// A [`Phrase`] by its id, with what stands in it by name: `phrase!("line-fuel-at", camp = name)`.
macro_rules! phrase {
    ($id:literal $(, $name:ident = $value:expr)* $(,)?) => {
        $crate::phrase::Phrase::new($id)$(.with(stringify!($name), &$value))*
    };
}
pub(crate) use phrase;
