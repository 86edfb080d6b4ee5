//! The views of the page and their links: `#improve/v1.…` is a view and a design, `#improve` a view, `#v1.…` the design in the first
//! view, `#compare/v1.…/v1.…` a design and what stands beside it.

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
        let (view, design, _) = Self::parts(fragment);
        (view, design)
    }

    /// What follows the design's own in a fragment of [`View::Compare`]: the fragments of the designs that stand beside it, parted by
    /// strokes; no other has any.
    pub fn beside(fragment: &str) -> &str {
        Self::parts(fragment).2
    }

    /// The view, the design's own fragment, and what follows that of other designs.
    fn parts(fragment: &str) -> (Self, &str, &str) {
        let fragment = fragment.strip_prefix('#').unwrap_or(fragment);
        let (head, rest) = fragment.split_once('/').unwrap_or((fragment, ""));
        match Self::ALL.into_iter().find(|view| view.key() == head) {
            None => (Self::default(), fragment, ""),
            Some(Self::Compare) => {
                let (design, beside) = rest.split_once('/').unwrap_or((rest, ""));
                (Self::Compare, design, beside)
            }
            Some(view) => (view, rest, ""),
        }
    }

    /// The fragment, without `#`, of this view on the design that `design` carries, with nothing beside it.
    pub fn fragment(self, design: &str) -> String {
        match (self, design) {
            (Self::Estimate, _) => design.to_owned(),
            (_, "") => self.key().to_owned(),
            _ => format!("{}/{design}", self.key()),
        }
    }

    /// The same with the designs that `beside` carry beside it, in the view that shows them.
    pub fn fragment_with(self, design: &str, beside: &str) -> String {
        if self == Self::Compare && !beside.is_empty() {
            // The place of the design is there even where it is the first example and has no fragment.
            return format!("{}/{design}/{beside}", self.key());
        }
        self.fragment(design)
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
    #[test]
    fn what_stands_beside_is_kept_apart_from_the_design() {
        let read = |fragment: &'static str| {
            let (view, design) = View::read(fragment);
            (view, design, View::beside(fragment))
        };
        assert_eq!(read("#compare/v1.a.b/v1.c.d/v1.e.f"), (View::Compare, "v1.a.b", "v1.c.d/v1.e.f"));
        assert_eq!(read("compare/v1.a.b"), (View::Compare, "v1.a.b", ""));
        assert_eq!(read("compare"), (View::Compare, "", ""));
        assert_eq!(read("compare//v1.c.d"), (View::Compare, "", "v1.c.d"));
        assert_eq!(read("compare/v1.a.b//v1.c.d/"), (View::Compare, "v1.a.b", "/v1.c.d/"));
        // Where nothing can stand beside it, a link with more in it is a damaged one, and is told as such.
        assert_eq!(read("improve/v1.a.b/v1.c.d"), (View::Improve, "v1.a.b/v1.c.d", ""));
        assert_eq!(read("v1.a.b/v1.c.d"), (View::Estimate, "v1.a.b/v1.c.d", ""));
    }

    #[test]
    fn a_comparison_is_read_as_it_was_written() {
        let three = "v1.c.d/v1.e.f/v0.g.h";
        for design in ["", "v1.a.b"] {
            for beside in ["", "v1.c.d", three] {
                let fragment = View::Compare.fragment_with(design, beside);
                assert_eq!((View::read(&fragment), View::beside(&fragment)), ((View::Compare, design), beside));
            }
            for view in View::ALL.into_iter().filter(|view| *view != View::Compare) {
                assert_eq!(view.fragment_with(design, three), view.fragment(design));
            }
        }
    }
}
