//! A line of baths as rules read it: each step with its bath.

use crate::facts::{Bath, stated_time};
use crate::notebook::{Block, Process, ProcessStep, Role, StepKind};
use crate::pantry::Property;
use crate::units::Range;

use super::context::Context;

/// A step and the bath it leads to, where it leads to one.
#[derive(Debug, Clone, Copy)]
pub(super) struct LineStep<'n> {
    /// The step.
    pub(super) step: &'n ProcessStep,
    /// Its bath.
    pub bath: Option<&'n Bath>,
}

impl<'n> LineStep<'n> {
    /// Whether the step's bath has this role.
    pub(super) fn is(&self, role: Role) -> bool {
        self.bath.is_some_and(|bath| bath.role() == Some(role))
    }

    /// Whether the step is water between or after baths.
    pub(super) fn is_water(&self) -> bool {
        matches!(self.step.kind, StepKind::Rinse | StepKind::Wash) || self.is(Role::Rinse)
    }

    /// Whether the bath takes the silver salt out: by its role, or because it holds a thiosulfate.
    pub(super) fn fixes(&self) -> bool {
        self.bath.is_some_and(Bath::fixes)
    }

    /// Whether the bath holds a material with a property.
    pub(super) fn holds(&self, property: Property) -> bool {
        self.bath.is_some_and(|bath| bath.first(property).is_some())
    }

    /// What the step is called in the notebook.
    pub(super) fn name(&self) -> &'n str {
        let id = self.step.bath.get().map(|bath| bath.value.as_str());
        id.unwrap_or(self.step.kind.word())
    }

    /// How long it takes, as the line says, else as the recipe does; none where the eye ends it.
    pub(super) fn time(&self) -> Option<Range> {
        stated_time(self.step, self.bath).map(|time| time.range)
    }
}

/// Whether the sheet goes from this bath straight into a developer with an alkali, in every line that has the bath: the first
/// of two baths soaks in and works in the second.
pub(super) fn alkali_follows(context: &Context<'_>, bath: &Bath) -> bool {
    let lines = lines(context);
    let mut followed = lines
        .iter()
        .flat_map(|line| line.steps.iter().zip(line.steps.iter().skip(1)))
        .filter(|(step, _)| step.bath.is_some_and(|one| one.id == bath.id))
        .map(|(_, next)| {
            next.is(Role::Developer) && (next.holds(Property::Alkali) || next.holds(Property::Caustic))
        })
        .peekable();
    followed.peek().is_some() && followed.all(|is| is)
}

/// Time of several steps together; none where one of them is not known.
pub(super) fn total(steps: &[&LineStep<'_>]) -> Option<Range> {
    steps
        .iter()
        .try_fold(Range::ZERO, |sum, step| Some(sum + step.time()?))
}

/// Every process with its steps. `whole` tells whether every step could be read and leads to a bath that could be read,
/// so that something may be concluded from what is not there.
pub(super) struct Line<'n> {
    /// The block.
    pub block: &'n Block,
    /// The process.
    pub process: &'n Process,
    /// Its steps.
    pub(super) steps: Vec<LineStep<'n>>,
    /// Whether all of it could be read.
    pub whole: bool,
}

/// The lines of a notebook.
pub(super) fn lines<'n>(context: &Context<'n>) -> Vec<Line<'n>> {
    let mut lines = Vec::new();
    for (block, process) in context.notebook.processes() {
        let steps: Vec<LineStep<'n>> = process
            .steps
            .iter()
            .map(|step| LineStep {
                step,
                bath: step.bath.get().and_then(|id| context.facts.baths.get(&id.value)),
            })
            .collect();
        let whole = !process.incomplete
            && !block.broken
            && steps.iter().all(|one| match one.step.kind {
                StepKind::Bath | StepKind::WashAid => one
                    .bath
                    .is_some_and(|bath| bath.complete && bath.role().is_some()),
                _ => true,
            });
        lines.push(Line {
            block,
            process,
            steps,
            whole,
        });
    }
    lines
}
