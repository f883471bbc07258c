//! Amounts of one material that were computed: rounded to what can be measured out, and read as they are measured.

use crate::notebook::Notebook;
use crate::units::{Digits, Dimension, Range, Style, show};

/// To what liquids are measured out, in litres.
const POURED: f64 = 0.001;

/// How a material is counted: by mass in grams or by volume in litres.
#[derive(Debug, Clone, Copy)]
pub(super) struct Counted {
    dimension: Dimension,
    step: Option<f64>,
    style: Style,
}

impl Counted {
    pub(super) fn of(notebook: &Notebook, dimension: Dimension) -> Self {
        let step = match dimension {
            Dimension::Volume => Some(POURED),
            _ => notebook
                .settings
                .scale
                .get()
                .map(|scale| scale.range.best)
                .filter(|step| *step > 0.0),
        };
        Self {
            dimension,
            step,
            style: notebook.settings.style,
        }
    }

    /// To the scale's step, where there is one; else to three digits.
    pub(super) fn rounded(&self, amount: f64) -> f64 {
        let step = self.step.unwrap_or_else(|| {
            let lead = libm::floor(libm::log10(amount.abs().max(1e-9)));
            libm::pow(10.0, lead - 2.0)
        });
        libm::round(amount / step) * step
    }

    /// The step, as it is read.
    pub(super) fn step(&self) -> Option<String> {
        self.step.map(|step| self.text(Range::exact(step)))
    }

    /// As it is measured out.
    pub(super) fn exactly(&self, amount: f64) -> String {
        let digits = self.step.map_or(Digits::Significant(3), Digits::Step);
        show(Range::exact(amount), self.dimension, digits, self.style)
    }

    /// A range or an amount as it is read, to two digits.
    pub(super) fn text(&self, range: Range) -> String {
        let digits = if range.is_exact() { 3 } else { 2 };
        show(range, self.dimension, Digits::Significant(digits), self.style)
    }

    /// Grams, or millilitres.
    pub(super) fn in_unit(&self, amount: f64) -> f64 {
        let amount = match self.dimension {
            Dimension::Volume => amount * 1000.0,
            _ => amount,
        };
        // A ten-thousandth is finer than any scale.
        libm::round(amount * 1e4) / 1e4
    }

    /// `g` or `ml`.
    pub(super) fn unit(&self) -> &'static str {
        match self.dimension {
            Dimension::Volume => "ml",
            _ => "g",
        }
    }
}
