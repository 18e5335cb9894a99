//! A server of its own for each test, and a plain client without a library, so that
//! requests can be as wrong as an attacker's.
#![allow(dead_code, clippy::unwrap_used)]

use std::io::{BufRead, BufReader, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::Value;

/// A running server; it is ended with the test.
pub struct Server {
    pub child: Child,
    pub port: u16,
    pub token: String,
    pub cookie: String,
    pub folder: PathBuf,
}

/// An answer.
#[derive(Debug)]
pub struct Answer {
    pub status: u16,
    pub head: String,
    pub body: Vec<u8>,
}

impl Answer {
    pub fn json(&self) -> Value {
        serde_json::from_slice(&self.body)
            .unwrap_or_else(|e| panic!("{e}: {}", String::from_utf8_lossy(&self.body)))
    }

    pub fn header(&self, name: &str) -> Option<&str> {
        self.head.lines().find_map(|l| {
            let (key, value) = l.split_once(':')?;
            key.eq_ignore_ascii_case(name).then(|| value.trim())
        })
    }
}

pub fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples")
}

/// A folder with a copy of an example.
pub fn folder_with(names: &[&str]) -> tempfile::TempDir {
    let dir = tempfile::tempdir().unwrap();
    for name in names {
        let file = format!("{name}.toml");
        std::fs::copy(examples().join(&file), dir.path().join(&file)).unwrap();
    }
    dir
}

impl Server {
    pub fn start(folder: &Path) -> Server {
        Self::start_at(folder, 0)
    }

    pub fn start_at(folder: &Path, port: u16) -> Server {
        let mut child = Command::new(env!("CARGO_BIN_EXE_ringwright"))
            .args(["open", "--no-browser", "--port", &port.to_string()])
            .arg(folder)
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let address = lines
            .by_ref()
            .map_while(Result::ok)
            .find(|l| l.starts_with("http://"))
            .expect("the server prints its address");
        let rest = address.strip_prefix("http://127.0.0.1:").unwrap();
        let (port, token) = rest.split_once("/?token=").unwrap();
        let mut server = Server {
            child,
            port: port.parse().unwrap(),
            token: token.into(),
            cookie: String::new(),
            folder: folder.into(),
        };
        let welcome = server.raw(&format!(
            "GET /?token={token} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n\r\n"
        ));
        assert_eq!(welcome.status, 303, "{}", welcome.head);
        let cookie = welcome.header("set-cookie").unwrap();
        server.cookie = cookie.split(';').next().unwrap().into();
        server
    }

    pub fn connect(&self) -> TcpStream {
        let at = SocketAddr::from((Ipv4Addr::LOCALHOST, self.port));
        let stream = TcpStream::connect(at).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_secs(60)))
            .unwrap();
        stream
    }

    /// Sends bytes as they are and reads one answer.
    pub fn raw(&self, request: &str) -> Answer {
        let mut stream = self.connect();
        stream.write_all(request.as_bytes()).unwrap();
        read_answer(&mut BufReader::new(stream))
    }

    pub fn host(&self) -> String {
        format!("127.0.0.1:{}", self.port)
    }

    pub fn request(&self, method: &str, path: &str, more: &str, body: &str) -> Answer {
        self.raw(&self.text_of(method, path, more, body, true))
    }

    pub fn text_of(&self, method: &str, path: &str, more: &str, body: &str, close: bool) -> String {
        let host = self.host();
        let kind = if method == "POST" {
            format!(
                "Content-Type: application/json\r\nContent-Length: {}\r\n",
                body.len()
            )
        } else {
            String::new()
        };
        let close = if close { "Connection: close\r\n" } else { "" };
        format!(
            "{method} {path} HTTP/1.1\r\nHost: {host}\r\nCookie: {}\r\n{close}{kind}{more}\r\n{body}",
            self.cookie
        )
    }

    pub fn get(&self, path: &str) -> Answer {
        self.request("GET", path, "", "")
    }

    pub fn post(&self, path: &str, body: &Value) -> Answer {
        self.request("POST", path, "", &body.to_string())
    }

    pub fn view(&self, name: &str) -> Value {
        let answer = self.get(&format!("/api/piece/{name}"));
        assert_eq!(
            answer.status,
            200,
            "{}",
            String::from_utf8_lossy(&answer.body)
        );
        answer.json()
    }

    /// Sets one key on what now stands.
    pub fn set(&self, name: &str, path: &str, value: Value) -> Value {
        let base = self.view(name)["version"].clone();
        let edits = serde_json::json!([{ "op": "set", "path": path, "value": value }]);
        self.edit(name, edits, &base)
    }

    pub fn edit(&self, name: &str, edits: Value, base: &Value) -> Value {
        let body = serde_json::json!({ "edits": edits, "base": base });
        let answer = self.post(&format!("/api/piece/{name}/edit"), &body);
        assert_eq!(
            answer.status,
            200,
            "{}",
            String::from_utf8_lossy(&answer.body)
        );
        answer.json()
    }

    pub fn text(&self, name: &str) -> String {
        std::fs::read_to_string(self.folder.join(format!("{name}.toml"))).unwrap()
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Reads one answer with a length or until the end.
pub fn read_answer(reader: &mut impl BufRead) -> Answer {
    let mut head = String::new();
    loop {
        let mut line = String::new();
        match reader.read_line(&mut line) {
            Ok(0) | Err(_) => break,
            Ok(_) if line == "\r\n" => break,
            Ok(_) => head.push_str(&line),
        }
    }
    let status = head
        .split_whitespace()
        .nth(1)
        .and_then(|s| s.parse().ok())
        .unwrap_or(0);
    let mut answer = Answer {
        status,
        head,
        body: Vec::new(),
    };
    let length = answer
        .header("content-length")
        .and_then(|l| l.parse::<usize>().ok());
    match length {
        Some(length) => {
            answer.body = vec![0; length];
            if reader.read_exact(&mut answer.body).is_err() {
                answer.body.clear();
            }
        }
        None => {
            let _ = reader.read_to_end(&mut answer.body);
        }
    }
    answer
}
