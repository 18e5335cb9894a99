//! Reading bodies and giving answers.

use std::sync::Arc;
use std::time::Duration;

use axum::Json;
use axum::body::HttpBody;
use axum::extract::rejection::{BytesRejection, FailedToBufferBody, JsonRejection};
use axum::extract::{DefaultBodyLimit, FromRequest, Request};
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::Server;
use editor::open_projects::OpenProjects;
use editor::store::StoreError;
use editor::wire::{Problem, Refusal};

/// Largest body, bytes.
const LARGEST: usize = 2 << 20;
/// Largest file that is brought in, bytes.
pub const LARGEST_IMPORT: usize = 4 << 20;
/// A body must be here by then.
const BODY_TIME: Duration = Duration::from_secs(10);

/// A JSON answer.
pub fn json<T: Serialize>(value: &T) -> Response {
    with_status(StatusCode::OK, value)
}

/// A JSON answer with a status.
pub fn with_status<T: Serialize>(status: StatusCode, value: &T) -> Response {
    match serde_json::to_vec(value) {
        Ok(bytes) => {
            let kind = [(header::CONTENT_TYPE, "application/json")];
            (status, kind, bytes).into_response()
        }
        // Every value here is plain data; should one not be, the page hears of it.
        Err(_) => StatusCode::INTERNAL_SERVER_ERROR.into_response(),
    }
}

/// A refusal with its reason and remedy.
pub fn refuse(status: StatusCode, what: &str, remedy: &str) -> Response {
    let problem = Problem {
        what: what.into(),
        remedy: remedy.into(),
        ..Problem::default()
    };
    with_status(
        status,
        &Refusal {
            problems: vec![problem],
        },
    )
}

/// A trouble with the disk as an answer.
pub fn disk(trouble: &StoreError) -> Response {
    if trouble.missing {
        refuse(
            StatusCode::NOT_FOUND,
            &trouble.what,
            "look at the shelf again",
        )
    } else {
        let remedy = trouble.remedy.unwrap_or("nothing was changed");
        refuse(StatusCode::CONFLICT, &trouble.what, remedy)
    }
}

/// There is nothing of that name.
pub fn nowhere() -> Response {
    refuse(
        StatusCode::NOT_FOUND,
        "there is nothing here",
        "go back to the shelf",
    )
}

/// Something broke that should not.
pub fn broken() -> Response {
    refuse(
        StatusCode::INTERNAL_SERVER_ERROR,
        "the program could not do this",
        "nothing was changed; try it once more",
    )
}

/// Reads a JSON body within limits of size and time. A length that is announced is asked
/// before any of it is read.
async fn read<T: DeserializeOwned>(
    mut request: Request,
    largest: usize,
) -> Result<T, Box<Response>> {
    DefaultBodyLimit::max(largest).apply(&mut request);
    if request.body().size_hint().lower() > largest as u64 {
        return Err(too_large());
    }
    let body = tokio::time::timeout(BODY_TIME, Json::<T>::from_request(request, &()));
    match body.await {
        Ok(Ok(Json(asked))) => Ok(asked),
        Ok(Err(why)) => Err(not_read(&why)),
        Err(_) => Err(last(refuse(
            StatusCode::REQUEST_TIMEOUT,
            "the body took too long",
            "try it once more",
        ))),
    }
}

fn too_large() -> Box<Response> {
    last(refuse(
        StatusCode::PAYLOAD_TOO_LARGE,
        "this is too large",
        "send less at once",
    ))
}

fn not_read(why: &JsonRejection) -> Box<Response> {
    match why {
        JsonRejection::MissingJsonContentType(_) => Box::new(refuse(
            StatusCode::UNSUPPORTED_MEDIA_TYPE,
            "the body is no JSON",
            "send application/json",
        )),
        JsonRejection::BytesRejection(BytesRejection::FailedToBufferBody(
            FailedToBufferBody::LengthLimitError(_),
        )) => too_large(),
        other => Box::new(refuse(
            StatusCode::BAD_REQUEST,
            &format!("this cannot be understood: {}", other.body_text()),
            "nothing was changed",
        )),
    }
}

/// The last answer of a connection: what is still to come of the request is not read.
fn last(mut answer: Response) -> Box<Response> {
    let close = HeaderValue::from_static("close");
    answer.headers_mut().insert(header::CONNECTION, close);
    Box::new(answer)
}

/// Reads a body that says nothing: `{}`. Read it must be, or the connection ends under
/// the next request.
async fn nothing(request: Request) -> Result<(), Box<Response>> {
    read::<serde::de::IgnoredAny>(request, LARGEST)
        .await
        .map(|_| ())
}

/// Does quick work with a server, off the threads that answer.
pub async fn quick<T: Send + 'static>(
    server: Arc<Server>,
    job: impl FnOnce(&Server) -> T + Send + 'static,
) -> Result<T, Box<Response>> {
    let working = server.clone();
    server.jobs.quick.run(move |_| job(&working)).await
}

/// What the projects answer, off the threads that answer.
pub async fn answered<T: Serialize + Send + 'static>(
    server: Arc<Server>,
    act: impl FnOnce(&OpenProjects) -> Result<T, StoreError> + Send + 'static,
) -> Response {
    let done = quick(server, move |server| act(&server.projects)).await;
    either(done.map(|value| value.map_or_else(|t| disk(&t), |v| json(&v))))
}

/// The same about what is asked in the body.
pub async fn asked<A: DeserializeOwned + Send + 'static, T: Serialize + Send + 'static>(
    server: Arc<Server>,
    request: Request,
    act: impl FnOnce(&OpenProjects, &A) -> Result<T, StoreError> + Send + 'static,
) -> Response {
    asked_up_to(LARGEST, server, request, act).await
}

/// The same where the body may be longer or must be shorter.
pub async fn asked_up_to<A: DeserializeOwned + Send + 'static, T: Serialize + Send + 'static>(
    largest: usize,
    server: Arc<Server>,
    request: Request,
    act: impl FnOnce(&OpenProjects, &A) -> Result<T, StoreError> + Send + 'static,
) -> Response {
    match read::<A>(request, largest).await {
        Ok(asked) => answered(server, move |projects| act(projects, &asked)).await,
        Err(answer) => *answer,
    }
}

/// The same where the body says nothing.
pub async fn told<T: Serialize + Send + 'static>(
    server: Arc<Server>,
    request: Request,
    act: impl FnOnce(&OpenProjects) -> Result<T, StoreError> + Send + 'static,
) -> Response {
    match nothing(request).await {
        Ok(()) => answered(server, act).await,
        Err(answer) => *answer,
    }
}

/// A paper or picture that nobody waits for any more; nobody reads this either.
pub fn given_up() -> Response {
    refuse(
        StatusCode::SERVICE_UNAVAILABLE,
        "this was given up",
        "ask for it again",
    )
}

/// An answer, whichever way it went.
pub fn either(result: Result<Response, Box<Response>>) -> Response {
    result.unwrap_or_else(|answer| *answer)
}
