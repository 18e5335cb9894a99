//! The ringwright command.
fn main() {}
