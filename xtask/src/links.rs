//! The links of the Markdown texts lead somewhere.

use std::path::Path;

/// A sentence for each link into the checkout that leads nowhere: a missing
/// file, or a missing heading of the same text.
pub fn dead_links(root: &Path, path: &str, text: &str) -> Vec<String> {
    let prose = without_code(text);
    let headings: Vec<String> = prose
        .iter()
        .filter(|(_, line)| line.starts_with('#'))
        .map(|(_, line)| anchor(line))
        .collect();
    let folder = root
        .join(path)
        .parent()
        .map(Path::to_path_buf)
        .unwrap_or_default();
    let mut dead = Vec::new();
    for (number, line) in &prose {
        for link in line
            .split("](")
            .skip(1)
            .filter_map(|rest| rest.split(')').next())
        {
            let link = link.split_whitespace().next().unwrap_or("");
            if link.contains("://") || link.starts_with("mailto:") {
                continue;
            }
            let (file, heading) = link.split_once('#').unwrap_or((link, ""));
            let missing = if file.is_empty() {
                !headings.contains(&heading.to_owned())
            } else {
                !folder.join(file).exists()
            };
            if missing {
                dead.push(format!("{path}:{number}: {link} leads nowhere"));
            }
        }
    }
    dead
}

/// Numbered lines outside of code blocks, inline code blanked.
fn without_code(text: &str) -> Vec<(usize, String)> {
    let mut inside = false;
    let mut prose = Vec::new();
    for (number, line) in text.lines().enumerate() {
        if line.trim_start().starts_with("```") {
            inside = !inside;
        } else if !inside {
            let spoken: Vec<&str> = line.split('`').step_by(2).collect();
            let spoken = if line.starts_with('#') {
                line.replace('`', "")
            } else {
                spoken.join("")
            };
            prose.push((number + 1, spoken));
        }
    }
    prose
}

/// A heading as links name it: lower case, words joined by hyphens.
fn anchor(heading: &str) -> String {
    heading
        .trim_start_matches('#')
        .trim()
        .to_lowercase()
        .chars()
        .filter(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_'))
        .map(|c| if c == ' ' { '-' } else { c })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shell::root;
    use crate::tree::files;

    #[test]
    fn every_link_leads_somewhere() {
        let root = root();
        let mut texts = files(&root);
        texts.retain(|file| file.path.ends_with(".md"));
        assert!(texts.iter().any(|file| file.path == "README.md"));
        let dead: Vec<String> = texts
            .iter()
            .flat_map(|file| dead_links(&root, &file.path, &file.text))
            .collect();
        assert!(dead.is_empty(), "\n{}", dead.join("\n"));
    }

    #[test]
    fn a_link_that_leads_nowhere_is_reported() {
        let text = "# The `saw`\n[a](xtask/Cargo.toml) [b](#the-saw) [c](no/file.md)\n\
            [d](#no-heading) [e](https://example.org/x)\n```\n[f](nowhere)\n```\n`[g](nowhere)`\n";
        assert_eq!(
            dead_links(&root(), "README.md", text),
            [
                "README.md:2: no/file.md leads nowhere",
                "README.md:3: #no-heading leads nowhere"
            ]
        );
    }
}
