//! What the cost of a class leaves out for want of a price.

use crate::facts::NoPrice;

use super::steps::listed;

/// What has no price, and why: one line for all of it.
pub(super) fn not_counted(gaps: &[NoPrice]) -> Option<String> {
    let quoted = |name: &String| format!("`{name}`");
    let pick = |of: fn(&NoPrice) -> Option<&String>| -> Vec<String> {
        let mut names: Vec<String> = gaps.iter().filter_map(of).map(quoted).collect();
        names.dedup();
        names
    };
    let all = |names: &[String]| {
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        listed(&names, "and")
    };
    let unpriced = pick(|gap| match gap {
        NoPrice::Unpriced(name) => Some(name),
        _ => None,
    });
    let no_pack = pick(|gap| match gap {
        NoPrice::NoPack(name) => Some(name),
        _ => None,
    });
    let mut told = Vec::new();
    match unpriced.as_slice() {
        [] => {}
        [one] => told.push(format!("{one} has no price: give its packet `pack` and `price`")),
        many => told.push(format!(
            "{} have no price: give each packet `pack` and `price`",
            all(many)
        )),
    }
    if !no_pack.is_empty() {
        told.push(format!("what a pack of {} holds is not known", all(&no_pack)));
    }
    told.extend(gaps.iter().filter_map(|gap| match gap {
        NoPrice::Because(why) => Some((*why).to_owned()),
        _ => None,
    }));
    (!told.is_empty()).then(|| format!("Not counted: {}.", told.join("; ")))
}
