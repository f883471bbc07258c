//! A recipe with another material, in a terminal.

use crate::finding::render::TextStyle;
use crate::views::swap::Swap;
use crate::views::what_if::Said;

use super::text::{Page, columns, padded, sheet};

pub(super) fn text(found: &Swap, style: TextStyle) -> String {
    let mut page = Page::new(style);
    page.ends(&format!("{} with {}", found.title, found.to), &found.volume);
    page.hung(0, "", &format!("{} · in the place of {}", found.id, found.from));
    page.line("");
    if let Some(why) = &found.why {
        page.hung(0, "", &format!("Not worth the same: {why}."));
        for line in &found.instead {
            page.hung(0, "- ", line);
        }
        return page.out;
    }
    let Some(worth) = &found.worth else {
        return page.out;
    };
    let amount = page.bold(&format!("{} of {}", worth.amount, found.to));
    page.line(&format!("{amount} for {} of {}", worth.was, found.from));
    page.hung(0, "", &format!("It keeps {}.", worth.kept));
    if !worth.range.is_empty() {
        page.hung(
            0,
            "",
            &format!(
                "It may take {}, for how little is known of the two and of the bath.",
                worth.range
            ),
        );
    }
    for note in &worth.notes {
        page.hung(0, "", note);
    }
    page.heading("What changes");
    if worth.changes.is_empty() {
        page.line("Nothing that is computed here.");
    }
    let wide = worth.changes.iter().map(|change| columns(&change.what)).max();
    for change in &worth.changes {
        page.hung(
            0,
            &padded(&change.what, wide.unwrap_or(0) + 2),
            &format!("{} → {}", change.before, change.after),
        );
    }
    said(&mut page, "What is then found as well", &worth.findings);
    said(&mut page, "What is no longer found", &worth.gone);
    if let Some(why) = &worth.no_sheet {
        page.line("");
        page.hung(0, "", &format!("It is not mixed so: {why}."));
    }
    if let Some(whole) = &worth.sheet {
        page.line("");
        page.line(&"─".repeat(page.width));
        page.out.push_str(&sheet(whole, style));
    }
    page.out
}

/// Findings, a line each.
pub(super) fn said(page: &mut Page, heading: &str, findings: &[Said]) {
    if findings.is_empty() {
        return;
    }
    page.heading(heading);
    for said in findings {
        page.hung(
            0,
            "- ",
            &format!("{} [{}]: {}", said.grade, said.rule, said.message),
        );
    }
}
