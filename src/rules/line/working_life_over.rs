//! A bath that was used after its time.

use jiff::{SignedDuration, ZonedDateTime};

use crate::facts::{Bath, end_of_life};
use crate::finding::{Grade, slug};
use crate::notebook::{Batch, Figure, Role, Session};
use crate::rules::context::{Context, Report};
use crate::rules::figures::time;
use crate::rules::last_use::{last_in_queue, last_use};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::source::Spanned;

/// What both examples share.
macro_rules! page {
    () => {
        "
```recipe
id: rosemary
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 36 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      vitamin C powder: 12 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
```

```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```

```process
id: line
paper: RC
steps:
  - bath: rosemary
    time: 4 min
    light: red
  - rinse: tap water
    time: 30 s
    light: red
  - bath: plain-hypo
    time: 2 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
```

```camera
id: drum
pinhole: 0.35 mm
distance: 75 mm
format: 100×125 mm
```

```paper
id: grade-2
base: RC
size: 100×125 mm
speed: 5
reciprocity: 1.15
```

```exposure
id: pier
when: 2031-05-02 11:20
camera: drum
paper: grade-2
light: EV 14
time: 2 min
result: right
by: MT
```

```batch
id: evening-mix
of: rosemary
made: 2031-05-02 19:20
volume: 1 l
by: MT
```
"
    };
}

pub(super) const RULE: Rule = Rule {
    name: slug::WORKING_LIFE_OVER,
    grade: Grade::Fault,
    group: Group::Line,
    looks_for: "A session in which a sheet goes into a batch after the working life that its recipe states, as it was noted, or because so many sheets wait for a place in the trays.",
    why: "Air ends a vitamin C developer, not paper: it looks and smells the same and develops nothing. A sheet lost in \
          a dead bath says nothing about its exposure, so the log would teach the wrong thing.",
    instead: "Mix it when the trays are ready, and write the hour of its end on the tray. If the recipe's `keeps` is too \
              careful, change it there.",
    threshold: Some(
        "Past the shortest time of `keeps` a doubt, past the longest a fault; the moment is that of each event at that bath, else the beginning of the session. Where more sheets come than a tray has `places`, one if it says none, the last goes in when those before it are through the slowest tray on the way: a doubt by the shortest times, a hint by the middle ones.",
    ),
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(concat!(
            page!(),
            "
```session
id: late-evening
when: 2031-05-02 21:40
process: line
baths:
  rosemary: evening-mix
sheets: [pier]
```
"
        )),
        Example::good(concat!(
            page!(),
            "
```session
id: evening
when: 2031-05-02 19:40
process: line
baths:
  rosemary: evening-mix
sheets: [pier]
```
"
        )),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (_, session) in context.notebook.sessions() {
        for (name, reference) in &session.baths {
            let Some((batch_block, batch)) = context.notebook.batch(&reference.value) else {
                continue;
            };
            let recipe = context.facts.baths.of_batch(&batch_block.id, batch);
            let (Some(recipe), Some(made)) = (recipe, batch.made.get()) else {
                continue;
            };
            // A bare date says the day: such a batch may have been mixed at its end.
            let Some(life) = life(recipe, batch) else { continue };
            let Some(used) = last_use(session, &name.value) else {
                continue;
            };
            let mixed = if made.timed {
                made.at.clone()
            } else {
                day_end(&made.at)
            };
            let outlived =
                |seconds: f64| end_of_life(&mixed, life, seconds).is_some_and(|end| used > end.timestamp());
            if !outlived(life.range.low) {
                queued(context, session, name, reference, &mixed, life, report);
                continue;
            }
            let age = used.duration_since(mixed.timestamp()).as_secs_f64();
            let style = context.notebook.settings.style;
            let grade = if outlived(life.range.high) {
                Grade::Fault
            } else {
                Grade::Doubt
            };
            let shortest = if life.range.is_exact() {
                life.show(style)
            } else {
                time(life.range.low, style)
            };
            let message = format!(
                "`{}` was {} old when a sheet went in, and keeps {}",
                reference.value,
                time(age, style),
                life.show(style)
            );
            report.add(
                report
                    .graded(grade, reference.span, message)
                    .help(format!(
                        "mix `{}` afresh, no earlier than {shortest} before it is used",
                        recipe.id
                    ))
                    .relate(made.span, format!("`{}` was mixed here", batch_block.name()))
                    .relate(life.span, "this is how long it keeps"),
            );
        }
    }
}

/// Sheets that wait for a place in a tray until the bath is dead.
fn queued(
    context: &Context<'_>,
    session: &Session,
    bath: &Spanned<String>,
    reference: &Spanned<String>,
    mixed: &ZonedDateTime,
    life: &Figure,
    report: &mut Report,
) {
    let batch = context.notebook.batch(&reference.value);
    let thrown = batch.and_then(|(_, batch)| batch.discarded.get());
    let (Some(start), Some(end)) = (
        session.when.get().filter(|start| start.timed),
        end_of_life(mixed, life, life.range.low),
    ) else {
        return;
    };
    // What was thrown away in time took no sheet after that.
    if thrown.is_some_and(|thrown| thrown.timed && thrown.at.timestamp() <= end.timestamp()) {
        return;
    }
    let Some((sheets, wait)) = last_in_queue(context, session, &bath.value) else {
        return;
    };
    let after = |seconds: f64| {
        let wait = SignedDuration::try_from_secs_f64(seconds).ok()?;
        start.at.checked_add(wait).ok()
    };
    let late = |seconds: f64| after(seconds).filter(|last| last.timestamp() > end.timestamp());
    let Some(last) = late(wait.best) else { return };
    let grade = if late(wait.low).is_some() {
        Grade::Doubt
    } else {
        Grade::Hint
    };
    let style = context.notebook.settings.style;
    let age = last.timestamp().duration_since(mixed.timestamp()).as_secs_f64();
    let message = format!(
        "the last of {sheets} sheets goes into `{}` at about {}, when it is {} old, and it keeps {}",
        reference.value,
        last.strftime("%H:%M"),
        time(age, style),
        life.show(style)
    );
    report.add(
        report
            .graded(grade, reference.span, message)
            .help("mix a second batch for the later sheets, or lay several in the tray at once and say how many: `places`")
            .relate(life.span, "this is how long it keeps"),
    );
}

/// How long a batch may be used: from its bottle where it has one, else in the tray.
fn life<'b>(recipe: &'b Bath, batch: &Batch) -> Option<&'b Figure> {
    let keeps = &recipe.recipe.keeps;
    if [&keeps.one, &keeps.tray, &keeps.bottle, &keeps.stock]
        .iter()
        .any(|slot| slot.is_broken())
    {
        return None;
    }
    let bottled = keeps.bottle.get().filter(|_| batch.bottle.get().is_some());
    let stock = keeps.stock.get().filter(|_| recipe.role() == Some(Role::Stock));
    bottled
        .or(stock)
        .or_else(|| keeps.working())
        .or(keeps.bottle.get())
        .or(keeps.stock.get())
}

fn day_end(start: &ZonedDateTime) -> ZonedDateTime {
    let end = start.checked_add(SignedDuration::from_hours(24)).ok();
    end.unwrap_or_else(|| start.clone())
}
