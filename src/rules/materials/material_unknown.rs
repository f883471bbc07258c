//! A material of which nothing is known.

use crate::facts::{Known, known};
use crate::finding::{Finding, Grade, slug as rule};
use crate::notebook::{Addition, Block, Body, Kind, Swap, slug};
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::source::Spanned;

pub(super) const RULE: Rule = Rule {
    name: rule::MATERIAL_UNKNOWN,
    grade: Grade::Doubt,
    group: Group::Materials,
    looks_for: "A material that neither the pantry nor an ingredient block of the notebook knows.",
    why: "Nothing can be computed from it and no warning can speak of it: not its strength, not what it must \
              never be mixed with.",
    instead: "Correct its name, write its formula in its place, or add an `ingredient` block that says what it is.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  citrik acid, anhydrous: 10 g
keeps: 12 h
```
",
        ),
        Example::good(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 10 g
keeps: 12 h
```
",
        ),
        Example::good(
            "
```ingredient
material: grey powder
formula: C6H8O7
```

```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  grey powder: 10 g
keeps: 12 h
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, bath) in context.baths() {
        for dose in &bath.doses {
            if place(block, [dose.name.span]).is_none() {
                continue;
            }
            let stock = context.notebook.recipe(&slug(&dose.name.value));
            match (&dose.known, stock) {
                (Known::Unknown { .. }, Some(_)) => report.add(opaque(&dose.name, report)),
                _ => name(&dose.name, &dose.known, report),
            }
        }
    }
    let notebook = context.notebook;
    for (block, batch) in notebook.batches() {
        let recipe = context.facts.baths.of_batch(&block.id, batch);
        for swap in &batch.swaps {
            let Swap::Amount(Addition { material, .. }) = swap else {
                continue;
            };
            let held = recipe.is_some_and(|recipe| {
                let mut names = recipe.doses.iter().map(|dose| &dose.name.value);
                names.any(|name| *name == material.value)
            });
            if !held && notebook.recipe(&slug(&material.value)).is_none() {
                name(material, &known(notebook, &material.value), report);
            }
        }
    }
    for block in notebook
        .of_kind(Kind::Ingredient)
        .chain(notebook.of_kind(Kind::Batch))
    {
        for written in elsewhere(block) {
            name(written, &known(context.notebook, &written.value), report);
        }
    }
}

/// A recipe that is poured in, but does not tell what a litre of it holds.
fn opaque(written: &Spanned<String>, report: &Report) -> Finding {
    let message = format!(
        "what a litre of `{}` holds cannot be told from its recipe",
        written.value
    );
    report
        .finding(written.span, message)
        .help("say what it makes and how many grams of each material are in it; plants and percentages do not tell, and no stock is made of itself")
}

/// Materials named outside recipes: what a packet is made from, what was taken instead.
fn elsewhere(block: &Block) -> Vec<&Spanned<String>> {
    match &block.body {
        Body::Ingredient(ingredient) => {
            let held = ingredient.contains.iter().map(|(name, _)| name);
            held.chain(ingredient.of.get()).collect()
        }
        Body::Batch(batch) => batch
            .swaps
            .iter()
            .filter_map(|swap| match swap {
                Swap::Material { to, .. } => Some(to),
                Swap::Amount(_) => None,
            })
            .collect(),
        _ => Vec::new(),
    }
}

fn name(written: &Spanned<String>, known: &Known, report: &mut Report) {
    let Known::Unknown {
        nearest,
        malformed: None,
    } = known
    else {
        return;
    };
    let mut finding = report.finding(written.span, format!("`{}` is not known here", written.value));
    finding = match nearest {
        Some(near) => finding
            .help(format!(
                "did you mean `{near}`? if not, write its formula or add an `ingredient` block"
            ))
            .replace(written.span, near.clone()),
        None => finding.help("write its formula, or add an `ingredient` block that says what it is"),
    };
    report.add(finding);
}
