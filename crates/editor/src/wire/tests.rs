//! The page's types, written from these.

use std::any::TypeId;
use std::collections::{BTreeMap, BTreeSet};

use ts_rs::{Config, TS, TypeVisitor};

use super::*;

fn path() -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/src/api/types.ts")
}

/// Every type that is written of, with all that it is made of.
struct Types {
    config: Config,
    known: BTreeSet<TypeId>,
    /// By name, since a type does not tell of what it is made in a lasting order.
    texts: BTreeMap<String, String>,
}

impl TypeVisitor for Types {
    fn visit<T: TS + 'static + ?Sized>(&mut self) {
        // Numbers, lists and their kin have no name of their own.
        if T::output_path().is_none() || !self.known.insert(TypeId::of::<T>()) {
            return;
        }
        let docs = T::docs().map_or_else(String::new, |docs| format!("{}\n", docs.trim()));
        let text = format!("\n{docs}export {}\n", T::decl(&self.config));
        self.texts.insert(T::ident(&self.config), text);
        T::visit_dependencies(self);
    }
}

macro_rules! visit {
    ($types:ident: $($name:ident),* $(,)?) => {
        $($types.visit::<$name>();)*
    };
}

/// What is asked and answered, and from there every type.
fn types() -> String {
    let mut types = Types {
        // Counts and sizes are all far below 2^53.
        config: Config::new().with_large_int("number"),
        known: BTreeSet::new(),
        texts: BTreeMap::new(),
    };
    visit!(
        types: Shelf, NewRequest, ImportRequest, RenameRequest, Named, WorkshopView,
        WorkshopRequest, WorkshopEdited, View, EditRequest, Edited, TakeRequest, TextRequest,
        TextAnswer, Kept, Spot, Event, Refusal,
    );
    let head = "// Generated from crates/editor/src/wire by its test; not written by hand.\n";
    let mut text = String::from(head);
    text.extend(types.texts.into_values());
    text.retain(|c| c != '\r');
    text
}

/// `RINGWRIGHT_WRITE_TYPES=1 cargo test -p editor types` writes the file.
#[test]
fn the_pages_types_are_those_of_the_server() {
    let fresh = types();
    if std::env::var_os("RINGWRIGHT_WRITE_TYPES").is_some() {
        std::fs::create_dir_all(path().parent().unwrap()).unwrap();
        std::fs::write(path(), &fresh).unwrap();
        let index = path().with_file_name("index.ts");
        if !index.exists() {
            std::fs::write(index, "export type * from \"./types\";\n").unwrap();
        }
    }
    let kept = std::fs::read_to_string(path()).unwrap_or_default();
    assert!(
        kept == fresh,
        "web/src/api/types.ts is stale: RINGWRIGHT_WRITE_TYPES=1 cargo test -p editor types"
    );
}
