//! Papers and drawings to take away.

use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Deserialize;

use super::Server;
use super::answer::{disk, either, nowhere, refuse, work};
use crate::serve::desk::{Made, hold};
use crate::serve::store::Trouble;
use crate::serve::view::unit;
use crate::serve::wire::PageUnit;

/// How papers are wanted.
#[derive(Deserialize)]
pub struct Wanted {
    unit: Option<PageUnit>,
}

fn now(server: &Server, name: &str) -> Result<Option<Arc<Made>>, Trouble> {
    let desk = server.bench.desk(name)?;
    let desk = hold(&desk);
    Ok(desk.now.clone())
}

/// `GET /api/piece/{name}/plan.txt?unit=`
pub async fn text(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    let done = work(move || -> Result<Response, Trouble> {
        let Some(made) = now(&server, &name)? else {
            return Ok(nowhere());
        };
        let plan = made.shown(wanted.unit.map_or(made.design.unit, unit)).plan();
        let text = plan::render_text(plan, 80, false);
        Ok(([(header::CONTENT_TYPE, "text/plain; charset=utf-8")], text).into_response())
    });
    either(done.await.map(|answer| answer.unwrap_or_else(|t| disk(&t))))
}

/// `GET /api/piece/{name}/plan.pdf`
pub async fn pdf() -> Response {
    refuse(
        StatusCode::NOT_IMPLEMENTED,
        "this program prints no PDF yet",
        "take plan.txt",
    )
}

/// `GET /api/piece/{name}/drawings.zip`
pub async fn drawings() -> Response {
    refuse(
        StatusCode::NOT_IMPLEMENTED,
        "this program packs no drawings yet",
        "take them with ringwright draw",
    )
}
