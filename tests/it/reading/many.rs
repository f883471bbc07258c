//! Many mistakes at once, and mistakes on which others would follow: as many findings as mistakes, no more.

use trayside::host::Memory;
use trayside::pipeline::SETTINGS;

use super::{unmarked, wrong};
use crate::support::{USUAL, check_spans, proofed, proofed_page, seen};

/// The findings of a page as (rule, line, column, text).
fn found(page: &str) -> Vec<(&'static str, usize, usize, String)> {
    let proof = proofed_page(page);
    check_spans(&proof);
    seen(&proof)
        .into_iter()
        .map(|one| (one.rule, one.line, one.column, one.text))
        .collect()
}

/// Checks that the marks of a page are its only findings, with these rules.
fn only(page: &str, rules: &[&str]) {
    let (clean, marks) = unmarked(page);
    let awaited: Vec<_> = rules
        .iter()
        .zip(marks)
        .map(|(rule, (line, column, text))| (*rule, line, column, text))
        .collect();
    assert_eq!(found(&clean), awaited, "{clean}");
    assert_eq!(awaited.len(), rules.len());
}

#[test]
fn seven_mistakes_in_one_block_are_seven_findings() {
    let sound = "\
> - été
>
>   ```recipe
>   id: subject
>   role: stop
>   makes: 1 l
>   add:
>     citric acid, anhydrous: 10 g
>     plain salt: 5 g
>   use:
>     temperature: 20 °C
>     time: 30 s
>   keeps: 12 h
>   waste: sink
>   ```
";
    let marked = "\
> - été
>
>   ```recipe
>   id: subject
>   role: «stpo»
>   makes: 1 «litr»
>   add:
>     citric acid, anhydrous: 10 «gg»
>     plain salt: «5 min»
>   use:
>     temperature: «warm»
>     «tmie»: 30 s
>   keeps: 12 h
>   «makes»: 2 l
>   ```
";
    // The parser of blocks speaks first; all are in order of place in the end.
    let told = wrong(
        &seen(&super::notebook(sound)),
        marked,
        &[
            "word-unknown",
            "unit-unknown",
            "unit-unknown",
            "dimension-wrong",
            "amount-malformed",
            "key-unknown",
            "key-repeated",
        ],
    );
    assert!(told.is_none(), "{}", told.unwrap_or_default());
}

#[test]
fn three_of_seven_in_a_list_inside_a_quote() {
    let page = "\
```paper
id: one
base: «RCC»
speed: «six»
size: 5×7 «ni»
«tickness»: 1 mm
```

> - été
>
>   ```paper
>   id: two
>   base: RC
>   «colour»: blue
>   silver: «1.2»
>   opened: «2031-13-01»
>   ```
";
    only(
        page,
        &[
            "word-unknown",
            "amount-malformed",
            "unit-unknown",
            "key-unknown",
            "key-unknown",
            "unit-missing",
            "date-malformed",
        ],
    );
}

#[test]
fn a_fence_that_is_never_closed_is_one_finding() {
    only("«»```paper\nid: one\nbase: RC\n", &["fence-open"]);
    only("«»```paper\nid: one\nbase: RC", &["fence-open"]);
    only(
        "«»```paper\nid: one\nbase: RC\n\nSome prose: and *more* of it.\n\n## A heading\n\n- a list\n",
        &["fence-open"],
    );
    only(
        "«»```paper\nid: one\nbase: RC\n``\n\nSome `prose`.\n",
        &["fence-open"],
    );
    only(
        "«»````paper\nid: one\nbase: RC\n```\n\nSome `prose`.\n",
        &["fence-open"],
    );
}

#[test]
fn a_fence_that_is_never_closed_does_not_swallow_the_next_block() {
    let page = "\
«»```paper
id: one
base: RC

Some prose: with a colon.

```paper
id: two
base: «fibree»
```

More prose.

```camera
id: box
pinhole: 0.3 mm
distance: 100 mm
format: 4×5 in
```
";
    only(page, &["fence-open", "word-unknown"]);
    let (clean, _) = unmarked(page);
    let proof = proofed_page(&clean);
    for id in ["one", "two", "box"] {
        assert!(proof.notebook.block(id).is_some(), "{id}");
    }
}

#[test]
fn quotes_that_are_never_closed_are_one_finding() {
    for page in [
        "```paper\nid: one\nbase: RC\nnote: «\"»soft\n```\n",
        "```paper\nid: one\nnote: «\"»soft\nbase: RC\nspeed: 6\n```\n",
        "```paper\nid: one\nnote: «\"»soft\nbase: RC\nbatch: \"12\"\n```\n",
        "```paper\nid: one\nnote: «'»soft\nbase: RC\nbatch: '12'\nspeed: 6\n```\n",
        "> ```paper\n> id: one\n> note: «\"»soft\n> base: RC\n> ```\n",
    ] {
        only(page, &["yaml-broken"]);
    }
}

#[test]
fn a_document_mark_inside_a_block_is_one_finding() {
    let page = "```paper\nid: one\n«---»\nbase: RC\nspeed: 6\n```\n";
    only(page, &["yaml-broken"]);
    let proof = proofed_page(&unmarked(page).0);
    assert!(proof.facts.named("one.speed").is_some());
    only(
        "```paper\nid: one\n«---»\nbase: RC\n---\nspeed: 6\n```\n",
        &["yaml-broken"],
    );
}

#[test]
fn broken_lines_are_one_finding_each() {
    only(
        "```paper\nid: one\ntags: «[»a, b\nbase: RC\nspeed: «six»\n```\n",
        &["yaml-broken", "amount-malformed"],
    );
    only(
        "```paper\nid: one\nbase: RC\nspeed: «{»value: 6\nbatch: z\n```\n",
        &["yaml-broken"],
    );
    only(
        "```paper\nid: one\nbase: RC\ntags: [a b]«]»\nbatch: z\n```\n",
        &["yaml-broken"],
    );
    only(
        "```paper\nid: one\nbase: RC\n«s»peed:6\nbatch: z\n```\n",
        &["yaml-broken"],
    );
    only(
        "```paper\nid: one\nbase: RC\nnote: «-» a\nbatch: z\n```\n",
        &["yaml-broken"],
    );
    only(
        "```paper\nid: one\nbase: RC\nnote: «|»soft\nbatch: z\n```\n",
        &["yaml-broken"],
    );
    only(
        "```paper\nid: one\nbase: RC\nnote: «\"»a\" b\nspeed: «six»\n```\n",
        &["yaml-broken", "amount-malformed"],
    );
    only(
        "```paper\nid: one\nbase: RC\ngrade: x\n«\t»note: 3\nbatch: z\n```\n",
        &["yaml-tab"],
    );
    only(
        "```paper\nid: one\nnote: grade 2«:» soft\nbase: RC\n```\n",
        &["yaml-broken"],
    );
    only(
        "```paper\nid: one\nnote: «@»soft\nbase: RC\n```\n",
        &["yaml-broken"],
    );
    only(
        "```paper\nid: one\nnote: «%»soft\nbase: RC\n```\n",
        &["yaml-broken"],
    );
    only(
        "```paper\nid: one\nnote: a«:» b\nbase: RC\nspeed: «six»\ngrade: c«:» d\n```\n",
        &["yaml-broken", "amount-malformed", "yaml-broken"],
    );
    only(
        "```paper\nid: one\nbase: RC\ntags: «[»a, b\n```\n",
        &["yaml-broken"],
    );
}

#[test]
fn a_name_taken_twice_does_not_break_references_to_the_second() {
    only(
        "```camera\nid: one\npinhole: 0.3 mm\ndistance: 100 mm\nformat: 4×5 in\n```\n\n\
         ```paper\nid: «one»\nbase: RC\n```\n\n\
         ```exposure\nid: shot\nwhen: 2031-05-02 12:00\ncamera: one\npaper: one\nlight: EV 12\ntime: 20 s\n```\n",
        &["id-duplicate"],
    );
}

#[test]
fn a_block_that_lost_its_name_does_not_break_references_to_it() {
    only(
        "```paper\nid: plain «two»: soft\nbase: RC\n```\n\n\
         ```safelight\nid: lamp\nlamp: red\ncolour: red\ndistance: 1 m\nswitches: red only\n\
         tested:\n  date: 2031-05-01\n  paper: plain-two\n  bare: clean to 9 min\n  pre-exposed: clean to 8 min\n```\n"
            .replace("«two»: soft", "two«:» soft")
            .as_str(),
        &["yaml-broken"],
    );
    only(
        "```paper\nid: «plain two»\nbase: RC\n```\n\n\
         ```safelight\nid: lamp\nlamp: red\ncolour: red\ndistance: 1 m\nswitches: red only\n\
         tested:\n  date: 2031-05-01\n  paper: plain two\n  bare: clean to 9 min\n  pre-exposed: clean to 8 min\n```\n",
        &["id-malformed"],
    );
}

#[test]
fn a_mistyped_based_on_does_not_miss_what_it_would_supply() {
    only(
        "```recipe\nid: a\nrole: stop\nmakes: 1 l\nadd:\n  citric acid, anhydrous: 15 g\nuse:\n  temperature: 20 °C\n  time: 30 s\nkeeps: 12 h\n```\n\n\
         ```recipe\nid: b\n«base on»: a\nkeeps: 10 h\n```\n",
        &["key-unknown"],
    );
}

#[test]
fn a_fact_of_a_broken_block_is_not_missed_in_prose() {
    only(
        "```camera\nid: box\npinhole: 0.3 «mn»\ndistance: 100 mm\nformat: 4×5 in\n```\n\nIt has {{ box.f-number }}.\n",
        &["unit-unknown"],
    );
    only(
        "```camera\nid: box\npinhole: 0.3 mm\ndistance: 100 mm\nformat: 4×5 in\n```\n\nIt has {{ «box.f-nubmer» }}.\n",
        &["fact-unknown"],
    );
}

#[test]
fn a_mistake_that_hides_an_expected_one_is_one_finding() {
    only(
        "```paper\nid: one\nbase: «RCC»\nexpects: [amount-out-of-range]\n```\n",
        &["word-unknown"],
    );
}

#[test]
fn words_about_rules_are_checked() {
    only(
        "```paper\nid: one\nbase: RC\nexpects: [«key-unknwon»]\n```\n",
        &["rule-unknown"],
    );
    only(
        "```paper\nid: one\nbase: RC\nexpects: [«key-unknown»]\n```\n",
        &["expected-missing"],
    );
    only(
        "```paper\nid: one\nbase: RC\nacknowledge:\n  «zone-missing»: none\n```\n",
        &["acknowledged-idle"],
    );
    only(
        "```paper\nid: one\nbase: RC\nacknowledge:\n  «key-unknown»: none\n```\n",
        &["grade-fixed"],
    );
    only(
        "```paper\nid: one\nbase: RC\nacknowledge: «none»\n```\n",
        &["value-shape"],
    );
    only(
        "```paper\nid: one\nbase: RC\nacknowledge:\n  «zone-missing»:\n```\n",
        &["value-missing"],
    );
    only(
        "format: 1\ntitle: A\nzone: Europe/Lisbon\nrules:\n  acknowledged-idle: off\n---8<---\n```paper\nid: one\nbase: RC\nacknowledge:\n  zone-missing: none\n```\n",
        &[],
    );
}

#[test]
fn links_and_references_are_placed_in_every_surrounding() {
    only("See [x](«#nowhere»).\n", &["link-broken"]);
    only("Été ½ [x](«nowhere.md»), [y](page.md).\n", &["link-broken"]);
    only("> - été [x](<«no where.md»>).\n", &["link-broken"]);
    only("- a\n\n  ![x](«no.png»)\n", &["picture-missing"]);
    only("«[x]»\n\n[x]: no.md\n", &["link-broken"]);
    only(
        "| a | b |\n| --- | --- |\n| ½ | {{ «no.pH» }} |\n",
        &["fact-unknown"],
    );
    only("# {{ «no.pH» }}\n", &["fact-unknown"]);
    only(
        "*{{ «no.pH» }}* and **{{ «no.x» }}**\n",
        &["fact-unknown", "fact-unknown"],
    );
    only("[{{ «no.pH» }}](page.md)\n", &["fact-unknown"]);
    only("{{  «»}}\n", &["fact-unknown"]);
    only("{{ «no_such_block.pH_now» }}\n", &["fact-unknown"]);
}

/// The findings of a notebook whose settings are marked.
fn of_settings(settings: &str, rules: &[&str]) {
    let (clean, marks) = unmarked(settings);
    let page = "```paper\nid: one\nbase: RC\nopened: 2031-05-02\n```\n";
    let proof = proofed(&Memory::new().with(SETTINGS, clean.as_str()).with("page.md", page));
    check_spans(&proof);
    let found: Vec<_> = seen(&proof)
        .into_iter()
        .map(|one| (one.rule, one.line, one.column, one.text))
        .collect();
    let awaited: Vec<_> = rules
        .iter()
        .zip(marks)
        .map(|(rule, (line, column, text))| (*rule, line, column, text))
        .collect();
    assert_eq!(found, awaited, "{clean}");
}

#[test]
fn settings_have_one_finding_for_each_mistake() {
    of_settings(USUAL, &[]);
    for (from, to, rule) in [
        ("zone: Europe/Lisbon", "zone: «Europe/Lisbno»", "word-unknown"),
        ("zone: Europe/Lisbon", "«zoen»: Europe/Lisbon", "key-unknown"),
        ("zone: Europe/Lisbon", "«zone»:", "value-missing"),
        ("zone: Europe/Lisbon", "zone: «[Europe/Lisbon]»", "value-shape"),
        ("zone: Europe/Lisbon", "zone: Europe«:» Lisbon", "yaml-broken"),
        ("title: The usual notebook\n", "", "key-missing"),
        ("scale: 0.1 g", "scale: «0.1 ml»", "dimension-wrong"),
        ("minors: no", "minors: «nope»", "word-unknown"),
        ("  latitude: 38.7", "  latitude: «98.7»", "amount-out-of-range"),
        ("  latitude: 38.7\n", "", "key-missing"),
        ("2031-01-09", "«9 January»", "date-malformed"),
        ("by: R. Moss", "rules:\n  key-unknown: «hint»", "grade-fixed"),
        ("by: R. Moss", "rules:\n  zone-missing: «hnit»", "word-unknown"),
        ("by: R. Moss", "rules:\n  «zone-mising»: hint", "rule-unknown"),
        ("by: R. Moss", "rules: «off»", "value-shape"),
        ("by: R. Moss", "rules:\n  «zone-missing»:", "value-missing"),
        ("by: R. Moss", "decimal: «pont»", "word-unknown"),
        ("format: 1", "format: «2»", "word-unknown"),
        ("  site: {}", "  site: {}\n  «sit»: {}", "key-unknown"),
    ] {
        let mut text = USUAL.replacen(from, to, 1);
        assert_ne!(text, USUAL);
        if rule == "grade-fixed" {
            text = text.replace("  key-unknown: «hint»", "  «key-unknown»: hint");
        }
        if !text.contains(super::OPEN) {
            text = match from {
                "  latitude: 38.7\n" => text.replace("place:", "«place»:"),
                _ => format!("«»{text}"),
            };
        }
        of_settings(&text, &[rule]);
    }
}

#[test]
fn front_matter_is_read_as_strictly_as_blocks() {
    use trayside::notebook::Audience;
    only(
        "---\ntitle: A\n«auddience»: private\n---\n\nText.\n",
        &["key-unknown"],
    );
    only("---\ntitle: «[A]»\n---\n\nText.\n", &["value-shape"]);
    only(
        "---\ntitle: A\naudience: «secret»\n---\n\nText.\n",
        &["word-unknown"],
    );
    only(
        "---\ntitle: A\ndate: «last May»\n---\n\nText.\n",
        &["date-malformed"],
    );
    only(
        "---\r\ntitle: A\r\ndate: «last May»\r\n---\r\n\r\nText.\r\n",
        &["date-malformed"],
    );
    only("---\ntitle: A«:» b\n---\n\nText.\n", &["yaml-broken"]);
    only("---\n«title»:\n---\n\nText.\n", &["value-missing"]);
    only("«»---\ntitle: A\naudience: private\n\nText.\n", &["fence-open"]);
    only("---\n\nA rule above: nothing more.\n", &[]);
    for page in [
        "---\ntitle: A\naudience: private\n\nText.\n",
        "---\ntitle: A\naudience: priate\n---\n\nText.\n",
        "---\ntitle: A: b\naudience: private\n---\n\nText.\n",
        "---\nauddience: private\n---\n\nText.\n",
    ] {
        let proof = proofed_page(page);
        assert_eq!(proof.notebook.pages[0].audience, Audience::Private, "{page}");
    }
}

#[test]
fn a_link_into_a_page_is_offered_the_nearest_heading() {
    let offered = |link: &str| {
        let page = format!("# Notes\n\nSee [x]({link}).\n\n## Straße für Fußgänger\n\n## Rain on glass\n");
        let host = Memory::new().with(SETTINGS, USUAL).with("page.md", page);
        let proof = proofed(&host);
        let broken = proof
            .findings
            .iter()
            .find(|one| one.rule.as_str() == "link-broken");
        broken.unwrap().help.clone().unwrap_or_default()
    };
    let street = "did you mean `#straße-für-fußgänger`?";
    assert_eq!(offered("#strasse-fuer-fussgaenger"), street);
    assert_eq!(offered("#strasse"), street);
    assert_eq!(offered("#rain"), "did you mean `#rain-on-glass`?");
    assert_eq!(offered("#snow"), "write `#` and the id of a block");
}
