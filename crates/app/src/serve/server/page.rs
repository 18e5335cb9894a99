//! The page itself, built into the program.

use std::collections::BTreeMap;
use std::io::Write;
use std::sync::{Mutex, OnceLock};

use axum::extract::Path;
use axum::http::{HeaderMap, HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use rust_embed::RustEmbed;

use super::answer::nowhere;
use editor::hold::hold;

/// What the page's build gives; nothing of it needs to be there for the program to build.
#[derive(RustEmbed)]
#[folder = "../../web/dist"]
#[allow_missing = true]
struct Built;

/// RevisionInUnit where the program was built without the page.
const WITHOUT: &str = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\">\
    <title>Ringwright</title><p>This program was built without its page. \
    Run <code>cargo xtask start</code>, or <code>npm run build</code> in \
    <code>web</code> and build it again. The command <code>ringwright plan</code> \
    works without it.</p></html>";

/// RevisionInUnit without the key.
const NO_KEY: &str = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\">\
    <title>Ringwright</title><p>This page needs its key. Open the address that \
    <code>ringwright open</code> printed when it was started.</p></html>";

fn html(status: StatusCode, text: &'static str) -> Response {
    (
        status,
        [(header::CONTENT_TYPE, "text/html; charset=utf-8")],
        text,
    )
        .into_response()
}

/// Says that the key is missing.
pub fn no_key() -> Response {
    html(StatusCode::UNAUTHORIZED, NO_KEY)
}

/// The page.
pub async fn index(headers: HeaderMap) -> Response {
    match Built::get("index.html") {
        Some(file) => file_answer("index.html", &file.data, &headers, false),
        None => html(StatusCode::OK, WITHOUT),
    }
}

/// A part of the page. Names carry a hash of the contents, so that they never change.
pub async fn asset(Path(path): Path<String>, headers: HeaderMap) -> Response {
    let name = format!("assets/{path}");
    match Built::get(&name).filter(|_| !path.contains("..")) {
        Some(file) => file_answer(&name, &file.data, &headers, true),
        None => nowhere(),
    }
}

/// A sign of the page that stands beside it.
pub async fn beside(name: &'static str, headers: HeaderMap) -> Response {
    match Built::get(name) {
        Some(file) => file_answer(name, &file.data, &headers, false),
        None => nowhere(),
    }
}

fn kind(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("json") => "application/json",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("woff2") => "font/woff2",
        Some("woff") => "font/woff",
        Some("wasm") => "application/wasm",
        Some("txt") => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

fn file_answer(name: &str, bytes: &[u8], headers: &HeaderMap, for_ever: bool) -> Response {
    let mut response = match packed(name, bytes, headers, for_ever) {
        Some(packed) => ([(header::CONTENT_ENCODING, "gzip")], packed).into_response(),
        None => bytes.to_vec().into_response(),
    };
    let out = response.headers_mut();
    out.insert(header::CONTENT_TYPE, HeaderValue::from_static(kind(name)));
    out.insert(header::VARY, HeaderValue::from_static("accept-encoding"));
    if for_ever {
        out.insert(
            header::CACHE_CONTROL,
            HeaderValue::from_static("private, max-age=31536000, immutable"),
        );
    }
    response
}

/// A text packed with gzip, once for each file that never changes.
fn packed(name: &str, bytes: &[u8], headers: &HeaderMap, keep: bool) -> Option<Vec<u8>> {
    static KEPT: OnceLock<Mutex<BTreeMap<String, Vec<u8>>>> = OnceLock::new();
    let wanted = headers.get(header::ACCEPT_ENCODING)?.to_str().ok()?;
    let text = kind(name).contains("charset") || name.ends_with(".svg") || name.ends_with(".json");
    if !wanted.contains("gzip") || !text || bytes.len() < 1000 {
        return None;
    }
    let kept = KEPT.get_or_init(Mutex::default);
    if keep && let Some(packed) = hold(kept).get(name) {
        return Some(packed.clone());
    }
    let mut encoder = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    encoder.write_all(bytes).ok()?;
    let packed = encoder.finish().ok()?;
    if keep {
        hold(kept).insert(name.into(), packed.clone());
    }
    Some(packed)
}
