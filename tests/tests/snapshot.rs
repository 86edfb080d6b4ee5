//! A snapshot, not a check: the numbers of the first example as they came out last, so that no change of the model passes
//! unseen and the browser can be held to the same digits (`web/tests/page.rs` reads the same file).
//!
//! After a change that is meant, write it anew with `HUSHWRIGHT_SNAPSHOT=write cargo test -p hushwright-tests --test snapshot`.

use std::path::Path;

use hushwright::design::run_in_box;
use hushwright::evaluate::evaluate;

#[test]
fn the_first_example_gives_the_same_digits() {
    let lines = evaluate(&run_in_box().check().expect("the example is sound")).digits();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("snapshots/run_in_box.txt");
    if std::env::var_os("HUSHWRIGHT_SNAPSHOT").is_some_and(|value| value == "write") {
        std::fs::write(&path, &lines).expect("the snapshot can be written");
    }
    let known = std::fs::read_to_string(&path).expect("the snapshot is there");
    assert_eq!(lines, known, "the model gives other digits than before; see the head of this test");
}
