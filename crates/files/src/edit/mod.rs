//! A file's text, changed by key path with its comments and layout kept.
//!
//! ```text
//!   text ─► toml_edit ─► Edit by Edit (KeyPath, Quantity, the maker's words) ─► text
//! ```

mod asked;
mod change;
mod identify;
mod list;
mod place;
mod rings;
mod value;
mod whole;

pub use asked::{Edit, Refused, Words};
pub use change::{EditContext, SectionContext, apply};
pub use identify::identify;
pub use value::Units;
pub use whole::{WholeForm, point_by_point};
