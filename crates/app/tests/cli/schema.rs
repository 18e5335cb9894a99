//! `ringwright schema`.

use serde_json::Value;

use crate::support::ringwright;

#[test]
fn each_file_has_its_schema_the_same_each_time() {
    for (which, key) in [("project", "form"), ("workshop", "lathe")] {
        let first = ringwright(&["schema", which]);
        assert!(first.status.success());
        let schema: Value = serde_json::from_slice(&first.stdout).unwrap();
        assert!(schema["properties"][key]["properties"].is_object());
        assert_eq!(
            schema["$schema"],
            "https://json-schema.org/draft/2020-12/schema"
        );
        assert_eq!(first.stdout, ringwright(&["schema", which]).stdout);
    }
}

#[test]
fn another_file_is_refused_by_name() {
    let refused = ringwright(&["schema", "bowl"]);
    assert_eq!(refused.status.code(), Some(2));
    let said = String::from_utf8_lossy(&refused.stderr).into_owned();
    assert!(said.contains("project") && said.contains("workshop"));
}
