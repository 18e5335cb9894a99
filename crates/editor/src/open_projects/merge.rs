//! Edits that were made on an older text than the one that now stands.

use toml_edit::{DocumentMut, Item};

use crate::wire::Edit;
use files::key::{KeyPath, Step};

/// Can the edits be made on `now` as they were meant on `base`? Only if they give
/// settings, and those read the same in both.
pub fn commute(base: &str, now: &str, edits: &[Edit]) -> bool {
    let (Ok(base), Ok(now)) = (base.parse::<DocumentMut>(), now.parse::<DocumentMut>()) else {
        return false;
    };
    lists(base.as_item()) == lists(now.as_item())
        && edits.iter().all(|edit| match edit {
            Edit::Set { path, .. } => look(base.as_item(), path) == look(now.as_item(), path),
            _ => false,
        })
}

/// How long every list of tables and every list of points is: an index means the same
/// only while these are equal.
fn lists(item: &Item) -> String {
    let mut out = String::new();
    let mut put = |key: &str, item: &Item| {
        let length = match item {
            Item::ArrayOfTables(tables) => tables.len(),
            Item::Value(value) => value.as_array().map_or(0, toml_edit::Array::len),
            _ => 0,
        };
        out.push_str(&format!("{key}{length};"));
    };
    let Some(table) = item.as_table_like() else {
        return out;
    };
    for (key, item) in table.iter() {
        match item {
            Item::ArrayOfTables(tables) => {
                put(key, item);
                for (i, table) in tables.iter().enumerate() {
                    for (inner, item) in table.iter() {
                        if matches!(item, Item::ArrayOfTables(_)) || inner == "ring" {
                            put(&format!("{key}{i}.{inner}"), item);
                        }
                    }
                }
            }
            Item::Table(table) => {
                for (inner, item) in table.iter().filter(|(_, i)| i.is_array()) {
                    put(&format!("{key}.{inner}"), item);
                }
            }
            _ => {}
        }
    }
    out
}

fn look(item: &Item, path: &KeyPath) -> Option<String> {
    let mut at = item;
    let steps = path.steps();
    let mut steps = steps.iter();
    while let Some(step) = steps.next() {
        at = match step {
            Step::Key(key) => at.as_table_like()?.get(key)?,
            Step::At(i) => match at {
                Item::ArrayOfTables(tables) => {
                    let table = tables.get(*i)?;
                    let Some(Step::Key(key)) = steps.next() else {
                        return Some(table.to_string());
                    };
                    table.get(key)?
                }
                // Within a list of values the whole list is compared.
                other => return Some(other.to_string().trim().to_string()),
            },
            Step::Real(_) => return Some(at.to_string().trim().to_string()),
        };
    }
    Some(at.as_value().map_or_else(
        || at.to_string(),
        |value| {
            let mut value = value.clone();
            value.decor_mut().clear();
            value.to_string()
        },
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wire::Words;
    use files::key;

    const BASE: &str = "title = \"a\"\n[form]\nfloor = 8\nouter = [[0, 1], [2, 3]]\n\
        [[section]]\nname = \"x\"\nstock = 19\n[[section.band]]\nreach = 30\n";

    fn set(path: KeyPath) -> [Edit; 1] {
        [Edit::Set {
            path,
            value: Words::Number(1.0),
        }]
    }

    #[test]
    fn edits_of_different_settings_go_together() {
        let now = BASE.replace("floor = 8", "floor = 9 # thicker");
        assert!(commute(BASE, &now, &set(key::section(0).band(0).reach())));
        assert!(commute(BASE, &now, &set(key::project().title())));
        assert!(!commute(BASE, &now, &set(key::form().floor())));
        // A comment is no other value.
        assert!(commute(
            BASE,
            &BASE.replace("floor = 8", "floor = 8 # c"),
            &set(key::form().floor())
        ));
    }

    #[test]
    fn edits_do_not_go_together_where_a_list_has_changed() {
        let now = BASE.replace("[2, 3]", "[1, 2], [2, 3]");
        assert!(!commute(
            BASE,
            &now,
            &set(key::form().outer().entry(1).entry(0))
        ));
        assert!(!commute(BASE, &now, &set(key::project().title())));
        let remove = [Edit::Remove {
            path: key::form().outer().entry(1),
        }];
        assert!(!commute(BASE, BASE, &remove));
    }
}
