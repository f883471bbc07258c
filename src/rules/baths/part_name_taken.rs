//! A part that bears the name of another part, or of a fact.

use crate::facts::RECIPE_FACTS;
use crate::finding::{Grade, slug};
use crate::notebook::slug as slug_of;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::PART_NAME_TAKEN,
    grade: Grade::Fault,
    group: Group::Baths,
    looks_for: "Two parts of a recipe with one name, or a part with the name of a fact.",
    why: "Facts of a part are written as recipe, part and fact. With two parts of one name, or a part named `volume`, \
          nobody can tell which is meant.",
    instead: "Give the part a name of its own, such as `tea` or `alkali`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: two-jugs
role: rinse
makes: 1 l
parts:
  - name: volume
    water: 400 ml at 30 °C
  - name: cold
    water: 400 ml at 15 °C
```
",
        ),
        Example::good(
            "
```recipe
id: two-jugs
role: rinse
makes: 1 l
parts:
  - name: warm
    water: 400 ml at 30 °C
  - name: cold
    water: 400 ml at 15 °C
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (_block, recipe) in context.notebook.recipes() {
        let mut seen = Vec::new();
        for name in recipe.parts.iter().filter_map(|part| part.name.get()) {
            let own = slug_of(&name.value);
            if let Some((_, first)) = seen.iter().find(|(held, _)| *held == own) {
                let finding =
                    report.finding(name.span, format!("there are two parts named `{}`", name.value));
                report.add(
                    finding
                        .help("give one of them another name")
                        .relate(*first, "the first is here"),
                );
            } else if RECIPE_FACTS.iter().any(|fact| slug_of(fact) == own) {
                let finding = report.finding(name.span, format!("`{}` is the name of a fact", name.value));
                report.add(finding.help("name the part for what is in it, such as `tea` or `alkali`"));
            }
            seen.push((own, name.span));
        }
    }
}
