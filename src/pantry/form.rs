//! The forms in which one material is sold, and the words by which people say them.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::OnceLock;

use super::fold;

/// A form of a material: how much water it holds, or how it was prepared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Form {
    /// Without water of crystallisation.
    Anhydrous,
    /// With one molecule of water.
    Monohydrate,
    /// With all the water it crystallises with.
    Crystals,
    /// A plant as picked.
    Fresh,
    /// A plant without its water.
    Dried,
    /// Dissolved, or a liquid by nature.
    Liquid,
    /// Pressed into tablets.
    Tablet,
    /// Ground or as a loose powder.
    Powder,
}

impl Form {
    /// Every form.
    pub const ALL: [Self; 8] = [
        Self::Anhydrous,
        Self::Monohydrate,
        Self::Crystals,
        Self::Fresh,
        Self::Dried,
        Self::Liquid,
        Self::Tablet,
        Self::Powder,
    ];

    /// The word by which data files and notebooks write it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Anhydrous => "anhydrous",
            Self::Monohydrate => "monohydrate",
            Self::Crystals => "crystals",
            Self::Fresh => "fresh",
            Self::Dried => "dried",
            Self::Liquid => "liquid",
            Self::Tablet => "tablet",
            Self::Powder => "powder",
        }
    }

    /// The form that `word` names, if it names one.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|form| form.word() == word)
    }

    /// The form that the folded `word` says.
    pub(super) fn from_spoken(word: &str) -> Option<Self> {
        static SPOKEN: OnceLock<BTreeMap<String, Form>> = OnceLock::new();
        let spoken = SPOKEN.get_or_init(|| {
            let mut forms = BTreeMap::new();
            for form in Self::ALL {
                for folded in form.spoken().iter().flat_map(|spoken| fold::words(spoken)) {
                    forms.entry(folded).or_insert(form);
                }
            }
            forms
        });
        spoken.get(word).copied()
    }

    /// What people say beside a material's name to mean this form, in English, German and French.
    pub(super) fn spoken(self) -> &'static [&'static str] {
        match self {
            Self::Anhydrous => &[
                "anhydrous",
                "anhyd",
                "anh",
                "calcined",
                "dehydrated",
                "wasserfrei",
                "wasserfreie",
                "wasserfreies",
                "kalziniert",
                "kalzinierte",
                "calciniert",
                "anhydre",
                "calciné",
                "calcinée",
            ],
            Self::Monohydrate => &["monohydrate", "mono", "monohydrat", "monohydraté", "monohydratée"],
            Self::Crystals => &[
                "crystals",
                "crystal",
                "crystalline",
                "hydrated",
                "Kristalle",
                "kristallin",
                "kristallisiert",
                "cristaux",
                "cristallisé",
                "cristallisée",
            ],
            Self::Fresh => &[
                "fresh", "frisch", "frische", "frischer", "frisches", "frais", "fraîche",
            ],
            Self::Dried => &[
                "dried",
                "dry",
                "getrocknet",
                "getrocknete",
                "getrockneter",
                "getrocknetes",
                "séché",
                "séchée",
                "sec",
                "sèche",
            ],
            Self::Liquid => &["liquid", "solution", "flüssig", "Lösung", "liquide"],
            Self::Tablet => &[
                "tablets",
                "tablet",
                "Tabletten",
                "Tablette",
                "comprimés",
                "comprimé",
            ],
            Self::Powder => &[
                "powder", "powdered", "ground", "Pulver", "gemahlen", "poudre", "moulu",
            ],
        }
    }
}

/// What people call a salt with `water` molecules of water, in English, German and French.
pub(super) fn hydrate_words(water: u32) -> &'static [&'static str] {
    match water {
        2 => &["dihydrate", "Dihydrat", "dihydraté"],
        3 => &["trihydrate", "Trihydrat", "trihydraté"],
        4 => &["tetrahydrate", "Tetrahydrat", "tétrahydraté"],
        5 => &["pentahydrate", "Pentahydrat", "pentahydraté"],
        7 => &["heptahydrate", "Heptahydrat", "heptahydraté"],
        9 => &["nonahydrate", "Nonahydrat", "nonahydraté"],
        10 => &["decahydrate", "Decahydrat", "Dekahydrat", "décahydraté"],
        12 => &["dodecahydrate", "Dodecahydrat", "Dodekahydrat", "dodécahydraté"],
        _ => &[],
    }
}

impl fmt::Display for Form {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_form_is_named_by_its_word() {
        for form in Form::ALL {
            assert_eq!(Form::from_word(form.word()), Some(form));
            assert!(form.spoken().contains(&form.word()), "{form}");
        }
    }
}
