//! The room that is left where cargo builds.

/// Below this many bytes a full disk is likely why a step failed: one build of all tests alone writes more.
const LITTLE: u64 = 2 << 30;

/// What to tell when a step has failed and the disk may be why: compilers that run out of room often say something else
/// last.
pub fn warning() -> Option<String> {
    // This program lies where cargo builds, wherever that was moved to.
    let folder = std::env::current_exe().ok()?;
    of_free(fs4::available_space(folder.parent()?).ok()?)
}

fn of_free(bytes: u64) -> Option<String> {
    let mib = bytes >> 20;
    (bytes < LITTLE).then(|| format!("Only {mib} MiB are left where cargo builds: that alone may be why a step failed."))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_disk_is_told_and_one_with_room_is_not() {
        let told = of_free(286 << 20).expect("286 MiB are too little");
        assert!(told.contains("286 MiB"), "{told}");
        assert_eq!(of_free(64 << 30), None);
    }
}
