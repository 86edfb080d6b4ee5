//! chromedriver as a child process, and what it speaks beyond the standard protocol.

use std::io::{BufRead, BufReader};
use std::process::{Child, ChildStdout, Command, Stdio};

use fantoccini::wd::WebDriverCompatibleCommand;
use http::Method;
use serde_json::{Map, Value, json};
use url::{ParseError, Url};

/// A chromedriver of its own; ended when it is dropped.
pub struct Driver {
    child: Child,
    port: u16,
    // Held open, for a program that writes into a closed pipe is ended.
    _output: BufReader<ChildStdout>,
}

impl Driver {
    /// Starts the program that CHROMEDRIVER names, or the one on the search path, on a free port.
    pub fn start() -> Self {
        let program = std::env::var_os("CHROMEDRIVER").unwrap_or_else(|| "chromedriver".into());
        let mut child = Command::new(&program)
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap_or_else(|error| panic!("cannot start {}: {error}; 'cargo xtask test' installs it", program.display()));
        let mut output = BufReader::new(child.stdout.take().expect("its output is piped"));
        let mut said = String::new();
        let port = loop {
            let mut line = String::new();
            let length = output.read_line(&mut line).expect("its output can be read");
            assert!(length > 0, "chromedriver ended without naming its port: {said}");
            said.push_str(&line);
            let number = line.trim_end().trim_end_matches('.').rsplit_once("started successfully on port ");
            if let Some(port) = number.and_then(|(_, number)| number.parse().ok()) {
                break port;
            }
        };
        Self { child, port, _output: output }
    }

    /// Where it takes commands.
    pub fn url(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// What a session is started with: a headless browser with a profile of its own that keeps a log of its console.
    pub fn capabilities() -> Map<String, Value> {
        // Tests run as root on a machine for tests, where there is no sandbox, no graphics card and little shared memory.
        let arguments = [
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-dev-shm-usage",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--lang=en-GB",
        ];
        Map::from_iter([
            ("browserName".to_owned(), json!("chrome")),
            ("goog:chromeOptions".to_owned(), json!({ "args": arguments })),
            ("goog:loggingPrefs".to_owned(), json!({ "browser": "ALL" })),
        ])
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// A command of chromedriver's own: the end of its address, and what is sent there.
#[derive(Debug)]
pub struct Own {
    end: &'static str,
    body: Value,
}

impl Own {
    /// A command of the browser's devtools protocol.
    pub fn devtools(method: &str, parameters: &Value) -> Self {
        Self { end: "goog/cdp/execute", body: json!({ "cmd": method, "params": parameters }) }
    }

    /// What the console has got since the last time this was asked for.
    pub fn console() -> Self {
        Self { end: "se/log", body: json!({ "type": "browser" }) }
    }
}

impl WebDriverCompatibleCommand for Own {
    fn endpoint(&self, base: &Url, session: Option<&str>) -> Result<Url, ParseError> {
        base.join(&format!("session/{}/{}", session.unwrap_or_default(), self.end))
    }

    fn method_and_body(&self, _: &Url) -> (Method, Option<String>) {
        (Method::POST, Some(self.body.to_string()))
    }
}
