//! What is said of silver where a bath holds none: nothing. EPA 530-K-99-002, on photo processing waste, speaks of silver
//! in what fixes; that water and salts without a solvent for silver take none up is common practice, no source.

use trayside::host::Memory;
use trayside::pipeline::{Proof, Silent, proof};
use trayside::views;

const BATHS: &str = "\
```recipe
id: water
role: fixer
makes: 1 l
keeps: 1 day
```

```recipe
id: hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 1 day
```

```recipe
id: soda-jar
role: stock
makes: 1 l
add:
  washing soda, anhydrous: 36 g
keeps: 1 week
```

```batch
id: soda-one
of: soda-jar
made: 2031-05-02 19:00
volume: 1 l
```

```batch
id: hypo-one
of: hypo
made: 2031-05-02 19:00
volume: 1 l
```
";

fn notebook(answer: &str) -> Proof {
    let settings = format!(
        "title: T\nzone: Europe/Lisbon\ndrain:\n  asked: Lower Quay Water\n  on: 2031-03-03\n  answer: {answer}\n"
    );
    let host = Memory::new()
        .with("trayside.yaml", settings.as_str())
        .with("page.md", BATHS);
    proof(&host, &Silent).expect("a notebook")
}

/// Where the label of a batch says that it goes.
fn label(proof: &Proof, batch: &str) -> String {
    let labels = views::labels(&proof.notebook, &proof.facts, &proof.findings).labels;
    let label = labels.into_iter().find(|label| label.id == batch);
    label.expect("a label").waste
}

#[test]
fn only_what_dissolves_silver_is_said_to_hold_some() {
    let proof = notebook("All of it to the sewer.");
    let silver = |id: &str| {
        let bath = proof.facts.baths.get(id).expect("a bath");
        let lines = views::cautions(bath, &proof.notebook, &proof.findings);
        lines
            .iter()
            .any(|line| line.text.to_lowercase().contains("silver"))
    };
    assert!(silver("hypo"));
    assert!(!silver("water"));
    assert!(!silver("soda-jar"));
}

#[test]
fn an_answer_is_printed_as_it_was_given() {
    let answer = "Used fixer to the collection point. Developers to the sewer.";
    let proof = notebook(answer);
    for batch in ["hypo-one", "soda-one"] {
        assert_eq!(label(&proof, batch), answer);
    }
}
