//! The plan as text, and drawings, to take away.

use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};
use plan::tolerance::{Limits, Makings, study};
use serde::Deserialize;

use super::Server;
use super::answer::{broken, disk, either, nowhere, work};
use super::zip::zip;
use crate::serve::desk::{Made, hold};
use crate::serve::store::Trouble;
use crate::serve::view::{encoded, unit};
use crate::serve::wire::PageUnit;

/// How papers are wanted.
#[derive(Deserialize)]
pub struct Wanted {
    pub(super) unit: Option<PageUnit>,
    /// Show it in the browser instead of saving it.
    pub(super) inline: Option<u8>,
    /// The paper's size.
    pub(super) paper: Option<String>,
    /// Only these sheets, parted by commas.
    pub(super) only: Option<String>,
    /// The day to print.
    pub(super) date: Option<String>,
}

/// Makes one paper of what stands, off the answering threads.
pub(super) async fn make(
    server: Arc<Server>,
    name: String,
    wanted: Wanted,
    job: impl FnOnce(&Made, &str, &Wanted) -> Response + Send + 'static,
) -> Response {
    let Ok(_painter) = server.painters.acquire().await else {
        return broken();
    };
    let bench = server.clone();
    let done = work(move || -> Result<Response, Trouble> {
        let desk = bench.bench.desk(&name)?;
        let now = hold(&desk).now.clone();
        Ok(now.map_or_else(nowhere, |made| job(&made, &name, &wanted)))
    });
    either(done.await.map(|answer| answer.unwrap_or_else(|t| disk(&t))))
}

/// A file to save, or to show.
pub(super) fn file(bytes: Vec<u8>, kind: &'static str, name: &str, inline: bool) -> Response {
    let mut response = bytes.into_response();
    let out = response.headers_mut();
    out.insert(header::CONTENT_TYPE, HeaderValue::from_static(kind));
    let how = if inline { "inline" } else { "attachment" };
    let named = format!("{how}; filename*=UTF-8''{}", encoded(name));
    if let Ok(value) = HeaderValue::from_str(&named) {
        out.insert(header::CONTENT_DISPOSITION, value);
    }
    response
}

/// Several files to save as one.
pub(super) fn packed(files: &[(String, Vec<u8>)], name: &str) -> Response {
    zip(files).map_or_else(
        |_| broken(),
        |bytes| file(bytes, "application/zip", name, false),
    )
}

/// `GET /api/piece/{name}/plan.txt?unit=`
pub async fn text(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    make(server, name, wanted, |made, name, wanted| {
        let plan = made
            .shown(wanted.unit.map_or(made.design.unit, unit))
            .plan();
        let text = plan::render_text(plan, 80, false);
        let inline = wanted.inline != Some(0);
        file(
            text.into_bytes(),
            "text/plain; charset=utf-8",
            &format!("{name}.txt"),
            inline,
        )
    })
    .await
}

/// `GET /api/piece/{name}/exact.txt?unit=`: the study of tolerances, with its working.
pub async fn exact(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    make(server, name, wanted, |made, name, wanted| {
        let unit = wanted.unit.map_or(made.design.unit, unit);
        let Some(piece) = &made.shown(unit).settled.piece else {
            return nowhere();
        };
        let makings = Makings {
            count: 10_000,
            seed: 1,
        };
        let study = study(piece, makings, &Limits::default());
        file(
            plan::render_study(&study, 80, true).into_bytes(),
            "text/plain; charset=utf-8",
            &format!("{name}-exact.txt"),
            wanted.inline != Some(0),
        )
    })
    .await
}

/// `GET /api/piece/{name}/drawings.zip?unit=`
pub async fn drawings(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    make(server, name, wanted, |made, name, wanted| {
        let unit = wanted.unit.map_or(made.design.unit, unit);
        let Some(piece) = &made.shown(unit).settled.piece else {
            return nowhere();
        };
        packed(
            &drawings::draw_all(piece, unit, 2400),
            &format!("{name}-drawings.zip"),
        )
    })
    .await
}
