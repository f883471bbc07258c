//! The shape of a value in words, for the reference pages and for editors.

use crate::units::Dimension;

use super::field::Shape;

impl Shape {
    /// What may be written, in words, with an example where one helps. Markdown: what is written stands in backticks.
    pub fn words(&self) -> String {
        match self {
            Self::Amount(dimensions) => amount(dimensions),
            Self::Text => "words".to_owned(),
            Self::Word(words) => one_of(words.iter().map(|word| format!("`{word}`"))),
            Self::Reference(kinds) => {
                format!(
                    "the id of {}",
                    one_of(kinds.iter().map(|kind| kind.with_article().to_owned()))
                )
            }
            Self::Date => "a date, such as `2031-05-02 19:30`".to_owned(),
            Self::YesNo => "`yes` or `no`".to_owned(),
            Self::Whole => "a whole number".to_owned(),
            Self::Map(_) => "keys of its own, below".to_owned(),
            Self::List(Self::Map(_)) => "a list, each with keys of its own, below".to_owned(),
            Self::List(item) => format!("a list, or one: {}", item.words()),
            Self::Each(value) => format!("names, each with {}", value.words()),
            Self::Own(words) => (*words).to_owned(),
        }
    }
}

fn amount(dimensions: &[Dimension]) -> String {
    let example = dimensions.first().map_or("", |dimension| dimension.example());
    let words = one_of(
        dimensions
            .iter()
            .map(|dimension| dimension.with_article().to_owned()),
    );
    format!("{words}, such as `{example}`")
}

/// `a`, `a or b`, `a, b or c`.
fn one_of(words: impl Iterator<Item = String>) -> String {
    let words: Vec<String> = words.collect();
    match words.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
        None => String::new(),
    }
}
