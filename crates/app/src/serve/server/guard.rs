//! Who may ask: the right host, no foreign page, and the key.
//!
//! The program prints an address with a random token. Whoever opens it gets a cookie
//! with another random secret, which no script can read and no other site's page can
//! send. Everything else needs the cookie.

use std::sync::Arc;

use axum::extract::{Query, Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use cookie::{Cookie, SameSite};
use serde::Deserialize;
use subtle::ConstantTimeEq;

use super::Server;
use super::answer::refuse;

/// What is checked against.
pub struct Guard {
    port: u16,
    token: String,
    secret: String,
}

/// What a page of this program may load: itself, and pictures that the maker brings.
/// Style attributes are allowed, style sheets and scripts only from here.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; \
    style-src-attr 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self'; \
    connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

impl Guard {
    /// A guard with fresh secrets from the system.
    pub fn new(port: u16) -> Result<Guard, String> {
        let secret = || -> Result<String, String> {
            let mut bytes = [0u8; 32];
            getrandom::fill(&mut bytes).map_err(|e| format!("no random numbers: {e}"))?;
            Ok(bytes.iter().map(|b| format!("{b:02x}")).collect())
        };
        Ok(Guard {
            port,
            token: secret()?,
            secret: secret()?,
        })
    }

    /// The first address.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/?token={}", self.port, self.token)
    }

    fn cookie(&self) -> String {
        // Cookies do not tell ports apart, so that the name must.
        format!("ringwright-{}", self.port)
    }

    fn hosts(&self) -> [String; 2] {
        [
            format!("127.0.0.1:{}", self.port),
            format!("localhost:{}", self.port),
        ]
    }

    fn right_host(&self, headers: &HeaderMap) -> bool {
        let mut all = headers.get_all(header::HOST).iter();
        let (first, second) = (all.next(), all.next());
        let host = first
            .filter(|_| second.is_none())
            .and_then(|h| h.to_str().ok());
        host.is_some_and(|h| self.hosts().iter().any(|own| own == h))
    }

    fn right_origin(&self, headers: &HeaderMap) -> bool {
        let host = headers
            .get(header::HOST)
            .and_then(|h| h.to_str().ok())
            .unwrap_or("");
        headers
            .get_all(header::ORIGIN)
            .iter()
            .all(|origin| origin.to_str().is_ok_and(|o| o == format!("http://{host}")))
    }

    /// Browsers say where a request comes from; another port of this machine is another site.
    fn from_here(headers: &HeaderMap) -> bool {
        let site = headers.get("sec-fetch-site").map(HeaderValue::as_bytes);
        matches!(site, None | Some(b"same-origin" | b"none"))
    }

    fn has_cookie(&self, headers: &HeaderMap) -> bool {
        let wanted = self.cookie();
        headers
            .get_all(header::COOKIE)
            .iter()
            .filter_map(|c| c.to_str().ok())
            .flat_map(Cookie::split_parse)
            .flatten()
            .any(|c| c.name() == wanted && same(c.value(), &self.secret))
    }

    fn has_token(&self, request: &Request) -> bool {
        #[derive(Deserialize)]
        struct First {
            token: String,
        }
        Query::<First>::try_from_uri(request.uri()).is_ok_and(|q| same(&q.token, &self.token))
    }
}

/// Equal? Takes as long wherever they differ.
fn same(a: &str, b: &str) -> bool {
    a.as_bytes().ct_eq(b.as_bytes()).into()
}

/// Checks a request and puts the protecting headers on its answer.
pub async fn check(State(server): State<Arc<Server>>, request: Request, next: Next) -> Response {
    let guard = &server.guard;
    let mut response = match judge(guard, &request) {
        Ok(()) => next.run(request).await,
        Err(answer) => *answer,
    };
    let headers = response.headers_mut();
    for (name, value) in [
        ("content-security-policy", POLICY),
        ("x-content-type-options", "nosniff"),
        ("referrer-policy", "no-referrer"),
        ("cross-origin-opener-policy", "same-origin"),
        ("cross-origin-resource-policy", "same-origin"),
        ("x-frame-options", "DENY"),
    ] {
        headers.insert(
            HeaderName::from_static(name),
            HeaderValue::from_static(value),
        );
    }
    headers
        .entry(header::CACHE_CONTROL)
        .or_insert(HeaderValue::from_static("no-store"));
    response
}

fn judge(guard: &Guard, request: &Request) -> Result<(), Box<Response>> {
    let headers = request.headers();
    let no = |status, what: &str, remedy: &str| Err(Box::new(refuse(status, what, remedy)));
    if !guard.right_host(headers) {
        return no(
            StatusCode::MISDIRECTED_REQUEST,
            "this program answers only as 127.0.0.1 or localhost",
            "open the address that the program printed",
        );
    }
    if !guard.right_origin(headers) {
        return no(
            StatusCode::FORBIDDEN,
            "a page of another site may not ask here",
            "open the address that the program printed",
        );
    }
    let first = request.uri().path() == "/" && request.method() == Method::GET;
    if first && guard.has_token(request) {
        return Err(Box::new(welcome(guard)));
    }
    if !first && !Guard::from_here(headers) {
        return no(
            StatusCode::FORBIDDEN,
            "a page of another site may not ask here",
            "open the address that the program printed",
        );
    }
    if !guard.has_cookie(headers) {
        if first {
            return Err(Box::new(super::page::no_key()));
        }
        return no(
            StatusCode::UNAUTHORIZED,
            "this page has no key, or the program was started anew",
            "open the address that the program printed",
        );
    }
    Ok(())
}

/// Gives the cookie and leads to the address without the token.
fn welcome(guard: &Guard) -> Response {
    let cookie = Cookie::build((guard.cookie(), guard.secret.as_str()))
        .http_only(true)
        .same_site(SameSite::Strict)
        .path("/");
    let headers = [
        (header::SET_COOKIE, cookie.to_string()),
        (header::LOCATION, "/".to_string()),
    ];
    (StatusCode::SEE_OTHER, headers).into_response()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn secrets_differ_and_are_compared_whole() {
        let (a, b) = (Guard::new(1).unwrap(), Guard::new(1).unwrap());
        assert_eq!(a.token.len(), 64);
        assert!(a.token != b.token && a.secret != b.secret && a.token != a.secret);
        assert!(same("abc", "abc"));
        for wrong in ["", "ab", "abd", "abcd"] {
            assert!(!same(wrong, "abc"), "{wrong}");
        }
    }
}
