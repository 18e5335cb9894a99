//! The shell lines of the Markdown texts.

/// A shell line of a text.
#[derive(Debug, PartialEq, Eq)]
pub struct Line {
    /// Where it stands.
    pub place: String,
    /// The command without its comment.
    pub command: String,
    /// The exit code that the text promises with `# exit N`; otherwise 0.
    pub exit: i32,
}

/// The lines of `sh` blocks that start `cargo` or `ringwright`, in their order.
pub fn commands(path: &str, text: &str) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut inside = false;
    for (number, line) in text.lines().enumerate() {
        let line = line.trim();
        if let Some(language) = line.strip_prefix("```") {
            inside = !inside && matches!(language.trim(), "sh" | "bash" | "shell");
            continue;
        }
        let line = line.strip_prefix("$ ").unwrap_or(line);
        let program = line.split_whitespace().next();
        if !inside || !matches!(program, Some("cargo" | "ringwright")) {
            continue;
        }
        let (command, comment) = line.split_once(" # ").unwrap_or((line, ""));
        let exit = comment
            .trim()
            .strip_prefix("exit ")
            .and_then(|code| code.trim().parse().ok());
        lines.push(Line {
            place: format!("{path}:{}", number + 1),
            command: command.trim().to_owned(),
            exit: exit.unwrap_or(0),
        });
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shell_lines_are_found_with_the_exit_they_promise() {
        let text = "```sh\n$ cargo xtask start\n# a remark\nringwright check bad.toml   # exit 2\n\
            ls\n```\ncargo prose\n```toml\ncargo = 1\n```\n";
        let found = commands("README.md", text);
        let line = |number: usize, command: &str, exit| Line {
            place: format!("README.md:{number}"),
            command: command.to_owned(),
            exit,
        };
        assert_eq!(
            found,
            [
                line(2, "cargo xtask start", 0),
                line(4, "ringwright check bad.toml", 2)
            ]
        );
    }
}
