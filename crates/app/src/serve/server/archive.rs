//! Several files as one: made one after another, packed on the disk, sent from there.

use std::fs::File;
use std::io::{BufWriter, Seek, SeekFrom, Write};

use axum::body::Body;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::Response;
use piece::work::Cancel;
use tokio_util::io::ReaderStream;
use zip::ZipWriter;
use zip::result::ZipError;
use zip::write::SimpleFileOptions;

use super::answer::{broken, given_up, refuse};
use super::jobs::Job;
use super::papers::named;

/// Bytes read from the disk at once.
const CHUNK: usize = 64 << 10;

/// Why there is no archive.
#[derive(Debug)]
enum Unpacked {
    /// Nobody waits for it any more.
    GivenUp,
    /// The disk would not take it, or the format cannot hold it.
    Zip(ZipError),
}

impl<E: Into<ZipError>> From<E> for Unpacked {
    fn from(e: E) -> Self {
        Unpacked::Zip(e.into())
    }
}

/// Files to save as one, made by `files` on the threads of the job. Only one of them is
/// in memory at a time.
pub fn answer<I>(job: &Job, name: &str, files: impl FnOnce() -> I + Send) -> Response
where
    I: Iterator<Item = (String, Vec<u8>)>,
{
    let packed = job.spread(|| {
        let mut file = tempfile::tempfile()?;
        pack(files(), &mut file, &job.cancel)?;
        let length = file.seek(SeekFrom::End(0))?;
        file.seek(SeekFrom::Start(0))?;
        Ok((file, length))
    });
    match packed {
        Ok((file, length)) => sent(file, length, name),
        Err(Unpacked::GivenUp) => given_up(),
        Err(Unpacked::Zip(ZipError::Io(why))) => refuse(
            StatusCode::INSUFFICIENT_STORAGE,
            &format!("the archive could not be written: {why}"),
            "make room in the folder for temporary files, and try it once more",
        ),
        Err(Unpacked::Zip(_)) => broken(),
    }
}

fn sent(file: File, length: u64, name: &str) -> Response {
    let bytes = ReaderStream::with_capacity(tokio::fs::File::from_std(file), CHUNK);
    let mut response = Response::new(Body::from_stream(bytes));
    response
        .headers_mut()
        .insert(header::CONTENT_LENGTH, HeaderValue::from(length));
    named(response, "application/zip", name, false)
}

/// Packs files. The day in it is always the same one: the same files, the same bytes.
fn pack(
    files: impl Iterator<Item = (String, Vec<u8>)>,
    to: &mut File,
    cancel: &Cancel,
) -> Result<(), Unpacked> {
    let mut out = ZipWriter::new(BufWriter::new(to));
    let plain = SimpleFileOptions::default().last_modified_time(zip::DateTime::default());
    for (name, bytes) in files {
        cancel.check().map_err(|_| Unpacked::GivenUp)?;
        out.start_file(name, plain)?;
        out.write_all(&bytes)?;
    }
    out.finish()?.flush()?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::io::Read;

    use super::*;

    fn bytes_of(mut file: &File) -> Vec<u8> {
        let mut all = Vec::new();
        file.seek(SeekFrom::Start(0)).unwrap();
        file.read_to_end(&mut all).unwrap();
        all
    }

    #[test]
    fn files_come_out_as_they_went_in() {
        let files = [
            ("a.svg".to_string(), b"<svg/>".repeat(100)),
            ("ring-1.dxf".to_string(), Vec::new()),
        ];
        let packed = || {
            let mut file = tempfile::tempfile().unwrap();
            pack(files.iter().cloned(), &mut file, &Cancel::default()).unwrap();
            file
        };
        let file = packed();
        assert_eq!(bytes_of(&file), bytes_of(&packed()));
        let mut again = zip::ZipArchive::new(file).unwrap();
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

    #[test]
    fn no_further_file_is_made_once_nobody_waits() {
        let cancel = Cancel::default();
        let mut made = 0;
        let files = (0..100).map(|i| {
            made += 1;
            if i == 2 {
                cancel.cancel();
            }
            (format!("{i}.svg"), vec![0; 10])
        });
        let mut file = tempfile::tempfile().unwrap();
        let packed = pack(files, &mut file, &cancel);
        assert!(matches!(packed, Err(Unpacked::GivenUp)), "{packed:?}");
        assert_eq!(made, 3);
    }
}
