//! `wasm-bindgen-test-runner`: runs wasm tests in a browser.

fn main() -> anyhow::Result<()> {
    wasm_bindgen_cli::wasm_bindgen_test_runner::run_cli_with_args(std::env::args_os())
}
