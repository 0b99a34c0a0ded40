//! A document as a tagged PDF.

use crate::diag::Problem;

/// A finished PDF file.
#[derive(Clone, Debug)]
pub struct Pdf {
    /// The file.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// What a person should look at: characters that the faces do not hold.
    pub warnings: Vec<Problem>,
}
