//! What two weighings say of a white soda, in a terminal.

use crate::finding::render::TextStyle;
use crate::views::baked::Baked;

use super::text::Page;

pub(super) fn text(found: &Baked, style: TextStyle) -> String {
    let mut page = Page::new(style);
    page.ends(&format!("{} with a baked soda", found.title), &found.volume);
    page.line(&found.id);
    page.line("");
    for sentence in &found.says {
        page.hung(0, "", sentence);
    }
    if let Some(ph) = &found.ph {
        page.hung(0, "", &format!("It makes {}, {}.", ph.text, ph.because));
    }
    if let Some(why) = &found.why {
        page.hung(0, "", &format!("How much of it: {why}."));
    }
    page.out
}
