//! The built page in a real browser, in calls that return when the thing is done, so that a test reads like what a
//! person does. What cannot be done panics: it is a failed test.
#![allow(clippy::missing_panics_doc)]

mod audit;
mod driver;
mod scan;
mod server;

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use fantoccini::elements::Element;
use fantoccini::key::Key;
use fantoccini::wd::WindowHandle;
use fantoccini::{Client, ClientBuilder, Locator};
use hyper_util::client::legacy::connect::HttpConnector;
use serde_json::{Value, json};
use tokio::runtime::Runtime;
use url::Url;

pub use audit::Audit;
use driver::{Driver, Own};
use server::Server;

/// How long the page may take for anything; far more than it needs, because machines that test are busy.
const PATIENCE: Duration = Duration::from_secs(30);

/// How often it is looked at in that time.
const GLANCE: Duration = Duration::from_millis(20);

/// Width and height of a phone's page in CSS pixels.
pub const PHONE: (u32, u32) = (390, 844);

/// The same of a laptop's.
pub const LAPTOP: (u32, u32) = (1366, 768);

/// The same of a projector's.
pub const PROJECTOR: (u32, u32) = (1920, 1080);

/// The views of the page: what they are called in tests, and the fragment that leads to them, without its `#`.
pub const VIEWS: &[(&str, &str)] = &[
    ("estimate", ""),
    ("build", "build"),
    ("improve", "improve"),
    ("compare", "compare"),
    ("learn", "learn"),
    ("share", "share"),
];

/// Whether the system asks for light or dark pages.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scheme {
    /// prefers-color-scheme: light.
    Light,
    /// prefers-color-scheme: dark.
    Dark,
}

/// What the mouse does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mouse {
    /// Its button goes down.
    Press,
    /// It moves with the button held down.
    Drag,
    /// Its button goes up.
    Release,
}

/// A browser with a fresh profile, showing the page.
pub struct Page {
    runtime: Runtime,
    client: Client,
    // Dropped after the session is closed: first the driver, then the server.
    _driver: Driver,
    server: Option<Server>,
    /// Where the page is, without a fragment.
    address: String,
}

impl Page {
    /// Opens the page in a fresh profile on a laptop's screen; `fragment` is what follows the `#`, or empty.
    pub fn open(fragment: &str) -> Self {
        let page = Self::blank();
        page.resize(LAPTOP);
        page.go(fragment);
        page
    }

    /// A fresh profile that has not opened the page yet, for what has to be set before that.
    pub fn blank() -> Self {
        Self::serving(built_page())
    }

    /// A fresh profile for the page in `folder`, for one that is not whole.
    pub fn serving(folder: PathBuf) -> Self {
        Self::serving_at(folder, "")
    }

    /// A fresh profile for the page in `folder`, served at `path`, which is empty or ends with a slash.
    pub fn serving_at(folder: PathBuf, path: &str) -> Self {
        let server = Server::start(folder, path);
        let address = server.url();
        Self::at(Some(server), address)
    }

    /// A fresh profile for a page that is a file, without a server.
    pub fn of_file(file: &Path) -> Self {
        Self::at(None, Url::from_file_path(file).expect("the whole path of a file").into())
    }

    fn at(server: Option<Server>, address: String) -> Self {
        let driver = Driver::start();
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
        let client = runtime
            .block_on(ClientBuilder::new(HttpConnector::new()).capabilities(Driver::capabilities()).connect(&driver.url()))
            .expect("chromedriver starts a browser");
        Self { runtime, client, _driver: driver, server, address }
    }

    /// Ends the server: the page is without a network.
    pub fn stop_server(&self) {
        self.server.as_ref().expect("the page has a server").stop();
    }

    /// Serves another folder at the same address.
    pub fn serve_instead(&self, folder: PathBuf) {
        self.server.as_ref().expect("the page has a server").change_to(folder);
    }

    /// Opens the page with another fragment, as a click on a link to it in a new tab does: all is loaded anew, the
    /// profile stays.
    pub fn go(&self, fragment: &str) {
        let hash = if fragment.is_empty() { String::new() } else { format!("#{}", fragment.trim_start_matches('#')) };
        self.wait(self.client.goto("about:blank"));
        self.wait(self.client.goto(&format!("{}{hash}", self.address)));
    }

    /// Reloads the page.
    pub fn reload(&self) {
        self.wait(self.client.refresh());
    }

    /// The window that is driven.
    pub fn window(&self) -> WindowHandle {
        self.wait(self.client.window())
    }

    /// Opens another window of the same browser, which shares what it keeps, and drives that from now on.
    pub fn open_window(&self) -> WindowHandle {
        let window = self.wait(self.client.new_window(false)).handle;
        self.turn_to(&window);
        self.resize(LAPTOP);
        window
    }

    /// Drives another window from now on.
    pub fn turn_to(&self, window: &WindowHandle) {
        self.wait(self.client.switch_to_window(window.clone()));
    }

    /// Gives the page another size in CSS pixels.
    pub fn resize(&self, size: (u32, u32)) {
        self.move_to_screen(size, 1.0);
    }

    /// Shows the page on a screen of this size in CSS pixels, with `pixels` of its own to each.
    pub fn move_to_screen(&self, (width, height): (u32, u32), pixels: f64) {
        // Phones lay scrollbars over the page, where others take width away from it.
        let mobile = width <= PHONE.0;
        let size = json!({ "width": width, "height": height, "deviceScaleFactor": pixels, "mobile": mobile });
        self.devtools("Emulation.setDeviceMetricsOverride", &size);
    }

    /// Sets what the system prefers; takes effect at once.
    pub fn prefer(&self, scheme: Scheme) {
        let value = if scheme == Scheme::Dark { "dark" } else { "light" };
        let features = json!([{ "name": "prefers-color-scheme", "value": value }]);
        self.devtools("Emulation.setEmulatedMedia", &json!({ "features": features }));
    }

    /// Lays the page out as for paper, or for the screen again.
    pub fn lay_out_for_paper(&self, is_for_paper: bool) {
        self.devtools("Emulation.setEmulatedMedia", &json!({ "media": if is_for_paper { "print" } else { "" } }));
    }

    /// Has every page that is opened from now on run `code` before anything of its own.
    pub fn run_first(&self, code: &str) {
        self.devtools("Page.addScriptToEvaluateOnNewDocument", &json!({ "source": code }));
    }

    /// The address, with its fragment.
    pub fn url(&self) -> String {
        self.wait(self.client.current_url()).into()
    }

    /// What follows the `#` in the address; empty when nothing does.
    pub fn fragment(&self) -> String {
        self.url().split_once('#').map(|(_, fragment)| fragment.to_owned()).unwrap_or_default()
    }

    /// The number of elements that match the CSS selector right now.
    pub fn count(&self, css: &str) -> usize {
        self.wait(self.client.find_all(Locator::Css(css))).len()
    }

    /// The text of the first element that matches, as it is rendered; waits until there is one with text.
    pub fn text(&self, css: &str) -> String {
        self.text_when(css, |text| !text.is_empty())
    }

    /// The text of the first element that matches, as soon as it is another one than `old`.
    pub fn changed_text(&self, css: &str, old: &str) -> String {
        self.text_when(css, |text| text != old)
    }

    /// The text of the first element that matches, as soon as it is `good`.
    pub fn text_when(&self, css: &str, good: impl Fn(&str) -> bool) -> String {
        let mut last = None;
        poll(|| {
            // An element that is being redrawn can vanish between finding and reading it.
            last = self.read(css);
            last.clone().filter(|text| good(text))
        })
        .unwrap_or_else(|| panic!("{css} did not get the text that was waited for; last: {last:?}"))
    }

    /// The value of the first field that matches.
    pub fn value(&self, css: &str) -> String {
        self.property(css, "value")
    }

    /// A property of the first element that matches, as text; empty when it has none.
    pub fn property(&self, css: &str, name: &str) -> String {
        let element = self.element(css);
        self.wait(element.prop(name)).unwrap_or_default()
    }

    /// An attribute of the first element that matches.
    pub fn attribute(&self, css: &str, name: &str) -> Option<String> {
        let element = self.element(css);
        self.wait(element.attr(name))
    }

    /// Opens the `<details>` that matches, if it is closed, by a click on its summary.
    pub fn unfold(&self, css: &str) {
        self.wait_for(css);
        if self.count(&format!("{css}[open]")) == 0 {
            self.click(&format!("{css} > summary"));
            self.wait_for(&format!("{css}[open]"));
        }
    }

    /// Clicks the first element that matches.
    pub fn click(&self, css: &str) {
        let element = self.element(css);
        self.wait(element.click());
    }

    /// Replaces the text in a field by typing, and leaves the field.
    pub fn fill(&self, css: &str, text: &str) {
        let element = self.element(css);
        // Not WebDriver's own way of clearing, which leaves the field empty and blurred in between, as no person does.
        let select_all = format!("{}a{}", char::from(Key::Control), char::from(Key::Null));
        self.wait(element.send_keys(&(select_all + text)));
        self.script("arguments[0].blur()", vec![json!(element)]);
    }

    /// Types into the element that matches, without clearing it; for keys see `fantoccini::key::Key`.
    pub fn press(&self, css: &str, keys: &str) {
        let element = self.element(css);
        self.wait(element.send_keys(keys));
    }

    /// Chooses the option with this value in a `<select>`.
    pub fn choose(&self, css: &str, value: &str) {
        let element = self.element(css);
        self.wait(element.select_by_value(value));
    }

    /// Drags a slider over `values`: an input event for each, a change event when it is let go at the last.
    pub fn slide(&self, css: &str, values: &[f64]) {
        for value in values {
            self.set_slider(css, *value);
        }
        self.release_slider(css);
    }

    /// Moves a slider and holds it there: an input event, no change event.
    pub fn set_slider(&self, css: &str, value: f64) {
        let set = "arguments[0].value = arguments[1]; arguments[0].dispatchEvent(new Event('input', { bubbles: true }));";
        self.script(set, vec![json!(self.element(css)), json!(value.to_string())]);
    }

    /// Lets a slider go: a change event.
    pub fn release_slider(&self, css: &str) {
        self.script("arguments[0].dispatchEvent(new Event('change', { bubbles: true }))", vec![json!(self.element(css))]);
    }

    /// Does something with the left button of the mouse at a place in CSS pixels from the window's corner, as input of the
    /// browser itself; returns when the page has dealt with it.
    pub fn mouse(&self, action: Mouse, [x, y]: [f64; 2]) {
        let (kind, held) = match action {
            Mouse::Press => ("mousePressed", 1),
            Mouse::Drag => ("mouseMoved", 1),
            Mouse::Release => ("mouseReleased", 0),
        };
        let event = json!({ "type": kind, "x": x, "y": y, "button": "left", "buttons": held, "clickCount": 1 });
        self.devtools("Input.dispatchMouseEvent", &event);
    }

    /// Waits until `done`; `what` is said when it does not come.
    pub fn wait_until(&self, what: &str, done: impl Fn(&Self) -> bool) {
        poll(|| done(self).then_some(())).unwrap_or_else(|| panic!("this did not come: {what}"));
    }

    /// Waits for an element that matches.
    pub fn wait_for(&self, css: &str) {
        self.element(css);
    }

    /// Runs JavaScript in the page (`arguments` holds `args`) and returns what it returns.
    pub fn script(&self, code: &str, args: Vec<Value>) -> Value {
        self.wait(self.client.execute(code, args))
    }

    /// The same for JavaScript that has its answer later: it calls `arguments[0]` with it.
    pub fn script_async(&self, code: &str) -> Value {
        self.wait(self.client.execute_async(code, Vec::new()))
    }

    /// Keeps by their addresses, as `window.blobs`, what the page offers to save from now on: its policy lets nothing be fetched from
    /// the browser's memory.
    pub fn keep_blobs(&self) {
        let keep = "window.blobs = {}; const make = URL.createObjectURL.bind(URL);
            URL.createObjectURL = blob => { const address = make(blob); blobs[address] = blob; return address; };";
        self.script(keep, Vec::new());
    }

    /// Errors in the console since the last time this was asked for: exceptions, panics, files that were not found.
    pub fn console_errors(&self) -> Vec<String> {
        let entries = self.wait(self.client.issue_cmd(Own::console()));
        let entries = entries.as_array().expect("the log is a list");
        let errors = entries.iter().filter(|entry| entry["level"] == "SEVERE");
        errors.map(|entry| entry["message"].as_str().unwrap_or_default().to_owned()).collect()
    }

    /// Saves what is seen as `NAME.png` in the folder that HUSHWRIGHT_SCREENSHOTS names, or in `target/screenshots`.
    pub fn screenshot(&self, name: &str) -> PathBuf {
        let folder = std::env::var_os("HUSHWRIGHT_SCREENSHOTS")
            .map_or_else(|| Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/screenshots"), PathBuf::from);
        std::fs::create_dir_all(&folder).expect("a folder for pictures");
        let file = folder.join(format!("{name}.png"));
        std::fs::write(&file, self.wait(self.client.screenshot())).expect("the picture can be written");
        file
    }

    /// The texts of the codes to scan that can be read in what is seen.
    pub fn scanned(&self) -> Vec<String> {
        scan::scanned(self)
    }

    /// What accessibility rules (WCAG 2.2 A and AA, and good practice) the page breaks right now, a line for each place.
    pub fn accessibility_violations(&self) -> Vec<String> {
        self.audit().violations
    }

    /// The same, and how much of it could be judged.
    pub fn audit(&self) -> Audit {
        audit::audit(self)
    }

    /// Id of what has the focus; empty where that has none.
    pub fn focused(&self) -> String {
        self.script("return document.activeElement.id", Vec::new()).as_str().unwrap_or_default().to_owned()
    }

    /// Has the page follow what is done with it some ms later, as on a slow device: the tasks that Yew works in are put off.
    pub fn put_off(&self, ms: u32) {
        self.script("queueMicrotask = task => setTimeout(task, arguments[0])", vec![json!(ms)]);
    }

    fn devtools(&self, method: &str, parameters: &Value) {
        self.wait(self.client.issue_cmd(Own::devtools(method, parameters)));
    }

    fn element(&self, css: &str) -> Element {
        self.wait(self.client.wait().at_most(PATIENCE).every(GLANCE).for_element(Locator::Css(css)))
    }

    fn read(&self, css: &str) -> Option<String> {
        self.runtime.block_on(async { self.client.find(Locator::Css(css)).await.ok()?.text().await.ok() })
    }

    fn wait<T, E: std::fmt::Display>(&self, future: impl Future<Output = Result<T, E>>) -> T {
        self.runtime.block_on(future).unwrap_or_else(|error| panic!("the browser says: {error}"))
    }
}

impl Drop for Page {
    fn drop(&mut self) {
        // The browser ends with its session. When that fails, the test has failed before.
        let _ = self.runtime.block_on(self.client.clone().close());
    }
}

/// What `look` finds, as soon as it finds something.
fn poll<T>(mut look: impl FnMut() -> Option<T>) -> Option<T> {
    let start = Instant::now();
    while start.elapsed() < PATIENCE {
        if let Some(seen) = look() {
            return Some(seen);
        }
        std::thread::sleep(GLANCE);
    }
    None
}

/// The folder with the built page: HUSHWRIGHT_DIST, or where `cargo xtask build` puts it.
pub fn built_page() -> PathBuf {
    let folder =
        std::env::var_os("HUSHWRIGHT_DIST").map_or_else(|| Path::new(env!("CARGO_MANIFEST_DIR")).join("../dist"), PathBuf::from);
    assert!(folder.join("index.html").is_file(), "there is no built page in {}: run 'cargo xtask build'", folder.display());
    folder
}

/// The page as one file, beside the built one.
pub fn single_file() -> PathBuf {
    let file = built_page().join("hushwright.html");
    assert!(file.is_file(), "there is no {}: run 'cargo xtask build --single-file'", file.display());
    file
}

/// A copy of the built page in which the file whose name begins with `start` and ends with `end` is changed by `damage`.
pub fn damaged_page(name: &str, [start, end]: [&str; 2], damage: impl Fn(&Path)) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("hushwright-{name}-{}", std::process::id()));
    let damaged = copy_damaged(&built_page(), &folder, &|file: &Path| {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        if name.starts_with(start) && name.ends_with(end) {
            damage(file);
            return true;
        }
        false
    });
    assert_eq!(damaged, 1, "one file of the page is {start}...{end}");
    folder
}

/// A copy of the built page, for a test that changes it.
pub fn copied_page(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("hushwright-{name}-{}", std::process::id()));
    copy_damaged(&built_page(), &folder, &|_| false);
    folder
}

/// Copies a folder with all that is in it; how many files `damage` says it has changed.
fn copy_damaged(from: &Path, to: &Path, damage: &dyn Fn(&Path) -> bool) -> usize {
    std::fs::create_dir_all(to).unwrap();
    let mut damaged = 0;
    for entry in std::fs::read_dir(from).unwrap().map(Result::unwrap) {
        let copy = to.join(entry.file_name());
        if entry.path().is_dir() {
            damaged += copy_damaged(&entry.path(), &copy, damage);
        } else {
            std::fs::copy(entry.path(), &copy).unwrap();
            damaged += usize::from(damage(&copy));
        }
    }
    damaged
}
