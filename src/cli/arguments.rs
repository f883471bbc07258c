//! The arguments, and the help that teaches them.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

/// Compile a process notebook of pinhole photographs and home-made baths: check it, compute what follows from it, and
/// press it into cards and a site
#[derive(Debug, Parser)]
#[command(
    name = "trayside",
    version,
    max_term_width = 100,
    after_help = "\
A notebook is a folder with trayside.yaml and Markdown pages. Start one:
  trayside begin my-notebook
  trayside press my-notebook

Exit code: 0 clean, 1 the notebook has faults or open hazards, 2 could not run"
)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Make a small working notebook to start from
    Begin(Begin),
    /// Read and check everything
    Proof(Proof),
    /// Check, then press cards and site into `pressed/`
    Press(Press),
    /// Press again at every save, and show it in a browser
    Tend(Tend),
    /// Print the weighing-out sheet of a recipe
    Mix(Box<Mix>),
    /// Print the exposure table of a camera, or one time
    Expose(Expose),
    /// Print every computed value
    Facts(Facts),
    /// Explain a rule
    Why(Why),
    /// Print the language as JSON Schema, for editors
    Schema(Schema),
    /// Print what a shell needs to complete these commands
    Completions(Completions),
}

#[derive(Debug, Args)]
#[command(after_help = "Example:\n  trayside begin my-notebook")]
pub(crate) struct Begin {
    /// Folder to make; it must be new or empty
    pub(crate) folder: PathBuf,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  trayside proof
  trayside proof recipes --format json
  trayside proof recipes --format sarif > findings.sarif
Grades: hazard (can hurt someone), fault (cannot be right), doubt (will likely disappoint), hint")]
pub(crate) struct Proof {
    /// Notebook folder [default: this one]
    pub(crate) notebook: Option<PathBuf>,
    /// How to print findings
    #[arg(long, value_enum, default_value_t = ProofFormat::Text)]
    pub(crate) format: ProofFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ProofFormat {
    /// For reading, with the lines in question
    Text,
    /// One JSON object a line, the summary last
    Json,
    /// SARIF 2.1.0, for editors and code hosts
    Sarif,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  trayside press recipes
  trayside press recipes --only cards,labels
  trayside press recipes --only spent-tea
Everything is written to `pressed/` in the notebook folder; what is as it was is left alone. What to press stands under
`press:` in trayside.yaml; without it, cards and site are made. With `--only` all else stays as it was pressed before, \
unless it is no longer true: then it goes")]
pub(crate) struct Press {
    /// Notebook folder [default: this one]
    pub(crate) notebook: Option<PathBuf>,
    /// Make only this: cards, templates, labels, sheets, slips, room, site, or what is made of the block with this id
    #[arg(long, value_name = "WHAT", value_delimiter = ',')]
    pub(crate) only: Vec<String>,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  trayside tend recipes
  trayside tend --port 8000
Prints the address of a preview that this machine alone can open, and what each save changed. A page \
that a save broke is shown as it was before, with a stripe that says so. Ctrl-C stops")]
pub(crate) struct Tend {
    /// Notebook folder [default: this one]
    pub(crate) notebook: Option<PathBuf>,
    /// Port of the preview [default: 7240, or another where it is taken]
    #[arg(long, value_name = "NUMBER")]
    pub(crate) port: Option<u16>,
    /// Look for changes once a second instead of being told of them, as for a folder on another machine
    #[arg(long)]
    pub(crate) poll: bool,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  trayside mix rosemary-soda --volume 600 ml
  trayside mix rosemary-soda --tray developer --depth 15 mm
  trayside mix rosemary-soda --sheets 12
  trayside mix rosemary-soda --limit \"washing soda: 90 g\"
  trayside mix rosemary-soda --class --people 12 --each 4 --load 2 --trays 2 --volume 0.8 l
  trayside mix rosemary-soda --against fennel-soda
  trayside mix rosemary-soda --reach \"pH 10.2\" --with \"washing soda, anhydrous\"
  trayside mix rosemary-soda --baked \"100 g: 64 g\"
  trayside mix citrus-stop --swap \"citric acid: lemon juice\"
Every weighing is for the packet on the notebook's shelf, rounded to its scale. A recipe with a fault is not mixed")]
pub(crate) struct Mix {
    /// Recipe's id
    pub(crate) recipe: String,
    /// Finished volume to mix [default: what the recipe makes]
    #[arg(long, value_name = "AMOUNT", num_args = 1.., allow_negative_numbers = true, group = "target")]
    pub(crate) volume: Vec<String>,
    /// Tray of trayside.yaml to fill
    #[arg(long, value_name = "NAME", group = "target")]
    pub(crate) tray: Option<String>,
    /// How deep to fill it [default: 15 mm]
    #[arg(long, value_name = "AMOUNT", num_args = 1.., allow_negative_numbers = true, requires = "tray")]
    pub(crate) depth: Vec<String>,
    /// Sheets to develop, by the recipe's capacity
    #[arg(long, value_name = "NUMBER", group = "target")]
    pub(crate) sheets: Option<u64>,
    /// What there is of a material that runs short
    #[arg(long, value_name = "MATERIAL: AMOUNT", group = "target")]
    pub(crate) limit: Option<String>,
    /// Write it as a PDF to this file instead, on A5 pages
    #[arg(long, value_name = "FILE", conflicts_with_all = ["class", "against", "format"])]
    pub(crate) pdf: Option<PathBuf>,
    /// Another recipe: what differs between the two, in words
    #[arg(long, value_name = "RECIPE", conflicts_with_all = ["target", "depth"])]
    pub(crate) against: Option<String>,
    /// How much of a material makes this pH: what to add or to leave out, and how sure that is
    #[arg(long, value_name = "PH", num_args = 1.., requires = "with", conflicts_with_all = ["against", "class", "pdf"])]
    pub(crate) reach: Vec<String>,
    /// The acid or alkali with which to reach it; the recipe's own, or another
    #[arg(long, value_name = "MATERIAL", num_args = 1.., requires = "reach")]
    pub(crate) with: Vec<String>,
    /// Another material in the place of one of the recipe's: how much of it keeps the pH, or what silver gets, and what
    /// changes
    #[arg(long, value_name = "MATERIAL: MATERIAL", num_args = 1.., conflicts_with_all = ["against", "class", "pdf", "reach"])]
    pub(crate) swap: Vec<String>,
    /// A white soda weighed before and after the oven: what it was, what it is now, and how much of it the recipe wants
    #[arg(long, value_name = "BEFORE: AFTER", conflicts_with_all = ["against", "class", "pdf", "reach", "swap"])]
    pub(crate) baked: Option<String>,
    /// For a class: sheets, fills, litres, what to buy and what a sheet costs; the volume is that of one fill
    #[arg(long, conflicts_with = "against")]
    pub(crate) class: bool,
    /// How many people come [default: as trayside.yaml has it]
    #[arg(long, value_name = "NUMBER", requires = "class")]
    pub(crate) people: Option<u32>,
    /// Sheets for each [default: 2]
    #[arg(long, value_name = "NUMBER", requires = "class")]
    pub(crate) each: Option<u32>,
    /// Spare sheets, in percent [default: 0]
    #[arg(long, value_name = "PERCENT", num_args = 1.., requires = "class")]
    pub(crate) spare: Vec<String>,
    /// Sheets in a tray at once [default: as the notebook's line has it]
    #[arg(long, value_name = "NUMBER", requires = "class", value_parser = clap::value_parser!(u32).range(1..))]
    pub(crate) load: Option<u32>,
    /// Trays of this bath side by side [default: 1]
    #[arg(long, value_name = "NUMBER", requires = "class", value_parser = clap::value_parser!(u32).range(1..))]
    pub(crate) trays: Option<u32>,
    /// How long the trays must be ready [default: as long as the loads take]
    #[arg(long, value_name = "TIME", num_args = 1.., requires = "class")]
    pub(crate) lasts: Vec<String>,
    /// How to print it
    #[arg(long, value_enum, default_value_t = MixFormat::Text)]
    pub(crate) format: MixFormat,
    /// Notebook folder [default: the nearest parent with trayside.yaml]
    #[arg(long)]
    pub(crate) notebook: Option<PathBuf>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum MixFormat {
    /// For reading
    Text,
    /// One JSON object
    Json,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  trayside expose lamp-box
  trayside expose lamp-box --light 'cloudy bright'
  trayside expose lamp-box --light sun --at '2031-05-02 11:20' --paper grade-2-rc
Lights: EV 12.5, 8000 lx, 1/60 s at f/16, ISO 100, or a scene such as sun, open shade, home interior")]
pub(crate) struct Expose {
    /// Camera's id
    pub(crate) camera: String,
    /// Light, as an exposure notes it [default: a table of all scenes]
    #[arg(long, value_name = "LIGHT", num_args = 1..)]
    pub(crate) light: Vec<String>,
    /// Paper's id [default: every paper of the notebook]
    #[arg(long, value_name = "ID")]
    pub(crate) paper: Option<String>,
    /// When the hole will be opened: for the sun's place, and to leave later log entries aside
    #[arg(long, value_name = "DATE", num_args = 1..=2)]
    pub(crate) at: Vec<String>,
    /// Notebook folder [default: the nearest parent with trayside.yaml]
    #[arg(long)]
    pub(crate) notebook: Option<PathBuf>,
    /// How to print it
    #[arg(long, value_enum, default_value_t = ExposeFormat::Text)]
    pub(crate) format: ExposeFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ExposeFormat {
    /// For reading
    Text,
    /// One JSON object
    Json,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  trayside facts
  trayside facts recipes --json
  trayside facts recipes --why lamp-box.f-number")]
pub(crate) struct Facts {
    /// Notebook folder [default: this one]
    pub(crate) notebook: Option<PathBuf>,
    /// How to print facts
    #[arg(long, value_enum, default_value_t = FactsFormat::Text)]
    pub(crate) format: FactsFormat,
    /// Same as `--format json`
    #[arg(long, conflicts_with = "format")]
    pub(crate) json: bool,
    /// Same as `--format csv`
    #[arg(long, conflicts_with_all = ["format", "json"])]
    pub(crate) csv: bool,
    /// Where one fact comes from: its inputs, formula and sources
    #[arg(long, value_name = "ID.NAME", conflicts_with_all = ["format", "json", "csv"])]
    pub(crate) why: Option<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum FactsFormat {
    /// For reading
    Text,
    /// One JSON object
    Json,
    /// One line a fact
    Csv,
}

#[derive(Debug, Args)]
#[command(after_help = "Examples:\n  trayside why rinse-missing\n  trayside why --list")]
pub(crate) struct Why {
    /// Rule's name, as findings print it in brackets
    #[arg(required_unless_present = "list")]
    pub(crate) rule: Option<String>,
    /// Every rule, a line each
    #[arg(long)]
    pub(crate) list: bool,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Examples:
  trayside schema > trayside.schema.json
  trayside schema recipe
  trayside schema trayside.yaml")]
pub(crate) struct Schema {
    /// A kind of block, `trayside.yaml` or `page` [default: all of them]
    pub(crate) kind: Option<String>,
}

#[derive(Debug, Args)]
#[command(after_help = "\
Example, for this session of bash:
  source <(trayside completions bash)")]
pub(crate) struct Completions {
    /// Shell
    pub(crate) shell: clap_complete::Shell,
}
