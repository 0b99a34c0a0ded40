//! A document to bytes, one file or folder a format.
//!
//! Every format reads the same [`crate::doc::Document`] and gives bytes (and
//! perhaps warnings); nothing here knows a trip, reads a file or writes one.

pub mod docx;
mod figures;
pub mod html;
mod markup;
pub mod pdf;
pub mod xlsx;
