//! What differs between two texts of one recipe, key by key and as it was written.
//!
//! Only what a bath is mixed, used and kept by counts: a new title, caution or remark makes no other bath.

use std::fmt;

use crate::notebook::nearest;
use crate::source::{FileId, OffsetMap};
use crate::syntax::{Entry, Node, NodeKind, read_page, read_yaml};

/// One thing that was another then.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// What, such as `washing soda, anhydrous` or `time`.
    pub what: What,
    /// As the batch was mixed.
    pub then: String,
    /// As the recipe has it now.
    pub now: String,
}

/// What a text says something of: a material or a key, and whose.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct What {
    /// The material or the key, as it was written.
    pub name: String,
    /// Where it stands.
    pub place: Stands,
}

/// Where a material or a key of a recipe stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stands {
    /// With the whole bath.
    Whole,
    /// A key of the part of this name.
    Of(String),
    /// A material in the part of this name.
    In(String),
}

impl fmt::Display for What {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.place {
            Stands::Whole => f.write_str(&self.name),
            Stands::Of(part) => write!(f, "{} of the {part}", self.name),
            Stands::In(part) => write!(f, "{} in the {part}", self.name),
        }
    }
}

impl Difference {
    /// What stands for a thing that one of the texts does not say.
    pub const NOT_SAID: &str = "not said";
    /// What stands for a material or a list that one of the texts does not have.
    pub const NONE: &str = "none";

    /// Such as `30 g then, 25 g now`.
    pub fn words(&self) -> String {
        format!("{} then, {} now", self.then, self.now)
    }
}

/// A key and its value, in words.
#[derive(Debug, PartialEq, Eq)]
struct Said {
    what: What,
    value: String,
    /// The same one by one, where it is a list.
    items: Vec<String>,
    /// What it is called where the other text does not have it.
    without: &'static str,
}

/// What differs between the text then and the text now, in the order of writing.
pub(super) fn differences(then: &str, now: &str) -> Vec<Difference> {
    let (then, now) = (said(then), said(now));
    let new = now.iter().filter(|one| of(&then, &one.what).is_none());
    let all = then.iter().chain(new);
    all.filter_map(|one| difference(one, of(&then, &one.what), of(&now, &one.what)))
        .collect()
}

/// What a text says of a key.
fn of<'s>(all: &'s [Said], what: &What) -> Option<&'s Said> {
    all.iter().find(|said| said.what == *what)
}

/// A key as both texts have it, where they do not have it alike.
fn difference(one: &Said, then: Option<&Said>, now: Option<&Said>) -> Option<Difference> {
    let value = |said: Option<&Said>| said.map_or_else(|| one.without.to_owned(), |said| said.value.clone());
    let whole = Difference {
        what: one.what.clone(),
        then: value(then),
        now: value(now),
    };
    if whole.then == whole.now {
        return None;
    }
    let (Some(then), Some(now)) = (then, now) else {
        return Some(whole);
    };
    // Of many steps those are told that only one has.
    let (only_then, only_now) = (then.without(now), now.without(then));
    if only_then.is_empty() && only_now.is_empty() {
        return Some(whole);
    }
    let told = |steps: &[&str]| {
        if steps.is_empty() {
            Difference::NONE.to_owned()
        } else {
            steps.join("; ")
        }
    };
    Some(Difference {
        then: told(&only_then),
        now: told(&only_now),
        ..whole
    })
}

impl Said {
    /// The items of a list that another does not have, each taken once.
    fn without<'s>(&'s self, other: &'s Self) -> Vec<&'s str> {
        let mut taken: Vec<&str> = other.items.iter().map(String::as_str).collect();
        let own = self.items.iter().map(String::as_str);
        own.filter(|item| {
            let at = taken.iter().position(|held| held == item);
            at.map(|at| taken.remove(at)).is_none()
        })
        .collect()
    }
}

/// What a text says, each key once: what a recipe does not say is as in the one it is based on.
fn said(text: &str) -> Vec<Said> {
    let mut all: Vec<Said> = Vec::new();
    for fence in read_page(FileId(0), text).fences {
        let map = OffsetMap::slice(FileId(0), 0, fence.text.len());
        let node = read_yaml(&fence.text, &map, &mut Vec::new()).node;
        let own = of_recipe(&node);
        // How long it keeps is taken over as a whole.
        let keeps = all.iter().any(|said| said.what.name.starts_with(KEEPS));
        for one in own {
            let known = all.iter().any(|said| said.what == one.what);
            let taken_over = !keeps || !one.what.name.starts_with(KEEPS);
            if !known && taken_over {
                all.push(one);
            }
        }
    }
    all
}

const KEEPS: &str = "keeps";

fn of_recipe(node: &Node) -> Vec<Said> {
    let mut out = Vec::new();
    for key in ["role", "makes", "water", "gas"] {
        say(&mut out, key, Stands::Whole, of_key(node, key));
    }
    materials(&mut out, of_key(node, "add"), &Stands::Whole);
    for part in of_key(node, "parts").map_or(&[][..], Node::items) {
        let name = of_key(part, "name").map_or_else(String::new, words);
        for key in ["water", "makes"] {
            say(&mut out, key, Stands::Of(name.clone()), of_key(part, key));
        }
        materials(&mut out, of_key(part, "add"), &Stands::In(name.clone()));
        say(&mut out, "steps", Stands::Of(name), of_key(part, "steps"));
    }
    say(&mut out, "steps", Stands::Whole, of_key(node, "steps"));
    for (key, prefix) in [("use", ""), (KEEPS, "keeps, ")] {
        let Some(value) = of_key(node, key) else { continue };
        match value.entries() {
            Some(entries) => entries.iter().for_each(|entry| {
                say(
                    &mut out,
                    &format!("{prefix}{}", entry.key.value),
                    Stands::Whole,
                    Some(&entry.value),
                );
            }),
            None => say(&mut out, key, Stands::Whole, Some(value)),
        }
    }
    out
}

/// The value of a key, mistyped or not, as reading takes it.
fn of_key<'n>(node: &'n Node, key: &str) -> Option<&'n Node> {
    node.get(key).or_else(|| {
        let entries = node.entries()?;
        let meant = entries
            .iter()
            .find(|entry| nearest(&entry.key.value, [key]) == Some(key));
        meant.map(|entry| &entry.value)
    })
}

fn say(out: &mut Vec<Said>, name: &str, place: Stands, value: Option<&Node>) {
    let Some(value) = value else { return };
    out.push(Said {
        what: What {
            name: name.to_owned(),
            place,
        },
        value: words(value),
        items: match &value.kind {
            NodeKind::List(items) => items.iter().map(words).collect(),
            _ => Vec::new(),
        },
        without: Difference::NOT_SAID,
    });
}

fn materials(out: &mut Vec<Said>, add: Option<&Node>, place: &Stands) {
    for entry in add.and_then(Node::entries).unwrap_or_default() {
        out.push(Said {
            what: What {
                name: entry.key.value.clone(),
                place: place.clone(),
            },
            value: words(&entry.value),
            items: Vec::new(),
            without: Difference::NONE,
        });
    }
}

/// A value in words: `steep 20 min; strain; cool 24 °C (hands no)`.
fn words(node: &Node) -> String {
    match &node.kind {
        NodeKind::Scalar { text, .. } => text.split_whitespace().collect::<Vec<_>>().join(" "),
        NodeKind::List(items) => items.iter().map(words).collect::<Vec<_>>().join("; "),
        // How sure a figure is makes no other bath.
        NodeKind::Map(_) if node.get("value").is_some() => node.get("value").map_or_else(String::new, words),
        NodeKind::Map(entries) => {
            let value = |node: &Node| match &node.kind {
                NodeKind::List(items) => items.iter().map(words).collect::<Vec<_>>().join(", "),
                _ => words(node),
            };
            let pair = |entry: &Entry| format!("{} {}", entry.key.value, value(&entry.value));
            let mut pairs = entries.iter().map(|entry| pair(entry).trim_end().to_owned());
            let first = pairs.next().unwrap_or_default();
            let rest: Vec<String> = pairs.collect();
            if rest.is_empty() {
                first
            } else {
                format!("{first} ({})", rest.join(", "))
            }
        }
        NodeKind::Empty | NodeKind::Broken => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(then: &str, now: &str) -> Vec<String> {
        let fence = |text: &str| format!("```recipe\n{text}\n```\n");
        let all = differences(&fence(then), &fence(now));
        all.iter()
            .map(|one| format!("{}: {}", one.what, one.words()))
            .collect()
    }

    #[test]
    fn keys_are_told_one_by_one() {
        let then = "title: Tea\nmakes: 1 l\nadd:\n  washing soda, anhydrous: 30 g\n  salt: 5 g\nsteps:\n  - steep: 20 min\n  \
                    - strain\nuse:\n  time: 8 min\nkeeps: 1 h";
        let now = "title: Better tea\nmakes: 1 l\nadd:\n  vitamin C powder: 9 g\n  washing soda, anhydrous: 25 g\nsteps:\n  \
                   - steep: 25 min\n    hands: no\n  - strain\nuse:\n  time: 8 min\nkeeps:\n  tray: 1 h";
        assert_eq!(
            told(then, now),
            [
                "washing soda, anhydrous: 30 g then, 25 g now",
                "salt: 5 g then, none now",
                "steps: steep 20 min then, steep 25 min (hands no) now",
                "keeps: 1 h then, not said now",
                "vitamin C powder: none then, 9 g now",
                "keeps, tray: not said then, 1 h now",
            ]
        );
        assert_eq!(told(then, then), [""; 0]);
    }

    #[test]
    fn of_steps_those_are_told_that_only_one_has() {
        let steps = |steps: &str| format!("steps: [{steps}]");
        for (then, now, words) in [
            ("strain, stir", "strain", "steps: stir then, none now"),
            ("strain, stir, stir", "stir, strain", "steps: stir then, none now"),
            (
                "strain, stir",
                "stir, strain",
                "steps: strain; stir then, stir; strain now",
            ),
        ] {
            assert_eq!(told(&steps(then), &steps(now)), [words]);
        }
    }

    #[test]
    fn words_that_make_no_other_bath_do_not_count() {
        assert_eq!(
            told(
                "title: A\nmakes: 1 l",
                "title: B\nmakes:   1 l\nnote: longer\ncautions: hot"
            ),
            [""; 0]
        );
    }

    #[test]
    fn what_is_taken_over_counts_as_said() {
        let base = "```recipe\nid: base\nmakes: 1 l\nadd:\n  salt: 5 g\nkeeps: 1 h\n```\n";
        let then = format!("```recipe\nbased on: base\nadd:\n  salt: 6 g\n```\n\n{base}");
        let now = "```recipe\nmakes: 1 l\nadd:\n  salt: 6 g\nkeeps: 1 h\n```\n";
        assert_eq!(differences(&then, now), []);
    }
}
