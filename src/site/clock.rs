//! The clock of a process: its page, with the plan as data beside it that no browser runs.

use super::context::Context;
use super::{SiteFault, SiteFile, Templates};
use crate::views::clock_page::ClockPage;

/// Renders a clock.
pub(super) fn render(
    clock: &ClockPage,
    common: &Context,
    templates: &Templates,
) -> Result<SiteFile, SiteFault> {
    let mut context = common.clone();
    context.insert("here", "clock");
    context.insert("root", &clock.root);
    context.insert("clock", clock);
    context.insert("says", &inert(&serde_json::json!(clock.says).to_string()));
    context.insert("run", &inert(&serde_json::json!(clock.run).to_string()));
    Ok(SiteFile::text(
        clock.path.clone(),
        templates.render("site/clock.html", &context)?,
    ))
}

/// JSON that cannot end the element it stands in, nor open another: every `<`, `>` and `&` as an escape.
pub(super) fn inert(json: &str) -> String {
    json.replace('<', "\\u003c")
        .replace('>', "\\u003e")
        .replace('&', "\\u0026")
}

#[cfg(test)]
mod tests {
    use super::inert;

    #[test]
    fn data_cannot_leave_its_element() {
        let json = serde_json::json!({"title": "</script><!--<script>&amp;"}).to_string();
        let text = inert(&json);
        assert!(!text.contains(['<', '>', '&']));
        assert_eq!(
            serde_json::from_str::<serde_json::Value>(&text).unwrap(),
            serde_json::from_str::<serde_json::Value>(&json).unwrap()
        );
    }
}
