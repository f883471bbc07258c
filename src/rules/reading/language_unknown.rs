//! A language that there are no fixed words in.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LANGUAGE_UNKNOWN,
    grade: Grade::Doubt,
    group: Group::Reading,
    looks_for: "A `language` in `trayside.yaml` that there are no fixed words in.",
    why: "Heads, safety lines and hazard statements are then printed in English, beside words in another language: whoever cannot read them is not warned.",
    instead: "Write `language: en` or `language: de`, or leave it out.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "format: 1
title: Notas do galpão
zone: Europe/Lisbon
language: pt
---8<---
# Nothing yet
",
        ),
        Example::good(
            "format: 1
title: Notizen aus dem Schuppen
zone: Europe/Berlin
language: de
---8<---
# Noch nichts
",
        ),
    ],
    check: None,
};
