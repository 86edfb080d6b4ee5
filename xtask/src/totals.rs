//! How many tests passed and failed, read from what the test runners print.

use std::ops::AddAssign;

/// Numbers of tests.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Totals {
    /// Tests that passed.
    pub passed: usize,
    /// Tests that failed, ran out of time or could not be started.
    pub failed: usize,
    /// Tests that were left out.
    pub skipped: usize,
}

impl Totals {
    /// The totals in the output of one runner. nextest's summary is the only one that counts where there is one, for
    /// nextest repeats what the binaries of failed tests print. Otherwise these are the sums over the closing lines of
    /// libtest, whose form doc tests and wasm-bindgen-test share.
    pub fn parse(output: &str) -> Self {
        let summary = output.lines().rev().find_map(|line| line.trim_start().strip_prefix("Summary ["));
        if let Some(summary) = summary {
            return Self::of_nextest(summary);
        }
        let mut sum = Self::default();
        for line in output.lines().filter_map(|line| line.strip_prefix("test result: ")) {
            let number = |word| before(line, word).unwrap_or(0);
            sum += Self { passed: number("passed"), failed: number("failed"), skipped: number("ignored") };
        }
        sum
    }

    fn of_nextest(summary: &str) -> Self {
        let passed = before(summary, "passed").unwrap_or(0);
        // Timeouts and tests that could not be started are counted apart from "failed"; all of them were run.
        let run = before(summary, "tests run").or_else(|| before(summary, "test run")).unwrap_or(passed);
        Self { passed, failed: run.saturating_sub(passed), skipped: before(summary, "skipped").unwrap_or(0) }
    }

    /// Whether any test was run.
    pub fn any(self) -> bool {
        self.passed + self.failed > 0
    }
}

impl AddAssign for Totals {
    fn add_assign(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
        self.skipped += other.skipped;
    }
}

/// The number right before `word` in `text`; of a fraction like 3/5, what is run of what there is, the first.
fn before(text: &str, word: &str) -> Option<usize> {
    let (head, _) = text.split_once(&format!(" {word}"))?;
    head.rsplit([' ', '(']).next()?.split('/').next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn totals(passed: usize, failed: usize, skipped: usize) -> Totals {
        Totals { passed, failed, skipped }
    }

    #[test]
    fn libtest_lines_add_up() {
        let output = "running 3 tests\ntest a ... ok\n\
            test result: ok. 3 passed; 0 failed; 1 ignored; 0 measured; 0 filtered out; finished in 0.00s\n\
            test result: FAILED. 2 passed; 4 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.10s\n";
        assert_eq!(Totals::parse(output), totals(5, 4, 1));
    }

    #[test]
    fn nextest_summaries_count() {
        let summary = |rest: &str| Totals::parse(&format!("------------\n     Summary [   0.051s] {rest}\n"));
        assert_eq!(summary("25 tests run: 25 passed, 0 skipped"), totals(25, 0, 0));
        assert_eq!(summary("1 test run: 1 passed, 3 skipped"), totals(1, 0, 3));
        assert_eq!(summary("25 tests run: 23 passed (1 slow, 1 flaky), 2 failed, 1 skipped"), totals(23, 2, 1));
        assert_eq!(summary("9 tests run: 5 passed, 2 failed, 1 exec failed, 1 timed out, 0 skipped"), totals(5, 4, 0));
        assert_eq!(summary("3/9 tests run: 2 passed, 1 failed, 0 skipped"), totals(2, 1, 0));
        assert_eq!(summary("4 tests run: 0 passed, 4 failed, 0 skipped"), totals(0, 4, 0));
    }

    #[test]
    fn what_nextest_repeats_of_a_failed_test_is_not_counted_again() {
        let output = "    test result: FAILED. 0 passed; 1 failed; 0 ignored; 0 measured; 10 filtered out\n\
            test result: FAILED. 0 passed; 1 failed; 0 ignored; 0 measured; 10 filtered out\n\
            \u{20}    Summary [   0.275s] 72 tests run: 71 passed, 1 failed, 0 skipped\n        FAIL [   0.062s] one\n";
        assert_eq!(Totals::parse(output), totals(71, 1, 0));
    }

    #[test]
    fn output_without_a_closing_line_ran_no_test() {
        assert!(!Totals::parse("error: could not compile `xtask`\n3 passed 2 failed\n").any());
        assert!(!Totals::parse("test result: ok. 0 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out").any());
    }
}
