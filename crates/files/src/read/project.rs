//! The project file.

use super::{form, holding, read_file, section, woods};
use crate::design::{Design, RingsSpec, SectionSpec};
use crate::reader::Table;
use crate::report::{Places, Problem};

/// Most sections in a project.
const MOST_SECTIONS: usize = 50;
/// Most rings in a project. A thousand at a quarter inch is a piece as high as a house.
const MOST_RINGS: usize = 1000;

/// Keys of the other file that are sometimes written into this one.
const IN_WORKSHOP: [(&str, &str); 8] = [
    ("saw", "saws belong in the workshop file"),
    (
        "stock",
        "write stock in a section; boards in stock belong in the workshop file",
    ),
    ("allowances", "allowances belong in the workshop file"),
    ("lathe", "the lathe belongs in the workshop file"),
    ("climate", "the climate belongs in the workshop file"),
    ("sled", "the sled belongs in the workshop file"),
    ("glue", "glue belongs in the workshop file"),
    ("defaults", "defaults belong in the workshop file"),
];

/// Reads a project file. `name` is what the piece is called if the file does not say.
///
/// Every problem of the file is in the last part, in the order of the file; there
/// is a design only if there was none. Never panics, whatever the text.
///
/// ```
/// use files::read::read_design;
/// let (design, _, problems) = read_design("bowl", "ringwright = 1\nunit = \"cm\"\n");
/// assert!(design.is_none());
/// assert!(problems.iter().any(|p| p.remedy == "write \"mm\" or \"inch\""));
/// ```
pub fn read_design(name: &str, text: &str) -> (Option<Design>, Places, Vec<Problem>) {
    read_file(text, "project", |top| design(name, top))
}

fn design(name: &str, top: &Table<'_>) -> Design {
    let title = top.text("title").unwrap_or_else(|| name.to_string());
    let notes = top.text("notes");
    let own_woods = top.get("woods").and_then(|item| item.table());
    let woods = own_woods.map(|t| woods::read(&t)).unwrap_or_default();
    let form = form::read(top);
    let holding = top.get("holding").and_then(|item| item.table());
    let holding = holding.map(|t| holding::of_project(&t)).unwrap_or_default();
    let tables = top.tables("section", MOST_SECTIONS);
    let sections: Vec<SectionSpec> = tables.iter().map(|t| section::read(t, &woods)).collect();
    top.need(
        "section",
        "a piece has one section at least",
        "add [[section]] with its rings below",
    );
    names_differ(&tables, &sections);
    let rings: usize = sections.iter().map(rings_given).sum();
    if rings > MOST_RINGS {
        top.trouble(
            "section",
            format!("{rings} rings in all are more than {MOST_RINGS}"),
            "take some out",
        );
    }
    top.finish(&IN_WORKSHOP);
    Design {
        title,
        unit: top.log.unit(),
        notes,
        form,
        woods,
        holding,
        sections,
    }
}

fn names_differ(tables: &[Table<'_>], sections: &[SectionSpec]) {
    for (at, section) in sections.iter().enumerate() {
        let earlier = sections[..at].iter().position(|s| s.name == section.name);
        if let (Some(earlier), Some(table)) = (earlier, tables.get(at)) {
            let (name, first, this) = (&section.name, earlier + 1, at + 1);
            table.trouble(
                "name",
                format!("sections {first} and {this} are both called {name}"),
                "give each section a name of its own",
            );
        }
    }
}

fn rings_given(section: &SectionSpec) -> usize {
    match &section.rings {
        RingsSpec::Auto { .. } => 0,
        RingsSpec::Count(count) => *count,
        RingsSpec::Listed(rings) => rings.iter().map(|r| r.repeat.unwrap_or(1)).sum(),
    }
}
