//! A page in another encoding.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::NOT_UTF8,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A page whose bytes are not UTF-8 text.",
    why: "Degree signs, accents and fractions turn into other characters when a page is read in the wrong encoding, and a wrong character in an amount is a wrong amount.",
    instead: "Save the page as UTF-8 in your editor. The page was read as well as it could be, so nothing else on it is lost.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &["RFC 3629, UTF-8, a transformation format of ISO 10646"],
    examples: &[],
    check: None,
};
