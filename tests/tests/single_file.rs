//! The page as one file, opened from a folder where nothing else lies, without a server.

use hushwright_tests::browser::{Page, single_file};
use serde_json::json;

#[test]
fn one_file_computes_plans_and_reopens_without_a_server() {
    let folder = std::env::temp_dir().join(format!("hushwright-single-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder of this test");
    let file = folder.join("box of mine.html");
    std::fs::copy(single_file(), &file).expect("a copy");
    let page = Page::of_file(&file);
    page.run_first(
        "window.refused = []; addEventListener('securitypolicyviolation', event => refused.push(event.effectiveDirective));",
    );
    page.go("");
    let answer = page.text("#answer");
    assert!(answer.contains("dBA"), "{answer}");
    page.text_when("#chance", |chance| chance.starts_with("limit"));
    page.fill("#inner-length_mm", "800");
    page.wait_until("a link", |page| page.fragment().starts_with("v1."));
    let link = page.fragment();
    page.go("build");
    page.wait_for("#plan-weight");
    page.go(&link);
    page.text("#answer");
    assert_eq!(page.value("#inner-length_mm"), "800");
    page.text_when("#chance", |chance| chance.starts_with("limit"));
    // All that it asked for was in its own memory.
    let outside =
        "return performance.getEntriesByType('resource').map(entry => entry.name).filter(name => !/^(blob|data):/.test(name))";
    assert_eq!(page.script(outside, Vec::new()), json!([]));
    assert_eq!(page.script("return refused", Vec::new()), json!([]));
    assert_eq!(page.console_errors(), Vec::<String>::new());
    std::fs::remove_dir_all(folder).expect("a folder of this test");
}
