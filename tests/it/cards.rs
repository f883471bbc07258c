//! The demo notebook's cards: pressed, measured in the PDF, and read back as a stranger would read them.

use std::path::Path;
use std::sync::LazyLock;

use trayside::host::Disk;
use trayside::pipeline::{Proof, Silent, proof};
use trayside::views;
use trayside::views::card::Card;

/// The demo notebook.
static DEMO: LazyLock<Proof> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes");
    proof(&Disk::open(&folder).expect("the demo"), &Silent).expect("a notebook")
});

#[test]
fn look() {
    let made = views::cards(&DEMO.notebook, &DEMO.facts, &DEMO.findings);
    let layout = views::layout(&DEMO.notebook.settings);
    println!("{:#?}", made.left_out);
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let press = trayside::press::Press::new();
    for card in &made.cards {
        let pressed = press.card(card, &layout);
        println!("{} {:?}", card.id, pressed.faults);
        Disk::write_file(&folder.join(format!("{}.pdf", card.id)), &pressed.pdf).expect("written");
    }
}
