//! The `tamis` program.

fn main() {}
