//! Attacks on the server, each with its answer. All against 127.0.0.1 only.
#![allow(clippy::unwrap_used)]

mod serve_support;

use std::io::{BufReader, Read, Write};
use std::time::{Duration, Instant};

use serde_json::json;
use serve_support::{Server, folder_with, read_answer};

const BOWL: &str = "sandpiper-bowl";

#[test]
fn only_its_own_hosts_are_answered() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let ask = |host: &str| {
        let cookie = &server.cookie;
        server
            .raw(&format!(
                "GET /api/shelf HTTP/1.1\r\n{host}Cookie: {cookie}\r\nConnection: close\r\n\r\n"
            ))
            .status
    };
    let port = server.port;
    assert_eq!(ask(&format!("Host: 127.0.0.1:{port}\r\n")), 200);
    assert_eq!(ask(&format!("Host: localhost:{port}\r\n")), 200);
    for wrong in [
        "Host: evil.example\r\n".to_string(),
        format!("Host: evil.example:{port}\r\n"),
        "Host: 127.0.0.1\r\n".into(),
        "Host: 127.0.0.1:1\r\n".into(),
        format!("Host: 127.0.0.1.evil.example:{port}\r\n"),
        format!("Host: 127.0.0.1:{port}\r\nHost: evil.example\r\n"),
        format!("Host: [::1]:{port}\r\n"),
        "Host: \r\n".into(),
        String::new(),
    ] {
        let status = ask(&wrong);
        assert!(status == 421 || status == 400, "{wrong:?} gives {status}");
    }
}

#[test]
fn a_foreign_page_gets_nothing() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let port = server.port;
    let own = format!("Origin: http://127.0.0.1:{port}\r\n");
    assert_eq!(server.request("GET", "/api/shelf", &own, "").status, 200);
    let before = server.text(BOWL);
    for more in [
        "Origin: http://evil.example\r\n".to_string(),
        "Origin: null\r\n".into(),
        format!("Origin: https://127.0.0.1:{port}\r\n"),
        format!("Origin: http://localhost:{port}\r\n"),
        format!("Origin: http://127.0.0.1:{}\r\n", port.wrapping_add(1)),
        format!("{own}Origin: http://evil.example\r\n"),
        "Sec-Fetch-Site: cross-site\r\n".into(),
        "Sec-Fetch-Site: same-site\r\n".into(),
    ] {
        for (method, path) in [
            ("GET", "/api/shelf"),
            ("GET", "/api/piece/sandpiper-bowl"),
            ("POST", "/api/shelf/sandpiper-bowl/delete"),
            ("POST", "/api/piece/sandpiper-bowl/undo"),
        ] {
            let answer = server.request(method, path, &more, "{}");
            assert_eq!(answer.status, 403, "{more:?} {method} {path}");
            assert!(answer.header("access-control-allow-origin").is_none());
        }
    }
    assert_eq!(server.text(BOWL), before);
    // What a form on a foreign page could send is no JSON.
    let host = server.host();
    let cookie = &server.cookie;
    for kind in [
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data",
    ] {
        let answer = server.raw(&format!(
            "POST /api/piece/{BOWL}/edit HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n\
             Connection: close\r\nContent-Type: {kind}\r\nContent-Length: 2\r\n\r\n{{}}"
        ));
        assert_eq!(answer.status, 415, "{kind}");
    }
}

#[test]
fn without_the_key_nothing_is_told() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let host = server.host();
    let ask = |path: &str, more: &str| {
        server.raw(&format!(
            "GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n{more}\r\n"
        ))
    };
    let (name, secret) = server.cookie.split_once('=').unwrap();
    let almost = format!("{}0", &secret[..secret.len() - 1]);
    for cookie in [
        String::new(),
        format!("Cookie: {name}=\r\n"),
        format!("Cookie: {name}={almost}x\r\n"),
        format!("Cookie: {name}={}\r\n", &secret[..secret.len() - 1]),
        // The token itself is no cookie.
        format!("Cookie: {name}={}\r\n", server.token),
        format!("Cookie: other={secret}\r\n"),
    ] {
        for path in [
            "/",
            "/api/shelf",
            "/api/piece/sandpiper-bowl",
            "/api/piece/sandpiper-bowl/picture/outside.png",
            "/assets/index.js",
            "/nowhere",
        ] {
            let answer = ask(path, &cookie);
            assert_eq!(answer.status, 401, "{cookie:?} {path}");
            let body = String::from_utf8_lossy(&answer.body).into_owned();
            assert!(!body.contains("Sandpiper") && !body.contains(&server.token));
        }
    }
    assert_eq!(ask("/?token=", "").status, 401);
    assert_eq!(
        ask(&format!("/?token={}", &server.token[1..]), "").status,
        401
    );
    // The token works only at the door.
    assert_eq!(
        ask(&format!("/api/shelf?token={}", server.token), "").status,
        401
    );
    let welcome = ask(&format!("/?token={}", server.token), "");
    assert_eq!(
        (welcome.status, welcome.header("location")),
        (303, Some("/"))
    );
    let cookie = welcome.header("set-cookie").unwrap();
    assert!(cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"));
}

#[test]
fn answers_carry_the_protecting_headers() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    for path in ["/", "/api/shelf", "/nowhere", "/api/piece/none"] {
        let answer = server.get(path);
        let policy = answer.header("content-security-policy").unwrap_or("");
        assert!(policy.contains("script-src 'self';"), "{path}: {policy}");
        assert!(!policy.contains("unsafe-eval"));
        for (name, value) in [
            ("x-content-type-options", "nosniff"),
            ("referrer-policy", "no-referrer"),
            ("cross-origin-resource-policy", "same-origin"),
            ("x-frame-options", "DENY"),
            ("cache-control", "no-store"),
        ] {
            assert_eq!(answer.header(name), Some(value), "{path} {name}");
        }
    }
}

#[test]
fn a_huge_body_is_refused_before_it_comes() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let (host, cookie) = (server.host(), &server.cookie);
    let head = |length: &str| {
        format!(
            "POST /api/piece/{BOWL}/edit HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n\
             Content-Type: application/json\r\n{length}\r\n"
        )
    };
    // 1 GB announced: answered at once, without reading it.
    let start = Instant::now();
    let answer = server.raw(&head("Content-Length: 1073741824\r\n"));
    assert_eq!(answer.status, 413);
    assert!(start.elapsed() < Duration::from_secs(2));
    // 1 GB without saying so, in chunks: cut off after the limit.
    let mut stream = server.connect();
    stream
        .write_all(head("Transfer-Encoding: chunked\r\n").as_bytes())
        .unwrap();
    let chunk = vec![b'a'; 1 << 16];
    let mut sent = 0u64;
    while sent < 1 << 30 {
        let part = format!("{:x}\r\n", chunk.len());
        let wrote = stream
            .write_all(part.as_bytes())
            .and_then(|()| stream.write_all(&chunk))
            .and_then(|()| stream.write_all(b"\r\n"));
        if wrote.is_err() {
            break;
        }
        sent += chunk.len() as u64;
    }
    assert!(sent < 64 << 20, "{sent} bytes were taken");
    // A head of a megabyte, and a thousand headers.
    let long = format!(
        "GET /{} HTTP/1.1\r\nHost: {host}\r\n\r\n",
        "a".repeat(1 << 20)
    );
    let mut stream = server.connect();
    let _ = stream.write_all(long.as_bytes());
    let status = read_answer(&mut BufReader::new(stream)).status;
    assert!([0, 414, 431].contains(&status), "{status}");
    let many: String = (0..1000).map(|i| format!("X-{i}: 1\r\n")).collect();
    let mut stream = server.connect();
    let _ = stream.write_all(format!("GET / HTTP/1.1\r\nHost: {host}\r\n{many}\r\n").as_bytes());
    let status = read_answer(&mut BufReader::new(stream)).status;
    assert!([0, 431].contains(&status), "{status}");
    assert_eq!(server.get("/api/shelf").status, 200);
}

#[test]
fn slow_requests_are_ended() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let (host, cookie) = (server.host(), &server.cookie);
    // A body of which a byte comes now and then.
    let mut slow_body = server.connect();
    slow_body
        .write_all(
            format!(
                "POST /api/piece/{BOWL}/edit HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n\
                 Content-Type: application/json\r\nContent-Length: 1000\r\n\r\n"
            )
            .as_bytes(),
        )
        .unwrap();
    // A head of which a byte comes now and then, and a connection that says nothing.
    let mut slow_head = server.connect();
    slow_head.write_all(b"GET / HTTP/1.1\r\n").unwrap();
    let mut silent = server.connect();
    let start = Instant::now();
    let mut answered = None;
    let mut head_closed = None;
    slow_body
        .set_read_timeout(Some(Duration::from_millis(10)))
        .unwrap();
    slow_head
        .set_read_timeout(Some(Duration::from_millis(10)))
        .unwrap();
    while start.elapsed() < Duration::from_secs(40) && (answered.is_none() || head_closed.is_none())
    {
        std::thread::sleep(Duration::from_millis(400));
        let mut byte = [0u8; 512];
        if answered.is_none() {
            let _ = slow_body.write_all(b" ");
            if let Ok(n) = slow_body.read(&mut byte) {
                answered = Some((
                    start.elapsed(),
                    String::from_utf8_lossy(&byte[..n]).into_owned(),
                ));
            }
        }
        if head_closed.is_none() {
            let wrote = slow_head.write_all(b"a");
            let read = slow_head.read(&mut byte);
            if wrote.is_err() || read.is_ok() {
                head_closed = Some(start.elapsed());
            }
        }
    }
    let (after, text) = answered.expect("the slow body is answered");
    assert!(text.starts_with("HTTP/1.1 408"), "{text}");
    assert!(after < Duration::from_secs(30), "{after:?}");
    assert!(head_closed.is_some(), "the slow head is ended");
    let mut rest = Vec::new();
    silent
        .set_read_timeout(Some(Duration::from_secs(40)))
        .unwrap();
    let _ = silent.read_to_end(&mut rest);
    assert!(start.elapsed() < Duration::from_secs(60));
    assert_eq!(server.get("/api/shelf").status, 200);
}

#[test]
fn a_thousand_connections_do_not_stop_it() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let at = std::net::SocketAddr::from((std::net::Ipv4Addr::LOCALHOST, server.port));
    let mut held = Vec::new();
    let mut refused = 0;
    for _ in 0..1000 {
        match std::net::TcpStream::connect_timeout(&at, Duration::from_secs(2)) {
            Ok(stream) => held.push(stream),
            Err(_) => refused += 1,
        }
    }
    std::thread::sleep(Duration::from_millis(500));
    // Some are held, the rest turned away with 503 or closed.
    let mut turned = 0;
    for stream in &mut held {
        stream
            .set_read_timeout(Some(Duration::from_millis(1)))
            .unwrap();
        let mut bytes = [0u8; 64];
        match stream.read(&mut bytes) {
            Ok(0) => turned += 1,
            Ok(n) if bytes[..n].starts_with(b"HTTP/1.1 503") => turned += 1,
            _ => {}
        }
    }
    println!(
        "{} connected, {refused} refused, {turned} turned away",
        held.len()
    );
    assert!(turned + refused >= 700, "{turned} turned away");
    // Those that say nothing are ended in time, and the server answers again.
    let start = Instant::now();
    loop {
        let mut stream = server.connect();
        let _ = stream.write_all(server.text_of("GET", "/api/shelf", "", "", true).as_bytes());
        if read_answer(&mut BufReader::new(stream)).status == 200 {
            break;
        }
        assert!(
            start.elapsed() < Duration::from_secs(40),
            "it answers no more"
        );
        std::thread::sleep(Duration::from_millis(500));
    }
    println!(
        "answered again after {:?}, the attackers still there",
        start.elapsed()
    );
    drop(held);
    assert_eq!(server.get("/api/shelf").status, 200);
}

#[test]
fn malformed_requests_are_refused_and_change_nothing() {
    let dir = folder_with(&[BOWL]);
    let server = Server::start(dir.path());
    let before = server.text(BOWL);
    let path = format!("/api/piece/{BOWL}/edit");
    let deep = format!("{}{}", "[".repeat(100_000), "]".repeat(100_000));
    for body in [
        "",
        "{",
        "null",
        "[]",
        "{}",
        "\u{0}",
        "{\"edits\":null,\"base\":\"\"}",
        "{\"edits\":[{}],\"base\":\"\"}",
        "{\"edits\":[{\"op\":\"explode\",\"path\":\"title\"}],\"base\":\"\"}",
        "{\"edits\":[],\"base\":\"\",\"more\":1}",
        "{\"edits\":[{\"op\":\"set\",\"path\":\"title\",\"value\":{\"a\":1}}],\"base\":\"\"}",
        "{\"edits\":[{\"op\":\"add\",\"path\":\"section\",\"at\":-1}],\"base\":\"\"}",
        "{\"edits\":[{\"op\":\"add\",\"path\":\"section\",\"at\":1e99}],\"base\":\"\"}",
        &deep,
    ] {
        let answer = server.request("POST", &path, "", body);
        let short: String = body.chars().take(60).collect();
        assert_eq!(answer.status, 400, "{short:?}");
        assert!(!answer.json()["problems"].as_array().unwrap().is_empty());
    }
    let not_text = server.raw(&format!(
        "POST {path} HTTP/1.1\r\nHost: {}\r\nCookie: {}\r\nConnection: close\r\n\
         Content-Type: application/json\r\nContent-Length: 4\r\n\r\n\u{7f}\u{1}{{\"",
        server.host(),
        server.cookie
    ));
    assert_eq!(not_text.status, 400);
    // Well-formed, but no setting, no number or no place.
    let base = server.view(BOWL)["version"].clone();
    for edit in [
        json!({ "op": "set", "path": "", "value": 1 }),
        json!({ "op": "set", "path": "section[99].stock", "value": 19 }),
        json!({ "op": "set", "path": "section[1].ring#99.stock", "value": 19 }),
        json!({ "op": "set", "path": "ringwright", "value": 2 }),
        json!({ "op": "set", "path": "__proto__.x", "value": 1 }),
        json!({ "op": "set", "path": "form.wall", "value": 1e300 }),
        json!({ "op": "set", "path": "form.wall", "value": "nan" }),
        json!({ "op": "set", "path": "form.wall", "value": "1e400" }),
        json!({ "op": "set", "path": "section[1].band[0].reach", "value": "far" }),
        json!({ "op": "set", "path": "form.outer[0]", "value": [1] }),
        json!({ "op": "set", "path": "shape.height", "value": "-5 mm" }),
        json!({ "op": "set", "path": "shape.height", "value": "1e400" }),
        json!({ "op": "remove", "path": "form.outer[77]" }),
        json!({ "op": "remove", "path": "title" }),
        json!({ "op": "move", "path": "section[9]", "to": 0 }),
        json!({ "op": "add", "path": "nothing", "at": 0 }),
    ] {
        let answer = server.edit(BOWL, json!([edit]), &base);
        assert!(answer["view"].is_null(), "{edit}");
        let problems = answer["problems"].as_array().unwrap();
        assert!(
            problems
                .iter()
                .all(|p| p["what"] != "" && p["remedy"] != ""),
            "{edit}"
        );
        assert!(!problems.is_empty(), "{edit}");
    }
    assert_eq!(server.text(BOWL), before);
}
