//! Modules that use each other in a circle cannot be read, tested or moved one by one.

use std::collections::{BTreeMap, BTreeSet};

use crate::tree::File;

/// Folders whose modules must not form a circle, each with how its own code names it.
const FOLDERS: [(&str, &str); 6] = [
    ("crates/app/src/serve/", "crate::serve::"),
    ("crates/editor/src/", "crate::"),
    ("crates/piece/src/", "crate::"),
    ("crates/geometry/src/", "crate::"),
    ("crates/drawings/src/", "crate::"),
    ("crates/sheets/src/", "crate::"),
];

/// A sentence for each circle among the modules of a folder.
pub fn circles(files: &[File]) -> Vec<String> {
    let mut found = Vec::new();
    for (folder, name) in FOLDERS {
        let uses = uses(files, folder, name);
        for module in uses.keys() {
            if let Some(way) = back_to(module, &uses) {
                found.push(format!("{folder}: {}", way.join(" uses ")));
            }
        }
    }
    found
}

/// What each module of a folder uses of the others; tests may use what they like.
fn uses(files: &[File], folder: &str, name: &str) -> BTreeMap<String, BTreeSet<String>> {
    let mut all: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for file in files.iter().filter(|f| f.path.ends_with(".rs")) {
        let Some(inside) = file.path.strip_prefix(folder) else {
            continue;
        };
        let module = inside.split('/').next().unwrap_or(inside);
        let module = module.trim_end_matches(".rs").to_string();
        if matches!(module.as_str(), "lib" | "main" | "mod") {
            continue;
        }
        let code = file.text.split("#[cfg(test)]").next().unwrap_or_default();
        let used = all.entry(module.clone()).or_default();
        for rest in code.split(name).skip(1) {
            let other: String = rest
                .chars()
                .take_while(|c| c.is_ascii_alphanumeric() || *c == '_')
                .collect();
            if other != module {
                used.insert(other);
            }
        }
    }
    all
}

/// The shortest way from a module back to itself.
fn back_to(module: &str, uses: &BTreeMap<String, BTreeSet<String>>) -> Option<Vec<String>> {
    let mut ways = vec![vec![module.to_string()]];
    let mut seen = BTreeSet::new();
    while !ways.is_empty() {
        let mut longer = Vec::new();
        for way in &ways {
            for next in way
                .last()
                .and_then(|last| uses.get(last))
                .into_iter()
                .flatten()
            {
                let mut further = way.clone();
                further.push(next.clone());
                if next == module {
                    return Some(further);
                }
                if seen.insert(next.clone()) {
                    longer.push(further);
                }
            }
        }
        ways = longer;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shell::root;
    use crate::tree::files;

    #[test]
    fn no_module_uses_itself_by_way_of_others() {
        let found = circles(&files(&root()));
        assert!(found.is_empty(), "\n{}\n", found.join("\n"));
    }

    #[test]
    fn a_circle_is_told_and_a_chain_is_not() {
        let file = |path: &str, text: &str| File {
            path: format!("crates/piece/src/{path}"),
            text: text.into(),
        };
        let chain = [
            file("a.rs", "use crate::b::B;"),
            file("b/mod.rs", "use crate::c::C;"),
            file("c.rs", "#[cfg(test)]\nmod tests { use crate::a::A; }"),
        ];
        assert_eq!(circles(&chain), Vec::<String>::new());
        let mut circle = chain.to_vec();
        circle.push(file("c/d.rs", "use crate::a::A;"));
        let told = circles(&circle);
        assert_eq!(told.len(), 3, "{told:?}");
        assert!(told[0].ends_with("a uses b uses c uses a"), "{}", told[0]);
    }
}
