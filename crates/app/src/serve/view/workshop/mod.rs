//! The workshop's settings for the page.

mod holding;
mod settings;

use files::units::Unit;

pub use holding::holding;
use settings::settings;

use super::blanks::Sheet;
use super::page_unit;
use crate::serve::desk::Shop;
use crate::serve::wire::{Group, Origin, WorkshopView};
use files::edit::{Ground, Units};

/// What edits of the workshop have to know.
pub fn workshop_ground(shop: &Shop, page: Unit) -> Ground {
    Ground {
        units: Units {
            page,
            file: shop.workshop.unit,
        },
        workshop: true,
        sections: Vec::new(),
    }
}

/// The workshop's view.
pub fn workshop_view(shop: &Shop, unit: Unit) -> WorkshopView {
    let mut sheet = Sheet::new(unit);
    let given = |path: &str| {
        // Once a saw is listed, all that are used are.
        let key = if path.starts_with("saw[") {
            "saw"
        } else {
            path
        };
        if shop.workshop.gives(key) {
            Origin::Workshop
        } else {
            Origin::Default
        }
    };
    let mut groups = Vec::new();
    for (title, settings) in settings(&shop.workshop) {
        for setting in &settings {
            setting.put(&mut sheet, given(&setting.path));
        }
        groups.push(Group {
            title,
            paths: settings.into_iter().map(|s| s.path).collect(),
        });
    }
    WorkshopView {
        version: shop.version.clone(),
        unit: page_unit(unit),
        blanks: sheet.blanks,
        groups,
        problems: shop.problems.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use files::edit::{Path, of_workshop};

    const EMPTY: &str = "ringwright = 1\nunit = \"mm\"\n";

    /// Keys of the workshop file as docs/files.md lists them under "The rest".
    fn documented() -> Vec<String> {
        let text = include_str!("../../../../../../docs/files.md");
        let rest = text.split("### The rest").nth(1).unwrap_or_default();
        let mut table = String::new();
        let mut keys = Vec::new();
        for row in rest.lines().filter(|l| l.starts_with("| ")) {
            let cells: Vec<&str> = row.split('|').map(|c| c.trim().trim_matches('`')).collect();
            let [_, of, key, ..] = cells.as_slice() else {
                continue;
            };
            match *of {
                "" => {}
                "table" => continue,
                "at the top" => table.clear(),
                named => table = format!("{}.", named.trim_matches(['[', ']'])),
            }
            if key.bytes().all(|b| b.is_ascii_lowercase() || b == b'_') && !key.is_empty() {
                keys.push(format!("{table}{key}"));
            }
        }
        keys
    }

    #[test]
    fn every_documented_key_is_a_blank_that_the_file_takes() {
        let shop = Shop::from_text(EMPTY);
        let keys = documented();
        assert!(keys.len() > 55, "{} keys found: {keys:?}", keys.len());
        for unit in [Unit::Mm, Unit::Inch] {
            let view = workshop_view(&shop, unit);
            for key in &keys {
                let blank = view.blanks.get(key);
                assert!(blank.is_some(), "no blank for {key}");
                let kind = Path::parse(key).and_then(|p| of_workshop(&p));
                assert!(kind.is_some(), "no kind for {key}");
                let listed = view.groups.iter().filter(|g| g.paths.contains(key)).count();
                assert_eq!(listed, 1, "{key}");
            }
        }
    }

    #[test]
    fn an_inch_page_shows_no_metric_unit() {
        let view = workshop_view(&Shop::from_text(EMPTY), Unit::Inch);
        for (path, blank) in &view.blanks {
            assert!(
                !["mm", "°C", "N", "ml", "g/m²"].contains(&blank.unit.as_str()),
                "{path} in {}",
                blank.unit
            );
        }
    }
}
