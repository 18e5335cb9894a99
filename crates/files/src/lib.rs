//! The files a maker writes: what they want, what they have, and how both are read,
//! changed and written.
//!
//! ```text
//!   keys (every setting, declared once) ──► Design, Workshop, key paths, docs, schema
//!   text ──► reader (places, ranges, every problem) ──► Design, Workshop ──► write ──► text
//!     └────► edit (by key path, comments kept) ──► text
//! ```

// Same file, same bytes, on every machine. Tests may take what they compare with.
#![cfg_attr(not(test), deny(clippy::disallowed_methods))]

pub mod design;
pub mod edit;
pub mod key;
pub mod keys;
pub mod message;
pub mod read;
pub mod reader;
pub mod remedy;
pub mod report;
pub mod schema;
pub mod units;
pub mod wood;
pub mod workshop;
pub mod write;
