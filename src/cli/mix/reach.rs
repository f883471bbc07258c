//! How much makes a pH, in a terminal.

use crate::finding::render::TextStyle;
use crate::views::reach::Reach;

use super::swap::said;
use super::text::Page;

pub(super) fn text(found: &Reach, style: TextStyle) -> String {
    let mut page = Page::new(style);
    page.ends(
        &format!("{} to pH {:.1}", found.title, found.wanted),
        &found.volume,
    );
    page.hung(0, "", &format!("{} · with {}", found.id, found.material));
    page.line("");
    if let Some(before) = &found.before {
        page.hung(0, "as written  ", &format!("{}, {}", before.text, before.because));
    }
    if let Some(why) = &found.why {
        page.hung(0, "not so      ", why);
    }
    let Some(answer) = &found.answer else {
        return page.out;
    };
    let whole = page.bold(&answer.do_this);
    page.line(&format!("do this     {whole}, {} in all", answer.total));
    if answer.low < answer.high {
        page.hung(
            0,
            "how sure    ",
            &format!(
                "it may take {} in all, for how little is known of the bath",
                answer.range
            ),
        );
    }
    page.hung(
        0,
        "then        ",
        &format!("{}, {}", answer.after.text, answer.after.because),
    );
    page.line("");
    for note in &answer.notes {
        page.hung(0, "- ", note);
    }
    said(&mut page, "What is then found as well", &answer.findings);
    page.out
}
