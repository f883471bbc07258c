//! All integration tests in one binary: each further one would link a program of fifty megabytes again.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    clippy::disallowed_methods,
    clippy::indexing_slicing,
    reason = "a test that cannot go on should stop, and tests look at the disk themselves"
)]

#[cfg(feature = "typst")]
mod cards;
mod chem;
mod facts;
mod layers;
mod optics_rows;
mod book;
mod facts;
mod layers;
mod outputs;
mod pantry;
#[cfg(feature = "typst")]
mod press;
mod chem_properties;
mod reference;
mod reading;
mod rules;
mod site;
mod site_pages;
mod support;
mod trade;
mod units;
mod walk;
mod optics_fit;
mod optics_properties;
mod optics_rows;
mod optics_timetable;

mod reference {
    pub(crate) mod optics;

    /// What became of one row.
    #[derive(Debug, Clone, PartialEq)]
    pub(crate) enum Outcome {
        /// The library's value lies within the tolerance.
        Passed,
        /// It does not; with what was found.
        Failed(String),
        /// The row asks for something that the runner cannot read; with what that is.
        NotUnderstood(String),
    }
}

#[test]
fn every_optics_row_passes() {
    let text = include_str!("../reference/optics/checks_public.csv");
    let mut tally: std::collections::BTreeMap<String, (u32, u32)> = std::collections::BTreeMap::new();
    for row in rows(text).into_iter().skip(1) {
        let [id, topic, inputs, expected, tolerance, _source] = row.as_slice() else {
            panic!("{row:?}");
        };
        let json = |text: &str| serde_json::from_str(text).unwrap();
        let outcome = reference::optics::check(topic, &json(inputs), &json(expected), tolerance);
        let entry = tally.entry(topic.clone()).or_default();
        if outcome == reference::Outcome::Passed {
            entry.0 += 1;
        } else {
            entry.1 += 1;
            println!("{id} {topic}: {outcome:?}");
        }
    }
    for (topic, (passed, other)) in &tally {
        println!("{topic}: {passed} passed, {other} other");
    }
    assert_eq!(tally.values().map(|(passed, _)| passed).sum::<u32>(), 146);
}

fn rows(text: &str) -> Vec<Vec<String>> {
    let mut rows = vec![vec![String::new()]];
    let mut quoted = false;
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        let row = rows.last_mut().unwrap();
        match c {
            '"' if quoted && chars.peek() == Some(&'"') => {
                chars.next();
                row.last_mut().unwrap().push('"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(String::new()),
            '\n' if !quoted => rows.push(vec![String::new()]),
            '\r' => {}
            c => row.last_mut().unwrap().push(c),
        }
    }
    rows.retain(|row| row.len() > 1);
    rows
}
