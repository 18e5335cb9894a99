//! One piece: its view, edits, versions.

use std::sync::Arc;

use axum::extract::{Path, Query, Request, State};
use axum::response::Response;
use editor::answers::{Reader, piece};
use editor::wire::{EditRequest, TakeRequest, TextRequest};

use super::Server;
use super::answer::{answered, asked, told};

/// `GET /api/piece/{name}?unit=`
pub async fn view(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(reader): Query<Reader>,
) -> Response {
    answered(server, move |projects| piece::view(projects, &name, reader)).await
}

/// `POST /api/piece/{name}/edit?unit=`
pub async fn edit(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(reader): Query<Reader>,
    request: Request,
) -> Response {
    asked::<EditRequest, _>(server, request, move |projects, asked| {
        piece::edit(projects, &name, reader, asked)
    })
    .await
}

/// `POST /api/piece/{name}/undo?unit=`
pub async fn undo(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(reader): Query<Reader>,
    request: Request,
) -> Response {
    told(server, request, move |projects| {
        piece::undo(projects, &name, reader)
    })
    .await
}

/// `POST /api/piece/{name}/redo?unit=`
pub async fn redo(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(reader): Query<Reader>,
    request: Request,
) -> Response {
    told(server, request, move |projects| {
        piece::redo(projects, &name, reader)
    })
    .await
}

/// `POST /api/piece/{name}/take?unit=`
pub async fn take(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(reader): Query<Reader>,
    request: Request,
) -> Response {
    asked::<TakeRequest, _>(server, request, move |projects, asked| {
        piece::take(projects, &name, reader, asked)
    })
    .await
}

/// `GET /api/piece/{name}/text`
pub async fn text(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    answered(server, move |projects| piece::text(projects, &name)).await
}

/// `POST /api/piece/{name}/text?unit=`
pub async fn write(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    Query(reader): Query<Reader>,
    request: Request,
) -> Response {
    asked::<TextRequest, _>(server, request, move |projects, asked| {
        piece::write(projects, &name, reader, asked)
    })
    .await
}

/// `GET /api/piece/{name}/versions`
pub async fn versions(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    answered(server, move |projects| piece::versions(projects, &name)).await
}
