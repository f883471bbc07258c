//! What is pressed of what could be: all that the notebook asks for, or only what was named.

use std::collections::BTreeSet;

use crate::notebook::{Block, Kind, Notebook, Press, nearest};

/// Blocks of which something is pressed for each alone.
const OF_ONE_BLOCK: [Kind; 5] = [
    Kind::Recipe,
    Kind::Process,
    Kind::Camera,
    Kind::Safelight,
    Kind::Batch,
];

/// What comes off the press.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Artefact {
    /// Wall cards, one by one and on sheets.
    Cards,
    /// Cutting templates of cameras.
    Templates,
    /// Bottle labels.
    Labels,
    /// Weighing sheets.
    Sheets,
    /// Blank log slips.
    Slips,
    /// The room sheet.
    Room,
    /// The site.
    Site,
}

impl Artefact {
    /// All of them, in the order in which they are made.
    pub const ALL: [Self; 7] = [
        Self::Cards,
        Self::Templates,
        Self::Labels,
        Self::Sheets,
        Self::Slips,
        Self::Room,
        Self::Site,
    ];

    /// What a person calls it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Cards => "cards",
            Self::Templates => "templates",
            Self::Labels => "labels",
            Self::Sheets => "sheets",
            Self::Slips => "slips",
            Self::Room => "room",
            Self::Site => "site",
        }
    }

    /// Whether a notebook asks for it. One that says nothing asks for cards, templates and site.
    pub fn is_asked(self, press: &Press) -> bool {
        match self {
            Self::Cards | Self::Templates => press.unsaid || press.cards.is_some(),
            Self::Labels => press.labels.is_some(),
            Self::Sheets => press.sheets.is_some(),
            Self::Slips => press.slips.is_some(),
            Self::Room => press.room.is_some(),
            Self::Site => press.unsaid || press.site.is_some(),
        }
    }
}

/// What was named to be pressed alone.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Only {
    artefacts: BTreeSet<Artefact>,
    ids: BTreeSet<String>,
}

impl Only {
    /// Reads words such as `cards` and ids of blocks. The error is a sentence that offers what was likely meant.
    pub fn read(words: &[String], notebook: &Notebook) -> Result<Self, String> {
        let mut only = Self::default();
        let named = words.iter().flat_map(|words| words.split(',')).map(str::trim);
        for word in named.filter(|word| !word.is_empty()) {
            let artefact = Artefact::ALL.into_iter().find(|artefact| artefact.word() == word);
            match artefact {
                Some(artefact) => {
                    only.artefacts.insert(artefact);
                }
                None => match notebook.block(word).map(Block::kind) {
                    Some(kind) if OF_ONE_BLOCK.contains(&kind) => {
                        only.ids.insert(word.to_owned());
                    }
                    Some(kind) => {
                        let kind = kind.with_article();
                        return Err(format!("`{word}` is {kind}: nothing is pressed of it alone"));
                    }
                    None => return Err(unknown(word, notebook)),
                },
            }
        }
        if only.artefacts.is_empty() && only.ids.is_empty() {
            return Err(format!(
                "`--only` wants to know what: {}, or the id of a block",
                list()
            ));
        }
        Ok(only)
    }

    /// Whether an artefact was named, or the block that it is made from alone.
    pub(super) fn names(&self, artefact: Artefact, id: Option<&str>) -> bool {
        self.artefacts.contains(&artefact) || id.is_some_and(|id| self.ids.contains(id))
    }
}

fn list() -> String {
    Artefact::ALL.map(Artefact::word).join(", ")
}

fn unknown(word: &str, notebook: &Notebook) -> String {
    let words = Artefact::ALL
        .into_iter()
        .map(|artefact| -> &str { artefact.word() });
    let ids = notebook.blocks.iter().map(|block| block.id.as_str());
    match nearest(word, words.chain(ids)) {
        Some(near) => format!("nothing is called `{word}`; did you mean `{near}`?"),
        None => format!("nothing is called `{word}`: say {}, or the id of a block", list()),
    }
}
