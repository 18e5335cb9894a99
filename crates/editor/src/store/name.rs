//! Names of projects: one file of the folder, nothing else.

use super::StoreError;

/// Longest name, bytes.
const LONGEST: usize = 80;

/// Names that some systems keep for devices.
const DEVICES: [&str; 6] = ["con", "prn", "aux", "nul", "com", "lpt"];

/// May a project be called so? A name is letters, digits, spaces and `-_()'&,+` with
/// dots between; it is no path, no hidden file and not the workshop's.
pub fn is_name(name: &str) -> bool {
    let good = |c: char| c.is_alphanumeric() || " -_()'&,+.".contains(c);
    let stem = name.split('.').next().unwrap_or("").to_lowercase();
    let device = DEVICES.iter().any(|d| {
        stem.strip_prefix(d).is_some_and(|rest| {
            rest.is_empty()
                || (rest.len() == 1 && d.len() == 3 && rest.bytes().all(|b| b.is_ascii_digit()))
        })
    });
    !name.is_empty()
        && name.len() <= LONGEST
        && name.chars().all(good)
        && !name.starts_with(['.', ' '])
        && !name.ends_with(['.', ' '])
        && !name.contains("..")
        && !device
        && !name.eq_ignore_ascii_case("workshop")
}

/// A name made from what the maker calls a piece.
///
/// `Tern vase, no. 2` gives `tern-vase-no-2`.
pub fn name_from(title: &str) -> String {
    let mut out = String::new();
    for c in title.chars() {
        if out.len() > 60 {
            break;
        }
        if c.is_alphanumeric() {
            out.extend(c.to_lowercase());
        } else if !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
    }
    let out = out.trim_end_matches('-').to_string();
    if is_name(&out) { out } else { "piece".into() }
}

/// The wished name, or the first like it that is not taken: `bowl`, `bowl-2`, `bowl-3`…
///
/// # Errors
/// No project may be called so, or far too many are.
pub fn free_name(wished: &str, taken: impl Fn(&str) -> bool) -> Result<String, StoreError> {
    if !is_name(wished) {
        return Err(StoreError::new("a project cannot be called so"));
    }
    let stem: String = wished.chars().take(60).collect();
    std::iter::once(wished.to_string())
        .chain((2..10_000).map(|n| format!("{}-{n}", stem.trim_end_matches(['.', ' ']))))
        .find(|n| is_name(n) && !taken(n))
        .ok_or_else(|| StoreError::new("there are too many projects of that name"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_one_file_of_the_folder() {
        for good in ["heron-bowl", "Tern vase (2)", "ä", "a.b", "Bowl, no 3"] {
            assert!(is_name(good), "{good}");
        }
        for bad in [
            "",
            ".",
            "..",
            "../x",
            "a/b",
            "a\\b",
            "/etc/passwd",
            "a\0b",
            ".hidden",
            "a.",
            " a",
            "workshop",
            "WORKSHOP",
            "con",
            "NUL.x",
            "com1",
            "a\nb",
            "a:b",
            "a..b",
            "%2e%2e",
            "a*",
        ] {
            assert!(!is_name(bad), "{bad:?}");
        }
        assert!(!is_name(&"a".repeat(81)));
    }

    #[test]
    fn a_title_gives_a_name() {
        assert_eq!(name_from("Tern vase, no. 2"), "tern-vase-no-2");
        assert_eq!(name_from("Workshop"), "piece");
        assert_eq!(name_from("///"), "piece");
        assert_eq!(name_from("../../etc"), "etc");
        assert!(is_name(&name_from(&"long ".repeat(100))));
    }
}
