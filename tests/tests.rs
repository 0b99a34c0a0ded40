//! All tests from outside, in one program so that it links once.
//! Each module names what it holds in its first line.

#![allow(
    clippy::disallowed_methods,
    reason = "tests read the project's files and run real tools"
)]

mod assign;
mod bad;
mod beside;
mod boil_trial;
mod canister;
mod charts;
mod check;
mod circles;
mod compose;
mod content;
mod course;
mod field;
mod group;
mod issued;
mod layering;
mod lesson_plan;
mod list;
mod markdown;
mod messages;
mod overlay;
mod own_words;
mod packet;
mod papers;
mod physics;
mod physics_docs;
mod plan;
mod plausible;
mod practice;
mod promises;
mod pseudo;
mod render_docx;
mod render_html;
mod render_pdf;
mod says;
mod season;
mod shelf;
mod skills;
mod spanish;
mod stove_boil;
mod support;
mod typed;
mod unpack;
mod verify;
mod words;
mod worksheet;
mod write;
