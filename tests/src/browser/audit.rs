//! Accessibility rules, run by axe-core inside the page.

use serde_json::{Value, json};

use super::Page;

const AXE: &str = include_str!("../../vendor/axe-core/axe.min.js");

/// How many characters of an element are shown.
const LONGEST: usize = 120;

const RUN: &str = "const [options, done] = arguments;
axe.run(document, options).then(
    ({ violations, passes, incomplete }) => {
        const places = rules => rules.filter(rule => rule.id === 'color-contrast').flatMap(rule => rule.nodes).length;
        done({ violations, passes: passes.length, decided: places(passes) + places(violations), undecided: places(incomplete) });
    },
    error => done({ error: String(error) }),
);";

/// What axe-core has to say of a page.
pub struct Audit {
    /// A line for each place where it breaks a rule.
    pub violations: Vec<String>,
    /// Texts whose contrast with their ground was judged.
    pub contrast_decided: u64,
    /// Texts whose contrast could not be judged: they are scrolled out of sight, something may lie over them, or they stand
    /// on a picture.
    pub contrast_undecided: u64,
}

/// Judges `page` as it is right now.
pub fn audit(page: &Page) -> Audit {
    if page.script("return typeof window.axe", Vec::new()) != "object" {
        page.script(AXE, Vec::new());
    }
    let tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    let options = json!({ "runOnly": { "type": "tag", "values": tags }, "resultTypes": ["violations", "passes", "incomplete"] });
    let results = page.wait(page.client.execute_async(RUN, vec![options]));
    assert!(results["passes"].as_u64().is_some_and(|passes| passes > 0), "axe-core judged nothing: {results}");
    let count = |name: &str| results[name].as_u64().expect("a number of places");
    Audit {
        violations: results["violations"].as_array().expect("violations are a list").iter().flat_map(lines).collect(),
        contrast_decided: count("decided"),
        contrast_undecided: count("undecided"),
    }
}

/// The rule, how bad it is and what it asks for, then one of the places and the beginning of what stands there.
fn lines(violation: &Value) -> impl Iterator<Item = String> {
    let text = |key: &str| violation[key].as_str().unwrap_or("?");
    let rule = format!("{} ({}): {}", text("id"), text("impact"), text("help"));
    let places = violation["nodes"].as_array().filter(|places| !places.is_empty()).expect("a violation has a place");
    places.iter().map(move |place| {
        let html = place["html"].as_str().unwrap_or("?").split_whitespace().collect::<Vec<_>>().join(" ");
        format!("{rule}: at {}: {}", selector(&place["target"]), shortened(&html))
    })
}

/// What finds a place again: a selector for the page, after it one for each frame or shadow tree that leads further in.
fn selector(target: &Value) -> String {
    match target {
        Value::String(css) => css.clone(),
        Value::Array(steps) => steps.iter().map(selector).collect::<Vec<_>>().join(", in it "),
        _ => "?".to_owned(),
    }
}

/// The beginning of a text, so that a list of many stays readable.
fn shortened(text: &str) -> String {
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => format!("{} ...", &text[..end]),
        None => text.to_owned(),
    }
}
