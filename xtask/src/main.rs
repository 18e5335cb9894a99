//! Set-up and checks.
fn main() {}
