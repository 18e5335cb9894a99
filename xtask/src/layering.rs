//! Which crate may use which: arrows point from left to right only.

use serde_json::Value;

/// Each crate and the workspace crates that it may use. A new crate is added here.
const ARROWS: &[(&str, &[&str])] = &[
    ("geometry", &[]),
    ("files", &["geometry"]),
    ("piece", &["files", "geometry"]),
    ("plan", &["piece", "files", "geometry"]),
    ("drawings", &["plan", "piece", "files", "geometry"]),
    (
        "sheets",
        &["drawings", "plan", "piece", "files", "geometry"],
    ),
    (
        "editor",
        &["drawings", "plan", "piece", "files", "geometry"],
    ),
    (
        "app",
        &[
            "editor", "sheets", "drawings", "plan", "piece", "files", "geometry",
        ],
    ),
    ("alike", &["drawings", "plan", "piece", "files", "geometry"]),
    ("xtask", &[]),
];

/// A sentence for each arrow of `cargo metadata --no-deps` that is not in the
/// table. Dev-dependencies are free: they reach no user.
///
/// # Errors
/// What is missing, when that is not the output of `cargo metadata`.
pub fn wrong_arrows(metadata: &Value) -> Result<Vec<String>, String> {
    let packages = metadata["packages"]
        .as_array()
        .ok_or("no packages in the metadata")?;
    let names: Vec<&str> = packages.iter().filter_map(|p| p["name"].as_str()).collect();
    let mut wrong = Vec::new();
    for package in packages {
        let name = package["name"].as_str().ok_or("a package without a name")?;
        let Some((_, allowed)) = ARROWS.iter().find(|(krate, _)| *krate == name) else {
            wrong.push(format!(
                "{name} has no place among the crates: give it one in xtask/src/layering.rs"
            ));
            continue;
        };
        let dependencies = package["dependencies"]
            .as_array()
            .ok_or("no dependencies")?;
        for dependency in dependencies.iter().filter(|d| d["kind"] != "dev") {
            let on = dependency["name"]
                .as_str()
                .ok_or("a dependency without a name")?;
            if names.contains(&on) && !allowed.contains(&on) {
                wrong.push(format!("{name} may not use {on}"));
            }
        }
    }
    Ok(wrong)
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;
    use crate::shell::{cargo, output};

    #[test]
    fn the_workspace_keeps_its_arrows() {
        let text = output(cargo(&["metadata", "--no-deps", "--format-version", "1"])).unwrap();
        let metadata: Value = serde_json::from_str(&text).unwrap();
        let members = metadata["workspace_members"].as_array().unwrap().len();
        assert!(members >= 7, "only {members} crates were read");
        assert_eq!(wrong_arrows(&metadata).unwrap(), Vec::<String>::new());
    }

    fn package(name: &str, dependencies: &[(&str, Option<&str>)]) -> Value {
        let dependencies: Vec<Value> = dependencies
            .iter()
            .map(|(name, kind)| json!({ "name": name, "kind": kind }))
            .collect();
        json!({ "name": name, "dependencies": dependencies })
    }

    #[test]
    fn an_arrow_to_the_left_is_reported() {
        let graph = json!({ "packages": [
            package("geometry", &[("glam", None), ("piece", None)]),
            package("piece", &[("geometry", None), ("plan", Some("build"))]),
            package("plan", &[("piece", None)]),
            package("xtask", &[("piece", None)]),
        ]});
        assert_eq!(
            wrong_arrows(&graph).unwrap(),
            [
                "geometry may not use piece",
                "piece may not use plan",
                "xtask may not use piece"
            ]
        );
    }

    #[test]
    fn tests_may_use_anything() {
        let graph = json!({ "packages": [
            package("geometry", &[("piece", Some("dev"))]),
            package("piece", &[("geometry", None)]),
        ]});
        assert_eq!(wrong_arrows(&graph).unwrap(), Vec::<String>::new());
    }

    #[test]
    fn a_crate_without_a_place_is_reported() {
        let graph = json!({ "packages": [package("helpers", &[])] });
        assert_eq!(wrong_arrows(&graph).unwrap().len(), 1);
        assert!(wrong_arrows(&json!({})).is_err());
    }
}
