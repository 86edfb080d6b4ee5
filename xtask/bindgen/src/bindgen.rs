//! `wasm-bindgen`: writes the glue between the page and its wasm.

fn main() -> anyhow::Result<()> {
    wasm_bindgen_cli::wasm_bindgen::run_cli_with_args(std::env::args_os())
}
