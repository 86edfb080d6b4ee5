//! What was asked for on the command line.

/// Printed when the command line makes no sense, or on `--help`.
pub const USAGE: &str = "\
usage: cargo xtask COMMAND

  serve [--port N]   build the page and serve it on 127.0.0.1 (default: the first free port from 8080)
  test               run every check there is, ending with 'N passed, N failed'
  build              build the page into dist/, a folder that any web server can serve
  bench [OPTIONS]    run the criterion benches of the core, OPTIONS going to criterion, then native and browser side by side
  size               build the page and print its size, compressed

Tools that the page needs are fetched once into a cache folder (HUSHWRIGHT_TOOLS overrides where).";

/// One of the things this program does.
#[derive(Debug, PartialEq, Eq)]
pub enum Command {
    /// Print the usage.
    Help,
    /// Build and serve the page, on this port or on the first free one.
    Serve {
        /// The port that was asked for.
        port: Option<u16>,
    },
    /// Run all checks.
    Test,
    /// Build the page into `dist/`.
    Build,
    /// Run the benches.
    Bench {
        /// Handed on to criterion.
        options: Vec<String>,
    },
    /// Build the page and print its size.
    Size,
}

/// Reads the arguments after the program's name; the error is a sentence for the person who typed them.
pub fn parse(arguments: impl IntoIterator<Item = String>) -> Result<Command, String> {
    let mut arguments = arguments.into_iter();
    let name = arguments.next().ok_or("Which command?")?;
    let rest: Vec<String> = arguments.collect();
    let command = match name.as_str() {
        "-h" | "--help" | "help" => return Ok(Command::Help),
        "serve" => return serve(&rest),
        "bench" => return Ok(Command::Bench { options: rest }),
        "test" => Command::Test,
        "build" => Command::Build,
        "size" => Command::Size,
        _ => return Err(format!("There is no command '{name}'.")),
    };
    match rest.first() {
        None => Ok(command),
        Some(extra) => Err(format!("'{name}' takes nothing after it, but there is '{extra}'.")),
    }
}

fn serve(rest: &[String]) -> Result<Command, String> {
    let rest: Vec<&str> = rest.iter().map(String::as_str).collect();
    let port = match rest.as_slice() {
        [] => return Ok(Command::Serve { port: None }),
        ["--port", port] => port,
        [one] if one.starts_with("--port=") => &one["--port=".len()..],
        ["--port"] => return Err("--port wants a number from 1 to 65535 after it.".into()),
        _ => return Err(format!("'serve' takes only --port N, but there is '{}'.", rest.join(" "))),
    };
    match port.parse() {
        Ok(port) if port > 0 => Ok(Command::Serve { port: Some(port) }),
        _ => Err(format!("--port wants a number from 1 to 65535, not '{port}'.")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn parsed(line: &str) -> Result<Command, String> {
        parse(line.split_whitespace().map(String::from))
    }

    #[test]
    fn commands_are_recognised() {
        assert_eq!(parsed("test"), Ok(Command::Test));
        assert_eq!(parsed("build"), Ok(Command::Build));
        assert_eq!(parsed("size"), Ok(Command::Size));
        assert_eq!(parsed("--help"), Ok(Command::Help));
        assert_eq!(parsed("serve"), Ok(Command::Serve { port: None }));
        assert_eq!(parsed("serve --port 9000"), Ok(Command::Serve { port: Some(9000) }));
        assert_eq!(parsed("serve --port=9000"), Ok(Command::Serve { port: Some(9000) }));
        assert_eq!(parsed("bench wall --quick"), Ok(Command::Bench { options: vec!["wall".into(), "--quick".into()] }));
    }

    #[test]
    fn nonsense_is_refused_with_what_is_wrong() {
        for (line, part) in [
            ("", "Which command"),
            ("sevre", "'sevre'"),
            ("test all", "'all'"),
            ("serve --port", "1 to 65535"),
            ("serve --port 0", "'0'"),
            ("serve --port 70000", "'70000'"),
            ("serve --open", "'--open'"),
        ] {
            let complaint = parsed(line).expect_err(line);
            assert!(complaint.contains(part), "{line}: {complaint}");
        }
    }
}
