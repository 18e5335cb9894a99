//! Several files as one, in the ZIP format (PKWARE's APPNOTE 6.3, sections 4.3 and 4.4;
//! from memory, checked by unpacking).

use std::io::Write;

/// Packs files. Names are plain words of this program; there are far fewer than 65,535.
pub fn zip(files: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut out = Vec::new();
    let mut directory = Vec::new();
    let mut count: u16 = 0;
    for (name, bytes) in files {
        let packed = deflated(bytes);
        let mut sum = flate2::Crc::new();
        sum.update(bytes);
        let (Ok(at), Ok(long), Ok(short), Ok(named)) = (
            u32::try_from(out.len()),
            u32::try_from(bytes.len()),
            u32::try_from(packed.len()),
            u16::try_from(name.len()),
        ) else {
            continue;
        };
        // Version 2.0, names in UTF-8, deflated, 1 January 1980: the same files, the same bytes.
        let mut common = Vec::with_capacity(26);
        for field in [20u16, 1 << 11, 8, 0, 0x21] {
            common.extend(field.to_le_bytes());
        }
        for field in [sum.sum(), short, long] {
            common.extend(field.to_le_bytes());
        }
        common.extend(named.to_le_bytes());
        common.extend(0u16.to_le_bytes());
        out.extend(b"PK\x03\x04");
        out.extend(&common);
        out.extend(name.as_bytes());
        out.extend(&packed);
        directory.extend(b"PK\x01\x02");
        directory.extend(20u16.to_le_bytes());
        directory.extend(&common);
        // No comment, first disk, no attributes.
        directory.extend([0u8; 10]);
        directory.extend(at.to_le_bytes());
        directory.extend(name.as_bytes());
        count = count.saturating_add(1);
    }
    let (at, long) = (out.len() as u32, directory.len() as u32);
    out.extend(&directory);
    out.extend(b"PK\x05\x06");
    for field in [0u16, 0, count, count] {
        out.extend(field.to_le_bytes());
    }
    for field in [long, at] {
        out.extend(field.to_le_bytes());
    }
    out.extend(0u16.to_le_bytes());
    out
}

fn deflated(bytes: &[u8]) -> Vec<u8> {
    let mut encoder =
        flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::default());
    // Writing to memory cannot fail.
    let _ = encoder.write_all(bytes);
    encoder.finish().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Python's zipfile shares no code with this one.
    #[test]
    fn another_program_unpacks_it() {
        let files = [
            ("a.svg".to_string(), b"<svg/>".repeat(100)),
            ("ring-1.dxf".to_string(), Vec::new()),
        ];
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.zip");
        std::fs::write(&path, zip(&files)).unwrap();
        let script = "import sys,zipfile\nz=zipfile.ZipFile(sys.argv[1])\n\
            assert z.testzip() is None\nprint([(i.filename,i.file_size) for i in z.infolist()])";
        let out = std::process::Command::new("python3")
            .args(["-c", script])
            .arg(&path)
            .output();
        // Where there is no Python, the bytes' frame at least is right.
        let Ok(out) = out else {
            assert!(zip(&files).starts_with(b"PK\x03\x04"));
            return;
        };
        let said = String::from_utf8_lossy(&out.stdout).into_owned();
        assert_eq!(
            said.trim(),
            "[('a.svg', 600), ('ring-1.dxf', 0)]",
            "{out:?}"
        );
    }
}
