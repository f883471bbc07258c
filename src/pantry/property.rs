//! The closed set of things a material can be, as the rules read them.

use std::fmt;

macro_rules! properties {
    ($($(#[doc = $doc:literal])+ $name:ident = $word:literal),* $(,)?) => {
        /// What a material is to a darkroom. Rules read these and formulas, never names.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Property {
            $($(#[doc = $doc])+ $name),*
        }

        impl Property {
            /// Every property.
            pub const ALL: &[Self] = &[$(Self::$name),*];

            /// The word by which data files and notebooks write it.
            pub fn word(self) -> &'static str {
                match self {
                    $(Self::$name => $word),*
                }
            }

            /// The property that `word` names, if it names one.
            pub fn from_word(word: &str) -> Option<Self> {
                match word {
                    $($word => Some(Self::$name),)*
                    _ => None,
                }
            }
        }
    };
}

properties! {
    /// Makes a bath alkaline, be it as weakly as baking soda does.
    Alkali = "alkali",
    /// A hydroxide that burns: sodium or potassium hydroxide, ash lye.
    Caustic = "caustic",
    /// Holds carbonate, which gives off gas with acid.
    Carbonate = "carbonate",
    /// Holds hydrogen carbonate: too weak an alkali for a developer, and gives off gas with acid.
    Bicarbonate = "bicarbonate",
    /// Holds boron: borax, boric acid, metaborate. Under GHS a reproductive hazard.
    Borate = "borate",
    /// Holds phosphate.
    Phosphate = "phosphate",
    /// Keeps a pH against small additions.
    Buffer = "buffer",
    /// Makes a bath acid.
    Acid = "acid",
    /// An acid strong or concentrated enough to burn: glacial acetic acid, essence, mineral acids.
    ConcentratedAcid = "concentrated-acid",
    /// Ascorbic acid, its isomer or their salts.
    Ascorbate = "ascorbate",
    /// Reduces exposed silver salts.
    DevelopingAgent = "developing-agent",
    /// Gives electrons to anything that oxidises.
    Reductant = "reductant",
    /// Holds plant phenols that can develop once ionised.
    Phenolic = "phenolic",
    /// Grown rather than made: strength varies with plant and season.
    Plant = "plant",
    /// Slows development and fog: a soluble bromide, iodide or chloride.
    Restrainer = "restrainer",
    /// Holds some iodide beside its main salt.
    Iodised = "iodised",
    /// Dissolves silver salts: fixes, or fogs a developer.
    SilverSolvent = "silver-solvent",
    /// Holds thiosulfate, which acid turns into sulfur and sulfur dioxide.
    Thiosulfate = "thiosulfate",
    /// Holds sulfite or hydrogen sulfite, from which acid frees sulfur dioxide.
    Sulfite = "sulfite",
    /// Held to fix by hearsay; it leaves the silver salt in the paper.
    FolkFixer = "folk-fixer",
    /// Hypochlorite bleach: chlorine with acid, chloramines with ammonia.
    Hypochlorite = "hypochlorite",
    /// Free ammonia.
    Ammonia = "ammonia",
    /// An ammonium salt: frees ammonia with strong alkali, chloramines with hypochlorite.
    Ammonium = "ammonium",
    /// Hydrogen peroxide, or what gives it off.
    Peroxide = "peroxide",
    /// Permanganate.
    Permanganate = "permanganate",
    /// Chromate or dichromate: toxic, carcinogenic.
    Dichromate = "dichromate",
    /// Hexacyanoferrate(III), the bleach of toning baths; never with strong acid.
    Ferricyanide = "ferricyanide",
    /// Holds sulfide, from which acid frees hydrogen sulfide.
    Sulfide = "sulfide",
    /// Oxidises: eats developers, feeds fire.
    Oxidiser = "oxidiser",
    /// Hardens gelatin.
    Hardener = "hardener",
    /// A soluble or sensitive salt of silver.
    SilverSalt = "silver-salt",
    /// Fizzes in water: acid and hydrogen carbonate in one packet.
    Effervescent = "effervescent",
    /// Raises dough: hydrogen carbonate with its own acid and starch.
    Leavening = "leavening",
    /// Sold to be eaten or drunk.
    Food = "food",
    /// Water, or little else.
    Water = "water",
    /// Untreated water, with the hardness of the place.
    HardWater = "hard-water",
    /// An alcohol.
    Alcohol = "alcohol",
    /// Catches fire.
    Flammable = "flammable",
    /// A sugar.
    Sugar = "sugar",
    /// Holds thiocyanate.
    Thiocyanate = "thiocyanate",
}

impl fmt::Display for Property {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// A set of properties.
#[derive(Clone, Copy, PartialEq, Eq, Default)]
pub struct Properties(u64);

impl Properties {
    /// The empty set.
    pub const NONE: Self = Self(0);

    /// Whether `property` is among them.
    pub fn contains(self, property: Property) -> bool {
        self.0 & bit(property) != 0
    }

    /// Whether any of `properties` is among them.
    pub fn contains_any(self, properties: &[Property]) -> bool {
        properties.iter().any(|&property| self.contains(property))
    }

    /// Adds `property`.
    pub fn insert(&mut self, property: Property) {
        self.0 |= bit(property);
    }

    /// The properties of either set.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether there are none.
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// The properties in the order of [`Property::ALL`].
    pub fn iter(self) -> impl Iterator<Item = Property> {
        let all = Property::ALL.iter().copied();
        all.filter(move |&property| self.contains(property))
    }
}

fn bit(property: Property) -> u64 {
    1 << property as u32
}

// More properties than bits would fail to compile here.
const _: () = assert!(Property::ALL.len() <= 64);

impl FromIterator<Property> for Properties {
    fn from_iter<I: IntoIterator<Item = Property>>(properties: I) -> Self {
        let mut set = Self::NONE;
        for property in properties {
            set.insert(property);
        }
        set
    }
}

impl fmt::Debug for Properties {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_set().entries(self.iter()).finish()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_and_sets_go_there_and_back() {
        for &property in Property::ALL {
            assert_eq!(Property::from_word(property.word()), Some(property));
        }
        let all: Properties = Property::ALL.iter().copied().collect();
        assert_eq!(all.iter().count(), Property::ALL.len());
        assert!(Property::from_word("magic").is_none());
        assert!(Properties::NONE.is_empty());
    }
}
