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
    KEPT_BROKEN = "kept-broken",
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
    PART_NAME_TAKEN = "part-name-taken",
    // amounts and dates
    AMOUNT_MALFORMED = "amount-malformed",
    UNIT_UNKNOWN = "unit-unknown",
    UNIT_MISSING = "unit-missing",
    DIMENSION_WRONG = "dimension-wrong",
    AMOUNT_OUT_OF_RANGE = "amount-out-of-range",
    RATIO_AMBIGUOUS = "ratio-ambiguous",
    DATE_MALFORMED = "date-malformed",
    ZONE_MISSING = "zone-missing",
    LANGUAGE_UNKNOWN = "language-unknown",
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
    FACT_PRIVATE = "fact-private",
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
    CARD_TOO_WORDY = "card-too-wordy",
    MATERIAL_AMBIGUOUS = "material-ambiguous",
    STRENGTH_MISSING = "strength-missing",
    PERCENT_WITHOUT_BASIS = "percent-without-basis",
    JUICE_UNMEASURED = "juice-unmeasured",
    SPOON_WITHOUT_GRAMS = "spoon-without-grams",
    BELOW_SCALE = "below-scale",
    TABLET_MASS_MISSING = "tablet-mass-missing",
    EFFERVESCENT_TABLETS = "effervescent-tablets",
    BAKING_POWDER = "baking-powder",
    IODISED_SALT = "iodised-salt",
    ASCORBATE_SWAPPED = "ascorbate-swapped",
    SWAP_WRONG_WAY = "swap-wrong-way",
    SWAP_IDLE = "swap-idle",
    SHELF_SHORT = "shelf-short",
    HARD_WATER = "hard-water",
    SOLUBILITY_EXCEEDED = "solubility-exceeded",
    ACID_CONCENTRATED = "acid-concentrated",
    SULFIDE_WITH_ACID = "sulfide-with-acid",
    FERRICYANIDE_WITH_ACID = "ferricyanide-with-acid",
    AMMONIA_FREED = "ammonia-freed",
    OXIDISER_WITH_DEVELOPER = "oxidiser-with-developer",
    DICHROMATE_PRESENT = "dichromate-present",
    ACID_INTO_SULFITE = "acid-into-sulfite",
    CAUSTIC_INTO_WARM = "caustic-into-warm",
    CAUSTIC_PRESENT = "caustic-present",
    BORATE_WITH_MINORS = "borate-with-minors",
    ALKALI_MISSING = "alkali-missing",
    VITAMIN_C_OVER_SODA = "vitamin-c-over-soda",
    CAUSTIC_USED_UP = "caustic-used-up",
    MIXED_TOGETHER = "mixed-together",
    SODA_INTO_ACID = "soda-into-acid",
    VESSEL_TOO_SMALL = "vessel-too-small",
    WATER_MISSING = "water-missing",
    WATER_OVER_MAKES = "water-over-makes",
    WORKING_LIFE_MISSING = "working-life-missing",
    WORKING_LIFE_LONG = "working-life-long",
    RESTRAINER_MISSING = "restrainer-missing",
    PLANT_LOADING_INCOMPLETE = "plant-loading-incomplete",
    REDUCTANT_STRANGE = "reductant-strange",
    EMULSION_HEAT = "emulsion-heat",
    ALUM_IN_ALKALI = "alum-in-alkali",
    HYPO_STRENGTH = "hypo-strength",
    HYPO_INTO_COLD_WATER = "hypo-into-cold-water",
    FOLK_FIXER = "folk-fixer",
    STOP_STRENGTH = "stop-strength",
    STOP_TIME = "stop-time",
    STOP_NEVER_DISCARDED = "stop-never-discarded",
    FIX_TIME = "fix-time",
    FIX_BELOW_CLEARING = "fix-below-clearing",
    CLEARING_UNTESTED = "clearing-untested",
    LIGHTS_ON_EARLY = "lights-on-early",
    WASH_MISSING = "wash-missing",
    WASH_SHORT = "wash-short",
    TRAY_SHARED = "tray-shared",
    TRAY_SHALLOW = "tray-shallow",
    TEMPERATURE_FAR = "temperature-far",
    STOP_MISSING = "stop-missing",
    BLISTER_RISK = "blister-risk",
    USED_AFTER_DISCARD = "used-after-discard",
    BASE_MISMATCH = "base-mismatch",
    BATCH_MISMATCH = "batch-mismatch",
    FIXER_AREA_OVER = "fixer-area-over",
    CAPACITY_OVER = "capacity-over",
    LAMP_UNTESTED = "lamp-untested",
    LAMP_TOO_NEAR = "lamp-too-near",
    LAMP_CHANGES_COLOUR = "lamp-changes-colour",
    LAMP_TIME_OVER = "lamp-time-over",
    LINE_CROWDED = "line-crowded",
    SILVER_WASTE_MISSING = "silver-waste-missing",
    SILVER_DOWN_DRAIN = "silver-down-drain",
    DRINK_BOTTLE = "drink-bottle",
    DRAIN_UNASKED = "drain-unasked",
    PLANT_UNNAMED = "plant-unnamed",
    PLANT_NOT_ALLOWED = "plant-not-allowed",
    PLANT_FAMILY_IRRITANT = "plant-family-irritant",
    STRONG_SODA_UNCAUTIONED = "strong-soda-uncautioned",
    HEAT_WITH_MINORS = "heat-with-minors",
    LOG_ENTRY_THIN = "log-entry-thin",
    DEVELOPED_BEFORE_EXPOSED = "developed-before-exposed",
    SHEET_LISTED_TWICE = "sheet-listed-twice",
    EVENT_SHEET_UNLISTED = "event-sheet-unlisted",
    READY_BEFORE_START = "ready-before-start",
    BAKED_UNWEIGHED = "baked-unweighed",
    // variants
    BASED_ON_CIRCLE = "based-on-circle",
    // exposure
    HOLE_FAR_OFF = "hole-far-off",
    HOLE_UNMEASURED = "hole-unmeasured",
    DISTANCE_DISAGREES = "distance-disagrees",
    FOIL_TOO_THICK = "foil-too-thick",
    PAPER_WRAPS_FAR = "paper-wraps-far",
    SHEET_TOO_TALL = "sheet-too-tall",
    SHEET_TOO_SMALL = "sheet-too-small",
    SPEED_MISSING = "speed-missing",
    SPEED_TOO_HIGH = "speed-too-high",
    BOX_SPEED_FOR_CAMERA = "box-speed-for-camera",
    RECIPROCITY_MISSING = "reciprocity-missing",
    RECIPROCITY_TOO_HIGH = "reciprocity-too-high",
    SEES_MISSING = "sees-missing",
    COLOUR_IMPOSSIBLE = "colour-impossible",
    TIMES_BEYOND_TABLE = "times-beyond-table",
    STRIP_STEP_TOO_SHORT = "strip-step-too-short",
    STEP_BEYOND_STRIP = "step-beyond-strip",
    TWO_THINGS_CHANGED = "two-things-changed",
    SUN_BELOW_HORIZON = "sun-below-horizon",
    BRIGHTER_THAN_SUN = "brighter-than-sun",
    PRINTS_OUT = "prints-out",
    DAYLIGHT_TOO_DIM = "daylight-too-dim",
    SCAN_RESOLUTION_OFF = "scan-resolution-off",
    LAMP_SEEN_BY_PAPER = "lamp-seen-by-paper",
    // equilibrium
    PH_OUTSIDE_WINDOW = "ph-outside-window",
    STOP_NOT_ACID = "stop-not-acid",
    FIXER_SULFURISES = "fixer-sulfurises",
    SULFUR_DIOXIDE_FREED = "sulfur-dioxide-freed",
    ALKALI_HEADROOM = "alkali-headroom",
    GAS_CONFINED = "gas-confined",
    MEASURED_DISAGREES = "measured-disagrees",
    EXPECTATION_MISSED = "expectation-missed",
    STOP_SPENT = "stop-spent",
    REDUCTANT_SHORT = "reductant-short",
    // red light
    RED_CONTRAST = "red-contrast",
    // labels
    LABEL_OVERFLOW = "label-overflow",
    SHEET_OVERFLOW = "sheet-overflow",
}
