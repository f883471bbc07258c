//! How much to mix: a volume, a tray, so many sheets, or what a short packet allows.

use crate::facts::{Bath, Dose, Known, Way, known};
use crate::notebook::{Body, Notebook};
use crate::scale::{fill, forms};
use crate::units::scalar::{Length, Volume};
use crate::units::{Amount, Digits, Dimension, Range, number, show};

use crate::notebook::nearest;
use crate::views::amounts::Weighing;
use crate::views::words::{Words, words_of};

/// The most that anyone mixes at home or in a school, litres; beyond it a unit was mistaken. Common practice, no source.
pub(in crate::views) const MOST: f64 = 1000.0;

/// What sets the volume.
#[derive(Debug, Clone, PartialEq)]
pub enum Target {
    /// What the recipe makes.
    AsWritten,
    /// This much.
    Volume(Amount),
    /// A tray of the settings, filled to a depth.
    Tray {
        /// Its name.
        name: String,
        /// How deep; [`fill::DEPTH`] where nothing is said.
        depth: Option<Amount>,
    },
    /// Sheets, by the recipe's capacity.
    Sheets(u64),
    /// What there is of one material.
    Limit {
        /// Its name.
        material: String,
        /// How much there is.
        amount: Amount,
    },
}

/// The volume in litres and how it came about; what is wrong, in a sentence, where there is none.
pub fn litres_of(target: &Target, bath: &Bath, notebook: &Notebook) -> Result<(f64, String), String> {
    let Some(makes) = bath.litres() else {
        return Err(format!(
            "`{}` does not say what it makes, so nothing can be scaled: give it `makes`, such as `makes: 1 l`",
            bath.id
        ));
    };
    if makes.best <= 0.0 {
        return Err(format!("`{}` makes nothing", bath.id));
    }
    let words = words_of(notebook);
    let (say, refused) = (&words.sheet, &words.refused);
    let (litres, because) = match target {
        Target::AsWritten => (makes.best, say.as_written.to_owned()),
        Target::Volume(amount) => (amount.range.best, say.as_asked.to_owned()),
        Target::Tray { name, depth } => tray(name, depth.as_ref(), notebook)?,
        Target::Sheets(count) => sheets(*count, bath, makes, notebook)?,
        Target::Limit { material, amount } => limit(material, amount, bath, makes, notebook)?,
    };
    if !(litres > 0.0 && litres.is_finite()) {
        return Err(refused.nothing.to_owned());
    }
    if litres > MOST {
        let whole = number(Range::exact(litres), Digits::Decimals(0), notebook.settings.style);
        return Err(Words::fill_all(refused.too_much, &[&whole]));
    }
    Ok((litres, because))
}

fn tray(name: &str, depth: Option<&Amount>, notebook: &Notebook) -> Result<(f64, String), String> {
    let style = notebook.settings.style;
    let refused = &words_of(notebook).refused;
    let trays = &notebook.settings.trays;
    let named = |name: &str| {
        trays.iter().find(|tray| {
            tray.name
                .get()
                .is_some_and(|own| own.value.eq_ignore_ascii_case(name))
        })
    };
    let names: Vec<&str> = trays
        .iter()
        .filter_map(|tray| tray.name.get().map(|name| name.value.as_str()))
        .collect();
    let Some(tray) = named(name) else {
        return Err(match nearest(name, names.iter().copied()) {
            Some(near) => format!("there is no tray `{name}`; did you mean `{near}`?"),
            None if names.is_empty() => "trayside.yaml has no `trays`".to_owned(),
            None => format!("there is no tray `{name}`; there are {}", names.join(", ")),
        });
    };
    let Some(inside) = tray.inside.get() else {
        return Err(Words::fill_all(refused.no_inside, &[name]));
    };
    let deep = depth.map_or(fill::DEPTH, |depth| Length::from_millimetres(depth.range.best));
    let shown = |length: Length| {
        show(
            Range::exact(length.millimetres()),
            Dimension::Length,
            Digits::Significant(3),
            style,
        )
    };
    if deep <= Length::from_millimetres(0.0) {
        return Err(refused.no_depth.to_owned());
    }
    if let Some(rim) = tray.depth.get()
        && deep.millimetres() > rim.range.best
    {
        return Err(Words::fill_all(
            refused.runs_over,
            &[name, &rim.show(style), &shown(deep)],
        ));
    }
    let litres = fill::tray(inside.value.width, inside.value.height, deep).litres();
    let say = &words_of(notebook).sheet;
    let mut because = Words::fill_all(say.for_tray, &[name, &inside.value.written, &shown(deep)]);
    if depth.is_none() {
        because.push_str(say.usual_depth);
    }
    if deep < fill::LEAST_DEPTH {
        because.push_str(say.too_shallow);
    }
    Ok((litres, because))
}

/// Sheets that the volume that the recipe makes takes.
pub(in crate::views) fn capacity(bath: &Bath, makes: Range, notebook: &Notebook) -> Result<f64, String> {
    let refused = &words_of(notebook).refused;
    let Some(capacity) = bath.recipe.usage.capacity.get() else {
        return Err(Words::fill_all(refused.no_capacity, &[&bath.id]));
    };
    let capacity = &capacity.value;
    let litres = match (capacity.per_litre, bath.thinning()) {
        (true, Some(thinning)) => makes.best * thinning.best,
        (true, None) => return Err(Words::fill_all(refused.no_capacity, &[&bath.id])),
        (false, _) => 1.0,
    };
    // The low end of a range is the one to go by.
    let taken = capacity.amount.range.low * litres;
    if capacity.amount.dimension != Dimension::Area {
        return Ok(taken);
    }
    let mut areas: Vec<f64> = notebook
        .blocks
        .iter()
        .filter_map(|block| match &block.body {
            Body::Paper(paper) => paper.size.get(),
            _ => None,
        })
        .map(|size| size.value.area().square_millimetres())
        .collect();
    areas.sort_by(f64::total_cmp);
    areas.dedup();
    match areas.as_slice() {
        [area] if *area > 0.0 => Ok(taken / area),
        _ => Err(Words::fill_all(refused.sizes_differ, &[&bath.id])),
    }
}

fn sheets(count: u64, bath: &Bath, makes: Range, notebook: &Notebook) -> Result<(f64, String), String> {
    let words = words_of(notebook);
    let (say, refused) = (&words.sheet, &words.refused);
    if count == 0 {
        return Err(refused.no_sheets.to_owned());
    }
    let capacity = capacity(bath, makes, notebook)?;
    let litres = fill::sheets(count, capacity, Volume::from_litres(makes.best))
        .ok_or_else(|| Words::fill_all(refused.takes_none, &[&bath.id]))?;
    let template = if count == 1 { say.for_sheet } else { say.for_sheets };
    Ok((litres.litres(), Words::fill(template, &count.to_string())))
}

/// The dose that a name means: as written in the recipe, or the packet it is weighed from.
pub(in crate::views) fn dose_of<'b>(name: &str, bath: &'b Bath, notebook: &Notebook) -> Option<&'b Dose> {
    let by_name = bath
        .doses
        .iter()
        .find(|dose| dose.name.value.eq_ignore_ascii_case(name));
    by_name.or_else(|| {
        let probe = known(notebook, name);
        let Known::Material { material, .. } = probe else {
            return None;
        };
        bath.doses.iter().find(|dose| {
            dose.material().is_some_and(|own| {
                let one_substance = match (&own.formula, &material.formula) {
                    (Some(own), Some(other)) => own.anhydrous() == other.anhydrous(),
                    _ => false,
                };
                own.id == material.id || (one_substance && own.of == material.of)
            })
        })
    })
}

fn limit(
    name: &str,
    amount: &Amount,
    bath: &Bath,
    makes: Range,
    notebook: &Notebook,
) -> Result<(f64, String), String> {
    let style = notebook.settings.style;
    let Some(dose) = dose_of(name, bath, notebook) else {
        let names: Vec<&str> = bath.doses.iter().map(|dose| dose.name.value.as_str()).collect();
        return Err(match nearest(name, names.iter().copied()) {
            Some(near) => format!("`{}` holds no `{name}`; did you mean `{near}`?", bath.id),
            None => format!("`{}` holds no `{name}`; it holds {}", bath.id, names.join(", ")),
        });
    };
    let weighing = Weighing::at(bath, notebook, words_of(notebook), vec![1.0]);
    if amount.dimension == Dimension::Volume && !dose.known.is_poured() {
        return Err(format!(
            "`{name}` is no liquid: a spoon of powder is no measure, give what there is in grams"
        ));
    }
    let needs = needs(name, amount.dimension, bath, dose, &weighing, notebook);
    let Some(needs) = needs else {
        return Err(format!(
            "{} of `{name}` cannot be compared with the {} that the recipe takes",
            amount.show(style),
            dose.amount.show(style)
        ));
    };
    let litres = fill::limited(amount.range.best, needs, Volume::from_litres(makes.best))
        .ok_or_else(|| Words::fill_all(words_of(notebook).refused.none_there, &[name]))?;
    Ok((
        litres.litres(),
        Words::fill_all(words_of(notebook).sheet.limited, &[&amount.show(style), name]),
    ))
}

/// What the volume that the recipe makes takes of a material, in what it is measured in; nothing where the recipe does not
/// measure it so.
pub(in crate::views) fn needs(
    name: &str,
    dimension: Dimension,
    bath: &Bath,
    dose: &Dose,
    weighing: &Weighing<'_>,
    notebook: &Notebook,
) -> Option<f64> {
    let makes = bath.litres()?;
    let doses = || {
        bath.doses
            .iter()
            .filter(|other| other.name.value == dose.name.value)
    };
    let written = |dose: &Dose| (dose.amount.dimension == dimension).then_some(dose.amount.range.best);
    match dimension {
        Dimension::Mass => {
            let grams = doses()
                .map(|dose| dose.grams(makes).map(|grams| grams.best))
                .sum::<Option<f64>>();
            grams.map(|grams| grams * form_factor(name, dose, weighing, notebook))
        }
        Dimension::Volume if dose.known.is_poured() => {
            let factor = match weighing.shelf().way(dose) {
                Way::OtherStrength(_, factor) => factor,
                _ => 1.0,
            };
            let litres = doses().map(written).sum::<Option<f64>>();
            litres.map(|litres| litres * factor)
        }
        Dimension::Count => doses().map(written).sum::<Option<f64>>(),
        _ => None,
    }
}

/// Grams of the form that was named for a gram as the recipe has it.
fn form_factor(name: &str, dose: &Dose, weighing: &Weighing<'_>, notebook: &Notebook) -> f64 {
    if name.eq_ignore_ascii_case(&dose.name.value) {
        return 1.0;
    }
    let named = known(notebook, name);
    if let Known::Material { material, .. } = &named
        && let (Some(own), Some(other)) = (dose.formula(), material.formula.as_ref())
        && let Some(grams) = forms::same_substance(Range::exact(1.0), own, other)
    {
        return grams.best;
    }
    match weighing.shelf().way(dose) {
        Way::OtherForm(_, factor) => factor,
        _ => 1.0,
    }
}
