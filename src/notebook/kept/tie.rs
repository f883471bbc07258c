//! What ties a batch to the text of its recipe: a small file, written once, that a person can read.

use crate::source::{FileId, OffsetMap, SourceFile, Span};
use crate::syntax::read_yaml;

/// What stands above the keys.
const HEAD: &str = "\
# The recipe by which this batch was mixed, as it was when trayside first found the batch.
# To have it kept anew, as the recipe is then, delete this file and press.
";

/// Which text a batch was mixed by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tie {
    /// The batch's id.
    pub batch: String,
    /// When it was mixed, as written: by that it is known where its id is another now.
    pub made: String,
    /// The recipe's id.
    pub of: String,
    /// The name of the file of the recipe's text.
    pub recipe: String,
    /// Whether the recipe stood on a private page.
    pub private: bool,
}

impl Tie {
    /// The tie as a file.
    pub fn written(&self) -> String {
        let mut out = HEAD.to_owned();
        let audience = if self.private { "private" } else { "" };
        for (key, value) in [
            ("batch", self.batch.as_str()),
            ("made", &self.made),
            ("of", &self.of),
            ("recipe", &self.recipe),
            ("audience", audience),
        ] {
            if !value.is_empty() {
                out.push_str(&format!("{key}: {}\n", scalar(value)));
            }
        }
        out
    }

    /// Reads the file; or what is missing in it.
    pub(super) fn read(id: FileId, file: &SourceFile) -> Result<TieFile, &'static str> {
        let text = file.text();
        let map = OffsetMap::slice(id, 0, text.len());
        let document = read_yaml(text, &map, &mut Vec::new());
        let value = |key: &str| {
            let node = document.node.get(key)?;
            Some((node.text()?.trim().to_owned(), node.span))
        };
        let (Some((batch, _)), Some((of, _)), Some((recipe, span))) =
            (value("batch"), value("of"), value("recipe"))
        else {
            return Err(
                "this does not say which `batch` was mixed by which `recipe`, or what it was a batch `of`",
            );
        };
        let tie = Self {
            batch,
            made: value("made").map_or_else(String::new, |(made, _)| made),
            of,
            recipe,
            private: document.broken || document.node.get("audience").is_some(),
        };
        Ok(TieFile { tie, span })
    }
}

/// A tie and the place where it names its text.
#[derive(Debug)]
pub(super) struct TieFile {
    pub(super) tie: Tie,
    pub(super) span: Span,
}

/// A value as it stands in YAML: plain where nothing in it could be taken for anything else.
fn scalar(value: &str) -> String {
    let harmless = |c: char| c.is_alphanumeric() || matches!(c, '-' | '_' | '.' | '+');
    // A time has colons, and a space after none of them.
    let plain = value.starts_with(|c: char| c.is_alphanumeric())
        && value.ends_with(|c: char| c.is_alphanumeric())
        && !value.contains(": ")
        && value.chars().all(|c| harmless(c) || matches!(c, ' ' | ':'));
    if plain {
        value.to_owned()
    } else {
        format!("'{}'", value.replace('\'', "''"))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::source::Sources;

    proptest! {
        #[test]
        fn what_is_written_is_read(batch in "\\PC{1,20}", made in "[0-9: +-]{0,20}", private: bool) {
            prop_assume!(batch.trim() == batch && made.trim() == made && !batch.contains('\u{feff}'));
            let tie = Tie {
                batch,
                made,
                of: "some-tea".to_owned(),
                recipe: "some-tea.0123456789abcdef.txt".to_owned(),
                private,
            };
            let mut sources = Sources::default();
            let id = sources.add("kept/batches/a.txt", tie.written());
            let found = Tie::read(id, sources.get(id).unwrap()).unwrap();
            prop_assert_eq!(found.tie, tie);
        }
    }
}
