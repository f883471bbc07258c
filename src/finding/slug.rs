//! The names of all rules, so that a layer can report a finding without knowing the catalogue.
//!
//! A slug names the fault, never the cure. The catalogue in [`crate::rules`] documents each; a test compares the two.

use std::fmt;

/// A rule's name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Slug(pub(crate) &'static str);

impl Slug {
    /// The name as it is printed and written.
    pub fn as_str(self) -> &'static str {
        self.0
    }
}

impl fmt::Display for Slug {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}

macro_rules! slugs {
    ($($name:ident = $text:literal),* $(,)?) => {
        $(
            #[doc = concat!("`", $text, "`, documented in the catalogue.")]
            pub const $name: Slug = Slug($text);
        )*
        /// Every name, in the order written here.
        pub const ALL: &[Slug] = &[$($name),*];
    };
}

slugs! {
    // files and pages
    NOT_UTF8 = "not-utf8",
    FILE_UNREADABLE = "file-unreadable",
    PAGE_TOO_LARGE = "page-too-large",
    LINK_OUTSIDE = "link-outside",
    FENCE_OPEN = "fence-open",
    NO_SETTINGS = "no-settings",
    // YAML
    YAML_BROKEN = "yaml-broken",
    YAML_TAB = "yaml-tab",
    YAML_ANCHOR = "yaml-anchor",
    YAML_TOO_DEEP = "yaml-too-deep",
    KEY_REPEATED = "key-repeated",
    // blocks
    KIND_UNKNOWN = "kind-unknown",
    KEY_UNKNOWN = "key-unknown",
    KEY_MISSING = "key-missing",
    VALUE_MISSING = "value-missing",
    VALUE_SHAPE = "value-shape",
    WORD_UNKNOWN = "word-unknown",
    ID_DUPLICATE = "id-duplicate",
    ID_MISSING = "id-missing",
    ID_MALFORMED = "id-malformed",
    REFERENCE_UNKNOWN = "reference-unknown",
    REFERENCE_KIND = "reference-kind",
    // amounts and dates
    AMOUNT_MALFORMED = "amount-malformed",
    UNIT_UNKNOWN = "unit-unknown",
    UNIT_MISSING = "unit-missing",
    DIMENSION_WRONG = "dimension-wrong",
    AMOUNT_OUT_OF_RANGE = "amount-out-of-range",
    RATIO_AMBIGUOUS = "ratio-ambiguous",
    DATE_MALFORMED = "date-malformed",
    ZONE_MISSING = "zone-missing",
    TIME_SKIPPED = "time-skipped",
    TIME_DOUBLED = "time-doubled",
    FORMULA_MALFORMED = "formula-malformed",
    MATERIAL_UNKNOWN = "material-unknown",
    // the rules' own words
    RULE_UNKNOWN = "rule-unknown",
    GRADE_FIXED = "grade-fixed",
    EXPECTED_MISSING = "expected-missing",
    ACKNOWLEDGED_IDLE = "acknowledged-idle",
    // prose
    FACT_UNKNOWN = "fact-unknown",
    LINK_BROKEN = "link-broken",
    PICTURE_MISSING = "picture-missing",
    PICTURE_UNREADABLE = "picture-unreadable",
    // the trade
    HYPOCHLORITE_WITH_ACID = "hypochlorite-with-acid",
    HYPOCHLORITE_WITH_AMMONIA = "hypochlorite-with-ammonia",
    ACID_INTO_HYPO = "acid-into-hypo",
    DRY_PREMIX = "dry-premix",
    BAKING_SODA_ALONE = "baking-soda-alone",
    SODA_FORM_MISSING = "soda-form-missing",
    HYPO_FORM_MISSING = "hypo-form-missing",
    FORM_MISSING = "form-missing",
    VINEGAR_STRENGTH_MISSING = "vinegar-strength-missing",
    FIXER_MISSING = "fixer-missing",
    RINSE_MISSING = "rinse-missing",
    WORKING_LIFE_OVER = "working-life-over",
    // what is pressed
    CARD_OVERFLOW = "card-overflow",
    GLYPH_MISSING = "glyph-missing",
    TEMPLATE_BROKEN = "template-broken",
    CARD_TOO_LARGE = "card-too-large",
    // exposure
    HOLE_FAR_OFF = "hole-far-off",
    DISTANCE_DISAGREES = "distance-disagrees",
    FOIL_TOO_THICK = "foil-too-thick",
    PAPER_WRAPS_FAR = "paper-wraps-far",
    SHEET_TOO_TALL = "sheet-too-tall",
    SPEED_MISSING = "speed-missing",
    SPEED_TOO_HIGH = "speed-too-high",
    BOX_SPEED_FOR_CAMERA = "box-speed-for-camera",
    RECIPROCITY_MISSING = "reciprocity-missing",
    STRIP_STEP_TOO_SHORT = "strip-step-too-short",
    TWO_THINGS_CHANGED = "two-things-changed",
    SUN_BELOW_HORIZON = "sun-below-horizon",
    BRIGHTER_THAN_SUN = "brighter-than-sun",
    PRINTS_OUT = "prints-out",
    DAYLIGHT_TOO_DIM = "daylight-too-dim",
    SCAN_RESOLUTION_OFF = "scan-resolution-off",
    SAFELIGHT_UNTESTED = "safelight-untested",
    LAMP_TOO_NEAR = "lamp-too-near",
    LAMP_CHANGES_COLOUR = "lamp-changes-colour",
    LAMP_SEEN_BY_PAPER = "lamp-seen-by-paper",
    UNDER_LAMP_TOO_LONG = "under-lamp-too-long",
}
