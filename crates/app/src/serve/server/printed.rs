//! The printed plan and its full-size templates.

use std::str::FromStr;
use std::sync::Arc;

use axum::extract::{Path, Query, State};
use axum::http::StatusCode;
use axum::response::Response;
use sheets::Request;

use super::Server;
use super::answer::{broken, nowhere, refuse};
use super::papers::{Wanted, file, make, packed};
use crate::serve::view::unit;

/// What is asked for, if all of its words are known.
fn request(wanted: &Wanted) -> Result<Request, String> {
    fn one<T: FromStr<Err: ToString>>(word: &str) -> Result<T, String> {
        let word: String = word.chars().take(40).collect();
        word.parse().map_err(|e: T::Err| e.to_string())
    }
    let given = |word: &Option<String>| word.clone().filter(|w| !w.is_empty());
    let only = given(&wanted.only).unwrap_or_default();
    Ok(Request {
        paper: given(&wanted.paper).map_or_else(|| Ok(Default::default()), |w| one(&w))?,
        only: only
            .split(',')
            .filter(|w| !w.is_empty())
            .map(one)
            .collect::<Result<_, _>>()?,
        date: given(&wanted.date).map(|w| one(&w)).transpose()?,
    })
}

/// `GET /api/piece/{name}/plan.pdf?unit=&paper=&only=&date=&inline=`
pub async fn pdf(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    make(server, name, wanted, |made, name, wanted| {
        let request = match request(wanted) {
            Ok(request) => request,
            Err(why) => return refuse(StatusCode::BAD_REQUEST, &why, "choose one that there is"),
        };
        let shown = made.shown(wanted.unit.map_or(made.design.unit, unit));
        let Some(piece) = &shown.settled.piece else {
            return nowhere();
        };
        match sheets::pdf(piece, shown.plan(), &request) {
            Ok(bytes) => file(
                bytes,
                "application/pdf",
                &format!("{name}.pdf"),
                wanted.inline == Some(1),
            ),
            Err(_) => broken(),
        }
    })
    .await
}

/// `GET /api/piece/{name}/templates.zip?unit=`
pub async fn templates(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(wanted): Query<Wanted>,
) -> Response {
    make(server, name, wanted, |made, name, wanted| {
        let shown = made.shown(wanted.unit.map_or(made.design.unit, unit));
        let Some(piece) = &shown.settled.piece else {
            return nowhere();
        };
        packed(
            &sheets::template_files(piece),
            &format!("{name}-templates.zip"),
        )
    })
    .await
}
