//! Two recipes side by side in a terminal.

use crate::finding::render::TextStyle;
use crate::views::against::Against;

use super::text::Page;

pub(super) fn text(found: &Against, style: TextStyle) -> String {
    let mut page = Page::new(style);
    page.ends(&format!("{} against {}", found.one, found.other), "per litre");
    if found.differences.is_empty() {
        page.line("");
        page.line("Nothing differs.");
    }
    for difference in &found.differences {
        let what = page.bold(&difference.what);
        page.line("");
        page.line(&what);
        let wide = found.one.chars().count().max(found.other.chars().count()).min(24) + 2;
        for (id, said) in [(&found.one, &difference.one), (&found.other, &difference.other)] {
            page.hung(2, &super::text::padded(id, wide), said);
        }
        if !difference.note.is_empty() {
            page.hung(
                2,
                &super::text::padded("", wide),
                &format!("→ {}", difference.note),
            );
        }
    }
    if !found.alike.is_empty() {
        page.line("");
        page.hung(0, "alike: ", &found.alike.join("; "));
    }
    page.out
}
