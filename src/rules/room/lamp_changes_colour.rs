//! A lamp that can turn white.

use crate::finding::{Grade, slug};
use crate::notebook::Switches;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::LAMP_CHANGES_COLOUR,
    grade: Grade::Hint,
    group: Group::Room,
    looks_for: "A safelight that can show other colours.",
    why: "After a power cut many such lamps come on white, and one tap on a screen does the same. That fogs \
              every open packet in the room.",
    instead: "Set it red before paper is opened, tape its switch, and keep every remote out of the room.",
    threshold: None,
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```safelight
id: beam-lamp
lamp: red bulb on the beam
colour: red
distance: 1.3 m
switches: colour-changing
tested:
  date: 2031-04-02
  bare: 30 min
  pre-exposed: 24 min
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
    for (_block, lamp) in context.notebook.safelights() {
        let Some(word) = lamp.switches.get() else { continue };
        if Switches::from_word(word.value) == Some(Switches::ColourChanging) {
            report.add(
                report
                    .finding(word.span, "this lamp can turn white while paper is open")
                    .help("set it red first, tape its switch, and keep remotes out"),
            );
        }
    }
}
