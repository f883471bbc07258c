//! What the scanner could not read, in a photographer's words.

use granit_parser::{ErrorKind, ScanError};

use crate::finding::slug;

use super::NESTING;

/// A scanner's error in a photographer's words.
pub(super) fn explain(error: &ScanError) -> (slug::Slug, String, &'static str) {
    let (message, help) = match error.kind() {
        ErrorKind::TabInBlockIndentation | ErrorKind::TabInIndentation | ErrorKind::TabNotAllowed => {
            let message = "a tab stands in the indent".to_owned();
            return (
                slug::YAML_TAB,
                message,
                "indent with spaces: tabs have no agreed width",
            );
        }
        ErrorKind::RecursionLimitExceeded => {
            let message = format!("lists and keys are nested more than {NESTING} deep");
            let help = "write it flatter: the language needs five levels at most";
            return (slug::YAML_TOO_DEEP, message, help);
        }
        ErrorKind::UnexpectedCharacter { character } if character.is_control() => (
            "a control character stands here, which no editor shows",
            "delete it and type the value again",
        ),
        ErrorKind::UnexpectedCharacter { character: '`' } => {
            ("a value cannot begin with a back-tick", "put the value in quotes")
        }
        ErrorKind::UnexpectedCharacter { character } => {
            let message = format!("a value cannot begin with `{character}`");
            return (slug::YAML_BROKEN, message, "put the value in quotes");
        }
        ErrorKind::MappingValueNotAllowed => (
            "a second `:` on the line, or a key that is indented differently from its neighbours",
            "put text that holds `: ` in quotes, and start keys that belong together in the same column",
        ),
        ErrorKind::UnclosedQuotedScalar => ("this quote is never closed", "close the quote on the same line"),
        ErrorKind::SimpleKeyExpected | ErrorKind::InvalidSimpleKey => (
            "there is no key here: a colon with a space after it is missing",
            "write it as `key: value`, or indent it under the key that it belongs to",
        ),
        ErrorKind::ExpectedBlockMappingKey
        | ErrorKind::ExpectedBlockSequenceEntry
        | ErrorKind::InvalidIndentation => (
            "the indent does not fit the lines above",
            "start keys that belong together, and the dashes of one list, in the same column",
        ),
        ErrorKind::BlockSequenceEntryNotAllowed
        | ErrorKind::BlockEntryInFlowCollection
        | ErrorKind::InvalidBlockEntryWhitespace => (
            "a list cannot begin here",
            "start the list on the line after its key, or put the value in quotes",
        ),
        ErrorKind::InvalidBlockScalarHeader
        | ErrorKind::ZeroBlockScalarIndent
        | ErrorKind::InvalidBlockScalarIndent => (
            "after `|` or `>` the text begins on the next line",
            "start a new line there, or put the value in quotes",
        ),
        ErrorKind::MisplacedFlowCollectionEnd | ErrorKind::MismatchedFlowCollectionEnd { .. } => (
            "a closing bracket without its opening one",
            "take it out, or put the value in quotes",
        ),
        ErrorKind::UnclosedFlowCollection { .. } => {
            ("this bracket is never closed", "close it with `]` or `}`")
        }
        ErrorKind::UnknownQuotedScalarEscape | ErrorKind::InvalidQuotedScalarHexEscape => (
            "in double quotes a backslash changes the sign after it, and this one it cannot",
            "write two backslashes, or use single quotes",
        ),
        ErrorKind::DirectiveDisallowed
        | ErrorKind::MissingDocumentEndBeforeDirective
        | ErrorKind::InvalidDirectiveName => ("a line cannot begin with `%`", "put the value in quotes"),
        _ => (
            "this cannot be read",
            "check the indent and the punctuation of this line and the one before it",
        ),
    };
    (slug::YAML_BROKEN, message.to_owned(), help)
}

/// Whether an error within open brackets only means that they do not close.
pub(super) fn wants_closing(kind: &ErrorKind) -> bool {
    matches!(
        kind,
        ErrorKind::InvalidColonPlacement
            | ErrorKind::InvalidFlowScalarIndent
            | ErrorKind::UnclosedFlowCollection { .. }
            | ErrorKind::ExpectedFlowMappingSeparator
            | ErrorKind::ExpectedFlowSequenceSeparator
            | ErrorKind::UnexpectedEof
            | ErrorKind::UnexpectedEofFlowSequence
            | ErrorKind::UnexpectedEofFlowMapping
            | ErrorKind::UnexpectedEofImplicitFlowMapping
    )
}
