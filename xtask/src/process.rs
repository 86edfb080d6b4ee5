//! Running other programs.

use std::io::{BufRead, BufReader, Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

/// The cargo that runs this program, so that everything is built by one toolchain.
pub fn cargo() -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.current_dir(crate::workspace::root());
    command
}

/// The path of the program `name`, when there is one on the search path.
pub fn find(name: &str) -> Option<PathBuf> {
    let file = format!("{name}{}", std::env::consts::EXE_SUFFIX);
    std::env::split_paths(&std::env::var_os("PATH")?).map(|folder| folder.join(&file)).find(|path| path.is_file())
}

/// Runs `command` with its output on our own; `what` names it in the error.
pub fn run(command: &mut Command, what: &str) -> Result<()> {
    let status = command.status().with_context(|| format!("cannot start {what}"))?;
    if !status.success() {
        bail!("{what} failed ({status})");
    }
    Ok(())
}

/// Whether `command` runs and succeeds; its output is dropped.
pub fn succeeds(command: &mut Command) -> bool {
    command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok_and(|status| status.success())
}

/// What `command` prints to standard output, without the white space around it; `None` when it fails.
pub fn output_of(command: &mut Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).stderr(Stdio::null()).output().ok()?;
    output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

/// Runs `command`, shows its output as it comes, and also returns it, with whether the command succeeded.
pub fn run_and_read(command: &mut Command) -> Result<(bool, String)> {
    let mut child = command
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .with_context(|| format!("cannot start {}", Path::new(command.get_program()).display()))?;
    let (out, err) = (child.stdout.take(), child.stderr.take());
    let text = std::thread::scope(|scope| {
        let err = scope.spawn(|| err.map(|pipe| forward(pipe, std::io::stderr())).unwrap_or_default());
        let mut text = out.map(|pipe| forward(pipe, std::io::stdout())).unwrap_or_default();
        text.push_str(&err.join().unwrap_or_default());
        text
    });
    Ok((child.wait()?.success(), text))
}

/// Copies `from` to `to` line by line and returns the whole. Output that nobody reads any more is still collected.
fn forward(from: impl Read, mut to: impl Write) -> String {
    let mut reader = BufReader::new(from);
    let mut text = String::new();
    let mut line = Vec::new();
    while reader.read_until(b'\n', &mut line).is_ok_and(|length| length > 0) {
        let _ = to.write_all(&line).and_then(|()| to.flush());
        text.push_str(&String::from_utf8_lossy(&line));
        line.clear();
    }
    text
}
