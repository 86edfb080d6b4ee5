//! What was asked for on the command line.

use crate::address;

/// Printed when the command line makes no sense, or on `--help`.
pub const USAGE: &str = "\
usage: cargo xtask COMMAND

  serve [--port N]   build the page and serve it on 127.0.0.1 (default: the first free port from 8080)
        [--lan]      to everybody in the same network, with a code that phones read
  test               run every check there is, ending with 'N passed, N failed'
  build              build the page into dist/, a folder that any web server can serve
        [--single-file]  and as one file, dist/hushwright.html, which opens without a server
        [--address URL]  for links that name where it will be published, such as https://example.org/box/
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
        /// Whether others in the same network can open it.
        lan: bool,
    },
    /// Run all checks.
    Test,
    /// Build the page into `dist/`.
    Build {
        /// Whether to make one file of it too.
        single_file: bool,
        /// Where it will be published, if that is known.
        address: Option<String>,
    },
    /// What trunk calls at the end of each build; nobody types it.
    Finish,
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
        "serve" => return serve(rest),
        "build" => return build(rest),
        "bench" => return Ok(Command::Bench { options: rest }),
        "test" => Command::Test,
        "finish" => Command::Finish,
        "size" => Command::Size,
        _ => return Err(format!("There is no command '{name}'.")),
    };
    match rest.first() {
        None => Ok(command),
        Some(extra) => Err(format!("'{name}' takes nothing after it, but there is '{extra}'.")),
    }
}

fn serve(rest: Vec<String>) -> Result<Command, String> {
    let (mut port, mut lan) = (None, false);
    let mut rest = Options(rest.into_iter());
    while let Some((name, value)) = rest.next() {
        match name.as_str() {
            "--port" => port = Some(port_number(&rest.value(value).unwrap_or_default())?),
            "--lan" if value.is_none() => lan = true,
            _ => return Err(format!("'serve' takes only --port N and --lan, but there is '{name}'.")),
        }
    }
    Ok(Command::Serve { port, lan })
}

fn build(rest: Vec<String>) -> Result<Command, String> {
    let (mut single_file, mut address) = (false, None);
    let mut rest = Options(rest.into_iter());
    while let Some((name, value)) = rest.next() {
        match name.as_str() {
            "--single-file" if value.is_none() => single_file = true,
            "--address" => address = Some(address::public(&rest.value(value).unwrap_or_default())?),
            _ => return Err(format!("'build' takes only --single-file and --address URL, but there is '{name}'.")),
        }
    }
    Ok(Command::Build { single_file, address })
}

/// What follows a command: names, with their value behind a `=` or as the next word.
struct Options(std::vec::IntoIter<String>);

impl Options {
    /// The next name, and its value if it is part of the same word.
    fn next(&mut self) -> Option<(String, Option<String>)> {
        let word = self.0.next()?;
        match word.split_once('=') {
            Some((name, value)) => Some((name.to_owned(), Some(value.to_owned()))),
            None => Some((word, None)),
        }
    }

    /// The value of a name that wants one.
    fn value(&mut self, within: Option<String>) -> Option<String> {
        within.or_else(|| self.0.next())
    }
}

fn port_number(text: &str) -> Result<u16, String> {
    match text.parse() {
        Ok(port) if port > 0 => Ok(port),
        _ => Err(format!("--port wants a number from 1 to 65535, not '{text}'.")),
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
        assert_eq!(parsed("size"), Ok(Command::Size));
        assert_eq!(parsed("--help"), Ok(Command::Help));
        let serve = |port, lan| Ok(Command::Serve { port, lan });
        assert_eq!(parsed("serve"), serve(None, false));
        assert_eq!(parsed("serve --port 9000"), serve(Some(9000), false));
        assert_eq!(parsed("serve --port=9000"), serve(Some(9000), false));
        assert_eq!(parsed("serve --lan --port 9000"), serve(Some(9000), true));
        assert_eq!(parsed("serve --port 9000 --lan"), serve(Some(9000), true));
        let build = |single_file, address: Option<&str>| Ok(Command::Build { single_file, address: address.map(String::from) });
        assert_eq!(parsed("build"), build(false, None));
        assert_eq!(parsed("build --single-file"), build(true, None));
        assert_eq!(parsed("build --address https://example.org/box?a=b"), build(false, Some("https://example.org/box?a=b")));
        assert_eq!(
            parsed("build --address=https://example.org/?a=b --single-file"),
            build(true, Some("https://example.org/?a=b"))
        );
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
            ("serve --lan=yes", "'--lan'"),
            ("build dist", "'dist'"),
            ("build --single-file=a.html", "'--single-file'"),
            ("build --address", "https://example.org/box/"),
            ("build --address example.org", "does not begin with https://"),
            ("build --address https://example.org/#a", "'#'"),
        ] {
            let complaint = parsed(line).expect_err(line);
            assert!(complaint.contains(part), "{line}: {complaint}");
        }
    }
}
