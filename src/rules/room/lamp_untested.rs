//! A lamp that nobody has tested.

use crate::finding::{Grade, slug};
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LAMP_UNTESTED,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A safelight without a fog test.",
    why: "A bulb that is sold as red may let other colours through, and every lamp fogs in time. How long it \
              is safe depends on the lamp, its distance and the paper.",
    instead: "Lay coins on paper where the tray stands, once on a sheet as it comes and once on one exposed to the \
              palest grey. Write down when an edge first shows; half of that is safe.",
    threshold: Some("No `tested`, at any distance."),
    sureness: Sureness::Published,
    sources: &["ANSI IT2.26-1998, safelight conditions (half of the threshold)"],
    examples: &[
        Example::bad(
            "
```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 1.3 m
switches: red only
```
",
        ),
        Example::good(
            "
```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 1.3 m
switches: red only
tested:
  date: 2031-04-02
  bare: 30 min
  pre-exposed: 24 min
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, lamp) in context.notebook.safelights() {
        if !lamp.tested.is_absent() || block.broken {
            continue;
        }
        let near = lamp
            .distance
            .get()
            .filter(|distance| distance.range.best < 1000.0);
        let message = match near {
            Some(near) => format!(
                "nobody has tested this lamp, and it hangs only {} m away",
                number(near.range.best / 1000.0, 2, style)
            ),
            None => "nobody has tested this lamp".to_owned(),
        };
        let span = lamp.lamp.get().map_or(block.head, |lamp| lamp.span);
        report.add(report.finding(span, message).help(
            "lay coins on paper under it and note under `tested:` when an edge first shows, `bare` and `pre-exposed`",
        ));
    }
}
