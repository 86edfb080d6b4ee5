//! The programs of the core as a user runs them: JSON in, JSON or one line about what is wrong out.

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};
use std::sync::OnceLock;

use serde_json::Value;

/// Builds the programs (they are there already after `cargo test --workspace`) and says where they are.
fn program(name: &str) -> PathBuf {
    static BUILT: OnceLock<Vec<PathBuf>> = OnceLock::new();
    let built = BUILT.get_or_init(|| {
        // The whole workspace, so that features are those of the tests' own build and nothing is compiled twice.
        let mut build = Command::new(env!("CARGO"));
        build.args(["build", "--quiet", "--workspace", "--message-format", "json"]);
        build.args(["--example", "wall", "--example", "rate", "--example", "estimate"]);
        if !cfg!(debug_assertions) {
            build.arg("--release");
        }
        let output = build.current_dir(env!("CARGO_MANIFEST_DIR")).output().expect("cargo runs");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        let messages = String::from_utf8(output.stdout).expect("UTF-8");
        let executable = |line: &str| serde_json::from_str::<Value>(line).ok()?["executable"].as_str().map(PathBuf::from);
        messages.lines().filter_map(executable).collect()
    });
    let found = built.iter().find(|path| path.file_stem().is_some_and(|stem| stem == name));
    found.unwrap_or_else(|| panic!("{name} is not among {built:?}")).clone()
}

/// Runs the program of this name on `input`.
///
/// # Panics
/// When it cannot be started.
pub fn run(name: &str, input: &[u8]) -> Output {
    let mut child = Command::new(program(name))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    child.stdin.take().expect("a pipe").write_all(input).expect("the program reads");
    child.wait_with_output().expect("the program ends")
}

/// What the program prints for good input: one line, one JSON object, no number that is not finite.
///
/// # Panics
/// When it prints anything else.
pub fn answer(name: &str, input: &Value) -> Value {
    let output = run(name, input.to_string().as_bytes());
    let (out, err) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert_eq!((output.status.code(), &*err), (Some(0), ""), "{input}");
    assert_eq!(out.lines().count(), 1);
    serde_json::from_str(&out).expect("one JSON object")
}

/// What the program says to bad input: nothing on standard output, one line on standard error, exit code 2.
///
/// # Panics
/// When it does anything else.
pub fn complaint(name: &str, input: &[u8]) -> String {
    let output = run(name, input);
    let shown = String::from_utf8_lossy(input).chars().take(300).collect::<String>();
    let err = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(2), "{shown}: {err}");
    assert!(output.stdout.is_empty(), "{shown}");
    assert!(err.ends_with('\n') && err.lines().count() == 1 && err.len() > 8, "{shown}: {err}");
    err
}

/// Keys of an object in their order.
///
/// # Panics
/// When it is none.
pub fn keys(object: &Value) -> Vec<&str> {
    object.as_object().expect("an object").keys().map(String::as_str).collect()
}
