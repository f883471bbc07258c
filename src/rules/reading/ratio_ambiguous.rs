//! A dilution with a colon.

use crate::finding::{Grade, slug};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::RATIO_AMBIGUOUS,
    grade: Grade::Fault,
    group: Group::Reading,
    looks_for: "A dilution written as `1:9`.",
    why: "Some read it as one part and nine parts of water, some as one part in nine. The first is a tenth, the second a ninth.",
    instead: "Write `1+9` for one part and nine parts of water.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "```recipe
title: Citric stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 50 g
use:
  dilution: 1:4
  temperature: 18–24 °C
  time: 30 s
keeps: 12 h
```
",
        ),
        Example::good(
            "```recipe
title: Citric stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 50 g
use:
  dilution: 1+4
  temperature: 18–24 °C
  time: 30 s
keeps: 12 h
```
",
        ),
    ],
    check: None,
};
