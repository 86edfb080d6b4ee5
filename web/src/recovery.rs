//! What a visitor sees when the program stops on a fault: the design is kept, in words and as a link.

use std::cell::RefCell;

thread_local! {
    /// Fragment of the last design that was shown whole.
    static LAST_FRAGMENT: RefCell<String> = const { RefCell::new(String::new()) };
}

/// Remembers the fragment of a design that has been shown.
pub fn remember(fragment: &str) {
    LAST_FRAGMENT.with(|last| fragment.clone_into(&mut last.borrow_mut()));
}

/// Installs the hook that shows the recovery screen.
pub fn install() {
    // Yew would otherwise put its own hook in this one's place.
    yew::set_custom_panic_hook(Box::new(|info| {
        web_sys::console::error_1(&info.to_string().into());
        let fragment = LAST_FRAGMENT.with(|last| last.try_borrow().map(|last| last.clone()).unwrap_or_default());
        let document = web_sys::window().and_then(|window| window.document());
        let place = document.and_then(|document| document.get_element_by_id("recovery"));
        // The first fault is the one to tell; what still calls into a program that has stopped brings more of them.
        if let Some(place) = place.filter(|place| place.has_attribute("hidden")) {
            place.set_inner_html(&recovery_html(&fragment, &info.to_string()));
            let _ = place.remove_attribute("hidden");
        }
    }));
}

/// The recovery screen. Nothing of it needs the program that has stopped: what a button opens is said by its attribute, for a listener
/// that stands in the page (`index.html`), where the content security policy knows it.
fn recovery_html(fragment: &str, fault: &str) -> String {
    let fragment = escaped(fragment);
    let fault = escaped(fault);
    format!(
        "<div role=\"alertdialog\" aria-labelledby=\"recovery-title\" aria-describedby=\"recovery-text\">\
         <h2 id=\"recovery-title\">Hushwright has stopped on a fault of its own</h2>\
         <p id=\"recovery-text\">Your design is kept: it is the link below, the way it was when the fault came.</p>\
         <p><a id=\"recovery-link\" href=\"#{fragment}\" data-opens=\"#{fragment}\">Link to this design</a></p>\
         <p><button type=\"button\" id=\"recovery-reopen\" data-opens=\"#{fragment}\">Reopen the design</button> \
         <button type=\"button\" id=\"recovery-reset\" data-opens=\"\">Start from the example</button></p>\
         <details><summary>What happened</summary><pre>{fault}</pre></details></div>"
    )
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;").replace('\'', "&#39;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_screen_keeps_the_design_and_offers_the_example() {
        let html = recovery_html("v1.e30.c0ffee00", "index out of range");
        assert!(html.contains("href=\"#v1.e30.c0ffee00\""));
        assert!(html.contains("id=\"recovery-reset\" data-opens=\"\""));
        assert!(html.contains("index out of range"));
    }

    #[test]
    fn nothing_in_it_can_become_markup() {
        let html = recovery_html("\"><script>alert('x')</script>", "<img src=x>");
        assert!(!html.contains("<script>") && !html.contains("<img"));
        // What stands in an attribute as code would be refused by the page's policy.
        assert!(!html.contains("onclick") && !html.contains("javascript:"));
    }
}
