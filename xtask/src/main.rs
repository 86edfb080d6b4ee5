//! The only build tool of Hushwright: it sets up what a machine with nothing but Rust lacks, then serves, tests,
//! builds, benches or sizes the page.

mod address;
mod args;
mod browser;
mod disk;
mod finish;
mod lan;
mod page;
mod process;
mod size;
mod suite;
mod toolchain;
mod tools;
mod totals;
mod workspace;

use std::process::ExitCode;

use args::Command;

fn main() -> ExitCode {
    let command = match args::parse(std::env::args().skip(1)) {
        Ok(command) => command,
        Err(complaint) => {
            eprintln!("{complaint}\n\n{}", args::USAGE);
            return ExitCode::from(2);
        }
    };
    let outcome = match command {
        Command::Help => {
            println!("{}", args::USAGE);
            return ExitCode::SUCCESS;
        }
        Command::Serve { port, lan } => page::serve(port, lan),
        Command::Test => Ok(suite::run()),
        Command::Build { single_file, address } => page::build_for_use(single_file, address.as_deref()),
        Command::Finish => finish::run(),
        Command::Bench { options } => suite::bench(&options),
        Command::Size => size::of_fresh_build(),
    };
    match outcome {
        Ok(code) => code,
        Err(error) => {
            eprintln!("xtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}
