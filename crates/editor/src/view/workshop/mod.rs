//! The workshop's settings for the page.

use files::edit::{EditContext, Units};
use files::key;
use files::keys::{File, Setting, find};
use files::units::Unit;
use files::workshop::Workshop;
use piece::piece::Piece;

use super::blanks::{Sheet, origin};
use super::page_unit;
use crate::open_projects::Shop;
use crate::wire::{Group, WorkshopView};

/// What edits of the workshop have to know.
pub fn workshop_ground(shop: &Shop, page: Unit) -> EditContext {
    EditContext {
        units: Units {
            page,
            file: shop.workshop.unit,
        },
        file: File::Workshop,
        sections: Vec::new(),
    }
}

/// The workshop's view.
pub fn workshop_view(shop: &Shop, unit: Unit) -> WorkshopView {
    let mut sheet = Sheet::new(unit);
    let mut groups: Vec<Group> = Vec::new();
    let mut at_the_top = Vec::new();
    for setting in shown(&shop.workshop) {
        let (title, label) = named(&shop.workshop, &setting);
        sheet.setting(&setting, &label, origin(setting.by));
        let path = setting.path.to_string();
        match groups.iter_mut().find(|group| group.title == title) {
            _ if title.is_empty() => at_the_top.push(path),
            Some(group) => group.paths.push(path),
            None => groups.push(Group {
                title,
                paths: vec![path],
            }),
        }
    }
    // What stands in no table stands with what a project gets where it does not say.
    if let Some(last) = groups.last_mut() {
        last.paths.extend(at_the_top);
    }
    WorkshopView {
        version: shop.version.clone(),
        unit: page_unit(unit),
        blanks: sheet.blanks,
        groups,
        problems: shop.problems.clone(),
    }
}

/// The settings that the page shows: all but the file's own head.
fn shown(shop: &Workshop) -> impl Iterator<Item = Setting> {
    let head = [key::shop().ringwright(), key::shop().unit()];
    shop.settings().into_iter().filter(move |setting| {
        !head.contains(&setting.path) && find(File::Workshop, &setting.path).is_some()
    })
}

/// The title of a setting's group, which is its table's, and its label.
fn named(shop: &Workshop, setting: &Setting) -> (String, String) {
    let group = setting.path.parent();
    let saw = shop.saws.iter().enumerate();
    let saw = saw
        .map(|(at, saw)| (key::shop().saw(at), saw))
        .find(|(at, _)| at.path() == group);
    if let Some((at, saw)) = saw {
        let label = if setting.path == at.name() {
            setting.label.to_string()
        } else {
            format!("{} of {}", setting.label, saw.name)
        };
        return (saw.name.clone(), label);
    }
    let title = find(File::Workshop, &group).map_or("", |found| found.key.label);
    (capital(title), setting.label.to_string())
}

fn capital(words: &str) -> String {
    let mut chars = words.chars();
    let first = chars.next().map(|c| c.to_uppercase().to_string());
    first.unwrap_or_default() + chars.as_str()
}

/// A project's own blanks of what holds its piece, from whoever says so.
pub fn holding(sheet: &mut Sheet, piece: &Piece) {
    let shop = &piece.workshop;
    let mut held = shop.holding.clone();
    if held.thickness.value.is_none() {
        held.thickness = shop.sled.waste_block.map(Some);
    }
    for setting in held.settings() {
        sheet.setting(&setting, &setting.label, origin(setting.by));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use files::keys::{File, KeyTable, Quantity};

    const EMPTY: &str = "ringwright = 1\nunit = \"mm\"\n";

    /// The path of every key that holds a value, by the table of keys; saws are a list.
    fn keys(table: &'static KeyTable, at: &str, out: &mut Vec<String>) {
        for key in table.keys_of(File::Workshop) {
            let path = format!("{at}{}", key.name);
            match key.quantity {
                Quantity::Table(below) => keys(below, &format!("{path}."), out),
                Quantity::Tables(..) => {}
                _ => out.push(path),
            }
        }
    }

    #[test]
    fn every_key_is_a_blank_once() {
        let shop = Shop::from_text(EMPTY);
        let mut all = Vec::new();
        keys(File::Workshop.table(), "", &mut all);
        // The file's own head is no setting of the shop.
        all.retain(|key| !matches!(key.as_str(), "ringwright" | "unit"));
        assert!(all.len() > 55, "{} keys found: {all:?}", all.len());
        for unit in [Unit::Mm, Unit::Inch] {
            let view = workshop_view(&shop, unit);
            for key in &all {
                let blank = view.blanks.get(key);
                assert!(blank.is_some(), "no blank for {key}");
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
