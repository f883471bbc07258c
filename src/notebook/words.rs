//! Closed sets of words: roles, bases, lights and the like.

/// Declares an enum whose every variant is a word of the language.
macro_rules! words {
    ($(#[$meta:meta])* $name:ident { $($(#[$doc:meta])* $variant:ident = $word:literal),* $(,)? }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$doc])* $variant),* }

        impl $name {
            /// Every word, in the order of the language's table.
            pub const WORDS: &'static [&'static str] = &[$($word),*];

            /// The word.
            pub fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),* }
            }

            /// The value of a word.
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)* _ => None }
            }
        }
    };
}

words! {
    /// What a bath is for.
    Role {
        /// Turns exposed silver salt into silver.
        Developer = "developer",
        /// Ends development with acid.
        Stop = "stop",
        /// Takes away what was not developed.
        Fixer = "fixer",
        /// Water between baths.
        Rinse = "rinse",
        /// Helps washing.
        WashAid = "wash aid",
        /// Changes the silver's colour.
        Toner = "toner",
        /// Takes silver away.
        Bleach = "bleach",
        /// A solution from which others are made.
        Stock = "stock",
    }
}

words! {
    /// What becomes of the carbon dioxide of a bath.
    Gas {
        /// Nothing is lost.
        Held = "held",
        /// Down to one atmosphere.
        Fizzed = "fizzed",
        /// Down to a stated pressure.
        Stood = "stood",
        /// In balance with the room's air.
        Aired = "aired",
    }
}

words! {
    /// A paper's base.
    Base {
        /// Resin-coated.
        Rc = "RC",
        /// Fibre base.
        Fibre = "fibre",
    }
}

words! {
    /// The light a step is done under.
    StepLight {
        /// None.
        Dark = "dark",
        /// The safelight.
        Red = "red",
        /// The room's.
        Room = "room",
    }
}

words! {
    /// How sure a figure is.
    Evidence {
        /// Measured here.
        Measured = "measured",
        /// Read in a source.
        Read = "read",
        /// Guessed.
        Guessed = "guessed",
    }
}

words! {
    /// Which way round the sheet lay in the camera.
    Side {
        /// The right way.
        EmulsionToHole = "emulsion to hole",
        /// Back to front.
        Reversed = "reversed",
    }
}

words! {
    /// How a contact print was laid.
    Through {
        /// Emulsion on emulsion.
        FaceToFace = "face to face",
        /// Through the negative's base.
        Base = "base",
    }
}

words! {
    /// Where a notebook's work is done.
    Premises {
        /// At home.
        Home = "home",
        /// In a school.
        School = "school",
        /// In a club.
        Club = "club",
        /// In a business.
        Business = "business",
    }
}

words! {
    /// What a reading was taken with.
    MeasuredWith {
        /// Indicator paper.
        Strip = "strip",
        /// A glass electrode.
        Meter = "meter",
    }
}

words! {
    /// What a bath develops.
    Support {
        /// Paper.
        Paper = "paper",
        /// Film.
        Film = "film",
    }
}

words! {
    /// What a lamp can do.
    Switches {
        /// One colour.
        RedOnly = "red only",
        /// Several.
        ColourChanging = "colour-changing",
    }
}

words! {
    /// What gets wall cards.
    CardsOf {
        /// Baths.
        Recipes = "recipes",
        /// Lines of baths.
        Processes = "processes",
        /// Cameras, with their exposure tables.
        Cameras = "cameras",
        /// Lamps, with their safe times.
        Safelights = "safelights",
    }
}

words! {
    /// On which edge a printer turns a sheet over.
    Flip {
        /// As a book is leafed through, where the sheet stands upright.
        LongEdge = "long edge",
        /// As a pad is, where the sheet stands upright.
        ShortEdge = "short edge",
    }
}

words! {
    /// A step of mixing.
    Verb {
        /// Bring to a temperature.
        Heat = "heat",
        /// Boil for a time.
        Boil = "boil",
        /// Leave plants in the water.
        Steep = "steep",
        /// Pour through cloth or paper.
        Strain = "strain",
        /// Let the temperature fall.
        Cool = "cool",
        /// Stir until clear.
        Dissolve = "dissolve",
        /// Stir.
        Stir = "stir",
        /// Let sink.
        Settle = "settle",
        /// Leave alone.
        Rest = "rest",
        /// Pour one part into another.
        Pour = "pour",
        /// Bring parts together.
        Combine = "combine",
        /// Add water to a volume.
        MakeUp = "make up",
        /// Through a filter.
        Filter = "filter",
        /// With water.
        Dilute = "dilute",
        /// In the oven.
        Bake = "bake",
        /// To a powder.
        Crush = "crush",
    }
}

pub(super) use words;
