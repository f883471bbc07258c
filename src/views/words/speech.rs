//! The words of a site's pages, as whoever renders them is given them.

use std::collections::BTreeMap;

use super::block_table::BlockWords;
use super::site_table::SiteWords;
use super::table::Group;
use super::words;
use crate::notebook::Kind;
use crate::units::Language;

/// The site's own words in one language.
#[derive(Debug, Clone, Copy)]
pub struct Speech {
    /// The language, as an ISO 639-1 code.
    pub(crate) code: &'static str,
    /// What is said once on every page in a translation that nobody has reviewed.
    pub(crate) unreviewed: Option<&'static str>,
    /// The words of what a block says.
    pub(crate) block: &'static BlockWords,
    /// The words of the site.
    pub(crate) site: &'static SiteWords,
}

impl Speech {
    /// The words of a language.
    pub fn of(language: Language) -> Self {
        let words = words(language);
        Self {
            code: words.code,
            unreviewed: words.unreviewed,
            block: words.block,
            site: words.site,
        }
    }

    /// What the search calls a kind of thing that it finds.
    pub(crate) fn found(self) -> BTreeMap<&'static str, &'static str> {
        let say = &self.site.search;
        let others = [
            ("page", say.kind_page),
            ("section", say.kind_section),
            ("rule", say.kind_rule),
            ("material", say.kind_material),
        ];
        let kinds = Kind::ALL.map(|kind| (kind.word(), (self.block.kind)(kind)));
        kinds.into_iter().chain(others).collect()
    }

    /// Every word that templates use on pages which are not a clock, by group and by name.
    pub(crate) fn on_pages(self) -> BTreeMap<&'static str, BTreeMap<&'static str, &'static str>> {
        let site = self.site;
        let groups = [
            ("page", site.page.by_name()),
            ("list", site.list.by_name()),
            ("search", site.search.by_name()),
            ("contact", site.contact.by_name()),
            ("clock", BTreeMap::from([("title_of", site.clock.title_of)])),
            ("row", self.block.row.by_name()),
            ("value", self.block.value.by_name()),
            ("scale", site.scale.by_name()),
        ];
        groups.into_iter().collect()
    }
}
