//! Accessibility rules, run by axe-core inside the page.

use serde_json::{Value, json};

use super::Page;

const AXE: &str = include_str!("../../vendor/axe-core/axe.min.js");

const RUN: &str = "const [options, done] = arguments;
axe.run(document, options).then(
    results => done({ violations: results.violations, passes: results.passes.length }),
    error => done({ error: String(error) }),
);";

/// A line for each rule that `page` breaks.
pub fn violations(page: &Page) -> Vec<String> {
    if page.script("return typeof window.axe", Vec::new()) != "object" {
        page.script(AXE, Vec::new());
    }
    let tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    let options = json!({ "runOnly": { "type": "tag", "values": tags }, "resultTypes": ["violations", "passes"] });
    let results = page.wait(page.client.execute_async(RUN, vec![options]));
    assert!(results["passes"].as_u64().is_some_and(|passes| passes > 0), "axe-core judged nothing: {results}");
    results["violations"].as_array().expect("violations are a list").iter().map(line).collect()
}

fn line(violation: &Value) -> String {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let nodes = violation["nodes"].as_array().map(Vec::as_slice).unwrap_or_default();
    let places: Vec<String> = nodes.iter().map(|node| text(&node["html"])).collect();
    format!("{} ({}): {}", text(&violation["id"]), text(&violation["help"]), places.join(" | "))
}
