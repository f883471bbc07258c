//! What is asked from outside a notebook, read as the notebook would read it.

use crate::source::{FileId, Span};
use crate::syntax::{Node, NodeKind};

use super::date::{self, When};
use super::light::{self, Light};
use super::lower::Lower;
use super::settings::Settings;

/// Reads light as an exposure's `light` is read: `EV 12.5`, `8000 lx`, `1/60 s at f/16, ISO 100` or a scene's words. In
/// words what is wrong with anything else.
pub fn read_light(text: &str, settings: &Settings) -> Result<Light, String> {
    let mut lower = Lower::new(settings.style, None);
    let node = Node {
        span: Span::new(FileId(0), 0, 0),
        kind: NodeKind::Scalar {
            text: text.to_owned(),
            exact: false,
        },
    };
    let read = light::read(&mut lower, &node);
    match (read, lower.findings.into_iter().next()) {
        (Some(light), None) => Ok(light.value),
        (_, Some(finding)) => Err(match finding.help {
            Some(help) => format!("{}; {help}", finding.message),
            None => finding.message,
        }),
        (None, None) => Err(format!("`{text}` is no light")),
    }
}

/// Reads a date as an exposure's `when` is read, in the notebook's zone. In words what is wrong with anything else.
pub fn read_when(text: &str, settings: &Settings) -> Result<When, String> {
    let read = date::read(text, settings.zone.get());
    match (read.when, read.mistake) {
        (Some(when), _) => Ok(when),
        (None, Some(mistake)) => Err(match mistake.help {
            Some(help) => format!("{}; {help}", mistake.message),
            None => mistake.message,
        }),
        (None, None) => Err(format!("`{text}` is no date")),
    }
}
