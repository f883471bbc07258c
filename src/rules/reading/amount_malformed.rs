//! An amount that is no number.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::AMOUNT_MALFORMED,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "An amount that cannot be read as a number with a unit.",
    why: "Nothing may be guessed about an amount that will be weighed out.",
    instead: "Write a number and a unit: `24 g`, `1 1/2 tsp`, `30–40 ml`, `20 ± 2 °C`, `6 × 500 mg`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```paper
title: Plain grade 2
base: RC
thickness: about a hair
```
",
        ),
        Example::good(
            "```paper
title: Plain grade 2
base: RC
thickness: 0.2–0.3 mm
```
",
        ),
    ],
    check: None,
};
