//! The views of the page and their links: `#improve/v1.…` is a view and a design, `#improve` a view, `#v1.…` the design in the first
//! view.

/// A way of looking at the design.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum View {
    /// The way of the sound with its inputs, the section, the levels.
    #[default]
    Estimate,
    /// What whoever builds it needs.
    Build,
    /// What to change, and the best trade-offs.
    Improve,
    /// Up to four designs side by side.
    Compare,
    /// What the words and numbers mean and where they come from.
    Learn,
    /// How the design is sent, kept and opened.
    Share,
}

impl View {
    /// All views, in the order in which they stand in the head of the page.
    pub const ALL: [Self; 6] = [Self::Estimate, Self::Build, Self::Improve, Self::Compare, Self::Learn, Self::Share];

    /// Key in links and ids.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Estimate => "estimate",
            Self::Build => "build",
            Self::Improve => "improve",
            Self::Compare => "compare",
            Self::Learn => "learn",
            Self::Share => "share",
        }
    }

    /// Name for people.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Estimate => "Estimate",
            Self::Build => "Build",
            Self::Improve => "Improve",
            Self::Compare => "Compare",
            Self::Learn => "Learn",
            Self::Share => "Share",
        }
    }

    /// The view and the design's own fragment, which may be empty, in a fragment with or without its `#`. What begins with no view
    /// is all design.
    pub fn read(fragment: &str) -> (Self, &str) {
        let fragment = fragment.strip_prefix('#').unwrap_or(fragment);
        let (head, rest) = fragment.split_once('/').unwrap_or((fragment, ""));
        Self::ALL.into_iter().find(|view| view.key() == head).map_or((Self::default(), fragment), |view| (view, rest))
    }

    /// The fragment, without `#`, of this view on the design that `design` carries.
    pub fn fragment(self, design: &str) -> String {
        match (self, design) {
            (Self::Estimate, _) => design.to_owned(),
            (_, "") => self.key().to_owned(),
            _ => format!("{}/{design}", self.key()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_view_has_its_link_and_old_links_open_the_first() {
        for view in View::ALL {
            for design in ["", "v1.e30.a3b4c5d6"] {
                assert_eq!(View::read(&view.fragment(design)), (view, design));
                assert_eq!(View::read(&format!("#{}", view.fragment(design))), (view, design));
                assert_eq!(View::read(&format!("#{}/{design}", view.key())), (view, design));
            }
        }
        assert_eq!(View::read("#v0.e30.a3b4c5d6"), (View::Estimate, "v0.e30.a3b4c5d6"));
        assert_eq!(View::read("#nowhere/v1.e30"), (View::Estimate, "nowhere/v1.e30"));
        assert_eq!(View::read("#Improve"), (View::Estimate, "Improve"));
        assert_eq!(View::read(""), (View::Estimate, ""));
    }
}
