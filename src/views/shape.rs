//! What the templates of print read, field by field: the names that a notebook's own template can rely on.
//!
//! The book's page of templates is made from this, and a test walks through real data and fails where the two differ.

/// A field of the data.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// Where it stands: `cards[].title` is the title of each of the `cards`.
    pub path: &'static str,
    /// What it is.
    pub what: &'static str,
}

/// The data of one kind of document.
#[derive(Debug, Clone, Copy)]
pub struct Shape {
    /// What it is.
    pub name: &'static str,
    /// The template that is set, as a path from the notebook folder.
    pub entry: &'static str,
    /// Templates that it draws in, and what each gives.
    pub parts: &'static [(&'static str, &'static str)],
    /// The fields of `/data.json`.
    pub fields: &'static [Field],
}

const fn field(path: &'static str, what: &'static str) -> Field {
    Field { path, what }
}

const MARKS: Field = field("sheets[].marks[][]", "a cut mark: x and y of its two ends, mm");

/// Sheets on which several pieces are laid.
macro_rules! laid {
    ($list:literal $(, $field:expr)* $(,)?) => {
        &[
            field("title", "the document's title"),
            field("language", "the language of the fixed words, such as `en`"),
            field("sheets[].width", "mm"),
            field("sheets[].height", "mm"),
            field("sheets[].bleed", "how far the page is printed beyond its edges, mm"),
            field("sheets[].spots[].card", concat!("which of the ", $list, ", from 0")),
            field("sheets[].spots[].x", "its upper left corner, mm from the left edge"),
            field("sheets[].spots[].y", "the same from the upper edge"),
            field("sheets[].spots[].turned", "whether it stands on its head"),
            $($field),*
        ]
    };
}

/// Pages that follow one another, with a weighing sheet on them.
macro_rules! weighed {
    ($($field:expr),* $(,)?) => {
        &[
            field("language", "the language of the fixed words, such as `en`"),
            field("width", "page width, mm"),
            field("height", "page height, mm"),
            field("heads.water", "over what the water does"),
            field("heads.steps", "over the steps"),
            field("heads.time", "over how long it takes"),
            field("heads.shelf", "over what is left of the packets"),
            field("heads.packets", "over what is in the packets"),
            field("heads.packet", "over a column of packets"),
            field("heads.there", "over a column of what is in them"),
            field("heads.takes", "over a column of what the mix takes"),
            field("heads.leaves", "over a column of what is left"),
            field("heads.care", "over the lighter safety lines"),
            field("heads.jug", "over the boxes"),
            field("sheet.id", "the recipe's id"),
            field("sheet.title", "its title"),
            field("sheet.role", "what the bath is for"),
            field("sheet.language", "as above"),
            field("sheet.untested", "a word where no session used it with a good result, else none"),
            field("sheet.groups[].name", "the part's name, or none"),
            field("sheet.groups[].rows[].material", "what is measured out, as its packet is called"),
            field("sheet.steps[].part", "the part that a step belongs to, or none"),
            field("sheet.steps[].what", "what to do"),
            field("sheet.steps[].figure", "time, temperature or volume"),
            field("sheet.steps[].second", "a second figure"),
            field("sheet.steps[].note", "a further word or two"),
            field("sheet.times[].label", "what takes time"),
            field("sheet.times[].text", "how long"),
            field("sheet.shelf[].material", "a packet"),
            field("sheet.shelf[].there", "what is in it"),
            field("sheet.shelf[].short", "that it does not suffice"),
            field("sheet.cautions[].hazard", "whether it can injure at once"),
            field("sheet.cautions[].mixing", "whether it speaks of the mixing alone"),
            field("sheet.cautions[].text", "a safety line"),
            field("sheet.write_on[]", "a box to write in"),
            field("sheet.stamp", "small print"),
            $($field),*
        ]
    };
}

/// Every kind of document that is set by typst.
pub const SHAPES: &[Shape] = &[
    Shape {
        name: "Cards",
        entry: "templates/press/sheet.typ",
        parts: &[
            (
                "templates/press/card.typ",
                "`card(data, width, height)`, a side of a card in a box of its trimmed size",
            ),
            (
                "templates/press/parts.typ",
                "the parts of a card, from head to foot",
            ),
            (
                "templates/press/marks.typ",
                "notches, the line of trays, the sign for danger, the band",
            ),
            ("templates/press/sizes.typ", "the ladders of sizes"),
            (
                "templates/press/letters.typ",
                "families of type, figures with small units",
            ),
        ],
        fields: laid!(
            "cards",
            MARKS,
            field("card_width", "trimmed, mm"),
            field("card_height", "trimmed, mm"),
            field("cards[].id", "the block's id; the two sides of a card have one"),
            field("cards[].language", "as above"),
            field(
                "cards[].kind",
                "`recipe`, `process`, `camera`, `safelight` or `role`"
            ),
            field("cards[].index", "which side of all this is, from 0"),
            field("cards[].is_back", "whether it is printed behind another"),
            field("cards[].bleed", "how far ink at the edge runs over it, mm"),
            field(
                "cards[].caps.times",
                "least height of capitals of times on the wall, mm"
            ),
            field("cards[].caps.wall", "of words on the wall, as they should be"),
            field("cards[].caps.wall_least", "of words on the wall, at least"),
            field("cards[].caps.hand", "of words in the hand, as they should be"),
            field("cards[].caps.hand_least", "of words in the hand, at least"),
            field(
                "cards[].side.number",
                "which side of its card this is, from 1; no `side` where there is one"
            ),
            field("cards[].side.of", "how many sides the card has"),
            field(
                "cards[].alt.danger",
                "what the sign for danger says to those who cannot see it"
            ),
            field("cards[].alt.trays", "what the line of trays says"),
            field("cards[].alt.notches", "what the corner mark says"),
            field("cards[].title", "the title as written"),
            field("cards[].role", "what the bath is for; for a line the paper"),
            field(
                "cards[].tray.number",
                "the bath's place in the line, from 1; `tray` is none without one"
            ),
            field("cards[].tray.of", "how many trays the line has"),
            field("cards[].key_figures[].label", "`time`, `temperature`"),
            field("cards[].key_figures[].value", "such as `8–12 min`"),
            field("cards[].volumes[]", "the heads of the columns of amounts"),
            field("cards[].groups[].name", "the part's name, or none"),
            field("cards[].groups[].rows[].material", "the material with its form"),
            field("cards[].groups[].rows[].amounts[]", "one amount a volume"),
            field(
                "cards[].times.head",
                "what the rows of the table of times are; no `times` where there is none"
            ),
            field(
                "cards[].times.value_head",
                "the head of the rows' values, or empty"
            ),
            field("cards[].times.columns[]", "the heads of its columns"),
            field("cards[].times.rows[].name", "a light, or a line"),
            field("cards[].times.rows[].value", "its value, or empty"),
            field("cards[].times.rows[].times[]", "one time a column"),
            field(
                "cards[].drawing.view_box",
                "left, top, width and height of a drawing; no `drawing` where there is none"
            ),
            field("cards[].drawing.title", "what is drawn"),
            field("cards[].drawing.words", "what there is to see"),
            field("cards[].drawing.paths[].class", "`box`, `paper`, `ray` or `hole`"),
            field("cards[].drawing.paths[].d", "a path as SVG writes it"),
            field("cards[].steps_from", "the number of the first step"),
            field(
                "cards[].steps[].part",
                "the part that a step belongs to, what is in a tray, or none"
            ),
            field("cards[].steps[].what", "what to do, or the bath of a line"),
            field("cards[].steps[].figure", "time, temperature or both"),
            field("cards[].steps[].second", "a second figure"),
            field("cards[].steps[].note", "a further word or two"),
            field("cards[].lines[].label", "such as `agitation`"),
            field("cards[].lines[].text", "what is said of it"),
            field(
                "cards[].beforehand[].label",
                "the same for what is wanted beforehand, such as `keeps`"
            ),
            field("cards[].beforehand[].text", "what is said of it"),
            field("cards[].boxes[]", "a box to write in"),
            field("cards[].cautions[].hazard", "whether it can injure at once"),
            field(
                "cards[].cautions[].mixing",
                "whether it speaks of the mixing alone"
            ),
            field("cards[].cautions[].text", "a safety line"),
            field(
                "cards[].untested",
                "a word where no session used it with a good result, else none"
            ),
            field("cards[].stamp", "small print"),
        ),
    },
    Shape {
        name: "Labels",
        entry: "templates/press/labels.typ",
        parts: &[
            (
                "templates/press/label.typ",
                "`label(data, width, height)`, one label in a box of its size",
            ),
            (
                "templates/press/signs.typ",
                "`sign(name, size)`, the hazard signs",
            ),
        ],
        fields: laid!(
            "labels",
            field("label_width", "mm"),
            field("label_height", "mm"),
            field("outlined", "whether each has a line round it to cut along"),
            field("labels[].id", "the batch's id, or the recipe's"),
            field("labels[].language", "as above"),
            field("labels[].title", "what it is"),
            field("labels[].role", "what it is for"),
            field("labels[].contents[].name", "a material with its form"),
            field(
                "labels[].contents[].chemical",
                "its chemical name where that is another"
            ),
            field("labels[].contents[].formula", "its formula"),
            field("labels[].contents[].strength", "such as `200 g/l`"),
            field("labels[].lines[].label", "`mixed at`, `by`, `dead by`, `volume`"),
            field(
                "labels[].lines[].text",
                "what is known of it; empty where it is written by hand"
            ),
            field("labels[].signal", "the signal word, or empty"),
            field("labels[].pictograms[]", "the name of a sign"),
            field("labels[].hazards[]", "a hazard statement"),
            field("labels[].warnings[]", "a heavy safety line"),
            field("labels[].not_food", "that it is no food"),
            field("labels[].waste", "where it goes when it is spent"),
            field("labels[].stamp", "small print"),
        ),
    },
    Shape {
        name: "Weighing sheets",
        entry: "templates/press/mixing.typ",
        parts: &[(
            "templates/press/lists.typ",
            "`running(title:, stamp:, data:, body)` sets the pages; `section`, `list-of`, `what-to-do`, `tick`",
        )],
        fields: weighed!(
            field("sheet.volumes[]", "the finished volumes, a column each"),
            field("sheet.groups[].rows[].amounts[]", "one amount a volume"),
            field(
                "sheet.groups[].rows[].off[]",
                "how far the scale is off, one a volume"
            ),
            field(
                "sheet.groups[].rows[].notes[].label",
                "the volume of which a note is true; empty where of all"
            ),
            field("sheet.groups[].rows[].notes[].text", "what to know about it"),
            field(
                "sheet.water[].label",
                "the volume of which it is true; empty where of all"
            ),
            field(
                "sheet.water[].text",
                "what the rounding, the water and the vessel do"
            ),
        ),
    },
    Shape {
        name: "The weighing-out sheet of `mix --pdf`",
        entry: "templates/press/weighing.typ",
        parts: &[],
        fields: weighed!(
            field("sheet.volume", "the finished volume"),
            field("sheet.litres", "the same as a number"),
            field("sheet.because", "how the volume came about"),
            field("sheet.groups[].rows[].amount", "how much"),
            field("sheet.groups[].rows[].grams", "grams to weigh, or none"),
            field(
                "sheet.groups[].rows[].wanted",
                "grams that the recipe wants, or none"
            ),
            field(
                "sheet.groups[].rows[].off_percent",
                "how far the one is from the other, or none"
            ),
            field("sheet.groups[].rows[].off", "the same as it is read"),
            field("sheet.groups[].rows[].notes[]", "what to know about it"),
            field(
                "sheet.rounding",
                "how far the scale puts the materials out of proportion, or none"
            ),
            field(
                "sheet.acidity",
                "what the finished bath's pH comes to, or why it is not known, or none"
            ),
            field("sheet.ph.text", "the same alone, where it is known"),
            field("sheet.ph.low", "its least"),
            field("sheet.ph.best", "its best"),
            field("sheet.ph.high", "its most"),
            field("sheet.water[]", "what the water does"),
            field("sheet.shelf[].takes", "what the mix takes"),
            field("sheet.shelf[].left", "what is left"),
        ),
    },
    Shape {
        name: "Log slips",
        entry: "templates/press/slips.typ",
        parts: &[(
            "templates/press/slip.typ",
            "`slip(number, words, stamp, width, height)`, one slip in a box of its size",
        )],
        fields: laid!(
            "slips",
            MARKS,
            field("slip_width", "mm"),
            field("slip_height", "mm"),
            field("slips.language", "as above"),
            field("slips.numbers[]", "the number of each"),
            field("slips.words.*", "the heads of its lines and boxes, by name"),
            field("slips.stamp", "small print"),
        ),
    },
    Shape {
        name: "The room sheet",
        entry: "templates/press/room.typ",
        parts: &[],
        fields: &[
            field("language", "the language of the fixed words, such as `en`"),
            field("width", "page width, mm"),
            field("height", "page height, mm"),
            field("room.language", "as above"),
            field("room.notebook", "the notebook's title"),
            field("room.baths[].title", "a bath that is mixed here"),
            field("room.baths[].role", "what it is for"),
            field("room.who[]", "who is in the room"),
            field("room.cautions[].hazard", "whether it can injure at once"),
            field("room.cautions[].text", "a safety line"),
            field(
                "room.cautions[].of[]",
                "the baths that it holds for; none where for all",
            ),
            field("room.waste[].label", "what the authority was asked"),
            field(
                "room.waste[].text",
                "what it answered; empty for a line to write on",
            ),
            field("room.disposal[]", "a kind of spent bath, with a line to write on"),
            field("room.fields[]", "what else a person fills in"),
            field("room.words.*", "the heads, by name"),
            field("room.stamp", "small print"),
        ],
    },
    Shape {
        name: "A camera's cutting template",
        entry: "templates/press/camera.typ",
        parts: &[],
        fields: &[
            field("id", "the camera's id"),
            field("language", "the language of the fixed words, such as `en`"),
            field("title", "its name"),
            field("page[]", "width and height of the page, mm"),
            field("sheet[]", "the sheet of paper, long side level, mm"),
            field("at[]", "its upper left corner on the page, mm"),
            field(
                "axis[]",
                "the point that the hole looks at, from that corner; `axis` is none without one",
            ),
            field("axis_words", "what stands at that point"),
            field("side", "what stands on the sheet"),
            field("ruler", "how the ruler is used"),
            field("figures[][]", "a measure: its label and its value"),
            field("steps[]", "where hole and paper go"),
            field("stamp", "small print"),
        ],
    },
];
