//! Accessibility rules, run by axe-core inside the page, and what it leaves undecided in drawings.

use serde_json::{Value, json};

use super::Page;

const AXE: &str = include_str!("../../vendor/axe-core/axe.min.js");

/// How many characters of an element are shown.
const LONGEST: usize = 120;

const RUN: &str = "const [options, done] = arguments;
const isDrawn = place => typeof place.target.at(-1) === 'string' && !!document.querySelector(place.target.at(-1))?.closest('svg');
axe.run(document, options).then(
    ({ violations, passes, incomplete }) => {
        const places = rules => rules.filter(rule => rule.id === 'color-contrast').flatMap(rule => rule.nodes)
            .filter(place => !isDrawn(place)).length;
        done({ violations, passes: passes.length, decided: places(passes) + places(violations), undecided: places(incomplete) });
    },
    error => done({ error: String(error) }),
);";

/// The contrast of every text in a drawing that is seen with what was painted under its middle before it: axe-core leaves those
/// undecided. A list of those with less than WCAG 2.2, 1.4.3 asks for (4.5 : 1, as if none were large), relative luminance as
/// defined there; and how many there are.
const DRAWN: &str = "const channels = colour => colour.match(/[0-9.]+/g).map(Number);
const linear = part => part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
const luminance = ([r, g, b]) => 0.2126 * linear(r / 255) + 0.7152 * linear(g / 255) + 0.0722 * linear(b / 255);
const over = (colour, opacity, ground) => {
    const [r, g, b, a = 1] = channels(colour);
    return [r, g, b].map((part, k) => a * opacity * part + (1 - a * opacity) * ground[k]);
};
const paper = element => {
    const own = channels(getComputedStyle(element).backgroundColor);
    return (own[3] ?? 1) === 1 ? own : element.parentElement ? paper(element.parentElement) : [255, 255, 255];
};
const texts = [...document.querySelectorAll('svg text')].filter(text => text.checkVisibility() && text.textContent.trim());
const weak = [];
for (const text of texts) {
    const svg = text.closest('svg'), box = text.getBoundingClientRect();
    let ground = paper(svg);
    for (const shape of svg.querySelectorAll('rect, path, polygon, circle, ellipse')) {
        const isBefore = shape.compareDocumentPosition(text) & Node.DOCUMENT_POSITION_FOLLOWING;
        const style = getComputedStyle(shape);
        if (!isBefore || shape.closest('defs, pattern, clipPath, mask') || style.fill === 'none') continue;
        const middle = new DOMPoint(box.x + box.width / 2, box.y + box.height / 2).matrixTransform(shape.getScreenCTM().inverse());
        if (!shape.isPointInFill(middle)) continue;
        const pattern = style.fill.match(/url[(][\"']*(#[^\"')]+)/);
        const tint = pattern && document.querySelector(pattern[1] + ' .tint');
        const fill = tint ? getComputedStyle(tint).fill : style.fill;
        if (fill.startsWith('rgb')) ground = over(fill, style.fillOpacity * style.opacity, ground);
    }
    const style = getComputedStyle(text);
    const both = [luminance(over(style.fill, style.fillOpacity * style.opacity, ground)), luminance(ground)].sort((a, b) => b - a);
    const ratio = (both[0] + 0.05) / (both[1] + 0.05);
    if (ratio < 4.5) weak.push(`contrast of a drawn text: ${ratio.toFixed(2)}: ${text.textContent} in ${text.closest('section')?.id}`);
}
return [weak, texts.length];";

/// What axe-core has to say of a page.
pub struct Audit {
    /// A line for each place where it breaks a rule, and for each text in a drawing that is hard to read.
    pub violations: Vec<String>,
    /// Texts outside drawings whose contrast with their ground was judged.
    pub contrast_decided: u64,
    /// Texts outside drawings whose contrast could not be judged: they are scrolled out of sight, something may lie over them, or
    /// they stand on a picture.
    pub contrast_undecided: u64,
    /// Texts in drawings, which are judged by themselves.
    pub drawn: u64,
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
    let drawn = page.script(DRAWN, Vec::new());
    let weak = drawn[0].as_array().expect("a list").iter().filter_map(Value::as_str).map(str::to_owned);
    Audit {
        violations: results["violations"].as_array().expect("violations are a list").iter().flat_map(lines).chain(weak).collect(),
        contrast_decided: count("decided"),
        contrast_undecided: count("undecided"),
        drawn: drawn[1].as_u64().expect("a number of texts"),
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
