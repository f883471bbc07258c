//! What a page says of itself in a line: its first words, for lists, feeds and search engines.

use super::prose::{Part, Prose};
use super::search::strip::{self, Met};

/// About how many characters of it are told.
const ENOUGH: usize = 200;

/// The first paragraph of a page; empty where it has none. Headings, slips and blocks are passed over.
pub(super) fn of(prose: &Prose<'_>) -> String {
    let mut text = String::new();
    let mut in_heading = false;
    let mut done = false;
    for part in &prose.parts {
        match part {
            Part::Html { html } => strip::read(html, |met| match met {
                _ if done => {}
                Met::Heading(_) => {
                    in_heading = true;
                    done = !text.trim().is_empty();
                }
                Met::HeadingEnd => in_heading = false,
                Met::Text(_) if in_heading => {}
                // It would stand in the middle of a sentence as if it belonged there.
                Met::Alt(_) => {}
                Met::Text(words) => text.push_str(&words),
                Met::Gap => done = !text.trim().is_empty(),
            }),
            Part::Fact { fact, .. } if !in_heading => text.push_str(&fact.text),
            Part::Fact { .. } => {}
            Part::Slips { .. } | Part::Block { .. } => done = !text.trim().is_empty(),
        }
        if done {
            break;
        }
    }
    shortened(&text.split_whitespace().collect::<Vec<_>>().join(" "))
}

fn shortened(text: &str) -> String {
    let Some((end, _)) = text.char_indices().nth(ENOUGH) else {
        return text.to_owned();
    };
    let cut = text.get(..end).unwrap_or(text);
    let cut = cut.rsplit_once(' ').map_or(cut, |(whole, _)| whole);
    format!("{} …", cut.trim_end_matches([',', ';', ':', '.', ' ']))
}

#[cfg(test)]
mod tests {
    use super::shortened;

    #[test]
    fn a_long_paragraph_ends_after_a_word() {
        assert_eq!(shortened("Grey and still."), "Grey and still.");
        let long = "grey, and still, ".repeat(40);
        let short = shortened(&long);
        assert!(
            short.ends_with("still …") || short.ends_with("grey …") || short.ends_with("and …"),
            "{short}"
        );
        assert!(short.chars().count() <= super::ENOUGH + 2);
    }
}
