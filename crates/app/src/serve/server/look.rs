//! Looking at a piece: what is at a point, and pictures.

use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Deserialize;

use super::Server;
use super::answer::{broken, disk, either, json, nowhere, work};
use super::piece::InUnit;
use crate::serve::desk::{Made, hold};
use crate::serve::pictures::{Asked, What, paint};
use crate::serve::store::Trouble;
use crate::serve::view;
use crate::serve::wire::{PageUnit, StepKind};

/// A point of the piece, mm.
#[derive(Deserialize)]
pub struct Point {
    x: f64,
    y: f64,
    z: f64,
    v: Option<String>,
    unit: Option<PageUnit>,
}

/// The version asked for, or the one that stands.
fn version(
    server: &Server,
    name: &str,
    version: Option<&str>,
) -> Result<Option<Arc<Made>>, Trouble> {
    let desk = server.bench.desk(name)?;
    let desk = hold(&desk);
    Ok(match version {
        Some(version) => desk.version(version),
        None => desk.now.clone(),
    })
}

/// `GET /api/piece/{name}/at?x=&y=&z=&v=&unit=`
pub async fn at(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(point): Query<Point>,
) -> Response {
    let done = work(move || -> Result<Response, Trouble> {
        let Some(made) = version(&server, &name, point.v.as_deref())? else {
            return Ok(nowhere());
        };
        let unit = InUnit { unit: point.unit }.of(Some(&made));
        let p = glam::DVec3::new(point.x, point.y, point.z);
        let spot = p.is_finite().then(|| view::spot(&made, unit, p)).flatten();
        Ok(spot.map_or_else(|| StatusCode::NO_CONTENT.into_response(), |s| json(&s)))
    });
    either(done.await.map(|answer| answer.unwrap_or_else(|t| disk(&t))))
}

/// How a picture is wanted.
#[derive(Deserialize)]
pub struct Wanted {
    v: Option<String>,
    w: Option<u32>,
    az: Option<f64>,
    z: Option<f64>,
    grain: Option<u8>,
    upto: Option<usize>,
}

/// `GET /api/piece/{name}/picture/{what}.png?v=&w=&az=&z=&grain=&upto=`
pub async fn picture(
    State(server): State<Arc<Server>>,
    Path((name, what)): Path<(String, String)>,
    Query(wanted): Query<Wanted>,
) -> Response {
    match what.strip_suffix(".png").and_then(What::named) {
        Some(what) => painted(server, name, what, wanted).await,
        None => nowhere(),
    }
}

/// `GET /api/shelf/{name}/picture.png?v=&w=`
pub async fn portrait(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    let wanted = Wanted {
        w: wanted.w.or(Some(360)),
        ..wanted
    };
    painted(server, name, What::Portrait, wanted).await
}

async fn painted(server: Arc<Server>, name: String, what: What, wanted: Wanted) -> Response {
    let asked = Asked {
        what,
        width: wanted.w.unwrap_or(1024),
        azimuth: wanted.az.filter(|a| a.is_finite()).unwrap_or(0.0),
        height: wanted.z.unwrap_or(0.0),
        grain: wanted.grain.unwrap_or(1) != 0,
        upto: wanted.upto,
    };
    let Ok(_painter) = server.painters.acquire().await else {
        return broken();
    };
    let bench = server.clone();
    let named = wanted.v.is_some();
    let done = work(move || -> Result<Response, Trouble> {
        let Some(made) = version(&bench, &name, wanted.v.as_deref())? else {
            return Ok(nowhere());
        };
        let shown = made.shown(made.design.unit);
        let Some(piece) = &shown.settled.piece else {
            return Ok(nowhere());
        };
        let done = asked.upto.map(|upto| loops_done(&made, upto));
        let Some(png) = bench.portraits.get(&made.version, &asked).or_else(|| {
            let png = paint(piece, done.as_deref(), &asked)?;
            bench.portraits.keep(&made.version, &asked, &png);
            Some(png)
        }) else {
            return Ok(broken());
        };
        let keep = if named {
            "private, max-age=31536000, immutable"
        } else {
            "no-cache"
        };
        let headers = [
            (header::CONTENT_TYPE, "image/png"),
            (header::CACHE_CONTROL, keep),
        ];
        Ok((headers, png).into_response())
    });
    either(done.await.map(|answer| answer.unwrap_or_else(|t| disk(&t))))
}

/// How many loops of each section are sawn when a stage is done.
fn loops_done(made: &Made, upto: usize) -> Vec<(usize, usize)> {
    let shown = made.shown(made.design.unit);
    let Some(piece) = &shown.settled.piece else {
        return Vec::new();
    };
    view::steps(piece, &shown.plan().operations)
        .iter()
        .take(upto.saturating_add(1))
        .filter(|s| s.kind == StepKind::Loop)
        .filter_map(|s| s.section.map(|s| (s as usize, 1)))
        .collect()
}
