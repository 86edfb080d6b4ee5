//! Tools that turn the crate `web` into a page, kept by name and version in a cache folder outside the tree, so that
//! neither a clean clone nor `cargo clean` costs minutes.

use std::ffi::OsString;
use std::fs::File;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail};

use crate::{finish, process, toolchain, workspace};

/// The last version that builds with the pinned Rust; Trunk.toml asks for the same series.
const TRUNK: &str = "0.21.14";

/// How wasm-opt, which halves the page's wasm, is come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WasmOpt {
    /// It lies in the cache.
    Cached,
    /// Trunk will try to download it.
    LeftToTrunk,
}

/// The tools, ready to be run.
pub struct Tools {
    path: OsString,
    /// How wasm-opt is come by.
    pub wasm_opt: WasmOpt,
}

impl Tools {
    /// Finds all tools in the cache, or installs them there.
    ///
    /// # Errors
    /// When something is missing that cannot be installed; says what and why.
    pub fn ensure() -> Result<Self> {
        toolchain::ensure_wasm_target()?;
        let cache = Cache { folder: cache_folder()? };
        let mut folders = vec![cache.bindgen()?];
        let binaryen = cache.binaryen()?;
        let wasm_opt = if binaryen.is_some() { WasmOpt::Cached } else { WasmOpt::LeftToTrunk };
        folders.extend(binaryen);
        folders.push(cache.trunk(wasm_opt)?);
        // Trunk calls this program at the end of each build (Trunk.toml).
        folders.extend(std::env::current_exe()?.parent().map(Path::to_path_buf));
        folders.extend(std::env::split_paths(&std::env::var_os("PATH").unwrap_or_default()));
        let path = std::env::join_paths(folders).context("a folder of the search path cannot be written into one")?;
        Ok(Self { path, wasm_opt })
    }

    /// Lets `command` find the tools.
    pub fn lend<'a>(&self, command: &'a mut Command) -> &'a mut Command {
        command.env("PATH", &self.path)
    }

    /// Trunk, run in the workspace.
    pub fn trunk(&self) -> Command {
        let mut command = Command::new("trunk");
        self.lend(&mut command);
        // Trunk takes NO_COLOR for an option of its own and stumbles over "1"; a backtrace hides what failed.
        command.env_remove("NO_COLOR").env("RUST_BACKTRACE", "0").current_dir(workspace::root());
        // What a build before this one left in the environment is none of it.
        command.env_remove(finish::ADDRESS);
        // Messages of panics name sources; the page has no use for where they lie on the machine that built it.
        command.env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS", without_paths());
        command
    }
}

/// Flags for rustc, beside those of the workspace, that take this machine's folders out of paths in messages.
fn without_paths() -> String {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| std::env::home_dir().map(|home| home.join(".cargo")));
    let registries = home.and_then(|home| std::fs::read_dir(home.join("registry/src")).ok()).into_iter().flatten();
    let folders = registries.filter_map(|entry| Some(entry.ok()?.path())).chain([workspace::root().to_path_buf()]);
    // Flags are parted by spaces; a folder with one keeps its name.
    let folders = folders.map(|folder| folder.display().to_string()).filter(|folder| !folder.contains(char::is_whitespace));
    folders.map(|folder| format!("--remap-path-prefix={folder}=src")).collect::<Vec<_>>().join(" ")
}

struct Cache {
    folder: PathBuf,
}

impl Cache {
    fn bindgen(&self) -> Result<PathBuf> {
        let version = workspace::wasm_bindgen_version()?;
        self.provide(&format!("wasm-bindgen-{version}"), "bin", |folder| {
            println!("The page's wasm needs wasm-bindgen {version} around it: building it once, about a minute.");
            let install = &mut process::cargo();
            install.args(["install", "--locked", "--path"]).arg(workspace::bindgen_crate());
            cargo_install(install, folder, "wasm-bindgen")
        })
    }

    fn trunk(&self, wasm_opt: WasmOpt) -> Result<PathBuf> {
        // Only a Trunk that has to download needs TLS, which takes a C compiler and half a minute more.
        let (suffix, features): (_, &[&str]) = match wasm_opt {
            WasmOpt::Cached => ("", &[]),
            WasmOpt::LeftToTrunk => ("-tls", &["--features", "rustls"]),
        };
        self.provide(&format!("trunk-{TRUNK}{suffix}"), "bin", |folder| {
            println!("The page is put together by trunk {TRUNK}: building it once, about two minutes.");
            let install = &mut process::cargo();
            install.args(["install", "--locked", "trunk", "--version", TRUNK, "--no-default-features"]).args(features);
            // Its own profile optimises for minutes what runs for a second.
            install.env("CARGO_PROFILE_RELEASE_LTO", "off");
            install.env("CARGO_PROFILE_RELEASE_OPT_LEVEL", "0");
            install.env("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16");
            cargo_install(install, folder, "trunk")
        })
    }

    /// The folder with wasm-opt; `None` where npm is missing or has failed, which is said.
    fn binaryen(&self) -> Result<Option<PathBuf>> {
        let version = workspace::binaryen_version()?;
        let npm = if cfg!(windows) { "npm.cmd" } else { "npm" };
        let name = format!("binaryen-{version}");
        let inside = "node_modules/.bin";
        if !self.folder.join(&name).join(inside).is_dir() && !process::succeeds(Command::new(npm).arg("--version")) {
            println!("There is no npm to bring wasm-opt, which makes the page smaller. Leaving it to trunk to download it.");
            return Ok(None);
        }
        let provided = self.provide(&name, inside, |folder| {
            println!("The page's wasm is made smaller by wasm-opt: fetching binaryen {version} through npm.");
            let install = &mut Command::new(npm);
            install.args(["install", "--no-audit", "--no-fund", "--no-save", "--prefix"]).arg(folder);
            process::run(install.arg(format!("binaryen@{version}")).current_dir(folder), "npm")
        });
        // wasm-opt is a program for node, which may be missing or too old, whatever npm says.
        let runs = |folder: &PathBuf| {
            let wasm_opt = folder.join(if cfg!(windows) { "wasm-opt.cmd" } else { "wasm-opt" });
            process::succeeds(Command::new(wasm_opt).arg("--version"))
        };
        match provided {
            Ok(folder) if runs(&folder) => return Ok(Some(folder)),
            Ok(folder) => println!("wasm-opt in {} does not run, perhaps for want of node.", folder.display()),
            Err(error) => println!("{error:#}."),
        }
        println!("Leaving it to trunk to download wasm-opt.");
        Ok(None)
    }

    /// The folder `inside` the folder `name` of the cache, filled by `install` when it is not there. Installs beside
    /// it and renames, so that a run that was broken off leaves nothing that looks whole, but what the next can go on with.
    fn provide(&self, name: &str, inside: &str, install: impl FnOnce(&Path) -> Result<()>) -> Result<PathBuf> {
        let place = self.folder.join(name);
        let wanted = place.join(inside);
        if wanted.is_dir() {
            return Ok(wanted);
        }
        let staging = self.folder.join(format!("{name}.part"));
        std::fs::create_dir_all(&self.folder)
            .with_context(|| format!("cannot write to {}; HUSHWRIGHT_TOOLS can name another folder", self.folder.display()))?;
        // Held until the end, so that two runs at the same time do not install into each other.
        let lock = File::create(self.folder.join(format!("{name}.lock"))).context("cannot write to the cache of tools")?;
        lock.lock().context("cannot lock the cache of tools")?;
        if wanted.is_dir() {
            return Ok(wanted);
        }
        std::fs::create_dir_all(&staging)?;
        install(&staging)?;
        std::fs::rename(&staging, &place).with_context(|| format!("cannot put {} in its place", place.display()))?;
        println!("Kept in {}.", place.display());
        if !wanted.is_dir() {
            bail!("{name} was installed, but {} is not there", wanted.display());
        }
        Ok(wanted)
    }
}

/// Runs a `cargo install` whose result lands in `folder`, and drops what was only needed to build it.
fn cargo_install(command: &mut Command, folder: &Path, what: &str) -> Result<()> {
    let build = folder.join("build");
    process::run(command.arg("--root").arg(folder).env("CARGO_TARGET_DIR", &build), &format!("building {what}"))?;
    std::fs::remove_dir_all(&build).with_context(|| format!("cannot remove {}", build.display()))
}

/// Where tools are kept: `HUSHWRIGHT_TOOLS`, else the system's folder for caches.
fn cache_folder() -> Result<PathBuf> {
    let named = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty()).map(PathBuf::from);
    let folder = named("HUSHWRIGHT_TOOLS").or_else(|| {
        let caches = if cfg!(windows) {
            named("LOCALAPPDATA")
        } else if cfg!(target_os = "macos") {
            named("HOME").map(|home| home.join("Library/Caches"))
        } else {
            named("XDG_CACHE_HOME").or_else(|| named("HOME").map(|home| home.join(".cache")))
        };
        caches.map(|caches| caches.join("hushwright/tools"))
    });
    let folder = folder.context("there is no home folder to keep tools in; HUSHWRIGHT_TOOLS can name one")?;
    std::path::absolute(&folder).with_context(|| format!("{} is no usable folder", folder.display()))
}
