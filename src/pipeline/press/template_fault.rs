//! A mistake in a template of the notebook, as a finding at its place.

use crate::finding::{Finding, slug};
use crate::site::SiteFault;
use crate::source::Span;

use super::Proof;

/// A fault of the site's templates.
pub(super) fn of_site(proof: &Proof, fault: &SiteFault) -> Finding {
    let file = format!("templates/{}", fault.file);
    of_template(proof, &file, (fault.line, fault.column), &fault.message)
}

/// A mistake in a template: at its place where the notebook has that template, else at the settings.
pub(super) fn of_template(
    proof: &Proof,
    path: &str,
    (line, column): (usize, usize),
    message: &str,
) -> Finding {
    let own = proof.sources.iter().find(|(_, file)| file.path() == path);
    let (span, message) = match own {
        Some((id, file)) => {
            let at = file.offset(line, column);
            (
                Span::new(id, at, at),
                format!("the template has a mistake here: {message}"),
            )
        }
        None => (
            Span::new(proof.settings, 0, 0),
            format!("the template {path} has a mistake at line {line}, column {column}: {message}"),
        ),
    };
    Finding::fault(slug::TEMPLATE_BROKEN, span, message)
        .help("mend the template, or remove it to use the built-in one")
}
