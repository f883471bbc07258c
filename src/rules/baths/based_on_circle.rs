//! Recipes that are based on one another in a circle.

use crate::finding::{Grade, slug};
use crate::notebook::{Block, Notebook, Recipe};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::BASED_ON_CIRCLE,
    grade: Grade::Fault,
    group: Group::Baths,
    looks_for: "A recipe that is based on itself, be it by way of others.",
    why: "A variant writes only what differs, so one of them has to be written out. In a circle none is, and nobody can \
          know what goes into any of them.",
    instead: "Write one of them out in full and take its `based on` away.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: winter-soda
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 10 g
based on: summer-soda
keeps: 12 h
```

```recipe
id: summer-soda
based on: winter-soda
keeps: 8 h
```
",
        ),
        Example::good(
            "
```recipe
id: winter-soda
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 10 g
keeps: 12 h
```

```recipe
id: summer-soda
based on: winter-soda
keeps: 8 h
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let notebook = context.notebook;
    let mut told: Vec<&str> = Vec::new();
    for (block, _) in context.baths() {
        if block.doubled || told.contains(&block.id.as_str()) {
            continue;
        }
        let Some(circle) = circle(notebook, block) else {
            continue;
        };
        told.extend(circle.iter().map(|(block, _)| block.id.as_str()));
        let Some(base) = circle.first().and_then(|(_, recipe)| recipe.based_on.get()) else {
            continue;
        };
        let ids: Vec<&str> = circle
            .iter()
            .skip(1)
            .map(|(block, _)| block.id.as_str())
            .chain([block.id.as_str()])
            .collect();
        let message = match circle.len() {
            1 => format!("`{}` is based on itself", block.id),
            _ => format!(
                "`{}` is in the end based on itself, by way of `{}`",
                block.id,
                ids.join("`, `")
            ),
        };
        report.add(
            report
                .finding(base.span, message)
                .help("write one of them out in full, without `based on`"),
        );
    }
}

/// The recipes from a block back to itself, if following `based on` leads there.
fn circle<'n>(notebook: &'n Notebook, start: &'n Block) -> Option<Vec<(&'n Block, &'n Recipe)>> {
    let mut path: Vec<(&Block, &Recipe)> = Vec::new();
    let mut at = notebook.recipe(&start.id)?;
    loop {
        path.push(at);
        at = notebook.recipe(&at.1.based_on.get()?.value)?;
        if at.0.id == start.id {
            return Some(path);
        }
        // A circle further on is told where it stands.
        if path.iter().any(|(block, _)| block.id == at.0.id) {
            return None;
        }
    }
}
