//! Every check there is, one after the other, and the benches.

use std::path::Path;
use std::process::{Command, ExitCode};
use std::time::Instant;

use anyhow::{Context, Result, bail};

use crate::tools::Tools;
use crate::totals::Totals;
use crate::{browser, disk, page, process, size, toolchain, workspace};

/// `cargo xtask test`: runs all steps, whatever becomes of those before, and ends with the totals.
pub fn run() -> ExitCode {
    let mut suite = Suite::default();
    suite.check("format", || {
        toolchain::ensure_components()?;
        process::run(process::cargo().args(["fmt", "--all", "--check"]), "cargo fmt")
    });
    let tools = suite.provide("set-up of the page's tools", Tools::ensure);
    let driver = suite.provide("set-up of the browser", browser::ensure_driver);
    suite.check("clippy, native", || clippy(&["--workspace", "--all-targets", "--all-features"]));
    // Workspace members that the page is made of, the core first of all, are checked along with it.
    suite.check("clippy, wasm", || {
        clippy(&["--package", "hushwright-web", "--all-targets", "--target", "wasm32-unknown-unknown"])
    });
    suite.test("native tests", || Outcome::of([runner(), examples_in_docs()]));
    suite.test("wasm tests in Chromium", || Outcome::of([wasm_tests(need(tools.as_ref())?, need(driver.as_ref())?)]));
    let dist = suite.provide("release build of the page", || {
        page::build(need(tools.as_ref())?)?;
        page::make_single_file()?;
        Ok(page::dist())
    });
    suite.test("browser tests of the page", || Outcome::of([browser_tests(need(driver.as_ref())?, need(dist.as_ref())?)?]));
    suite.check("size of the page", || size::check(need(dist.as_ref())?));
    suite.close()
}

/// What an earlier step was to provide.
fn need<T>(provided: Option<T>) -> Result<T> {
    provided.context("not run, because a step above that it needs failed")
}

/// `cargo xtask bench`: the benches of the core, then the same work natively and in a browser side by side.
pub fn bench(options: &[String]) -> Result<ExitCode> {
    // By pattern, for "--benches" would also start the unit tests, which know no option of criterion's.
    let mut command = cargo(&["bench", "--package", "hushwright-core", "--bench", "*", "--"]);
    process::run(command.args(options), "the benches")?;
    let (tools, driver) = (Tools::ensure()?, browser::ensure_driver()?);
    page::build(&tools)?;
    let mut command = cargo(&["bench", "--package", "hushwright-tests", "--bench", "plan", "--"]);
    process::run(command.args(options), "the bench of plans")?;
    let mut command = cargo(&["bench", "--package", "hushwright-tests", "--features", "browser", "--bench", "side_by_side"]);
    command.env("CHROMEDRIVER", driver).env("HUSHWRIGHT_DIST", page::dist());
    process::run(&mut command, "the bench in a browser")?;
    Ok(ExitCode::SUCCESS)
}

fn cargo(arguments: &[&str]) -> Command {
    let mut command = process::cargo();
    command.args(arguments);
    command
}

fn clippy(selection: &[&str]) -> Result<()> {
    process::run(cargo(&["clippy"]).args(selection).args(["--", "--deny", "warnings"]), "cargo clippy")
}

/// nextest, where it is installed, for it runs the tests of all binaries side by side; else cargo's own runner.
fn runner() -> Command {
    let nextest = process::succeeds(&mut cargo(&["nextest", "--version"]));
    let mut command = cargo(if nextest { &["nextest", "run"] } else { &["test", "--lib", "--bins", "--tests", "--examples"] });
    command.args(["--workspace", "--no-fail-fast"]);
    command
}

/// Which nextest leaves out.
fn examples_in_docs() -> Command {
    cargo(&["test", "--workspace", "--doc", "--no-fail-fast"])
}

fn wasm_tests(tools: &Tools, driver: &Path) -> Command {
    let package = ["test", "--package", "hushwright-web", "--target", "wasm32-unknown-unknown", "--no-fail-fast"];
    let mut command = cargo(&package);
    tools.lend(&mut command).env("CHROMEDRIVER", driver);
    // The runner's own limits, 5 s and 20 s, are for a machine that has its browser in memory already.
    command.env("WASM_BINDGEN_TEST_DRIVER_TIMEOUT", "60").env("WASM_BINDGEN_TEST_TIMEOUT", "180");
    command
}

fn browser_tests(driver: &Path, dist: &Path) -> Result<Command> {
    let mut command = cargo(&["test", "--package", "hushwright-tests", "--features", "browser", "--no-fail-fast"]);
    for name in workspace::browser_tests()? {
        command.args(["--test", &name]);
    }
    command.env("CHROMEDRIVER", driver).env("HUSHWRIGHT_DIST", dist);
    Ok(command)
}

/// What has been run so far.
#[derive(Default)]
struct Suite {
    totals: Totals,
    failures: Vec<String>,
}

impl Suite {
    /// A step that passes or fails as a whole.
    fn check(&mut self, name: &str, step: impl FnOnce() -> Result<()>) {
        self.provide(name, step);
    }

    /// A step that passes or fails as a whole and, when it passes, provides what others need.
    fn provide<T>(&mut self, name: &str, step: impl FnOnce() -> Result<T>) -> Option<T> {
        let provided = self.report(name, step);
        let passed = usize::from(provided.is_some());
        self.totals += Totals { passed, failed: 1 - passed, skipped: 0 };
        provided
    }

    /// A step that runs tests, which count one by one.
    fn test(&mut self, name: &str, step: impl FnOnce() -> Result<Outcome>) {
        let mut totals = Totals::default();
        let passed = self.report(name, || {
            let outcome = step()?;
            totals = outcome.totals;
            outcome.judge()
        });
        if passed.is_none() && totals.failed == 0 {
            // Something that is no test went wrong, such as compiling them.
            totals.failed = 1;
        }
        self.totals += totals;
    }

    fn report<T>(&mut self, name: &str, step: impl FnOnce() -> Result<T>) -> Option<T> {
        println!("\n== {name}");
        let start = Instant::now();
        let outcome = step();
        let seconds = start.elapsed().as_secs_f64();
        match outcome {
            Ok(provided) => {
                println!("== {name}: passed in {seconds:.1} s");
                Some(provided)
            }
            Err(error) => {
                println!("== {name}: FAILED in {seconds:.1} s: {error:#}");
                self.failures.push(format!("{name}: {error:#}"));
                None
            }
        }
    }

    /// Prints what failed and why and, alone on the last line, the totals.
    fn close(self) -> ExitCode {
        println!();
        for failure in &self.failures {
            println!("FAILED: {failure}");
        }
        if !self.failures.is_empty()
            && let Some(warning) = disk::warning()
        {
            println!("{warning}");
        }
        if self.totals.skipped > 0 {
            println!("{} tests were left out.", self.totals.skipped);
        }
        println!("{} passed, {} failed", self.totals.passed, self.totals.failed);
        if self.failures.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
    }
}

/// What became of running tests.
struct Outcome {
    all_succeeded: bool,
    totals: Totals,
}

impl Outcome {
    /// Runs `commands`, each a test runner, to the end of the last.
    fn of(commands: impl IntoIterator<Item = Command>) -> Result<Self> {
        let mut outcome = Self { all_succeeded: true, totals: Totals::default() };
        for mut command in commands {
            let (succeeded, output) = process::run_and_read(&mut command)?;
            outcome.totals += Totals::parse(&output);
            outcome.all_succeeded &= succeeded;
        }
        Ok(outcome)
    }

    /// An error unless tests were run and all went well.
    fn judge(&self) -> Result<()> {
        if !self.totals.any() {
            bail!("no test was run");
        }
        if self.totals.failed > 0 {
            bail!("{} of {} tests failed", self.totals.failed, self.totals.passed + self.totals.failed);
        }
        if !self.all_succeeded {
            bail!("the tests that were run passed, but their runner failed");
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outcome(passed: usize, failed: usize, all_succeeded: bool) -> Outcome {
        Outcome { all_succeeded, totals: Totals { passed, failed, skipped: 0 } }
    }

    #[test]
    fn steps_and_tests_add_up_and_a_failure_does_not_stop_the_rest() {
        let mut suite = Suite::default();
        assert_eq!(suite.provide("one", || Ok("tool")), Some("tool"));
        suite.check("two", || bail!("broken"));
        suite.test("three", || Ok(outcome(5, 0, true)));
        suite.test("four", || Ok(outcome(2, 3, false)));
        assert_eq!(suite.totals, Totals { passed: 8, failed: 4, skipped: 0 });
        assert_eq!(suite.failures, ["two: broken", "four: 3 of 5 tests failed"]);
        assert_eq!(suite.close(), ExitCode::FAILURE);
    }

    #[test]
    fn a_test_step_that_runs_nothing_or_breaks_is_a_failure() {
        let mut suite = Suite::default();
        suite.test("empty", || Ok(outcome(0, 0, true)));
        suite.test("no browser", || bail!("no browser"));
        suite.test("runner broke afterwards", || Ok(outcome(3, 0, false)));
        suite.test("well", || Ok(outcome(3, 0, true)));
        assert_eq!(suite.totals, Totals { passed: 6, failed: 3, skipped: 0 });
        let names: Vec<&str> = suite.failures.iter().filter_map(|failure| Some(failure.split_once(':')?.0)).collect();
        assert_eq!(names, ["empty", "no browser", "runner broke afterwards"]);
    }

    #[test]
    fn a_suite_without_failures_succeeds() {
        let mut suite = Suite::default();
        suite.test("well", || Ok(outcome(3, 0, true)));
        assert_eq!(suite.close(), ExitCode::SUCCESS);
    }
}
