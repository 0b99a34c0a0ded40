//! All tests from outside, in one program so that it links once.
//! Each module names what it holds in its first line.

mod layering;
mod markdown;
mod physics;
mod physics_docs;
