//! The fixed words of what is printed, in one table for each language: `english.rs`, `german.rs`, and beside each the words
//! of the site and of its blocks. What the author wrote is never changed. Units that are words stand beside the units, in
//! `src/units/table/german.rs`.
//!
//! To add a language, add it to [`Language`], write its table, and its units. A word that is left out does not compile; one
//! that is left in English fails a test. Until somebody who speaks it at work has read the table, `unreviewed` stays
//! set, and all that is printed says so.

mod block_table;
mod english;
mod english_block;
mod english_site;
mod german;
mod german_block;
mod german_site;
mod page_table;
mod site_table;
mod speech;
mod table;
mod vessel;

use crate::chem::Input;
use crate::facts::{Solution, Widest, widest};
use crate::finding::Finding;
use crate::notebook::Notebook;
use crate::pantry::Pantry;
use crate::units::Language;

pub(super) use block_table::{BlockWords, FactWords, RowWords, ValueWords};
pub(super) use page_table::FindingWords;
pub(super) use site_table::ScaleWords;
pub use speech::Speech;
pub(super) use table::{AltWords, CuttingWords, Group, RefusedWords, Sayings, SheetWords, Words};

/// The table of a language.
pub(super) fn words(language: Language) -> &'static Words {
    match language {
        Language::English => &english::WORDS,
        Language::German => &german::WORDS,
    }
}

/// The table of a notebook.
pub(super) fn words_of(notebook: &Notebook) -> &'static Words {
    words(notebook.settings.style.language)
}

impl Words {
    /// `template` with its one place filled.
    pub(super) fn fill(template: &str, with: &str) -> String {
        template.replacen("{}", with, 1)
    }

    /// `template` with its numbered places filled: `{1}` with the first. What is filled in is not looked at again.
    pub(super) fn fill_all(template: &str, with: &[&str]) -> String {
        let mut out = String::new();
        let mut rest = template;
        while let Some((before, after)) = rest.split_once('{') {
            out.push_str(before);
            rest = after;
            let place = after.split_once('}').and_then(|(number, behind)| {
                let at = number.parse::<usize>().ok()?.checked_sub(1)?;
                Some((with.get(at)?, behind))
            });
            if let Some((text, behind)) = place {
                out.push_str(text);
                rest = behind;
            } else {
                out.push('{');
            }
        }
        out.push_str(rest);
        out
    }

    /// A hazard statement. A code that nobody has put in words stands for itself: it is never left out.
    pub(super) fn statement(&self, code: &str, pantry: &Pantry) -> String {
        let own = self.statements.and_then(|rows| find(rows, code));
        let text = own.or_else(|| pantry.hazard(code)).unwrap_or(code);
        format!("{text}.")
    }

    /// What a hazard found in a block says on paper.
    pub(super) fn hazard(&self, finding: &Finding) -> String {
        let own = self.found.and_then(|rows| find(rows, finding.rule));
        own.map_or_else(
            || format!("{}.", capital(&finding.message.replace('`', ""))),
            str::to_owned,
        )
    }

    /// What makes a solution's pH uncertain.
    pub(super) fn widest(&self, solution: &Solution) -> String {
        let Some(say) = &self.unsure else {
            return widest(solution);
        };
        let Widest { cause, strong } = Widest::of(solution);
        let told = match cause {
            None => say.model.to_owned(),
            Some((input, share)) => {
                let what = match input {
                    Input::Ingredient(name) => Self::fill(say.material, name),
                    Input::Water => say.water.to_owned(),
                    Input::Temperature => say.temperature.to_owned(),
                    Input::Constant(family, step) => {
                        Self::fill_all(say.constant, &[&step.to_string(), family])
                    }
                    Input::Pair(one, other) => Self::fill_all(say.pair, &[one, other]),
                };
                Self::fill_all(say.mostly, &[&what, &format!("{:.0}", share * 100.0)])
            }
        };
        if strong { told + say.strong } else { told }
    }

    /// A sentence behind a colon.
    pub(super) fn behind_colon(&self, sentence: &str) -> String {
        let mut letters = sentence.chars();
        match letters.next() {
            Some(first) if self.small_after_colon => first.to_lowercase().chain(letters).collect(),
            _ => sentence.to_owned(),
        }
    }
}

fn find<K: Copy + PartialEq>(rows: &[(K, &'static str)], key: K) -> Option<&'static str> {
    rows.iter().find(|(own, _)| *own == key).map(|(_, text)| *text)
}

/// The text with its first letter large.
pub(super) fn capital(text: &str) -> String {
    // `pH` stays `pH`.
    if text.starts_with("pH") {
        return text.to_owned();
    }
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Grade;

    fn all(words: &Words) -> Vec<(String, &'static str)> {
        let groups = [
            ("card", words.card.all()),
            ("label", words.label.all()),
            ("sheet", words.sheet.all()),
            ("cutting", words.cutting.all()),
            ("slip", words.slip.all()),
            ("room", words.room.all()),
            ("say", words.say.all()),
            ("kinds", words.kinds.all()),
            ("alt", words.alt.all()),
            ("refused", words.refused.all()),
            ("clock", words.site.clock.all()),
            ("clock_says", words.site.clock_says.all()),
            ("scale", words.site.scale.all()),
            ("page", words.site.page.all()),
            ("list", words.site.list.all()),
            ("search", words.site.search.all()),
            ("contact", words.site.contact.all()),
            ("finding", words.site.finding.all()),
            ("row", words.block.row.all()),
            ("value", words.block.value.all()),
            ("fact", words.block.fact.all()),
            ("plot", words.block.plot.all()),
        ];
        let named = groups.into_iter().flat_map(|(group, words)| {
            words
                .into_iter()
                .map(move |(name, word)| (format!("{group}.{name}"), word))
        });
        named.collect()
    }

    fn places(word: &str) -> Vec<&str> {
        let mut places: Vec<&str> = word
            .match_indices('{')
            .filter_map(|(at, _)| word.get(at..at + word.get(at..)?.find('}')? + 1))
            .collect();
        places.sort_unstable();
        places.dedup();
        places
    }

    /// Words that are the same in two languages.
    const SHARED: &[&str] = &["in {}", "in", "f/"];

    #[test]
    fn every_word_of_another_language_is_its_own() {
        let english = all(words(Language::English));
        for language in Language::ALL
            .into_iter()
            .filter(|language| *language != Language::English)
        {
            let table = words(language);
            assert_eq!(table.code, language.code());
            for ((name, ours), (_, theirs)) in english.iter().zip(all(table)) {
                assert!(!theirs.trim().is_empty(), "{}: {name} is empty", table.code);
                let shared = SHARED.contains(&theirs) || !theirs.contains(char::is_alphabetic);
                assert!(
                    *ours != theirs || shared,
                    "{}: {name} is still `{theirs}`",
                    table.code
                );
                assert_eq!(places(ours), places(theirs), "{}: {name}", table.code);
            }
        }
    }

    #[test]
    fn a_cause_of_doubt_has_a_place_for_its_name() {
        for language in Language::ALL {
            let Some(unsure) = &words(language).unsure else {
                continue;
            };
            for (name, word) in unsure.all() {
                let wanted: &[&str] = match name {
                    "mostly" | "constant" | "pair" => &["{1}", "{2}"],
                    "material" => &["{}"],
                    _ => &[],
                };
                assert_eq!(places(word), wanted, "{name}");
            }
        }
    }

    #[test]
    fn every_statement_and_every_hazard_has_its_line() {
        let pantry = Pantry::standard();
        for language in Language::ALL {
            let table = words(language);
            for material in pantry.materials() {
                for code in &material.hazards {
                    let found = table
                        .statements
                        .map_or_else(|| pantry.hazard(code), |rows| find(rows, code));
                    assert!(found.is_some(), "{}: {code}", table.code);
                }
            }
            let Some(found) = table.found else { continue };
            let hazards = crate::rules::catalogue()
                .filter(|rule| rule.grade == Grade::Hazard)
                .map(|rule| rule.name);
            // One rule is a doubt that becomes a hazard where minors are in the room.
            for rule in hazards.chain([crate::finding::slug::CAUSTIC_PRESENT]) {
                assert!(find(found, rule).is_some(), "{}: {rule}", table.code);
            }
        }
    }

    #[test]
    fn what_is_filled_in_is_not_looked_at_again() {
        assert_eq!(Words::fill_all("{2} of {1}, {2}", &["{2}", "b"]), "b of {2}, b");
        assert_eq!(Words::fill_all("{9} {", &["a"]), "{9} {");
    }
}
