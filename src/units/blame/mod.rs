//! What to say about an amount that cannot be read: one function for each mistake, in a photographer's words.

mod of_form;
mod of_unit;

use super::Dimension;

pub(crate) use of_form::{
    half_a_range, left_over, negative_tolerance, no_stock, not_a_count, nothing, one_sided, out_of_range,
    part_out_of_order, ratio, reversed, reversed_dilution, three_parts, two_numbers, with_example,
};
pub(crate) use of_unit::{
    dimension_wrong, ends_of_two_kinds, not_a_spoon, part_without_unit, tolerance_of_another_kind,
    unit_missing, unit_unknown, which_pint,
};

/// A text for quoting in a message: short, on one line.
pub(crate) fn quoted(text: &str) -> String {
    let mut short: String = text
        .chars()
        .map(|c| if c.is_control() || c == '`' { ' ' } else { c })
        .take(40)
        .collect();
    if text.chars().nth(40).is_some() {
        short.push('…');
    }
    short
}

/// The kinds that are wanted, in words: `a mass or a volume`.
fn wanted(accepts: &[Dimension]) -> String {
    match accepts {
        [] => "an amount".to_owned(),
        [one] => one.with_article().to_owned(),
        [one, two] => format!("{} or {}", one.with_article(), two.with_article()),
        [one, two, three] => format!(
            "{}, {} or {}",
            one.with_article(),
            two.with_article(),
            three.with_article()
        ),
        [one, two, three, ..] => format!(
            "{}, {}, {} or the like",
            one.with_article(),
            two.with_article(),
            three.with_article()
        ),
    }
}

/// A help text with examples of what is wanted.
fn examples(accepts: &[Dimension]) -> String {
    match accepts {
        [] => "write an amount such as `30 g`".to_owned(),
        [one] => format!("write {} such as `{}`", one.with_article(), one.example()),
        [one, two, ..] => format!(
            "write an amount such as `{}` or `{}`",
            one.example(),
            two.example()
        ),
    }
}
