//! A file's text, changed by key path with its comments and layout kept.
//!
//! ```text
//!   text ─► toml_edit ─► Edit by Edit (Path, Kind, the maker's words) ─► text
//! ```

mod asked;
mod change;
mod kind;
mod list;
mod path;
mod place;
mod quantity;
mod rings;
mod value;

pub use asked::{Edit, Refused, Words};
pub use change::{Ground, SectionGround, apply};
pub use kind::{Kind, of_project as kind_of, of_workshop};
pub use path::{Path, Step};
pub use quantity::Quantity;
pub use value::Units;
