//! Marks that hold the place of facts and blocks while prose goes through the Markdown and HTML machinery.
//!
//! A mark is a word that the page does not contain otherwise. That is checked, not hoped: whoever renders counts the marks
//! and takes another word where the author happened to write one.

/// How every mark begins. An attribute that contains it is dropped, so that a mark never ends up inside one.
pub(super) const STEM: &str = "trayside-slot-";

const WRAPPER: &str = "<div></div><div>";

/// The marks of one page.
#[derive(Debug, Clone, Copy)]
pub(super) struct Marks {
    salt: usize,
}

impl Marks {
    pub(super) fn new(salt: usize) -> Self {
        Self { salt }
    }

    fn opening(self) -> String {
        format!("{STEM}{}-", self.salt)
    }

    /// The mark for a slot in running text.
    pub(super) fn inline(self, slot: usize) -> String {
        format!("{}{slot}.", self.opening())
    }

    /// The mark for a slot that stands between paragraphs.
    ///
    /// The wrapper makes a reader of HTML close the paragraphs that are open. It is doubled because a tag that the author
    /// did not finish takes the first for itself.
    pub(super) fn block(self, slot: usize) -> String {
        format!("{WRAPPER}{}</div>\n", self.inline(slot))
    }

    /// How many marks `html` holds.
    pub(super) fn count(self, html: &str) -> usize {
        html.matches(&self.opening()).count()
    }

    /// Cuts `html` at its marks: stretches of HTML, and the number of the slot after each but the last.
    pub(super) fn cut(self, html: &str) -> Vec<(&str, Option<usize>)> {
        let opening = self.opening();
        let mut cuts = Vec::new();
        let mut rest = html;
        while let Some((before, after)) = rest.split_once(opening.as_str()) {
            let Some((number, after)) = after.split_once('.') else {
                break;
            };
            let Ok(slot) = number.parse::<usize>() else { break };
            let (before, after) = match (before.strip_suffix(WRAPPER), after.strip_prefix("</div>")) {
                (Some(before), Some(after)) => (before, after),
                _ => (before, after),
            };
            cuts.push((before, Some(slot)));
            rest = after;
        }
        cuts.push((rest, None));
        cuts
    }
}

#[cfg(test)]
mod tests {
    use super::Marks;

    #[test]
    fn cuts_where_it_marked() {
        let marks = Marks::new(0);
        let html = format!("a {} b{}c", marks.inline(1), marks.block(20));
        assert_eq!(marks.count(&html), 2);
        assert_eq!(
            marks.cut(&html),
            [("a ", Some(1)), (" b", Some(20)), ("\nc", None)]
        );
        assert_eq!(Marks::new(1).count(&html), 0);
    }
}
