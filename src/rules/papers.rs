//! What sessions developed: on which papers, and in lines for which base.

use std::collections::BTreeMap;

use crate::notebook::{Base, Block, Notebook, Paper, Session};
use crate::source::{Span, Spanned};

use super::context::Context;
use super::steps::Line;

/// A paper of a session, and the first sheet on it.
pub(super) struct OnPaper<'n> {
    /// The sheet, where the session lists it.
    pub(super) sheet: &'n Spanned<String>,
    /// The paper's block.
    pub(super) block: &'n Block,
    /// The paper.
    pub(super) paper: &'n Paper,
}

/// The papers of a session's sheets, each once, in the order of the sheets.
pub(super) fn papers_of<'n>(notebook: &'n Notebook, session: &'n Session) -> Vec<OnPaper<'n>> {
    let mut papers: Vec<OnPaper<'n>> = Vec::new();
    for sheet in &session.sheets {
        if let Some((block, paper)) = notebook.sheets(&sheet.value).paper
            && !papers.iter().any(|other| other.block.id == block.id)
        {
            papers.push(OnPaper { sheet, block, paper });
        }
    }
    papers
}

/// The base that sessions developed in each line, and the sheet that tells: fibre, which wants more, before resin-coated.
pub(super) struct Bases<'n>(BTreeMap<&'n str, (Base, Span)>);

impl<'n> Bases<'n> {
    /// Reads every session once.
    pub(super) fn of(context: &Context<'n>) -> Self {
        let mut bases: BTreeMap<&str, (Base, Span)> = BTreeMap::new();
        for (_, session) in context.notebook.sessions() {
            let Some(process) = session.process.get() else {
                continue;
            };
            for on in papers_of(context.notebook, session) {
                let Some(base) = on.paper.known_base() else {
                    continue;
                };
                let held = bases.entry(&process.value).or_insert((base, on.sheet.span));
                if (held.0, base) == (Base::Rc, Base::Fibre) {
                    *held = (base, on.sheet.span);
                }
            }
        }
        Self(bases)
    }

    /// The base that a line has to do for: the one it says, else that of a sheet that was developed in it, with the sheet.
    pub(super) fn of_line(&self, line: &Line<'_>) -> Option<(Base, Option<Span>)> {
        if line.process.paper.is_absent() {
            let (base, sheet) = self.0.get(line.block.id.as_str())?;
            return Some((*base, Some(*sheet)));
        }
        Some((line.process.base()?, None))
    }
}
