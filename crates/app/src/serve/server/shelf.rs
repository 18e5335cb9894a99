//! The folder of projects and the bin.

use std::sync::Arc;

use axum::extract::{Path, Query, Request, State};
use axum::response::Response;
use editor::answers::{Reader, shelf};

use super::Server;
use super::answer::{LARGEST_IMPORT, answered, asked, asked_up_to, disk, either, quick, told};
use super::papers;

/// `GET /api/shelf?unit=`
pub async fn shelf(State(server): State<Arc<Server>>, Query(reader): Query<Reader>) -> Response {
    answered(server, move |projects| shelf::shelf(projects, reader)).await
}

/// `POST /api/shelf/new`
pub async fn new(State(server): State<Arc<Server>>, request: Request) -> Response {
    asked(server, request, shelf::new).await
}

/// `POST /api/shelf/import`
pub async fn import(State(server): State<Arc<Server>>, request: Request) -> Response {
    asked_up_to(LARGEST_IMPORT, server, request, shelf::import).await
}

/// `GET /api/shelf/{name}/file`
pub async fn file(State(server): State<Arc<Server>>, Path(name): Path<String>) -> Response {
    let done = quick(server, move |server| {
        let bytes = shelf::file(&server.projects, &name)?;
        Ok(papers::file(
            bytes,
            "application/toml",
            &format!("{name}.toml"),
            false,
        ))
    });
    either(done.await.map(|file| file.unwrap_or_else(|t| disk(&t))))
}

/// `POST /api/shelf/{name}/duplicate`
pub async fn duplicate(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    request: Request,
) -> Response {
    told(server, request, move |projects| {
        shelf::duplicate(projects, &name)
    })
    .await
}

/// `POST /api/shelf/{name}/rename`
pub async fn rename(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    request: Request,
) -> Response {
    asked(server, request, move |projects, asked| {
        shelf::rename(projects, &name, asked)
    })
    .await
}

/// `POST /api/shelf/{name}/delete`
pub async fn delete(
    State(server): State<Arc<Server>>,
    Path(name): Path<String>,
    request: Request,
) -> Response {
    told(server, request, move |projects| {
        shelf::delete(projects, &name)
    })
    .await
}

/// `POST /api/bin/{id}/restore`
pub async fn restore(
    State(server): State<Arc<Server>>,
    Path(id): Path<String>,
    request: Request,
) -> Response {
    told(server, request, move |projects| {
        shelf::restore(projects, &id)
    })
    .await
}
