//! Several files as one.

use std::io::{Cursor, Write};

use zip::ZipWriter;
use zip::result::ZipResult;
use zip::write::SimpleFileOptions;

/// Packs files. The day in it is always the same one: the same files, the same bytes.
///
/// # Errors
/// More or larger files than the format can hold.
pub fn zip(files: &[(String, Vec<u8>)]) -> ZipResult<Vec<u8>> {
    let mut out = ZipWriter::new(Cursor::new(Vec::new()));
    let plain = SimpleFileOptions::default().last_modified_time(zip::DateTime::default());
    for (name, bytes) in files {
        out.start_file(name.as_str(), plain)?;
        out.write_all(bytes)?;
    }
    Ok(out.finish()?.into_inner())
}

#[cfg(test)]
mod tests {
    use std::io::Read;

    use super::*;

    #[test]
    fn files_come_out_as_they_went_in() {
        let files = [
            ("a.svg".to_string(), b"<svg/>".repeat(100)),
            ("ring-1.dxf".to_string(), Vec::new()),
        ];
        let packed = zip(&files).unwrap();
        assert_eq!(packed, zip(&files).unwrap());
        let mut again = zip::ZipArchive::new(Cursor::new(packed)).unwrap();
        for (name, bytes) in &files {
            let mut found = Vec::new();
            again
                .by_name(name)
                .unwrap()
                .read_to_end(&mut found)
                .unwrap();
            assert_eq!(&found, bytes);
        }
    }
}
