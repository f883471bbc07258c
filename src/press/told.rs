//! The words of a card's parts, to be quoted where a side holds too much.

use crate::views::card::Card;

/// How many letters of a text are quoted.
const QUOTED: usize = 48;

/// The texts of a part of a side, by the name that the card template gives it; none of a drawing.
pub(super) fn texts(side: &Card, part: &str) -> Vec<String> {
    let lines = |lines: &[crate::views::card::Line]| -> Vec<String> {
        let each = lines.iter();
        each.map(|line| format!("{} {}", line.label, line.text)).collect()
    };
    match part {
        "title" => vec![side.title.clone(), side.role.clone()],
        "untested" => side.untested.iter().cloned().collect(),
        "figures" => {
            let each = side.key_figures.iter();
            each.map(|figure| format!("{} {}", figure.label, figure.value))
                .collect()
        }
        "amounts" => {
            let rows = side.groups.iter().flat_map(|group| &group.rows);
            rows.map(|row| row.material.clone()).collect()
        }
        "times" => {
            let rows = side.times.iter().flat_map(|times| &times.rows);
            rows.map(|row| row.name.clone()).collect()
        }
        "steps" | "trays" => {
            let each = side.steps.iter();
            each.map(|step| {
                let words = [&step.what, &step.figure, &step.second, &step.note];
                let words: Vec<&str> = words
                    .into_iter()
                    .map(String::as_str)
                    .filter(|word| !word.is_empty())
                    .collect();
                words.join(" ")
            })
            .collect()
        }
        "lines" => lines(&side.lines),
        "beforehand" => lines(&side.beforehand),
        "cautions" => {
            let each = side.cautions.iter();
            each.map(|caution| caution.text.clone()).collect()
        }
        "boxes" => side.boxes.clone(),
        "stamp" => vec![side.stamp.clone()],
        _ => Vec::new(),
    }
}

/// The longest of some texts, and about how many letters have to go for a part of them to go.
pub(super) fn longest(texts: &[String], part: f64) -> (String, usize) {
    let letters = |text: &String| text.chars().count();
    let longest = texts.iter().max_by_key(|text| letters(text));
    let all: usize = texts.iter().map(letters).sum();
    let too_many = (all as f64 * part.clamp(0.0, 1.0)).ceil();
    (
        longest.map(|text| quoted(text)).unwrap_or_default(),
        too_many as usize,
    )
}

/// The beginning of a text, broken off at a word where there is one.
pub(super) fn quoted(text: &str) -> String {
    let text = text.trim();
    let Some((end, _)) = text.char_indices().nth(QUOTED) else {
        return text.to_owned();
    };
    let begun = text.get(..end).unwrap_or(text);
    let whole = begun.rsplit_once(' ').map_or(begun, |(whole, _)| whole);
    format!("{whole} …")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quote_ends_at_a_word() {
        assert_eq!(quoted("keep it moving "), "keep it moving");
        let long = quoted(&"keep it moving ".repeat(9));
        assert_eq!(long, "keep it moving keep it moving keep it moving …");
        assert_eq!(quoted(&"ä".repeat(60)), format!("{} …", "ä".repeat(48)));
    }

    #[test]
    fn letters_too_many_are_a_share_of_all() {
        let texts = ["four".to_owned(), "sixsix".to_owned()];
        assert_eq!(longest(&texts, 0.25), ("sixsix".to_owned(), 3));
        assert_eq!(longest(&texts, 7.0).1, 10);
        assert_eq!(longest(&[], 0.5), (String::new(), 0));
    }
}
