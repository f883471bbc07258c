//! Timetables.

use std::collections::BTreeMap;

use serde_json::{Map, Value, json};

use trayside::clock::schedule::{BUDGET, Preparation, Stage, Step, TrayLine};
use trayside::units::scalar::Time;

use super::inputs::{Inputs, one, whole};
use super::{Fields, number};

/// A timetable that was found, its units undone.
fn fields_of(makespan: f64, best: bool) -> Map<String, Value> {
    let status = if best { "OPTIMAL" } else { "FEASIBLE" };
    Map::from_iter([
        ("makespan".to_owned(), number(makespan)),
        ("status".to_owned(), json!(status)),
    ])
}

fn tray_line(inputs: &Inputs<'_>) -> Fields {
    // A drain may be stated once for all trays.
    let drain = inputs.number_or(&["drain", "drain_s"], 0.0)?;
    let stages = inputs
        .list(&["stages"])?
        .iter()
        .map(|value| {
            let row = Inputs::new(value)?;
            let slack = match row.value(&["slack", "slack_s"]) {
                Some(slack) => Some(Time::from_seconds(one(slack)?)),
                None => None,
            };
            Ok(Stage {
                stay: Time::from_seconds(row.number(&["p", "p_s", "stay_s"])?),
                slack,
                places: whole(row.number_or(&["cap", "places"], 1.0)?)?,
                drain: Time::from_seconds(row.number_or(&["drain", "drain_s"], drain)?),
            })
        })
        .collect::<Result<Vec<_>, String>>()?;
    let line = TrayLine {
        sheets: inputs.count(&["sheets"])?,
        move_time: Time::from_seconds(inputs.number(&["move_s", "move"])?),
        hands: whole(inputs.number_or(&["hands", "operators"], 1.0)?)?,
        stages,
    };
    let found = line.timetable(BUDGET).map_err(|error| error.to_string())?;
    if !line.holds(&found.moves) {
        return Err("the timetable breaks a rule".to_owned());
    }
    Ok(fields_of(found.end.seconds(), found.is_best()))
}

fn preparation(inputs: &Inputs<'_>) -> Fields {
    let mut things = Vec::new();
    let mut place = BTreeMap::new();
    if let Some(resources) = inputs.value(&["resources"]) {
        for (name, count) in resources.as_object().ok_or("resources are no object")? {
            place.insert(name.clone(), things.len());
            things.push(whole(one(count)?)?);
        }
    }
    let tasks = inputs
        .list(&["tasks"])?
        .iter()
        .map(Inputs::new)
        .collect::<Result<Vec<_>, _>>()?;
    let ids = tasks
        .iter()
        .map(|task| task.text(&["id"]))
        .collect::<Result<Vec<_>, _>>()?;
    let step_of = |name: &str| {
        let at = ids.iter().position(|id| *id == name);
        at.ok_or_else(|| format!("no task `{name}`"))
    };
    let mut steps = Vec::new();
    for task in &tasks {
        let mut after = Vec::new();
        // One longest wait for all steps before, or one for some of them.
        let (every, gaps) = match task.value(&["max_gap"]) {
            Some(Value::Object(gaps)) => (None, Some(gaps)),
            Some(gap) => (Some(one(gap)?), None),
            None => (None, None),
        };
        for before in task.list_or_empty(&["after"])? {
            let before = before.as_str().ok_or("a task before is no text")?;
            let wait = match gaps.and_then(|gaps| gaps.get(before)) {
                Some(Value::Null) | None => every,
                Some(wait) => Some(one(wait)?),
            };
            after.push((step_of(before)?, wait.map(Time::from_seconds)));
        }
        let mut uses = Vec::new();
        for thing in task.list_or_empty(&["uses"])? {
            let thing = thing.as_str().ok_or("a resource is no text")?;
            let known = place.get(thing).copied();
            uses.push(known.ok_or_else(|| format!("no resource `{thing}`"))?);
        }
        steps.push(Step {
            length: Time::from_seconds(task.number(&["d", "duration"])?),
            after,
            uses,
        });
    }
    let preparation = Preparation { steps, things };
    let (starts, end, bound) = preparation.timetable(BUDGET).map_err(|error| error.to_string())?;
    if !preparation.holds(&starts) {
        return Err("the timetable breaks a rule".to_owned());
    }
    Ok(fields_of(end.seconds(), bound >= end))
}

/// The topics of this file.
pub(crate) fn fields(topic: &str, inputs: &Inputs<'_>, _expected: &Map<String, Value>) -> Option<Fields> {
    if topic != "makespan" {
        return None;
    }
    Some(match inputs.value(&["stages"]) {
        Some(_) => tray_line(inputs),
        None => preparation(inputs),
    })
}
