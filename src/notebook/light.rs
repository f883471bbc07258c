//! What a notebook says about light: an exposure value, lux, a meter's reading, or a scene in words.

use crate::finding::{Finding, slug};
use crate::optics::SceneLight;
use crate::source::Spanned;
use crate::syntax::Node;
use crate::units::{Amount, Dimension};

use super::lower::Lower;
use super::nearest;

/// Light, as written.
#[derive(Debug, Clone, PartialEq)]
pub enum Light {
    /// An exposure value at speed 100.
    Value(Amount),
    /// Illuminance at the subject.
    Lux(Amount),
    /// What a camera's meter showed.
    Meter {
        /// Shutter time.
        time: Amount,
        /// f-number.
        f_number: Amount,
        /// The speed it was set to.
        speed: Amount,
    },
    /// A scene in words; `sun` also reads the block's `sky` and `facing`.
    Scene(SceneLight),
}

/// Reads `EV 12.5`, `8000 lx`, `1/60 s at f/16, ISO 100` or a scene's words.
pub(super) fn read(lower: &mut Lower, node: &Node) -> Option<Spanned<Light>> {
    let text = lower.scalar(node, "light")?;
    let trimmed = text.trim();
    let folded = nearest::fold(trimmed);
    if let Some(scene) = SceneLight::from_words(&folded) {
        return Some(Spanned::new(Light::Scene(scene), node.span));
    }
    let begins_word = !trimmed.starts_with("EV") && trimmed.chars().next().is_some_and(char::is_alphabetic);
    if begins_word {
        let known = SceneLight::ALL.map(SceneLight::words);
        let near = nearest(trimmed, known).or_else(|| nearest::akin(trimmed, known));
        let help = match near {
            Some(word) => format!("did you mean `{word}`?"),
            None => format!(
                "write `EV 12.5`, `8000 lx`, `1/60 s at f/16, ISO 100`, or one of {}",
                super::lower::list(&known)
            ),
        };
        lower.report(
            Finding::fault(
                slug::WORD_UNKNOWN,
                node.span,
                format!("`{trimmed}` is no scene known here"),
            )
            .help(help),
        );
        return None;
    }
    if let Some(at) = text.find(" at ") {
        return meter(lower, node, text, at);
    }
    let amount = lower.amount(node, &[Dimension::ExposureValue, Dimension::Illuminance])?;
    let light = match amount.value.dimension {
        Dimension::Illuminance => Light::Lux(amount.value),
        _ => Light::Value(amount.value),
    };
    Some(Spanned::new(light, node.span))
}

/// `1/60 s at f/16, ISO 100`; the speed may be left out only where it cannot be mistaken, so it may not.
fn meter(lower: &mut Lower, node: &Node, text: &str, at: usize) -> Option<Spanned<Light>> {
    let time = lower.amount_in(node, 0..at, &[Dimension::Time]);
    let rest = at + " at ".len();
    let Some(comma) = text
        .get(rest..)
        .and_then(|rest| rest.find(','))
        .map(|found| rest + found)
    else {
        lower.report(
            Finding::fault(
                slug::VALUE_SHAPE,
                node.within(&(rest..text.len())),
                "a meter's reading names the speed it was set to",
            )
            .help("write it as `1/60 s at f/16, ISO 100`"),
        );
        return None;
    };
    let f_number = lower.amount_in(node, rest..comma, &[Dimension::FNumber]);
    let gap = text
        .get(comma + 1..)
        .map_or(0, |tail| tail.len() - tail.trim_start().len());
    let speed = lower.amount_in(node, comma + 1 + gap..text.len(), &[Dimension::Speed]);
    let light = Light::Meter {
        time: time?.value,
        f_number: f_number?.value,
        speed: speed?.value,
    };
    Some(Spanned::new(light, node.span))
}
