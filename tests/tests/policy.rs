//! The content security policy of the built page: what it says, that the browser keeps to it, and that the page needs no more.

use hushwright_tests::browser::{Page, VIEWS, built_page, single_file};
use serde_json::{Value, json};

/// Notes what the browser refuses, from before the page's first element on.
const WATCH: &str = "window.refused = [];
    addEventListener('securitypolicyviolation', event => refused.push(`${event.effectiveDirective}: ${event.blockedURI} ${event.sample}`));";

/// Sources that let in nothing but what comes with the page.
const OWN: [&str; 5] = ["'self'", "'none'", "'wasm-unsafe-eval'", "data:", "blob:"];

/// The policy within a page.
fn policy(html: &str) -> &str {
    let (_, rest) = html.split_once("<meta http-equiv=Content-Security-Policy content=\"").expect("a policy");
    rest.split_once('"').expect("its end").0
}

#[test]
fn both_pages_let_in_what_is_their_own_and_nothing_else() {
    for (file, of_one_file) in [(built_page().join("index.html"), false), (single_file(), true)] {
        let html = std::fs::read_to_string(file).expect("a page");
        let policy = policy(&html);
        let rules: Vec<Vec<&str>> = policy.split(';').map(|rule| rule.split_whitespace().collect()).collect();
        assert_eq!(rules[0], ["default-src", "'none'"]);
        for rule in &rules {
            for source in &rule[1..] {
                assert!(OWN.contains(source) || source.starts_with("'sha256-"), "{source} in {}", rule[0]);
                assert!(!of_one_file || *source != "'self'", "a file of its own has nothing beside it");
                // What can be written into markup must not be a place that scripts come from.
                assert!(rule[0] != "script-src" || *source != "data:", "{policy}");
            }
        }
        for name in ["script-src", "style-src", "connect-src", "worker-src", "base-uri", "form-action"] {
            assert!(rules.iter().any(|rule| rule[0] == name && rule.len() > 1), "{name} in {policy}");
        }
        let before = html.split_once("http-equiv").expect("a policy").0;
        assert!(
            !before.contains("<script") && !before.contains("<link") && !before.contains("<style"),
            "nothing stands above it"
        );
    }
}

#[test]
fn what_is_put_into_the_page_does_not_run() {
    let page = Page::blank();
    page.run_first(WATCH);
    page.go("");
    page.text("#answer");
    let inject = "document.body.append(Object.assign(document.createElement('script'), { textContent: 'window.ran = 1' }));
        document.body.insertAdjacentHTML('beforeend', `<button id='trap' onclick='window.ran = 2'>x</button>
            <a id='lure' href='javascript:window.ran = 3'>x</a><p id='painted' style='color: rgb(1, 2, 3)'>x</p>`);
        document.getElementById('trap').click(); document.getElementById('lure').click();
        const other = Object.assign(document.createElement('script'), { src: 'data:text/javascript,window.ran = 4' });
        document.body.append(other);";
    page.script(inject, Vec::new());
    page.wait_until("five refusals", |page| page.script("return refused.length >= 5", Vec::new()) == true);
    assert_eq!(page.script("return window.ran ?? null", Vec::new()), Value::Null);
    let colour = page.script("return getComputedStyle(document.getElementById('painted')).color", Vec::new());
    assert_ne!(colour, "rgb(1, 2, 3)");
    let refused = page.script("return refused", Vec::new());
    for rule in ["script-src-elem: inline", "script-src-attr: inline", "style-src-attr: inline", "script-src-elem: data"] {
        assert!(
            refused.as_array().expect("a list").iter().any(|line| line.as_str().is_some_and(|line| line.starts_with(rule))),
            "{rule}: {refused}"
        );
    }
    // Nor can it send anything away, or take code for text.
    let send = "const done = arguments[0]; fetch('https://example.org/').then(() => done('sent'), () => done('refused'));";
    assert_eq!(page.script_async(send), "refused");
    // Later, for what a driver runs may do so itself.
    let eval =
        "const done = arguments[0]; setTimeout(() => { try { done((0, eval)('1')) } catch (error) { done(error.name) } });";
    assert_eq!(page.script_async(eval), "EvalError");
}

#[test]
fn every_view_keeps_to_the_policy_and_asks_nobody_else() {
    let page = Page::blank();
    page.run_first(WATCH);
    for (view, fragment) in VIEWS {
        page.go(fragment);
        page.text("#answer");
        page.text_when("#chance", |chance| chance.starts_with("limit"));
        let unfold = "const folded = [...document.querySelectorAll('details:not([open])')];
            for (const part of folded) { part.open = true; } return folded.length;";
        page.wait_until("all unfolded", |page| page.script(unfold, Vec::new()) == 0);
        page.slide("#inner-length_mm-slider", &[720.0, 740.0]);
        let other = "return performance.getEntriesByType('resource').map(entry => entry.name)
            .filter(name => new URL(name).origin !== location.origin && !name.startsWith('blob:'))";
        assert_eq!(page.script(other, Vec::new()), json!([]), "{view} asks others");
        let asked = page.script("return performance.getEntriesByType('resource').length", Vec::new());
        assert!(asked.as_u64().is_some_and(|asked| asked >= 5), "{view}: only {asked} files were seen");
        assert_eq!(page.script("return refused", Vec::new()), json!([]), "{view}");
        assert_eq!(page.console_errors(), Vec::<String>::new(), "{view}");
    }
}
