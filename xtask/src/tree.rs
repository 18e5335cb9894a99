//! The texts of the checkout.

use std::path::Path;

/// A file of the checkout.
#[derive(Clone)]
pub struct File {
    /// Its path in the checkout, with `/`.
    pub path: String,
    /// Its text.
    pub text: String,
}

/// Every text file below `root`, ordered, but for what is built or downloaded.
pub fn files(root: &Path) -> Vec<File> {
    let mut files = Vec::new();
    let mut folders = vec![root.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for path in std::fs::read_dir(&folder)
            .into_iter()
            .flatten()
            .flatten()
            .map(|e| e.path())
        {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            let built = ["target", "out", "node_modules", "dist", ".git"].contains(&&*name);
            if path.is_dir() && !built {
                folders.push(path);
            } else if path.is_file()
                && let Ok(text) = std::fs::read_to_string(&path)
            {
                files.push(File {
                    path: shown(root, &path),
                    text,
                });
            }
        }
    }
    files.sort_by(|a, b| a.path.cmp(&b.path));
    files
}

fn shown(root: &Path, path: &Path) -> String {
    let parts: Vec<_> = path.strip_prefix(root).unwrap_or(path).iter().collect();
    parts.join("/".as_ref()).to_string_lossy().into_owned()
}
