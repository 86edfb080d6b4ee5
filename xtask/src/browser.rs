//! The browser that tests run in, and its driver.

use std::path::PathBuf;
use std::process::Command;

use anyhow::{Result, bail};

use crate::process;

/// Debian's names; the font is what text is measured and drawn with in tests.
const PACKAGES: [&str; 3] = ["chromium", "chromium-driver", "fonts-dejavu-core"];

/// Names under which Chromium or one of its kin is installed.
const BROWSERS: [&str; 4] = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];

/// The path of chromedriver. Where it or the browser is missing, installs both through apt-get if that is allowed.
///
/// # Errors
/// When they are missing and cannot be installed; says what to type.
pub fn ensure_driver() -> Result<PathBuf> {
    if let Some(driver) = present() {
        return Ok(driver);
    }
    let install = format!("apt-get update && apt-get install -y --no-install-recommends {}", PACKAGES.join(" "));
    if process::find("apt-get").is_none() {
        bail!(
            "the tests of the page need Chromium and chromedriver of the same version on the search path \
             (CHROMEDRIVER can name the driver): install them in the way of your system; where there is apt-get: {install}"
        );
    }
    if process::output_of(Command::new("id").arg("-u")).as_deref() != Some("0") {
        bail!("the tests of the page need Chromium and its driver, and only root may install them. Type: sudo sh -c '{install}'");
    }
    println!("The tests of the page need Chromium and its driver: installing them through apt-get.");
    process::run(Command::new("apt-get").arg("update"), "apt-get update")?;
    let mut apt = Command::new("apt-get");
    apt.args(["install", "-y", "--no-install-recommends"]).args(PACKAGES).env("DEBIAN_FRONTEND", "noninteractive");
    process::run(&mut apt, "apt-get install")?;
    match present() {
        Some(driver) => Ok(driver),
        None => bail!("apt-get has installed {}, but there is still no browser with a driver", PACKAGES.join(", ")),
    }
}

/// The driver, when it and a browser are there.
fn present() -> Option<PathBuf> {
    let driver = std::env::var_os("CHROMEDRIVER").map(PathBuf::from).or_else(|| process::find("chromedriver"))?;
    let runs = process::succeeds(Command::new(&driver).arg("--version"));
    // Where Chrome is an application rather than a program on the path, its driver knows where to look.
    let browser = cfg!(any(windows, target_os = "macos")) || BROWSERS.iter().any(|name| process::find(name).is_some());
    (runs && browser).then_some(driver)
}
