//! Reading bodies and giving answers.

use std::time::Duration;

use axum::body::{Body, to_bytes};
use axum::extract::Request;
use axum::http::{StatusCode, header};
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::serve::store::Trouble;
use crate::serve::wire::{Problem, Refusal};

/// Largest body, bytes.
pub const LARGEST: usize = 2 << 20;
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
pub fn disk(trouble: &Trouble) -> Response {
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

/// Reads a JSON body within limits of size and time.
pub async fn read<T: DeserializeOwned>(
    request: Request,
    largest: usize,
) -> Result<T, Box<Response>> {
    let no = |status, what: &str, remedy: &str| Box::new(refuse(status, what, remedy));
    let headers = request.headers();
    let kind = headers
        .get(header::CONTENT_TYPE)
        .and_then(|v| v.to_str().ok());
    if !kind.is_some_and(|k| {
        k.split(';')
            .next()
            .is_some_and(|k| k.trim().eq_ignore_ascii_case("application/json"))
    }) {
        return Err(no(
            StatusCode::UNSUPPORTED_MEDIA_TYPE,
            "the body is no JSON",
            "send application/json",
        ));
    }
    let too_large = || {
        let mut answer = refuse(
            StatusCode::PAYLOAD_TOO_LARGE,
            "this is too large",
            "send less at once",
        );
        // What is still to come is not read; the connection ends here.
        answer.headers_mut().insert(
            header::CONNECTION,
            header::HeaderValue::from_static("close"),
        );
        Box::new(answer)
    };
    let told = headers
        .get(header::CONTENT_LENGTH)
        .and_then(|v| v.to_str().ok());
    if told
        .and_then(|v| v.parse::<usize>().ok())
        .is_some_and(|n| n > largest)
    {
        return Err(too_large());
    }
    let body: Body = request.into_body();
    let bytes = match tokio::time::timeout(BODY_TIME, to_bytes(body, largest)).await {
        Err(_) => {
            let mut answer = no(
                StatusCode::REQUEST_TIMEOUT,
                "the body took too long",
                "try it once more",
            );
            answer.headers_mut().insert(
                header::CONNECTION,
                header::HeaderValue::from_static("close"),
            );
            return Err(answer);
        }
        Ok(Err(_)) => return Err(too_large()),
        Ok(Ok(bytes)) => bytes,
    };
    serde_json::from_slice(&bytes).map_err(|e| {
        no(
            StatusCode::BAD_REQUEST,
            &format!("this cannot be understood: {e}"),
            "nothing was changed",
        )
    })
}

/// Reads a body that says nothing: `{}`. Read it must be, or the connection ends under
/// the next request.
pub async fn nothing(request: Request) -> Result<(), Box<Response>> {
    read::<serde::de::IgnoredAny>(request, LARGEST)
        .await
        .map(|_| ())
}

/// Does work that keeps a processor busy or waits for the disk, off the threads that
/// answer. A panic in it ends this call alone.
pub async fn work<T: Send + 'static>(
    job: impl FnOnce() -> T + Send + 'static,
) -> Result<T, Box<Response>> {
    tokio::task::spawn_blocking(job)
        .await
        .map_err(|_| Box::new(broken()))
}

/// An answer, whichever way it went.
pub fn either(result: Result<Response, Box<Response>>) -> Response {
    result.unwrap_or_else(|answer| *answer)
}
