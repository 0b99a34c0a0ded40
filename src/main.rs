//! Hands over to the commands.

fn main() {}
